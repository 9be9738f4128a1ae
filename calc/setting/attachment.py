"""Taper turning attachment: a guide bar behind the bed leads the tool while the carriage travels.

The guide bar stands at the half angle to the bed. Its scale counts either degrees of half angle or inches per
foot on diameter. With an indicator in the tool post on a parallel test bar, a carriage travel t must change
the reading by

    t tan(half angle) = t × taper / 2

and the end of the guide bar, G from its pivot along the bed, stands over by G × taper / 2. Set by its scale
it counts from the bed, so what the lathe is known to turn (`setting.axis_known`) is taken off; set by an
indicator on a test bar the axis itself is the reference.

Source: F. D. Jones, Turning and Boring (about 1914), taper attachments; machine-tool textbooks.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from calc.doubt.asks import Ask
from calc.doubt.figures import RATE, figure
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, atan, tan
from calc.quantities import shown_rate
from calc.setting.anew import Anew
from calc.setting.common import (
    BACKLASH,
    COLLAR,
    DIVISION,
    SIDE,
    STOP,
    TRAVEL,
    angle_words,
    both_lengths,
    far_run,
    from_above,
    indicator_words,
    number_of,
    plunger_goes,
    read_off,
    said,
    swing_result,
    tighten_step,
    too_fine,
    tool_hazards,
    turned_words,
    whole,
    whole_pair,
    words,
)
from calc.setting.known import axis_adds, axis_doubt, known_working, outdone
from calc.setting.one_dial import bar_and_clamp, slanting
from calc.setting.way import Answer, Correction
from calc.sheet import Both, Step, Working, same

ID = "attachment"
LABEL = "Taper turning attachment"
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
        "Inches per foot are on diameter, degrees are of the half angle.",
        choices=(("per_foot", "taper per foot, on diameter"), ("degrees", "degrees, half angle")),
    ),
    Ask(
        "setting.attachment_by",
        "Set finally by",
        "choice",
        {"mm": "dial", "inch": "dial"},
        "The scale brings it near; an indicator along a test bar makes it right.",
        choices=(("dial", "an indicator along a test bar"), ("scale", "the scale alone")),
    ),
    TRAVEL,
    DIVISION,
    COLLAR,
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
    "setting.axis_give",
)
IMMUNE = ""
CUTS_BY = "carriage"
RESOLUTION = "setting.dial_give"
SNAGS: Sequence[str] = (
    "Play in the sliding block and the cross-slide's nut shortens the taper at its start: begin each cut well"
    " before it.",
    "Half angle or taper on diameter: look which the scale counts.",
)


def reading(travel: float, half_angle: float) -> float:
    """What an indicator square to the axis moves [mm] over a carriage travel [mm]; half angle [rad], below
    90°."""
    return travel * math.tan(half_angle)


def refusal(task: Task) -> str:
    """Why an attachment cannot do it: too steep."""
    if 2.0 * math.tan(task.half_angle) > STEEPEST_RATE + 1e-9:
        return (
            "Taper turning attachments end at about 3.5 inches per foot (1:3.43, half angle 8.3°). Use the"
            " top"
            " slide."
        )
    by_scale = task.choices.get("setting.attachment_by") == "scale"
    return outdone(task, axis_adds(task)) if by_scale else ""


def set_up(task: Task) -> Answer:
    """What the scale reads, what an indicator reads over the travel [mm], swing of the guide bar."""
    angle, plan = task.half_angle, from_above(task)
    by_dial = task.choices["setting.attachment_by"] == "dial"
    per_foot = task.choices["setting.attachment_scale"] == "per_foot"
    known = 0.0 if by_dial else axis_adds(task)
    on_bed = max(angle + known, 0.0)
    rate = 2.0 * math.tan(on_bed)
    set_to = _on_scale(on_bed, per_foot)
    travel = task.lengths["setting.travel"]
    exact = reading(travel, angle)
    told_travel, told = _whole_dial(task)
    swung = "" if plan.swing == "none" else f"; guide bar swung {turned_words(plan.swing)}"
    numbers = both_lengths(lambda say: f"{say(travel)} × tan {angle_words(angle)} = {say(exact)}")
    dial = [
        Working("reading = carriage travel × taper / 2", numbers, "Tangent: the travel lies along the bed.")
    ]
    unit = RATE if per_foot else "rad"
    formula = "guide bar at the half angle: taper = 2 × tan(half angle)"
    scale = [Working(formula, _scale_words(rate, on_bed)), *known_working(known)]
    results = [
        figure(
            "setting.attachment",
            f"Set the attachment to, {'taper on diameter' if per_foot else 'half angle'}{swung}",
            rate if per_foot else on_bed,
            unit,
            scale,
            SOURCE,
            lead=True,
        ),
        replace(
            figure("setting.attachment_whole", "As near as its scale is read", set_to, unit, scale, SOURCE),
            shown=scale_reads(set_to, per_foot),
        ),
        read_off(
            "setting.cross_reading",
            "Indicator on a test bar, over the travel",
            exact,
            task.lengths["setting.division"],
            dial,
            SOURCE,
        ),
        figure("setting.cross_whole", "Reading to set (rounded)", told, "mm", dial, SOURCE),
        figure("setting.travel_whole", "Carriage travel to match", told_travel, "mm", dial),
        swing_result(task, plan, "Swing the guide bar, seen from above"),
    ]
    guide = task.lengths.get("setting.guide_length")
    if guide is not None:
        over = reading(guide, on_bed)
        line = both_lengths(lambda say: f"{say(guide)} × tan {angle_words(on_bed)} = {say(over)}")
        formula = "end over = length from the pivot × taper / 2"
        results.append(
            figure(
                "setting.guide_offset",
                "Guide bar's end over by",
                over,
                "mm",
                [Working(formula, line)],
                SOURCE,
            )
        )
    if by_dial:
        got = _by_dial(task, told, told_travel)
        turns = task.lengths["setting.division"] / told_travel * math.cos(angle) ** 2
        cautions = [BACKLASH, *far_run(exact), *too_fine(told, exact, angle)]
    else:
        got = _by_scale(task, set_to, per_foot)
        turns = _off_scale(set_to + _division(per_foot), per_foot) - _off_scale(set_to, per_foot)
        cautions = []
    return Answer(results, cautions=cautions, angle=got, division_turns=turns)


def _whole_dial(task: Task) -> tuple[float, float]:
    """Carriage travel and reading [mm] on divisions of collar and indicator."""
    lengths = task.lengths
    collar = lengths.get("setting.collar_division")
    return whole_pair(
        lengths["setting.travel"], math.tan(task.half_angle), lengths["setting.division"], collar
    )


def _scale_words(rate: float, angle: float) -> Both:
    both = shown_rate(rate)
    return {system: f"{both[system]}, half angle {angle_words(angle)}" for system in ("mm", "inch")}


def scale_reads(value: float, per_foot: bool) -> Both:
    """What the attachment's scale reads: inches per foot whatever the system, or degrees."""
    if not per_foot:
        return same(f"{math.degrees(value):.1f}°")
    inches = f"{12.0 * value:.4f} in/ft"
    return {"mm": inches if not value else f"{inches} (1:{1.0 / value:.2f})", "inch": inches}


