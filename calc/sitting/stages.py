"""The stages of a sitting: asked for facts, sheet and what is folded only where the answer may differ."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TypeVar

from calc.sheet import Figure, Folded, Stage
from calc.sitting.watch import Readings, Watch, WatchedSent
from calc.stages import Begun, Job, JobStage, Sent, begin_of
from calc.stages.common.form import Form

Facts = TypeVar("Facts")
DRAWING = ""
"""The name of a stage's drawing among what is folded: figures have theirs."""


@dataclass(slots=True)
class Folds:
    """Something folded, worked out: the figure or the drawing, what was read for it, for which request."""

    made: Figure | str | None
    readings: Readings
    turn: int


@dataclass(slots=True)
class Asked:
    """A stage and what it last answered.

    begun, opened, first_rows: what its `begin` found, where it has one, the form as that left it, and what it
    put into the job. form, facts, rows, record: likewise of its `work`, which went on from the form that
    `started` it. shown: the form as its `sheet` left it. began, worked, said: what was read for each, and
    for which request that was last compared.
    """

    stage: JobStage
    begun: Begun | None = None
    opened: Form | None = None
    began: Readings | None = None
    began_at: int = 0
    first_rows: dict[str, list[dict[str, str]]] = field(default_factory=dict)
    form: Form | None = None
    facts: object = None
    started: Form | None = None
    rows: dict[str, list[dict[str, str]]] = field(default_factory=dict)
    record: dict[str, object] | None = None
    worked: Readings | None = None
    worked_at: int = 0
    shown: Form | None = None
    sheet: Stage | None = None
    said: Readings | None = None
    said_at: int = 0
    folds: dict[str, Folds] = field(default_factory=dict)


