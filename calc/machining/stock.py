"""Which bar to take, and which centre hole to drill."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from calc.tables.loader import load
from calc.tables.published import Datum, datum_of

_SAME = 1e-6
MOUTH_TO_DIAMETER = 0.4
"""Mouth of a centre hole against the diameter it stands in, at most. Common practice, no source."""
MOUTH_TO_TANG = 0.8
"""Mouth of a centre hole against the tang's thickness, so that flats leave its cone whole: common practice"""


@cache
def bar_sizes(system: str) -> tuple[Datum, ...]:
    """Customary round bar, smallest first: `system` "mm" or "inch". Common practice, no source."""
    rows = ({**row, "datum": "diameter"} for row in load("bar_sizes") if row["system"] == system)
    return tuple(sorted((datum_of(row) for row in rows), key=lambda each: each.value))


def smallest_enough(sizes: Sequence[float], needed: float) -> float | None:
    """The smallest of `sizes` [mm] that is not below `needed` [mm]; None where none is."""
    return min((each for each in sizes if each >= needed - _SAME), default=None)


@dataclass(frozen=True, slots=True)
class CentreHole:
    """A centre hole of form A: pilot and mouth of its 60 degree cone [mm], with where they come from."""

    size: str
    drill: Datum
    mouth: Datum


@cache
def centre_holes() -> tuple[CentreHole, ...]:
    """All of them, smallest first."""
    found: dict[str, dict[str, Datum]] = {}
    for row in load("centre_holes"):
        found.setdefault(row["size"], {})[row["datum"]] = datum_of(row)
    return tuple(
        CentreHole(size, each["drill_diameter"], each["mouth_diameter"]) for size, each in found.items()
    )


def centre_hole(diameter: float, tang: float | None = None) -> CentreHole:
    """The largest centre hole for an end of this `diameter` and, where milled, `tang` thickness [mm].

    The smallest there is where even that is wide for the end.
    """
    room = min(MOUTH_TO_DIAMETER * diameter, MOUTH_TO_TANG * tang if tang is not None else diameter)
    fitting = [each for each in centre_holes() if each.mouth.value <= room + _SAME]
    return fitting[-1] if fitting else centre_holes()[0]
