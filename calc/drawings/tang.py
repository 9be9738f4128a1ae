"""The tang being milled: from its end, a round with two flats; from the side, the flats and their run-out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import asin, sin, sqrt

from calc.drawings import svg
from calc.drawings.dimensions import across, in_words, upright
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point
from calc.machining.flats import run_out

ROUND = 104.0
"""The turned end's diameter in the picture's units, in both views, which share one scale."""
END_X, SIDE_X, TOP, BETWEEN, LABEL_X = 68.0, 322.0, 24.0, 62.0, 136.0
LONGEST = 146.0
"""Room for the flats and their run-out together."""


@dataclass(frozen=True, slots=True)
class TangView:
    """What is drawn [mm]: the round now, thickness across the flats, their length, the cutter's radius."""

    diameter: float
    thickness: float
    length: float
    radius: float


WHAT = (
    ("diameter", "diameter, now"), ("depth", "depth of each flat"), ("thickness", "across the flats"),
    ("across", "flat to opposite side"), ("length", "length of the flats"), ("radius", "cutter radius, max."),
)  # fmt: skip
SHORT = {"diameter": "now", "depth": "each flat", "thickness": "tang", "length": "flats"}
"""What stands in the picture where the place says the rest."""


def tang_picture(view: TangView, words: Mapping[str, str]) -> str:
    """The tang with its dimensions, as SVG text; the small end points to the right.

    words: measures ready to read by the keys of WHAT; a missing one is left out. The round, the thickness and
    the radius are drawn to one scale, and so is the length where there is room.
    """
    scale = ROUND / view.diameter
    radius, chord = ROUND / 2, view.thickness * scale / 2
    run = run_out(view.radius, (view.diameter - view.thickness) / 2) * scale
    squeeze = min(1.0, LONGEST / (view.length * scale + run))
    centre_y = TOP + radius
    said = {key: (SHORT.get(key, what), words[key]) for key, what in WHAT if words.get(key)}
    picture = Picture()
    picture.text((END_X, 15), "from the end", "middle")
    _draw_end(picture, radius, chord, centre_y)
    _mark_end(picture, radius, chord, centre_y, said)
    side_y = centre_y + ROUND + BETWEEN
    side = _Side(radius, chord, view.length * scale * squeeze, view.radius * scale, run, squeeze, side_y)
    _draw_side(picture, side, said)
    note = "drawn to scale" if squeeze == 1.0 else "flats drawn shorter than true"
    height = side_y + radius + 44
    picture.text((WIDTH / 2, height), note, "middle")
    told = [(what, words[key]) for key, what in WHAT if words.get(key)]
    return picture.finished(
        height + 8,
        "The tang: depth of each flat",
        f"A turned end with two flats alike, from its end and from the side. {in_words(told)}. {note}.",
    )


@dataclass(frozen=True, slots=True)
class _Side:
    """The tang from the side in the picture's units; lengths along the axis are `squeeze` of true."""

    radius: float
    chord: float
    long: float
    cutter: float
    run: float
    squeeze: float
    centre_y: float


def _draw_end(picture: Picture, radius: float, chord: float, centre_y: float) -> None:
    """The turned end in grey with what stays of it tinted: a chord above and below."""
    half = sqrt(max(0.0, radius**2 - chord**2))
    turn = asin(min(1.0, chord / radius))
    picture.circle((END_X, centre_y), radius, PAPER, SOFT, FIRM, role="round")
    steps = 12
    sides: list[Point] = []
    for side in (1, -1):
        for step in range(steps + 1):
            angle = side * (turn - 2 * turn * step / steps) if side > 0 else -turn + 2 * turn * step / steps
            x = END_X + side * sqrt(max(0.0, radius**2 - (radius * sin(angle)) ** 2))
            sides.append((x, centre_y - radius * sin(angle)))
    picture.shape(sides, TINT, width=HEAVY, role="tang-end")
    for side in (-1, 1):
        y = centre_y + side * chord
        picture.line([(END_X - half, y), (END_X + half, y)], MARK, HEAVY, role="flat")


def _mark_end(
    picture: Picture, radius: float, chord: float, centre_y: float, said: Mapping[str, tuple[str, str]]
) -> None:
    """Depth and thickness at the right of the end, the reading after one flat at its left and below."""
    right, left = END_X + radius + 10, END_X - radius - 10
    half = sqrt(max(0.0, radius**2 - chord**2))
    for key, top, bottom in (
        ("depth", centre_y - radius, centre_y - chord),
        ("thickness", centre_y - chord, centre_y + chord),
    ):
        if key in said:
            for y in (top, bottom):
                near = END_X if y == centre_y - radius else END_X + half
                picture.line([(near, y), (right + 4, y)], SOFT, FINE)
            upright(picture, right, top, bottom, role=key)
            text = svg.fitted_with_tail(*said[key], WIDTH - LABEL_X - 2)
            picture.text((LABEL_X, (top + bottom) / 2 + 5), text)
    if "across" in said:
        top, bottom = centre_y - chord, centre_y + radius
        picture.line([(END_X - half, top), (left - 4, top)], SOFT, FINE)
        picture.line([(END_X, bottom), (left - 4, bottom)], SOFT, FINE)
        upright(picture, left, top, bottom, role="across")
        picture.text((8, bottom + 18), svg.fitted_with_tail(*said["across"], WIDTH - 16))


def _draw_side(picture: Picture, side: _Side, said: Mapping[str, tuple[str, str]]) -> None:
    """The round from the left, its flats at the right end, run out with the cutter's radius."""
    depth, centre_y, radius = side.radius - side.chord, side.centre_y, side.radius
    flat_x, run = SIDE_X - side.long, side.run * side.squeeze
    upper: list[Point] = [(SIDE_X, centre_y - side.chord), (flat_x, centre_y - side.chord)]
    steps = 10
    for step in range(1, steps + 1):
        back = side.run * step / steps
        rise = side.cutter - sqrt(max(0.0, side.cutter**2 - back**2))
        upper.append((flat_x - back * side.squeeze, centre_y - side.chord - min(rise, depth)))
    start_x = flat_x - run - 18
    upper += [(flat_x - run, centre_y - radius), (start_x, centre_y - radius)]
    lower = [(x, 2 * centre_y - y) for x, y in reversed(upper)]
    picture.shape([*upper, *lower], TINT, width=HEAVY, role="tang-side")
    picture.line([(start_x - 8, centre_y), (SIDE_X + 8, centre_y)], SOFT, FINE, "12 4 3 4", role="axis")
    if "diameter" in said:
        x = start_x - 10
        for y in (centre_y - radius, centre_y + radius):
            picture.line([(start_x, y), (x - 4, y)], SOFT, FINE)
        upright(picture, x, centre_y - radius, centre_y + radius, role="now")
        picture.text((x - 6, centre_y + 5), svg.fitted_with_tail(*said["diameter"], x - 10), "end")
    if "length" in said:
        reach, y = centre_y + side.chord + 3, centre_y + radius + 14
        across(picture, flat_x, SIDE_X, y, reach)
        picture.text((flat_x - 6, y + 5), svg.fitted_with_tail(*said["length"], flat_x - 12), "end")
    if "radius" in said:
        top = centre_y - radius - 6
        picture.line([(flat_x, centre_y - side.chord), (flat_x, top)], INK, FINE, "4 3")
        picture.text((WIDTH - 8, top - 5), svg.fitted_with_tail(*said["radius"], WIDTH - 16), "end")
