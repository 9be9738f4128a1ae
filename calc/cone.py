"""The cone: solved from any sufficient set of its measures, contradictions named.

Signs and names: diameters at the large and the small end, `length` along the
axis between them, `rate` the change of diameter over that length (a plain
ratio: 1:20 is 0.05), the half angle between flank and axis.

    rate = (large - small) / length,   tan(half angle) = rate / 2

Source: F. D. Jones, Turning and Boring (about 1914), rules for figuring tapers.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

LENGTH_AGREES = 0.001
"""Measures [mm on diameter] nearer together than this are one and the same: below what a shop reads."""

STEEPEST_RATE = 2.0 * math.tan(math.radians(85.0))
"""Beyond 85 degrees of half angle there is no taper to turn, but a face."""


@dataclass(frozen=True, slots=True)
class Cone:
    """A solved taper. Diameters and length [mm] are None where nothing told them; rate is plain."""

    rate: float
    large_diameter: float | None = None
    small_diameter: float | None = None
    length: float | None = None

    @property
    def half_angle(self) -> float:
        """Between flank and axis [rad]."""
        return math.atan(self.rate / 2.0)

    @property
    def included_angle(self) -> float:
        """Between opposite flanks [rad]: twice the half angle, never atan(rate)."""
        return 2.0 * self.half_angle


_RATES = ("rate", "half_angle", "included_angle")


class Unsolved(ValueError):
    """Too little is known; `needed` says in words what would be enough."""

    def __init__(self, needed: str) -> None:
        super().__init__(needed)
        self.needed = needed


class Disagreement(ValueError):
    """Too much is known and it does not agree.

    `would_be` maps each measure's name to the value [mm, rad or plain] it would
    need for the others to stand.
    """

    def __init__(self, would_be: Mapping[str, float]) -> None:
        super().__init__("the measures disagree: " + ", ".join(would_be))
        self.would_be = dict(would_be)


def rate_from_half_angle(half_angle: float) -> float:
    """Taper on diameter, plain, from the half angle [rad], 0 to 85 degrees."""
    return 2.0 * math.tan(half_angle)


def error_on_diameter(nominal_half_angle: float, half_angle: float, length: float) -> float:
    """How far out the taper is over its length [mm on diameter]; above zero is too steep.

    2 L (tan a' - tan a), angles [rad], length along the axis [mm].
    """
    return 2.0 * length * (math.tan(half_angle) - math.tan(nominal_half_angle))


def _one_rate(rates: Mapping[str, float], length: float | None) -> float | None:
    """The rate that every given angle or rate agrees on, None where none is given."""
    if not rates:
        return None
    values = list(rates.values())
    over = length if length is not None else 100.0  # over a customary length where none is known
    if (max(values) - min(values)) * over > LENGTH_AGREES:
        raise Disagreement(_rates_would_be(rates))
    return values[0]


def _rates_would_be(rates: Mapping[str, float]) -> dict[str, float]:
    """What each angle or rate would have to be for the first other one to stand."""
    names = list(rates)
    return {name: _as_measure(name, rates[names[1] if name == names[0] else names[0]]) for name in names}


def _as_rate(name: str, value: float) -> float:
    """The rate that the measure `name` tells."""
    if name == "half_angle":
        return rate_from_half_angle(value)
    if name == "included_angle":
        return rate_from_half_angle(value / 2.0)
    return value


def _as_measure(name: str, rate: float) -> float:
    """A rate told the way `name` tells it."""
    if name == "half_angle":
        return math.atan(rate / 2.0)
    if name == "included_angle":
        return 2.0 * math.atan(rate / 2.0)
    return rate


def solve(measures: Mapping[str, float], give: Mapping[str, float] | None = None) -> Cone:
    """The cone from any sufficient set of measures.

    Names: large_diameter, small_diameter, length [mm]; rate [plain];
    half_angle, included_angle [rad]. A rate or angle alone is enough for an
    angle; two diameters and a length are, and so is a diameter with length and rate.

    `give` [mm] is how far a diameter or length may be off for having been rounded.

    Raises Unsolved where too little is known, Disagreement where the measures
    contradict each other by more than `LENGTH_AGREES` and what they give.
    """
    off = give or {}
    rates = {name: _as_rate(name, measures[name]) for name in _RATES if name in measures}
    large, small, length = (measures.get(name) for name in ("large_diameter", "small_diameter", "length"))
    rate = _one_rate(rates, length)
    if large is not None and small is not None and small > large:
        raise Disagreement({"large_diameter": small, "small_diameter": large})
    if rate is None:
        if large is None or small is None or length is None:
            raise Unsolved(_needed(large, small, length))
        rate = (large - small) / length
    elif large is not None and small is not None and length is not None:
        allowed = LENGTH_AGREES + off.get("large_diameter", 0.0) + off.get("small_diameter", 0.0)
        if abs(large - small - length * rate) > allowed + rate * off.get("length", 0.0):
            told = next(iter(rates))
            would = {
                "large_diameter": small + length * rate,
                "small_diameter": large - length * rate,
                told: _as_measure(told, (large - small) / length),
            }
            if rate > 0:
                would["length"] = (large - small) / rate
            raise Disagreement(would)
    elif large is not None and small is not None and rate > 0:
        length = (large - small) / rate
    elif large is not None and length is not None:
        small = large - length * rate
    elif small is not None and length is not None:
        large = small + length * rate
    return Cone(rate, large, small, length)


def _needed(large: float | None, small: float | None, length: float | None) -> str:
    missing = [
        name
        for name, value in (
            ("the large diameter", large),
            ("the small diameter", small),
            ("the length between them", length),
        )
        if value is None
    ]
    if len(missing) == 3:
        return "a rate or an angle, or two diameters and the length between them"
    return "a rate or an angle, or " + " and ".join(missing)
