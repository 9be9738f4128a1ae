"""What an update that leaves the runtime alone costs on the wire: the page, of the core what is new."""

from __future__ import annotations

import json
import marshal
from collections import defaultdict
from pathlib import Path

from builder import parts
from builder.places import files_below

_WITHOUT_HASH = ("index.html", "service_worker.js")


def sent(file: Path) -> int:
    """Bytes of a file over the wire, with brotli where it is ready."""
    packed = file.with_name(file.name + ".br")
    return (packed if packed.is_file() else file).stat().st_size


def fetched_at_first(folder: Path) -> list[Path]:
    """The files that a first visit fetches: none that is packed beside another, no part of another."""
    return [
        file
        for file in files_below(folder)
        if file.suffix not in (".br", ".gz") and file.parent.name != parts.FOLDER
    ]


def _room(module: str) -> str:
    names = module.split(".") if "/" not in module else ["calc", "tables"]
    return ".".join(names[: 3 if names[1:2] == ["stages"] else 2])


def by_room(site: Path) -> dict[str, int]:
    """Bytes of an update in which the page is new, and one room of the core from end to end."""
    (core,) = (site / "runtime").glob("core-*.bin")
    (listed,) = (site / "runtime").glob("core-parts-*.json")
    content, told = core.read_bytes(), json.loads(listed.read_text("utf-8"))["parts"]
    begin = 4 + int.from_bytes(content[:4], "little")
    # The index holds nothing but texts and numbers, which every Python marshals alike.
    rooms = [_room(name) for name in marshal.loads(content[4:begin])]
    sizes = [sent(core.parent / parts.FOLDER / f"part-{digest}.bin") for digest, _ in told]
    first = fetched_at_first(site)
    page = [file for file in first if file.parent.name == "app" or file.name in _WITHOUT_HASH]
    always = sum(map(sent, page)) + sent(listed) + sizes[0]
    cost: dict[str, int] = defaultdict(lambda: always)
    for room, size in zip(rooms, sizes[1:], strict=True):
        cost[room] += size
    return dict(cost)
