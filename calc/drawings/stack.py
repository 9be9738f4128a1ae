"""The stack to scale, between the sine bar's roller and the top slide's face, as it lies there.

Seen along the roller, as from above: roller at the top, top slide at the bottom, the pieces between in their
order. A round piece lies across the roller, along the top slide, so that it cannot roll; a drill by its plain
shank, the flutes clear of the roller. Names and sizes stand to the right.
Low and wide, so that it fits the first screen of a phone.
"""

from __future__ import annotations

from math import asin, isfinite, pi

from calc.drawings import svg
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, SOFT, TINT, WIDTH, Picture, Point

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence

    Pieces = Sequence[tuple[str, str, float, str]]

SHAPES = ("round", "flat", "leaf")
LEAST_DRAWN = 2.0
"""A thinner piece is drawn this thick, in the picture's units, and the picture says so."""

LOWEST, TALLEST, EACH = 36.0, 74.0, 12.0
"""Height of one piece, of the most pieces, and what each further one adds."""
MIDDLE, HALF_FLAT = 116.0, 32.0
LABELS, DIMENSION, WORD_EDGE, LABEL_SIZE = 159.0, 72.0, 80.0, 14.0
ROW, TOP, ROLLER_RADIUS, ROLLER_SHOWN = 18.0, 6.0, 34.0, 18.0
FLUTED = 20.0
"""How much of a drill is drawn fluted, away from the roller."""


def stack_picture(
    pieces: Pieces,
    height_text: str,
    gap_text: str = "",
) -> str:
    """The stack of `pieces` as SVG text.

    `pieces` are (name, shape, size [mm], size as text), from the roller to the top slide; a shape is
    "round", "flat" or "leaf". `height_text` is the height of the whole stack.
    `gap_text` says what the stack leaves, too much or too little, or is empty. No pieces: the
    roller is drawn on the top slide.

    Raises ValueError for a size that is not more than nothing, or an unknown shape.
    """
    for _, shape, size, _ in pieces:
        if shape not in SHAPES:
            raise ValueError(f"the shape of a piece must be one of: {', '.join(SHAPES)}")
        if not (isfinite(size) and size > 0.0):
            raise ValueError("the size of a piece must be more than nothing")
    heights = drawn_heights([(shape, size) for _, shape, size, _ in pieces])
    tall = sum(heights)
    # Names may need more room than pieces: the stack then stands in the middle of it.
    rows_tall = len(pieces) * ROW
    slack = max(0.0, (rows_tall - tall - ROLLER_SHOWN - 8) / 2)
    roller_foot = TOP + ROLLER_SHOWN + slack
    face = roller_foot + tall

    picture, said = Picture(), _in_words(pieces, height_text, gap_text)
    _draw_ends(picture, roller_foot, face)
    middles = _draw_pieces(picture, pieces, heights, roller_foot)
    _write_pieces(picture, pieces, middles, TOP + slack, face + 8)
    lines = []
    if pieces:
        _draw_dimension(picture, roller_foot, face)
        together = f"{svg.plain(height_text)}, {svg.plain(gap_text)}"
        if svg.plain(gap_text) and svg.text_width(together, bold=True) <= WIDTH - 12:
            height_text, gap_text = together, ""
        lines.append((height_text, MARK, True))
    else:
        lines.append(("no stack: roller on the top slide", INK, False))
    lines.append((gap_text, INK, False))
    lines.append((_lying(pieces), INK, False))
    if _thickened(pieces, heights):
        lines.append(("the thinnest is drawn thicker than true", INK, False))
    lines = [line for line in lines if svg.plain(line[0])]
    bottom = max(face + 14, TOP + slack + rows_tall)
    for index, (line, colour, bold) in enumerate(lines, start=1):
        line = svg.fitted(line, WIDTH - 12, bold=bold)
        picture.text((WIDTH / 2, bottom + index * ROW), line, "middle", colour, bold)
    return picture.finished(bottom + len(lines) * ROW + 7, *said)


def drawn_heights(pieces: list[tuple[str, float]]) -> list[float]:
    """How tall each (shape, size [mm]) is drawn: to one scale, but never under LEAST_DRAWN.

    The scale makes the whole as tall as the picture allows for so many pieces.
    """
    if not pieces:
        return []
    largest = max(size for _, size in pieces)
    total = sum(size / largest for _, size in pieces)  # by parts of the largest, so that no size overflows
    tall = min(TALLEST, LOWEST + EACH * (len(pieces) - 1))
    scale = tall / total
    heights = [max(LEAST_DRAWN, scale * (size / largest)) for _, size in pieces]
    too_tall = sum(heights) - tall
    if too_tall > 0:
        # What the thinnest were given is taken from the others alike, which keeps one scale among them.
        thick = sum(height for height in heights if height > LEAST_DRAWN)
        if thick > 0:
            shrink = max((thick - too_tall) / thick, 0.1)
            heights = [max(LEAST_DRAWN, height * shrink) for height in heights]
    return heights


def _thickened(pieces: Pieces, heights: list[float]) -> bool:
    """Whether a piece is drawn thicker than the scale of the thickest one has it."""
    if not pieces:
        return False
    largest = max(range(len(pieces)), key=lambda index: pieces[index][2])
    return any(
        height > heights[largest] * (piece[2] / pieces[largest][2]) * 1.001
        for piece, height in zip(pieces, heights, strict=True)
    )


