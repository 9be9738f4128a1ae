"""Taper attachment: a guide bar behind the bed leads the tool while the carriage travels.

The guide bar stands at the half angle to the bed. Its scale counts either degrees of half angle or inches per
foot on diameter. With an indicator in the tool post on a parallel test bar, a carriage travel t must change
the reading by

    t tan(half angle) = t × taper / 2

and the end of the guide, G from its pivot along the bed, stands over by G × taper / 2.

Source: F. D. Jones, Turning and Boring (about 1914), taper attachments; machine-tool textbooks.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.doubt.figures import RATE, figure
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, atan, tan
from calc.quantities import shown_rate
from calc.setting.anew import Anew
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
    too_fine,
    whole,
    whole_pair,
    words,
)
from calc.setting.one_dial import bar_and_clamp, slanting
from calc.setting.way import Answer, Correction
from calc.sheet import Working

ID = "attachment"
LABEL = "Taper attachment"
SOURCE = "F. D. Jones, Turning and Boring (about 1914); half angle, or taper per foot on diameter"
STEEPEST_RATE = 3.5 / 12.0
"""Taper on diameter at which attachments usually end: 3 to 3.5 inches per foot in machine-tool textbooks."""
READ_TO = 0.1

ASKS: Sequence[Ask] = (
    Ask(
        "setting.attachment_scale",
        "Attachment's scale counts",
        "choice",
        {"mm": "per_foot", "inch": "per_foot"},
        "Taper is on diameter, degrees are of the half angle.",
        choices=(("per_foot", "taper, on diameter"), ("degrees", "degrees, half angle")),
    ),
    Ask(
        "setting.attachment_by",
        "Set finally by",
        "choice",
        {"mm": "dial", "inch": "dial"},
        "The scale brings it near; a dial along a test bar makes it right.",
        choices=(("dial", "a dial along a test bar"), ("scale", "the scale alone")),
    ),
    TRAVEL,
    DIVISION,
    Ask(
        "setting.guide_length",
        "Guide bar, pivot to end, along the bed",
        "length",
        {},
        "Leave empty where its end is not measured.",
        least=10.0,
        most=2000.0,
    ),
)
FEELS: Sequence[str] = (
    "setting.graduation_give",
    "setting.dial_give",
    "setting.travel_give",
    "setting.plunger_give",
    "setting.play_give",
    "setting.master_give",
    "setting.true_give",
)
IMMUNE = "immune by dial: the test bar stands in the work's place"
CUTS_BY = "carriage"
RESOLUTION = "setting.dial_give"
SNAGS: Sequence[str] = (
    "Play in the guide shoe and the cross-slide's nut shortens the taper at its start: begin each cut well"
    " before it.",
    "Half angle or taper on diameter: look which the scale counts.",
)


def reading(travel: float, half_angle: float) -> float:
    """What a dial square to the axis moves [mm] over a carriage travel [mm]; half angle [rad], below 90°."""
    return travel * math.tan(half_angle)


def refusal(task: Task) -> str:
    """Why an attachment cannot do it: too steep."""
    if 2.0 * math.tan(task.half_angle) > STEEPEST_RATE + 1e-9:
        return (
            "Taper attachments end at about 3.5 inches per foot (1:3.43, half angle 8.3 degrees). Use the"
            " slide."
        )
    return ""


def set_up(task: Task) -> Answer:
    """What the scale reads, what a dial reads over the travel [mm], swing of the guide bar."""
    angle, plan = task.half_angle, from_above(task)
    rate = 2.0 * math.tan(angle)
    travel, division = task.lengths["setting.travel"], task.lengths["setting.division"]
    per_foot = task.choices["setting.attachment_scale"] == "per_foot"
    exact = reading(travel, angle)
    told_travel, told = whole_pair(travel, math.tan(angle), division)
    swung = "" if plan.swing == "none" else f"; guide bar swung {plan.swing}"
    numbers = both_lengths(lambda say: f"{say(travel)} × tan {angle_words(angle)} = {say(exact)}")
    dial = [
        Working("reading = carriage travel × taper / 2", numbers, "Tangent: the travel lies along the bed.")
    ]
    results = [
        figure(
            "setting.attachment",
            f"Set the attachment to, {'taper on diameter' if per_foot else 'half angle'}{swung}",
            rate if per_foot else angle,
            RATE if per_foot else "rad",
            [Working("guide bar at the half angle: taper = 2 × tan(half angle)", _scale_words(rate, angle))],
            SOURCE,
            lead=True,
        ),
        figure("setting.cross_reading", "Dial on a test bar, over the travel", exact, "mm", dial, SOURCE),
        figure("setting.cross_whole", "Round reading near it", told, "mm", dial, SOURCE),
        figure("setting.travel_whole", "Carriage travel for it", told_travel, "mm", dial),
        swing_result(task, plan, "Swing the guide bar, seen from above"),
    ]
    guide = task.lengths.get("setting.guide_length")
    if guide is not None:
        over = reading(guide, angle)
        line = both_lengths(lambda say: f"{say(guide)} × tan {angle_words(angle)} = {say(over)}")
        formula = [Working("end over = length from the pivot × taper / 2", line)]
        results.append(figure("setting.guide_offset", "Guide bar's end over by", over, "mm", formula, SOURCE))
    by_dial = task.choices["setting.attachment_by"] == "dial"
    got = _by_dial(task, told, told_travel) if by_dial else _by_scale(task, angle, per_foot)
    cautions = [STOPPED, PLAY, *(too_fine(told, exact, angle) if by_dial else [])]
    return Answer(results, cautions=cautions, angle=got)


def _scale_words(rate: float, angle: float) -> dict[str, str]:
    both = shown_rate(rate)
    return {system: f"{both[system]}, half angle {angle_words(angle)}" for system in ("mm", "inch")}


def _by_dial(task: Task, told: float, travel: float) -> Estimate:
    """The half angle [rad] from a reading over a carriage travel, with its doubts."""
    quotient = task.doubt("setting.dial_give", told) / task.doubt("setting.travel_give", travel)
    return atan(quotient) + slanting(task, told / travel, "axis") + bar_and_clamp(task)


def _by_scale(task: Task, half_angle: float, per_foot: bool) -> Estimate:
    """The half angle [rad] as the scale holds it; a reading is rounded to what an eye can tell."""
    angle = _off_scale(_on_scale(half_angle, per_foot), per_foot)
    return task.doubt("setting.graduation_give", angle) + task.slope("setting.play_give")


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    by_dial = task.choices["setting.attachment_by"] == "dial"
    return _correct_by_dial(task, error, was) if by_dial else _correct_by_scale(task, error, was)


def _correct_by_dial(task: Task, error: Number, was: float | None) -> Correction:
    division = task.lengths["setting.division"]
    travel, told = whole_pair(task.lengths["setting.travel"], math.tan(task.half_angle), division)
    before = told if was is None else was
    anew = Anew.after(task, error, math.atan(before / travel))
    number = tan(anew.aim) * travel
    now = whole(number.value, division)
    return anew.correction(
        "cross_reading",
        f"New reading, over {words(task, travel)} of the carriage",
        number,
        "mm",
        before,
        now,
        "reading = carriage travel × tan(half angle set − error)",
        "Tap the guide bar until the dial moves {now} in place of {was}, over the same travel.",
        angle=anew.cuts(math.atan(now / travel), _by_dial(task, now, travel)),
    )


def _correct_by_scale(task: Task, error: Number, was: float | None) -> Correction:
    per_foot = task.choices["setting.attachment_scale"] == "per_foot"
    before = _on_scale(task.half_angle, per_foot) if was is None else was
    anew = Anew.after(task, error, _off_scale(before, per_foot))
    number = tan(anew.aim) * 2.0 if per_foot else anew.aim
    now = _on_scale(anew.aim.value, per_foot)
    set_to = _off_scale(now, per_foot)
    return anew.correction(
        "attachment",
        f"Set the attachment now to, {'taper on diameter' if per_foot else 'half angle'}",
        number,
        RATE if per_foot else "rad",
        before,
        now,
        "guide bar at the half angle set − error",
        "Move the guide bar until its scale reads {now} in place of {was}.",
        angle=anew.cuts(set_to, _by_scale(task, set_to, per_foot)),
    )


def _on_scale(angle: float, per_foot: bool) -> float:
    """What the scale is set to for a half angle [rad], as near as an eye can tell: plain, or rad."""
    if per_foot:
        # Divided in eighths of an inch per foot (common practice, no source), read to a tenth of that.
        return whole(2.0 * math.tan(angle), READ_TO * 0.125 / 12.0)
    return whole(angle, math.radians(READ_TO))


def _off_scale(reads: float, per_foot: bool) -> float:
    """The half angle [rad] at which the scale reads so."""
    return math.atan(reads / 2.0) if per_foot else reads


def steps(task: Task, answer: Answer, stack_words: str) -> list[str]:
    """What to do at the lathe, in order."""
    plan = from_above(task)
    told, travel = number_of(answer, "setting.cross_whole"), number_of(answer, "setting.travel_whole")
    rate = 2.0 * math.tan(task.half_angle)
    per_foot = task.choices["setting.attachment_scale"] == "per_foot"
    scale = shown_rate(rate)[task.system] if per_foot else angle_words(task.half_angle)
    rows = [
        "Stop the spindle and isolate it. Clean the guide bar and its shoe and take up their play.",
        f"Swing the guide bar {plan.swing}, seen from above, until its scale reads {scale}; clamp it to the"
        " bed with its middle where the taper's middle will be."
        if plan.swing != "none"
        else "Set the guide bar to nought, along the bed.",
    ]
    if task.choices["setting.attachment_by"] == "dial":
        rows += [
            "Put a parallel test bar where the work will stand, held the same way; an indicator in the tool"
            f" post on its {SIDE[task.cut_side]}, at centre height, its plunger square to the axis.",
            f"Wind the carriage {words(task, travel)} towards the {task.small_end}, coming from one side so"
            f" that no play is left: the plunger must go {plunger_goes(task)} by {words(task, told)}. Tap the"
            " guide bar until it does.",
        ]
    return [
        *rows,
        "Tighten everything and check once more: tightening moves it.",
        "Begin every cut well before the taper, so that the play is taken up when the tool reaches it.",
    ]
