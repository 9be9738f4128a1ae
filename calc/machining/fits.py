"""Limits and fits after ISO 286: deviations of a zone such as g6 or H7 for a size.

Tabulated: nominal sizes over 0 up to and including 500 mm; shafts d e f g h js k m n p r s and the holes of
the same letters; grades 5 to 13, and 14 for h, H, js and JS. Beyond the grades that ISO 286-2 lists for a
letter the result is arithmetic by the rules of ISO 286-1, not a listed class.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from calc.tables.loader import load

LARGEST = 500.0  # [mm]
SHAFTS = ("d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "r", "s")
HOLES = tuple(letters.upper() for letters in SHAFTS)
GRADES = range(5, 14)
SYMMETRIC_GRADES = range(5, 15)
"""Grades for h, H, js and JS: they need no more than the width."""
SOURCE = "ISO 286-1, as tabulated by the sources; limits are worked out by its rules"

_EDGE = 1e-9
"""A size this near [mm] to the edge of a band is on the edge: 10 mm belongs to the band over 6 up to 10."""


class NotListed(ValueError):
    """A zone or size the tables do not reach; the message says so to a person, `way_out` what would work."""

    def __init__(self, message: str, way_out: str) -> None:
        super().__init__(message)
        self.message = message
        self.way_out = way_out


@dataclass(frozen=True, slots=True)
class Zone:
    """A tolerance zone for one size: letters, grade, and its deviations from the nominal size [µm]."""

    letters: str
    grade: int
    upper: float
    lower: float

    @property
    def name(self) -> str:
        """As written on a drawing, such as g6."""
        return f"{self.letters}{self.grade}"

    def limits(self, nominal: float) -> tuple[float, float]:
        """Least and largest size [mm] for the nominal size [mm]."""
        return nominal + self.lower / 1000.0, nominal + self.upper / 1000.0


@dataclass(frozen=True, slots=True)
class _Band:
    over: float
    up_to: float
    grades: range
    value: float  # [µm]


@cache
def _bands() -> Mapping[tuple[str, str], Sequence[_Band]]:
    """The rows by kind (tolerance, delta, shaft, hole) and letters (empty for the first two)."""
    found: dict[tuple[str, str], list[_Band]] = {}
    for row in load("iso286"):
        grades = range(int(row["grade_from"]), int(row["grade_to"]) + 1)
        band = _Band(float(row["over"]), float(row["up_to"]), grades, float(row["value"]))
        found.setdefault((row["kind"], row["symbol"]), []).append(band)
    return found


def _value(kind: str, letters: str, grade: int, size: float) -> float | None:
    """The tabulated value [µm], None where there is none."""
    for band in _bands().get((kind, letters), ()):
        if grade in band.grades and band.over + _EDGE < size <= band.up_to + _EDGE:
            return band.value
    return None


def width(grade: int, size: float) -> float:
    """The standard tolerance IT of `grade` [µm] for a nominal `size` [mm].

    Raises NotListed outside grades 5 to 14 or outside 0 to 500 mm.
    """
    found = _value("tolerance", "", grade, size)
    if found is None:
        raise NotListed(
            f"There is no standard tolerance IT{grade} here for this size",
            "The tables reach from grade 5 to 14, for sizes over 0 up to 500 mm.",
        )
    return found


def split(name: str) -> tuple[str, int]:
    """Letters and grade of a zone's name. Raises NotListed where either is not tabulated."""
    name = name.strip()
    letters = name.rstrip("0123456789")
    digits = name[len(letters) :]
    if letters not in SHAFTS and letters not in HOLES:
        raise NotListed(
            f"The letter “{letters[:8]}” is not in the tables here", "They hold " + _letters() + "."
        )
    grade = int(digits) if 0 < len(digits) < 3 else 0
    allowed = SYMMETRIC_GRADES if letters.lower() in ("h", "js") else GRADES
    if letters in ("K",):
        allowed = range(5, 9)
    if grade not in allowed:
        raise NotListed(
            f"{letters} goes with grades {allowed[0]} to {allowed[-1]} here",
            f"For example {letters}{min(max(grade, allowed[0]), allowed[-1])}.",
        )
    return letters, grade


def _letters() -> str:
    return ", ".join(SHAFTS[:-1]) + " and " + SHAFTS[-1] + " for shafts, the same in capitals for holes"


def zone(name: str, size: float) -> Zone:
    """The zone called `name` (g6, H7 ...) for a nominal `size` [mm].

    Rules of ISO 286-1: shafts d to h hang below es, shafts k to s stand on ei, js lies evenly about the
    nominal size. Holes D to H stand on EI; for K, M and N up to grade 8, and P, R and S up to grade 7, ES is
    the tabulated value plus delta of the grade; beyond, the value itself. M6 over 250 up to 315 mm is the one
    exception: ES = -9.

    Raises NotListed.
    """
    letters, grade = split(name)
    it = width(grade, size)
    lower_case = letters.lower()
    if lower_case == "js":
        return Zone(letters, grade, it / 2.0, -it / 2.0)
    base = _value("hole" if letters.isupper() else "shaft", letters, min(grade, 13), size)
    if base is None:
        raise NotListed(f"{letters}{grade} is not in the tables for this size", "Pick a neighbouring zone.")
    if letters.islower():
        return (
            Zone(letters, grade, base, base - it)
            if lower_case <= "h"
            else Zone(letters, grade, base + it, base)
        )
    if lower_case <= "h":
        return Zone(letters, grade, base + it, base)
    upper = base + _delta(letters, grade, size)
    if letters == "M" and grade == 6 and 250.0 + _EDGE < size <= 315.0 + _EDGE:
        upper = -9.0
    return Zone(letters, grade, upper, upper - it)


def _delta(letters: str, grade: int, size: float) -> float:
    """The step added to the holes K to S in the fine grades [µm]."""
    finest_without = 9 if letters in ("K", "M", "N") else 8
    return 0.0 if grade >= finest_without else _value("delta", "", grade, size) or 0.0


def clearance(hole: Zone, shaft: Zone) -> tuple[float, float]:
    """Least and largest clearance [µm] of a pair; below zero is interference."""
    return hole.lower - shaft.upper, hole.upper - shaft.lower


def kind(hole: Zone, shaft: Zone) -> str:
    """clearance, transition or interference."""
    least, largest = clearance(hole, shaft)
    if least >= 0.0:
        return "clearance"
    return "interference" if largest <= 0.0 else "transition"
