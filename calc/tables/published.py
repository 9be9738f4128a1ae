"""One published datum: what a source prints, what it is worth, and how sure it is."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from calc.quantities import read_angle, read_length, read_rate
from calc.tables.loader import load

CONFIDENCE: Mapping[str, str] = {
    "two_sources_agree": "two sources agree",
    "one_source": "one source",
    "last_digit_from_memory": "the last digit is from memory, not checked against the standard",
    "from_memory": "from memory, not checked against the standard",
}

LENGTH_UNITS = ("mm", "in")
RATE_UNITS = ("ratio", "in/ft")
ANGLE_UNITS = ("deg included", "deg half")


@cache
def source_title(key: str) -> str:
    """The title of a source; the key itself where none is listed (a test forbids that)."""
    return {row["key"]: row["title"] for row in load("sources")}.get(key, key)


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a datum comes from: standard, edition, the sources it was read from, and how sure it is."""

    standard: str
    edition: str
    sources: tuple[str, ...]
    confidence: str
    note: str

    @property
    def from_memory(self) -> bool:
        """True where the datum, or its last digit, is from memory: to be said beside the figure."""
        return self.confidence.endswith("from_memory")

    def words(self) -> str:
        """Standard, sources and confidence in one sentence for the working."""
        named = "; ".join(source_title(key) for key in self.sources)
        note = f" ({self.note})" if self.note else ""
        return f"{self.standard}, {self.edition}{note}. Read from: {named}. {CONFIDENCE[self.confidence]}."


@dataclass(frozen=True, slots=True)
class Datum:
    """One published number.

    text, unit: as the source prints it.
    value: in mm, or as a plain ratio on diameter.
    exact: the same exactly; None where the source prints an angle, whose ratio has no exact number.
    degrees: the angle exactly as printed [deg], included or half as `unit` says; None where none is printed.
    """

    name: str
    text: str
    unit: str
    value: float
    exact: Fraction | None
    degrees: Fraction | None
    found: Origin

    @property
    def standard(self) -> str:
        """The standard or rule the number belongs to."""
        return self.found.standard

    @property
    def edition(self) -> str:
        """Its edition, or that the sources do not say."""
        return self.found.edition

    @property
    def sources(self) -> tuple[str, ...]:
        """Keys of the sources, see `source_title`."""
        return self.found.sources

    @property
    def confidence(self) -> str:
        """A key of `CONFIDENCE`."""
        return self.found.confidence

    @property
    def note(self) -> str:
        """Where on the part it is measured, and what else the sources say."""
        return self.found.note

    @property
    def from_memory(self) -> bool:
        """True where the number, or its last digit, is from memory: to be said beside the figure."""
        return self.found.from_memory

    def origin(self) -> str:
        """Standard, sources and confidence in one sentence for the working."""
        return self.found.words()


def origin_of(row: Mapping[str, str]) -> Origin:
    """The origin that a row of any table tells."""
    return Origin(
        row["standard"], row["edition"], tuple(row["sources"].split()), row["confidence"], row["note"]
    )


def datum_of(row: Mapping[str, str]) -> Datum:
    """The datum of a row with the columns datum, value and unit.

    Raises Unreadable where the printed text cannot be read: a fault of ours, and a test finds it.
    """
    value, exact, degrees = _read(row["value"], row["unit"])
    return Datum(row["datum"], row["value"], row["unit"], value, exact, degrees, origin_of(row))


@cache
def _read(text: str, unit: str) -> tuple[float, Fraction | None, Fraction | None]:
    """Value, exact value and angle of a printed text; the same text is met many times over."""
    if unit in ANGLE_UNITS:
        angle = read_angle(text)
        half = angle.value if unit == "deg half" else angle.value / 2.0
        return 2.0 * math.tan(half), None, angle.exact
    exact = _plain_length(text, unit) if unit in LENGTH_UNITS else read_rate(text, unit).exact
    return float(exact), exact, None


def _plain_length(text: str, unit: str) -> Fraction:
    """A plain decimal read straight, which is most of every table; whatever else by the reader of entries.

    The reader takes ten times as long; a test holds the two to the same exact value over all tables.
    """
    whole, _, part = text.partition(".")
    if (whole + part).isdecimal():
        number = Fraction(int(whole + part), 10 ** len(part))
        return number * Fraction(127, 5) if unit == "in" else number
    return read_length(text, unit).exact
