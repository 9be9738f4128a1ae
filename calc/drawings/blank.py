"""The blank from the side: bar, what it is roughed to, the finished part; lengths on their lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from calc.drawings import svg
from calc.drawings.lettered import LETTERS, apart, in_words, legend, letter, upright
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, PAPER, SOFT, TINT, WIDTH, Picture, Point

LEFT, RIGHT, THICKEST, THINNEST = 16.0, WIDTH - 16.0, 120.0, 84.0


@dataclass(frozen=True, slots=True)
class BlankView:
    """What is drawn, all [mm]; lengths from the small end's finished face.

    stock: bar diameter. facing, holding: what is faced off each end and held by. head: length and diameter
    beyond the shank, or None. shank: its length. rough: diameter of the roughed shank. end: length and
    diameter turned for the end, or None. large, small: diameters of the finished cone's ends. centre: mouth
    of the centre hole, 0 where there is none to draw.
    """

    stock: float
    facing: float
    holding: float
    head: tuple[float, float] | None
    shank: float
    rough: float
    end: tuple[float, float] | None
    large: float
    small: float
    centre: float


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where a place along the part and a diameter stand in the picture."""

    start: float
    along: float
    tall: float
    centre_y: float
    facing: float

    def x(self, from_end: float) -> float:
        """From mm along the part, from the finished small end."""
        return self.start + (self.facing + from_end) * self.along

    def half(self, diameter: float) -> float:
        """Half a diameter [mm]."""
        return diameter * self.tall / 2

    def above(self, from_end: float, diameter: float) -> Point:
        """The point of an outline above the axis."""
        return (self.x(from_end), self.centre_y - self.half(diameter))


def blank_picture(
    view: BlankView, words: Mapping[str, str], small_end: str = "tailstock", end_name: str = "end"
) -> str:
    """The blank with its dimensions, as SVG text.

    words: measures ready to read by key: stock, length, rough, rough_length, shank, large, small, end,
    end_length, head, head_length, centre; an empty or missing one is left out. `small_end`: tailstock
    (drawn right) or headstock.
    """
    far = view.shank + (view.head[0] if view.head else 0.0) + view.facing + view.holding
    scale = (RIGHT - LEFT) / (far + view.facing)
    tall = min(max(scale, THINNEST / view.stock), THICKEST / view.stock)
    to_right = small_end == "tailstock"
    frame = _Frame(
        RIGHT if to_right else LEFT,
        -scale if to_right else scale,
        tall,
        26.0 + view.stock * tall / 2,
        view.facing,
    )
    rows = _rows(words, end_name)
    named = {key: name for name, key, _, _ in rows if key not in LENGTHS}
    lengths = {key: (what, text) for _, key, what, text in rows if key in LENGTHS}
    picture = Picture()
    picture.text((4, 15), "to headstock")
    picture.text((WIDTH - 4, 15), "to tailstock", "end")
    near, top = frame.above(-view.facing, view.stock)
    bottom = frame.centre_y + frame.half(view.stock)
    picture.box(near, top, frame.x(far), bottom, PAPER, SOFT, FIRM, role="bar")
    _draw_part(picture, view, frame)
    axis = [(LEFT - 8, frame.centre_y), (RIGHT + 8, frame.centre_y)]
    picture.line(axis, SOFT, FINE, "12 4 3 4", role="axis")
    _draw_diameters(picture, view, frame, named)
    lowest = _draw_lengths(picture, view, frame, lengths, far)
    note = "drawn to scale"
    if abs(tall - scale) > 1e-9:
        note = f"diameters drawn {'larger' if tall > scale else 'smaller'} than true"
    said = [(name, what, text) for name, _, what, text in rows]
    keyed = [(name, what, text) for name, key, what, text in rows if key not in LENGTHS]
    height = legend(picture, lowest, keyed, ["thin: the bar stock; dashed: roughed", note])
    return picture.finished(
        height,
        "The blank with its dimensions",
        f"Seen from the side, small end towards the {small_end}: {in_words(said)}. In the picture: {note}.",
    )


WHAT = (
    ("stock", "bar stock, diameter"), ("length", "saw to length"), ("rough", "shank roughed to"),
    ("rough_length", "roughed for"), ("shank", "shank"), ("large", "its large end"),
    ("small", "cone's small end"), ("end", "{end}, diameter"), ("end_length", "{end}, length"),
    ("head", "head, diameter"), ("head_length", "head, length"), ("centre", "centre hole"),
)  # fmt: skip
LENGTHS = ("length", "rough_length", "shank", "end_length", "head_length")
"""Measures whose words find room on their own line."""


def _rows(words: Mapping[str, str], end_name: str) -> list[tuple[str, str, str, str]]:
    """Letter, key, what it is and its measure, for the measures that are told."""
    told = [(key, name.format(end=end_name)) for key, name in WHAT if words.get(key)]
    # Lengths are written on their lines; the centre hole is drawn but too small for a letter.
    letters = iter(LETTERS)
    return [
        ("" if key in LENGTHS or key == "centre" else next(letters), key, name, words[key])
        for key, name in told
    ]


