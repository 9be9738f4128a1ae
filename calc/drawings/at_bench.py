"""Small pictures for steps with a tool or a cutter in hand: centre height, flats, measuring over a flat."""

from __future__ import annotations

from functools import cache
from math import asin, cos, pi, sin

from calc.drawings import svg
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point

RADIUS, MIDDLE, TOP = 44.0, 120.0, 34.0
"""Of the turned end, seen from its end: radius, and where it stands."""
CENTRE_Y = TOP + RADIUS
LABEL_X = 210.0
LEAST, MOST = 0.05, 0.45
"""Depths of a flat that are drawn true, as parts of the diameter."""


@cache
def centre_height_picture() -> str:
    """The tool's tip level with the point of a centre in the tailstock, seen from the operator's side."""
    picture = Picture()
    level = 62.0
    picture.line([(0, level), (WIDTH, level)], SOFT, FINE, "14 4 3 4", role="axis")
    picture.box(292, level - 40, WIDTH + 4, level + 46, TINT, role="tailstock")
    picture.box(214, level - 11, 292, level + 11, PAPER)
    picture.shape([(214, level - 11), (214, level + 11), (172, level)], PAPER, width=HEAVY, role="centre")
    # The tool points away from the operator: its end is seen, the tip at its upper edge.
    picture.box(118, level + 10, 164, level + 46, TINT, width=HEAVY, role="shank")
    picture.shape([(128, level + 22), (154, level + 22), (166, level), (128, level)], INK, role="tool")
    picture.text((110, level + 34), "tool", "end")
    picture.text((253, level - 18), "centre", "middle")
    picture.text((6, level - 8), "centre height")
    picture.text((WIDTH - 4, 15), "tailstock", "end")
    picture.text((WIDTH / 2, level + 68), "tip level with the centre's point", "middle", bold=True)
    return picture.finished(
        level + 76,
        "Centre height by a centre",
        "Seen from the operator's side: the tool's tip is level with the point of a centre in the tailstock.",
    )


@cache
def boring_height_picture(cut_side: str) -> str:
    """A boring tool's tip level with the point of a centre, seen from the tailstock along the axis.

    cut_side: "operator" or "far", where the tip points; the operator stands on the left.
    """
    picture = Picture()
    level, centre_x, apart = 60.0, 170.0, 84.0
    out = -1.0 if cut_side == "operator" else 1.0
    picture.line([(0, level), (WIDTH, level)], SOFT, FINE, "14 4 3 4", role="axis")
    picture.circle((centre_x, level), 18, PAPER, INK, HEAVY, role="centre")
    picture.circle((centre_x, level), 3, INK, INK, FINE, role="point")
    bar_x = centre_x + out * apart
    picture.circle((bar_x, level + 5), 19, TINT, INK, HEAVY, role="boring-bar")
    tip = [(bar_x + out * 12, level), (bar_x + out * 32, level), (bar_x + out * 14, level + 14)]
    picture.shape(tip, INK, role="tool")
    picture.text((centre_x, level - 24), "centre's point", "middle")
    picture.text((bar_x, level + 42), "boring bar", "middle")
    picture.text((4, 16), "operator", bold=True)
    picture.text((WIDTH - 4, 16), "far side", "end")
    picture.text((WIDTH / 2, level + 66), "tip level with the centre's point", "middle", bold=True)
    picture.text((WIDTH / 2, level + 84), "seen from the tailstock", "middle")
    return picture.finished(
        level + 92,
        "Centre height of a boring tool",
        "Seen from the tailstock along the axis: the boring tool's tip is level with the centre's point.",
    )


def first_flat_picture(share: float, depth: str, length: str = "") -> str:
    """The turned end with its first flat, seen from the end; `share`, the depth as a part of the diameter.

    depth, length: ready to read.
    """
    picture, flat = Picture(), _flat(share)
    _bed(picture)
    _round(picture, (flat,))
    picture.box(flat, TOP - 24, flat + 34, CENTRE_Y + 30, PAPER, INK, HEAVY, role="cutter")
    picture.text((LABEL_X, CENTRE_Y + 5), "cutter")
    edge = MIDDLE + RADIUS
    y = CENTRE_Y + RADIUS + 18
    for x in (flat, edge):
        picture.line([(x, CENTRE_Y), (x, y + 4)], MARK, FINE)
    _between(picture, flat, edge, y)
    picture.text(
        (edge + 8, y + 5), svg.fitted(f"{depth} deep", WIDTH - edge - 12, bold=True), colour=MARK, bold=True
    )
    note = [f"for {length} from the end"] if svg.plain(length) else []
    return _finished(
        picture, "The first flat", f"The cutter's side stands {depth} inside the diameter.", note, share
    )


