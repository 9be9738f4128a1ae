"""One indicator on the top slide against a test bar, the top slide wound along.

A parallel test bar stands where the work will stand. An indicator in the tool post bears on its side at
centre height, and the top slide is wound by a travel t along itself. With the plunger square to the lathe's
axis the indicator moves by

    t sin(half angle)

and with the plunger square to the top slide, which meets the bar's side on the slant, by

    t tan(half angle)

The bar is the work's axis itself, so a lathe that turns out of parallel does not matter.

Source: US Navy training course NAVEDTRA 14076 (half of the included angle on the slide); the rest is plane
geometry.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.doubt.figures import figure
from calc.doubt.shape import curved
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, asin, atan, sin, tan
from calc.setting.anew import Anew, arcsine, settable
from calc.setting.common import (
    BACKLASH,
    COLLAR,
    DIVISION,
    SIDE,
    TRAVEL,
    angle_words,
    bar_in_place,
    both_lengths,
    far_run,
    from_above,
    indicator_words,
    number_of,
    plunger_goes,
    read_off,
    run_snags,
    said,
    swing_result,
    swing_step,
    swing_words,
    tighten_step,
    too_fine,
    whole_pair,
    words,
)
from calc.setting.way import Answer, Correction
from calc.sheet import Step, Working

ID = "one_dial"
LABEL = "One indicator along a test bar"
SOURCE = "Plane geometry; half the included angle on the slide as in US Navy training course NAVEDTRA 14076"
STEEPEST = math.radians(60.0)
STEEPEST_SLANTING = math.radians(30.0)

PLUNGER = Ask(
    "setting.plunger",
    "Plunger lies square to",
    "choice",
    {"mm": "axis", "inch": "axis"},
    "Square to the lathe's axis it reads the sine, square to the swung top slide the tangent.",
    choices=(("axis", "the lathe's axis (sine)"), ("slide", "the top slide (tangent)")),
)
ASKS: Sequence[Ask] = (TRAVEL, PLUNGER, DIVISION, COLLAR)
FEELS: Sequence[str] = (
    "setting.dial_give",
    "setting.travel_give",
    "setting.plunger_give",
    "setting.play_give",
    "setting.master_give",
    "setting.true_give",
)
IMMUNE = "not affected: the test bar stands in the work's place, so the axis itself is the reference"
CUTS_BY = "slide"
RESOLUTION = "setting.dial_give"
SNAGS: Sequence[str] = (
    "The whole reading counts, so the indicator's own error counts: use a long travel.",
    "Sine or tangent depends on how the plunger lies.",
    "Backlash of the top slide's screw shortens the travel if it is wound back.",
)


def reading(travel: float, half_angle: float, plunger: str) -> float:
    """What the indicator moves [mm] for a travel [mm] along the slide at a half angle [rad].

    plunger: square to the "axis" or to the "slide". Valid below 90 degrees.
    """
    return travel * ratio(half_angle, plunger)


def ratio(half_angle: float, plunger: str) -> float:
    """Reading for each unit of travel, plain."""
    return math.sin(half_angle) if plunger == "axis" else math.tan(half_angle)


def refusal(task: Task) -> str:
    """Why an indicator cannot do it: too steep."""
    slanting = task.choices.get("setting.plunger", "axis") == "slide"
    if slanting and task.half_angle > STEEPEST_SLANTING + 1e-9:
        return (
            "A plunger square to the top slide meets the test bar too much on the slant past a half angle of"
            " 30°. Set it square to the lathe's axis."
        )
    if task.half_angle > STEEPEST + 1e-9:
        return (
            "Past a half angle of 60° the indicator moves nearly as far as the top slide and says little of"
            " the angle. Use the graduated base, or set 90° − angle from square."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Reading over the travel [mm], the whole reading near it, swing; valid up to 60 degrees."""
    angle, plan = task.half_angle, from_above(task)
    travel, plunger = task.lengths["setting.travel"], task.choices["setting.plunger"]
    exact = reading(travel, angle, plunger)
    told_travel, told = _whole(task)
    working = _working(travel, angle, exact, plunger)
    results = [
        read_off(
            "setting.dial_reading",
            f"Indicator moves, over {words(task, travel)} of top slide; {swing_words(plan)}",
            exact,
            task.lengths["setting.division"],
            working,
            SOURCE,
            lead=True,
        ),
        figure("setting.dial_whole", "Reading to set (rounded)", told, "mm", working, SOURCE),
        figure("setting.travel_whole", "Travel to match", told_travel, "mm", working),
        swing_result(task, plan),
    ]
    got = angle_from(task, told, told_travel, plunger)
    cautions = [BACKLASH, *far_run(exact), *too_fine(told, exact, angle)]
    turns = task.lengths["setting.division"] / told_travel
    turns *= 1.0 / math.cos(angle) if plunger == "axis" else math.cos(angle) ** 2
    return Answer(results, cautions=cautions, angle=got, snags=run_snags(exact), division_turns=turns)