class Stages:
    """All stages of one sitting, in order, for the request in hand."""

    def __init__(self, stages: Sequence[JobStage]) -> None:
        self._watch = Watch()
        self.sent = WatchedSent(self._watch)
        self._all = {stage.ID: Asked(stage) for stage in stages}
        self._giver: dict[type, Callable[[], object]] = {}
        self._turn = 0

    def take(self, sent: Sent) -> None:
        """Take up another request."""
        self.sent.take(sent)
        self._turn += 1

    @property
    def order(self) -> list[str]:
        """Ids of the stages."""
        return list(self._all)

    def lead(self) -> tuple[str, Figure] | None:
        """The figure that leads and its stage, before anything else of this request is worked out."""
        for name, asked in self._all.items():
            begun = self._begin(asked).begun
            if begun is not None and begun.lead is not None:
                return name, begun.lead
        return None

    def sheet(self, name: str) -> Stage:
        """What the stage says, with what is folded left as it is."""
        asked = self._all[name]
        if asked.said_at != self._turn:
            self._work(asked)
            if asked.said is None or not self._still(asked.said):
                assert asked.form is not None
                asked.shown, asked.said = asked.form.again(), Readings(forms={name: asked.form})
                asked.folds = {}
                with self._noting(asked.said):
                    asked.sheet = asked.stage.sheet(_StageJob(self, asked, asked.shown))
            asked.said_at = self._turn
        assert asked.sheet is not None
        return asked.sheet

    def last(self, name: str) -> Stage | None:
        """What the stage said last, for this request or an earlier one; None where it never spoke."""
        return self._all[name].sheet

    def made(self, name: str, key: str) -> Folds | None:
        """What is worked out of the folded under this key, for this request."""
        folds = self._all[name].folds.get(key)
        return folds if self._stands(folds) else None

    def last_made(self, name: str, key: str) -> Folds | None:
        """The same for whichever request it was last worked out."""
        return self._all[name].folds.get(key)

    def folded(self, name: str) -> list[str]:
        """What of the stage's sheet is still to be worked out for this request."""
        sheet = self.sheet(name)
        keys = [each.id for each in sheet.figures if isinstance(each, Folded)]
        if not isinstance(sheet.drawing, str):
            keys.append(DRAWING)
        return [key for key in keys if self.made(name, key) is None]

    def unfold(self, name: str, key: str) -> None:
        """Work out what is folded under this key."""
        asked, sheet = self._all[name], self.sheet(name)
        make: Callable[[], Figure | str | None] = (
            sheet.drawing
            if key == DRAWING and not isinstance(sheet.drawing, str)
            else next(each.make for each in sheet.figures if isinstance(each, Folded) and each.id == key)
        )
        readings = Readings()
        with self._noting(readings):
            asked.folds[key] = Folds(make(), readings, self._turn)

    def job(self) -> Job:
        """The job as far as it is worked out: forms, rows and the record."""
        rows = {name: each for asked in self._all.values() for name, each in asked.rows.items()}
        shown = {name: each.shown or each.form for name, each in self._all.items()}
        record = next((each.record for each in self._all.values() if each.record is not None), None)
        return Job(self.sent, rows, record, {name: form for name, form in shown.items() if form is not None})

    # What stages read of one another.

    def facts(self, kind: type[Facts]) -> Facts:
        """The facts of this type, found now if need be; that they were read is noted."""
        facts = self._facts(kind)
        if self._watch.readings is not None:
            self._watch.readings.facts[kind] = facts
        assert isinstance(facts, kind)
        return facts

    def form(self, name: str) -> Form:
        """The form of a stage as its work left it; that it was read is noted."""
        form = self._work(self._all[name]).form
        assert form is not None
        if self._watch.readings is not None:
            self._watch.readings.forms[name] = form
        return form

    def _facts(self, kind: type) -> object:
        """Raises KeyError where no stage finds such facts."""
        if kind not in self._giver:
            for asked in self._all.values():
                self._work(asked)
                if kind in self._giver:
                    break
        return self._giver[kind]()

    def _begin(self, asked: Asked) -> Asked:
        """The stage, what it finds at once found for the request in hand."""
        begin = begin_of(asked.stage)
        if begin is None or asked.began_at == self._turn:
            return asked
        asked.began_at = self._turn
        if asked.began is None or not self._still(asked.began):
            asked.opened = Form(self.sent.entries, self.sent.system, asked.stage.SHOP)
            asked.began = Readings()
            with self._noting(asked.began):
                job = _StageJob(self, asked, asked.opened)
                asked.begun = begin(job)
            asked.first_rows = job.rows
            self._giver[type(asked.begun)] = lambda: self._begin(asked).begun
        return asked

    def _work(self, asked: Asked) -> Asked:
        """The stage, its facts found for the request in hand."""
        if asked.worked_at == self._turn:
            return asked
        # Said at once, so that a stage that asks for what only comes after it does not ask for ever.
        asked.worked_at = self._turn
        opened = self._begin(asked).opened
        if asked.worked is None or asked.started is not opened or not self._still(asked.worked):
            own = opened.again() if opened else Form(self.sent.entries, self.sent.system, asked.stage.SHOP)
            asked.form, asked.started = own, opened
            asked.worked = Readings()
            with self._noting(asked.worked):
                job = _StageJob(self, asked, own)
                asked.facts = asked.stage.work(job)
            asked.rows = {**asked.first_rows, **job.rows}
            asked.record, asked.shown = job.record, None
            self._giver[type(asked.facts)] = lambda: self._work(asked).facts
        return asked

    def _stands(self, folds: Folds | None) -> bool:
        if folds is None:
            return False
        if folds.turn != self._turn and self._still(folds.readings):
            folds.turn = self._turn
        return folds.turn == self._turn

    def _still(self, readings: Readings) -> bool:
        """Whether all that was read is as it was."""
        return (
            self.sent.still(readings)
            and all(self._facts(kind) is facts for kind, facts in readings.facts.items())
            and all(self._work(self._all[name]).form is form for name, form in readings.forms.items())
        )

    @contextmanager
    def _noting(self, readings: Readings) -> Iterator[None]:
        before, self._watch.readings = self._watch.readings, readings
        try:
            yield
        finally:
            self._watch.readings = before


class _StageJob(Job):
    """The job as one stage sees it while it works or speaks."""

    __slots__ = ("_asked", "_own", "_stages")

    def __init__(self, stages: Stages, asked: Asked, own: Form) -> None:
        super().__init__(stages.sent)
        self._stages, self._asked, self._own = stages, asked, own

    def open(self, stage: str, shop: Collection[str] = ()) -> Form:
        """The stage's own form, which is open."""
        return self.form(stage)

    def form(self, stage: str) -> Form:
        """The stage's own form, or another's as its work left it."""
        return self._own if stage == self._asked.stage.ID else self._stages.form(stage)

    def found(self, kind: type[Facts]) -> Facts:
        """The facts of this type; raises KeyError where no stage finds such."""
        return self._stages.facts(kind)
