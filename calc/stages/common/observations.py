"""What was seen of the cut in hand: rows, one an observation, each asked by its way of proving."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.doubt.asks import Ask
from calc.rows import SentRow, sent_row
from calc.sheet import Choice, Field, Problem
from calc.stages.common.form import LONGEST_ECHO, Entry
from calc.stages.common.rows import RowForm

if TYPE_CHECKING:
    from calc.gauging.way import Row, Way

ID = "observations"
LABEL = "What was seen"
HELP = "One row for each look or measurement; several count together, of one way or of many."
MOST = 100
MOST_NAMED = 5
NOTE = Ask("note", "Note", "text", help="For yourself; nothing is computed from it.")
PICK_WAY = "Pick how it was looked at or measured."


@dataclass(frozen=True, slots=True)
class Observation:
    """One row as read.

    way: None where none is picked. entries: by the keys of the way's asks. fields: the row's, in order.
    normalised: the row again with every unit spelled out. defaults: what stands for its empty cells and
    would be another in the other system, by field. wrong: a cell bears a fault.
    """

    place: int
    way: Way | None
    entries: Mapping[str, Entry]
    fields: Sequence[Field]
    normalised: Mapping[str, str]
    defaults: Mapping[str, str]
    wrong: bool

    @property
    def row(self) -> Row | None:
        """The row as its way of proving takes it; None where it cannot be used."""
        from calc.gauging.way import Row

        if self.way is None or self.wrong:
            return None
        values = {key: each.value for key, each in self.entries.items() if each.value is not None}
        picked = {key: each.picked for key, each in self.entries.items() if each.picked}
        picked.pop("way", None)
        return Row(self.way.ID, self.place, values, picked)


@dataclass(frozen=True, slots=True)
class Observations:
    """All rows, and what is wrong with them as a whole."""

    rows: Sequence[Observation] = ()
    problems: Sequence[Problem] = ()

    @property
    def normalised(self) -> list[dict[str, str]]:
        """The rows again, fit for either unit system."""
        return [dict(each.normalised) for each in self.rows]

    @property
    def defaults(self) -> dict[str, str]:
        """What stands for empty cells and would be another in the other system, by field."""
        return {name: text for each in self.rows for name, text in each.defaults.items()}

    def field(self) -> Field:
        """The field that shows them, for the stage that asks."""
        from calc.gauging import WAYS

        ways = [Choice(way.ID, way.LABEL) for way in WAYS]
        return Field(ID, LABEL, "rows", choices=ways, help=HELP, rows=[each.fields for each in self.rows])


def read_observations(sent: object, system: str) -> Observations:
    """The rows as sent; never raises, whatever they are."""
    if sent is None or sent == []:
        return Observations()
    if not isinstance(sent, list):
        message = "What was seen could not be read: it is not a list of observations."
        return Observations(problems=[Problem(ID, message, "Enter it again.")])
    from calc.gauging import WAYS  # the ways of proving are wanted only once something was seen

    asks: dict[str, Ask] = {}
    for way in WAYS:
        for ask in way.ASKS:
            asks.setdefault(ask.id, ask)
    keys = ("way", *asks, NOTE.id)
    problems: list[Problem] = []
    if len(sent) > MOST:
        message = f"There are {len(sent)} observations; the first {MOST} were looked at."
        problems.append(Problem(ID, message, "Take out those of cuts that are gone."))
    rows = [sent_row(each, place, keys) for place, each in enumerate(sent[:MOST])]
    unknown = dict.fromkeys(name for row in rows for name in row.unknown)
    if unknown:
        names = ", ".join(f"“{name[:LONGEST_ECHO]}”" for name in list(unknown)[:MOST_NAMED])
        message = f"Nothing among the observations is called {names}; it was left aside."
        problems.append(Problem(ID, message, "It may come from a newer Conewright, or the link is damaged."))
    strange = [str(row.place + 1) for row in rows if not row.is_row]
    if strange:
        places = ", ".join(strange[:MOST_NAMED]) + (" and more" if len(strange) > MOST_NAMED else "")
        which = f"Observation{'s' if len(strange) > 1 else ''} {places}"
        message = f"{which} could not be read: there are no named parts."
        problems.append(Problem(ID, message, "Enter it again, or take the row out."))
    return Observations([_read(row, WAYS, asks, system) for row in rows], problems)


def _read(row: SentRow, ways: Sequence[Way], asks: Mapping[str, Ask], system: str) -> Observation:
    form = RowForm(ID, row, system)
    labels = tuple((way.ID, way.LABEL) for way in ways)
    picked = form.ask(Ask("way", "How", "choice", help=PICK_WAY, choices=labels))
    way = next((each for each in ways if each.ID == picked.picked), None)
    for ask in way.ASKS if way else ():
        form.ask(ask)
    entries = dict(form.entries)
    form.ask(NOTE)
    # What another way asks is kept, so that nothing typed is lost while a person changes the way to and fro.
    kept = RowForm(ID, row, system)
    for key, text in row.texts.items():
        if key in asks and key not in entries and text.strip():
            kept.ask(asks[key])
    normalised = {**form.normalised(), **{key: kept.normalised()[key] for key in kept.entries}}
    return Observation(row.place, way, entries, form.fields, normalised, form.in_force(), form.wrong)
