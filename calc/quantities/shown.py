"""Results as a person reads them, in both systems, with as many digits as the ± supports."""

from __future__ import annotations

import math
from fractions import Fraction

from .canonical import fixed_text
from .digits import fixed, places_for, round_like, trimmed, usable

_INCH = 25.4
_TENTH = 0.00254
_FINEST_MM, _FINEST_INCH = 6, 7


def shown_length(mm: float, plus_minus: float | None = None) -> dict[str, str]:
    """A length [mm] as text in mm and in inches; `plus_minus` is its expanded ± [mm].

    Without ±: mm to 4 places, inches to 5, less noughts at the end beyond 2 and 3.
    """
    if usable(plus_minus) and plus_minus is not None:
        return {
            "mm": round_like(mm, plus_minus, _FINEST_MM)[0] + " mm",
            "inch": round_like(mm / _INCH, plus_minus / _INCH, _FINEST_INCH)[0] + " in",
        }
    return {
        "mm": trimmed(fixed(mm, 4), 2) + " mm",
        "inch": trimmed(fixed(mm / _INCH, 5), 3) + " in",
    }


def plus_minus_length(mm: float | None) -> dict[str, str]:
    """The ± of a length [mm] as text in mm and in inches; empty texts where there is none."""
    if mm is None or not usable(mm):
        return {"mm": "", "inch": ""}
    return {
        "mm": f"± {round_like(0.0, mm, _FINEST_MM)[1]} mm",
        "inch": f"± {round_like(0.0, mm / _INCH, _FINEST_INCH)[1]} in",
    }


def shown_angle(radians: float, plus_minus: float | None = None) -> dict[str, str]:
    """An angle [rad] as text: decimal degrees, then degrees, minutes and seconds as far as the ± [rad] supports.

    Without ±: four places of a degree, and whole seconds. The same text for both systems.
    """
    degrees = math.degrees(radians)
    if not math.isfinite(degrees):
        return {"mm": "not known", "inch": "not known"}
    if plus_minus is None or not usable(plus_minus):
        text = f"{trimmed(fixed(degrees, 4), 2)}° ({_split(degrees, 2, 0)})"
    else:
        spread = math.degrees(plus_minus)
        text = round_like(degrees, spread, _FINEST_MM)[0] + "°"
        seconds, minutes = places_for(spread * 3600), places_for(spread * 60)
        if seconds >= 0:
            text += f" ({_split(degrees, 2, min(seconds, 2))})"
        elif minutes >= 0:
            text += f" ({_split(degrees, 1, minutes)})"
    return {"mm": text, "inch": text}


def plus_minus_angle(radians: float | None) -> dict[str, str]:
    """The ± of an angle [rad] as text in degrees; empty texts where there is none."""
    if radians is None or not usable(radians):
        return {"mm": "", "inch": ""}
    text = f"± {round_like(0.0, math.degrees(radians), _FINEST_MM)[1]}°"
    return {"mm": text, "inch": text}


def _split(degrees: float, smallest: int, places: int) -> str:
    """Degrees and minutes (`smallest` 1), and seconds (2), the smallest part to `places` decimals.

    The whole is rounded once, in units of its last digit, so that no part ever shows 60.
    """
    step = 60**smallest * 10**places
    units = round(Fraction(degrees) * step)
    sign = "-" if units < 0 else ""
    whole, rest = divmod(abs(units), step)
    if smallest == 1:
        return f"{sign}{whole}°{fixed_text(Fraction(rest, 10**places), places)}'"
    minutes, rest = divmod(rest, 60 * 10**places)
    return f"{sign}{whole}°{minutes}'{fixed_text(Fraction(rest, 10**places), places)}\""


def shown_rate(ratio: float, plus_minus: float | None = None) -> dict[str, str]:
    """A taper on diameter [ratio] as text: one in so much and per cent; inches per foot. `plus_minus` [ratio].

    One in so much is left out where its ± is as large as itself.
    """
    percent, per_foot = 100 * ratio, 12 * ratio
    one_in = 1 / ratio if ratio else math.inf
    if plus_minus is not None and usable(plus_minus):
        percent_text = round_like(percent, 100 * plus_minus, _FINEST_MM)[0]
        foot_text = round_like(per_foot, 12 * plus_minus, _FINEST_INCH)[0]
        spread = plus_minus * one_in * one_in
        one_in_text = round_like(abs(one_in), spread, _FINEST_MM)[0] if spread < abs(one_in) else ""
    else:
        percent_text, foot_text = fixed(percent, 3), fixed(per_foot, 4)
        one_in_text = fixed(abs(one_in), 3) if math.isfinite(one_in) else ""
    sign = "-" if ratio < 0 else ""
    metric = f"{sign}1:{one_in_text} ({percent_text} %)" if one_in_text else f"{percent_text} %"
    return {"mm": metric, "inch": f"{foot_text} in/ft"}


def plus_minus_rate(ratio: float | None) -> dict[str, str]:
    """The ± of a taper [ratio] as text, in per cent and in inches per foot; empty texts where there is none."""
    if ratio is None or not usable(ratio):
        return {"mm": "", "inch": ""}
    return {
        "mm": f"± {round_like(0.0, 100 * ratio, _FINEST_MM)[1]} %",
        "inch": f"± {round_like(0.0, 12 * ratio, _FINEST_INCH)[1]} in/ft",
    }


def show_micrometres(mm: float, plus_minus: float | None = None) -> dict[str, str]:
    """A small signed error [mm] as text: micrometres, and tenths (0.0001 in). `plus_minus` [mm] is its ±.

    From 1 mm on millimetres and inches are used. Without ±: one place.
    """
    metric, scale_mm, inch, scale_inch = _small_units(max(abs(mm), plus_minus or 0.0))
    if plus_minus is not None and usable(plus_minus):
        texts = (
            round_like(mm * scale_mm, plus_minus * scale_mm, 3)[0],
            round_like(mm * scale_inch, plus_minus * scale_inch, 3)[0],
        )
    else:
        places = 1 if metric == "µm" else 3
        texts = fixed(mm * scale_mm, places), fixed(mm * scale_inch, places)
    return {"mm": f"{_signed(texts[0])} {metric}", "inch": f"{_signed(texts[1])} {inch}"}


def plus_minus_micrometres(mm: float | None) -> dict[str, str]:
    """The ± of a small error [mm] as text, in micrometres and tenths; empty texts where there is none."""
    if mm is None or not usable(mm):
        return {"mm": "", "inch": ""}
    metric, scale_mm, inch, scale_inch = _small_units(mm)
    return {
        "mm": f"± {round_like(0.0, mm * scale_mm, 3)[1]} {metric}",
        "inch": f"± {round_like(0.0, mm * scale_inch, 3)[1]} {inch}",
    }


def _small_units(largest: float) -> tuple[str, float, str, float]:
    """Metric unit and its number in a mm, inch unit and its number in a mm, for errors up to `largest` [mm]."""
    if largest < 1:
        return "µm", 1000.0, "tenths", 1 / _TENTH
    return "mm", 1.0, "in", 1 / _INCH


def _signed(text: str) -> str:
    """The text with a plus where it is above 0; nought has no sign."""
    return text if text[0] in "-n" or not text.strip("0.") else "+" + text
