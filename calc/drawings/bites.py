"""The slide's travel against the taper: one bar for each bite, below the flank that it cuts.

Lengths along the flank, the bites and the travel are to one scale; the angle is drawn larger than true where
the eye would miss it, and the picture says so.
"""

from __future__ import annotations

from math import pi, radians, tan

from calc.drawings import svg
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence

LEAST_DRAWN, MOST_DRAWN = radians(7.0), radians(30.0)
LEFT, RIGHT = 62.0, 268.0
"""Where the drawn travel may reach."""
MEAN, LEAST_RADIUS, WALL, ROW, BAR = 30.0, 8.0, 14.0, 18.0, 14.0
MOST_BARS = 6


def travel_picture(
    flank: float,
    bites: Sequence[tuple[float, float]],
    travel: float | None,
    flank_text: str,
    travel_text: str,
    small_end: str,
    form: str,
    half_angle: float,
    on_centre: bool,
) -> str:
    """Taper and bites as SVG text.

    flank [mm]; bites: from and to [mm] along it, from where cutting begins: outside the small end, in a bore
    the large one. travel: of the slide [mm], None where it is not told. The texts are ready to read.
    small_end: "tailstock" or "headstock"; form: "external" or "internal". half_angle [rad]. Only the first
    bites are drawn where there are many.
    """
    spare = travel - (flank - bites[0][0] * 2) if travel is not None and len(bites) == 1 else 0.0
    scale = (RIGHT - LEFT) / (bites[-1][1] - bites[0][0] + max(spare, 0.0))
    from_right = (small_end == "tailstock") == (form == "external")
    onwards = -1.0 if from_right else 1.0
    begin = (RIGHT if from_right else LEFT) - onwards * bites[0][0] * scale
    end = begin + onwards * flank * scale
    large_x, small_x = (end, begin) if form == "external" else (begin, end)
    drawn = min(max(half_angle, LEAST_DRAWN), MOST_DRAWN) if half_angle > 0.0 else 0.0
    rise = min(abs(large_x - small_x) * tan(drawn), 44.0)
    small, large = max(MEAN - rise / 2, LEAST_RADIUS), max(MEAN - rise / 2, LEAST_RADIUS) + rise
    outer = large + (WALL if form == "internal" else 8.0)
    axis = 2 * ROW + outer + 6
    picture = Picture()
    picture.text((4, 15), "to headstock")
    picture.text((WIDTH - 4, 15), "to tailstock", "end")
    _draw_work(picture, (large_x, large), (small_x, small), axis, outer, form, on_centre)
    top = axis + outer + 12
    for x in (begin, end):
        picture.line([(x, axis), (x, top)], SOFT, FINE, "3 3")
    _dimension(picture, min(begin, end), max(begin, end), top, f"along the taper {flank_text}")
    shown = list(bites[:MOST_BARS])
    y = top + ROW + 10
    for index, (start, stop) in enumerate(shown, start=1):
        last = stop + spare if len(bites) == 1 and travel is not None else stop
        left, right = sorted((begin + onwards * last * scale, begin + onwards * start * scale))
        ground = TINT if index % 2 else PAPER
        picture.box(left, y, right, y + BAR, ground, MARK, FIRM, role="bite")
        if len(bites) > 1:
            middle = (left + right) / 2
            label = f"section {index}" if right - left > 64 else str(index)
            picture.text((middle, y + BAR - 2.5), label, "middle", MARK, halo=ground)
        y += BAR + 5
    lines = [svg.fitted(travel_text, WIDTH - 12)]
    if len(bites) > len(shown):
        lines.append(f"the first {len(shown)} of {len(bites)} sections drawn")
    lines.append(_note(half_angle, drawn))
    for index, line in enumerate(lines):
        picture.text((WIDTH / 2, y + 14 + index * ROW), line, "middle", MARK if index == 0 else INK)
    title = "The top slide's travel along the taper"
    if len(bites) > 1:
        title = f"{len(bites)} sections along the taper"
    body = "A socket, cut through" if form == "internal" else "A plug"
    begins = "small" if form == "external" else "large"
    first = f"The first section begins at the {begins} end. " if len(bites) > 1 else ""
    return picture.finished(
        y + 14 + (len(lines) - 1) * ROW + 8,
        title,
        f"{body}; the small end points to the {small_end}. Along the taper {svg.plain(flank_text)};"
        f" {lines[0]}. {first}"
        f"In the picture: {_note(half_angle, drawn)}.",
    )


def _note(half_angle: float, drawn: float) -> str:
    if half_angle == drawn:
        return "angle drawn true"
    return f"angle drawn {'larger' if drawn > half_angle else 'smaller'} than true"


def _draw_work(
    picture: Picture, large: Point, small: Point, axis: float, outer: float, form: str, on_centre: bool
) -> None:
    """Jaws, work and centre; `large` and `small` are place and radius of the taper's ends."""
    left, right = min(large[0], small[0]), max(large[0], small[0])
    root = large[1] if large[0] == left else small[1]
    ends: list[Point] = [
        (large[0], axis - large[1]),
        (small[0], axis - small[1]),
        (small[0], axis + small[1]),
        (large[0], axis + large[1]),
    ]
    picture.box(-4, axis - outer - 4, 10, axis + outer + 4, TINT, role="chuck")
    if form == "internal":
        picture.box(12, axis - outer, right, axis + outer, TINT, width=HEAVY, role="work")
        picture.shape(ends, PAPER, width=HEAVY, role="taper")
        body = outer
    else:
        picture.box(12, axis - root, left, axis + root, TINT, width=HEAVY, role="work")
        picture.shape(ends, TINT, width=HEAVY, role="taper")
        body = root
    for side in (-1, 1):
        picture.box(10, axis + side * body, 34, axis + side * (body + 12), PAPER, role="jaw")
    if on_centre:
        tip = right - 8
        picture.shape([(tip, axis), (tip + 22, axis - 12), (tip + 22, axis + 12)], PAPER, role="centre")
        picture.box(tip + 22, axis - 12, WIDTH + 4, axis + 12, PAPER)
    picture.line([(0, axis), (WIDTH, axis)], SOFT, FINE, "12 4 3 4", role="axis")


def _dimension(picture: Picture, left: float, right: float, y: float, text: str) -> None:
    picture.line([(left, y), (right, y)], INK, FINE, role="dimension")
    if right - left > 20:
        picture.head((left, y), pi, 7, INK)
        picture.head((right, y), 0.0, 7, INK)
    picture.text((WIDTH / 2, y + 15), svg.fitted(text, WIDTH - 12), "middle")
