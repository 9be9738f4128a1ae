"""The taper with its dimensions: a plug from the side, or a socket cut through.

The length and the mean diameter are drawn to one scale when the sizes are given; a slender angle is drawn
larger than true, and the picture says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, isfinite, pi, radians, tan

from calc.drawings import svg
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point

LEAST_DRAWN = radians(6.0)
"""A smaller half angle is drawn this large."""

LONGEST, FATTEST, LEAST_RADIUS, WALL, ROW = 150.0, 104.0, 9.0, 15.0, 18.0


@dataclass(frozen=True, slots=True)
class _Outline:
    """Half profile of the drawn taper, in the picture's units, and what to say of it."""

    length: float
    large: float
    small: float
    half_angle: float
    note: str


def taper_picture(
    large_text: str,
    small_text: str,
    length_text: str,
    rate_text: str,
    half_angle_text: str,
    small_end: str = "tailstock",
    form: str = "external",
    sizes: tuple[float, float, float] | None = None,
) -> str:
    """The taper with its dimensions, as SVG text.

    The five texts are figures ready to read, any of them empty; " · " in a diameter divides it into two
    lines. `small_end`, "tailstock" (drawn right) or "headstock" (left). `form`, "external" or "internal".
    `sizes` [mm] are large diameter, small diameter and length, for the proportions; without them, or where
    they cannot be drawn, the picture says that it is not to scale.

    Raises ValueError for another word as `small_end` or `form`.
    """
    if small_end not in ("tailstock", "headstock"):
        raise ValueError("the small end must point to the tailstock or the headstock")
    if form not in ("external", "internal"):
        raise ValueError("the form must be external or internal")
    parts = [*_lines(large_text), *_lines(small_text)]
    widest = max(svg.text_width(svg.plain(part)) for part in parts)
    outline = _proportions(sizes, max(56.0, min(LONGEST, WIDTH - 2 * (widest + 32))))
    outer = outline.large + (WALL if form == "internal" else 0.0)
    centre_y = 2 * ROW + 14 + outer
    to_small = 1.0 if small_end == "tailstock" else -1.0
    small_x = WIDTH / 2 + to_small * outline.length / 2
    large_x = WIDTH / 2 - to_small * outline.length / 2

    picture = Picture()
    picture.text((4, 15), "to headstock")
    picture.text((WIDTH - 4, 15), "to tailstock", "end")
    _draw_body(picture, outline, form, centre_y, large_x, small_x)
    _draw_angle(picture, outline, half_angle_text, centre_y, large_x, small_x)
    _draw_diameter(picture, large_text, outline.large, centre_y, large_x, -to_small)
    _draw_diameter(picture, small_text, outline.small, centre_y, small_x, to_small)
    bottom = centre_y + outer
    if svg.plain(length_text):
        _draw_length(
            picture,
            length_text,
            bottom,
            min(large_x, small_x),
            max(large_x, small_x),
            (centre_y + (outline.small if form == "external" else outer), small_x),
        )
        bottom += 2 * ROW - 2
    lines = [f"taper {rate_text}"] if svg.plain(rate_text) else []
    lines.append(outline.note)
    for index, line in enumerate(lines, start=1):
        picture.text((WIDTH / 2, bottom + index * ROW), svg.fitted(line, WIDTH - 12), "middle")
    body = "A plug, seen from the side" if form == "external" else "A socket, cut through"
    named = (
        ("large diameter", large_text),
        ("small diameter", small_text),
        ("length", length_text),
        ("taper", rate_text),
        ("half angle", half_angle_text),
    )
    said = ", ".join(f"{name} {svg.fitted(text, 400)}" for name, text in named if svg.plain(text))
    return picture.finished(
        bottom + len(lines) * ROW + 7,
        "The taper with its dimensions",
        f"{body}; the small end points to the {small_end}. {said}. In the picture: {outline.note}.",
    )


def _lines(text: str) -> list[str]:
    return [part.strip() for part in text.split(" · ", 1)]


