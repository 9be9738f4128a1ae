"""Shanks and sockets of Morse and Metric tapers: tang, drawbar end, socket and its slot."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.tables.loader import load
from calc.tables.published import Datum, Origin, datum_of, origin_of


@dataclass(frozen=True, slots=True)
class Thread:
    """A drawbar thread by its designation, such as M12 or 1/2-13 UNC."""

    name: str
    text: str
    found: Origin


@dataclass(frozen=True, slots=True)
class Shank:
    """What belongs to one shank beside its cone.

    data: lengths by name; which there are differs by size, and each says in its note what it is:
    setback, large_end_diameter; drawbar_small_diameter, drawbar_end_diameter, drawbar_cone_length,
    drawbar_length, drawbar_thread_depth; tang_small_diameter, tang_diameter, tang_cone_length,
    tang_overall_length, tang_thickness, tang_thickness_below (a deviation, negative), tang_flat_length,
    tang_length, tang_cutter_radius, tang_edge_radius; socket_bore, socket_length, slot_edge, slot_width,
    slot_length; of the inch standard also gauge_diameter, plug_depth, shank_depth.
    threads: drawbar_thread (metric) and drawbar_thread_inch, where there are such.
    """

    series: str
    size: str
    data: Mapping[str, Datum]
    threads: Mapping[str, Thread]


@cache
def shank(series: str, size: str) -> Shank | None:
    """The shank of a taper of series "Morse", "Morse inch" or "Metric"; None where none is known."""
    rows = [row for row in load("morse_shanks") if row["series"] == series and row["size"] == size]
    if not rows:
        return None
    data = {row["datum"]: datum_of(row) for row in rows if row["unit"] != "thread"}
    threads = {
        row["datum"]: Thread(row["datum"], row["value"], origin_of(row))
        for row in rows
        if row["unit"] == "thread"
    }
    return Shank(series, size, data, threads)
