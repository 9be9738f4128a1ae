"""The blank of a socket, cut through: the hole that is drilled, the taper to be bored dashed around it."""

from __future__ import annotations

from math import pi

from calc.drawings import svg
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point

LEFT, RIGHT, WALL, TALL = 76.0, 300.0, 16.0, 88.0


def socket_blank_picture(
    sizes: tuple[float, float, float], drill: tuple[float, float], words: tuple[str, str], small_end: str
) -> str:
    """The drilled blank as SVG text, drilled from the tailstock's side.

    sizes: the taper's large and small diameter and length [mm]; drill: diameter and depth [mm]; words: the
    drill and its depth, ready to read; small_end: "tailstock" or "headstock". Lengths are to one scale,
    diameters to another. Raises ValueError for a size that is not more than nothing.
    """
    large, small, length = sizes
    diameter, depth = drill
    if min(large, small, length, diameter, depth) <= 0.0:
        raise ValueError("the sizes must be more than nothing")
    along, tall = (RIGHT - LEFT - 24) / max(length, depth), TALL / max(large, diameter)
    outer = TALL / 2 + WALL
    axis_y = 28 + outer
    hole, deep = diameter * tall / 2, RIGHT - depth * along
    picture = Picture()
    picture.text((4, 15), "to headstock")
    picture.text((WIDTH - 4, 15), "to tailstock", "end")
    picture.box(LEFT - 14, axis_y - outer, RIGHT, axis_y + outer, TINT, width=HEAVY, role="body")
    # The drill's point is not counted in the depth.
    point = max(deep - hole * 0.6, LEFT - 10)
    shape: list[Point] = [(RIGHT, axis_y - hole), (deep, axis_y - hole), (point, axis_y)]
    picture.shape([*shape, (deep, axis_y + hole), (RIGHT, axis_y + hole)], PAPER, width=FIRM, role="drilled")
    right, left = (small, large) if small_end == "tailstock" else (large, small)
    for side in (-1, 1):
        ends = [
            (RIGHT, axis_y + side * right * tall / 2),
            (RIGHT - length * along, axis_y + side * left * tall / 2),
        ]
        picture.line(ends, MARK, FIRM, "5 4", role="taper")
    picture.line([(LEFT - 24, axis_y), (RIGHT + 12, axis_y)], SOFT, FINE, "12 4 3 4", role="axis")
    y = axis_y + outer + 16
    for x in (deep, RIGHT):
        picture.line([(x, axis_y + hole), (x, y + 4)], SOFT, FINE)
    picture.line([(deep, y), (RIGHT, y)], INK, FINE, role="dimension")
    picture.head((deep, y), pi, 6, INK)
    picture.head((RIGHT, y), 0.0, 6, INK)
    rows = [svg.fitted(f"drill {words[0]}, {words[1]} deep", WIDTH - 12)]
    rows += ["dashed: the taper, bored after it", "diameters drawn to a scale of their own"]
    for index, line in enumerate(rows):
        colour = MARK if index == 0 else INK
        picture.text((WIDTH / 2, y + 20 + 18 * index), line, "middle", colour)
    return picture.finished(
        y + 64,
        "The blank of the socket: the hole to drill",
        f"Cut through; the small end points to the {small_end}. {rows[0]}, from the tailstock's side."
        f" {'; '.join(rows[1:])}.",
    )
