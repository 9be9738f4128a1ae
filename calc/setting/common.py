"""What several ways ask and say alike: travel and division, whole readings, which way the slide swings."""

from __future__ import annotations

import math
from collections.abc import Callable

from calc.doubt.asks import Ask
from calc.doubt.figures import worded
from calc.doubt.task import Task
from calc.quantities import shown_angle, shown_length
from calc.setting.plan import PlanView, plan_view
from calc.setting.way import Answer
from calc.sheet import Caution, Figure, Working

GEOMETRY = "Geometry seen from above, headstock on the left, operator below"
SIDE = {"operator": "operator's side", "far": "far side"}

TRAVEL = Ask(
    "setting.travel",
    "Travel",
    "length",
    {"mm": "50 mm", "inch": "2 in"},
    "How far the slide or carriage is wound; the longer, the surer.",
    least=1.0,
    most=1000.0,
)
DIVISION = Ask(
    "setting.division",
    "One division of the dials",
    "length",
    {"mm": "0.01 mm", "inch": "0.001 in"},
    "The finest that dial and handwheel are read to.",
    least=0.0001,
    most=1.0,
)
STOPPED = Caution(
    "danger",
    "Set up with the spindle stopped and unable to start; chuck key out.",
    "Hands and indicator are beside the chuck. The machine's manual, local rules and licensed practice go"
    " first.",
)
PLAY = Caution(
    "care",
    "Wind past and come back from the same side each time: play in the screw is more than the whole reading"
    " can stand.",
    "A handwheel that changes direction turns some hundredths before the slide moves.",
)
_ROUND_STEPS = (100, 50, 20, 10, 5, 2)
_ENOUGH = 0.9


def whole(value: float, division: float) -> float:
    """`value` [mm or rad] on the nearest division."""
    return round(value / division) * division


def whole_pair(travel: float, ratio: float, division: float) -> tuple[float, float]:
    """Travel and reading [mm] for reading / travel = ratio, so that the reading stands on a division.

    A reading a little within `travel`, as round as nine tenths of it allow, and the travel that belongs to
    it, on a division itself. Where the travel makes less than one division, the reading is 0.
    """
    divisions = travel * ratio / division + 1e-9
    for step in _ROUND_STEPS:
        count = math.floor(divisions / step) * step
        if count >= _ENOUGH * divisions and count > 0:
            return whole(count * division / ratio, division), count * division
    count = math.floor(divisions)
    return (whole(count * division / ratio, division), count * division) if count > 0 else (travel, 0.0)


def words(task: Task, mm: float) -> str:
    """A length [mm] in words, in the system of the task."""
    return shown_length(mm)[task.system]


def about(task: Task, mm: float) -> str:
    """A length [mm] in words where a third of a per cent is near enough."""
    return shown_length(mm, abs(mm) / 300.0)[task.system]


def angle_words(angle: float) -> str:
    """An angle [rad] in words."""
    return shown_angle(angle)["mm"]


def from_above(task: Task, half_angle: float | None = None) -> PlanView:
    """The lathe from above for this task; the bar in it stands for nothing."""
    angle = task.half_angle if half_angle is None else half_angle
    return plan_view(angle, task.small_end, task.cut_side, "operator", 100.0)


def swing_result(task: Task, plan: PlanView, label: str = "Swing the slide, seen from above") -> Figure:
    """Which way the slide is swung."""
    said = (
        f"Small end towards the {task.small_end}, tool cutting the {SIDE[task.cut_side]}: the slide runs"
        f" along the cut flank, so {plan.swing}."
    )
    working = [Working("The slide runs along the cut flank", {"mm": said, "inch": said})]
    return worded("setting.swing", label, plan.swing, working, GEOMETRY)


def swing_words(plan: PlanView) -> str:
    """For a lead label."""
    return "no swing" if plan.swing == "none" else f"slide swung {plan.swing}"


def plunger_goes(task: Task) -> str:
    """What a plunger on the slide does against a bar on the axis as the slide is wound to the small end."""
    return "in" if task.half_angle > 0.0 else "neither in nor out"


def both_lengths(formula: Callable[[Callable[[float], str]], str]) -> dict[str, str]:
    """A line of working in both systems; `formula` is given a writer of lengths [mm]."""
    return {
        "mm": formula(lambda mm: shown_length(mm)["mm"]),
        "inch": formula(lambda mm: shown_length(mm)["inch"]),
    }


def number_of(answer: Answer, name: str) -> float:
    """The value of one of a way's own results [mm, rad or plain]; raises KeyError for one it has not."""
    for each in answer.figures:
        if each.id == name and isinstance(each.value, float):
            return each.value
    raise KeyError(name)


def swing_step(task: Task, plan: PlanView) -> str:
    """The step that brings the slide near."""
    if plan.swing == "none":
        return "Leave the slide along the axis, just free enough to tap."
    return (
        f"Loosen the slide and swing it {plan.swing}, seen from above, to about"
        f" {angle_words(task.half_angle)} by its graduations; leave it just free enough to tap."
    )


def too_fine(reading: float, travel: float, half_angle: float) -> list[Caution]:
    """A caution where the travel makes less than one division."""
    if reading > 0.0 or half_angle <= 0.0 or travel <= 0.0:
        return []
    return [
        Caution(
            "care",
            "Over this travel the dial does not move one division: use a longer travel or a finer dial.",
            "As told here the slide would stay along the axis.",
        )
    ]
