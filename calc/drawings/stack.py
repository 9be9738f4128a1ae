"""The stack to scale, between the bar's pin and the slide's face.

Drawn upright, pin above and slide below, in the order in which the pieces are given from the pin to the
slide; names and sizes stand to the right. Low and wide, so that it fits the first screen of a phone.
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

TALLEST, WIDEST_ROUND = 74.0, 74.0
MIDDLE, HALF_FLAT = 104.0, 38.0
LABELS, DIMENSION, WORD_EDGE = 158.0, 58.0, 48.0
ROW, TOP, PIN_RADIUS, PIN_SHOWN = 18.0, 6.0, 34.0, 18.0


def stack_picture(
    pieces: Pieces,
    height_text: str,
    gap_text: str = "",
) -> str:
    """The stack of `pieces` as SVG text.

    `pieces` are (name, shape, size [mm], size as text), from the pin to the slide; a shape is "round", "flat"
    or "leaf". `height_text` is the height of the whole stack.
    `gap_text` says what the stack leaves, too much or too little, or is empty. No pieces: the pin is drawn on
    the slide.

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
    slack = max(0.0, (rows_tall - tall - PIN_SHOWN - 8) / 2)
    pin_foot = TOP + PIN_SHOWN + slack
    face = pin_foot + tall

    picture = Picture()
    _draw_ends(picture, pin_foot, face)
    middles = _draw_pieces(picture, pieces, heights, pin_foot)
    _write_pieces(picture, pieces, middles, TOP + slack, face + 8)
    lines = []
    if pieces:
        _draw_dimension(picture, pin_foot, face)
        lines.append((height_text, MARK, True))
    else:
        lines.append(("no stack: the pin touches the slide", INK, False))
    lines.append((gap_text, INK, False))
    if _thickened(pieces, heights):
        lines.append(("the thinnest is drawn thicker than true", INK, False))
    lines = [line for line in lines if svg.plain(line[0])]
    bottom = max(face + 10, TOP + slack + rows_tall)
    for index, (line, colour, bold) in enumerate(lines, start=1):
        line = svg.fitted(line, WIDTH - 12, bold=bold)
        picture.text((WIDTH / 2, bottom + index * ROW), line, "middle", colour, bold)
    return picture.finished(bottom + len(lines) * ROW + 7, *_in_words(pieces, height_text, gap_text))


def drawn_heights(pieces: list[tuple[str, float]]) -> list[float]:
    """How tall each (shape, size [mm]) is drawn: to one scale, but never under LEAST_DRAWN.

    The scale makes the whole as tall as the picture allows while the largest round piece keeps its width.
    """
    if not pieces:
        return []
    largest = max(size for _, size in pieces)
    rounds = [size for shape, size in pieces if shape == "round"]
    total = sum(size / largest for _, size in pieces)  # by parts of the largest, so that no size overflows
    scale = TALLEST / total
    if rounds:
        scale = min(scale, WIDEST_ROUND * (largest / max(rounds)))
    heights = [max(LEAST_DRAWN, scale * (size / largest)) for _, size in pieces]
    too_tall = sum(heights) - TALLEST
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


def _draw_ends(picture: Picture, pin_foot: float, face: float) -> None:
    """The lower part of the pin above, and the slide with its hatching below."""
    centre = (MIDDLE, pin_foot - PIN_RADIUS)
    half = asin((PIN_RADIUS - PIN_SHOWN) / PIN_RADIUS)
    picture.arc(centre, PIN_RADIUS, pi + half, pi - 2 * half, INK, HEAVY, role="pin")
    picture.text((WORD_EDGE, pin_foot - 4), "pin", "end")
    left, right = MIDDLE - HALF_FLAT - 4, MIDDLE + HALF_FLAT + 4
    for step in range(10):
        x = left + 4 + step * 8.6
        picture.line([(x + 5, face + 1), (x - 2, face + 8)], SOFT, FINE)
    picture.line([(left, face), (right, face)], INK, HEAVY, role="face")
    picture.text((WORD_EDGE, face + 12), "slide", "end")


def _draw_pieces(
    picture: Picture,
    pieces: Pieces,
    heights: list[float],
    top: float,
) -> list[Point]:
    """Draw each piece; the points from which the lines to the names start."""
    starts: list[Point] = []
    for (_, shape, _, _), height in zip(pieces, heights, strict=True):
        middle = top + height / 2
        thin = height < 5.0
        line = FINE if thin else FIRM
        inset = min(line / 2, height / 4)  # the outline stays inside the piece's own height
        if shape == "round":
            radius = height / 2
            picture.circle((MIDDLE, middle), radius - inset, MARK if thin else TINT, INK, line, role="piece")
            starts.append((MIDDLE + radius, middle))
        else:
            half = HALF_FLAT - inset
            picture.box(
                MIDDLE - half,
                top + inset,
                MIDDLE + half,
                top + height - inset,
                MARK if thin else TINT,
                MARK if shape == "leaf" else INK,
                2 * inset,
                role="piece",
            )
            starts.append((MIDDLE + HALF_FLAT, middle))
        top += height
    return starts


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
        label = svg.fitted_with_tail(name, size_text, WIDTH - 4 - LABELS)
        picture.text((LABELS, row + 5), label)


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


def _draw_dimension(picture: Picture, pin_foot: float, face: float) -> None:
    """The dimension line of the whole stack, in the colour of its figure."""
    for y in (pin_foot, face):
        picture.line([(DIMENSION - 5, y), (MIDDLE - HALF_FLAT - 1, y)], SOFT, FINE)
    picture.line([(DIMENSION, pin_foot), (DIMENSION, face)], MARK, FIRM, role="dimension")
    if face - pin_foot > 22:
        picture.head((DIMENSION, pin_foot), pi / 2, 7, MARK)
        picture.head((DIMENSION, face), -pi / 2, 7, MARK)


def _in_words(
    pieces: Pieces,
    height_text: str,
    gap_text: str,
) -> tuple[str, str]:
    if not pieces:
        return "No stack", "The bar's pin touches the slide's face direct."
    parts = "; ".join(svg.fitted_with_tail(name, size, 500) for name, _, _, size in pieces)
    rest = f" {svg.plain(gap_text)}." if svg.plain(gap_text) else ""
    return (
        f"The stack: {svg.fitted(height_text, 400)}",
        f"From the bar's pin to the slide's face: {parts}.{rest} "
        "Pieces to one scale; the pin is drawn smaller.",
    )
