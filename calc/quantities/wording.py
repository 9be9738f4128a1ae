"""What the readers say about texts that are no quantity at all, or a quantity of another sort."""

from __future__ import annotations

from typing import NoReturn

from .cursor import Cursor
from .scan import Token

ANGLE_WORDS = frozenset("d deg degs degree degrees rad rads radian radians mrad arcmin arcsec".split())
RATE_WORDS = frozenset("per tpf percent".split())
LENGTH_WORDS = frozenset(
    "mm cm m um in ins inch inches thou thous tenth tenths ft foot feet micron microns millimetre millimetres "
    "millimeter millimeters centimetre centimetres centimeter centimeters metre metres meter meters drill".split()
)
_NO_NUMBER = frozenset("nan inf infinity infinite infty ∞".split())

EXAMPLES = {
    "length": "Type a number with its unit, such as 12.5 mm, 6 thou or 1-3/8 in.",
    "angle": "Type degrees such as 1.4377, or degrees, minutes and seconds such as 1°26'16\".",
    "rate": "Type a taper on diameter, such as 1:20, 0.602 in/ft or 5 %.",
    "count": "Type a whole number, such as 3.",
}
_NAMES = {"length": "a length", "angle": "an angle", "rate": "a taper", "count": "a number of pieces"}


def refuse_empty(cursor: Cursor, wanted: str) -> None:
    """Refuses a text with nothing in it."""
    if cursor.peek().kind == "end":
        cursor.refuse(0, len(cursor.text), "nothing is typed here yet", EXAMPLES[wanted])


def other_sort(token: Token, after_number: bool = True) -> str:
    """The sort of quantity that a unit or sign belongs to; "" for none."""
    if token.text in ("°",) or token.text in ANGLE_WORDS:
        return "angle"
    if token.text in (":", "%", "‰") or token.text in RATE_WORDS or (after_number and token.text == "/"):
        return "rate"
    return "length" if token.text in LENGTH_WORDS else ""


def refuse_other_sort(cursor: Cursor, start: int, end: int, sort: str, wanted: str) -> NoReturn:
    """Refuses an angle where a length is asked for, and the like."""
    cursor.refuse(
        start, end, f"“{cursor.typed(start, end)}” is {_NAMES[sort]}; {_NAMES[wanted]} is asked for here",
        EXAMPLES[wanted],
    )  # fmt: skip


def refuse_no_number(cursor: Cursor, wanted: str, candidates: tuple[str, ...] = ()) -> NoReturn:
    """Refuses a token standing where a number must start."""
    token = cursor.peek()
    typed = cursor.typed(token.start, token.end)
    if token.kind == "end":
        last = cursor.tokens[cursor.place - 1]
        before = cursor.text[: last.start].strip()
        cursor.refuse(
            last.start, last.end, f"nothing follows “{cursor.typed(last.start, last.end)}”",
            "Type the number that belongs behind it, or take it away.", (*candidates, before),
        )  # fmt: skip
    if token.text in _NO_NUMBER:
        cursor.refuse(token.start, token.end, f"“{typed}” is not a number to measure by", EXAMPLES[wanted])
    rest = cursor.text[: token.start] + cursor.text[token.end :]
    cursor.refuse(
        token.start, token.end, f"“{typed}” stands where a number should be", EXAMPLES[wanted],
        (*candidates, rest.strip()),
    )  # fmt: skip


def refuse_left_over(cursor: Cursor, wanted: str, candidates: tuple[str, ...] = ()) -> NoReturn:
    """Refuses what stands behind a complete quantity."""
    token = cursor.peek()
    before = cursor.text[: token.start].strip()
    sort = other_sort(token)
    if sort and sort != wanted:
        refuse_other_sort(cursor, cursor.tokens[0].start, token.end, sort, wanted)
    if token.text == "(":
        inside = cursor.text[token.end :].partition(")")[0].strip()
        candidates = (*candidates, before, inside)
    cursor.refuse(
        token.start, len(cursor.text.rstrip()) or token.end,
        f"“{cursor.typed(token.start, len(cursor.text))}” is left over after “{cursor.typed(0, token.start)}”",
        "Finish it or take it away.", (*candidates, before),
    )  # fmt: skip