def _whole(task: Task) -> tuple[float, float]:
    """Travel and reading [mm] on divisions of collar and indicator."""
    each_unit = ratio(task.half_angle, task.choices["setting.plunger"])
    lengths = task.lengths
    collar = lengths.get("setting.collar_division")
    return whole_pair(lengths["setting.travel"], each_unit, lengths["setting.division"], collar)


def angle_from(task: Task, told: float, travel: float, plunger: str) -> Estimate:
    """The half angle [rad] that a reading [mm] over a travel [mm] gives, with its doubts."""
    dial = task.doubt("setting.dial_give", told)
    quotient = dial / task.doubt("setting.travel_give", travel)
    got = asin(quotient) if plunger == "axis" else atan(quotient)
    return got + slanting(task, told / travel, plunger) + bar_and_clamp(task)


def slanting(task: Task, quotient: float, plunger: str) -> Estimate:
    """What a plunger off its square changes in the angle [rad].

    Off by d it moves 1 / cos d as far; square to the slide it is off the bar's square by the half angle
    already: reading = t sin a / cos(a + d).
    """

    def change(off: float) -> float:
        if plunger == "axis":
            return math.asin(quotient * math.cos(off)) - math.asin(quotient)
        return math.atan2(quotient * math.cos(off), 1.0 + quotient * math.sin(off)) - math.atan(quotient)

    return curved(change, task.doubts.get("setting.plunger_give", 0.0), "setting.plunger_give")


def bar_and_clamp(task: Task) -> Estimate:
    """What a test bar that is not parallel or leans, and the clamping, turn the top slide by [rad]."""
    # The bar's error is told on diameter: half of it is the slope of its side.
    bar = task.slope("setting.master_give") / 2.0 + task.slope("setting.true_give")
    return bar + task.slope("setting.play_give")


def _working(travel: float, angle: float, exact: float, plunger: str) -> list[Working]:
    name = "sin" if plunger == "axis" else "tan"
    why = (
        "Sine: the travel lies along the top slide, the long side of the triangle, and the plunger square"
        " to the"
        " axis."
        if plunger == "axis"
        else "Tangent: the plunger is square to the top slide and meets the bar's side on the slant."
    )
    numbers = both_lengths(lambda say: f"{say(travel)} × {name} {angle_words(angle)} = {say(exact)}")
    return [Working(f"reading = travel × {name}(half angle)", numbers, why)]


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    plunger, division = task.choices["setting.plunger"], task.lengths["setting.division"]
    travel, told = _whole(task)
    before = told if was is None else was
    back = arcsine if plunger == "axis" else math.atan
    anew = Anew.after(task, error, back(before / travel))
    number = (sin if plunger == "axis" else tan)(anew.aim) * travel
    now = settable(number.value, division, travel)
    return anew.correction(
        "dial_reading",
        f"New reading, over {words(task, travel)} of top slide",
        number,
        "mm",
        before,
        now,
        f"reading = travel × {'sin' if plunger == 'axis' else 'tan'}(half angle set − error)",
        f"Tap the top slide until the plunger goes {plunger_goes(task)} by {{now}} in place of {{was}},"
        " over the"
        " same travel.",
        angle=anew.cuts(back(now / travel), angle_from(task, now, travel, plunger)),
    )


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order."""
    told, travel = number_of(answer, "setting.dial_whole"), number_of(answer, "setting.travel_whole")
    square = "the lathe's axis" if task.choices["setting.plunger"] == "axis" else "the top slide"
    on = f"the {SIDE[task.cut_side]} of the test bar, at centre height"
    return [
        bar_in_place(),
        swing_step(task, from_above(task)),
        said(
            "indicator",
            indicator_words("in the tool post", "plunger", on, f"square to {square}", "a dial indicator"),
            cautions=("stopped",),
        ),
        said(
            "run",
            f"Wind the top slide {words(task, travel)} towards the {task.small_end}, coming from one"
            " direction"
            f" so that backlash is taken up: the plunger must go {plunger_goes(task)} by"
            f" {words(task, told)}.",
            shows=("setting.dial_whole", "setting.travel_whole"),
        ),
        said("tap", "Tap the top slide and wind again until it does."),
        said(
            "half_round",
            "Rotate the test bar through 180° and wind once more: set the mean of the two.",
        ),
        tighten_step("wind and read once more"),
    ]
