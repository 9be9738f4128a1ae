"""Dimensions by letter: a letter stands in the picture, its measure in a row of words below.

Long texts in either system fit a narrow screen this way, whatever the part's proportions.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from calc.drawings import svg
from calc.drawings.svg import FINE, INK, MARK, SOFT, WIDTH, Picture

ROW = 18.0
LETTERS = "ABCDEFGHJKLMNP"


def letter(picture: Picture, at: svg.Point, text: str) -> None:
    """A letter centred on a point, on its own ground."""
    picture.text((at[0], at[1] + 5), text, "middle", MARK, bold=True)


def across(
    picture: Picture, left: float, right: float, y: float, name: str, reach: tuple[float, float]
) -> None:
    """A length at height `y` with its letter; `reach` are the heights from which its end lines come."""
    for x, start in ((left, reach[0]), (right, reach[1])):
        picture.line([(x, start), (x, y + 4)], SOFT, FINE)
    picture.line([(left, y), (right, y)], INK, FINE, role="dimension")
    if right - left > 18:
        picture.head((left, y), pi, 6, INK)
        picture.head((right, y), 0.0, 6, INK)
    if right - left > 40:
        letter(picture, ((left + right) / 2, y), name)
    else:
        side = right + 12 if right + 18 < WIDTH else left - 12
        letter(picture, (side, y), name)


def upright(
    picture: Picture, x: float, top: float, bottom: float, name: str, role: str = "dimension"
) -> None:
    """A diameter at `x` with its letter beside the line's middle."""
    picture.line([(x, top), (x, bottom)], INK, FINE, role=role)
    if bottom - top > 16:
        picture.head((x, top), pi / 2, 6, INK)
        picture.head((x, bottom), -pi / 2, 6, INK)
    letter(picture, (x, (top + bottom) / 2), name)


def legend(picture: Picture, top: float, rows: Sequence[tuple[str, str, str]], notes: Sequence[str]) -> float:
    """Rows of letter, what it is and its measure, then notes; answers the height that they end at."""
    y = top
    for name, what, measure in rows:
        y += ROW
        picture.text((12, y), name, "middle", MARK, bold=True)
        picture.text((26, y), svg.fitted_with_tail(what, measure, WIDTH - 32))
    for line in notes:
        y += ROW
        picture.text((WIDTH / 2, y), svg.fitted(line, WIDTH - 12), "middle", INK)
    return y + 8


def in_words(rows: Sequence[tuple[str, str, str]]) -> str:
    """The rows as one sentence, for whoever cannot see the picture."""
    return "; ".join(f"{what} {measure}" for _, what, measure in rows)