def _draw_part(picture: Picture, view: BlankView, frame: _Frame) -> None:
    """The finished part, the roughed shank in dashes around it, and the centre hole in its end."""
    start, outline = 0.0, []
    if view.end:
        start = view.end[0]
        outline = [frame.above(0.0, view.end[1]), frame.above(start, view.end[1])]
    outline += [frame.above(start, view.small), frame.above(view.shank, view.large)]
    if view.head:
        far = view.shank + view.head[0]
        outline += [frame.above(view.shank, view.head[1]), frame.above(far, view.head[1])]
    mirrored = [(x, 2 * frame.centre_y - y) for x, y in reversed(outline)]
    picture.shape([*outline, *mirrored], TINT, width=HEAVY, role="finished")
    rough = [frame.above(-view.facing, view.rough), frame.above(view.shank, view.rough)]
    for side in (1, -1):
        points = [(x, frame.centre_y + side * (y - frame.centre_y)) for x, y in rough]
        picture.line(points, INK, FINE, "4 3", role="rough")
    mouth = frame.half(view.centre)
    if not mouth:
        return
    tip = mouth * 1.73  # a 60 degree cone is as deep as 0.87 of its mouth
    x = frame.x(0.0)
    inwards = 1.0 if frame.along > 0 else -1.0
    picture.shape(
        [(x, frame.centre_y - mouth), (x, frame.centre_y + mouth), (x + inwards * tip, frame.centre_y)],
        PAPER, INK, FINE, role="centre-hole",
    )  # fmt: skip


def _draw_diameters(picture: Picture, view: BlankView, frame: _Frame, named: Mapping[str, str]) -> None:
    """Each diameter as an upright line where it is, its letter on it, clear of its neighbours."""
    wanted: list[tuple[str, float, float]] = []
    if view.end:
        wanted.append(("end", view.end[0] * 0.45, view.end[1]))
    start = view.end[0] if view.end else 0.0
    wanted.append(("small", start if view.end else 26 / abs(frame.along), view.small))
    if view.holding * abs(frame.along) < 24:
        wanted.append(("stock", start + (view.shank - start) * 0.3, view.stock))
    wanted.append(("rough", (start + view.shank) / 2, view.rough))
    wanted.append(("large", view.shank, view.large))
    if view.head:
        wanted.append(("head", view.shank + view.head[0] / 2, view.head[1]))
    if view.holding * abs(frame.along) >= 24:
        far = view.shank + (view.head[0] if view.head else 0.0) + view.facing
        wanted.append(("stock", far + view.holding * 0.6, view.stock))
    placed = sorted((frame.x(along), key, diameter) for key, along, diameter in wanted if key in named)
    for x, key, diameter in placed:
        half = frame.half(diameter)
        upright(picture, x, frame.centre_y - half, frame.centre_y + half, role=f"diameter-{key}")
    for at, (_, key, _) in zip(apart([x for x, _, _ in placed]), placed, strict=True):
        letter(picture, (at, frame.centre_y), named[key])


def _draw_lengths(
    picture: Picture, view: BlankView, frame: _Frame, said: Mapping[str, tuple[str, str]], far: float
) -> float:
    """The lengths below, the short ones first, each in its own words; answers the height they end at."""
    bottom = frame.centre_y + frame.half(view.stock)
    rows: list[tuple[str, float, float]] = []
    if view.end:
        rows.append(("end_length", 0.0, view.end[0]))
    if view.head:
        rows.append(("head_length", view.shank, view.shank + view.head[0]))
    rows.append(("shank", 0.0, view.shank))
    rows.append(("rough_length", -view.facing, view.shank))
    rows.append(("length", -view.facing, far))
    y = bottom
    for key, start, end in rows:
        if key in said:
            y += 20
            left, right = sorted((frame.x(start), frame.x(end)))
            _length(picture, left, right, y, *said[key], bottom + 3)
    return y + 10


def _length(
    picture: Picture, left: float, right: float, y: float, what: str, measure: str, reach: float
) -> None:
    """A length at height `y`: its words in a gap of its line, or beside it where it is short."""
    for x in (left, right):
        picture.line([(x, reach), (x, y + 4)], SOFT, FINE)
    text = svg.fitted_with_tail(what, measure, WIDTH)
    wide = svg.text_width(text) + 8
    inside = wide + 14 <= right - left
    parts = [(left, right)]
    if inside:
        middle = (left + right) / 2
        parts = [(left, middle - wide / 2), (middle + wide / 2, right)]
        picture.text((middle, y + 5), text, "middle")
    elif left > WIDTH - right:
        picture.text((left - 6, y + 5), svg.fitted_with_tail(what, measure, left - 12), "end")
    else:
        picture.text((right + 6, y + 5), svg.fitted_with_tail(what, measure, WIDTH - right - 12))
    for start, end in parts:
        picture.line([(start, y), (end, y)], INK, FINE, role="dimension")
    if right - left > 18:
        picture.head((left, y), pi, 6, INK)
        picture.head((right, y), 0.0, 6, INK)
