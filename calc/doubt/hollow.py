"""What a tool off centre height does to a taper: it comes out shallower, a shank hollow, a bore proud.

The tool's tip moves along a line that passes the axis at the distance h, so what it turns is a hyperboloid:

    r(z) = sqrt((x + m z)² + h²),   m = tan(half angle)

x being the tip's distance from the vertical plane through the axis where z is 0. With the size set true at
one end the other end is off; above or below centre alike.

Source: geometry; J. Rose, Modern Machine-Shop Practice, and F. D. Jones, Turning and Boring, both that the
tool must stand at centre height.
"""

from __future__ import annotations

import math

from calc.doubt.shape import strips_of
from calc.estimate import Strip

STRIPS = 12


def flatter_by(
    height: float, slope: float, length: float, large_diameter: float, end: str = "large"
) -> float:
    """Change of the taper over its length [mm on diameter], 0 or below, exactly.

    height: of the tool above or below centre [mm]. slope: tan(half angle), plain. length [mm]. large_diameter
    [mm], as wanted. end: where the size is set true, "large" or "small". Valid for a height up to the radius
    at that end; raises ValueError beyond, where the tool cannot reach that size.
    """
    large = 0.5 * large_diameter
    small = large - slope * length
    at = large if end == "large" else small
    if not abs(height) <= at:
        raise ValueError("so far off centre the tool cannot turn this size")
    out = math.sqrt(at * at - height * height)
    if end == "large":
        other = math.hypot(out - slope * length, height)
        return 2.0 * (large - other) - 2.0 * slope * length
    other = math.hypot(out + slope * length, height)
    return 2.0 * (other - small) - 2.0 * slope * length


def strips(half_width: float, slope: float, length: float, large_diameter: float) -> list[Strip]:
    """The spread of `flatter_by` with the tool anywhere within ± half_width of centre: equally likely strips.

    One-sided: whichever way the tool is off, the taper is shallower. A height beyond what the small end
    allows is taken at that end.
    """
    small = max(0.0, 0.5 * large_diameter - slope * length)
    most = min(half_width, 0.5 * large_diameter if small == 0.0 else small)
    return strips_of(lambda high: flatter_by(high, slope, length, large_diameter), 0.0, most, STRIPS)
