"""What several ways ask and say alike: travel and division, whole readings, which way the top slide
swings."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from calc.doubt.asks import Ask
from calc.doubt.figures import figure, worded
from calc.doubt.task import Task
from calc.quantities import shown_angle, shown_length
from calc.setting.plan import PlanView, plan_view
from calc.setting.way import Answer
from calc.sheet import Caution, Figure, Step, Working, same

GEOMETRY = "Geometry seen from above, headstock on the left, operator below"
SIDE = {"operator": "operator's side", "far": "far side"}

TRAVEL = Ask(
    "setting.travel",
    "Travel",
    "length",
    {"mm": "50 mm", "inch": "2 in"},
    "How far the top slide or carriage is wound; the longer, the surer.",
    least=1.0,
    most=1000.0,
)
DIVISION = Ask(
    "setting.division",
    "One division of the indicator",
    "length",
    {"mm": "0.01 mm", "inch": "0.001 in"},
    "The finest that the indicator is read to.",
    least=0.0001,
    most=1.0,
)
COLLAR = Ask(
    "setting.collar_division",
    "One division of the handwheel's collar",
    "length",
    {"mm": "0.01 mm", "inch": "0.001 in"},
    "The finest that the graduated collar is read to: the travel to set stands on a division of it.",
    least=0.0001,
    most=1.0,
)
BACKLASH = Caution(
    "care",
    "Take up backlash: wind past and come back from the same side each time.",
    "A handwheel that changes direction turns freely before anything moves: often by more than the whole"
    " reading can stand.",
)
STOP = "Stop the spindle and isolate it."
_ROUND_STEPS = (100, 50, 20, 10, 5, 2)
_ENOUGH = 0.9
CHIP = {"mm": "0.02 mm", "inch": "0.001 in"}
"""What a chip under a roller may well measure."""
LEVER_RUN, PLUNGER_RUN = 0.8, 10.0
"""Runs [mm] that a lever and a plunger indicator usually have: common practice, no source."""


def whole(value: float, division: float) -> float:
    """`value` [mm or rad] on the nearest division."""
    return round(value / division) * division


def whole_pair(
    travel: float, ratio: float, division: float, collar: float | None = None
) -> tuple[float, float]:
    """Travel and reading [mm] for reading / travel = ratio, so that the reading stands on a division.

    A reading a little within `travel`, as round as nine tenths of it allow, and the travel that belongs to
    it, on a division of the `collar` it is read by (`division` where None). Where the travel makes less than
    one division, the reading is 0.
    """
    wound = collar or division
    divisions = travel * ratio / division + 1e-9
    for step in _ROUND_STEPS:
        count = math.floor(divisions / step) * step
        if count >= _ENOUGH * divisions and count > 0:
            return whole(count * division / ratio, wound), count * division
    count = math.floor(divisions)
    return (whole(count * division / ratio, wound), count * division) if count > 0 else (travel, 0.0)


def words(task: Task, mm: float) -> str:
    """A length [mm] in words, in the system of the task; inches to 0.0001, finer than which nobody sets."""
    if task.system == "inch":
        return shown_length(round(mm / 25.4, 4) * 25.4)["inch"]
    return shown_length(mm)["mm"]


def run(task: Task, mm: float) -> str:
    """How far an indicator runs [mm], in words: nearer than it can be laid off helps nobody."""
    return shown_length(mm, 0.5)[task.system]


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


def turned_words(swing: str) -> str:
    """Which way, with the word of the United States once beside it."""
    return f"{swing} (counterclockwise)" if swing == "anticlockwise" else swing


def swing_result(
    task: Task, plan: PlanView, label: str = "Swing the top slide (compound), seen from above"
) -> Figure:
    """Which way the top slide is swung."""
    said = (
        f"Small end towards the {task.small_end}, tool cutting the {SIDE[task.cut_side]}: the top slide runs"
        f" along the surface that is cut, so {plan.swing}."
    )
    working = [Working("The top slide runs along the surface that is cut", same(said))]
    return worded("setting.swing", label, plan.swing, working, GEOMETRY)


def swing_words(plan: PlanView) -> str:
    """For a lead label."""
    return "no swing" if plan.swing == "none" else f"top slide swung {turned_words(plan.swing)}"


def plunger_goes(task: Task) -> str:
    """What a plunger on the top slide does against a bar on the axis, wound towards the small end."""
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


def said(
    name: str,
    text: str,
    *,
    phase: str = "set",
    cautions: Sequence[str] = (),
    asks: Sequence[str] = (),
    shows: Sequence[str] = (),
    order: int = 50,
) -> Step:
    """A step of this stage; `text` in the task's system, `cautions` by the ids of `calc.hazards`."""
    return Step(f"setting.{name}", phase, same(text), cautions, asks, shows, "", order)


