"""All ways for this job side by side: how far out each is likely to leave the taper, and which is best."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.doubt.budget import Budget
from calc.doubt.percent import percent
from calc.doubt.task import Task
from calc.estimate import Estimate
from calc.quantities import plus_minus_angle, plus_minus_micrometres
from calc.setting import WAYS
from calc.setting.way import Answer, Way
from calc.sheet import Figure, Row, Table, Working, same
from calc.stages.common.form import Form
from calc.stages.common.taught import Taught
from calc.stages.setting.bench import Bench, ask_way
from calc.stages.setting.error_words import TRUE_SPREAD, best_of, off_words, over
from calc.stages.setting.facts import set_up

WAYS_FIGURE = "setting.ways"
COLUMNS = (
    "Method",
    "± half angle",
    "Taper error on diameter",
    "±",
    "Within tolerance at first cut",
    "Work's axis out of line",
    "Drawbacks",
)
AXIS = "setting.axis_give"
NONE = "–"


@dataclass(frozen=True, slots=True)
class Compared:
    """One way: its angle and budget where it can be used, else why not."""

    way: Way
    reason: str = ""
    angle: Estimate | None = None
    made: Budget | None = None
    snags: str = ""

    @staticmethod
    def of(way: Way, answered: Answer, angle: Estimate, made: Budget) -> Compared:
        """A way that can be used, with what it gave."""
        return Compared(way, "", angle, made, " ".join((*answered.snags, *way.SNAGS)))


def ways_figure(
    form: Form, bench: Bench, task: Task, here: Compared | None = None, taught: Taught | None = None
) -> Figure:
    """Every way with its ±, chance and snags; the best marked.

    here: the way chosen, where known. taught: what proved cuts have taught, for each way its own part of it.
    """
    goal = bench.goal(task.cone)
    compared = [
        here if here and here.way is way else _compare(form, bench, task, way, taught) for way in WAYS
    ]
    limit = goal.limit
    chances = [
        each.made.chance(-limit, limit) if each.made is not None and limit is not None else None
        for each in compared
    ]
    best = best_of(chances)
    rows = [_row(each, chances[place], place == best) for place, each in enumerate(compared)]
    shown = {system: _why(compared, chances, best, system) for system in ("mm", "inch")}
    value = [
        {
            "id": each.way.ID,
            "chance": chances[place],
            "value": each.made.bias if each.made else None,
            "plus_minus": each.made.expanded if each.made else None,
            "reason": each.reason,
        }
        for place, each in enumerate(compared)
    ]
    return Figure(
        WAYS_FIGURE,
        f"Methods compared, {over(task.cone, task.length)['mm']}",
        value,
        shown=shown,
        working=[Working("each method with its own numbers, as entered or by default", shown)],
        source=TRUE_SPREAD,
        table=Table(COLUMNS, rows),
    )


def _compare(form: Form, bench: Bench, task: Task, way: Way, taught: Taught | None) -> Compared:
    """What this way would give; its own numbers are read from the entries, not asked."""
    told = ask_way(form.aside(way.ID), way, bench.usual)
    if told is None:
        return Compared(way, "An entry for this method is missing or wrong: select it to see which.")
    other = replace(bench, way=way, lengths=told.lengths, choices=told.choices, doubts=told.doubts)
    own = other.task(task.cone, task.small_end)
    # What was learned is aimed for by each way anew: a bar's own error is none of a master's.
    asked = replace(
        task, lengths=own.lengths, choices=own.choices, doubts=own.doubts, aim=own.aim, learned=own.learned
    )
    refused = way.refusal(asked)
    if refused:
        return Compared(way, refused)
    if not way.CUTS_BY:
        return Compared(way, "For checking, and for the mill: it sets no lathe.")
    made = set_up(other, asked, taught)
    if made.outcome is None:
        return Compared(
            way, "It sets no angle for this job." if made.search is None else "No stack from this drawer."
        )
    return Compared.of(way, made.answer, made.outcome.angle, made.outcome.budget)


def _row(each: Compared, chance: float | None, best: bool) -> Row:
    if each.angle is None or each.made is None:
        return Row([same(each.way.LABEL), *[same(NONE)] * 5, same(each.reason)])
    made = each.made
    # A way may feel it in one of its set-ups and not in another.
    felt = AXIS in each.angle.parts
    axis = "affected" if felt else each.way.IMMUNE or "not affected, set so"
    return Row(
        [
            same(each.way.LABEL),
            plus_minus_angle(each.angle.expanded),
            off_words(made.bias, made.expanded),
            plus_minus_micrometres(made.expanded),
            same(NONE if chance is None else percent(chance)),
            same(axis),
            same(each.snags),
        ],
        best,
    )


def _why(compared: list[Compared], chances: list[float | None], best: int | None, system: str) -> str:
    """Which way is best for this job, and by how much."""
    if best is None:
        usable = sum(each.made is not None for each in compared)
        return f"{usable} of {len(compared)} methods can be used"
    label, chance = compared[best].way.LABEL, chances[best] or 0.0
    others = sorted((other or 0.0, -place) for place, other in enumerate(chances) if place != best)
    words = f"{label}: {percent(chance)} within tolerance at the first cut"
    if not others or chances[-others[-1][1]] is None:
        return words
    second = -others[-1][1]
    if chance - others[-1][0] < 0.005:
        return f"{words}, as likely as {compared[second].way.LABEL}"
    first, next_best = compared[best].made, compared[second].made
    spread = [plus_minus_micrometres(each.expanded)[system] for each in (first, next_best) if each]
    doubt = f", {spread[0]} against {spread[1]} on diameter" if len(spread) == 2 else ""
    return f"{words}; next {compared[second].way.LABEL}, {percent(others[-1][0])}{doubt}"
