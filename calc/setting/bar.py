"""A bar with two pins beside the slide: the slide is set to the half angle.

The bar's pins lean on the side of the slide, one of them through a stack; the
slide is swung until the bar lies parallel to the lathe's axis, which an
indicator swept along its edge proves. Then

    H = C sin(half angle)

for pins of one diameter, C being the distance between their centres as
measured: the bar is the hypotenuse, so sine, not tangent. The pins' centres
lie half a diameter off what they lean on, so pins that differ shift H by half
their difference; packing under the other pin adds to H.

What else turns the slide: the bar's edge that is swept against the line of its
pins, the sweep itself, the slide's side against its travel, and the work's axis
against the bed, which carries the indicator.

Source: US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C; the rest is plane geometry.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.doubt.figures import figure, worded
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, asin, sin
from calc.quantities import shown_angle, shown_length
from calc.setting.anew import Anew, arcsine
from calc.setting.plan import PlanView, plan_view
from calc.setting.way import Answer, Correction, StackWanted
from calc.sheet import Caution, Working

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
        "setting.bar_side",
        "Bar lies on",
        "choice",
        {"mm": "operator", "inch": "operator"},
        "Which side of the slide the bar leans on.",
        choices=(("operator", "operator's side"), ("far", "far side")),
    ),
    Ask(
        "setting.roller_difference",
        "Headstock pin less tailstock pin",
        "length",
        {"mm": "0 mm", "inch": "0 in"},
        "Difference of the pins' diameters; below 0 where the headstock pin is the smaller one.",
        least=-5.0,
        most=5.0,
    ),
    Ask(
        "setting.packing",
        "Packing under the other pin",
        "length",
        {"mm": "0 mm", "inch": "0 in"},
        "Where the stack alone would be lower than the smallest piece: it then grows by as much.",
        least=0.0,
        most=200.0,
    ),
)

FEELS: Sequence[str] = (
    "setting.bar_give",
    "setting.roller_give",
    "setting.edge_give",
    "setting.packing_give",
    "setting.seating",
    "setting.sweep_give",
    "setting.side_give",
    "setting.axis_give",
)
IMMUNE = ""
CUTS_BY = "slide"
RESOLUTION = "setting.sweep_give"
SNAGS: Sequence[str] = (
    "The bar leans on the slide's side, not on its travel: check once that they are parallel.",
    "A chip under a pin is more than all the rest.",
    "The sweep follows the bed: a lathe that turns a taper adds that taper.",
)


def refusal(task: Task) -> str:
    """Why a bar cannot do it: too steep."""
    if task.half_angle > STEEPEST + 1e-9:
        return (
            "A bar beside the slide cannot hold a half angle past 60 degrees: there the height hardly changes"
            " with the angle. Set the complement from square, or use the graduated base."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Stack height [mm], pin and swing for the half angle of `task`.

    Valid for 0 <= half angle <= 60 degrees; above 45 degrees a height says less
    and less of the angle, which is cautioned.
    """
    angle = task.half_angle
    centres = task.lengths["setting.bar_centres"]
    bar = task.doubt("setting.bar_give", centres)
    plan = _plan(task, angle)
    shift = _shift(task, plan.stack_pin)
    height = bar * math.sin(angle) + shift if plan.swing != "none" else Estimate(0.0)

    def angle_from_height(built: Estimate) -> Estimate:
        # The edge, the sweep, the side and the axis each turn the flank by their own small angle.
        turned = task.doubt("setting.edge_give") / centres
        for name in ("setting.sweep_give", "setting.side_give"):
            turned = turned + task.slope(name)
        # The lathe's taper is told on diameter: half of it is the slope of the axis.
        return asin((built - shift) / bar) + turned + task.slope("setting.axis_give") / 2.0

    results = [
        figure(
            "setting.stack_height",
            _lead_label(plan),
            height,
            "mm",
            _height_working(task, angle, height.value, shift.value),
            SOURCE,
            lead=True,
        ),
        worded("setting.pin", "Stack goes under", plan.stack_pin, _pin_working(task, plan.swing), GEOMETRY),
        worded(
            "setting.swing",
            "Swing the slide, seen from above",
            plan.swing,
            _pin_working(task, plan.swing),
            GEOMETRY,
        ),
    ]
    return Answer(results, plan, StackWanted(height, angle_from_height), _cautions(angle, height.value))


def _shift(task: Task, pin: str) -> Estimate:
    """What pins of two sizes and packing under the other pin add to the height [mm]."""
    half = task.doubt("setting.roller_give", task.lengths.get("setting.roller_difference", 0.0)) / 2.0
    packing = task.lengths.get("setting.packing", 0.0)
    under = task.doubt("setting.packing_give", packing) if packing else Estimate(0.0)
    return under + (half if pin == "tailstock" else -half)


def _lead_label(plan: PlanView) -> str:
    """What stands over the lead figure: the first screen says pin and swing too."""
    if plan.swing == "none":
        return "Stack height"
    return f"Stack height, under the {plan.stack_pin} pin; slide swung {plan.swing}"


