"""Results as a person reads them, in both systems, with as many digits as the ± supports.

Every function takes mm, rad or a plain ratio and answers {"mm": text, "inch": text}. A ± that is None, 0 or
not finite counts as not stated. What is not finite, or beyond 1e100, is shown as "not known".
"""

from __future__ import annotations

import math
from fractions import Fraction

from .canonical import fixed_text
from .digits import NOT_KNOWN, fixed, known, places_for, round_like, trimmed, usable

_INCH = 25.4
_TENTH = 0.00254
_FINEST = 6
"""Most decimal places of degrees and per cent."""
_FINEST_RATE_INCH = 7
_FINEST_MM, _FINEST_INCH = 4, 5
"""Most decimal places of a length: a tenth of a micrometre is finer than anything a shop can set or read."""
_FINEST_SMALL = 2
"""Most decimal places of micrometres and tenths."""
_MOST_TENTHS = 10
"""From more tenths than these on, inches are said: nobody reads "100 tenths" at a machine."""


def _both(metric: str, inch: str) -> dict[str, str]:
    return {"mm": metric, "inch": inch}


def _plus_minus(spread: float, unit: str, finest: int) -> str:
    number = round_like(0.0, spread, finest)[1]
    return f"± {number}{' tenth' if unit == ' tenths' and number == '1' else unit}"


def shown_length(mm: float, plus_minus: float | None = None) -> dict[str, str]:
    """A length [mm] in mm and in inches; `plus_minus` is its expanded ± [mm].

    Without ±: mm to 4 places, inches to 5, less noughts at the end beyond 2 and 3.
    """
    if not known(mm):
        return _both(NOT_KNOWN, NOT_KNOWN)
    spread = usable(plus_minus)
    if spread:
        metric = round_like(mm, spread, _FINEST_MM)[0]
        inch = round_like(mm / _INCH, spread / _INCH, _FINEST_INCH)[0]
    else:
        metric, inch = trimmed(fixed(mm, 4), 2), trimmed(fixed(mm / _INCH, 5), 3)
    return _both(f"{metric} mm", f"{inch} in")


def plus_minus_length(mm: float | None) -> dict[str, str]:
    """The ± of a length [mm]; empty texts where there is none."""
    spread = usable(mm)
    if not spread:
        return _both("", "")
    return _both(_plus_minus(spread, " mm", _FINEST_MM), _plus_minus(spread / _INCH, " in", _FINEST_INCH))


def shown_angle(radians: float, plus_minus: float | None = None) -> dict[str, str]:
    """An angle [rad] in decimal degrees, then in degrees, minutes and seconds as far as the ± supports [rad].

    Without ±: four places of a degree, less noughts beyond two, and whole seconds. One text for both systems.
    """
    degrees = math.degrees(radians)
    if not known(degrees):
        return _both(NOT_KNOWN, NOT_KNOWN)
    spread = math.degrees(usable(plus_minus))
    if not spread:
        text = f"{trimmed(fixed(degrees, 4), 2)}° ({_split(degrees, 2, 0)})"
        return _both(text, text)
    text = round_like(degrees, spread, _FINEST)[0] + "°"
    seconds, minutes = places_for(spread * 3600), places_for(spread * 60)
    if seconds >= 0:
        text += f" ({_split(degrees, 2, min(seconds, 2))})"
    elif minutes >= 0:
        text += f" ({_split(degrees, 1, minutes)})"
    return _both(text, text)


def plus_minus_angle(radians: float | None) -> dict[str, str]:
    """The ± of an angle [rad] in degrees; empty texts where there is none."""
    spread = math.degrees(usable(radians))
    text = _plus_minus(spread, "°", _FINEST) if spread else ""
    return _both(text, text)


