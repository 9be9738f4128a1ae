"""What is still to come off, and how far each slide has to move for it.

With half angle a, and depth on radius:

    depth = (diameter now - diameter wanted) / 2        a gauge that stands off by s: depth = s x taper / 2
    the slide, moved by f, carries the tool in by f sin a and along the axis by f cos a

So the slide set to the taper is a fine feed: run towards the small end by depth / sin a, with the carriage
brought back by depth / tan a, it leaves the tool where it was along the work and deeper by `depth`. Without
the carriage the tool only runs along the flank. Source: workshop textbooks on the compound slide (a travel
along it moves the tool in by its sine); a right triangle.
"""

from __future__ import annotations

from math import sin, tan


def depth_from_diameter(now: float, wanted: float, internal: bool) -> float:
    """What is to come off [mm on radius]; below 0 where too much is off. Diameters [mm]."""
    return (wanted - now if internal else now - wanted) / 2.0


def depth_from_stand_off(stand_off: float, rate: float) -> float:
    """What is to come off [mm on radius] where a gauge stands off by this [mm]; rate is plain."""
    return stand_off * rate / 2.0


def stand_off(depth: float, rate: float) -> float:
    """How far a gauge stands off [mm] with this still to come off [mm on radius]; rate above 0, plain."""
    return 2.0 * depth / rate


DIAMETER_GIVE = 0.02
"""What a diameter near the gauge plane may be out by, its place and all [mm]. Common practice."""
STAND_OFF_GIVE = 0.2
"""What a stand-off read by a rule or a feeler may be out by [mm]. Common practice, no source."""


def disagreement(by_gauge: float, by_diameter: float, rate: float) -> float:
    """By how much the depth to go by gauge and by micrometer [mm on radius] disagree [mm].

    What either may well be out by is granted, so 0 where both can be true. rate is plain.
    """
    granted = (DIAMETER_GIVE + STAND_OFF_GIVE * rate) / 2.0
    away = by_diameter - by_gauge
    return away if abs(away) > granted else 0.0


def inward(advance: float, half_angle: float) -> float:
    """How far the tool moves in [mm on radius] when the slide at this angle [rad] moves by `advance` [mm]."""
    return advance * sin(half_angle)


def slide_advance(depth: float, half_angle: float) -> float:
    """How far the slide moves [mm] to bring the tool in by `depth` [mm on radius]; angle above 0 [rad]."""
    return depth / sin(half_angle)


def along_bed(depth: float, half_angle: float) -> float:
    """How far the carriage then comes back [mm], the tool keeping its place along the work."""
    return depth / tan(half_angle)
