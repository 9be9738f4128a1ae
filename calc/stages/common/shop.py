"""Measures as said at a machine, and what several stages say alike."""

from __future__ import annotations

from collections.abc import Iterable

from calc.quantities import shown_length
from calc.sheet import Both, Caution
from calc.tables import Datum

PRACTICE = "Common practice, no source"
MEND = "Check the entries marked below."
"""A stage's line where an entry of its own could not be read or cannot stand."""

MANUAL = Caution(
    "note",
    "The machine's manual, the rules where you work and whoever is licensed there come before all of this.",
)
CHUCK_KEY = Caution(
    "danger",
    "Take the key out of the chuck before your hand leaves it.",
    "Left in, it flies when the spindle starts.",
)
LONG_BAR = Caution(
    "danger",
    "No bar stands out past the headstock unsupported: cut the blank off first, or guide its whole length.",
    "A bar that whips bends at once and strikes whoever stands there.",
)
POLISHING = Caution(
    "danger",
    "Filing or polishing in the lathe: sleeves, rings, gloves and rags away; hold abrasive by its ends,"
    " never wrapped round the work or a finger; file with a handle on it, left hand clear of the chuck.",
    "What winds up takes the hand with it.",
)
SHARP = Caution(
    "care", "Fresh flats leave edges like knives: break them with a file before you handle the part.", ""
)
CLAMPING = Caution(
    "danger",
    "Clamp the round in a V-block or in jaws with a V, against a stop, and try it by hand before the cutter"
    " turns; brush chips away only when the cutter stands still.",
    "A round in flat jaws bears on two lines and is pulled out by the cutter.",
)


def rough(mm: float) -> Both:
    """A length [mm] to what turning to a rough size needs: hundredths of a mm, thou."""
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
