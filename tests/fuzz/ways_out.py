"""What a refusal tells the person to type: its offers, its examples, and the ends of a range."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

_EXAMPLE = re.compile(r"(?:such as:?|, as in) ([^;]+?)(?:\.?$|\. |, or (?=degrees)|, per )")
_ENDS = re.compile(
    r"(?:at least|from) (?P<least>\S+(?: (?:mm|in/ft|in|%))?)(?: \([^)]*\))?"
    r" (?:and at most|to) (?P<most>\S+(?: (?:mm|in/ft|in|%))?)"
)


def examples(way_out: str) -> Iterator[str]:
    """Measures that a way out shows: "such as 12.5 mm, 1-3/8 in or #7 drill"."""
    for found in _EXAMPLE.finditer(way_out):
        for each in re.split(r" or |, (?=\S+ )", found[1]):
            yield each.strip(" ,“”")


def ends(way_out: str) -> Iterator[str]:
    """Both ends of a range that is told in numbers."""
    found = _ENDS.search(way_out)
    if found:
        yield found["least"]
        yield found["most"].rstrip(".")


def to_type(fault: Mapping[str, Any]) -> Iterator[tuple[str, bool]]:
    """Every text that a refusal suggests; whether it only shows how one is written, whatever its size."""
    for offer in list(fault["offers"])[:3]:
        yield offer, False
    for end in ends(fault["way_out"]):
        yield end, False
    for example in examples(fault["way_out"]):
        yield example, True


def tells_a_range(fault: Mapping[str, Any]) -> bool:
    """Whether a refusal is of the size and not of how it is written."""
    return bool(re.match("It must be|Sizes go from|Type a whole number from", fault["way_out"]))