def across_flat_picture(share: float, across: str) -> str:
    """Measuring from the first flat to the opposite side; `share` as above, `across` ready to read."""
    picture, flat = Picture(), _flat(share)
    _round(picture, (flat,))
    left = MIDDLE - RADIUS
    picture.box(left - 30, CENTRE_Y - 8, left, CENTRE_Y + 8, PAPER, role="anvil")
    picture.box(flat, CENTRE_Y - 8, flat + 30, CENTRE_Y + 8, PAPER, role="anvil")
    picture.text((flat + 38, CENTRE_Y + 5), "micrometer")
    y = CENTRE_Y + RADIUS + 16
    for x in (left, flat):
        picture.line([(x, CENTRE_Y + 10), (x, y + 4)], MARK, FINE)
    _between(picture, left, flat, y)
    picture.text((flat + 10, y + 5), svg.fitted(across, WIDTH - flat - 14, bold=True), colour=MARK, bold=True)
    said = f"From the flat to the opposite side: {across}."
    return _finished(
        picture, "Measuring over the first flat", said, ["from the flat to the opposite side"], share
    )


def second_flat_picture(share: float, depth: str) -> str:
    """The first flat set upright to a square, the second to be milled opposite it."""
    picture, flat = Picture(), _flat(share)
    other = 2 * MIDDLE - flat
    _bed(picture)
    _round(picture, (other,))
    foot = CENTRE_Y + RADIUS + 6
    picture.box(other - 12, TOP - 22, other, foot - 12, PAPER, INK, HEAVY, role="square")
    picture.box(other - 52, foot - 12, other, foot, PAPER, INK, HEAVY, role="square-stock")
    picture.text((other - 18, TOP + 4), "square", "end")
    picture.line([(flat, TOP - 14), (flat, CENTRE_Y + RADIUS + 2)], MARK, HEAVY, "6 4", role="second")
    picture.text((flat + 12, TOP - 8), "second flat", colour=MARK, bold=True)
    picture.line([(flat + 12, TOP - 4), (flat + 1, TOP + 12)], MARK, FINE)
    picture.text(
        (MIDDLE + RADIUS + 14, CENTRE_Y + 5),
        svg.fitted(f"{depth} deep", 150, bold=True),
        colour=MARK,
        bold=True,
    )
    said = "The first flat is set upright to a square; the second lies opposite."
    return _finished(picture, "The second flat", said, ["first flat upright to a square"], share)


def _flat(share: float) -> float:
    """Where a flat stands that takes `share` of the diameter, within what is drawn."""
    return MIDDLE + RADIUS - min(max(share, LEAST), MOST) * 2 * RADIUS


def _round(picture: Picture, flats: tuple[float, ...]) -> None:
    """The turned end with flats at these x, where it was round in a thin line."""
    picture.circle((MIDDLE, CENTRE_Y), RADIUS, PAPER, SOFT, FINE, role="round")
    points: list[Point] = []
    right = [x for x in flats if x > MIDDLE]
    left = [x for x in flats if x <= MIDDLE]
    half = pi / 2 - asin((right[0] - MIDDLE) / RADIUS) if right else 0.0
    other = pi / 2 - asin((MIDDLE - left[0]) / RADIUS) if left else 0.0
    for low, high in ((half, pi - other), (pi + other, 2 * pi - half)):
        for step in range(17):
            angle = low + (high - low) * step / 16
            points.append((MIDDLE + RADIUS * cos(angle), CENTRE_Y - RADIUS * sin(angle)))
    picture.shape(points, TINT, width=HEAVY, role="end")


def _bed(picture: Picture) -> None:
    """The machine's table."""
    y = CENTRE_Y + RADIUS + 6
    picture.line([(20, y), (MIDDLE + RADIUS - 4, y)], INK, HEAVY, role="table")


def _between(picture: Picture, left: float, right: float, y: float) -> None:
    """A measure between two places, its heads within or, where it is short, from without."""
    if right - left > 18:
        picture.line([(left, y), (right, y)], MARK, FIRM, role="measure")
        picture.head((left, y), pi, 7, MARK)
        picture.head((right, y), 0.0, 7, MARK)
        return
    picture.line([(left - 16, y), (right, y)], MARK, FIRM, role="measure")
    picture.head((left, y), 0.0, 7, MARK)


def _finished(picture: Picture, title: str, said: str, notes: list[str], share: float) -> str:
    scale = "to scale" if LEAST <= share <= MOST else "depth not to scale"
    rows = [*notes, f"seen from the end, {scale}"]
    first = CENTRE_Y + RADIUS + 46
    for index, line in enumerate(rows):
        picture.text((WIDTH / 2, first + 18 * index), svg.fitted(line, WIDTH - 8), "middle")
    said = f"The turned end, seen from its end. {said} In the picture: {'; '.join(rows)}."
    return picture.finished(first + 18 * (len(rows) - 1) + 8, title, said)
