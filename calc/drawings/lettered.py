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
APART, EDGE = 18.0, 9.0


def letter(picture: Picture, at: svg.Point, text: str) -> None:
    """A letter centred on a point, on its own ground, inside the picture."""
    x = min(max(at[0], 8.0), WIDTH - 8.0)
    picture.text((x, at[1] + 5), text, "middle", MARK, bold=True)


def apart(places: Sequence[float]) -> list[float]:
    """The places, rising, moved as little as keeps letters at them from touching each other or the edges."""
    found: list[float] = []
    for place in places:
        found.append(max(place, found[-1] + APART if found else EDGE))
    limit = WIDTH - EDGE
    for index in range(len(found) - 1, -1, -1):
        found[index] = min(found[index], limit)
        limit = found[index] - APART
    return found


def across(
    picture: Picture, left: float, right: float, y: float, name: str, reach: float, beside: float = 1.0
) -> None:
    """A length at height `y` with its letter; its end lines come down from the height `reach`.

    Where the letter finds no room on the line it stands to the right of it, or to the left (`beside` -1).
    """
    for x in (left, right):
        picture.line([(x, reach), (x, y + 4)], SOFT, FINE)
    picture.line([(left, y), (right, y)], INK, FINE, role="dimension")
    if right - left > 18:
        picture.head((left, y), pi, 6, INK)
        picture.head((right, y), 0.0, 6, INK)
    if right - left > 40:
        letter(picture, ((left + right) / 2, y), name)
    else:
        letter(picture, (right + 12 if beside > 0 else left - 12, y), name)


def upright(picture: Picture, x: float, top: float, bottom: float, role: str = "dimension") -> None:
    """The line of a diameter at `x`; its letter is written apart."""
    picture.line([(x, top), (x, bottom)], INK, FINE, role=role)
    if bottom - top > 16:
        picture.head((x, top), pi / 2, 6, INK)
        picture.head((x, bottom), -pi / 2, 6, INK)


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
