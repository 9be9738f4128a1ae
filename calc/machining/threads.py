"""Drawbar threads: pitch, tapping drill, and how deep to drill."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.tables.loader import load
from calc.tables.published import Datum, Origin, datum_of, origin_of

BEYOND_THREAD = 4.0
"""Pitches that the drill goes deeper than the full thread, for the tap's lead. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Drawbar:
    """A thread by its designation: major diameter, pitch and tapping drill [mm]."""

    name: str
    major_diameter: float
    pitch: float
    drill: Datum
    found: Origin

    def drill_depth(self, thread_depth: float) -> float:
        """How deep to drill [mm] for so much full thread [mm]."""
        return thread_depth + BEYOND_THREAD * self.pitch


@cache
def _rows() -> Mapping[str, Mapping[str, Mapping[str, str]]]:
    found: dict[str, dict[str, Mapping[str, str]]] = {}
    for row in load("drawbar_threads"):
        found.setdefault(row["thread"], {})[row["datum"]] = row
    return found


@cache
def drawbar(name: str) -> Drawbar | None:
    """The drawbar thread of this designation (M12, 1/2-13 UNC); None where the table has none."""
    rows = _rows().get(name)
    if rows is None:
        return None
    major = datum_of(rows["major_diameter"])
    if "pitch" in rows:
        pitch = datum_of(rows["pitch"]).value
    else:
        pitch = 25.4 / int(rows["threads_per_inch"]["value"])
    return Drawbar(
        name, major.value, pitch, datum_of(rows["tapping_drill"]), origin_of(rows["major_diameter"])
    )
