"""The job on its way through the stages: what was sent, and the facts that each stage found.

Facts are kept by their type. A stage's `work` reads those of the stages before it and returns its own, so a
new stage changes nothing here.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol, TypeVar

from calc.sheet import Figure, Stage
from calc.stages.common.form import Form
from calc.stages.common.history import History
from calc.stages.common.observations import Observations
from calc.stages.common.unasked import spelled_out

Facts = TypeVar("Facts")


@dataclass(frozen=True, slots=True)
class Sent:
    """A request, checked at the door.

    entries: as typed. drawer: rows as sent. add: keys of sets to put into it. observations: as read. history:
    of proved cuts, as read.
    """

    entries: Mapping[str, str]
    system: str = "mm"
    drawer: Sequence[object] = ()
    add: Sequence[str] = ()
    observations: Observations = field(default_factory=Observations)
    history: History = field(default_factory=History)


@dataclass(slots=True)
class Job:
    """What was sent, a form for each stage, and the facts found so far.

    rows: rows of pieces and the like with every unit spelled out, by the request's key for them.
    record: of the cut in hand, once it is proved, as the page keeps it.
    """

    sent: Sent
    rows: dict[str, list[dict[str, str]]] = field(default_factory=dict)
    record: dict[str, object] | None = None
    _forms: dict[str, Form] = field(default_factory=dict)
    _facts: dict[type, object] = field(default_factory=dict)

    @property
    def system(self) -> str:
        """The person's system, mm or inch."""
        return self.sent.system

    def open(self, stage: str, shop: Collection[str] = ()) -> Form:
        """The empty form of a stage; `shop` names its entries whose answers belong to the shop."""
        self._forms[stage] = Form(self.sent.entries, self.sent.system, shop)
        return self._forms[stage]

    def form(self, stage: str) -> Form:
        """The form that a stage asks on; opened anew where it was not yet."""
        return self._forms.get(stage) or self.open(stage)

    def quiet(self) -> Form:
        """A form that is not shown: to read what another stage asks."""
        return Form(self.sent.entries, self.sent.system)

    def keep(self, facts: object) -> None:
        """Keep what a stage found, for those after it."""
        self._facts[type(facts)] = facts

    def found(self, kind: type[Facts]) -> Facts:
        """The facts of this type; raises KeyError where their stage has not worked yet."""
        facts = self._facts[kind]
        assert isinstance(facts, kind)
        return facts

    def normalised(self) -> dict[str, str]:
        """Every entry that could be read, asked for just now or not, with its units spelled out."""
        asked = {each.id for form in self._forms.values() for each in form.fields}
        told = {name: text for form in self._forms.values() for name, text in form.normalised.items()}
        return told | spelled_out(self.sent.entries, self.sent.system, asked)

    def in_force(self) -> dict[str, str]:
        """Defaults that stand for empty entries and would be others in the other system."""
        return {name: text for form in self._forms.values() for name, text in form.in_force().items()}


class JobStage(Protocol):
    """The names that a stage's folder bears.

    IDS: the entries it may ask. SHOP: those of them whose answers belong to the shop: bars, lathe, what
    things are known to. `work` asks and computes: facts, no words. `sheet` says them, once all
    stages have worked.
    """

    ID: str

    @property
    def IDS(self) -> Sequence[str]:
        """Ids of entries."""

    @property
    def SHOP(self) -> Collection[str]:
        """Ids of entries."""

    def work(self, job: Job) -> object:
        """What this stage finds, from what was sent and from what stages before it found."""

    def sheet(self, job: Job) -> Stage:
        """The stage as it is shown."""


class Begun(Protocol):
    """What a stage finds at once, before the rest of its work."""

    @property
    def lead(self) -> Figure | None:
        """The figure that leads, just as it will stand on the sheet."""


def begin_of(stage: JobStage) -> Callable[[Job], Begun] | None:
    """The quick part of a stage's work, where it has one: a function `begin`.

    It asks all that the stage's work asks, on the stage's form. `work` comes after it and finds what it
    returned like the facts of any stage.
    """
    begin: Callable[[Job], Begun] | None = getattr(stage, "begin", None)
    return begin