def _proportions(sizes: tuple[float, float, float] | None, longest: float) -> _Outline:
    """The half profile for `sizes`, no longer than `longest`."""
    drawable = sizes is not None and all(isfinite(size) for size in sizes) and sizes[2] > 0.0 < sizes[0]
    if sizes is None or not drawable or not 0.0 <= sizes[1] <= sizes[0]:
        rise = longest * tan(LEAST_DRAWN)
        return _Outline(longest, 24 + rise / 2, 24 - rise / 2, LEAST_DRAWN, "not to scale")
    large, small, length = sizes
    scale = min(longest / length, FATTEST / large)
    true = atan((large - small) / 2 / length)
    if true >= LEAST_DRAWN:
        return _Outline(length * scale, large * scale / 2, small * scale / 2, true, "drawn to scale")
    drawn = LEAST_DRAWN if true > 0.0 else 0.0
    drawn_length = max(length * scale, 4.0)
    rise = drawn_length * tan(drawn)
    mean = (large + small) / 4 * scale
    note = "length to scale, angle larger than true" if drawn else "drawn to scale"
    if mean - rise / 2 < LEAST_RADIUS:
        mean = LEAST_RADIUS + rise / 2
        note = "drawn thicker and steeper than true" if drawn else "drawn thicker than true"
    return _Outline(drawn_length, mean + rise / 2, mean - rise / 2, drawn, note)


def _draw_body(
    picture: Picture, outline: _Outline, form: str, centre_y: float, large_x: float, small_x: float
) -> None:
    profile: list[Point] = [
        (large_x, centre_y - outline.large),
        (small_x, centre_y - outline.small),
        (small_x, centre_y + outline.small),
        (large_x, centre_y + outline.large),
    ]
    if form == "internal":
        outer = outline.large + WALL
        picture.box(large_x, centre_y - outer, small_x, centre_y + outer, TINT, width=HEAVY, role="body")
        picture.shape(profile, PAPER, width=HEAVY, role="taper")
    else:
        picture.shape(profile, TINT, width=HEAVY, role="taper")
    left, right = min(large_x, small_x), max(large_x, small_x)
    picture.line([(left - 10, centre_y), (right + 10, centre_y)], SOFT, FINE, "12 4 3 4", role="axis")


def _draw_angle(
    picture: Picture, outline: _Outline, text: str, centre_y: float, large_x: float, small_x: float
) -> None:
    """The half angle, between the taper's side and a line parallel to the axis from its small end."""
    if outline.half_angle > 0.0:
        corner = (small_x, centre_y - outline.small)
        picture.line([corner, (large_x, corner[1])], MARK, FINE, "5 4")
        reach = outline.length * 0.72
        if small_x > large_x:
            picture.arc(corner, reach, pi, -outline.half_angle, MARK, FIRM, role="angle")
        else:
            picture.arc(corner, reach, 0.0, outline.half_angle, MARK, FIRM, role="angle")
    if svg.plain(text):
        line = svg.fitted(f"half angle {text}", WIDTH - 12)
        picture.text((WIDTH / 2, 15 + ROW), line, "middle", MARK)


def _draw_diameter(
    picture: Picture, text: str, radius: float, centre_y: float, x: float, outwards: float
) -> None:
    """A diameter beside its end of the taper."""
    if not svg.plain(text):
        return
    line_x = x + outwards * 16
    for side in (-1, 1):
        y = centre_y + side * radius
        picture.line([(x + outwards * 3, y), (line_x + outwards * 4, y)], SOFT, FINE)
        picture.head((line_x, y), -side * pi / 2, 7, INK)
    picture.line([(line_x, centre_y - radius), (line_x, centre_y + radius)], INK, FINE, role="dimension")
    anchor = "start" if outwards > 0 else "end"
    room = (WIDTH - line_x if outwards > 0 else line_x) - 10
    lines = [svg.fitted(line, room) for line in _lines(text)]
    for index, line in enumerate(lines):
        y = centre_y + 5 + (index - (len(lines) - 1) / 2) * ROW
        picture.text((line_x + outwards * 8, y), line, anchor)


def _draw_length(
    picture: Picture, text: str, bottom: float, left: float, right: float, small: tuple[float, float]
) -> None:
    """The length below the taper; its outer line reaches up to the small end."""
    y = bottom + 14
    small_y, small_x = small
    for x in (left, right):
        start = small_y if x == small_x else bottom
        picture.line([(x, start + 3), (x, y + 4)], SOFT, FINE)
    picture.line([(left, y), (right, y)], INK, FINE, role="dimension")
    if right - left > 20:
        picture.head((left, y), pi, 7, INK)
        picture.head((right, y), 0.0, 7, INK)
    picture.text((WIDTH / 2, y + ROW), svg.fitted(text, WIDTH - 12), "middle")
