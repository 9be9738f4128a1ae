"""Two dials: one reads how far, the other how far across; any travel will do.

Along the slide: a dial in the tool post bears on a test bar in the work's place, its plunger square to the
axis; a second dial reads the travel along the slide itself. Across over travel is sin(half angle).

Along the axis: the same, the second dial reading how far the slide goes lengthwise. Across over travel is
tan(half angle).

By the carriage: the slide stands still, a fixed dial bears square to the axis on the slide's side and the
carriage is moved past it, a second dial or the handwheel reading the travel. Across over travel is
tan(half angle) again, but the slide's side and the bed are then the references.

Source: plane geometry.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.doubt.figures import figure
from calc.doubt.shape import curved
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, asin, atan, sin, tan, twin
from calc.setting.anew import Anew, arcsine, settable
from calc.setting.common import (
    DIVISION,
    PLAY,
    SIDE,
    STOPPED,
    TRAVEL,
    angle_words,
    both_lengths,
    from_above,
    number_of,
    plunger_goes,
    swing_result,
    swing_step,
    swing_words,
    too_fine,
    whole_pair,
    words,
)
from calc.setting.one_dial import bar_and_clamp
from calc.setting.way import Answer, Correction
from calc.sheet import Working

ID = "two_dials"
LABEL = "Two dials, along and across"
SOURCE = "Plane geometry: across over along"
STEEPEST = math.radians(60.0)

ALONG = Ask(
    "setting.travel_along",
    "Travel is read along",
    "choice",
    {"mm": "slide", "inch": "slide"},
    "Along the slide the ratio is the sine, along the lathe or by the carriage the tangent.",
    choices=(
        ("slide", "the slide (sine)"),
        ("axis", "the lathe's axis, by the slide (tangent)"),
        ("carriage", "the bed, by the carriage (tangent)"),
    ),
)
ASKS: Sequence[Ask] = (TRAVEL, ALONG, DIVISION)
FEELS: Sequence[str] = (
    "setting.dial_give",
    "setting.plunger_give",
    "setting.play_give",
    "setting.master_give",
    "setting.true_give",
    "setting.side_give",
    "setting.axis_give",
)
IMMUNE = ""
CUTS_BY = "slide"
RESOLUTION = "setting.dial_give"
SNAGS: Sequence[str] = (
    "Two dials must both be square to what they read; one out of square reads long.",
    "The second dial needs a firm foot that does not move with the slide.",
)


def ratio(half_angle: float, along: str) -> float:
    """Cross reading for each unit of travel, plain; along: "slide", "axis" or "carriage"."""
    return math.sin(half_angle) if along == "slide" else math.tan(half_angle)


def refusal(task: Task) -> str:
    """Why two dials cannot do it: too steep."""
    if task.half_angle > STEEPEST + 1e-9:
        return (
            "Past a half angle of 60 degrees the cross reading outruns the dial. Use the graduated base, or"
            " set the complement."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Cross reading for the travel [mm], the ratio for any travel, swing; valid up to 60 degrees."""
    angle, plan = task.half_angle, from_above(task)
    travel, division = task.lengths["setting.travel"], task.lengths["setting.division"]
    along = task.choices["setting.travel_along"]
    each_unit = ratio(angle, along)
    exact = travel * each_unit
    told_travel, told = whole_pair(travel, each_unit, division)
    working = _working(travel, angle, exact, along)
    by = "carriage" if along == "carriage" else "slide"
    results = [
        figure(
            "setting.cross_reading",
            f"Dial across, over {words(task, travel)} of {by}; {swing_words(plan)}",
            exact,
            "mm",
            working,
            SOURCE,
            lead=True,
        ),
        figure("setting.cross_whole", "Round reading near it", told, "mm", working, SOURCE),
        figure("setting.travel_whole", "Travel for the round reading", told_travel, "mm", working),
        figure(
            "setting.cross_ratio",
            "Across for each 1 of travel, whatever the travel",
            each_unit,
            "1",
            working,
            SOURCE,
        ),
        swing_result(task, plan),
    ]
    snags = (
        ["By the carriage the bed and the slide's side are the references: both errors come in."]
        if along == "carriage"
        else ["The test bar in the work's place is the reference: the bed does not matter."]
    )
    cautions = [STOPPED, PLAY, *too_fine(told, exact, angle)]
    return Answer(results, cautions=cautions, angle=angle_from(task, told, told_travel, along), snags=snags)


