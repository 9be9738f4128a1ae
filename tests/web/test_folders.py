"""The floors of `web/src`: imports between its folders go down only, and so form no circle."""

from __future__ import annotations

import os
import re
from pathlib import Path

SRC = Path(__file__).resolve().parents[2] / "web" / "src"

# From the ground up. A folder imports only from floors beneath its own; what two of one floor need moves down.
FLOORS: list[set[str]] = [
    # Beneath everything: files at the root that import nothing of the page, what the build writes, the workers.
    {"contract", "words", "generated", "worker", "offline_store"},
    # State: what is so, without a view.
    {"bridge", "speech", "store", "undo", "view"},
    {"job"},
    {"link"},
    # Parts of the page that know no feature.
    {"parts"},
    # Features.
    {"band", "begin", "keypad", "kept", "look", "offline", "paper", "pieces"},
    {"fields", "later"},
    {"sheet"},
    # Places: a screen each, made of features.
    {"card", "change", "keep", "lathe", "start"},
    {"shop"},
    {"frame"},
    {"main", "service_worker"},
]
STATE = {"bridge", "speech", "store", "undo", "view", "job", "link"}

_IMPORT = re.compile(r"""(?:\bfrom|\bimport)\s*\(?\s*["'](\.[^"']*)["']""")


def _room(path: Path) -> str:
    """The folder a file stands in, or, at the root, the file's own name."""
    return path.parts[0].split(".")[0]


def imports(src: Path) -> dict[tuple[str, str], list[str]]:
    """Every import from one room of the tree into another, with the files that make it."""
    found: dict[tuple[str, str], list[str]] = {}
    for file in sorted([*src.rglob("*.ts"), *src.rglob("*.tsx")]):
        here = file.relative_to(src)
        for target in _IMPORT.findall(file.read_text("utf-8")):
            there = Path(os.path.normpath(here.parent / target))
            if _room(here) != _room(there):
                found.setdefault((_room(here), _room(there)), []).append(f"{here} imports {there}")
    return found


def wrong(found: dict[tuple[str, str], list[str]], floors: list[set[str]]) -> list[str]:
    """The imports that do not go down, and the rooms that have no floor."""
    level = {room: height for height, rooms in enumerate(floors) for room in rooms}
    faults: list[str] = []
    for (above, below), lines in found.items():
        for room in (above, below):
            if room not in level:
                faults.append(f"{room} has no floor in this file")
        if level.get(above, 0) <= level.get(below, 0):
            faults += lines
    return faults


def test_imports_between_the_folders_go_down_only() -> None:
    found = imports(SRC)
    assert len(found) > 20, "the imports were not found"
    assert wrong(found, FLOORS) == []


def test_what_holds_state_holds_no_view() -> None:
    assert [file.name for room in STATE for file in (SRC / room).glob("*.tsx")] == []


def test_an_import_upwards_sideways_or_from_nowhere_is_found(tmp_path: Path) -> None:
    for name, text in {
        "low/a.ts": 'import { b } from "../high/b";\nimport type { c } from "../beside/c";',
        "low/own.ts": 'import "./a";',
        "high/b.tsx": 'export { a } from "../low/a";\nconst late = import("../stray/d");',
        "beside/c.ts": "",
        "stray/d.ts": "",
    }.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text)
    assert sorted(wrong(imports(tmp_path), [{"low", "beside"}, {"high"}])) == [
        "low/a.ts imports beside/c",
        "low/a.ts imports high/b",
        "stray has no floor in this file",
    ]
