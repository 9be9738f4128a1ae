"""Numbers as people type them: decimals with point or comma, fractions, mixed fractions, small powers of ten.

All exact. What can be meant in two ways is refused, with both ways as offers, rather than guessed.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from .canonical import mixed_text
from .cursor import Cursor
from .scan import VULGAR, Token

MOST_DIGITS = 24
"""Most digits of one number, counted after a power of ten has been written out."""
MOST_POWER = 9
"""Largest power of ten, up or down."""


class Amount(NamedTuple):
    """A number read from a text: its exact worth, whether it was a fraction, and its place."""

    exact: Fraction
    fraction: bool
    start: int
    end: int
    whole: bool
    """True where plain digits alone were typed, as in 7."""
    step: Fraction = Fraction(0)
    """What one unit in the last decimal typed is worth; 0 where there are no decimals."""


def read_amount(cursor: Cursor) -> Amount:
    """The unsigned number at the cursor, which must stand at a number or vulgar fraction."""
    first = cursor.take()
    if first.kind == "vulgar":
        return Amount(_vulgar(first), True, first.start, first.end, False)
    following = cursor.peek()
    if following.kind == "sign" and following.text == "/" and cursor.peek(1).kind in ("number", "vulgar"):
        exact, end = _over(cursor, first)
        return Amount(exact, True, first.start, end, False)
    exact = decimal(cursor, first)
    amount = Amount(exact, False, first.start, first.end, _is_whole(first), _step(first))
    return _with_fraction(cursor, amount)


def at_number(cursor: Cursor) -> bool:
    """True where a number can start at the cursor."""
    return cursor.peek().kind in ("number", "vulgar")


def _is_whole(token: Token) -> bool:
    return token.text.isdigit()


def _step(token: Token) -> Fraction:
    """The worth of one in the last decimal of a number token that reads as a decimal."""
    body, _, power = token.text.partition("e")
    places = len(body.replace(",", ".").partition(".")[2])
    return Fraction(10) ** (int(power or 0) - places) if places else Fraction(0)


def _vulgar(token: Token) -> Fraction:
    top, bottom = VULGAR[token.text]
    return Fraction(top, bottom)


def _over(cursor: Cursor, top: Token) -> tuple[Fraction, int]:
    """A typed fraction, its top already taken; moves past the slash and the bottom."""
    cursor.take()
    bottom = cursor.take()
    end = bottom.end
    if bottom.kind != "number" or not (_is_whole(top) and _is_whole(bottom)):
        cursor.refuse(
            top.start,
            end,
            f"“{cursor.typed(top.start, end)}” is not a fraction of two whole numbers",
            "Type whole numbers above and below the bar, such as 3/8, or a decimal.",
        )
    upper, lower = decimal(cursor, top), decimal(cursor, bottom)
    if lower == 0:
        cursor.refuse(
            bottom.start,
            end,
            "a fraction cannot have 0 below the bar",
            "Type the fraction again, such as 3/8.",
        )
    if cursor.peek().text == "/" and cursor.peek(1).kind in ("number", "vulgar"):
        last = cursor.peek(1)
        cursor.refuse(
            top.start,
            last.end,
            f"“{cursor.typed(top.start, last.end)}” has two fraction bars",
            "Type one fraction, such as 3/8, or a decimal.",
        )
    return upper / lower, end


def _with_fraction(cursor: Cursor, amount: Amount) -> Amount:
    """Takes the fraction of a mixed number, `1-3/8`, `1 3/8` or `1⅜`, where one follows."""
    dash = cursor.peek()
    ahead = 1 if dash.kind == "sign" and dash.text == "-" else 0
    top = cursor.peek(ahead)
    bar, bottom = cursor.peek(ahead + 1), cursor.peek(ahead + 2)
    is_fraction = top.kind == "vulgar" or (top.kind == bottom.kind == "number" and bar.text == "/")
    if not is_fraction or (ahead and not amount.whole):
        return amount
    for _ in range(ahead):
        cursor.take()
    cursor.take()
    part, end = (_vulgar(top), top.end) if top.kind == "vulgar" else _over(cursor, top)
    shown = cursor.typed(amount.start, end)
    sum_text, difference = mixed_text(amount.exact + part), mixed_text(amount.exact - part)
    if not amount.whole:
        cursor.refuse(
            amount.start,
            end,
            f"“{shown}” is a decimal with a fraction behind it",
            "Put a plus between them to add them up, or type one number.",
            (cursor.swap(amount.end, top.start, " + "),),
        )
    if part >= 1:
        cursor.refuse(
            amount.start,
            end,
            f"“{shown}” has a fraction of one or more behind a whole number",
            "Say which is meant: added or taken away.",
            (cursor.swap(amount.start, end, sum_text), cursor.swap(amount.start, end, difference)),
        )
    if ahead and (dash.spaced or top.spaced):
        cursor.refuse(
            amount.start,
            end,
            f"“{shown}” can mean {sum_text} or {difference}",
            "Close the gaps for a whole number and a fraction; type the result for a difference.",
            (cursor.swap(amount.start, end, sum_text), cursor.swap(amount.start, end, difference)),
        )
    if ahead:
        cursor.note(f"{shown} read as {amount.exact} and {part}")
    return Amount(amount.exact + part, True, amount.start, end, False)


def decimal(cursor: Cursor, token: Token) -> Fraction:
    """The exact worth of a number token; refuses what has too many digits or can be read in two ways."""
    body, _, power_text = token.text.partition("e")
    power = 0
    if power_text:
        power = int(power_text)
        if abs(power) > MOST_POWER:
            cursor.refuse(
                token.start,
                token.end,
                f"“{cursor.typed(token.start, token.end)}” is out of reach: "
                f"powers of ten go from -{MOST_POWER} to {MOST_POWER}",
                "Write the number out in digits.",
            )
    if sum(map(body.count, ".,")):
        body = _with_point(cursor, token, body)
    whole, _, part = body.partition(".")
    if max(len(whole) + power, 1) + max(len(part) - power, 0) > MOST_DIGITS:
        cursor.refuse(
            token.start,
            token.end,
            f"“{cursor.typed(token.start, token.end)}” has too many digits for a measurement",
            f"Round it to {MOST_DIGITS} digits or fewer.",
        )
    exact = Fraction(int(whole + part or "0"), 10 ** len(part))
    return exact * Fraction(10) ** power


def _with_point(cursor: Cursor, token: Token, body: str) -> str:
    """The number with a decimal point, where its points and commas leave no doubt."""
    tail = token.text[len(body) :]

    def instead(*bodies: str) -> tuple[str, ...]:
        return tuple(cursor.swap(token.start, token.end, one + tail) for one in bodies)

    typed = cursor.typed(token.start, token.end)
    points, commas = body.count("."), body.count(",")
    if points == 1 and not commas:
        return body
    if points + commas > 1:
        parts = body.replace(",", ".").split(".")
        grouped = parts[0] and all(len(part) == 3 for part in parts[1:])
        thousands = grouped and (points == 0 or commas == 0)
        joined = "".join(parts)
        last, first = "".join(parts[:-1]) + "." + parts[-1], parts[0] + "." + "".join(parts[1:])
        cursor.refuse(
            token.start,
            token.end,
            f"“{typed}” has more than one point or comma",
            "Type it with one decimal point and nothing between the thousands.",
            instead(joined) if thousands else instead(last, first),
        )
    whole, _, part = body.partition(",")
    if not part:
        cursor.refuse(
            token.start,
            token.end,
            f"“{typed}” ends in a comma",
            "Take the comma away or type the figures behind it.",
            instead(whole),
        )
    if len(part) == 3 and 1 <= len(whole) <= 3 and whole[0] != "0":
        cursor.refuse(
            token.start,
            token.end,
            f"“{typed}” can mean {whole}.{part} or {whole}{part}",
            "Type it with a decimal point, or without the comma.",
            instead(f"{whole}.{part}", whole + part),
        )
    cursor.note("comma read as a decimal comma")
    return f"{whole}.{part}"