def angle_from(task: Task, told: float, travel: float, along: str) -> Estimate:
    """The half angle [rad] that a cross reading [mm] over a travel [mm] gives, with its doubts."""
    # Two indicators of a kind, each out by itself and each askew by itself.
    across = _read(task, told, 1)
    quotient = across / _read(task, travel, 2)
    got = asin(quotient) if along == "slide" else atan(quotient)
    if along == "carriage":
        side = task.slope("setting.side_give") + task.slope("setting.play_give")
        return got + side + task.slope("setting.axis_give") / 2.0
    return got + bar_and_clamp(task)


def _read(task: Task, reading: float, place: int) -> Estimate:
    """What an indicator was really moved by [mm]: askew, it goes 1 / cosine as far."""
    half_width = task.doubts.get("setting.plunger_give", 0.0)
    askew = curved(math.cos, half_width, twin("setting.plunger_give", place))
    return task.doubt("setting.dial_give", reading, place) * askew


def _working(travel: float, angle: float, exact: float, along: str) -> list[Working]:
    name = "sin" if along == "slide" else "tan"
    numbers = both_lengths(lambda say: f"{say(travel)} × {name} {angle_words(angle)} = {say(exact)}")
    why = (
        "Sine: the travel lies along the slide."
        if along == "slide"
        else "Tangent: the travel lies along the lathe."
    )
    return [Working(f"across = travel × {name}(half angle)", numbers, why)]


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    along, division = task.choices["setting.travel_along"], task.lengths["setting.division"]
    travel, told = whole_pair(task.lengths["setting.travel"], ratio(task.half_angle, along), division)
    before = told if was is None else was
    back = arcsine if along == "slide" else math.atan
    anew = Anew.after(task, error, back(before / travel))
    number = (sin if along == "slide" else tan)(anew.aim) * travel
    now = settable(number.value, division, travel)
    return anew.correction(
        "cross_reading",
        f"New reading across, over {words(task, travel)}",
        number,
        "mm",
        before,
        now,
        f"across = travel × {'sin' if along == 'slide' else 'tan'}(half angle set − error)",
        "Tap the slide until the dial across moves {now} in place of {was}, over the same travel.",
        angle=anew.cuts(back(now / travel), angle_from(task, now, travel, along)),
    )


def steps(task: Task, answer: Answer, stack_words: str) -> list[str]:
    """What to do at the lathe, in order."""
    told, travel = number_of(answer, "setting.cross_whole"), number_of(answer, "setting.travel_whole")
    ratio_said = f"{number_of(answer, 'setting.cross_ratio'):.5f}"
    any_travel = f"Any other travel does as well: across must be {ratio_said} of it."
    swing = swing_step(task, from_above(task))
    if task.choices["setting.travel_along"] == "carriage":
        return [
            "Stop the spindle and isolate it.",
            swing,
            "Fix an indicator to the bed or the headstock, its plunger square to the axis, its point on the"
            f" slide's side on the {SIDE[task.cut_side]}, clean and free of burrs. A second one reads the"
            " carriage's travel.",
            f"Move the carriage {words(task, travel)}: the indicator across must move {words(task, told)}.",
            any_travel,
            "Tap the slide and move the carriage again until it does; tighten, and check once more.",
        ]
    second = (
        "along the slide, against its end"
        if task.choices["setting.travel_along"] == "slide"
        else "along the lathe, against a flat face square to the axis on the tool post"
    )
    return [
        "Stop the spindle and isolate it. Put a parallel test bar where the work will stand, held the same"
        " way.",
        swing,
        f"Put an indicator in the tool post, on the {SIDE[task.cut_side]} of the bar, its point at centre"
        " height and its plunger square to the lathe's axis.",
        f"Fix a second indicator to the carriage, its plunger {second}.",
        f"Wind the slide towards the {task.small_end} until the second one has moved {words(task, travel)}:"
        f" the first one's plunger must go {plunger_goes(task)} by {words(task, told)}.",
        any_travel,
        "Tap the slide and wind again until it does; tighten, and check once more.",
    ]
