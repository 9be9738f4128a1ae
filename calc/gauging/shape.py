"""Hollow and proud: what a tool off centre height does to the middle of a taper, and which height did it.

The tool's tip passes the axis at the distance h, so that the surface is a hyperboloid (calc/doubt/hollow.py
has what that does to the ends):

    r(z) = sqrt((x + m z)² + h²)

A shank comes out hollow, touching a ring at both ends; a bore comes out proud, touching a plug in the middle.
The sign of h does not matter.

Source: geometry; that blue at both ends is the sign of it, J. Rose, Modern Machine-Shop Practice
(qualitative)."""

from __future__ import annotations

import math

from calc.gauging.way import EXTERNAL, Part


def middle(height: float, slope: float, length: float, large_diameter: float, end: str = "large") -> float:
    """Middle diameter less the mean of the end diameters [mm], 0 or below.

    height: of the tool above or below centre [mm]. slope: tan(half angle). length [mm]. large_diameter [mm],
    as wanted. end: where the size is set true, "large" or "small". Raises ValueError where the tool cannot
    reach that size."""
    large = 0.5 * large_diameter
    at = large if end == "large" else large - slope * length
    if not abs(height) <= at:
        raise ValueError("so far off centre the tool cannot turn this size")
    out = math.sqrt(at * at - height * height)
    begin = out - slope * length if end == "large" else out
    ends = [math.hypot(begin + slope * along, height) for along in (0.0, length)]
    return 2.0 * math.hypot(begin + 0.5 * slope * length, height) - ends[0] - ends[1]


def height_for(sag: float, part: Part) -> float | None:
    """The tool height off centre [mm] that leaves the middle `sag` [mm, on radius] off the straight line.

    None where the part's size is not known or no height up to the small end's radius does it: then the cause
    is another (spring of the work, a worn slide)."""
    cone = part.cone
    if cone.large_diameter is None or cone.rate <= 0.0 or sag <= 0.0:
        return None
    slope = 0.5 * cone.rate
    most = 0.99 * (0.5 * cone.large_diameter - slope * part.length)
    if most <= 0.0 or -0.5 * middle(most, slope, part.length, cone.large_diameter) < sag:
        return None
    low, high = 0.0, most
    for _ in range(50):
        at = 0.5 * (low + high)
        if -0.5 * middle(at, slope, part.length, cone.large_diameter) < sag:
            low = at
        else:
            high = at
    return 0.5 * (low + high)


def by_tool_height(shape: str, form: str) -> bool:
    """Whether a tool off centre height makes this shape: a hollow shank, a proud bore."""
    return (shape == "hollow") == (form == EXTERNAL)
