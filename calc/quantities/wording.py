"""What the readers say about texts that are no quantity at all, or a quantity of another sort."""

from __future__ import annotations

from typing import NoReturn

from .cursor import Cursor
from .scan import Token
from .units import UNITS

_ANGLE = frozenset(
    (
        "° d deg degs degree degrees rad rads radian radians mrad "
        "min mins minute minutes sec secs second seconds arcmin arcsec"
    ).split()
)
_RATE = frozenset((":", "%", "‰", "per", "percent", "tpf"))
_NO_NUMBER = frozenset(("nan", "inf", "infinity", "infinite", "∞"))

EXAMPLES = {
    "length": "Type a number with its unit, such as 12.5 mm, 6 thou or 1-3/8 in.",
    "angle": "Type degrees such as 1.4377, or degrees, minutes and seconds such as 1°26'16\".",
    "rate": "Type a taper on diameter, such as 1:20, 0.602 in/ft or 5 %.",
    "count": "Type a whole number, such as 3.",
}
_NAMES = {"length": "a length", "angle": "an angle", "rate": "a taper", "count": "a whole number"}


def other_sort(token: Token) -> str:
    """The sort of quantity that a unit or sign belongs to, whichever is asked for; "" for none."""
    if token.text in _ANGLE:
        return "angle"
    if token.text in _RATE:
        return "rate"
    return "length" if token.text in UNITS else ""


def refuse_other_sort(cursor: Cursor, start: int, sort: str, wanted: str) -> NoReturn:
    """Refuses an angle where a length is asked for, and the like, from `start` to the next plus or minus."""
    end = cursor.take().end
    while cursor.peek().kind != "end" and cursor.peek().text not in ("+", "-"):
        end = cursor.take().end
    cursor.refuse(
        start,
        end,
        f"“{cursor.typed(start, end)}” is {_NAMES[sort]}; {_NAMES[wanted]} is asked for here",
        EXAMPLES[wanted],
    )


def refuse_empty(cursor: Cursor, wanted: str) -> None:
    """Refuses a text with nothing in it."""
    if cursor.peek().kind == "end":
        cursor.refuse(0, len(cursor.text), "nothing is typed here", EXAMPLES[wanted])


def refuse_no_number(cursor: Cursor, wanted: str) -> NoReturn:
    """Refuses a token standing where a number must start."""
    token = cursor.peek()
    typed = cursor.typed(token.start, token.end)
    if token.kind == "end":
        last = cursor.tokens[cursor.place - 1]
        cursor.refuse(
            last.start,
            last.end,
            f"nothing follows “{cursor.typed(last.start, last.end)}”",
            "Type the number that belongs behind it, or take it away.",
            # Half a taper is no taper: the 1 of 1: would be offered as 1:1.
            () if wanted == "rate" else (cursor.text[: last.start].strip(),),
        )
    if token.text in _NO_NUMBER:
        cursor.refuse(token.start, token.end, f"“{typed}” is nothing to measure by", EXAMPLES[wanted])
    cursor.refuse(
        token.start,
        token.end,
        f"“{typed}” stands where a number should",
        EXAMPLES[wanted],
        (cursor.swap(token.start, token.end, ""),),
    )


def refuse_left_over(cursor: Cursor, *candidates: str) -> NoReturn:
    """Refuses what stands behind a complete quantity; its being taken away is the last offer."""
    token = cursor.peek()
    before = cursor.text[: token.start].strip()
    end = len(cursor.text.rstrip())
    if token.text == "(":
        candidates = (*candidates, before, cursor.text[token.end :].partition(")")[0].strip())
    left = cursor.typed(token.start, end)
    cursor.refuse(
        token.start,
        end,
        f"“{left}” is left over after “{cursor.typed(0, token.start)}”",
        f"Finish it, or take “{left}” away.",
        (*candidates, before),
    )
