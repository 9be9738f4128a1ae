"""The trade's words, settled: setting shows none of the words that were given up, in either system."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest

from calc.setting import WAYS
from door import demo

SLIDES = r"(?<!top )(?<!Top )(?<!cross-)(?<!Cross-)"
BARS = r"(?<!sine )(?<!Sine )(?<!test )(?<!Test )(?<!guide )(?<!Guide )(?<!boring )"
GIVEN_UP = {
    "slide without which": SLIDES + r"\b[Ss]lide(?:'s)?\b(?! the stand| gauge)",
    "dial for an indicator": r"\b[Dd]ials?\b(?! (?:test )?indicator)",
    "pin for a roller": r"(?<!dowel )\bpins?\b",
    "bar without which": BARS + r"\b[Bb]ar(?:'s)?\b(?! stock)(?! and stack)",
    "nought": r"\bnoughts?\b",
    "flank": r"\bflanks?\b",
    "told, tell": r"\b(?:told|tells?|you said)\b",
    "flat for shallow": r"\b(?:too flat|flatter)\b",
    "play for backlash": r"\bplay in the screw\b",
    "dog alone": r"(?<!\()\bdog\b",
    "complement": r"\bcomplement\b",
    "immune, feels": r"\b(?:immune|feels? it)\b",
    "sweep": r"\b[Ss]weep|\bswept\b",
    "alike at both ends": r"read alike|stand still",
    "half round": r"half round\b",
    "right first time": r"[Rr]ight first time|first cut is right",
    "mending": r"\bmending\b",
    "licensed": r"\blicen[cs]e",
    "turns a minute": r"turns a minute|turns/min",
    "kelvin": r"\bK\b|[Kk]elvin",
}
NO_TENTH = re.compile(r"\btenths?\b")
BARE_SIGN = re.compile(r"^[+−-]\d")
ENTRIES: list[dict[str, str]] = [
    {},
    {"taper.form": "internal", "taper.small_end": ""},
    {"setting.cut_side": "far", "setting.bar_side": "far", "setting.packing": "2 mm"},
    {
        "setting.bar_centres": "-3",
        "setting.work_length": "0",
        "setting.travel": "x",
        "setting.zero": "across",
    },
    {"setting.travel_along": "carriage", "setting.attachment_by": "scale", "setting.centres": "ball"},
    {"setting.collar_measured": "2.9 mm", "setting.master_lies": "headstock", "setting.grade": "0.002 mm"},
    {"setting.aim": "large_end", "setting.film": "0.003 mm", "setting.plate_from": "upright"},
]


def texts(thing: Any, system: str) -> Iterator[str]:
    """Every text that is shown of a stage in one system: not ids, values, entries or pieces as named."""
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, (list, tuple)):
        for each in thing:
            yield from texts(each, system)
    elif isinstance(thing, dict):
        if set(thing) == {"mm", "inch"}:
            yield thing[system]
            return
        for name, part in thing.items():
            if name not in (
                "id",
                "value",
                "kind",
                "unit",
                "drawing",
                "rows",
                "default",
                "asks",
                "shows",
                "phase",
                "level",
                "group",
            ):
                if name != "source" and name != "cautions" or isinstance(part, list):
                    yield from texts(part, system)


@pytest.mark.parametrize("way", [each.ID for each in WAYS])
@pytest.mark.parametrize("entries", ENTRIES, ids=range(len(ENTRIES)))
def test_settled_words(way: str, entries: dict[str, str]) -> None:
    for system in ("mm", "inch"):
        sheet = demo({**entries, "setting.way": way}, units=system)
        stage = next(each for each in sheet["stages"] if each["id"] == "setting")
        shown = [each for each in texts({**stage, "drawing": ""}, system) if each]
        for name, pattern in GIVEN_UP.items():
            found = [each for each in shown if re.search(pattern, each)]
            assert not found, (name, found[:3])
        if system == "mm":
            found = [each for each in shown if NO_TENTH.search(each)]
            assert not found, found[:3]
        for figure in stage["figures"]:
            assert not BARE_SIGN.search(figure["shown"][system]), figure["id"]
