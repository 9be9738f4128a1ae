"""Counts: whole numbers within limits."""

from __future__ import annotations

from .cursor import Cursor, run
from .number import at_number, read_amount
from .reading import Reading
from .wording import other_sort, refuse_empty, refuse_left_over, refuse_no_number, refuse_other_sort

MOST = 9999
"""Largest count where the caller sets no limit; far beyond any drawer."""


def read_count(text: str, least: int = 0, most: int = MOST) -> Reading:
    """Reads a whole number from `least` to `most`; raises Unreadable for anything else."""
    return run(lambda cursor: _read(cursor, least, most), text)


def _read(cursor: Cursor, least: int, most: int) -> Reading:
    refuse_empty(cursor, "count")
    sign = 1
    if cursor.peek().text in ("+", "-"):
        sign = -1 if cursor.take().text == "-" else 1
    if not at_number(cursor):
        refuse_no_number(cursor, "count")
    amount = read_amount(cursor)
    mark = cursor.peek()
    if other_sort(mark):
        refuse_other_sort(cursor, amount.start, other_sort(mark), "count")
    if mark.kind != "end":
        refuse_left_over(cursor)
    start = cursor.tokens[0].start
    exact = sign * amount.exact
    if exact.denominator != 1:
        below = exact.numerator // exact.denominator
        cursor.refuse(
            start,
            amount.end,
            f"“{cursor.typed(start, amount.end)}” is not a whole number",
            "Type a whole number, such as 3.",
            (str(below), str(below + 1)),
        )
    if not least <= exact <= most:
        limit, word = (least, "least") if exact < least else (most, "most")
        cursor.refuse(
            start,
            amount.end,
            f"“{cursor.typed(start, amount.end)}” is out of range: at {word} {limit} is wanted",
            f"Type a whole number from {least} to {most}.",
            (str(limit),),
        )
    return Reading(exact, float(exact), str(exact), cursor.all_notes())
