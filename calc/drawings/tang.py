"""The tang being milled: from its end, a round with two flats; from the side, the flats and their run-out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import asin, sin, sqrt

from calc.drawings.lettered import LETTERS, across, in_words, legend, letter, upright
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point
from calc.machining.flats import run_out

ROUND = 104.0
"""The round's diameter in the picture's units, in both views, which share one scale."""
END_X, SIDE_X, TOP = 78.0, 322.0, 34.0
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
    told = [(key, what) for key, what in WHAT if words.get(key)]
    rows = [(mark, what, words[key]) for mark, (key, what) in zip(LETTERS, told, strict=False)]
    named = {key: mark for mark, (key, _) in zip(LETTERS, told, strict=False)}
    picture = Picture()
    picture.text((END_X, 15), "from the end", "middle")
    picture.text(((SIDE_X + 160) / 2, 15), "from the side", "middle")
    _draw_end(picture, radius, chord, centre_y, named)
    side = _Side(radius, chord, view.length * scale * squeeze, view.radius * scale, run, squeeze, centre_y)
    _draw_side(picture, side, named)
    note = "drawn to scale" if squeeze == 1.0 else "flats drawn shorter than true"
    height = legend(picture, centre_y + radius + 34, rows, [note])
    return picture.finished(
        height,
        "The tang: depth of each flat",
        f"The turned end with its two equal flats, from its end and from the side. {in_words(rows)}. {note}.",
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


def _draw_end(
    picture: Picture, radius: float, chord: float, centre_y: float, named: Mapping[str, str]
) -> None:
    """The round in grey with what stays of it tinted: a chord above and below."""
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
    _mark_end(picture, radius, chord, half, centre_y, named)


def _mark_end(
    picture: Picture, radius: float, chord: float, half: float, centre_y: float, named: Mapping[str, str]
) -> None:
    """Thickness, reading after one flat, and depth, each with its letter."""
    if "thickness" in named:
        upright(picture, END_X, centre_y - chord, centre_y + chord, role="thickness")
        letter(picture, (END_X, centre_y), named["thickness"])
    if "across" in named:
        off = half * 0.55
        bottom = centre_y + sqrt(radius**2 - off**2)
        upright(picture, END_X + off, centre_y - chord, bottom, role="across")
        letter(picture, (END_X + max(off, 22.0), centre_y + 16), named["across"])
    if "depth" in named:
        x = END_X - radius - 8
        picture.line([(x - 4, centre_y - radius), (END_X, centre_y - radius)], SOFT, FINE)
        picture.line([(x - 4, centre_y - chord), (END_X - half, centre_y - chord)], SOFT, FINE)
        upright(picture, x, centre_y - radius, centre_y - chord, role="depth")
        letter(picture, (x - 4, centre_y - (radius + chord) / 2), named["depth"])


def _draw_side(picture: Picture, side: _Side, named: Mapping[str, str]) -> None:
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
    if "diameter" in named:
        upright(picture, start_x + 9, centre_y - radius, centre_y + radius, role="now")
        letter(picture, (start_x + 9, centre_y), named["diameter"])
    if "length" in named:
        reach = centre_y + side.chord + 3
        across(picture, flat_x, SIDE_X, centre_y + radius + 16, named["length"], reach, -1.0)
    if "radius" in named:
        top = max(centre_y - side.chord - side.cutter, TOP - 4)
        picture.line([(flat_x, centre_y - side.chord), (flat_x, top)], INK, FINE, "4 3")
        picture.text((min(flat_x + 6, WIDTH - 14), top + 12), named["radius"], "start", MARK, bold=True)
