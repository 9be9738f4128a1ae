"""The tool's nose and its height.

A round nose of radius r, fed by f a turn, leaves crests of height r - sqrt(r^2 - f^2/4), about f^2/(8 r):
two circles crossing half way between two turns. Touched on along a cylinder and then fed along a flank, the
nose touches at another point of its round and cuts deeper by r (1/cos(half angle) - 1). Geometry.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, sqrt

HEIGHTS = (0.1, 0.2, 0.5)
"""Errors of height that are told [mm]; 0.1 mm is set by eye with care (common practice, no source)."""


def crest_height(feed: float, nose: float) -> float:
    """Height of the crests [mm] for a feed [mm a turn] and a nose radius [mm]; valid up to feed = 2 nose."""
    half = feed / 2.0
    return half * half / (nose + sqrt(nose * nose - half * half))


def nose_shift(nose: float, half_angle: float) -> float:
    """How much deeper a flank comes out [mm on radius] than a cylinder touched on with the same nose [mm]."""
    return nose * (1.0 / cos(half_angle) - 1.0)


def height_for(flatter: Callable[[float], float], limit: float, most: float) -> float:
    """The tool height [mm], up to `most`, at which the taper is flatter by `limit` [mm on diameter].

    flatter: how much flatter [mm, above 0] a height [mm] makes it, growing with the height.
    """
    if flatter(most) <= limit:
        return most
    low, high = 0.0, most
    for _ in range(60):
        middle = (low + high) / 2.0
        if flatter(middle) < limit:
            low = middle
        else:
            high = middle
    return low
