"""Measures on rows above a part, each with a line that leads to its place: nothing has to be looked up.

The rows stand in one column at an edge. The lowest row belongs to the place nearest that edge, the next to
the next one; a line whose place lies under a lower row's words goes down beside these and then across to it.
So no line crosses another or any words, whatever the places and however long the words.
"""

from __future__ import annotations

from collections.abc import Sequence

from calc.drawings import svg
from calc.drawings.svg import FINE, MARK, WIDTH, Picture, Point

ROW, LANE, FAN, EDGE = 18.0, 5.0, 14.0, 4.0
"""Height of a row, least distance of two lines, room in which they go across, and the column's distance from
the picture's edge."""


def height(count: int) -> float:
    """How much the rows and the room below them take."""
    return count * ROW + FAN if count else 0.0


def lead(picture: Picture, top: float, rows: Sequence[tuple[Point, str, str]], from_right: bool) -> None:
    """Rows of (where the line ends, what it is, its measure) from height `top` downwards.

    The places must lie below the rows (`height`). from_right: the column stands at the right edge.
    """
    if not rows:
        return

    def turned(x: float) -> float:
        return WIDTH - x if from_right else x

    ordered = sorted(rows, key=lambda row: turned(row[0][0]))
    widest = WIDTH - 2 * EDGE - LANE * (len(rows) + 1)
    texts = [svg.fitted_with_tail(what, measure, widest) for _, what, measure in ordered]
    foot = top + len(rows) * ROW
    lanes = _lanes([turned(place[0]) for place, _, _ in ordered], [svg.text_width(text) for text in texts])
    for index, ((place, _, _), text) in enumerate(zip(ordered, texts, strict=True)):
        base = foot - index * ROW - 4
        lane, wide = turned(lanes[index]), EDGE + svg.text_width(text)
        start = turned(wide + 3)
        # Where the line stands under its own words it begins below them.
        beside = lanes[index] > wide + 3
        first = [(start, base - 4), (lane, base - 4)] if beside else [(lane, base + 4)]
        picture.line([*first, (lane, foot), (place[0], foot + FAN - 2), place], MARK, FINE, role="leader")
        picture.text((turned(EDGE), base), text, "end" if from_right else "start")


def _lanes(places: Sequence[float], widths: Sequence[float]) -> list[float]:
    """Where each line comes down: over its place, beside all words below its row, apart from the others.

    places: rising, from the column's edge; widths: of the rows' words, the lowest first.
    """
    found: list[float] = []
    clear = 0.0
    for place, wide in zip(places, widths, strict=True):
        found.append(max(place, clear, found[-1] + LANE if found else EDGE))
        clear = max(clear, EDGE + wide + LANE)
    limit = WIDTH - EDGE / 2
    for index in range(len(found) - 1, -1, -1):
        found[index] = min(found[index], limit)
        limit = found[index] - LANE
    return found
