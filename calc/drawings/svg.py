"""The few marks that the pictures are made of, as SVG text.

Points are (x, y) in the picture's own units, y down, as SVG has it. Colours are CSS custom properties with
fallbacks, written as presentation attributes so that a strict content policy does not strip them. Nothing
carries an id: several pictures may stand in one page.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, degrees, pi, sin

Point = tuple[float, float]

INK = "var(--ink,#1b1b1b)"
PAPER = "var(--paper,#fff)"
SOFT = "var(--soft,#8a8a8a)"
MARK = "var(--mark,#b3401c)"
TINT = "var(--tint,#f2e3d5)"

TEXT_SIZE = 14.0
"""Letters in every picture; with WIDTH this stays above 12 px on a screen 320 px wide."""
WIDTH = 340.0
"""Width of every picture in its own units."""
LETTER, BOLD_LETTER = 0.6, 0.68
"""Width of a letter in ems, on the wide side for the fonts that phones and desks carry."""
HEAVY, FIRM, FINE = 2.4, 1.8, 1.1
"""Widths of line: outlines, parts, and lines that only explain."""

# Letters that a picture must not carry: what XML forbids, and marks that turn the reading direction or hide.
_HIDDEN = frozenset([*range(0x200B, 0x2010), *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0xFEFF])


def number(value: float) -> str:
    """A coordinate, to a hundredth, without trailing noughts and without a negative nought."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def plain(text: str) -> str:
    """`text` on one line, without letters that XML forbids or that hide or turn their neighbours."""
    if text.isprintable():  # so nearly every text is, and then nothing in it hides or is forbidden
        return " ".join(text.split())
    kept = []
    for letter in text:
        code = ord(letter)
        if letter.isspace() or code < 0x20 or 0x7F <= code < 0xA0:
            kept.append(" ")
        elif not (0xD800 <= code < 0xE000 or code in _HIDDEN or code & 0xFFFE == 0xFFFE):
            kept.append(letter)
    return " ".join("".join(kept).split())


def escape(text: str) -> str:
    """`text` made safe inside an element or a quoted attribute."""
    for raw, safe in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;"), ("'", "&#39;")):
        text = text.replace(raw, safe)
    return text


def text_width(text: str, size: float = TEXT_SIZE, bold: bool = False) -> float:
    """About how wide `text` will be; letters that may be wide (East Asian ones, emoji) count double."""
    narrow = BOLD_LETTER if bold else LETTER
    if text.isascii():
        return len(text) * narrow * size
    return sum(narrow if _is_narrow(ord(letter)) else 1.4 for letter in text) * size


def _is_narrow(code: int) -> bool:
    """Alphabets up to the Georgian, and extended Latin, punctuation, arrows and mathematics without "…"."""
    return code < 0x1100 or (0x1E00 <= code < 0x2300 and code != 0x2026)


def fitted(text: str, width: float, size: float = TEXT_SIZE, bold: bool = False) -> str:
    """`text`, plain and cut with an ellipsis where it would be wider than `width`."""
    text = plain(text[:1000])
    if text_width(text, size, bold) <= width:
        return text
    while text and text_width(text + "…", size, bold) > width:
        text = text[:-1].rstrip()
    return text + "…"


def fitted_with_tail(head: str, tail: str, width: float, size: float = TEXT_SIZE) -> str:
    """`head` and `tail` on one line; `head` is the one that is cut, because `tail` holds the figure."""
    tail = fitted(tail, width, size)
    room = width - text_width(f" {tail}" if tail else "", size)
    head = fitted(head, room, size) if room > text_width("…", size) else ""
    return f"{head} {tail}".strip()


def polar(centre: Point, radius: float, angle: float) -> Point:
    """The point at `angle` [rad], anticlockwise as seen, and `radius` from `centre`."""
    return (centre[0] + radius * cos(angle), centre[1] - radius * sin(angle))


def _path(points: list[Point] | tuple[Point, ...]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)


