"""The field that holds a list of sizes: what bars, what drills are there. Semicolons or commas between."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.quantities import Unreadable, read_length, shown_length
from calc.sheet import Fault, Field
from calc.stages.common.bounds import said_bound
from calc.stages.common.form import LENGTH_UNIT, LONGEST_ECHO, Form, fault_in
from calc.tables import drill_size

MOST = 60
"""Sizes in one list."""


@dataclass(frozen=True, slots=True)
class SizeRead:
    """One size of the list: as understood, and its value [mm]."""

    text: str
    value: float


def sizes(form: Form, name: str, label: str, *, help: str = "", least: float, most: float) -> list[SizeRead]:
    """The sizes typed, in their order; empty where nothing is typed or something could not be read.

    "20; 25; 30" and "20, 25, 30" are lists. "20,25" may be one decimal or two sizes: it is asked which.
    """
    typed = form.entries.get(name, "")
    unit = LENGTH_UNIT[form.system]
    found: list[SizeRead] = []
    wrong = _either(typed, unit, least, most)
    place = 0
    for part in [] if wrong else _divided(typed):
        start = typed.find(part, place)
        place = start + len(part)
        if not part.strip():
            continue
        try:
            reading = read_length(part.strip(), unit, drill_size)
        except Unreadable as error:
            wrong = _fault(typed, part, start, error.message, error.way_out)
            break
        if not least <= reading.value <= most:
            low, high = _said(least, 1, form.system), _said(most, -1, form.system)
            way_out = f"Sizes go from {low} to {high} here."
            wrong = _fault(typed, part, start, f"{reading.understood} cannot be right here", way_out)
            break
        found.append(SizeRead(reading.understood, reading.value))
        if len(found) > MOST:
            wrong = _fault(typed, part, start, f"More than {MOST} sizes", "Keep those that may do.")
            break
    normalised = "; ".join(each.text for each in found) if found and wrong is None else None
    read = f"read as {normalised}" if normalised is not None else ""
    form.put(Field(name, label, "text", typed, "", unit, (), help, read, wrong), normalised)
    return [] if wrong is not None else found


def _said(bound: float, way: int, system: str) -> str:
    unit = LENGTH_UNIT[system]
    return said_bound(bound, way, lambda mm: shown_length(mm)[system], lambda text: read_length(text, unit))


def _divided(typed: str) -> list[str]:
    lines = typed.replace("\n", ";")
    return lines.split(";") if ";" in lines else lines.split(",")


def _either(typed: str, unit: str, least: float, most: float) -> Fault | None:
    """A fault where one comma stands between two bare digits: a decimal, or two sizes?"""
    if typed.count(",") != 1 or ";" in typed or "\n" in typed:
        return None
    first, second = typed.split(",")
    if not (first and second and first[-1].isdigit() and second[0].isdigit()):
        return None
    offers = (
        f"{first.strip()}; {second.strip()}"[:LONGEST_ECHO],
        f"{first.strip()}.{second.strip()}"[:LONGEST_ECHO],
    )
    wrong = fault_in(
        typed,
        "This comma may part two sizes or be a decimal comma",
        "Put semicolons between sizes, or a point for the decimal.",
        len(first),
        len(first) + 1,
    )
    return replace(wrong, offers=[each for each in offers if _all_read(each, unit, least, most)])


def _all_read(text: str, unit: str, least: float, most: float) -> bool:
    """True where each size of this text would be taken: what is offered must be."""
    try:
        return all(
            least <= read_length(part.strip(), unit, drill_size).value <= most for part in text.split(";")
        )
    except Unreadable:
        return False


def _fault(typed: str, part: str, start: int, message: str, way_out: str) -> Fault:
    return fault_in(typed, message, way_out or "Correct this size.", start, start + len(part))