def _by_dial(task: Task, told: float, travel: float) -> Estimate:
    """The half angle [rad] from a reading over a carriage travel, with its doubts."""
    quotient = task.doubt("setting.dial_give", told) / task.doubt("setting.travel_give", travel)
    return atan(quotient) + slanting(task, told / travel, "axis") + bar_and_clamp(task)


def _by_scale(task: Task, reads: float, per_foot: bool) -> Estimate:
    """The half angle [rad] where the scale reads so [plain, or rad], with its doubts."""
    angle = task.doubt("setting.graduation_give", _off_scale(reads, per_foot))
    turned = task.slope("setting.play_give") + axis_doubt(task)
    return angle + turned - axis_adds(task)


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    by_dial = task.choices["setting.attachment_by"] == "dial"
    return _correct_by_dial(task, error, was) if by_dial else _correct_by_scale(task, error, was)


def _correct_by_dial(task: Task, error: Number, was: float | None) -> Correction:
    division = task.lengths["setting.division"]
    travel, told = _whole_dial(task)
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
        "Tap the guide bar until the indicator moves {now} in place of {was}, over the same travel.",
        angle=anew.cuts(math.atan(now / travel), _by_dial(task, now, travel)),
    )


def _correct_by_scale(task: Task, error: Number, was: float | None) -> Correction:
    per_foot, known = task.choices["setting.attachment_scale"] == "per_foot", axis_adds(task)
    before = _on_scale(max(task.half_angle + known, 0.0), per_foot) if was is None else was
    anew = Anew.after(task, error, _off_scale(before, per_foot) - known)
    number = tan(anew.aim + known) * 2.0 if per_foot else anew.aim + known
    now = _on_scale(max(anew.aim.value + known, 0.0), per_foot)
    set_to = _off_scale(now, per_foot) - known
    return anew.correction(
        "attachment",
        f"Set the attachment now to, {'taper on diameter' if per_foot else 'half angle'}",
        number,
        RATE if per_foot else "rad",
        before,
        now,
        "guide bar at the half angle set − error",
        "Move the guide bar until its scale reads {now} in place of {was}.",
        angle=anew.cuts(set_to, _by_scale(task, now, per_foot)),
    )


