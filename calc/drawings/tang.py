"""The tang being milled: from its end, a round with two flats; from the side, the flats and their run-out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import asin, sin, sqrt

from calc.drawings.lettered import LETTERS, across, in_words, legend, upright
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, Picture, Point

ROUND = 104.0
"""The round's diameter in the picture's units, in both views, which share one scale."""
END_X, SIDE_X, TOP = 78.0, 322.0, 34.0
LONGEST = 150.0


@dataclass(frozen=True, slots=True)
class TangView:
    """What is drawn [mm]: the round now, thickness across the flats, their length, the cutter's radius."""

    diameter: float
    thickness: float
    length: float
    radius: float


WHAT = (
    ("diameter", "round, now"), ("depth", "each flat, down by"), ("thickness", "across the flats"),
    ("across", "flat to round, after one"), ("length", "flats, length"), ("radius", "cutter, radius at most"),
)  # fmt: skip


def tang_picture(view: TangView, words: Mapping[str, str]) -> str:
    """The tang with its dimensions, as SVG text; the small end points to the right.

    words: measures ready to read by the keys of WHAT; a missing one is left out. The round, the thickness and
    the radius are drawn to one scale, and so is the length where there is room.
    """
    scale = ROUND / view.diameter
    radius, chord = ROUND / 2, view.thickness * scale / 2
    long = min(view.length * scale, LONGEST)
    to_scale = long == view.length * scale
    centre_y = TOP + radius
    told = [(key, what) for key, what in WHAT if words.get(key)]
    rows = [(letter, what, words[key]) for letter, (key, what) in zip(LETTERS, told, strict=False)]
    named = {key: letter for letter, (key, _) in zip(LETTERS, told, strict=False)}
    picture = Picture()
    picture.text((END_X, 15), "from the end", "middle")
    picture.text(((SIDE_X + 160) / 2, 15), "from the side", "middle")
    _draw_end(picture, radius, chord, centre_y, named)
    _draw_side(picture, radius, chord, long, view.radius * scale, centre_y, named)
    note = "drawn to scale" if to_scale else "flats drawn shorter than true"
    height = legend(picture, centre_y + radius + 34, rows, [note])
    return picture.finished(
        height,
        "The tang: depth of each flat",
        f"A round with two flats alike, from its end and from the side. {in_words(rows)}. {note}.",
    )


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
    if "thickness" in named:
        upright(picture, END_X, centre_y - chord, centre_y + chord, named["thickness"], role="thickness")
    if "across" in named:
        upright(
            picture,
            END_X + half * 0.55,
            centre_y - chord,
            centre_y + sqrt(radius**2 - (half * 0.55) ** 2),
            named["across"],
            role="across",
        )
    if "depth" in named:
        x = END_X - radius - 8
        picture.line([(x - 4, centre_y - radius), (END_X, centre_y - radius)], SOFT, FINE)
        picture.line([(x - 4, centre_y - chord), (END_X - half, centre_y - chord)], SOFT, FINE)
        upright(picture, x, centre_y - radius, centre_y - chord, named["depth"], role="depth")


def _draw_side(
    picture: Picture,
    radius: float,
    chord: float,
    long: float,
    cutter: float,
    centre_y: float,
    named: Mapping[str, str],
) -> None:
    """The round from the left, its flats at the right end, run out with the cutter's radius."""
    depth = radius - chord
    run = cutter if depth >= cutter else sqrt(depth * (2 * cutter - depth))
    flat_x = SIDE_X - long
    upper: list[Point] = [(SIDE_X, centre_y - chord), (flat_x, centre_y - chord)]
    steps = 10
    for step in range(1, steps + 1):
        back = run * step / steps
        rise = cutter - sqrt(max(0.0, cutter**2 - back**2))
        upper.append((flat_x - back, centre_y - chord - min(rise, depth)))
    upper.append((flat_x - run, centre_y - radius))
    upper.append((flat_x - run - 18, centre_y - radius))
    lower = [(x, 2 * centre_y - y) for x, y in reversed(upper)]
    picture.shape([*upper, *lower], TINT, width=HEAVY, role="tang-side")
    picture.line([(flat_x - run - 26, centre_y), (SIDE_X + 8, centre_y)], SOFT, FINE, "12 4 3 4", role="axis")
    if "diameter" in named:
        upright(
            picture, flat_x - run - 9, centre_y - radius, centre_y + radius, named["diameter"], role="now"
        )
    if "length" in named:
        across(
            picture,
            flat_x,
            SIDE_X,
            centre_y + radius + 16,
            named["length"],
            (centre_y + chord + 3, centre_y + chord + 3),
        )
    if "radius" in named:
        x = flat_x
        top = centre_y - chord - min(cutter, 90.0)
        picture.line([(x, centre_y - chord), (x, max(top, TOP - 4))], INK, FINE, "4 3")
        picture.text((x + 6, max(top, TOP - 4) + 12), named["radius"], "start", MARK, bold=True)
