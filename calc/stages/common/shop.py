"""Measures as said at a machine, and what several stages say alike."""

from __future__ import annotations

from collections.abc import Iterable

from calc.quantities import shown_length
from calc.sheet import Both, Caution
from calc.tables import Datum

PRACTICE = "Common practice, no source"
MEND = "Check the entries marked below."
"""A stage's line where an entry of its own could not be read or cannot stand."""


def rough(mm: float) -> Both:
    """A length [mm] to what turning to a rough size needs: hundredths of a mm, thou."""
    return shown_length(mm, 0.1)


def fine(mm: float) -> Both:
    """A length [mm] to what a micrometer tells of it: hundredths of a mm, 0.0001 in."""
    return shown_length(mm, 0.05)


def long(mm: float) -> Both:
    """A length [mm] along the bar: tenths of a mm, hundredths of an inch."""
    return shown_length(mm, 0.5)


def between(low: Both, high: Both) -> Both:
    """Two limits as one text, the unit said once."""
    return {system: f"{low[system].rpartition(' ')[0]} to {high[system]}" for system in ("mm", "inch")}


def limits(low: float, high: float) -> Both:
    """Two limits [mm] to the micrometre, or to a tenth of one where either is not whole, as one text."""
    whole = all(abs(each * 1000.0 - round(each * 1000.0)) < 1e-6 for each in (low, high))
    fine = 0.005 if whole else 0.0005
    return between(shown_length(low, fine), shown_length(high, fine))


def line(text: str, **measures: Both) -> Both:
    """`text` with measures filled in by name, in both systems."""
    return {
        system: text.format(**{name: each[system] for name, each in measures.items()})
        for system in ("mm", "inch")
    }


def origins(data: Iterable[Datum]) -> str:
    """Where some data come from: each origin once."""
    said = dict.fromkeys(f"{each.standard}, {each.edition}" for each in data)
    return "; ".join(said)


def from_memory(data: Iterable[Datum], whose: str) -> list[Caution]:
    """One caution that names every datum in use that no source was at hand for."""
    names = list(
        dict.fromkeys(
            each.name.replace("_below", "_lower_limit").replace("_", " ") for each in data if each.from_memory
        )
    )
    if not names:
        return []
    return [
        Caution(
            "care",
            f"From memory, not checked against the standard: {', '.join(names)} of {whose}.",
            "Hold the standard or a good part beside it before you rely on it.",
        )
    ]
