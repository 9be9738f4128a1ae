"""A sine bar beside the top slide: the top slide is set to the half angle.

The sine bar's rollers lie against the side of the top slide, one of them through a stack; the top slide is
swung until the sine bar lies parallel to the lathe's axis. An indicator that does not ride with it, on bed,
headstock or tailstock, proves that: it bears on the working face, and the carriage takes the bar past it.
Then

    H = C sin(half angle)

for rollers of one diameter, C being the distance between their centres as measured: the bar is the
hypotenuse, so sine, not tangent. The rollers' centres lie half a diameter off what they bear on, so rollers
that differ shift H by half their difference; packing under the other roller adds to H.

What else turns the top slide: the working face against the line of its rollers, the indicator's run, the top
slide's side against its travel, and the work's axis against the bed. What is known of these
(`calc.setting.known`) is taken off the height; the rest is doubt.

Source: US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C; the rest is plane geometry. How
bar and stack are carried and clamped: common practice, no source.
"""

from __future__ import annotations

import math

from calc.doubt.figures import figure, worded
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, asin, sin
from calc.quantities import shown_angle, shown_length
from calc.setting.anew import Anew, arcsine
from calc.setting.bar_asks import ASKS, CUTS_BY, FEELS, IMMUNE, RESOLUTION, SNAGS
from calc.setting.common import (
    CHIP,
    GEOMETRY,
    SIDE,
    STOP,
    indicator_words,
    run,
    said,
    swing_step,
    swing_words,
    tighten_step,
    words,
)
from calc.setting.known import (
    axis_adds,
    axis_doubt,
    edge_adds,
    edge_doubt,
    known_working,
    outdone,
    side_adds,
    side_doubt,
)
from calc.setting.plan import PlanView, plan_view
from calc.setting.way import Answer, Correction, StackWanted
from calc.sheet import Caution, Step, Working

__all__ = [
    "ASKS",
    "CUTS_BY",
    "FEELS",
    "ID",
    "IMMUNE",
    "LABEL",
    "RESOLUTION",
    "SNAGS",
    "correct",
    "refusal",
    "set_up",
    "steps",
]

ID = "bar"
LABEL = "Sine bar beside the top slide"
SOURCE = "US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C: height = centres × sine"
STEEPEST = math.radians(60.0)
TURNED_MOST = math.radians(89.0)
"""So far a picture of the top slide can be turned, whatever an observation asks for."""


def refusal(task: Task) -> str:
    """Why a sine bar cannot do it: too steep, or known errors that outdo the angle."""
    if task.half_angle > STEEPEST + 1e-9:
        return (
            "A sine bar beside the top slide cannot hold a half angle past 60°: there the height hardly"
            " changes"
            " with the angle. Set 90° − angle from square, or use the graduated base."
        )
    return outdone(task, _known(task))


def set_up(task: Task) -> Answer:
    """Stack height [mm], roller and swing for the half angle of `task`.

    Valid for 0 <= half angle <= 60 degrees; above 45 degrees a height says less
    and less of the angle, which is cautioned.
    """
    known = _known(task)
    angle = task.half_angle + known if task.half_angle > 0.0 else 0.0
    centres = task.lengths["setting.bar_centres"]
    bar = task.doubt("setting.bar_give", centres)
    plan, side = _plan(task, angle), task.choices["setting.bar_side"]
    # With nothing to swing there is no other roller, and nothing under it.
    shift = _shift(task, plan.stack_pin) if plan.swing != "none" else Estimate(0.0)
    height = bar * math.sin(angle) + shift

    def angle_from_height(built: Estimate) -> Estimate:
        # Working face, sweep, side and axis each turn the taper's surface by their own small angle.
        turned = edge_doubt(task, side) + task.slope("setting.sweep_give") + side_doubt(task, side)
        # The lathe's taper is given on diameter: half of it is the slope of the axis.
        return asin((built - shift) / bar) + turned + axis_doubt(task) - known

    results = [
        figure(
            "setting.stack_height",
            _lead_label(plan),
            height,
            "mm",
            [*_height_working(task, angle, height.value, shift.value), *known_working(known)],
            SOURCE,
            lead=True,
        ),
        worded("setting.pin", "Stack goes under", plan.stack_pin, _pin_working(task, plan.swing), GEOMETRY),
        worded(
            "setting.swing",
            "Swing the top slide (compound), seen from above",
            plan.swing,
            _pin_working(task, plan.swing),
            GEOMETRY,
        ),
    ]
    return Answer(
        results, plan, StackWanted(height, angle_from_height), _cautions(angle, height.value, task.system)
    )


def _known(task: Task) -> float:
    """What is known to be out, as it adds to the half angle that the stack stands for [rad]."""
    side = task.choices["setting.bar_side"]
    return axis_adds(task) + side_adds(task, side) + edge_adds(task, side)


def _shift(task: Task, pin: str) -> Estimate:
    """What rollers of two sizes and packing under the other one add to the height [mm]."""
    half = task.doubt("setting.roller_give", task.lengths.get("setting.roller_difference", 0.0)) / 2.0
    packing = task.lengths.get("setting.packing", 0.0)
    under = task.doubt("setting.packing_give", packing) if packing else Estimate(0.0)
    return under + (half if pin == "tailstock" else -half)