class Picture:
    """A picture that grows mark by mark, in the order in which they cover each other; words lie over all.

    Marks stand in one group and words in another, each of which says once what most of its members share.
    """

    def __init__(self) -> None:
        self._marks: list[str] = []
        self._texts: list[str] = []

    def line(
        self,
        points: list[Point] | tuple[Point, ...],
        colour: str = INK,
        width: float = FIRM,
        dashes: str = "",
        role: str = "",
    ) -> None:
        """An open line through `points`."""
        dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
        self._marks.append(
            f'<polyline{_role(role)} points="{_path(points)}" fill="none"{_stroke(colour, width)}{dashed}/>'
        )

    def shape(
        self,
        points: list[Point] | tuple[Point, ...],
        fill: str = PAPER,
        colour: str = INK,
        width: float = FIRM,
        role: str = "",
    ) -> None:
        """A closed shape through `points`."""
        self._marks.append(f'<polygon{_role(role)} points="{_path(points)}"{_paint(fill, colour, width)}/>')

    def box(
        self,
        left: float,
        top: float,
        right: float,
        bottom: float,
        fill: str = PAPER,
        colour: str = INK,
        width: float = FIRM,
        role: str = "",
        rounded: float = 0.0,
    ) -> None:
        """An upright rectangle; its corners may be given in any order, and may be `rounded` off."""
        left, right = min(left, right), max(left, right)
        top, bottom = min(top, bottom), max(top, bottom)
        bend = f' rx="{number(rounded)}"' if rounded else ""
        self._marks.append(
            f'<rect{_role(role)} x="{number(left)}" y="{number(top)}" width="{number(right - left)}"'
            f' height="{number(bottom - top)}"{bend}{_paint(fill, colour, width)}/>'
        )

    def circle(
        self,
        centre: Point,
        radius: float,
        fill: str = PAPER,
        colour: str = INK,
        width: float = FIRM,
        role: str = "",
    ) -> None:
        """A circle."""
        self._marks.append(
            f'<circle{_role(role)} cx="{number(centre[0])}" cy="{number(centre[1])}" r="{number(radius)}"'
            f"{_paint(fill, colour, width)}/>"
        )

    def strokes(self, pairs: Sequence[tuple[Point, Point]], colour: str = SOFT, width: float = FINE) -> None:
        """Many short lines as one mark: hatching, flutes."""
        drawn = "".join(f"M{_path([start])}L{_path([end])}" for start, end in pairs)
        self._marks.append(f'<path d="{drawn}" fill="none"{_stroke(colour, width)}/>')

    def arc(
        self,
        centre: Point,
        radius: float,
        start: float,
        turn: float,
        colour: str = INK,
        width: float = FIRM,
        role: str = "",
    ) -> None:
        """A part of a circle from the angle `start`, through `turn` [rad, anticlockwise as seen]."""
        first, last = polar(centre, radius, start), polar(centre, radius, start + turn)
        flags = f"{int(abs(turn) > pi)} {int(turn < 0)}"
        self._marks.append(
            f'<path{_role(role)} d="M{_path([first])} A{number(radius)} {number(radius)} 0 {flags}'
            f' {_path([last])}" fill="none"{_stroke(colour, width)}/>'
        )

    def head(self, tip: Point, angle: float, size: float = 8.0, colour: str = INK) -> None:
        """An arrow's head with its point at `tip`, flying towards `angle` [rad, anticlockwise as seen]."""
        back = polar(tip, -size, angle)
        left, right = polar(back, size * 0.45, angle + pi / 2), polar(back, size * 0.45, angle - pi / 2)
        self.shape((tip, left, right), fill=colour, colour=colour, width=0.5)

    def turning_arrow(
        self,
        centre: Point,
        radius: float,
        start: float,
        turn: float,
        colour: str = MARK,
        width: float = HEAVY,
        size: float = 9.0,
        role: str = "",
    ) -> None:
        """An arc with a head at its end, so that it says which way round."""
        # The line stops inside the head, or its blunt end would show past the point.
        short = turn - (1 if turn > 0 else -1) * min(abs(turn), 0.8 * size / radius)
        self.arc(centre, radius, start, short, colour, width, role)
        chord = size / (2 * radius)
        direction = start + turn + (pi / 2 - chord if turn > 0 else chord - pi / 2)
        self.head(polar(centre, radius, start + turn), direction, size, colour)

    def text(
        self,
        at: Point,
        text: str,
        anchor: str = "start",
        colour: str = INK,
        bold: bool = False,
        size: float = TEXT_SIZE,
        halo: str = PAPER,
        turn: float = 0.0,
    ) -> None:
        """One line of text with its baseline at `at`, on a halo of its ground against lines below it.

        `turn` [rad, anticlockwise as seen] lays it along a part that is swung.
        """
        text = plain(text)
        if not text:
            return
        x, y = number(at[0]), number(at[1])
        said = ' font-weight="700"' if bold else ""
        said += f' transform="rotate({number(-degrees(turn))} {x} {y})"' if turn else ""
        said += "" if size == TEXT_SIZE else f' font-size="{number(size)}"'
        said += "" if anchor == "start" else f' text-anchor="{anchor}"'
        said += "" if colour == INK else f' fill="{colour}"'
        said += "" if halo == PAPER else f' stroke="{halo}"'
        self._texts.append(f'<text x="{x}" y="{y}"{said}>{escape(text)}</text>')

    def text_along(
        self, middle: Point, text: str, turn: float, size: float = TEXT_SIZE, halo: str = PAPER
    ) -> None:
        """A line of text centred on `middle`, lying along a part at `turn` [rad, anticlockwise as seen]."""
        at = (middle[0] + 0.36 * size * sin(turn), middle[1] + 0.36 * size * cos(turn))
        self.text(at, text, "middle", size=size, halo=halo, turn=turn)

    def finished(self, height: float, title: str, description: str) -> str:
        """The whole picture as SVG text, WIDTH wide and `height` high in its own units."""
        size = f"{number(WIDTH)} {number(height)}"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size}" width="100%" role="img"'
            f' font-family="system-ui,sans-serif" stroke-linejoin="round" stroke-linecap="round">'
            f"<title>{escape(plain(title))}</title><desc>{escape(plain(description))}</desc>"
            f'<g fill="{PAPER}" stroke="{INK}" stroke-width="{number(FIRM)}">'
            f'<rect width="{number(WIDTH)}" height="{number(height)}" stroke="none"/>'
            f"{''.join(self._marks)}</g>"
            f'<g fill="{INK}" stroke="{PAPER}" stroke-width="3" paint-order="stroke"'
            f' font-size="{number(TEXT_SIZE)}" text-anchor="start">{"".join(self._texts)}</g></svg>'
        )


def _paint(fill: str, colour: str, width: float) -> str:
    """Fill and line of a shape; what the group around all shapes says already is left out."""
    filled = "" if fill == PAPER else f' fill="{fill}"'
    return filled + _stroke(colour, width)


def _stroke(colour: str, width: float) -> str:
    coloured = "" if colour == INK else f' stroke="{colour}"'
    return coloured + ("" if width == FIRM else f' stroke-width="{number(width)}"')


def _role(role: str) -> str:
    """A class that names the part, for style sheets and for checks."""
    return f' class="{role}"' if role else ""
