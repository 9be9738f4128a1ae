"""The job's route: the steps of all stages in the order of doing.

A stage says what is to be done in its own part of the job; the phases say where in the job that belongs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from calc.sheet import PHASES, Stage, Step, as_plain

_PLACE = {phase: place for place, phase in enumerate(PHASES)}


def settled(stages: Sequence[Stage]) -> list[Stage]:
    """The stages with steps that name only entries and figures that stand on this very sheet."""
    asked = {field.id for stage in stages for field in stage.fields}
    found = {figure.id for stage in stages for figure in stage.figures}

    def keep(step: Step) -> Step:
        asks = tuple(each for each in step.asks if each in asked)
        shows = tuple(each for each in step.shows if each in found)
        return replace(step, asks=asks, shows=shows)

    return [replace(stage, steps=[keep(step) for step in stage.steps]) for stage in stages]


def route(stages: Sequence[Stage]) -> list[dict[str, object]]:
    """All steps as plain dicts, each with the stage it is of, by phase, and within one by stage."""
    steps = [(_PLACE[step.phase], stage.id, step) for stage in stages for step in stage.steps]
    steps.sort(key=lambda each: each[0])  # stable
    plain = [(stage, as_plain(step)) for _, stage, step in steps]
    return [{**step, "stage": stage} for stage, step in plain if isinstance(step, dict)]
