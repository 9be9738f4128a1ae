"""Standard tapers, each datum with its standard, source and how sure it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from calc.quantities import read_length, read_rate
from calc.tables.loader import load

CONFIDENCE: Mapping[str, str] = {
    "two_sources_agree": "two sources agree",
    "one_source": "one source",
    "from_memory": "from memory, not checked against the standard",
}


@dataclass(frozen=True, slots=True)
class Datum:
    """One published number: `text` as the source prints it, `value` in mm or as a plain ratio."""

    name: str
    text: str
    unit: str
    exact: Fraction
    standard: str
    edition: str
    sources: tuple[str, ...]
    confidence: str
    note: str

    @property
    def value(self) -> float:
        """The number, mm or plain."""
        return float(self.exact)

    @property
    def from_memory(self) -> bool:
        """True where no copy of a source was at hand: to be said beside the figure."""
        return self.confidence == "from_memory"

    def origin(self) -> str:
        """Standard, sources and confidence in one sentence for the working."""
        named = "; ".join(source_title(key) for key in self.sources)
        note = f" ({self.note})" if self.note else ""
        return f"{self.standard}, {self.edition}{note}. Read from: {named}. {CONFIDENCE[self.confidence]}."


@dataclass(frozen=True, slots=True)
class Series:
    """A family of tapers: `value` stands in entries, `label` is shown, `file` holds the rows."""

    value: str
    label: str
    file: str


SERIES: tuple[Series, ...] = (
    Series("Morse", "Morse, metric standard (ISO 296)", "morse"),
    Series("Morse inch", "Morse, inch standard (ASME B5.10)", "morse"),
)


@dataclass(frozen=True, slots=True)
class Taper:
    """One standard taper: its data by name (rate, large_diameter, small_diameter, length)."""

    series: str
    size: str
    data: Mapping[str, Datum]

    @property
    def name(self) -> str:
        """As a shop says it."""
        return f"{self.series} {self.size}"


@cache
def source_title(key: str) -> str:
    """The title of a source; the key itself where none is listed (a test forbids that)."""
    return {row["key"]: row["title"] for row in load("sources")}.get(key, key)


def _datum(row: Mapping[str, str]) -> Datum:
    unit = row["unit"]
    if row["datum"] == "rate":
        exact = read_rate(row["value"], unit).exact
    else:
        exact = read_length(row["value"], unit).exact
    return Datum(row["datum"], row["value"], unit, exact, row["standard"], row["edition"],
                 tuple(row["sources"].split()), row["confidence"], row["note"])


@cache
def sizes(series: str) -> tuple[str, ...]:
    """The sizes of a series, in the order of its table."""
    return tuple(dict.fromkeys(row["size"] for row in _rows(series)))


def _rows(series: str) -> tuple[Mapping[str, str], ...]:
    file = next((each.file for each in SERIES if each.value == series), "")
    return tuple(row for row in load(file) if row["series"] == series) if file else ()


@cache
def find_taper(series: str, size: str) -> Taper | None:
    """The taper of this series and size, None where there is none."""
    data = {row["datum"]: _datum(row) for row in _rows(series) if row["size"] == size}
    return Taper(series, size, data) if data else None
