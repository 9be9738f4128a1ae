"""Drills called by number or letter: #7, no. 7 drill, letter F, F drill."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from .cursor import Cursor
from .number import Amount
from .units import MM

Named = Callable[[str], Fraction | None]
"""Gives the size of a drill [mm] by its name, "#7" or "F"; None for a name it does not know."""

DRILL = ("drill", "drills", "bit")
_NUMBER = ("#", "no", "nr", "number")
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


class Called(NamedTuple):
    """A drill found by its name, with its size [mm] and its place in the text."""

    name: str
    mm: Fraction
    start: int
    end: int


def take_drill_name(cursor: Cursor, named: Named | None) -> Called | None:
    """Takes a drill's name at the cursor; None where none stands here.

    Raises Unreadable for a name nobody knows.
    """
    first, second = cursor.peek(), cursor.peek(1)
    if first.text in _NUMBER and second.kind == "number" and second.text.isdigit():
        name, length = "#" + (second.text.lstrip("0") or "0"), 2
    elif first.text == "letter" and _is_letter(second.text):
        name, length = second.text.upper(), 2
    elif first.kind == "word" and _is_letter(first.text) and _stands_alone(cursor, named):
        name, length = first.text.upper(), 1
    else:
        return None
    for _ in range(length - 1):
        cursor.take()
    end = cursor.take().end
    if cursor.peek().text in DRILL:
        end = cursor.take().end
    typed = cursor.typed(first.start, end)
    if named is None:
        cursor.refuse(
            first.start,
            end,
            f"“{typed}” is a drill; a length is asked for here",
            "Type the size it measures, such as 4.2 mm.",
        )
    mm = _size(name, named)
    if mm is None:
        cursor.refuse(
            first.start,
            end,
            f"no drill is known by the name “{typed}”",
            "Type the size it measures, such as 4.2 mm or 0.1562 in.",
        )
    return Called(name, mm, first.start, end)


def _is_letter(text: str) -> bool:
    return len(text) == 1 and text in _LETTERS


def _stands_alone(cursor: Cursor, named: Named | None) -> bool:
    """True for `F drill`, and for a mere F where drills are known."""
    following = cursor.peek(1)
    return following.text in DRILL or (
        named is not None and (following.kind == "end" or following.text in "+-")
    )


def _size(name: str, named: Named) -> Fraction | None:
    mm = named(name)
    return named(name[1:]) if mm is None and name[0] == "#" else mm


def refuse_doubtful_drill(cursor: Cursor, amount: Amount, default: str, named: Named | None) -> None:
    """Refuses a bare `7 drill` where a number drill has that name, for it can also be a size."""
    if not amount.whole or named is None:
        return
    name = f"#{amount.exact}"
    mm = _size(name, named)
    if mm is None or mm == amount.exact * MM[default]:
        return
    size = f"{amount.exact} {default}"
    cursor.refuse(
        amount.start,
        amount.end,
        f"“{amount.exact} drill” can mean {size} or the number drill {name}",
        "Say which.",
        (cursor.swap(amount.start, amount.end, size), cursor.swap(amount.start, amount.end, name)),
    )
