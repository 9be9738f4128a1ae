"""Tasks for the ways of setting, told as by default or as a test wants them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.cone import Cone
from calc.doubt.doubts import DOUBTS
from calc.doubt.task import Task
from calc.quantities import read_angle, read_length
from calc.setting import WAYS
from calc.setting.way import Answer, Way
from calc.sheet import Step

BY_ID: dict[str, Way] = {way.ID: way for way in WAYS}


def _default(kind: str, text: str) -> float:
    return (read_angle(text) if kind == "angle" else read_length(text)).value


def task_for(
    way: Way,
    half_angle: float,
    told: dict[str, float | str] | None = None,
    *,
    length: float = 64.0,
    large: float = 40.0,
    small_end: str = "tailstock",
    cut_side: str = "operator",
    form: str = "external",
    system: str = "mm",
    doubts: dict[str, float] | None = None,
    aim: float = 0.0,
) -> Task:
    """A task with the way's own defaults; `told` by id without "setting."; no doubts unless given."""
    lengths: dict[str, float] = {"setting.work_length": 200.0} if way.ID == "set_over" else {}
    choices: dict[str, str] = {}
    for ask in way.ASKS:
        if ask.kind == "choice":
            choices[ask.id] = ask.default["mm"]
        elif ask.default:
            lengths[ask.id] = _default(ask.kind, ask.default[system])
    for doubt in DOUBTS.values():
        if doubt.over is not None:
            lengths.setdefault(doubt.over.id, _default("length", doubt.over.default[system]))
    for name, value in (told or {}).items():
        if isinstance(value, str):
            choices[f"setting.{name}"] = value
        else:
            lengths[f"setting.{name}"] = value
    if told and "division" in told and "collar_division" not in told:
        lengths["setting.collar_division"] = lengths["setting.division"]
    rate = 2.0 * math.tan(half_angle)
    cone = Cone(rate, large, large - rate * length, length)
    return Task(cone, small_end, cut_side, lengths, choices, doubts or {}, aim, form, system)


def usual_doubts(way: Way) -> dict[str, float]:
    """The default half-widths of what this way feels."""
    return {name: _default(DOUBTS[name].kind, DOUBTS[name].default["mm"]) for name in way.FEELS}


def value(answer: Answer, name: str) -> float:
    """A result's value."""
    (found,) = [each.value for each in answer.figures if each.id == f"setting.{name}"]
    assert isinstance(found, float)
    return found


def said(steps: Sequence[Step]) -> str:
    """All steps as one text."""
    return " ".join(each.text["mm"] for each in steps)


def word(answer: Answer, name: str) -> str:
    """A result in words."""
    (found,) = [each.value for each in answer.figures if each.id == f"setting.{name}"]
    assert isinstance(found, str)
    return found