def _lead_label(plan: PlanView) -> str:
    """What stands over the lead figure: the first screen says roller and swing too."""
    if plan.swing == "none":
        return "Stack height"
    return f"Stack height, under the {plan.stack_pin} roller; {swing_words(plan)}"


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
            "H = C × sin(half angle)" + (" + packing ± half the roller difference" if shift else ""),
            both,
            "Sine, not tangent: the sine bar is the long side of the triangle. On the top slide it sets the"
            " half"
            " angle; under a taper on the surface plate it would set the included one.",
        )
    ]


def _pin_working(task: Task, swing: str) -> list[Working]:
    side = {"operator": "the operator's side", "far": "the far side"}
    words = (
        f"Small end towards the {task.small_end}, tool cutting {side[task.cut_side]}: top slide {swing}. Sine"
        f" bar on {side[task.choices['setting.bar_side']]} of it, parallel to the axis: the wider gap takes"
        " the stack."
    )
    return [
        Working(
            "The top slide runs along the surface that is cut; the stack fills the wider gap",
            {"mm": words, "inch": words},
        )
    ]


def _cautions(angle: float, height: float, system: str) -> list[Caution]:
    rows = [
        Caution(
            "care",
            "Clean rollers, top slide and pieces; wipe off oil and swarf before the stack goes in.",
            f"A chip of {CHIP[system]} under one roller is more than the whole error shown here.",
        ),
    ]
    if height < 0.0:
        rows.append(
            Caution(
                "care",
                "The rollers differ by more than this angle needs: put packing under the other roller.",
                "Half the roller difference alone already swings the top slide too far.",
            )
        )
    if angle > math.radians(45.0):
        rows.append(
            Caution(
                "care",
                "Past 45° a sine bar holds the angle poorly: set 90° − angle from square instead.",
                "The angle's error grows as 1 / cos of the angle.",
            )
        )
    return rows


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    answer = set_up(task)
    assert answer.stack is not None
    centres = task.lengths["setting.bar_centres"]
    plan, wanted = answer.plan or _plan(task, task.half_angle), answer.stack
    built = wanted.height.value if was is None else was
    known = _known(task)
    anew = Anew.after(task, error, arcsine((built - _shift(task, plan.stack_pin).value) / centres) - known)
    then = _plan(task, min(max(anew.aim.value + known, 0.0), TURNED_MOST))
    height = sin(anew.aim + known) * centres + _shift(task, then.stack_pin).value
    if then.stack_pin == "none":
        height = Estimate(0.0, height.parts)
    return anew.correction(
        "stack_height",
        f"New stack height, under the {then.stack_pin} roller",
        height,
        "mm",
        built,
        height.value,
        "H = C × sin(half angle set − error)",
        f"Build a stack of {{now}} in place of {{was}}, under the {then.stack_pin} roller, and set the top"
        " slide"
        " to it."
        if then.stack_pin != "none"
        else "Take the stack out: the top slide runs parallel to the axis.",
        stack=anew.stack(height, wanted.angle_from_height),
    )


def _plan(task: Task, angle: float) -> PlanView:
    centres = task.lengths["setting.bar_centres"]
    return plan_view(angle, task.small_end, task.cut_side, task.choices["setting.bar_side"], centres)


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order."""
    plan = answer.plan
    if plan is None or plan.swing == "none":
        return [said("none", "No swing: the top slide (compound) runs parallel to the axis.")]
    side, pin = SIDE[task.choices["setting.bar_side"]], plan.stack_pin
    other = "headstock" if pin == "tailstock" else "tailstock"
    packing = task.lengths.get("setting.packing", 0.0)
    direct = f"through the packing of {words(task, packing)}" if packing else "direct"
    face = "the sine bar's working face, the one away from the top slide, at its mid height"
    where = "to the bed, headstock or tailstock, never to the carriage or anything that rides on it"
    far = run(task, task.lengths.get("setting.sweep_length", plan.bar_centres))
    return [
        said(
            "clean",
            f"{STOP} Wipe the top slide's side, the sine bar's rollers and every piece. Look where gib screws"
            " or oilers stand out of that side: both rollers must bear clear of them.",
            cautions=("stopped",),
        ),
        swing_step(task, plan),
        said(
            "bar",
            f"Lay the sine bar along the {side} of the top slide, both rollers towards it, on a strip or"
            " parallels clamped to the top slide itself, so that bar and stack swing with it. A light clamp"
            " or a magnet holds them against the side, no harder than keeps them from slipping.",
        ),
        said(
            "stack",
            f"Put the stack between the {pin} roller and the top slide's side: {stack_words} The {other}"
            f" roller bears on the side {direct}.",
            shows=("setting.stack", "setting.stack_height", "setting.pin"),
        ),
        said(
            "indicator",
            indicator_words(where, "stylus", face, "square to the lathe's axis"),
            cautions=("stopped",),
        ),
        said(
            "sweep",
            f"Wind the carriage so that the stylus runs along {far} of that face, the top slide's handle left"
            " alone. Tap the top slide until the reading is the same at both ends.",
        ),
        tighten_step("run the indicator along once more"),
        said("away", "Take sine bar and stack away, and wind the top slide through its travel by hand."),
    ]
