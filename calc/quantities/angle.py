"""Angles: degrees, minutes and seconds, decimal degrees or radians; exact in degrees."""

from __future__ import annotations

from fractions import Fraction
from typing import NoReturn

from .canonical import decimal_text, number_text
from .cursor import Cursor, run
from .number import Amount, at_number, read_amount
from .reading import Reading
from .scan import Token
from .wording import other_sort, refuse_empty, refuse_left_over, refuse_no_number, refuse_other_sort

_PI = Fraction(31415926535897932384626433832795028841971, 10**40)
"""Pi to 40 decimals: what makes degrees of an angle typed in radians (error under 1e-37 degrees)."""
_PARTS = ("degrees", "minutes", "seconds")
_MARKS = ("°", "'", '"')
_IN_DEGREES = (Fraction(1), Fraction(1, 60), Fraction(1, 3600))
_SPELLINGS = (
    "° d deg degs degree degrees",
    "' m min mins minute minutes arcmin",
    '" s sec secs second seconds arcsec',
)
_PART_OF = {spelling: part for part, words in enumerate(_SPELLINGS) for spelling in words.split()}
_RADIANS = {
    "rad": Fraction(1),
    "rads": Fraction(1),
    "radian": Fraction(1),
    "radians": Fraction(1),
    "mrad": Fraction(1, 1000),
}


def read_angle(text: str, unit: str = "deg") -> Reading:
    """Reads an angle: `exact` in degrees, `value` in radians.

    Args:
        text: as typed, such as `1°26'16"`, `1d 26m`, `1.4377`, `25.1 mrad`.
        unit: what a bare number means, "deg" or "rad".

    Raises:
        Unreadable: with place, reason and a way out.

    An angle typed in radians has no exact number of degrees; `exact` then holds it to 37 decimals.
    """
    return run(lambda cursor: _read(cursor, unit), text)


def _read(cursor: Cursor, default: str) -> Reading:
    refuse_empty(cursor, "angle")
    sign = 1
    if cursor.peek().text in ("+", "-"):
        sign = -1 if cursor.take().text == "-" else 1
    if not at_number(cursor):
        refuse_no_number(cursor, "angle")
    amount = read_amount(cursor)
    unit = cursor.peek()
    if unit.text in _RADIANS or (default == "rad" and unit.kind == "end"):
        return _radians(cursor, sign, amount)
    parts: dict[int, Amount] = {}
    if unit.kind == "end":
        parts[0] = amount
    elif unit.text in _PART_OF:
        cursor.take()
        parts[_PART_OF[unit.text]] = amount
        _further_parts(cursor, parts)
    else:
        _refuse_unit(cursor, amount, unit)
    total = sum((one.exact * _IN_DEGREES[part] for part, one in parts.items()), Fraction(0))
    total *= sign
    _check_parts(cursor, parts, total)
    return Reading(total, float(total * _PI / 180), _understood(parts, sign), cursor.all_notes())


def _radians(cursor: Cursor, sign: int, amount: Amount) -> Reading:
    unit = cursor.take()
    if cursor.peek().kind != "end":
        refuse_left_over(cursor)
    typed = sign * amount.exact
    radians = typed * _RADIANS.get(unit.text, Fraction(1))
    name = "mrad" if unit.text == "mrad" else "rad"
    return Reading(
        radians * 180 / _PI,
        float(radians),
        f"{number_text(typed, amount.fraction, False)} {name}",
        cursor.all_notes(),
    )


