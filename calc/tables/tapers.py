"""Standard tapers, each datum with its standard, source and how sure it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.tables.loader import load
from calc.tables.published import CONFIDENCE, Datum, datum_of, source_title
from calc.tables.series import ALL_SERIES, SERIES, Series

__all__ = [
    "ALL_SERIES",
    "CONFIDENCE",
    "SERIES",
    "Datum",
    "Series",
    "Taper",
    "all_tapers",
    "find_taper",
    "sizes",
    "source_title",
]


@dataclass(frozen=True, slots=True)
class Taper:
    """One standard taper: its data by name (rate, large_diameter, small_diameter, length).

    Every taper has a rate. The rest may be missing: see `Series.whole`.
    """

    series: str
    size: str
    data: Mapping[str, Datum]

    @property
    def name(self) -> str:
        """As a shop says it: Morse 2, B16, R8."""
        return self.size if self.size.startswith(self.series) else f"{self.series} {self.size}"

    @property
    def from_memory(self) -> tuple[str, ...]:
        """The names of those data that are from memory, which the page says beside the figure."""
        return tuple(name for name, datum in self.data.items() if datum.from_memory)


@cache
def _family(series: str) -> Mapping[str, list[Mapping[str, str]]]:
    """The rows of a series by size, in the order of its table; empty where there is no such series."""
    found: dict[str, list[Mapping[str, str]]] = {}
    file = next((each.file for each in ALL_SERIES if each.value == series), "")
    for row in load(file) if file else ():
        if row["series"] == series:
            found.setdefault(row["size"], []).append(row)
    return found


def sizes(series: str) -> tuple[str, ...]:
    """The sizes of a series, in the order of its table."""
    return tuple(_family(series))


@cache
def find_taper(series: str, size: str) -> Taper | None:
    """The taper of this series and size, None where there is none."""
    rows = _family(series).get(size)
    return Taper(series, size, {row["datum"]: datum_of(row) for row in rows}) if rows else None


def all_tapers() -> tuple[Taper, ...]:
    """Every taper of every series: reads all families, so only for what must look at them all."""
    found = (find_taper(each.value, size) for each in ALL_SERIES for size in sizes(each.value))
    return tuple(taper for taper in found if taper is not None)
