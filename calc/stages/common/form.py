"""Reading entries into fields: each is answered beside itself, none stops another.

A stage asks its form for one thing at a time and gets an `Entry` back, empty where nothing is typed and
there is no default, or where the text could not be read. What was read, what is wrong and the normalised
text gather here.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from calc.doubt.asks import Ask
from calc.quantities import Reading, Unreadable, read_rate, shown_angle, shown_length
from calc.sheet import Choice, Fault, Field
from calc.stages.common.bounds import said_bound
from calc.stages.common.read_once import angle, count, length

LONGEST_ECHO = 80
"""Characters of a faulty entry that are said back."""
MOST_OFFERS = 12

LENGTH_UNIT: Mapping[str, str] = {"mm": "mm", "inch": "in"}
OTHER_SYSTEM: Mapping[str, str] = {"mm": "inch", "inch": "mm"}
RATE_UNIT: Mapping[str, str] = {"mm": "ratio", "inch": "in/ft"}


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry as read.

    value: [mm, rad, plain or a count], of the default where nothing is typed; None where there is neither or
    it could not be read. picked: the choice, "" where there is none. reading: how `value` was read. typed:
    the person typed something. wrong: the field bears a fault, and is no measure taken meanwhile.
    """

    value: float | None = None
    picked: str = ""
    reading: Reading | None = None
    typed: bool = False
    wrong: bool = False


def _choices(told: Sequence[tuple[str, str]]) -> Sequence[Choice]:
    return _choices_of(tuple(told)) if told else ()


@lru_cache(maxsize=64)
def _choices_of(told: tuple[tuple[str, str], ...]) -> tuple[Choice, ...]:
    return tuple(Choice(value, shown) for value, shown in told)


def fault_from(error: Unreadable) -> Fault:
    """The fault beside a field, from what a reader refused."""
    wrong = fault_in(error.text, error.message, error.way_out, error.start, error.end)
    return replace(wrong, offers=error.offers)


