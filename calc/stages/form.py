"""Reading entries into fields: each is answered beside itself, none stops another.

A stage asks its form for one thing at a time and gets the value back, or None
where the entry is empty without a default or could not be read. What was read,
what is wrong and the normalised text gather here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias

from calc.quantities import (
    Reading,
    Unreadable,
    read_rate,
    shown_angle,
    shown_length,
)
from calc.sheet import Choice, Fault, Field
from calc.stages.read_once import angle, count, length

LONGEST_ECHO = 80
"""Characters of a faulty entry that are said back."""

LENGTH_UNIT: Mapping[str, str] = {"mm": "mm", "inch": "in"}
Reader: TypeAlias = Callable[[str], Reading]
RATE_UNIT: Mapping[str, str] = {"mm": "ratio", "inch": "in/ft"}


def fault_from(error: Unreadable) -> Fault:
    """The fault beside a field, from what a reader refused."""
    return Fault(
        error.message,
        error.text[:LONGEST_ECHO],
        min(error.start, LONGEST_ECHO),
        min(error.end, LONGEST_ECHO),
        error.way_out,
        error.offers,
    )


def read_words(reading: Reading) -> str:
    """What was read, as a person would check it."""
    note = f" ({reading.note})" if reading.note else ""
    return f"read as {reading.understood}{note}"


class Form:
    """The entries of one request, and what one stage made of them."""

    def __init__(self, entries: Mapping[str, str], system: str) -> None:
        self.entries = entries
        self.system = system
        self.fields: list[Field] = []
        self.normalised: dict[str, str] = {}
        self.wrong = False
        self.group = ""
        """Fields asked from now on belong in one folded place of this name."""
        self.understood: dict[str, str] = {}
        """What was read of each measure, defaults included."""
        self._half_steps: dict[str, float] = {}

    def half_step(self, name: str) -> float:
        """Half a unit of the last decimal of a length [mm]; 0 for whole numbers, fractions and sums."""
        return self._half_steps.get(name, 0.0)

    def given(self, name: str) -> bool:
        """True where the person typed something."""
        return bool(self.entries.get(name, "").strip())

    def length(
        self,
        name: str,
        label: str,
        *,
        default: Mapping[str, str] | None = None,
        help: str = "",
        least: float | None = None,
        most: float | None = None,
    ) -> float | None:
        """A length [mm] between `least` and `most` [mm], both allowed."""
        unit = LENGTH_UNIT[self.system]
        return self._measure(
            name,
            label,
            "length",
            unit,
            default,
            help,
            least,
            most,
            lambda text: length(text, unit),
            lambda v: shown_length(v)[self.system],
        )

    def angle(
        self,
        name: str,
        label: str,
        *,
        default: Mapping[str, str] | None = None,
        help: str = "",
        least: float,
        most: float,
    ) -> float | None:
        """An angle [rad]."""
        return self._measure(
            name,
            label,
            "angle",
            "deg",
            default,
            help,
            least,
            most,
            angle,
            lambda v: shown_angle(v)[self.system],
        )

    def count(
        self, name: str, label: str, default: Mapping[str, str], unit: str, help: str, most: int
    ) -> float | None:
        """A whole number of `unit`, from 0 to `most`."""
        return self._measure(
            name,
            label,
            "count",
            unit,
            default,
            help,
            0.0,
            float(most),
            lambda text: count(text, most),
            lambda v: f"{v:.0f}",
        )

    def measure(
        self, name: str, label: str, kind: str, default: Mapping[str, str], help: str, read: Reader
    ) -> float | None:
        """Whatever `read` makes of it; `understood` holds it in words."""
        return self._measure(name, label, kind, "", default, help, None, None, read, str)

    def rate(
        self,
        name: str,
        label: str,
        *,
        default: Mapping[str, str] | None = None,
        help: str = "",
        most: float,
    ) -> float | None:
        """A taper on diameter, plain, from 0."""
        unit = RATE_UNIT[self.system]
        return self._measure(
            name,
            label,
            "rate",
            unit,
            default,
            help,
            0.0,
            most,
            lambda text: read_rate(text, unit),
            lambda v: f"{v:g}",
        )

    def choice(
        self, name: str, label: str, choices: Sequence[tuple[str, str]], *, default: str = "", help: str = ""
    ) -> str | None:
        """One of `choices` (value, label); values and labels are told apart without regard to capitals."""
        typed = self.entries.get(name, "")
        wanted = typed.strip().casefold()
        found = next(
            (value for value, shown in choices if wanted in (value.casefold(), shown.casefold())), None
        )
        wrong = None
        if not wanted:
            found = default or None
        elif found is None:
            self.wrong = True
            offers = tuple(value for value, _ in choices)
            wrong = Fault(
                f"“{typed.strip()[:LONGEST_ECHO]}” is not one of the choices here",
                typed[:LONGEST_ECHO],
                0,
                min(len(typed), LONGEST_ECHO),
                "Pick one of: " + ", ".join(offers[:12]),
                offers[:12],
            )
        else:
            self.normalised[name] = found
        self.fields.append(
            Field(
                name,
                label,
                "choice",
                typed if found is None else found if wanted else "",
                default,
                choices=[Choice(value, shown) for value, shown in choices],
                help=help,
                wrong=wrong,
                group=self.group,
            )
        )
        return found

    def refuse(self, name: str, message: str, way_out: str, offers: Sequence[str] = ()) -> None:
        """Mark a field that reads well but cannot stand beside the others."""
        self.wrong = True
        for index, each in enumerate(self.fields):
            if each.id == name and each.wrong is None:
                fault = Fault(message, each.value, 0, len(each.value), way_out, offers)
                self.fields[index] = replace(each, wrong=fault)

    def _measure(
        self,
        name: str,
        label: str,
        kind: str,
        unit: str,
        default: Mapping[str, str] | None,
        help: str,
        least: float | None,
        most: float | None,
        read: Reader,
        show: Callable[[float], str],
    ) -> float | None:
        typed = self.entries.get(name, "")
        fallback = default[self.system] if default else ""
        value, said, wrong = None, "", None
        try:
            if typed.strip() or fallback:
                reading = read(typed if typed.strip() else fallback)
                value = reading.value
                self.understood[name] = reading.understood
                if typed.strip():
                    said = read_words(reading)
                    wrong = _outside(typed, reading, least, most, show)
                    if wrong is None:
                        self.normalised[name] = reading.understood
                        self._half_steps[name] = _half_step(typed, reading.understood)
        except Unreadable as error:
            wrong = replace(
                fault_from(error),
                offers=[offer for offer in error.offers if _fits(offer, read, least, most, show)],
            )
        if wrong is not None:
            self.wrong = True
            value = None
        self.fields.append(
            Field(name, label, kind, typed, fallback, unit, (), help, said, wrong, (), self.group)
        )
        return value


def _half_step(typed: str, understood: str) -> float:
    """From the decimals as typed (0.700 is finer than 0.7) and the unit as understood."""
    number = "".join(letter if letter in "0123456789.," else " " for letter in typed).split()
    unit = understood.rpartition(" ")[2]
    if len(number) != 1 or unit not in ("mm", "in") or "t" in typed.casefold():  # thou, tenths
        return 0.0
    decimals = number[0].replace(",", ".").partition(".")[2]
    if not decimals:
        return 0.0
    return 0.5 * 10.0 ** -len(decimals) * (25.4 if unit == "in" else 1.0)


def _fits(
    offer: str,
    read: Reader,
    least: float | None,
    most: float | None,
    show: Callable[[float], str],
) -> bool:
    """True where an offered text would be accepted here, its range included."""
    try:
        return _outside(offer, read(offer), least, most, show) is None
    except Unreadable:  # a reader may refuse here what it would read elsewhere
        return False


def _outside(
    typed: str, reading: Reading, least: float | None, most: float | None, show: Callable[[float], str]
) -> Fault | None:
    """A fault where the value lies outside what is possible here."""
    shown = typed[:LONGEST_ECHO]
    if least is not None and reading.value < least:
        message = f"{reading.understood} is too small here"
    elif most is not None and reading.value > most:
        message = f"{reading.understood} is too large here"
    else:
        return None
    bounds = [
        f"at least {show(least)}" if least is not None else "",
        f"at most {show(most)}" if most is not None else "",
    ]
    return Fault(message, shown, 0, len(shown), "It must be " + " and ".join(filter(None, bounds)) + ".")
