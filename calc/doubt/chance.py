"""The chance that a sum of things, each anywhere within its limits, lies inside given bounds.

The true distribution of the sum, not a bell curve: two doubts that outweigh the others make a roof or a table
with sharp ends, and a bell curve misjudges both its middle and its ends.

A rectangular part of half-width a has the characteristic function sin(a w) / (a w), a sum the product of its
parts' functions (GUM, JCGM 101:2008, 5.10 and annex; the functions are in any text on probability). The sum
lies within ± S, S being the sum of the half-widths, so a Fourier series over that span gives its distribution
exactly; its terms die away as fast as the product does.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.estimate import Strip

_MOST_TERMS = 600
_SMALL = 1e-5
_NOTHING, _NEGLIGIBLE = 1e-15, 1e-9
"""No spread at all [the unit in hand], and what cannot show beside the largest part."""


def chance_inside(
    low: float,
    high: float,
    centre: float,
    half_widths: Sequence[float],
    shaped: Sequence[Sequence[Strip]] = (),
) -> float:
    """Chance that centre + a sum of independent parts lies from low to high.

    All in one unit. half_widths: of rectangular parts, 0 or more. shaped: parts that are not rectangular,
    each as rectangles of equal chance. Exact but for the series' end: within 0.001 where one part outweighs
    all others together, far nearer otherwise.
    """
    least = max(_NOTHING, _NEGLIGIBLE * max(half_widths, default=0.0))
    parts = [each for each in half_widths if each > least]
    others: list[list[Strip]] = []
    middle, span = 0.0, sum(parts)
    for strips in shaped:
        bottom, top = min(m - h for m, h in strips), max(m + h for m, h in strips)
        own = 0.5 * (bottom + top)
        middle, span = middle + own, span + 0.5 * (top - bottom)
        others.append([(m - own, h) for m, h in strips])
    a, b = low - centre - middle, high - centre - middle
    if span <= _NOTHING:
        return 1.0 if a <= 0.0 <= b else 0.0
    a, b = max(a, -span), min(b, span)
    if a >= b:
        return 0.0
    if b - a >= 2.0 * span:
        return 1.0
    if len(parts) + len(others) == 1:
        only = others[0] if others else [(0.0, parts[0])]
        return sum(_share(a, b, m, h) for m, h in only) / len(only)
    total = (b - a) / (2.0 * span)
    sin, cos = math.sin, math.cos
    for term in range(1, _MOST_TERMS):
        w = math.pi * term / span
        product, bound = 1.0, 1.0
        for half in parts:
            x = half * w
            product *= sin(x) / x
            if x > 1.0:
                bound /= x
        if bound < _SMALL:
            break
        real, imaginary = product, 0.0
        for strips in others:
            along = across = 0.0
            for m, h in strips:
                x = h * w
                weight = sin(x) / x if x > 1e-9 else 1.0
                along += weight * cos(w * m)
                across += weight * sin(w * m)
            along, across = along / len(strips), across / len(strips)
            real, imaginary = real * along - imaginary * across, real * across + imaginary * along
        total += (real * (sin(w * b) - sin(w * a)) - imaginary * (cos(w * b) - cos(w * a))) / (math.pi * term)
    return min(1.0, max(0.0, total))


def _share(a: float, b: float, middle: float, half: float) -> float:
    """Share of one rectangle between a and b."""
    if half <= 0.0:
        return 1.0 if a <= middle <= b else 0.0
    return max(0.0, min(b, middle + half) - max(a, middle - half)) / (2.0 * half)