def fault_in(typed: str, message: str, way_out: str, start: int = 0, end: int | None = None) -> Fault:
    """A fault in part of an entry, the whole where no part is named; what is said back is kept short."""
    last = len(typed) if end is None else end
    # Of a long text that part is said back where the fault lies.
    cut = max(0, start - LONGEST_ECHO // 2) if last > LONGEST_ECHO else 0
    shown = typed[cut : cut + LONGEST_ECHO]
    return Fault(message, shown, min(start - cut, len(shown)), min(last - cut, len(shown)), way_out)


def read_words(reading: Reading) -> str:
    """What was read, as a person would check it."""
    note = f" ({reading.note})" if reading.note else ""
    return f"read as {reading.understood}{note}"


class Form:
    """The entries of one request, and what one stage made of them."""

    def __init__(self, entries: Mapping[str, str], system: str, shop: Collection[str] = ()) -> None:
        """shop: ids of the entries whose answers belong to the shop rather than to this job."""
        self.entries = entries
        self.system = system
        self.fields: list[Field] = []
        self.normalised: dict[str, str] = {}
        self._in_force: dict[str, str] = {}
        self._asides: dict[str, Form] = {}
        self.wrong = False
        self.group = ""
        """Fields asked from now on belong in one folded place of this name."""
        self._shop = shop
        self._resolutions: dict[str, float] = {}
        self._meanwhile: set[str] = set()

    def again(self) -> Form:
        """A form that goes on from where this one is; what it then asks is not asked here."""
        other = copy(self)
        other.fields, other.normalised = list(self.fields), dict(self.normalised)
        other._in_force, other._asides = dict(self._in_force), dict(self._asides)
        other._resolutions, other._meanwhile = dict(self._resolutions), set(self._meanwhile)
        return other

    def aside(self, name: str) -> Form:
        """A form that is not shown, for what is reckoned beside: another way of setting, to be compared.

        name: of what is reckoned, which may be reckoned anew; what was asked for it before is then forgotten.
        """
        self._asides[name] = Form(self.entries, self.system)
        return self._asides[name]

    def in_force(self) -> dict[str, str]:
        """Defaults that stand for empty entries and would be others in the other system, with their units."""
        found: dict[str, str] = {}
        for form in self._asides.values():
            found |= form.in_force()
        return found | self._in_force

    def given(self, name: str) -> bool:
        """True where the person typed something."""
        return bool(self.entries.get(name, "").strip())

    def resolution(self, name: str) -> float:
        """What one unit in the last decimal typed is worth [mm, rad or plain]; 0 where nothing tells it."""
        return self._resolutions.get(name, 0.0)

    def ask(self, ask: Ask) -> Entry:
        """Ask for one thing; its field joins the others."""
        return self._choice(ask) if ask.kind == "choice" else self._measure(ask)

    def number(self, ask: Ask) -> float | None:
        """Ask for a measure or a count, where its value [mm, rad or plain] is all that is wanted."""
        return self.ask(ask).value

    def pick(self, ask: Ask) -> str | None:
        """Ask for one of some choices; None where none is picked."""
        return self.ask(ask).picked or None

    def put(self, field: Field, normalised: str | None = None) -> None:
        """Add a field that was read elsewhere, and its normalised text where it could be read."""
        if field.wrong is not None:
            self.wrong = True
        elif normalised is not None:
            self.normalised[field.id] = normalised
        whose = "shop" if field.id in self._shop else field.belongs
        self.fields.append(replace(field, group=self.group, belongs=whose))

    def instead(self, name: str, default: str) -> None:
        """Show what is really taken where nothing is typed: the job has made another default of it.

        It is the job's, not the person's or the system's: no switch of units makes an entry of it.
        """
        self.fields = [replace(each, default=default) if each.id == name else each for each in self.fields]
        self._in_force.pop(name, None)

    def refuse(self, name: str, message: str, way_out: str, offers: Sequence[str] = ()) -> None:
        """Mark a field that reads well but cannot stand beside the others."""
        self.wrong = self.wrong or name not in self._meanwhile
        for index, each in enumerate(self.fields):
            if each.id == name and each.wrong is None:
                fault = Fault(message, each.value, 0, len(each.value), way_out, offers)
                self.fields[index] = replace(each, wrong=fault)

    def _differs(self, ask: Ask, reading: Reading) -> bool:
        """True where the default of the other system means something else than this one."""
        other = OTHER_SYSTEM[self.system]
        text = ask.default.get(other, "")
        if ask.one_number or not text:
            return not text
        there = _kind(ask, other).read(text)
        if ask.kind == "text":
            return there.understood != reading.understood
        return there.exact != reading.exact

    def _whose(self, ask: Ask) -> str:
        if ask.id in self._shop:
            return "shop"
        return "part" if ask.meanwhile else "job"

    def _choice(self, ask: Ask) -> Entry:
        """Values and labels are told apart without regard to capitals."""
        typed = self.entries.get(ask.id, "")
        default = ask.default.get(self.system, "")
        wanted = typed.strip().casefold()
        found = next(
            (value for value, shown in ask.choices if wanted in (value.casefold(), shown.casefold())), ""
        )
        wrong = None
        if not wanted:
            found = default
            if default and default != ask.default.get(OTHER_SYSTEM[self.system], ""):
                self._in_force[ask.id] = default
        elif not found:
            self.wrong = True
            offers = tuple(value for value, _ in ask.choices)[:MOST_OFFERS]
            message = f"“{typed.strip()[:LONGEST_ECHO]}” is not one of the choices here"
            wrong = replace(fault_in(typed, message, "Pick one of: " + ", ".join(offers)), offers=offers)
        else:
            self.normalised[ask.id] = found
        self.fields.append(
            Field(
                ask.id,
                ask.label,
                "choice",
                typed if not found else found if wanted else "",
                default,
                choices=_choices(ask.choices),
                help=ask.help,
                wrong=wrong,
                group=self.group,
                belongs=self._whose(ask),
            )
        )
        return Entry(picked=found, typed=bool(wanted), wrong=wrong is not None)

    def _measure(self, ask: Ask) -> Entry:
        typed = self.entries.get(ask.id, "")
        fallback = ask.default.get(self.system, "")
        kind = _kind(ask, self.system)
        reading, said, wrong = None, "", None
        given = bool(typed.strip())
        try:
            if given or fallback:
                reading = kind.read(typed if given else fallback)
                if given:
                    said = read_words(reading) if ask.kind != "text" or ask.read else ""
                    wrong = kind.outside(typed, reading)
                    self.normalised[ask.id] = reading.understood
                    if wrong is None:
                        self._resolutions[ask.id] = reading.resolution
                elif self._differs(ask, reading):
                    self._in_force[ask.id] = reading.understood
        except Unreadable as error:
            wrong = replace(fault_from(error), offers=[each for each in error.offers if kind.takes(each)])
        if ask.meanwhile:
            self._meanwhile.add(ask.id)
        if wrong is not None:
            self.wrong = self.wrong or not ask.meanwhile
            reading = None
        self.fields.append(
            Field(
                ask.id,
                ask.label,
                ask.kind,
                typed,
                fallback,
                kind.unit,
                _choices(ask.choices),
                ask.help,
                said,
                wrong,
                (),
                self.group,
                self._whose(ask),
            )
        )
        value = reading.value if reading is not None else None
        return Entry(value, "", reading, given, wrong is not None and not ask.meanwhile)


@dataclass(frozen=True, slots=True)
class _Kind:
    """How the texts of one ask are read, between which bounds, and how a bound is said."""

    unit: str
    read: Callable[[str], Reading]
    show: Callable[[float], str]
    least: float | None = None
    most: float | None = None

    def takes(self, text: str) -> bool:
        """True where this text would be accepted, its range included."""
        try:
            return self.outside(text, self.read(text)) is None
        except Unreadable:  # a reader may refuse here what it would read elsewhere
            return False

    def outside(self, typed: str, reading: Reading) -> Fault | None:
        """A fault where the value lies outside what is possible here."""
        if self.least is not None and reading.value < self.least:
            message = f"{reading.understood} is too small here"
        elif self.most is not None and reading.value > self.most:
            message = f"{reading.understood} is too large here"
        else:
            return None
        low, high = self.least, self.most
        bounds = [
            f"at least {said_bound(low, 1, self.show, self.read)}" if low is not None else "",
            f"at most {said_bound(high, -1, self.show, self.read)}" if high is not None else "",
        ]
        return fault_in(typed, message, "It must be " + " and ".join(filter(None, bounds)) + ".")


def _kind(ask: Ask, system: str) -> _Kind:
    """How this is read in this system; raises KeyError for a kind that is none."""
    if ask.kind == "text":
        return _Kind("", ask.read or _as_it_stands, str)
    return _measured(ask.kind, ask.least, ask.most, ask.unit, system)


@lru_cache(maxsize=256)
def _measured(kind: str, least: float | None, most: float | None, counted: str, system: str) -> _Kind:
    """The one place where kinds of measures differ. counted: the unit of a count."""
    if kind == "length":
        unit = LENGTH_UNIT[system]
        return _Kind(unit, lambda text: length(text, unit), lambda mm: shown_length(mm)[system], least, most)
    if kind == "angle":
        return _Kind("deg", angle, lambda value: shown_angle(value)[system], least, most)
    if kind == "rate":
        unit = RATE_UNIT[system]
        return _Kind(
            unit, lambda text: read_rate(text, unit), lambda ratio: _plain_rate(ratio, system), least, most
        )
    if kind == "count":
        whole = int(most or 0)
        return _Kind(counted, lambda text: count(text, whole), lambda value: f"{value:.0f}", least, most)
    raise KeyError(kind)


def _plain_rate(ratio: float, system: str) -> str:
    """A taper on diameter as the end of a range: per cent, or inches per foot."""
    return f"{12 * ratio:.6g} in/ft" if system == "inch" else f"{100 * ratio:.6g} %"


def _as_it_stands(text: str) -> Reading:
    """A text that nothing is made of, on one line."""
    said = " ".join("".join(letter if letter.isprintable() else " " for letter in text).split())
    return Reading(Fraction(0), 0.0, said[: 5 * LONGEST_ECHO])
