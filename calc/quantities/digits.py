"""How many digits a result is shown with.

The rule is that of the Particle Data Group, Review of Particle Physics, introduction, "Rounding": take the
three highest digits of the ±; from 100 to 354 keep two digits of it, from 355 to 949 keep one, from 950 to
999 round up to 1000 and keep two. The value is then given to the same place as its ±.

Rounding is of the float's own binary value, half to even, the same in every Python.
"""

from __future__ import annotations

from fractions import Fraction

from .canonical import fixed_text

NOT_KNOWN = "not known"
_LARGEST = 1e100
FINEST = 9
"""Most decimal places ever shown."""


def places_for(plus_minus: float) -> int:
    """The decimal place of the last digit that `plus_minus` supports (2: hundredths, -1: tens).

    `plus_minus` must be finite and above 0. Any unit.
    """
    return _rule(plus_minus)[0]


def _rule(plus_minus: float) -> tuple[int, float]:
    """The last decimal place that `plus_minus` supports, and the ± to be shown to that place."""
    # Fifteen digits, so that 0.355 counts as 355 although its binary value lies a hair below.
    mantissa, _, power_text = f"{plus_minus:.14e}".partition("e")
    power = int(power_text)
    highest = int(mantissa[0] + mantissa[2:4])
    if highest <= 354:
        return 1 - power, plus_minus
    if highest <= 949:
        return -power, plus_minus
    return -power, 10.0 ** (power + 1)


def usable(plus_minus: float | None) -> float:
    """The ± where digits can follow it; 0 where it is not stated, not above 0 or beyond all measure."""
    return plus_minus if plus_minus is not None and 0 < plus_minus < _LARGEST else 0.0


def known(value: float) -> bool:
    """True for a value that can be shown; False for what is not finite or beyond all measure."""
    return abs(value) < _LARGEST


def fixed(value: float, places: int) -> str:
    """`value` rounded to `places` decimals; a negative count rounds to tens, hundreds ...

    Never minus nought. "not known" for what is not finite.
    """
    if not known(value):
        return NOT_KNOWN
    if places < 0:
        return fixed_text(Fraction(value), places)
    text = f"{value:.{places}f}"
    return text if text.strip("-0.") else text.lstrip("-")


def trimmed(text: str, least: int) -> str:
    """A decimal text without the noughts at its end, down to `least` places."""
    whole, point, part = text.partition(".")
    if not point:
        return text
    part = part.rstrip("0").ljust(least, "0") if len(part) > least else part
    return f"{whole}.{part}" if part else whole


def round_like(value: float, plus_minus: float, finest: int = FINEST) -> tuple[str, str]:
    """A value and its ±, both written to the place the ± supports, as texts. Any unit.

    A ± finer than `finest` places is shown as one in the last of these, which errs on the safe side.
    """
    if not usable(plus_minus):
        return fixed(value, 4), ""
    places, spread = _rule(plus_minus)
    if places > finest:
        places, spread = finest, max(spread, 10.0**-finest)
    return fixed(value, places), fixed(spread, places)
