"""The graduated base of the top slide.

A scale that counts from the lathe's axis reads the half angle; one that counts from square across the bed
reads 90 degrees less the half angle.

Source: F. D. Jones, Turning and Boring (about 1914), pages 95 to 97: 45 stays 45, any other angle needs its
complement on a scale that reads zero across the bed. What the lathe is known
to turn (`setting.axis_known`) is taken off: the scale counts from the bed, not from the axis.
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
    STOP,
    about,
    angle_words,
    both_lengths,
    from_above,
    indicator_words,
    number_of,
    said,
    swing_result,
    swing_words,
    tighten_step,
    tool_hazards,
    turned_words,
    whole,
)
from calc.setting.known import axis_adds, axis_doubt, known_working, outdone
from calc.setting.plan import PlanView
from calc.setting.way import Answer, Correction
from calc.sheet import Caution, Step, Working

ID = "graduations"
LABEL = "Graduated base (degree scale)"
SOURCE = "F. D. Jones, Turning and Boring (about 1914), pages 95 to 97"
RIGHT_ANGLE = math.pi / 2.0
READ_TO = 0.1
"""Part of a division that an eye can still tell: common practice, no source."""

ASKS: Sequence[Ask] = (
    Ask(
        "setting.zero",
        "Degree scale reads zero with the top slide",
        "choice",
        {"mm": "axis", "inch": "axis"},
        "Swing the top slide to zero and look which way it lies.",
        choices=(("axis", "along the axis"), ("across", "square across the bed")),
    ),
    Ask(
        "setting.degree_division",
        "One division of the degree scale",
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
    "The scale is cut round a small base: zero itself may be out.",
)


def reading(half_angle: float, zero: str) -> float:
    """What the scale shows [rad], zero along the "axis" or "across"; half angle [rad] from 0 to 90°."""
    return half_angle if zero == "axis" else RIGHT_ANGLE - half_angle


def turn_from_across(plan: PlanView) -> float:
    """From square across, handle to the operator, how far the top slide turns [rad], the handle going right.

    The handle then points to the tailstock: a quarter turn and the top slide's own angle, so past 90 degrees
    where it is swung anticlockwise.
    """
    return RIGHT_ANGLE + plan.slide_angle


def refusal(task: Task) -> str:
    """A graduated base can be turned to any angle; known errors may outdo it."""
    return outdone(task, axis_adds(task))


def set_up(task: Task) -> Answer:
    """Reading [rad], what it is rounded to, what a division is worth [mm on diameter]."""
    angle, plan, known = task.half_angle, from_above(task), axis_adds(task)
    zero, division = task.choices["setting.zero"], task.lengths["setting.degree_division"]
    exact = reading(angle + known, zero)
    told = whole(exact, READ_TO * division)
    worth = error_on_diameter(angle, min(angle + division, math.radians(89.0)), task.length)
    numbers = {"mm": angle_words(exact), "inch": angle_words(exact)}
    formula = "reading = half angle" if zero == "axis" else "reading = 90° − half angle"
    note = "The half angle, not the included one."
    results = [
        figure(
            "setting.degrees",
            f"Set the degree scale to; {swing_words(plan)}",
            exact,
            "rad",
            [Working(formula, numbers, note), *known_working(known)],
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
    return Answer(results, cautions=_cautions(task, exact), angle=_gets(task, told, zero))


def _cautions(task: Task, exact: float) -> list[Caution]:
    tenth = error_on_diameter(task.half_angle, min(task.half_angle + math.radians(0.1), 1.55), task.length)
    rows = [
        Caution(
            "care",
            "A division holds the angle to some minutes at best: take a trial cut and prove it before size.",
            f"0.1° is about {about(task, tenth)} on diameter over this taper's length.",
        ),
    ]
    if exact > math.radians(60.0):
        rows.append(
            Caution(
                "note",
                "Many degree scales end at 45° or 60°: then count from the other zero.",
                "90° − reading counts from square to the first zero.",
            )
        )
    return rows


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    zero, division = task.choices["setting.zero"], task.lengths["setting.degree_division"]
    known = axis_adds(task)
    before = whole(reading(task.half_angle + known, zero), READ_TO * division) if was is None else was
    anew = Anew.after(task, error, reading(before, zero) - known)
    number = anew.aim + known if zero == "axis" else RIGHT_ANGLE - (anew.aim + known)
    now = whole(number.value, READ_TO * division)
    return anew.correction(
        "degrees",
        "Set the degree scale now to",
        number,
        "rad",
        before,
        now,
        "reading = half angle set − error" if zero == "axis" else "reading = 90° − (half angle set − error)",
        "Loosen the top slide and swing it until the degree scale reads {now} in place of {was}.",
        angle=anew.cuts(reading(now, zero) - known, _gets(task, now, zero)),
    )


def _gets(task: Task, told: float, zero: str) -> Estimate:
    """The half angle [rad] that this reading of the scale [rad] gives, with its doubts."""
    got = task.doubt("setting.graduation_give", reading(told, zero))
    turned = axis_doubt(task) + task.slope("setting.play_give")
    return got + turned - axis_adds(task)


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order."""
    plan = from_above(task)
    told = angle_words(number_of(answer, "setting.degrees_whole"))
    if task.choices["setting.zero"] == "axis":
        on, square = (
            "the operator's side of a test bar in the spindle, at centre height",
            "square to the lathe's axis",
        )
        swing = (
            "Leave the top slide (compound) at its zero, along the axis."
            if plan.swing == "none"
            else f"Loosen the top slide (compound) and swing it {turned_words(plan.swing)}, seen from above,"
            f" until the degree scale reads {told}."
        )
    else:
        on, square = "the face of the faceplate", "along the lathe's axis"
        past = (
            " That is past its 90, where the scale counts back."
            if turn_from_across(plan) > RIGHT_ANGLE + 1e-12
            else ""
        )
        swing = (
            "Loosen the top slide (compound); from square across, handle towards the operator, swing the"
            " handle"
            f" towards the tailstock until the degree scale reads {told}.{past}"
        )
    return [
        said(
            "zero",
            f"{STOP} Check the zero: set the degree scale to it."
            f" {indicator_words('in the tool post', 'stylus', on, square)} Wind the top slide: the reading"
            " must"
            " be the same at both ends.",
            cautions=("stopped",),
        ),
        said("swing", swing, cautions=tool_hazards(task), shows=("setting.degrees_whole", "setting.swing")),
        tighten_step("read once more"),
        said(
            "trial",
            "Take a trial cut, prove the taper, and correct before it comes to size.",
            phase="cut",
            order=10,
        ),
    ]