def _further_parts(cursor: Cursor, parts: dict[int, Amount]) -> None:
    """Takes minutes behind degrees and seconds behind either."""
    while cursor.peek().kind != "end":
        if not at_number(cursor):
            refuse_left_over(cursor)
        last = max(parts)
        amount = read_amount(cursor)
        mark = cursor.peek()
        part = _PART_OF.get(mark.text)
        if part is None:
            if mark.kind == "end" and last < 2:
                cursor.refuse(
                    amount.start,
                    amount.end,
                    f"“{cursor.typed(amount.start, amount.end)}” has no mark",
                    f"Type the mark for {_PARTS[last + 1]} behind it.",
                    (cursor.swap(amount.end, amount.end, _MARKS[last + 1]),),
                )
            _refuse_unit(cursor, amount, mark)
        if part <= last:
            cursor.refuse(
                amount.start,
                mark.end,
                f"{_PARTS[part]} cannot stand behind {_PARTS[last]}",
                "Type degrees, then minutes, then seconds, each once.",
                (cursor.swap(mark.start, mark.end, _MARKS[min(last + 1, 2)]),),
            )
        cursor.take()
        parts[part] = amount


def _check_parts(cursor: Cursor, parts: dict[int, Amount], total: Fraction) -> None:
    """Only the last part may have decimals; minutes and seconds behind a larger part stay below 60."""
    largest, last = min(parts), max(parts)
    start, end = parts[largest].start, parts[last].end
    for part, amount in parts.items():
        if part != largest and amount.exact >= 60:
            cursor.refuse(
                amount.start,
                amount.end,
                f"{cursor.typed(amount.start, amount.end)} {_PARTS[part]} behind "
                f"{_PARTS[largest]} is 60 or more",
                f"Type fewer than 60 {_PARTS[part]}.",
                (_split(total),),
            )
        if part != last and amount.exact.denominator != 1:
            cursor.refuse(
                start,
                end,
                f"{_PARTS[part]} have decimals and {_PARTS[last]} stand behind them",
                "Keep decimals for the last part.",
                (_split(total),),
            )


def _split(total: Fraction) -> str:
    """The angle in degrees, minutes and seconds, seconds to three decimals."""
    thousandths = abs(round(total * 3600000))
    minutes, thousandths = divmod(thousandths, 60000)
    degrees, minutes = divmod(minutes, 60)
    seconds = Fraction(thousandths, 1000)
    text = f"{'-' if total < 0 else ''}{degrees}°{minutes}'"
    return f'{text}{decimal_text(seconds)}"' if seconds else text


def _refuse_unit(cursor: Cursor, amount: Amount, mark: Token) -> NoReturn:
    """Refuses what stands where the mark of an angle should."""
    typed = cursor.typed(amount.start, mark.end)
    if mark.kind in ("number", "vulgar") or mark.text == "-":
        numbers = [token.text for token in cursor.tokens if token.kind == "number"]
        plain = all(token.kind in ("number", "end") or token.text == "-" for token in cursor.tokens)
        candidates: tuple[str, ...] = ()
        if plain and len(numbers) in (2, 3) and "".join(numbers[:-1]).isdigit():
            sign = "-" if cursor.tokens[0].text == "-" else ""
            candidates = (sign + "".join(map(str.__add__, numbers, _MARKS)),)
        end = len(cursor.text.rstrip())
        cursor.refuse(
            amount.start,
            end,
            f"“{cursor.typed(amount.start, end)}” has numbers without marks",
            "Put the marks behind them: degrees °, minutes ', seconds \".",
            candidates,
        )
    sort = other_sort(mark)
    if sort in ("length", "rate"):
        refuse_other_sort(cursor, amount.start, sort, "angle")
    if mark.kind == "end":
        refuse_no_number(cursor, "angle")
    cursor.refuse(
        mark.start,
        mark.end,
        f"“{cursor.typed(mark.start, mark.end)}” in “{typed}” is no mark of an angle",
        "Use ° ' \" or d, m, s, or rad.",
        (cursor.text[: mark.start].strip(),),
    )


def _understood(parts: dict[int, Amount], sign: int) -> str:
    text = "-" if sign < 0 and any(amount.exact for amount in parts.values()) else ""
    for part in sorted(parts):
        amount = parts[part]
        text += number_text(amount.exact, amount.fraction, False) + _MARKS[part]
    return text
