"""A socket's rough hole: which drill, and how deep.

The drill leaves metal everywhere under the taper and under the bore behind it, for the boring bar to true.
It goes as deep as the taper and a run-out behind it, so that the bar's tip and the chips have room; and as
deep as the table asks a socket to be, where one does.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.quantities import read_length
from calc.tables.drills import drills

RUN_OUT = 5.0
"""Room behind the taper [mm]. Common practice, no source."""
_SERIES = {"mm": "metric", "inch": "fraction"}
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill as it is sold: its size as text with unit, and its diameter [mm]."""

    text: str
    diameter: float


@cache
def _known(system: str) -> tuple[Drill, ...]:
    known = [Drill(text, read_length(text).value) for text in drills(_SERIES[system]).values()]
    return tuple(sorted(known, key=lambda each: each.diameter))


def socket_drill(most: float) -> Mapping[str, Drill]:
    """The largest customary drill up to `most` [mm], by system: metric, and by fractions of an inch.

    Empty where even the smallest is larger. Above the largest one sold with these tables that one serves: the
    rest is bored.
    """
    found = {}
    for system in _SERIES:
        fitting = [each for each in _known(system) if each.diameter <= most + _SAME]
        if fitting:
            found[system] = fitting[-1]
    return found if len(found) == len(_SERIES) else {}


def socket_depth(taper_length: float, at_least: float | None) -> float:
    """How deep the drill goes at full diameter [mm]: for a taper so long, in a socket at least so deep."""
    return max(taper_length + RUN_OUT, at_least or 0.0)
