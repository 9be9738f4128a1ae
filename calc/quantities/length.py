"""Lengths: a number with a unit, a drill by its name, or a sum of such, exact in millimetres."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple, NoReturn

from .canonical import mixed_text, number_text, rule_fraction, short_decimal
from .cursor import Cursor, run
from .drill_name import DRILL, Named, drill_unit, refuse_doubtful_drill, take_drill_name
from .number import Amount, at_number, read_amount
from .reading import Reading
from .units import METRIC, MM, UNITS
from .wording import other_sort, refuse_empty, refuse_left_over, refuse_no_number, refuse_other_sort

MOST_TERMS = 10
"""Most sizes in one sum; more than any stack is made of."""


class _Term(NamedTuple):
    """One size of a sum. `unit` is "" where none was typed, `drill` [mm] is set for a drill by its name."""

    sign: int
    amount: Amount
    unit: str
    drill: Fraction | None

    def mm(self, default: str) -> Fraction:
        if self.drill is not None:
            return self.sign * self.drill
        return self.sign * self.amount.exact * MM[self.unit or default]


def read_length(text: str, unit: str = "mm", named: Named | None = None) -> Reading:
    """Reads a length [mm], exactly.

    Args:
        text: as typed, such as "4.2mm + 6thou", "1-3/8", "#7 drill".
        unit: what a bare number means, "mm" or "in"; in a sum, every bare number by itself.
        named: gives the size of a drill [mm] by its name ("#7", "F"), None for a name it does not know.

    Raises:
        Unreadable: with place, reason and a way out.

    A difference may be negative: the range is the caller's business.
    """
    default = UNITS[unit]
    return run(lambda cursor: _read(cursor, default, named), text)


def _read(cursor: Cursor, default: str, named: Named | None) -> Reading:
    refuse_empty(cursor, "length")
    sign = _sign(cursor) or 1
    terms = [_term(cursor, sign, default, named)]
    while cursor.peek().kind != "end":
        operator = cursor.peek()
        sign = _sign(cursor)
        if not sign:
            _refuse_without_sign(cursor)
        if len(terms) == MOST_TERMS:
            cursor.refuse(
                operator.start,
                len(cursor.text.rstrip()),
                f"more than {MOST_TERMS} sizes are added up here",
                "Add some of them up first.",
            )
        before, term = terms[-1], _term(cursor, sign, default, named)
        tight = operator.text == "-" and not operator.spaced and term.amount.start == operator.end
        if tight and before.amount.whole and term.amount.whole and not before.unit:
            shown = cursor.typed(before.amount.start, term.amount.end)
            cursor.note(f"{shown} read as {before.amount.exact} minus {term.amount.exact}")
        terms.append(term)
    if any(term.unit or term.drill is not None for term in terms):
        for term in terms:
            if not term.unit and term.drill is None:
                typed = cursor.typed(term.amount.start, term.amount.end)
                cursor.note(f"{typed} has no unit: read as {typed} {default}")
    total = sum((term.mm(default) for term in terms), Fraction(0))
    first = terms[0]
    step = first.amount.step * MM[first.unit or default] if len(terms) == 1 else Fraction(0)
    understood = _understood(terms, total, default)
    return Reading(total, float(total), understood, cursor.all_notes(), float(step))


def _sign(cursor: Cursor) -> int:
    """Takes a plus (1) or minus (-1); 0 where neither stands here."""
    token = cursor.peek()
    if token.text not in ("+", "plus", "-", "minus"):
        return 0
    cursor.take()
    following = cursor.peek()
    if following.text in ("+", "-"):
        cursor.refuse(
            token.start,
            following.end,
            "two signs stand one behind the other",
            "Leave one of them.",
            (cursor.swap(token.start, following.end, "-"), cursor.swap(token.start, following.end, "+")),
        )
    return -1 if token.text in ("-", "minus") else 1


def _refuse_without_sign(cursor: Cursor) -> NoReturn:
    """Refuses what follows a complete size without a plus or minus."""
    token = cursor.peek()
    before = cursor.tokens[cursor.place - 1]
    if token.text in ("and", "&", "with"):
        refuse_left_over(cursor, cursor.swap(token.start, token.end, "+"))
    if token.kind in ("number", "vulgar") or token.text == "#":
        joined = (cursor.swap(before.end, token.start, ""),) if before.kind == token.kind == "number" else ()
        start = before.start if before.kind == "number" else cursor.tokens[max(cursor.place - 2, 0)].start
        cursor.refuse(
            start,
            token.end,
            f"two sizes stand side by side in “{cursor.typed(start, token.end)}”",
            "Put a plus between them, or type one number.",
            (*joined, cursor.swap(before.end, token.start, " + ")),
        )
    refuse_left_over(cursor)


def _term(cursor: Cursor, sign: int, default: str, named: Named | None) -> _Term:
    drill_first = cursor.peek().text == "drill" and cursor.peek(1).kind != "end"
    if drill_first:
        cursor.take()
    called = take_drill_name(cursor, named)
    if called is not None:
        number, unit = _plain_size(called.mm, "in")
        cursor.note(f"{called.name} drill is {number} {unit}")
        return _Term(sign, Amount(called.mm, False, called.start, called.end, False), "", called.mm)
    if not at_number(cursor):
        refuse_no_number(cursor, "length")
    amount = read_amount(cursor)
    unit = _unit(cursor, amount)
    drill_last = cursor.peek().text in DRILL
    if drill_last:
        cursor.take()
    if not unit and (drill_first or drill_last):
        refuse_doubtful_drill(cursor, amount, default, named)
        unit = drill_unit(amount, default, named)
        if unit:
            typed = cursor.typed(amount.start, amount.end)
            cursor.note(f"the drill called {typed} measures {typed} {unit}")
    return _Term(sign, amount, unit, None)


def _unit(cursor: Cursor, amount: Amount) -> str:
    """Takes the unit behind a number; "" where none stands there."""
    token = cursor.peek()
    _refuse_doubtful_unit(cursor, amount)
    unit = UNITS.get(token.text, "")
    if unit:
        cursor.take()
    following = cursor.peek()
    if token.text == "in" and following.kind in ("number", "vulgar"):
        cursor.refuse(
            amount.start,
            following.end,
            f"“{cursor.typed(amount.start, following.end)}” is a taper; a length is asked for here",
            "Put a plus between two lengths.",
            (cursor.swap(token.end, following.start, " + "),),
        )
    sort = other_sort(following)
    over = following.text == "/" and (unit or cursor.peek(1).kind == "word")
    if over or sort in ("angle", "rate"):
        refuse_other_sort(cursor, amount.start, "rate" if over else sort, "length")
    if unit == "tenths":
        cursor.note("a tenth is 0.0001 in")
    return unit


def _refuse_doubtful_unit(cursor: Cursor, amount: Amount) -> None:
    """Refuses units that mean one thing to one shop and another to the next."""
    token = cursor.peek()
    typed = cursor.typed(amount.start, token.end)

    def instead(*units: str) -> tuple[str, ...]:
        return tuple(cursor.swap(amount.end, token.end, f" {unit} ") for unit in units)

    if token.text in ("mil", "mils"):
        cursor.refuse(
            amount.start,
            token.end,
            f"“{typed}” can mean thousandths of an inch or millimetres",
            "Say thou or mm.",
            instead("thou", "mm"),
        )
    if token.text == "'":
        cursor.refuse(
            amount.start,
            token.end,
            f"“{typed}” can mean feet or minutes of arc",
            "Write ft for feet, or two strokes for inches.",
            instead("ft", "in"),
        )


def _plain_size(mm: Fraction, preferred: str) -> tuple[str, str]:
    """A length as number and unit, mm or in, in the preferred one where that is short."""
    for unit in (preferred, "in" if preferred == "mm" else "mm"):
        text = short_decimal(mm / MM[unit])
        if text is not None:
            return text, unit
    return mixed_text(mm), "mm"


def _understood(terms: list[_Term], total: Fraction, default: str) -> str:
    """A text with units that reads back to exactly `total`: one number where that is short, else the sum."""
    first = terms[0]
    if len(terms) == 1:
        return _term_text(first, first.sign, default)
    metric = {(term.unit or default) in METRIC for term in terms if term.drill is None}
    unit = default if len(metric) != 1 else "mm" if metric == {True} else "in"
    worth = total / MM[unit]
    if unit == "in" and all(term.amount.fraction for term in terms) and rule_fraction(worth):
        return f"{mixed_text(worth)} in"
    short = short_decimal(worth)
    if short is not None:
        return f"{short} {unit}"
    parts = [_term_text(first, first.sign, default)]
    for term in terms[1:]:
        parts.append(f"{'-' if term.sign < 0 else '+'} {_term_text(term, 1, default)}")
    return " ".join(parts)


def _term_text(term: _Term, sign: int, default: str) -> str:
    if term.drill is not None:
        return " ".join(_plain_size(sign * term.drill, default))
    unit = term.unit or default
    text = number_text(sign * term.amount.exact, term.amount.fraction, unit not in METRIC)
    return f"{text} {'tenth' if unit == 'tenths' and term.amount.exact == 1 else unit}"