def roughly(angle: float) -> str:
    """An angle [rad] as near as a degree scale brings it."""
    return f"{math.degrees(angle):.1f}°"


def tool_hazards(task: Task) -> tuple[str, ...]:
    """Ids of what the side that is cut brings with it."""
    return ("far_side", "screwed_chuck") if task.cut_side == "far" else ()


def swing_step(task: Task, plan: PlanView, then: str = "leave it just free enough to tap") -> Step:
    """The step that brings the top slide near."""
    if plan.swing == "none":
        text = "Leave the top slide (compound) along the axis, just free enough to tap."
    else:
        text = (
            f"Loosen the top slide (compound) and swing it {turned_words(plan.swing)}, seen from above, to"
            f" about {roughly(task.half_angle)} by its degree scale; {then}."
        )
    return said("swing", text, cautions=tool_hazards(task), shows=("setting.swing",))


def tighten_step(again: str) -> Step:
    """The last step of setting."""
    return said("tighten", f"Tighten, and {again}: tightening moves it.")


def bar_in_place(what: str = "") -> Step:
    """A test bar in the work's place."""
    return said(
        "test_bar",
        f"{STOP} {what}Put a parallel test bar where the work will stand, held the same way.",
        cautions=("stopped",),
    )


def indicator_words(
    where: str, stylus: str, on: str, square: str, which: str = "a dial test indicator (DTI)"
) -> str:
    """Where an indicator is fixed, what it bears on, which way it moves: one sentence for all ways."""
    return f"Fix {which} {where}, its {stylus} on {on}, moving {square}."


def too_fine(reading: float, travel: float, half_angle: float) -> list[Caution]:
    """A caution where the travel makes less than one division."""
    if reading > 0.0 or half_angle <= 0.0 or travel <= 0.0:
        return []
    return [
        Caution(
            "care",
            "Over this travel the indicator does not move one division: use a longer travel or a finer one.",
            "Set as shown here the angle would stay at nothing.",
        )
    ]


def read_off(
    id: str,
    label: str,
    mm: float,
    division: float,
    working: Sequence[Working] = (),
    source: str = "",
    lead: bool = False,
) -> Figure:
    """A length [mm] to be set or read off, shown no finer than half of the division [mm] it is read on."""
    found = figure(id, label, mm, "mm", working, source, lead)
    return replace(found, shown=shown_length(mm, division / 2.0))


def far_run(reading: float) -> list[Caution]:
    """A caution where an indicator is to run further than most of its kind do."""
    if reading <= PLUNGER_RUN:
        return []
    return [
        Caution(
            "care",
            "This is further than most dial indicators run: use one of long travel, or shorten the travel.",
            "Past its run an indicator stops or bends.",
        )
    ]


def run_snags(reading: float) -> list[str]:
    """What kind of indicator the reading needs."""
    if reading > LEVER_RUN:
        return ["Needs a dial indicator with a plunger: a lever-type one does not run so far."]
    return []
