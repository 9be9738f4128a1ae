"""Rates: how fast a taper narrows, on diameter, exact as a plain ratio."""

from __future__ import annotations

from fractions import Fraction
from typing import NoReturn

from .canonical import decimal_text, mixed_text, number_text, rule_fraction
from .cursor import Cursor, run
from .number import Amount, at_number, read_amount
from .reading import Reading
from .units import MM, UNITS
from .wording import EXAMPLES, other_sort, refuse_empty, refuse_left_over, refuse_no_number, refuse_other_sort

_STEEPEST_BARE = 1
"""A bare number that makes this ratio or more is taken for the 20 of 1:20, and asked about."""
_PARTS = {"%": (100, " %"), "percent": (100, " %"), "‰": (1000, " ‰"), "tpf": (12, " in/ft")}


def read_rate(text: str, unit: str = "ratio") -> Reading:
    """Reads a taper on diameter as a plain ratio, exactly: 1:20 is 1/20, 0.6 in/ft is 1/20.

    Args:
        text: as typed, such as `1:19.922`, `7/24`, `1 in 20`, `0.602 in/ft`, `50.2 mm/m`, `5%`.
        unit: what a bare number means, "ratio" or "in/ft".

    Raises:
        Unreadable: with place, reason and a way out.
    """
    return run(lambda cursor: _read(cursor, unit), text)


def _read(cursor: Cursor, default: str) -> Reading:
    refuse_empty(cursor, "rate")
    sign = 1
    if cursor.peek().text in ("+", "-"):
        sign = -1 if cursor.take().text == "-" else 1
    if not at_number(cursor):
        refuse_no_number(cursor, "rate")
    amount = read_amount(cursor)
    mark = cursor.peek()
    if mark.kind == "end":
        return _bare(cursor, sign, amount, default)
    if mark.text in _PARTS:
        cursor.take()
        parts, unit = _PARTS[mark.text]
        return _finish(cursor, sign * amount.exact / parts, _number(sign, amount) + unit)
    if mark.text == ":" or (mark.text in ("in", "to") and cursor.peek(1).kind in ("number", "vulgar")):
        cursor.take()
        return _proportion(cursor, sign, amount)
    return _quotient(cursor, sign, amount)


def _number(sign: int, amount: Amount) -> str:
    return number_text(sign * amount.exact, amount.fraction, True)


def _finish(cursor: Cursor, exact: Fraction, understood: str) -> Reading:
    if cursor.peek().kind != "end":
        refuse_left_over(cursor)
    return Reading(exact, float(exact), understood, cursor.all_notes())


def _proportion(cursor: Cursor, sign: int, upper: Amount) -> Reading:
    """Takes the 20 of 1:20 or 1 in 20."""
    if not at_number(cursor):
        refuse_no_number(cursor, "rate")
    lower = read_amount(cursor)
    _refuse_nought(cursor, lower)
    return _finish(cursor, sign * upper.exact / lower.exact, f"{_number(sign, upper)}:{_number(1, lower)}")


def _refuse_nought(cursor: Cursor, lower: Amount) -> None:
    if lower.exact == 0:
        cursor.refuse(lower.start, lower.end, "a taper cannot run over a length of 0", EXAMPLES["rate"])


def _bare(cursor: Cursor, sign: int, amount: Amount, default: str) -> Reading:
    """A number without a unit: in the field's unit, where that is not doubtful."""
    typed = cursor.typed(amount.start, amount.end)

    def instead(*texts: str) -> tuple[str, ...]:
        return tuple(cursor.swap(amount.start, amount.end, text) for text in texts)

    per_foot = default == "in/ft"
    if per_foot and amount.fraction and not rule_fraction(amount.exact):
        ratio = f"{amount.exact.numerator}:{amount.exact.denominator}"
        cursor.refuse(
            amount.start,
            amount.end,
            f"“{typed}” can mean {ratio} or {typed} inch per foot",
            "Say which.",
            instead(ratio, f"{typed} in/ft"),
        )
    exact = sign * amount.exact / (12 if per_foot else 1)
    if abs(exact) >= _STEEPEST_BARE:
        meant = f"{typed} in/ft" if per_foot else f"{typed} %"
        cursor.refuse(
            amount.start,
            amount.end,
            f"“{typed}” alone is too steep for a taper",
            "Say what it is: one in so much, or per cent, or inches per foot.",
            instead(f"1:{typed}", meant),
        )
    if per_foot:
        return _finish(cursor, exact, f"{_number(sign, amount)} in/ft")
    if amount.fraction:
        return _finish(cursor, exact, f"{exact.numerator}:{exact.denominator}")
    return _finish(cursor, exact, f"{decimal_text(exact) or mixed_text(exact)} mm/mm")


def _quotient(cursor: Cursor, sign: int, amount: Amount) -> Reading:
    """Takes the rest of a length over a length, as in 0.602 in/ft, 5 mm per 100 mm."""
    unit = _take_unit(cursor)
    if not unit or cursor.peek().text not in ("/", "per", "in"):
        _refuse_quotient(cursor, amount, unit)
    cursor.take()
    lower = read_amount(cursor) if at_number(cursor) else None
    if lower is not None:
        _refuse_nought(cursor, lower)
    below = _take_unit(cursor)
    if not below:
        if lower is None:
            refuse_no_number(cursor, "rate")
        cursor.refuse(
            amount.start,
            lower.end,
            f"“{cursor.typed(amount.start, lower.end)}” has a unit above but none below",
            "Type both units, such as 0.602 in/ft or 50 mm/m.",
            (cursor.swap(lower.end, lower.end, f" {unit}"),),
        )
    number = "" if lower is None else _number(1, lower) + " "
    run_mm = MM[below] * (1 if lower is None else lower.exact)
    rate = sign * amount.exact * MM[unit] / run_mm
    return _finish(cursor, rate, f"{_number(sign, amount)} {unit}/{number}{below}")


def _take_unit(cursor: Cursor) -> str:
    """Takes a unit of length; "" where none stands here."""
    unit = UNITS.get(cursor.peek().text, "")
    if unit:
        cursor.take()
    return unit


def _refuse_quotient(cursor: Cursor, amount: Amount, unit: str) -> NoReturn:
    """Refuses a number that no taper follows from."""
    mark = cursor.peek()
    if unit:
        end = cursor.tokens[cursor.place - 1].end
        cursor.refuse(
            amount.start,
            end,
            f"“{cursor.typed(amount.start, end)}” is a length; a taper is asked for here",
            "Say over what length, such as 5 mm/m or 0.602 in/ft.",
        )
    sort = "angle" if mark.text == "'" else other_sort(mark)
    if sort == "angle":
        refuse_other_sort(cursor, amount.start, sort, "rate")
    refuse_left_over(cursor)
