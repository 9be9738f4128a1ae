"""The shape of a doubt that acts crookedly: what a function makes of something anywhere within limits.

An indicator askew by d reads 1 / cos d: whichever way it leans it reads long, so its effect is one-sided. A
rectangle in its place would put half of it on the wrong side. The effect is therefore kept as strips, equally
likely rectangles over equal steps of what is doubtful.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from calc.estimate import Estimate, Shape, Strip

STRIPS = 16
_NODES = (
    (0.0, 128.0 / 225.0),
    (0.5384693101056831, 0.47862867049936647),
    (-0.5384693101056831, 0.47862867049936647),
    (0.906179845938664, 0.23692688505618908),
    (-0.906179845938664, 0.23692688505618908),
)


def strips_of(
    function: Callable[[float], float], low: float, high: float, count: int = STRIPS
) -> list[Strip]:
    """What a function gives for anything from low to high alike: `count` strips of equal chance.

    The mean over each step by Simpson's rule, its width from the ends; the function is smooth over a step.
    """
    step = 0.5 * (high - low) / count
    at = [function(low + step * place) for place in range(2 * count + 1)]
    return [
        ((at[place] + 4.0 * at[place + 1] + at[place + 2]) / 6.0, 0.5 * abs(at[place + 2] - at[place]))
        for place in range(0, 2 * count, 2)
    ]


def mean_spread_shape(strips: Sequence[Strip]) -> tuple[float, float, Shape]:
    """Mean and standard spread of equally likely strips, and their shape about the mean in units of it."""
    mean = math.fsum(middle for middle, _ in strips) / len(strips)
    variance = math.fsum((middle - mean) ** 2 + half * half / 3.0 for middle, half in strips) / len(strips)
    spread = math.sqrt(variance)
    if spread == 0.0:
        return mean, 0.0, ()
    return mean, spread, tuple(((middle - mean) / spread, half / spread) for middle, half in strips)


def curved(function: Callable[[float], float], half_width: float, key: str) -> Estimate:
    """A function of something that lies anywhere within ± half_width of 0, with its mean, spread and shape.

    For what is not of first order, such as a cosine about 0. Mean and spread by Gauss-Legendre, five points:
    exact for polynomials up to the ninth power. An even function's shape is looked at on one side.
    """
    if half_width <= 0.0:
        return Estimate(function(0.0))
    about = function(0.0)
    found = [(function(half_width * at) - about, 0.5 * weight) for at, weight in _NODES]
    mean = math.fsum(value * weight for value, weight in found)
    spread = math.sqrt(math.fsum((value - mean) ** 2 * weight for value, weight in found))
    rise, fall = function(half_width) - about, function(-half_width) - about
    low = 0.0 if abs(rise - fall) <= 1e-9 * abs(rise) else -half_width
    shape = mean_spread_shape(strips_of(function, low, half_width))[2]
    return Estimate(about + mean, {key: spread}, {key: shape} if shape else {})
