"""A bar with two pins beside the slide: the slide is set to the half angle.

The bar's pins lean on the side of the slide, one of them through a stack; the
slide is swung until the bar lies parallel to the lathe's axis, which an
indicator swept along its edge proves. Then

    H = C sin(half angle)

for pins of one diameter, C being the distance between their centres as
measured: the bar is the hypotenuse, so sine, not tangent.

Source: US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.estimate import asin, limits
from calc.quantities import shown_angle, shown_length
from calc.setting.plan import PlanView, plan_view
from calc.setting.way import Answer, Ask, Result, Shown, StackWanted, Task

ID = "bar"
LABEL = "Bar beside the slide"
SOURCE = "US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C: height = centres × sine"
GEOMETRY = "Geometry seen from above, headstock on the left, operator below"
STEEPEST = math.radians(60.0)

ASKS: Sequence[Ask] = (
    Ask(
        "setting.bar_centres",
        "Bar, between pin centres",
        "length",
        {"mm": "100 mm", "inch": "4 in"},
        "As measured, not as sold: over both pins, less one pin's diameter.",
        least=10.0,
        most=1000.0,
    ),
    Ask(
        "setting.bar_give",
        "Bar centres known to ±",
        "length",
        {"mm": "0.003 mm", "inch": "0.00012 in"},
        "IS 5359-1969 allows 0.003 mm on a 100 mm bar (as quoted in a metrology text).",
        least=0.0,
        most=1.0,
    ),
    Ask(
        "setting.bar_side",
        "Bar lies on",
        "choice",
        {"mm": "operator", "inch": "operator"},
        "Which side of the slide the bar leans on.",
        choices=(("operator", "operator's side"), ("far", "far side")),
    ),
)


def refusal(task: Task) -> str:
    """Why a bar cannot do it: too steep."""
    if task.cone.half_angle > STEEPEST + 1e-9:
        return (
            "A bar beside the slide cannot hold a half angle past 60 degrees: there the height hardly changes"
            " with the angle."
            " Set the complement from square, or use the graduated base."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Stack height [mm], pin and swing for the half angle of `task.cone`.

    Valid for 0 <= half angle <= 60 degrees; above 45 degrees a height says less
    and less of the angle, which is cautioned.
    """
    angle = task.cone.half_angle
    centres = task.lengths["setting.bar_centres"]
    bar = limits(centres, task.lengths["setting.bar_give"], "bar centres")
    height = bar * math.sin(angle)
    plan = plan_view(angle, task.small_end, task.cut_side, task.choices["setting.bar_side"], centres)
    results = [
        Result(
            "setting.stack_height",
            _lead_label(plan),
            height,
            "mm",
            _height_working(centres, angle, height.value),
            SOURCE,
            lead=True,
        ),
        Result(
            "setting.pin", "Stack goes under", plan.stack_pin, "", _pin_working(task, plan.swing), GEOMETRY
        ),
        Result(
            "setting.swing",
            "Swing the slide, seen from above",
            plan.swing,
            "",
            _pin_working(task, plan.swing),
            GEOMETRY,
        ),
    ]
    return Answer(results, plan, StackWanted(height, lambda built: asin(built / bar)), _cautions(angle))


def _lead_label(plan: PlanView) -> str:
    """What stands over the lead figure: the first screen says pin and swing too."""
    if plan.swing == "none":
        return "Stack height"
    return f"Stack height, under the {plan.stack_pin} pin; slide swung {plan.swing}"


def _height_working(centres: float, angle: float, height: float) -> list[Shown]:
    both = {}
    for system in ("mm", "inch"):
        both[system] = (
            f"H = {shown_length(centres)[system]} × sin {shown_angle(angle)[system]}"
            f" = {shown_length(height)[system]}"
        )
    return [
        Shown(
            "H = C × sin(half angle)",
            both,
            "Sine, not tangent: the bar is the long side of the triangle. On the slide the bar sets the half"
            " angle; under a taper on the plate it would set the included one.",
        )
    ]


def _pin_working(task: Task, swing: str) -> list[Shown]:
    side = {"operator": "the operator's side", "far": "the far side"}
    words = (
        f"Small end towards the {task.small_end}, tool cutting {side[task.cut_side]}: slide {swing}. Bar on"
        f" {side[task.choices['setting.bar_side']]} of the slide, parallel to the axis: the wider gap takes"
        " the stack."
    )
    return [
        Shown(
            "The slide runs along the cut flank; the stack fills the wider gap", {"mm": words, "inch": words}
        )
    ]


def _cautions(angle: float) -> list[tuple[str, str, str]]:
    rows = [
        (
            "danger",
            "Set up with the spindle stopped and unable to start; chuck key out.",
            "Hands, bar and indicator are beside the chuck. The machine's manual, local rules and licensed"
            " practice go first.",
        ),
        (
            "care",
            "Clean pins, slide and pieces; wipe off oil and chips before the stack goes in.",
            "A chip of a few hundredths under one pin is more than the whole error shown here.",
        ),
    ]
    if angle > math.radians(45.0):
        rows.append(
            (
                "care",
                "Past 45 degrees a bar holds the angle poorly: set the complement from square instead.",
                "The angle's error grows as 1 / cos of the angle.",
            )
        )
    return rows


def steps(task: Task, answer: Answer, stack_words: str) -> list[str]:
    """What to do at the lathe, in order."""
    side = {"operator": "operator's", "far": "far"}[task.choices["setting.bar_side"]]
    swing = next(str(each.value) for each in answer.results if each.id == "setting.swing")
    pin = next(str(each.value) for each in answer.results if each.id == "setting.pin")
    if swing == "none":
        return ["No swing: the slide runs parallel to the axis."]
    return [
        "Stop the spindle and isolate it. Wipe the slide's side, the bar's pins and every piece.",
        f"Loosen the slide and swing it by its graduations {swing}, seen from above, roughly"
        f" {shown_angle(task.cone.half_angle, math.radians(0.2))['mm']}."
        " Leave it just free enough to tap.",
        f"Lay the bar against the {side} side of the slide, both pins touching.",
        f"Put the stack between the {pin} pin and the slide: {stack_words}. A drill lies along the slide,"
        " across the pin, so that it cannot roll.",
        "Fix an indicator to the carriage, its plunger at the bar's mid height, square to its edge.",
        "Wind the carriage so that it sweeps the whole bar; tap the slide until both ends read alike.",
        "Tighten the slide, sweep once more: tightening moves it. Then take bar and stack away.",
    ]
