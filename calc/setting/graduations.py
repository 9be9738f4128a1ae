"""The graduated base of the slide.

A scale that counts from the lathe's axis reads the half angle; one that counts from square across the bed
reads 90 degrees less the half angle.

Source: F. D. Jones, Turning and Boring (about 1914), pages 95 to 97: 45 stays 45, any other angle needs its
complement on a scale that is nought across the bed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.cone import error_on_diameter
from calc.doubt.asks import Ask
from calc.doubt.figures import figure
from calc.doubt.task import Task
from calc.estimate import Estimate, Number
from calc.setting.anew import Anew
from calc.setting.common import (
    STOPPED,
    angle_words,
    both_lengths,
    from_above,
    number_of,
    swing_result,
    swing_words,
    whole,
)
from calc.setting.plan import PlanView
from calc.setting.way import Answer, Correction
from calc.sheet import Caution, Working

ID = "graduations"
LABEL = "Graduated base"
SOURCE = "F. D. Jones, Turning and Boring (about 1914), pages 95 to 97"
RIGHT_ANGLE = math.pi / 2.0
READ_TO = 0.1
"""Part of a division that an eye can still tell: common practice, no source."""

ASKS: Sequence[Ask] = (
    Ask(
        "setting.zero",
        "Scale reads nought with the slide",
        "choice",
        {"mm": "axis", "inch": "axis"},
        "Wind the slide to its nought and look which way it lies.",
        choices=(("axis", "along the axis"), ("across", "square across the bed")),
    ),
    Ask(
        "setting.degree_division",
        "One division",
        "angle",
        {"mm": "1°", "inch": "1°"},
        "With a vernier, what the vernier reads.",
        least=math.radians(1.0 / 3600.0),
        most=math.radians(10.0),
    ),
)
FEELS: Sequence[str] = ("setting.graduation_give", "setting.axis_give", "setting.play_give")
IMMUNE = ""
CUTS_BY = "slide"
RESOLUTION = ""
SNAGS: Sequence[str] = (
    "Good enough for chamfers and centres, not for a taper that must fit: swing by it, then prove.",
    "The scale may be bent round a small base: nought itself may be out.",
)


def reading(half_angle: float, zero: str) -> float:
    """What the scale shows [rad], nought along the "axis" or "across"; half angle [rad] from 0 to 90°."""
    return half_angle if zero == "axis" else RIGHT_ANGLE - half_angle


def turn_from_across(plan: PlanView) -> float:
    """From square across, handle to the operator, how far the slide turns [rad], the handle going right.

    The handle then points to the tailstock: a quarter turn and the slide's own angle, so past 90 degrees
    where the slide is swung anticlockwise.
    """
    return RIGHT_ANGLE + plan.slide_angle


def refusal(task: Task) -> str:
    """A graduated base can be turned to any angle."""
    return ""


def set_up(task: Task) -> Answer:
    """Reading [rad], what it is rounded to, what a division is worth [mm on diameter]."""
    angle, plan = task.half_angle, from_above(task)
    zero, division = task.choices["setting.zero"], task.lengths["setting.degree_division"]
    exact = reading(angle, zero)
    told = whole(exact, READ_TO * division)
    worth = error_on_diameter(angle, min(angle + division, math.radians(89.0)), task.length)
    numbers = {"mm": angle_words(exact), "inch": angle_words(exact)}
    formula = "reading = half angle" if zero == "axis" else "reading = 90° − half angle"
    note = "The half angle, not the included one."
    results = [
        figure(
            "setting.degrees",
            f"Set the scale to; {swing_words(plan)}",
            exact,
            "rad",
            [Working(formula, numbers, note)],
            SOURCE,
            lead=True,
        ),
        figure("setting.degrees_whole", "As near as the eye reads it", told, "rad"),
        figure(
            "setting.division_worth",
            "One division more, on diameter",
            worth,
            "mm",
            [
                Working(
                    "2 × length × (tan(half angle + 1 division) − tan(half angle))",
                    both_lengths(lambda say: f"over {say(task.length)}: {say(worth)}"),
                )
            ],
            "Geometry",
        ),
        swing_result(task, plan),
    ]
    return Answer(results, cautions=_cautions(exact), angle=_gets(task, told, zero))


def _cautions(exact: float) -> list[Caution]:
    rows = [
        STOPPED,
        Caution(
            "care",
            "A division holds the angle to some minutes at best: take a trial cut and prove it before size.",
            "On a taper of 100 mm a tenth of a degree is about 0.35 mm on diameter.",
        ),
    ]
    if exact > math.radians(60.0):
        rows.append(
            Caution(
                "note",
                "Many scales end at 45 or 60 degrees: then count from the other nought.",
                "The complement is told from square to the first nought.",
            )
        )
    return rows


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    zero, division = task.choices["setting.zero"], task.lengths["setting.degree_division"]
    before = whole(reading(task.half_angle, zero), READ_TO * division) if was is None else was
    anew = Anew.after(task, error, reading(before, zero))
    number = anew.aim if zero == "axis" else RIGHT_ANGLE - anew.aim
    now = whole(number.value, READ_TO * division)
    return anew.correction(
        "degrees",
        "Set the scale now to",
        number,
        "rad",
        before,
        now,
        "reading = half angle set − error" if zero == "axis" else "reading = 90° − (half angle set − error)",
        "Loosen the slide and swing it until the scale reads {now} in place of {was}.",
        angle=anew.cuts(reading(now, zero), _gets(task, now, zero)),
    )


def _gets(task: Task, told: float, zero: str) -> Estimate:
    """The half angle [rad] that this reading of the scale [rad] gives, with its doubts."""
    got = task.doubt("setting.graduation_give", reading(told, zero))
    return got + task.slope("setting.axis_give") / 2.0 + task.slope("setting.play_give")


def steps(task: Task, answer: Answer, stack_words: str) -> list[str]:
    """What to do at the lathe, in order."""
    plan = from_above(task)
    told = angle_words(number_of(answer, "setting.degrees_whole"))
    if task.choices["setting.zero"] == "axis":
        swing = (
            "Leave the slide at its nought, along the axis."
            if plan.swing == "none"
            else f"Loosen the slide and swing it {plan.swing}, seen from above, until the scale reads {told}."
        )
    else:
        turn = turn_from_across(plan)
        past = " That is past its 90, so the scale counts back." if turn > RIGHT_ANGLE + 1e-12 else ""
        swing = (
            "Loosen the slide; from square across, handle towards the operator, turn the handle towards the"
            f" tailstock until the scale reads {told}: {angle_words(turn)} in all.{past}"
        )
    return [
        "Stop the spindle and isolate it. Check the nought: wind the slide along a test bar or a square.",
        swing,
        "Tighten, and read once more: tightening moves it.",
        "Take a trial cut, prove the taper, and correct before it comes to size.",
    ]
