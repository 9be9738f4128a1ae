"""Densities of sums of rectangular errors, in closed form."""

from __future__ import annotations

import math
from collections.abc import Sequence

_SLIGHT = 0.05
"""A half-width below this share of the largest is told from a normal error by nobody."""
_NOTHING = 1e-3
_ROOT_2 = math.sqrt(2.0)
_ROOT_2_PI = math.sqrt(2.0 * math.pi)


def density_of_sum(at: float, half_widths: Sequence[float]) -> float:
    """Density, at `at` from its middle, of a sum of independent errors, each anywhere alike within its ±.

    The two widest are folded exactly (a trapezium), the rest as a normal error of the same variance. Exact
    for one and two errors; for three and four within a few per cent of the peak. At least one half-width must
    be above 0, else ValueError.
    """
    widest, *others = sorted(half_widths, reverse=True)
    if widest <= 0.0:
        raise ValueError("a density needs an error to spread it")
    second = others[0] if others and others[0] > _SLIGHT * widest else 0.0
    rest = others[1:] if second else others
    normal = math.sqrt(sum(each * each for each in rest) / 3.0)
    if normal <= _NOTHING * widest:
        return _trapezium(abs(at), widest, second)
    if abs(at) > widest + second + 9.0 * normal:
        return 0.0
    if not second:
        rise = math.erf((at + widest) / (normal * _ROOT_2)) - math.erf((at - widest) / (normal * _ROOT_2))
        return 0.25 * rise / widest
    corners = (
        _ramp((at + widest + second) / normal)
        - _ramp((at + widest - second) / normal)
        - _ramp((at - widest + second) / normal)
        + _ramp((at - widest - second) / normal)
    )
    return max(0.0, 0.25 * normal * corners / (widest * second))


def _trapezium(away: float, widest: float, second: float) -> float:
    """Two rectangular errors folded; with no second one the rectangle itself."""
    if not second:
        return 0.5 / widest if away <= widest else 0.0
    overlap = min(2.0 * second, widest + second - away)
    return max(0.0, 0.25 * overlap / (widest * second))


def _ramp(z: float) -> float:
    """The second antiderivative of the standard normal density."""
    return 0.5 * z * (1.0 + math.erf(z / _ROOT_2)) + math.exp(-0.5 * z * z) / _ROOT_2_PI


def log_uniform(value: float, lowest: float, highest: float) -> float:
    """Density of a value whose logarithm is anywhere alike between two limits, carried on beyond them.

    Below the lowest it stays what it is there, so that it is finite for a parallel part too.
    """
    return 1.0 / (max(value, lowest) * math.log(highest / lowest))
