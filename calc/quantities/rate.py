"""Rates: how fast a taper narrows, on diameter, exact as a plain ratio."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NoReturn

from .canonical import decimal_text, mixed_text, number_text
from .cursor import Cursor, run
from .length import UNITS
from .number import Amount, at_number, read_amount
from .reading import Reading
from .wording import EXAMPLES, other_sort, refuse_empty, refuse_left_over, refuse_no_number, refuse_other_sort

_STEEPEST_BARE = 2
"""A bare ratio from here on is taken for the 20 of 1:20 and asked about."""


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a rate: a number, perhaps with a unit of length."""

    amount: Amount | None
    unit: str

    def mm(self) -> Fraction:
        from .length import _MM

        number = Fraction(1) if self.amount is None else self.amount.exact
        return number * _MM[self.unit] if self.unit else number


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
    if mark.text in ("%", "percent", "‰"):
        cursor.take()
        parts = 1000 if mark.text == "‰" else 100
        return _finish(cursor, sign * amount.exact / parts, _number(sign, amount) + (" ‰" if parts == 1000 else " %"))
    if mark.text == "tpf":
        cursor.take()
        return _finish(cursor, sign * amount.exact / 12, f"{_number(sign, amount)} in/ft")
    if mark.text == ":" or (mark.text in ("in", "to", "per") and _number_at(cursor, 1) and not _unit_at(cursor, 2)):
        cursor.take()
        return _proportion(cursor, sign, amount)
    return _quotient(cursor, sign, amount)


def _number_at(cursor: Cursor, ahead: int) -> bool:
    return cursor.peek(ahead).kind in ("number", "vulgar")


def _unit_at(cursor: Cursor, ahead: int) -> bool:
    return cursor.peek(ahead).text in UNITS


def _number(sign: int, amount: Amount) -> str:
    return number_text(sign * amount.exact, amount.fraction, True)


def _finish(cursor: Cursor, exact: Fraction, understood: str) -> Reading:
    if cursor.peek().kind != "end":
        refuse_left_over(cursor, "rate")
    return Reading(exact, float(exact), understood, cursor.all_notes())


def _proportion(cursor: Cursor, sign: int, upper: Amount) -> Reading:
    """Takes the 20 of 1:20 or 1 in 20."""
    if not at_number(cursor):
        refuse_no_number(cursor, "rate")
    lower = read_amount(cursor)
    _refuse_nought(cursor, lower)
    return _finish(cursor, sign * upper.exact / lower.exact, f"{_number(sign, upper)}:{_number(1, lower)}")


def _refuse_nought(cursor: Cursor, lower: Amount | None) -> None:
    if lower is not None and lower.exact == 0:
        cursor.refuse(
            lower.start, lower.end, "a taper cannot run over a length of 0", EXAMPLES["rate"]
        )


def _bare(cursor: Cursor, sign: int, amount: Amount, default: str) -> Reading:
    typed = cursor.typed(amount.start, amount.end)
    if default == "in/ft":
        power_of_two = amount.exact.denominator & (amount.exact.denominator - 1) == 0
        if amount.fraction and not power_of_two:
            ratio = f"{amount.exact.numerator}:{amount.exact.denominator}"
            cursor.refuse(
                amount.start, amount.end, f"“{typed}” can mean {ratio} or {typed} inch per foot", "Say which.",
                (cursor.swap(amount.start, amount.end, ratio), cursor.swap(amount.start, amount.end, f"{typed} in/ft")),
            )  # fmt: skip
        return _finish(cursor, sign * amount.exact / 12, f"{_number(sign, amount)} in/ft")
    if amount.exact >= _STEEPEST_BARE:
        cursor.refuse(
            amount.start, amount.end, f"“{typed}” without more is a taper of {typed} in every 1",
            "Say what it is: 1 in so much, or per cent.",
            (cursor.swap(amount.start, amount.end, f"1:{typed}"), cursor.swap(amount.end, amount.end, " %")),
        )  # fmt: skip
    exact = sign * amount.exact
    if amount.fraction:
        return _finish(cursor, exact, f"{exact.numerator}:{exact.denominator}")
    return _finish(cursor, exact, f"{decimal_text(exact) or mixed_text(exact)} mm/mm")


def _quotient(cursor: Cursor, sign: int, amount: Amount) -> Reading:
    """Takes the rest of a length over a length, as in 0.602 in/ft, 5 mm per 100 mm."""
    upper = _Side(amount, _take_unit(cursor))
    mark = cursor.peek()
    if not upper.unit or mark.text not in ("/", "per", "in"):
        _refuse_quotient(cursor, amount, upper.unit)
    cursor.take()
    below = read_amount(cursor) if at_number(cursor) else None
    _refuse_nought(cursor, below)
    lower = _Side(below, _take_unit(cursor))
    if not lower.unit:
        if cursor.peek().kind == "end" and below is None:
            refuse_no_number(cursor, "rate")
        place = cursor.peek()
        cursor.refuse(
            amount.start, place.end, f"“{cursor.typed(amount.start, place.end)}” has a unit above but none below",
            "Type both units, such as 0.602 in/ft or 50 mm/m.",
            (cursor.swap(place.start, place.start, " " + upper.unit),) if below else (),
        )  # fmt: skip
    number = "" if below is None else _number(1, below) + " "
    return _finish(
        cursor, sign * upper.mm() / lower.mm(), f"{_number(sign, amount)} {upper.unit}/{number}{lower.unit}"
    )


def _take_unit(cursor: Cursor) -> str:
    """Takes a unit of length; "" where none stands here."""
    unit = UNITS.get(cursor.peek().text, "")
    if unit:
        cursor.take()
    return unit


def _refuse_quotient(cursor: Cursor, amount: Amount, unit: str) -> NoReturn:
    mark = cursor.peek()
    if unit:
        end = cursor.tokens[cursor.place - 1].end
        cursor.refuse(
            amount.start, end, f"“{cursor.typed(amount.start, end)}” is a length; a taper is asked for here",
            "Say over what length, such as 5 mm/m or 0.602 in/ft.",
        )  # fmt: skip
    sort = "angle" if mark.text in ("'", '"') else other_sort(mark)
    if sort == "angle":
        refuse_other_sort(cursor, amount.start, mark.end, sort, "rate")
    refuse_left_over(cursor, "rate")