def _height_working(task: Task, angle: float, height: float, shift: float) -> list[Working]:
    centres = task.lengths["setting.bar_centres"]
    both = {}
    for system in ("mm", "inch"):
        extra = f" {'+' if shift > 0 else '−'} {shown_length(abs(shift))[system]}" if shift else ""
        both[system] = (
            f"H = {shown_length(centres)[system]} × sin {shown_angle(angle)[system]}{extra} ="
            f" {shown_length(height)[system]}"
        )
    return [
        Working(
            "H = C × sin(half angle)" + (" + packing ± half the pins' difference" if shift else ""),
            both,
            "Sine, not tangent: the bar is the long side of the triangle. On the slide the bar sets the half"
            " angle; under a taper on the plate it would set the included one.",
        )
    ]


def _pin_working(task: Task, swing: str) -> list[Working]:
    side = {"operator": "the operator's side", "far": "the far side"}
    words = (
        f"Small end towards the {task.small_end}, tool cutting {side[task.cut_side]}: slide {swing}. Bar on"
        f" {side[task.choices['setting.bar_side']]} of the slide, parallel to the axis: the wider gap takes"
        " the stack."
    )
    return [
        Working(
            "The slide runs along the cut flank; the stack fills the wider gap", {"mm": words, "inch": words}
        )
    ]


def _cautions(angle: float, height: float) -> list[Caution]:
    rows = [
        Caution(
            "danger",
            "Set up with the spindle stopped and unable to start; chuck key out.",
            "Hands, bar and indicator are beside the chuck. The machine's manual, local rules and licensed"
            " practice go first.",
        ),
        Caution(
            "care",
            "Clean pins, slide and pieces; wipe off oil and chips before the stack goes in.",
            "A chip of a few hundredths under one pin is more than the whole error shown here.",
        ),
    ]
    if height < 0.0:
        rows.append(
            Caution(
                "care",
                "The pins differ by more than this angle needs: put packing under the other pin.",
                "Half the difference of the pins alone already swings the slide too far.",
            )
        )
    if angle > math.radians(45.0):
        rows.append(
            Caution(
                "care",
                "Past 45 degrees a bar holds the angle poorly: set the complement from square instead.",
                "The angle's error grows as 1 / cos of the angle.",
            )
        )
    return rows


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    answer = set_up(task)
    assert answer.stack is not None
    centres = task.lengths["setting.bar_centres"]
    plan, wanted = _plan(task, task.half_angle), answer.stack
    built = wanted.height.value if was is None else was
    anew = Anew.after(task, error, arcsine((built - _shift(task, plan.stack_pin).value) / centres))
    then = _plan(task, anew.aim.value)
    height = sin(anew.aim) * centres + _shift(task, then.stack_pin).value
    if then.stack_pin == "none":
        height = Estimate(0.0, height.parts)
    return anew.correction(
        "stack_height",
        f"New stack height, under the {then.stack_pin} pin",
        height,
        "mm",
        built,
        height.value,
        "H = C × sin(half angle set − error)",
        f"Build a stack of {{now}} in place of {{was}}, under the {then.stack_pin} pin, and set the slide to"
        " it."
        if then.stack_pin != "none"
        else "Take the stack out: the slide runs parallel to the axis.",
        stack=anew.stack(height, wanted.angle_from_height),
    )


def _plan(task: Task, angle: float) -> PlanView:
    centres = task.lengths["setting.bar_centres"]
    return plan_view(angle, task.small_end, task.cut_side, task.choices["setting.bar_side"], centres)


def steps(task: Task, answer: Answer, stack_words: str) -> list[str]:
    """What to do at the lathe, in order."""
    side = {"operator": "operator's", "far": "far"}[task.choices["setting.bar_side"]]
    swing = next(str(each.value) for each in answer.figures if each.id == "setting.swing")
    pin = next(str(each.value) for each in answer.figures if each.id == "setting.pin")
    if swing == "none":
        return ["No swing: the slide runs parallel to the axis."]
    packing = task.lengths.get("setting.packing", 0.0)
    under = f", and the packing of {shown_length(packing)['mm']} under the other pin" if packing else ""
    return [
        "Stop the spindle and isolate it. Wipe the slide's side, the bar's pins and every piece.",
        f"Loosen the slide and swing it by its graduations {swing}, seen from above, roughly"
        f" {shown_angle(task.half_angle, math.radians(0.2))['mm']}. Leave it just free enough to tap.",
        f"Lay the bar against the {side} side of the slide, both pins touching.",
        f"Put the stack between the {pin} pin and the slide: {stack_words}{under}. A drill lies along the"
        " slide, across the pin, so that it cannot roll.",
        "Fix an indicator to the carriage, its plunger at the bar's mid height, square to its edge.",
        "Wind the carriage so that it sweeps the whole bar; tap the slide until both ends read alike.",
        "Tighten the slide, sweep once more: tightening moves it. Then take bar and stack away.",
    ]