def _split(degrees: float, smallest: int, places: int) -> str:
    """Degrees and minutes (`smallest` 1), and seconds (2), the smallest part to `places` decimals.

    The whole is rounded once, in units of its last digit, so that no part ever shows 60.
    """
    step = 60**smallest * 10**places
    units = round(Fraction(degrees) * step)
    whole, rest = divmod(abs(units), step)
    text = f"{'-' if units < 0 else ''}{whole}°"
    if smallest == 1:
        return f"{text}{fixed_text(Fraction(rest, 10**places), places)}'"
    minutes, rest = divmod(rest, 60 * 10**places)
    return f"{text}{minutes}'{fixed_text(Fraction(rest, 10**places), places)}\""


def shown_rate(ratio: float, plus_minus: float | None = None) -> dict[str, str]:
    """A taper on diameter [ratio] as one in so much with per cent, and as inches per foot.

    One in so much is left out where the taper is not clear of 0 by more than its ± (`plus_minus` [ratio]).
    Without ±: 3 places, 5 for inches per foot, as the standards print them.
    """
    if not known(ratio):
        return _both(NOT_KNOWN, NOT_KNOWN)
    spread = usable(plus_minus)
    if spread:
        percent = round_like(100 * ratio, 100 * spread, _FINEST)[0]
        per_foot = round_like(12 * ratio, 12 * spread, _FINEST_RATE_INCH)[0]
    else:
        percent, per_foot = fixed(100 * ratio, 3), fixed(12 * ratio, 5)
    metric = f"{percent} %"
    one_in = 1 / abs(ratio) if ratio else math.inf
    if spread < abs(ratio) and known(one_in):
        run = round_like(one_in, spread * one_in * one_in, _FINEST)[0] if spread else fixed(one_in, 3)
        metric = f"{'-' if ratio < 0 else ''}1:{run} ({percent} %)"
    return _both(metric, f"{per_foot} in/ft")


def plus_minus_rate(ratio: float | None) -> dict[str, str]:
    """The ± of a taper [ratio] in per cent and in inches per foot; empty texts where there is none."""
    spread = usable(ratio)
    if not spread:
        return _both("", "")
    return _both(
        _plus_minus(100 * spread, " %", _FINEST), _plus_minus(12 * spread, " in/ft", _FINEST_RATE_INCH)
    )


def shown_micrometres(mm: float, plus_minus: float | None = None) -> dict[str, str]:
    """A small error [mm] with its sign, in micrometres and in tenths (0.0001 in); `plus_minus` is its ± [mm].

    Past 10 tenths inches are used, and from 1 mm on millimetres. Without ±: one place of micrometres and
    tenths, four of inches, and from 1 mm on three of both.
    """
    if not known(mm):
        return _both(NOT_KNOWN, NOT_KNOWN)
    spread = usable(plus_minus)
    texts = []
    for unit, size, finest in _small_units(max(abs(mm), spread)):
        if spread:
            number = round_like(mm / size, spread / size, finest)[0]
        else:
            number = fixed(mm / size, 1 if size < 1 else 3 if abs(mm) >= 1 else 4)
        above = number[0] != "-" and number.strip("0.")
        texts.append(f"{'+' if above else ''}{number} {_named(number, unit)}")
    return _both(*texts)


def plus_minus_micrometres(mm: float | None) -> dict[str, str]:
    """The ± of a small error [mm], in micrometres and in tenths; empty texts where there is none."""
    spread = usable(mm)
    if not spread:
        return _both("", "")
    units = _small_units(spread)
    return _both(*(_plus_minus(spread / size, f" {unit}", finest) for unit, size, finest in units))


def _named(number: str, unit: str) -> str:
    """The unit beside this number: one tenth, two tenths."""
    return "tenth" if unit == "tenths" and number.lstrip("+-") == "1" else unit


def _small_units(largest: float) -> tuple[tuple[str, float, int], tuple[str, float, int]]:
    """Metric and inch unit for errors up to `largest` [mm], each with its length [mm] and finest place."""
    inches = ("in", _INCH, _FINEST_INCH)
    metric = ("µm", 0.001, _FINEST_SMALL) if largest < 1 else ("mm", 1.0, _FINEST_MM)
    return metric, ("tenths", _TENTH, _FINEST_SMALL) if largest <= _MOST_TENTHS * _TENTH else inches
