"""Tolerance grades of cone angles, AT1 to AT12, and the grade that is usual for a kind of part.

A grade gives the width of the whole tolerance zone of the INCLUDED angle for a range of cone lengths, and
with the length the same as a difference of diameters over it:

    on diameter = angle [rad] x length

Source: ISO 1947. Only grade AT4 over 40 to 250 mm was confirmed from outside; the rest is from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from calc.tables.loader import load
from calc.tables.published import Origin, origin_of

_MICRORADIANS = 1e-6


@dataclass(frozen=True, slots=True)
class AngleTolerance:
    """The whole width of a tolerance zone: of the included angle [rad] and on diameter over the length [mm].

    over, up_to: the range of cone lengths [mm] it holds for, "over" excluded, "up to" included.
    """

    grade: str
    angle: float
    on_diameter: float
    over: float
    up_to: float
    found: Origin


@dataclass(frozen=True, slots=True)
class UsualGrade:
    """What is customary for a kind of part: a grade such as AT6, or a tolerance on the rate."""

    item: str
    text: str
    unit: str
    direction: str
    found: Origin


def grades() -> tuple[str, ...]:
    """AT1 to AT12, finest first."""
    return tuple(_by_grade())


@cache
def _by_grade() -> Mapping[str, list[Mapping[str, str]]]:
    found: dict[str, list[Mapping[str, str]]] = {}
    for row in load("at_grades"):
        found.setdefault(row["grade"], []).append(row)
    return found


def angle_tolerance(grade: str, length_mm: float) -> AngleTolerance | None:
    """The tolerance of a grade ("AT6") for a cone of this length [mm].

    Valid over 6 up to and including 630 mm; None outside, and for a grade that is not listed. The length is
    the cone's, along its axis. On diameter it is the plain product, as in the standard; on a steep cone the
    true difference of diameters is larger by 1 / cos²(half angle), 2 % for 7/24.
    """
    for row in _by_grade().get(grade.strip().upper().replace(" ", ""), ()):
        over, up_to = float(row["over"]), float(row["up_to"])
        if over < length_mm <= up_to:
            angle = float(Fraction(row["value"])) * _MICRORADIANS
            return AngleTolerance(row["grade"], angle, angle * length_mm, over, up_to, origin_of(row))
    return None


@cache
def usual_grades() -> tuple[UsualGrade, ...]:
    """Which grade, or tolerance on the rate, is customary for which part, and to which side it lies."""
    return tuple(
        UsualGrade(row["item"], row["value"], row["unit"], row["direction"], origin_of(row))
        for row in load("at_usage")
    )
