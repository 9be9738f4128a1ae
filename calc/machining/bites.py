"""A flank longer than the slide's travel, cut in bites that overlap.

All along the flank, in mm from the end where cutting begins. Between two bites the carriage moves along the
bed and the cross-slide follows, so that the tool stays on the same cone:

    along the bed = step x cos(half angle)       cross-slide = step x sin(half angle), on radius

Geometry; the clearances are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, cos, sin

CLEAR = 1.0
"""Travel wanted before the work and beyond it [mm]: to start clear of the metal, and to run out of it."""
OVERLAP = 3.0
"""Least overlap of two bites [mm], to pick up the finished part on."""
MOST_BITES = 50
_ROUND_OFF = 1e-9


@dataclass(frozen=True, slots=True)
class Bites:
    """The bites: each from and to, and the step from one to the next [mm along the flank]."""

    spans: tuple[tuple[float, float], ...]
    step: float

    def along_bed(self, half_angle: float) -> float:
        """How far the carriage moves for the next bite [mm]."""
        return self.step * cos(half_angle)

    def cross_slide(self, half_angle: float) -> float:
        """How far the cross-slide follows [mm, on radius]."""
        return self.step * sin(half_angle)


class TravelTooShort(ValueError):
    """The travel leaves nothing to cut beside clearance and overlap, or would need more than MOST_BITES."""


def travel_wanted(flank: float) -> float:
    """Travel [mm] that takes a flank [mm] in one bite."""
    return flank + 2 * CLEAR


def least_travel(flank: float) -> float:
    """The shortest travel [mm] that takes a flank [mm] in MOST_BITES bites."""
    return OVERLAP + max(2 * CLEAR, (travel_wanted(flank) - OVERLAP) / MOST_BITES)


def plan_bites(flank: float, travel: float) -> Bites:
    """As few bites as cover the flank with its clearances, equally long, each overlapping the last.

    flank: length along the flank [mm]; travel: of the slide [mm]. Raises TravelTooShort.
    """
    whole = travel_wanted(flank)
    if whole <= travel + _ROUND_OFF:
        return Bites(((-CLEAR, flank + CLEAR),), 0.0)
    if travel < least_travel(flank) - _ROUND_OFF:
        raise TravelTooShort
    count = ceil((whole - OVERLAP) / (travel - OVERLAP) - _ROUND_OFF)
    length = (whole + (count - 1) * OVERLAP) / count
    step = length - OVERLAP
    spans = tuple((index * step - CLEAR, index * step - CLEAR + length) for index in range(count))
    return Bites(spans, step)
