"""Drills called by number or letter: #7, no. 7 drill, letter F, F drill."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from .canonical import decimal_places, fixed_text
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


def drill_unit(amount: Amount, default: str, named: Named | None) -> str:
    """The inch for a bare fraction that a drill is called by, `1/4 drill`, where `default` is another unit;
    "" for anything else."""
    if named is None or not amount.fraction or default == "in":
        return ""
    return "in" if named(str(amount.exact)) == amount.exact * MM["in"] else ""


def refuse_doubtful_drill(cursor: Cursor, amount: Amount, default: str, named: Named | None) -> None:
    """Refuses a bare `7 drill` where a number drill has that name, for it can also be a size, and a bare
    `4.2 drill` that would be inches where a metric drill has that name."""
    if named is None or amount.fraction:
        return
    if amount.whole:
        name = f"#{amount.exact}"
        mm = _size(name, named)
        other, words = name, f"the number drill {name}"
    else:
        name = fixed_text(amount.exact, max(1, decimal_places(amount.exact) or 0))
        mm = named(name)
        other = words = f"{name} mm"
    if mm is None or mm == amount.exact * MM[default] or (not amount.whole and mm != amount.exact):
        return
    typed = cursor.typed(amount.start, amount.end)
    size = f"{amount.exact if amount.whole else typed} {default}"
    cursor.refuse(
        amount.start,
        amount.end,
        f"“{typed} drill” can mean {size} or {words}",
        "Say which.",
        (cursor.swap(amount.start, amount.end, size), cursor.swap(amount.start, amount.end, other)),
    )
