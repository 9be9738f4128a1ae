"""Pipe ends: what is turned before a taper pipe thread is cut."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from calc.tables.loader import load
from calc.tables.published import Datum, datum_of


@dataclass(frozen=True, slots=True)
class PipeEnd:
    """A pipe's outside, the length of its thread with what is imperfect at its end, and the pitch [mm].

    depth: of the thread, crest to root, as a share of the pitch [plain]. pitch_line: True where the table of
    tapers gives the pitch diameter (NPT), False where it gives that over the crests (R).
    """

    outside: Datum
    thread_length: Datum
    pitch: float
    depth: float
    pitch_line: bool


# Height of the thread by its pitch: ASME B1.20.1 (0.8) and ISO 7-1 (0.640327), from memory.
_DEPTHS = {"NPT": 0.8, "R": 0.640327}


@cache
def pipe_end(series: str, size: str) -> PipeEnd | None:
    """The pipe end of a taper of series "NPT" or "R"; None where there is none."""
    rows = {row["datum"]: row for row in load("pipe_ends") if row["series"] == series and row["size"] == size}
    if not rows:
        return None
    return PipeEnd(
        datum_of(rows["outside_diameter"]),
        datum_of(rows["thread_length"]),
        float(Fraction(254, 10) / Fraction(rows["threads_per_inch"]["value"])),
        _DEPTHS[series],
        series == "NPT",
    )
