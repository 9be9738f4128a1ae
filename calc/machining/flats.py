"""Flats milled on a round: plane geometry of a chord.

Names: `diameter` of the round now, `thickness` wanted across both flats, `depth` from the round's top down to
a flat, all [mm]. A chord's distance from the axis is diameter/2 - depth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

SLIGHT = 1e-9
"""What is left of rounding [mm]."""


def aimed(most: float, least: float) -> float:
    """The thickness to mill to [mm]: the middle of its limits, from which a slip either way is still inside.

    Common practice, no source. At the upper limit every slip to the outside would want another cut, and what
    lies between the middle and that limit can still be filed off.
    """
    return (most + least) / 2.0


def flat_depth(diameter: float, thickness: float) -> float:
    """How deep each of two equal flats goes [mm]: (diameter - thickness)/2."""
    return (diameter - thickness) / 2.0


def across_flat_and_round(diameter: float, depth: float) -> float:
    """What a micrometer reads across one flat and the round opposite [mm]."""
    return diameter - depth


def flat_width(diameter: float, depth: float) -> float:
    """How wide a flat shows [mm], the chord: 2 sqrt(depth (diameter - depth))."""
    return 2.0 * math.sqrt(max(0.0, depth * (diameter - depth)))


def run_out(cutter_radius: float, depth: float) -> float:
    """How far along the axis the cutter's radius carries the flat's end before it leaves the round [mm].

    sqrt(2 R depth - depth²), and never more than the radius: a deeper flat ends in a step below the round.
    """
    if depth >= cutter_radius:
        return cutter_radius
    return math.sqrt(depth * (2.0 * cutter_radius - depth))


@dataclass(frozen=True, slots=True)
class Second:
    """What to do for the second flat, the first being cut and measured [mm].

    symmetric: thickness that the second flat makes at the first one's distance from the axis.
    first_more: take this off the first flat before anything else; 0 where it lies deep enough.
    depth: cut the second flat this deep from its round.
    thickness: what will then be across the flats.
    off_centre: how far the middle of the tang then lies from the axis; 0 where the flats are alike.
    """

    symmetric: float
    first_more: float
    depth: float
    thickness: float
    off_centre: float


def second_flat(diameter: float, across: float, wanted: float, least: float) -> Second:
    """Finish from the reading `across` over the first flat and the round [mm].

    The first flat lies across - diameter/2 from the axis, so both alike make 2 across - diameter. Where that
    is more than `wanted`, the most it may be, the first flat still has some to come off, and both go to the
    middle of the limits; between `least` and `wanted`, the second is cut alike; below `least` the second is
    held back so that `least` stands across, off centre by half of what is lacking.
    """
    symmetric = 2.0 * across - diameter
    if symmetric > wanted + SLIGHT:
        aim = aimed(wanted, least)
        return Second(symmetric, (symmetric - aim) / 2.0, flat_depth(diameter, aim), aim, 0.0)
    if symmetric >= least:
        return Second(symmetric, 0.0, diameter - across, symmetric, 0.0)
    return Second(symmetric, 0.0, across - least, least, (least - symmetric) / 2.0)
