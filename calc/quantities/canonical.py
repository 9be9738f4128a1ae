"""Exact numbers back to text, without rounding."""

from __future__ import annotations

from fractions import Fraction

_MOST_PLACES = 8
_MOST_DIGITS = 11


def decimal_places(exact: Fraction) -> int | None:
    """How many decimal places write `exact` without rounding; None where no number of places does."""
    rest = exact.denominator
    twos = fives = 0
    while rest % 2 == 0:
        rest //= 2
        twos += 1
    while rest % 5 == 0:
        rest //= 5
        fives += 1
    return max(twos, fives) if rest == 1 else None


def fixed_text(exact: Fraction, places: int) -> str:
    """`exact` rounded to `places` decimals, half to even; a negative count rounds to tens, hundreds, ...

    Never shows minus nought.
    """
    if places < 0:
        return str(round(exact / 10**-places) * 10**-places)
    scaled = round(exact * 10**places)
    digits = str(abs(scaled)).rjust(places + 1, "0")
    sign = "-" if scaled < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else sign + digits


def decimal_text(exact: Fraction) -> str | None:
    """`exact` as a decimal without rounding, or None where that does not end."""
    places = decimal_places(exact)
    return None if places is None else fixed_text(exact, places)


def short_decimal(exact: Fraction) -> str | None:
    """`exact` as a decimal without rounding, where that is short enough to be read at a glance."""
    places = decimal_places(exact)
    if places is None or places > _MOST_PLACES:
        return None
    text = fixed_text(exact, places)
    return text if len(text.lstrip("-").replace(".", "")) <= _MOST_DIGITS else None


def mixed_text(exact: Fraction) -> str:
    """`exact` as a whole number and a fraction: 1-3/8."""
    sign = "-" if exact < 0 else ""
    whole, rest = divmod(abs(exact.numerator), exact.denominator)
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole}-{rest}/{exact.denominator}" if whole else f"{sign}{rest}/{exact.denominator}"


def rule_fraction(exact: Fraction) -> bool:
    """True for halves, quarters ... 128ths, the fractions found on an inch rule."""
    return exact.denominator <= 128 and exact.denominator & (exact.denominator - 1) == 0


def number_text(exact: Fraction, fraction: bool, inch: bool) -> str:
    """The form a person would write: fractions stay fractions on the inch side, decimals elsewhere."""
    if fraction and inch and rule_fraction(exact):
        return mixed_text(exact)
    if fraction:
        return short_decimal(exact) or mixed_text(exact)
    return decimal_text(exact) or mixed_text(exact)
