"""The sine bar on the surface plate, from the side: a taper on it, its upper side level."""

from __future__ import annotations

from math import cos, radians, sin

from calc.drawings import svg
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point

TILT, CENTRES, ROLLER, THICK, ROW = radians(13.0), 186.0, 10.0, 18.0, 18.0
LEFT, WALL = 62.0, 20.0
ON_SIDE_Y, BY_AXIS_Y = 136.0, 196.0
"""Height of the plate: a taper that lies on its side is the lower one."""


def plate_picture(height: str, angle: str, included: bool, upright: bool) -> str:
    """`height` of the stack and `angle` the bar is set to, ready to read.

    included: the taper lies with its side on the bar; else by its axis. upright: the stack stands against
    the upright of an angle plate.
    """
    picture = Picture()
    if upright:
        bottom = _against_upright(picture, height)
    else:
        bottom = _on_plate(picture, height, included)
    lies = "taper on its side: included angle" if included else "taper by its axis: half angle"
    rows = [f"sine bar at {angle}", lies, "seen from the side, not to scale"]
    for index, line in enumerate(rows):
        picture.text((WIDTH / 2, bottom + index * ROW), svg.fitted(line, WIDTH - 8), "middle")
    place = "between an upright and the lower roller" if upright else "under the roller at the small end"
    return picture.finished(
        bottom + (len(rows) - 1) * ROW + 8,
        "The sine bar on the surface plate" if not upright else "The sine bar against an angle plate",
        f"Seen from the side. The stack, {height}, stands {place}. {'; '.join(rows)}.",
    )


def _on_plate(picture: Picture, height: str, included: bool) -> float:
    plate = ON_SIDE_Y if included else BY_AXIS_Y
    low: Point = (LEFT, plate - ROLLER)
    c, s = cos(TILT), sin(TILT)
    high: Point = (LEFT + CENTRES * c, low[1] - CENTRES * s)

    def on_bar(along: float, up: float) -> Point:
        return (low[0] + along * c - up * s, low[1] - along * s - up * c)

    picture.box(4, plate, WIDTH - 4, plate + 12, SOFT, role="plate")
    picture.box(high[0] - 13, high[1] + ROLLER, high[0] + 13, plate, MARK, MARK, FINE, role="stack")
    top = ROLLER + THICK - 4
    picture.shape(
        [on_bar(-16, 2), on_bar(CENTRES + 16, 2), on_bar(CENTRES + 16, top), on_bar(-16, top)],
        TINT,
        width=HEAVY,
        role="bar",
    )
    for name, centre in (("low-roller", low), ("high-roller", high)):
        picture.circle(centre, ROLLER, PAPER, INK, HEAVY, role=name)
    if included:
        # The lower side lies on the bar; the upper one is level.
        first, last = on_bar(10, top), on_bar(CENTRES - 16, top)
        level = last[1] - 15
        taper = [first, last, (last[0], level), (first[0] - s * (first[1] - level), level)]
        picture.shape(taper, PAPER, width=HEAVY, role="taper")
        picture.text((first[0] + 14, level + 26), "taper")
    else:
        middle = top + 42
        ends = [on_bar(16, middle), on_bar(CENTRES - 16, middle)]
        large = 34.0
        profile = [on_bar(34, middle + large), on_bar(CENTRES - 34, middle + large - 118 * s / c)]
        profile += [on_bar(CENTRES - 34, middle - large + 118 * s / c), on_bar(34, middle - large)]
        level = profile[0][1]
        for along in (8.0, CENTRES - 8.0):
            foot = [on_bar(along - 8, top), on_bar(along + 8, top), on_bar(along + 8, middle + 6)]
            picture.shape([*foot, on_bar(along - 8, middle + 6)], TINT, role="centre-stand")
        picture.shape(profile, PAPER, width=HEAVY, role="taper")
        picture.line(ends, SOFT, FINE, "14 4 3 4", role="axis")
        first = profile[0]
    _indicator(picture, (first[0] + 34, level))
    words = svg.fitted(f"stack {height}", 160, bold=True)
    picture.text((high[0] - 20, plate - 6), words, "end", MARK, bold=True)
    picture.text_along(on_bar(CENTRES / 2, (2 + top) / 2), "sine bar", TILT, halo=TINT)
    picture.text((high[0] + 17, high[1] + 5), "roller")
    picture.text((8, plate + 28), "large end")
    picture.text((WIDTH - 8, plate + 28), "small end", "end")
    picture.text((WIDTH / 2, plate + 28), "surface plate", "middle")
    return plate + 28 + ROW + 6


def _indicator(picture: Picture, touches: Point) -> None:
    """An indicator on a stand, run along the level upper side."""
    x, y = touches
    picture.line([(x, y - 18), (x, y)], MARK, FIRM, role="dial-plunger")
    picture.circle((x, y - 29), 11, PAPER, MARK, HEAVY, role="dial")
    picture.line([(x, y - 29), (x + 5, y - 35)], MARK, FIRM)
    picture.line([(x + 20, y - 14), (x + 92, y - 14)], MARK, FIRM, role="run")
    picture.head((x + 96, y - 14), 0.0, 8, MARK)
    picture.text((x + 18, y - 22), "indicator: level")


def _against_upright(picture: Picture, height: str) -> float:
    """The upper roller bears on the upright, the lower one through the stack."""
    wall, length = 60.0, 150.0
    upper: Point = (wall + ROLLER, 40.0)
    lean = radians(20.0)
    s, c = sin(lean), cos(lean)
    lower: Point = (upper[0] + length * s, upper[1] + length * c)

    def on_bar(along: float, out: float) -> Point:
        return (upper[0] + along * s + out * c, upper[1] + along * c - out * s)

    floor = lower[1] + 26
    picture.box(wall - WALL, 8, wall, floor, SOFT, role="upright")
    picture.box(wall - WALL, floor, WIDTH - 20, floor + 12, SOFT, role="plate")
    picture.box(wall, lower[1] - 13, lower[0] - ROLLER, lower[1] + 13, MARK, MARK, FINE, role="stack")
    top = ROLLER + THICK - 4
    picture.shape(
        [on_bar(-16, 2), on_bar(length + 14, 2), on_bar(length + 14, top), on_bar(-16, top)],
        TINT,
        width=HEAVY,
        role="bar",
    )
    for name, centre in (("high-roller", upper), ("low-roller", lower)):
        picture.circle(centre, ROLLER, PAPER, INK, HEAVY, role=name)
    picture.text(
        (lower[0] + 34, lower[1] + 5),
        svg.fitted(f"stack {height}", WIDTH - lower[0] - 42),
        "start",
        MARK,
        bold=True,
    )
    picture.text((on_bar(length / 2, top + 8)[0], on_bar(length / 2, top + 8)[1]), "sine bar")
    picture.text((WIDTH - 24, floor + 28), "surface plate", "end")
    picture.text((wall + 40, 22), "upright of an angle plate")
    return floor + 12 + 2 * ROW + 4
