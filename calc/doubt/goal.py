"""What counts as right: limits on diameter about the taper, and where in them the cut is aimed.

The limits of a grade are those of ISO 1947, laid half to either side: ± AT / 2 on the included angle. The aim
is dead on, or a quarter of the whole width towards the end that is to bear first: the large end, which on a
shank means steep and in a socket shallow. A quarter leaves as much room again before the limit is reached.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.cone import Cone, error_on_diameter
from calc.doubt.task import CUSTOMARY_LENGTH
from calc.tables.at import angle_tolerance

DEAD_ON = "dead_on"
LARGE_END = "large_end"
CUSTOMARY_GRADE = "AT7"
SHORTEST, LONGEST = 6.0, 630.0
"""Lengths [mm] that the grades are laid down for."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A grade ("AT7") or, where that is "", a half-width on diameter [mm]; the aim; a film of blue [mm]."""

    grade: str = CUSTOMARY_GRADE
    half_width: float = 0.0
    aim: str = DEAD_ON
    film: float | None = None


@dataclass(frozen=True, slots=True)
class Goal:
    """For one cone: the limit either way [mm on diameter], None where the grade does not reach so far
    or the taper's length is not known.

    aim: on diameter [mm], above zero steep. aim_angle: the same on the half angle [rad]. film: of blue [mm].
    """

    limit: float | None
    aim: float
    aim_angle: float
    film: float | None


def goal_for(cone: Cone, wanted: Wanted, form: str = "external") -> Goal:
    """Limits and aim for this cone; `form`, external or internal, decides how the large end bears first."""
    length = cone.length or CUSTOMARY_LENGTH
    limit: float | None = wanted.half_width
    if wanted.grade and cone.length is None:
        limit = None  # a grade is so much over a length: without one nothing says how much
    elif wanted.grade:
        found = angle_tolerance(wanted.grade, length)
        # Half of the zone on the included angle is a quarter of it on the half angle.
        limit = (
            error_on_diameter(cone.half_angle, cone.half_angle + 0.25 * found.angle, length)
            if found
            else None
        )
    if limit is None or wanted.aim != LARGE_END or cone.rate <= 0.0:
        return Goal(limit, 0.0, 0.0, wanted.film)
    aim = 0.5 * limit if form == "external" else -0.5 * limit
    steeper = math.atan(0.5 * cone.rate + 0.5 * aim / length) - cone.half_angle
    return Goal(limit, aim, steeper, wanted.film)


def blue_limit(cone: Cone, film: float) -> float:
    """Error on diameter [mm] up to which a film of blue [mm] shows contact all along.

    A film bridges a gap up to its own thickness, square to the surface: half the error on diameter times the
    cosine.
    """
    return 2.0 * film / math.cos(cone.half_angle)
