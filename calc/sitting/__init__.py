"""A sitting: one person's requests, one after another, answered in parts that hold only what has changed.

Put together, the parts are what `calc.job.work` answers to the last request, digit for digit. What is looked
at comes first, before all else the figure that leads, then the other stages, last what is folded; a newer
request overtakes what is not handed out yet.
"""

from __future__ import annotations

import marshal
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any, TypeVar, cast

from calc.job import (
    FORMAT,
    LONGEST_REQUEST,
    NOT_READ,
    around,
    as_text,
    many_brackets,
    request_in,
    sent_with,
    work_text,
)
from calc.sheet import Figure, Folded, Problem, Stage
from calc.sitting.given import Given
from calc.sitting.stages import DRAWING, Stages
from calc.stages import STAGES, JobStage, Sent, placed, settled
from calc.stages.common.history import History, read_history
from calc.stages.common.observations import Observations, read_observations

Made = TypeVar("Made")
ODD = ("later", "add_lines")
"""Keys of requests that are no step of a sitting."""
HISTORY = ',"history":'
WITHOUT_REFERENCES = 2
"""The form of marshalled data that says the same of what is equal, whoever else holds it."""


class Sitting:
    """Answers one request after another. For others: `ask`, `more`, and `whole`: no more parts are to come.

    A part is JSON: `part` counts them from 1, which starts from nothing; `stages` holds of each stage that
    changed its `id`, `version` and what differs, `others` likewise of what stands beside the stages; in a
    list an id stands for what was handed out under it before, among the rows of a field or of `drawer` a
    number for the row that was in this place. `order` names the stages handed out so far,
    `route` the steps by stage and place in it. `late` names figures and `stale` stages whose answer to this
    request is still to come. The part that is `whole` is the last one: the sheet is complete.
    An odd request (rows of a table, pieces by lines, one too long to be read) is answered with `sheet`,
    complete in itself, as part 0, which does not count.
    """

    def __init__(self, stages: Sequence[JobStage] = STAGES) -> None:
        self._list = stages
        self._begin()

    def _begin(self) -> None:
        self._stages, self._given = Stages(self._list), Given()
        self._system, self._part = "", 0
        self.whole = True
        self._marks: dict[str, tuple[object, bytes, object]] = {}
        self._rest: Iterator[str] = iter(())
        self._tail: tuple[tuple[str, bool], object] = ("", False), None

    def ask(self, text: str, look: str = "") -> str:
        """Take up a request; returns the first part of its answer. What was left of the last one is dropped.

        look: ids of the stages that are looked at, with blanks between; all where none is named.
        """
        self._rest = self._parts(text, look.split())
        return self.more() or ""

    def more(self) -> str | None:
        """The next part; "" where more was worked out but nothing is to be said yet; None at the end."""
        try:
            return next(self._rest, None)
        except BaseException:
            self._begin()
            raise

    def _parts(self, text: str, look: Sequence[str]) -> Iterator[str]:
        request = self._request(text) if len(text) <= LONGEST_REQUEST else None
        odd = isinstance(request, Mapping) and any(request.get(key) is not None for key in ODD)
        if odd or len(text) > LONGEST_REQUEST:
            self.whole = True
            yield f'{{"part":0,"whole":true,"sheet":{work_text(text)}}}'
            return
        problems: list[Problem] = []
        if not isinstance(request, Mapping):
            problems.append(NOT_READ)
            request = {}
        sent = self._sent(request, problems)
        if sent.system != self._system:
            self._stages, self._system = Stages(self._list), sent.system
        self._stages.take(sent)
        order = self._stages.order
        first = [name for name in order if name in look] or order
        if first != order and (lead := self._lead()):
            yield lead
        yield self._said(first, problems)
        for name in order:
            self._stages.sheet(name)
            if name not in first:
                yield ""
        if first != order:
            yield self._said(order, problems)
        for name in (*first, *(name for name in order if name not in first)):
            for key in self._stages.folded(name):
                self._stages.unfold(name, key)
                yield ""
        yield self._said(order, problems, whole=True)

    def _lead(self) -> str:
        """The part with the lead figure alone, "" where it is as it was handed out, or was not yet."""
        found = self._stages.lead()
        changed = self._given.figure(*found) if found else ""
        return self._part_of([changed], "", [], self._stages.order) if changed else ""

    def _request(self, text: str) -> object:
        """What the text holds. What stands from the history on is read once, as long as it stays: with
        hundreds of proved cuts it is nearly all there is.

        Within a text of JSON no quotes stand bare, so that what is cut here is a key; where it is not one of
        the outermost, what stands before it cannot be read by itself.
        """
        head, key, tail = text.partition(HISTORY)
        if not key:
            return request_in(text)
        many = many_brackets(text)
        if (tail, many) != self._tail[0]:
            self._tail = (tail, many), request_in("{" + key[1:] + tail, many)
        first, last = request_in(head + "}", many), self._tail[1]
        if not isinstance(first, dict) or not isinstance(last, dict):
            return request_in(text)
        return {**first, **last}

    def _said(self, names: Sequence[str], problems: Sequence[Problem], whole: bool = False) -> str:
        """The part with all that differs in these stages."""
        for name in names:
            self._stages.sheet(name)
        there = [stage for name in self._stages.order if (stage := self._stages.last(name)) is not None]
        stages = settled([self._with_folds(stage, stage.id in names) for stage in there])
        changed = [text for stage in stages if stage.id in names if (text := self._given.stage(stage))]
        job = self._stages.job()
        others = self._given.others(
            {
                "format": FORMAT,
                "units": self._system,
                "order": [stage.id for stage in stages],
                "route": placed(stages),
                **around(stages, job, problems),
            }
        )
        late = [each.id for stage in stages for each in stage.figures if isinstance(each, Folded)]
        stale = [name for name in self._stages.order if name not in names]
        return self._part_of(changed, others, late, stale, whole)

    def _part_of(
        self, stages: list[str], others: str, late: list[str], stale: list[str], whole: bool = False
    ) -> str:
        """The next part, of JSON that is made already."""
        self._part += 1
        self.whole = whole
        return (
            f'{{"part":{self._part},"whole":{as_text(whole)},"late":{as_text(late)},"stale":{as_text(stale)},'
            f'"stages":[{",".join(stages)}],"others":{others or "{}"}}}'
        )

    def _with_folds(self, stage: Stage, now: bool) -> Stage:
        """The stage with what is folded worked out as far as it is: for this request, or whenever."""
        made = self._stages.made if now else self._stages.last_made
        if callable(stage.drawing) and (drawn := made(stage.id, DRAWING)):
            stage = replace(stage, drawing=str(drawn.made))
        figures: list[Figure] = []
        for each in stage.figures:
            done = made(stage.id, each.id) if isinstance(each, Folded) else None
            if done is None:
                figures.append(each)
            elif isinstance(done.made, Figure):
                figures.append(done.made)
        return replace(stage, figures=figures)

    def _sent(self, request: Mapping[object, object], problems: list[Problem]) -> Sent:
        """What was sent; parts that are as before are the same objects as before."""

        def observations(told: object, system: str) -> Observations:
            return self._kept("observations", [system, told], lambda: read_observations(told, system))

        def history(told: object) -> History:
            return self._kept("history", told, lambda: read_history(told))

        sent = sent_with(request, problems, observations, history)
        drawer = self._kept("drawer", sent.drawer, lambda: sent.drawer)
        return replace(sent, drawer=drawer, add=self._kept("add", sent.add, lambda: sent.add))

    def _kept(self, name: str, told: object, read: Callable[[], Made]) -> Made:
        """What was read last under this name, where just the same was told; else it is read anew."""
        before = self._marks.get(name)
        if before is not None and before[0] is told:
            return cast(Made, before[2])
        mark = marshal.dumps(cast(Any, told), WITHOUT_REFERENCES)  # tells 1, 1.0 and true apart, and is quick
        made = cast(Made, before[2]) if before is not None and before[1] == mark else read()
        self._marks[name] = (told, mark, made)
        return made
