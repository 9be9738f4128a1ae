"""Lines for measures: along a part, across it, and the measures in one sentence."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from calc.drawings.svg import FINE, INK, SOFT, Picture

ROW = 18.0


def across(picture: Picture, left: float, right: float, y: float, reach: float) -> None:
    """A length at height `y`; its end lines come down from the height `reach`."""
    for x in (left, right):
        picture.line([(x, reach), (x, y + 4)], SOFT, FINE)
    picture.line([(left, y), (right, y)], INK, FINE, role="dimension")
    if right - left > 18:
        picture.head((left, y), pi, 6, INK)
        picture.head((right, y), 0.0, 6, INK)


def upright(picture: Picture, x: float, top: float, bottom: float, role: str = "dimension") -> None:
    """The line of a diameter at `x`."""
    picture.line([(x, top), (x, bottom)], INK, FINE, role=role)
    if bottom - top > 16:
        picture.head((x, top), pi / 2, 6, INK)
        picture.head((x, bottom), -pi / 2, 6, INK)


def in_words(rows: Sequence[tuple[str, str]]) -> str:
    """Rows of what it is and its measure as one sentence, for whoever cannot see the picture."""
    return "; ".join(f"{what} {measure}" for what, measure in rows)