def _draw_ends(picture: Picture, roller_foot: float, face: float) -> None:
    """The lower part of the roller above, and the top slide with its hatching below."""
    centre = (MIDDLE, roller_foot - ROLLER_RADIUS)
    half = asin((ROLLER_RADIUS - ROLLER_SHOWN) / ROLLER_RADIUS)
    picture.arc(centre, ROLLER_RADIUS, pi + half, pi - 2 * half, INK, HEAVY, role="roller")
    picture.text((WORD_EDGE, roller_foot - 4), "roller", "end")
    left, right = MIDDLE - HALF_FLAT - 4, MIDDLE + HALF_FLAT + 4
    marks = [left + 4 + step * 8.6 for step in range(8)]
    picture.strokes([((x + 5, face + 1), (x - 2, face + 8)) for x in marks])
    picture.line([(left, face), (right, face)], INK, HEAVY, role="face")
    picture.text((WORD_EDGE - 4, face + 13), "top slide", "end")


def _draw_pieces(
    picture: Picture,
    pieces: Pieces,
    heights: list[float],
    top: float,
) -> list[Point]:
    """Draw each piece; the points from which the lines to the names start."""
    starts: list[Point] = []
    for (name, shape, _, _), height in zip(pieces, heights, strict=True):
        middle = top + height / 2
        thin = height < 5.0
        line = FINE if thin else FIRM
        inset = min(line / 2, height / 4)  # the outline stays inside the piece's own height
        half = HALF_FLAT - inset
        left, right = MIDDLE - half, MIDDLE + half
        edge = MARK if shape == "leaf" else INK
        bend = min(4.0, height / 3) if shape == "round" else 0.0
        ground = MARK if thin else TINT
        low, high = top + inset, top + height - inset
        picture.box(left, low, right, high, ground, edge, 2 * inset, role="piece", rounded=bend)
        if shape == "round" and not thin:
            _draw_round(picture, name, left, right, low, high)
        starts.append((MIDDLE + HALF_FLAT, middle))
        top += height
    return starts


def _draw_round(picture: Picture, name: str, left: float, right: float, top: float, bottom: float) -> None:
    """A round piece from its side: its axis, and a drill's flutes beyond what lies under the roller."""
    middle, plain = (top + bottom) / 2, left
    if _drill(name):
        plain = left + FLUTED
        steps = [left + 3 + 6 * step for step in range(3)]
        twist = 5.0
        picture.strokes([((x, bottom - 1), (x + twist, top + 1)) for x in steps], INK, FINE)
        picture.line([(plain, top), (plain, bottom)], INK, FINE, role="shank")
    picture.line([(plain + 4, middle), (right + 3, middle)], SOFT, FINE, "10 3 3 3", role="round-axis")


def _drill(name: str) -> bool:
    return "drill" in name.casefold()


def _lying(pieces: Pieces) -> str:
    """How the round piece lies, in words; "" where there is none."""
    rounds = [name for name, shape, _, _ in pieces if shape == "round"]
    if not rounds:
        return ""
    if any(map(_drill, rounds)):
        return "drill lies across, on its plain shank"
    return "the round piece lies across the roller"


def _write_pieces(
    picture: Picture,
    pieces: Pieces,
    starts: list[Point],
    top: float,
    bottom: float,
) -> None:
    """Names and sizes, one row each, as near to their pieces as rows allow; the lines never cross."""
    rows = _spread([y for _, y in starts], top + ROW / 2, max(bottom, top + len(starts) * ROW) - ROW / 2)
    for (name, _, _, size_text), start, row in zip(pieces, starts, rows, strict=True):
        elbow = MIDDLE + HALF_FLAT + 4
        path = [start, (elbow, start[1]), (LABELS - 7, row), (LABELS - 3, row)]
        picture.line(path, SOFT, FINE, role="leader")
        label = svg.fitted_with_tail(name, size_text, WIDTH - 3 - LABELS, LABEL_SIZE)
        picture.text((LABELS, row + 5), label, size=LABEL_SIZE)


def _spread(wanted: list[float], least: float, most: float) -> list[float]:
    """Rows at least ROW apart, in order, near the `wanted` heights, from `least` to `most`."""
    rows: list[float] = []
    for place, height in enumerate(wanted):
        rows.append(max(height, rows[-1] + ROW if place else least))
    limit = most
    for place in range(len(rows) - 1, -1, -1):
        rows[place] = min(rows[place], limit)
        limit = rows[place] - ROW
    return rows


def _draw_dimension(picture: Picture, roller_foot: float, face: float) -> None:
    """The dimension line of the whole stack, in the colour of its figure."""
    for y in (roller_foot, face):
        picture.line([(DIMENSION - 5, y), (MIDDLE - HALF_FLAT - 1, y)], SOFT, FINE)
    picture.line([(DIMENSION, roller_foot), (DIMENSION, face)], MARK, FIRM, role="dimension")
    if face - roller_foot > 22:
        picture.head((DIMENSION, roller_foot), pi / 2, 7, MARK)
        picture.head((DIMENSION, face), -pi / 2, 7, MARK)


def _in_words(
    pieces: Pieces,
    height_text: str,
    gap_text: str,
) -> tuple[str, str]:
    if not pieces:
        return "No stack", "The sine bar's roller touches the top slide's face direct."
    parts = "; ".join(svg.fitted_with_tail(name, size, 500) for name, _, _, size in pieces)
    lies = f"In the picture: {_lying(pieces)}. " if _lying(pieces) else ""
    rest = f" {svg.plain(gap_text)}." if svg.plain(gap_text) else ""
    return (
        f"The stack: {svg.fitted(height_text, 400)}",
        f"From the sine bar's roller to the top slide's face: {parts}.{rest} "
        f"{lies}Pieces to one scale; the roller is drawn smaller.",
    )
