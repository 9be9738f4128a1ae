"""The blank from the side: bar, what it is roughed to, the finished part; lengths on their lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from calc.drawings import leaders, svg
from calc.drawings.dimensions import in_words, upright
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, PAPER, SOFT, TINT, WIDTH, Picture, Point

LEFT, RIGHT, THICKEST, THINNEST = 16.0, WIDTH - 16.0, 112.0, 76.0
HEAD = 20.0
"""Where the rows of diameters begin, under the words for the ends of the lathe."""


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
    said = {key: (what.format(end=end_name), words[key]) for key, what in WHAT if words.get(key)}
    places = [each for each in _diameters(view, scale) if each[0] in said]
    rows_end = HEAD + leaders.height(len(places))
    frame = _Frame(
        RIGHT if to_right else LEFT,
        -scale if to_right else scale,
        tall,
        rows_end + view.stock * tall / 2,
        view.facing,
    )
    picture = Picture()
    picture.text((4, 15), "to headstock")
    picture.text((WIDTH - 4, 15), "to tailstock", "end")
    near, top = frame.above(-view.facing, view.stock)
    bottom = frame.centre_y + frame.half(view.stock)
    picture.box(near, top, frame.x(far), bottom, PAPER, SOFT, FIRM, role="bar")
    _draw_part(picture, view, frame)
    axis = [(LEFT - 8, frame.centre_y), (RIGHT + 8, frame.centre_y)]
    picture.line(axis, SOFT, FINE, "12 4 3 4", role="axis")
    rows = []
    for key, along, diameter in places:
        (x, high), low = frame.above(along, diameter), frame.centre_y + frame.half(diameter)
        upright(picture, x, high, low, role=f"diameter-{key}")
        rows.append(((x, high), *said[key]))
    leaders.lead(picture, HEAD, rows, not to_right)
    lowest = _draw_lengths(picture, view, frame, said, far)
    note = "drawn to scale"
    if abs(tall - scale) > 1e-9:
        note = f"diameters drawn {'larger' if tall > scale else 'smaller'} than true"
    notes = [" ".join(said["centre"])] if "centre" in said else []
    for line in (*notes, note):
        picture.text((WIDTH / 2, lowest + leaders.ROW), svg.fitted(line, WIDTH - 12), "middle")
        lowest += leaders.ROW
    told = in_words(list(said.values()))
    return picture.finished(
        lowest + 8,
        "The blank with its dimensions",
        f"Seen from the side, small end towards the {small_end}: {told}. In the picture: {note}.",
    )


WHAT = (
    ("stock", "bar stock"), ("length", "saw to length"), ("rough", "shank roughed to"),
    ("rough_length", "roughed for"), ("shank", "shank"), ("large", "its large end"),
    ("small", "cone's small end"), ("end", "{end}, diameter"), ("end_length", "{end}, length"),
    ("head", "head, diameter"), ("head_length", "head, length"), ("centre", "centre hole"),
)  # fmt: skip


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


def _diameters(view: BlankView, scale: float) -> list[tuple[str, float, float]]:
    """Key, place along the part [mm] and size of each diameter, where it can be seen; scale: units per mm."""
    wanted: list[tuple[str, float, float]] = []
    if view.end:
        wanted.append(("end", view.end[0] * 0.45, view.end[1]))
    start = view.end[0] if view.end else 0.0
    wanted.append(("small", start, view.small))
    if view.holding * scale < 24:
        wanted.append(("stock", start + (view.shank - start) * 0.3, view.stock))
    wanted.append(("rough", (start + view.shank) / 2, view.rough))
    wanted.append(("large", view.shank, view.large))
    if view.head:
        wanted.append(("head", view.shank + view.head[0] / 2, view.head[1]))
    if view.holding * scale >= 24:
        far = view.shank + (view.head[0] if view.head else 0.0) + view.facing
        wanted.append(("stock", far + view.holding * 0.6, view.stock))
    return wanted


def _draw_lengths(
    picture: Picture, view: BlankView, frame: _Frame, said: Mapping[str, tuple[str, str]], far: float
) -> float:
    """The lengths below, the short ones first, each in its own words; answers the height they end at."""
    reach = frame.centre_y + frame.half(view.stock)
    rows: list[tuple[str, float, float]] = []
    if view.end:
        rows.append(("end_length", 0.0, view.end[0]))
    if view.head:
        rows.append(("head_length", view.shank, view.shank + view.head[0]))
    rows.append(("shank", 0.0, view.shank))
    rows.append(("rough_length", -view.facing, view.shank))
    rows.append(("length", -view.facing, far))
    y, placed = reach, []
    for key, start, end in rows:
        if key in said:
            left, right = sorted((frame.x(start), frame.x(end)))
            placed.append(_Length.of(left, right, y + 20, *said[key]))
            y = placed[-1].foot
    for each in placed:
        for x in (each.left, each.right):
            picture.line([(x, reach + 3), (x, each.y + 4)], SOFT, FINE)
    for each in placed:
        each.draw(picture)
    return y + 10


@dataclass(frozen=True, slots=True)
class _Length:
    """A length at height `y`, its words centred on `middle` at height `row`, on the line, beside or below."""

    left: float
    right: float
    y: float
    text: str
    middle: float
    row: float

    @classmethod
    def of(cls, left: float, right: float, y: float, what: str, measure: str) -> _Length:
        """Words in a gap of the line, beside it where it is short, or else below."""
        text = svg.fitted_with_tail(what, measure, WIDTH - 8)
        wide = svg.text_width(text) + 8
        if wide + 14 <= right - left:
            return cls(left, right, y, text, (left + right) / 2, y)
        if wide + 4 <= left:
            return cls(left, right, y, text, left - 2 - wide / 2, y)
        if wide + 4 <= WIDTH - right:
            return cls(left, right, y, text, right + 2 + wide / 2, y)
        middle = min(max((left + right) / 2, wide / 2), WIDTH - wide / 2)
        return cls(left, right, y, text, middle, y + 15)

    @property
    def foot(self) -> float:
        """The height that its words and its line reach down to."""
        return self.row

    def draw(self, picture: Picture) -> None:
        """The line with its heads, and the words on their own ground over lines of others."""
        near, wide = 0.36 * svg.TEXT_SIZE, svg.text_width(self.text) / 2
        ends = [(self.left, self.right)]
        if self.row == self.y and self.left < self.middle < self.right:
            ends = [(self.left, self.middle - wide - 4), (self.middle + wide + 4, self.right)]
        box = (self.middle - wide, self.row - near - 2, self.middle + wide, self.row + near + 2)
        picture.box(*box, PAPER, PAPER, 0.5)
        for start, end in ends:
            picture.line([(start, self.y), (end, self.y)], INK, FINE, role="dimension")
        if self.right - self.left > 18:
            picture.head((self.left, self.y), pi, 6, INK)
            picture.head((self.right, self.y), 0.0, 6, INK)
        picture.text((self.middle, self.row + 5), self.text, "middle")
