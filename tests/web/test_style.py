"""The page's look: one file a folder, and every colour written once for each look, in one place."""

from __future__ import annotations

import re
from pathlib import Path

SRC = Path(__file__).resolve().parents[2] / "web" / "src"
SHEETS = sorted(SRC.rglob("*.css"))
_COLOUR = re.compile(r"#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|oklch|lab)a?\(", re.IGNORECASE)


def _rules(text: str) -> str:
    return re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)


def test_every_sheet_is_bundled() -> None:
    whole = (SRC / "style.css").read_text("utf-8")
    named = re.findall(r'@import "\./([^"]+)";', whole)
    assert sorted(named) == [file.relative_to(SRC).as_posix() for file in SHEETS if file.parent != SRC]
    assert "{" not in _rules(whole), "rules stand beside the part that they are about"


def test_colours_stand_in_the_palette_alone() -> None:
    for file in SHEETS:
        found = [line for line in _rules(file.read_text("utf-8")).splitlines() if _COLOUR.search(line)]
        if file.name == "look.css":
            continue
        # A shadow is black in both looks.
        assert [line.strip() for line in found if "box-shadow" not in line] == [], file.name


def test_each_colour_is_written_once_for_each_look() -> None:
    look = _rules((SRC / "look" / "look.css").read_text("utf-8")).split("@media print")[0]
    names = re.findall(r"^\s*(--[a-z]+):.*#", look, re.MULTILINE)
    assert len(names) >= 8 and len(names) == len(set(names))
    for line in look.splitlines():
        if _COLOUR.search(line):
            assert re.search(r": var\(--daylight, #[0-9a-f]+\) var\(--dark, #[0-9a-f]+\);", line), line
