"""The tool's nose and its height.

A round nose of radius r, fed by f a turn, leaves crests of height r - sqrt(r^2 - f^2/4), about f^2/(8 r):
two circles crossing half way between two turns.

Above or below centre by e, with the size set right at the small end, the slide's straight path makes

    r(z) = sqrt((x_s + m z)^2 + e^2),   x_s = sqrt(r_s^2 - e^2),   m = tan(half angle)

a hyperbola: hollow in its middle and too flat (Joshua Rose and F. D. Jones say so in words; geometry).
"""

from __future__ import annotations

from math import sqrt

HEIGHTS = (0.1, 0.2, 0.5)
"""Errors of height that are told [mm]; 0.1 mm is set by eye with care (common practice, no source)."""


def crest_height(feed: float, nose: float) -> float:
    """Height of the crests [mm] for a feed [mm a turn] and a nose radius [mm]; valid for feed < 2 nose."""
    half = feed / 2.0
    return half * half / (nose + sqrt(nose * nose - half * half))


def _radius(small: float, slope: float, height: float, along: float) -> float:
    at_small = sqrt(small * small - height * height)
    return sqrt((at_small + slope * along) ** 2 + height * height)


def flatter_by(height: float, small: float, slope: float, length: float) -> float:
    """How much too small the large end comes out [mm on diameter], with the small end right.

    height: tool above or below centre [mm], less than `small`, the radius at the small end [mm]. slope:
    tan(half angle). length along the axis [mm].
    """
    return 2.0 * (small + slope * length - _radius(small, slope, height, length))


def hollow_by(height: float, small: float, slope: float, length: float) -> float:
    """How far the middle lies below the straight line between the ends [mm on radius]; as `flatter_by`."""
    large = _radius(small, slope, height, length)
    return (small + large) / 2.0 - _radius(small, slope, height, length / 2.0)


def height_for(error: float, small: float, slope: float, length: float) -> float:
    """The height [mm] at which the large end comes out too small by `error` [mm on diameter].

    Never more than 0.999 of the radius at the small end: halving of the interval, as the error grows with it.
    """
    low, high = 0.0, 0.999 * small
    if flatter_by(high, small, slope, length) <= error:
        return high
    for _ in range(60):
        middle = (low + high) / 2.0
        if flatter_by(middle, small, slope, length) < error:
            low = middle
        else:
            high = middle
    return low
