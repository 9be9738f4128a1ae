"""The job's route: the steps of all stages in the order of doing.

A stage says what is to be done in its own part of the job; the phases say where in the job that belongs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from calc.hazards import JOB, cautions_of
from calc.sheet import PHASES, Caution, Stage, Step, as_plain

SETTING = "setting"
"""The stage that says how the taper is set."""
_PLACE = {phase: place for place, phase in enumerate(PHASES)}
_TOLD_BETTER = {"setting.centre_both": "blank.other_end", "setting.parallel": "blank.rough_hold"}
"""Steps of a way of setting that the blank's own steps tell with their measures, where there is a blank."""


def settled(stages: Sequence[Stage]) -> list[Stage]:
    """The stages with steps that name only entries and figures that stand on this very sheet."""
    stages = _once(_held_back(stages))
    asked = {field.id for stage in stages for field in stage.fields}
    found = {figure.id for stage in stages for figure in stage.figures}

    def keep(step: Step) -> Step:
        asks = tuple(each for each in step.asks if each in asked)
        shows = tuple(each for each in step.shows if each in found)
        if len(asks) == len(step.asks) and len(shows) == len(step.shows):
            return step  # the very same, so that it need not be told anew
        return replace(step, asks=asks, shows=shows)

    return [
        replace(stage, steps=[keep(step) for step in stage.steps], cautions=_cautions(stage))
        for stage in stages
    ]


def _once(stages: Sequence[Stage]) -> Sequence[Stage]:
    """Nothing is said twice in other words."""
    there = {step.id for stage in stages for step in stage.steps}
    over = {step for step, better in _TOLD_BETTER.items() if better in there}
    if not over & there:
        return stages
    return [replace(stage, steps=[step for step in stage.steps if step.id not in over]) for stage in stages]


def _held_back(stages: Sequence[Stage]) -> Sequence[Stage]:
    """Without a method of setting that can do it nothing is set, cut or finished yet: those steps wait."""
    if any(stage.id == SETTING and stage.steps for stage in stages):
        return stages
    last = _PLACE["set"]
    return [
        replace(stage, steps=[step for step in stage.steps if _PLACE[step.phase] < last]) for stage in stages
    ]


def _cautions(stage: Stage) -> list[Caution]:
    """What the stage says, and before it the hazards that its steps name and it did not give itself."""
    given = {each.id for each in stage.cautions if each.id}
    return [*(each for each in cautions_of(stage.steps) if each.id not in given), *stage.cautions]


def job_cautions(stages: Sequence[Stage]) -> list[Caution]:
    """What stands once above the whole job; nothing where there is nothing to do."""
    return [JOB] if any(stage.steps for stage in stages) else []


def placed(stages: Sequence[Stage]) -> list[tuple[str, int]]:
    """All steps in the order of doing, each by its stage's id and its place there."""
    steps = [(stage.id, place, step) for stage in stages for place, step in enumerate(stage.steps)]
    steps.sort(key=lambda each: (_PLACE[each[2].phase], each[2].order))  # stable: else by stage
    return [(stage, place) for stage, place, _ in steps]


def route(stages: Sequence[Stage]) -> list[dict[str, object]]:
    """All steps as plain dicts, each with the stage it is of: by phase, by their order in it, by stage."""
    steps = {stage.id: stage.steps for stage in stages}
    plain = [(stage, as_plain(steps[stage][place])) for stage, place in placed(stages)]
    return [{**step, "stage": stage} for stage, step in plain if isinstance(step, dict)]
