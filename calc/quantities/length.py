"""Lengths: a number with a unit, a drill name, or a sum of such, exact in millimetres."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import NoReturn

from .canonical import mixed_text, number_text, rule_fraction, short_decimal
from .cursor import Cursor, run
from .number import Amount, at_number, read_amount
from .reading import Reading
from .wording import other_sort, refuse_empty, refuse_left_over, refuse_no_number, refuse_other_sort

MOST_TERMS = 10
"""Most sizes in one sum; more than any stack is made of."""

Named = Callable[[str], Fraction | None]

_INCH = Fraction(254, 10)  # exact by definition of the inch
_MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "µm": Fraction(1, 1000),
    "in": _INCH,
    "ft": 12 * _INCH,
    "thou": _INCH / 1000,
    "tenths": _INCH / 10000,
}
_METRIC = ("mm", "cm", "m", "µm")
_SPELLINGS = {
    "mm": "mm millimetre millimetres millimeter millimeters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "m": "m metre metres meter meters",
    "µm": "um micron microns micrometre micrometres micrometer micrometers",
    "in": 'in ins inch inches "',
    "ft": "ft foot feet",
    "thou": "thou thous",
    "tenths": "tenth tenths",
}
UNITS = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings.split()}
"""Spelling (plain, lower case) to unit."""
_DRILL = ("drill", "drills", "bit")


@dataclass(frozen=True, slots=True)
class _Term:
    sign: int
    amount: Amount
    unit: str
    """"" where none was typed."""
    drill: Fraction | None
    """Size of a drill called by its name [mm]."""

    def mm(self, default: str) -> Fraction:
        if self.drill is not None:
            return self.sign * self.drill
        return self.sign * self.amount.exact * _MM[self.unit or default]


def read_length(text: str, unit: str = "mm", named: Named | None = None) -> Reading:
    """Reads a length [mm], exactly.

    Args:
        text: as typed, such as "4.2mm + 6thou", "1-3/8", "#7 drill".
        unit: what a bare number means, "mm" or "in"; in a sum, every bare number by itself.
        named: gives the size of a drill [mm] by its name ("#7", "F"), None for a name it does not know.

    Raises:
        Unreadable: with place, reason and a way out.

    The sign is the caller's business: a difference may be negative. Units by definition: 1 in = 25.4 mm.
    """
    return run(lambda cursor: _read(cursor, unit, named), text)


def _read(cursor: Cursor, default: str, named: Named | None) -> Reading:
    refuse_empty(cursor, "length")
    terms = [_term(cursor, _sign(cursor, first=True), default, named)]
    while cursor.peek().kind != "end":
        dash = cursor.peek()
        sign = _sign(cursor, first=False)
        previous = terms[-1]
        if len(terms) == MOST_TERMS:
            cursor.refuse(
                dash.start, len(cursor.text), f"more than {MOST_TERMS} sizes are added up here",
                "Add some of them up first.",
            )  # fmt: skip
        term = _term(cursor, sign, default, named)
        tight = not dash.spaced and term.amount.start == dash.end
        if sign < 0 and tight and previous.amount.whole and term.amount.whole and not previous.unit:
            shown = cursor.typed(previous.amount.start, term.amount.end)
            cursor.note(f"{shown} read as {previous.amount.exact} minus {term.amount.exact}")
        terms.append(term)
    if any(term.unit or term.drill for term in terms):
        for term in terms:
            if not term.unit and term.drill is None:
                typed = cursor.typed(term.amount.start, term.amount.end)
                cursor.note(f"{typed} has no unit: read as {typed} {default}")
    total = sum((term.mm(default) for term in terms), Fraction(0))
    return Reading(total, float(total), _understood(terms, total, default), cursor.all_notes())


def _sign(cursor: Cursor, first: bool) -> int:
    """Takes the sign before a term: optional before the first, needed before the others."""
    token = cursor.peek()
    if token.text in ("+", "plus", "-", "minus"):
        cursor.take()
        following = cursor.peek()
        if following.text in ("+", "-"):
            cursor.refuse(
                token.start, following.end, "two signs stand one behind the other", "Leave one of them.",
                (cursor.swap(token.start, following.end, "-"), cursor.swap(token.start, following.end, "+")),
            )  # fmt: skip
        return 1 if token.text in ("+", "plus") else -1
    if first:
        return 1
    _refuse_juxtaposed(cursor)


def _refuse_juxtaposed(cursor: Cursor) -> NoReturn:
    """Refuses what follows a complete term without a plus or minus."""
    token = cursor.peek()
    before = cursor.tokens[cursor.place - 1]
    if token.text in ("and", "&", "with"):
        refuse_left_over(cursor, "length", (cursor.swap(token.start, token.end, "+"),))
    if token.kind in ("number", "vulgar") or token.text == "#":
        joined = (cursor.swap(before.end, token.start, ""),) if before.kind == token.kind == "number" else ()
        added = cursor.swap(before.end, token.start, " + ")
        cursor.refuse(
            cursor.tokens[0].start, token.end,
            f"two sizes stand side by side in “{cursor.typed(cursor.tokens[0].start, token.end)}”",
            "Put a plus between them, or type one number.", (*joined, added),
        )  # fmt: skip
    refuse_left_over(cursor, "length")


def _term(cursor: Cursor, sign: int, default: str, named: Named | None) -> _Term:
    called = cursor.peek()
    if called.text == "drill" and cursor.peek(1).kind != "end":
        cursor.take()
    drill = _drill_name(cursor, sign, named)
    if drill is not None:
        return drill
    if not at_number(cursor):
        sort = other_sort(cursor.peek(), after_number=False)
        if sort in ("angle", "rate"):
            refuse_other_sort(cursor, cursor.peek().start, cursor.peek().end, sort, "length")
        refuse_no_number(cursor, "length")
    amount = read_amount(cursor)
    unit = _unit(cursor, amount)
    if cursor.peek().text in _DRILL:
        cursor.take()
        _check_drill_number(cursor, amount, unit, default, named)
    elif called.text == "drill":
        _check_drill_number(cursor, amount, unit, default, named)
    return _Term(sign, amount, unit, None)


def _unit(cursor: Cursor, amount: Amount) -> str:
    """Takes the unit behind a number; "" where none stands there."""
    token = cursor.peek()
    typed = cursor.typed(amount.start, token.end)
    number = cursor.typed(amount.start, amount.end)
    if token.text in ("mil", "mils"):
        cursor.refuse(
            amount.start, token.end, f"“{typed}” can mean thousandths of an inch or millimetres",
            "Say thou or mm.",
            (cursor.swap(amount.end, token.end, " thou"), cursor.swap(amount.end, token.end, " mm")),
        )  # fmt: skip
    if token.text == "'":
        cursor.refuse(
            amount.start, token.end, f"“{typed}” can mean feet or minutes of arc",
            "Write ft for feet, or two strokes for inches.",
            (cursor.swap(amount.end, token.end, " ft "), f"{number} in"),
        )  # fmt: skip
    unit = UNITS.get(token.text, "")
    if unit:
        cursor.take()
    following = cursor.peek()
    if token.text == "in" and following.kind in ("number", "vulgar"):
        cursor.refuse(
            amount.start, following.end, f"“{cursor.typed(amount.start, following.end)}” is a taper; "
            "a length is asked for here", "Put a plus between two lengths.",
            (cursor.swap(token.end, following.start, " + "),),
        )  # fmt: skip
    sort = other_sort(following)
    if sort in ("angle", "rate"):
        refuse_other_sort(cursor, amount.start, following.end, sort, "length")
    if unit == "tenths":
        cursor.note("a tenth is 0.0001 in")
    return unit


def _drill_name(cursor: Cursor, sign: int, named: Named | None) -> _Term | None:
    """Takes a drill called by number (#7, no. 7) or by letter (F, letter F); None where none stands here."""
    first, second = cursor.peek(), cursor.peek(1)
    if first.text in ("#", "no", "nr", "number") and second.kind == "number" and second.text.isdigit():
        name = "#" + (second.text.lstrip("0") or second.text)
        cursor.take()
    elif first.text == "letter" and len(second.text) == 1 and second.text in "abcdefghijklmnopqrstuvwxyz":
        name = second.text.upper()
        cursor.take()
    elif first.kind == "word" and len(first.text) == 1 and first.text in "abcdefghijklmnopqrstuvwxyz":
        name = first.text.upper()
    else:
        return None
    last = cursor.take()
    end = last.end
    if cursor.peek().text in _DRILL:
        end = cursor.take().end
    if named is None:
        cursor.refuse(
            first.start, end, f"“{cursor.typed(first.start, end)}” is a drill; a length is asked for here",
            "Type the size it measures, such as 4.2 mm.",
        )  # fmt: skip
    size = named(name)
    if size is None and name[0] == "#":
        size = named(name[1:])
    if size is None:
        cursor.refuse(
            first.start, end, f"no drill is known by the name “{name[:20]}”",
            "Type the size it measures, such as 4.2 mm or 0.1562 in.",
        )  # fmt: skip
    number, unit = _plain_size(size, "in")
    cursor.note(f"{name} drill is {number} {unit}")
    return _Term(sign, Amount(size, False, first.start, end, False), "", size)


def _check_drill_number(
    cursor: Cursor, amount: Amount, unit: str, default: str, named: Named | None
) -> None:
    """Refuses `7 drill`, which can be a size or a number drill."""
    if unit or not amount.whole or named is None:
        return
    name = f"#{amount.exact}"
    if named(name) is None and named(name[1:]) is None:
        return
    size = f"{amount.exact} {default}"
    cursor.refuse(
        amount.start, amount.end, f"“{amount.exact} drill” can mean {size} or the number drill {name}",
        "Say which.",
        (cursor.swap(amount.start, amount.end, size), cursor.swap(amount.start, amount.end, name)),
    )  # fmt: skip


def _plain_size(mm: Fraction, preferred: str) -> tuple[str, str]:
    """A length as number and unit, mm or in, in the preferred one where that is short."""
    for unit in (preferred, "in" if preferred == "mm" else "mm"):
        text = short_decimal(mm / _MM[unit])
        if text is not None:
            return text, unit
    return mixed_text(mm), "mm"


def _understood(terms: list[_Term], total: Fraction, default: str) -> str:
    """A text with units that reads back to exactly `total`."""
    first = terms[0]
    if len(terms) == 1 and first.drill is not None:
        return " ".join(_plain_size(total, default))
    if len(terms) == 1:
        return _term_text(first, first.sign, default)
    metric = {(term.unit or default) in _METRIC for term in terms if term.drill is None}
    unit = default if len(metric) != 1 else "mm" if metric == {True} else "in"
    worth = total / _MM[unit]
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
    text = number_text(sign * term.amount.exact, term.amount.fraction, unit not in _METRIC)
    return f"{text} {'tenth' if unit == 'tenths' and term.amount.exact == 1 else unit}"
