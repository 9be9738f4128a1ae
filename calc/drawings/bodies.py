"""Bodies that several pictures from above share: work, bore in section, boring bar, indicator.

Places are (x, d): x along the lathe to the right, d the distance from the work's axis on the side that is
cut; `Ground` turns them into the picture, where the operator always stands below.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

from calc.drawings import svg
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point

BODY, CHUCK = 40.0, 36.0
"""Half widths of the headstock and of the chuck."""


@dataclass(frozen=True, slots=True)
class Ground:
    """A picture, the height of the axis in it, and `out`: -1 where the operator's side is cut, +1 the far."""

    picture: Picture
    axis_y: float
    out: float

    def at(self, x: float, d: float) -> Point:
        """The point of the picture for (x, d)."""
        return (x, self.axis_y - self.out * d)

    def box(
        self, left: float, near: float, right: float, far: float, fill: str = PAPER, role: str = ""
    ) -> None:
        """An upright rectangle between two places."""
        (x1, y1), (x2, y2) = self.at(left, near), self.at(right, far)
        self.picture.box(x1, y1, x2, y2, fill, width=HEAVY, role=role)


def stocks(ground: Ground, tailstock: bool = True, centre: float = 0.0) -> None:
    """Headstock and chuck, tailstock, its centre with the point at x `centre` where above 0, and the axis."""
    picture, y = ground.picture, ground.axis_y
    headstock(picture, y)
    picture.box(34, y - CHUCK, 58, y + CHUCK, PAPER, width=HEAVY)
    if tailstock:
        picture.box(302, y - 25, WIDTH + 4, y + 25, TINT, role="tailstock")
    if tailstock and centre:
        picture.box(centre + 20, y - 8, 302, y + 8, PAPER)
        picture.shape([(centre + 20, y - 8), (centre + 20, y + 8), (centre, y)], PAPER, role="centre")
    if tailstock:
        picture.text((WIDTH - 4, y - 31 if ground.out < 0 else y + 41), "tailstock", "end")


def headstock(picture: Picture, y: float) -> None:
    """The headstock on the axis at height `y`; its name, upright in it, takes no row of words."""
    picture.box(-4, y - BODY, 34, y + BODY, TINT, role="headstock")
    picture.text_along((17, y), "headstock", pi / 2, svg.TEXT_SIZE, TINT)


def last_row(picture: Picture, y: float, note: str) -> None:
    """The row that closes a picture from above: where the operator stands, and what is not drawn true."""
    picture.text((4, y), "operator here", bold=True)
    picture.text((WIDTH - 4, y), note, "end")


def axis(ground: Ground) -> None:
    """The work's axis, drawn last so that it runs over the work."""
    ground.picture.line([(34, ground.axis_y), (WIDTH, ground.axis_y)], SOFT, FINE, "14 4 3 4", role="axis")


def solid(ground: Ground, profile: Sequence[Point], role: str = "work") -> None:
    """A turned body: (x, radius) from left to right."""
    upper = [(x, ground.axis_y - radius) for x, radius in profile]
    lower = [(x, ground.axis_y + radius) for x, radius in reversed(profile)]
    ground.picture.shape(upper + lower, TINT, width=HEAVY, role=role)


def bore(ground: Ground, left: Point, right: Point, outside: float, start: float = 58.0) -> None:
    """Work in section from x `start` to the bore's mouth: walls hatched, the bore from left to right open.

    left, right: (x, radius) of the bore's ends; behind it, a little narrower, to `start`.
    """
    picture, y = ground.picture, ground.axis_y
    end = right[0]
    behind = max(left[1] - 4.0, 4.0)
    picture.box(start, y - outside, end, y + outside, PAPER, width=HEAVY, role="work")
    for side in (1, -1):
        inner = [(start, behind), (left[0], behind), left, right]
        wall = [(x, y - side * r) for x, r in inner] + [
            (end, y - side * outside),
            (start, y - side * outside),
        ]
        picture.shape(wall, TINT, width=HEAVY, role="wall")
        lines, x = [], start + 6.0
        while x < end - 2:
            r = behind if x < left[0] else left[1] + (x - left[0]) / (end - left[0]) * (right[1] - left[1])
            long = min(outside - r - 3.0, 9.0)
            lines.append(((x, y - side * (outside - 1)), (x - long * 0.6, y - side * (outside - 1 - long))))
            x += 9.0
        picture.strokes(lines)
    picture.line([(left[0], y - left[1]), (left[0], y + left[1])], SOFT, FINE)


def boring_bar(ground: Ground, post: Point, tip: Point, thick: float = 5.0) -> None:
    """From the tool post at (x, d) to the bore: holder, bar along the axis, tip outwards."""
    x, d = tip
    middle = d - thick - 6.0
    ground.box(post[0] - 5, post[1], post[0] + 5, middle - thick, PAPER, role="holder")
    ground.box(x - 4, middle - thick, post[0] + 9, middle + thick, PAPER, role="boring-bar")
    points = [ground.at(x - 4, middle + thick), ground.at(x + 5, middle + thick), ground.at(x, d)]
    ground.picture.shape(points, INK, role="tool")


def indicator(
    ground: Ground, centre: Point, touches: Point, role: str = "dial", radius: float = 11.0
) -> None:
    """A dial indicator at `centre` whose plunger bears at `touches`; both (x, d)."""
    middle, point = ground.at(*centre), ground.at(*touches)
    picture = ground.picture
    picture.line([middle, point], MARK, FIRM, role=f"{role}-plunger")
    picture.circle(point, 2.5, MARK, MARK, FINE)
    picture.circle(middle, radius, PAPER, MARK, HEAVY, role=role)
    picture.line([middle, (middle[0] + radius * 0.45, middle[1] - radius * 0.55)], MARK, FIRM)


def both_ways(picture: Picture, left: Point, right: Point, role: str = "travel") -> None:
    """A line with a head at either end: what is wound."""
    picture.line([left, right], MARK, FIRM, role=role)
    picture.head((left[0] - 4, left[1]), pi, 8, MARK)
    picture.head((right[0] + 4, right[1]), 0.0, 8, MARK)


def swing_words(picture: Picture, swing: str, row: float) -> None:
    """The way round: sign and word, and for one the American word under it; `row` is the sign's height."""
    if swing == "none":
        picture.text((6, row + 5), "no swing", colour=MARK, bold=True)
        return
    turn = 1.0 if swing == "anticlockwise" else -1.0
    picture.turning_arrow((14, row), 7.5, pi / 2 - turn * 0.6, turn * 5.2, width=2.0, size=7)
    picture.text((27, row + 5), swing, colour=MARK, bold=True)
    if swing == "anticlockwise":
        picture.text((2, row + 21), "(counterclockwise)", colour=MARK)