def _on_scale(angle: float, per_foot: bool) -> float:
    """What the scale is set to for a half angle [rad], as near as an eye can tell: plain, or rad."""
    return whole(2.0 * math.tan(angle) if per_foot else angle, READ_TO * _division(per_foot))


def _division(per_foot: bool) -> float:
    """One division of the scale [plain, or rad]: an eighth of an inch per foot, or a degree.

    Common practice, no source.
    """
    return 0.125 / 12.0 if per_foot else math.radians(1.0)


def _off_scale(reads: float, per_foot: bool) -> float:
    """The half angle [rad] at which the scale reads so."""
    return math.atan(reads / 2.0) if per_foot else reads


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order."""
    plan = from_above(task)
    told, travel = number_of(answer, "setting.cross_whole"), number_of(answer, "setting.travel_whole")
    per_foot = task.choices["setting.attachment_scale"] == "per_foot"
    reads = scale_reads(number_of(answer, "setting.attachment_whole"), per_foot)[task.system]
    near = (
        f"Swing the guide bar {turned_words(plan.swing)}, seen from above, until its scale reads {reads};"
        " clamp it"
        " to the bed with its middle where the taper's middle will be."
        if plan.swing != "none"
        else "Set the guide bar to zero, along the bed."
    )
    rows = [
        said(
            "clean",
            f"{STOP} Clean the guide bar and its sliding block and take up their play.",
            cautions=("stopped",),
        ),
        said("guide", near, cautions=tool_hazards(task), shows=("setting.attachment_whole", "setting.swing")),
        said(
            "nut",
            "On a plain attachment free the cross-slide from its screw (its nut released) and swing the top"
            " slide"
            " square across the bed: it now feeds the depth of cut. A telescopic one keeps its cross-slide.",
        ),
    ]
    if task.choices["setting.attachment_by"] == "dial":
        on = f"the {SIDE[task.cut_side]} of the test bar, at centre height"
        rows += [
            said("test_bar", "Put a parallel test bar where the work will stand, held the same way."),
            said(
                "indicator",
                indicator_words(
                    "in the tool post", "plunger", on, "square to the lathe's axis", "a dial indicator"
                ),
                cautions=("stopped",),
            ),
            said(
                "run",
                f"Wind the carriage {words(task, travel)} towards the {task.small_end}, coming from one"
                " direction"
                f" so that backlash is taken up: the plunger must go {plunger_goes(task)} by"
                f" {words(task, told)}."
                " Tap the guide bar until it does.",
                shows=("setting.cross_whole", "setting.travel_whole"),
            ),
        ]
    return [
        *rows,
        tighten_step("check once more"),
        said(
            "begin",
            "Begin every cut well before the taper, so that play is taken up when the tool reaches it.",
            phase="cut",
            order=10,
        ),
    ]
