"""Two indicators: one reads how far, the other how far across; any travel will do.

Along the top slide: an indicator in the tool post bears on a test bar in the work's place, its plunger square
to the axis; a second one reads the travel along the top slide itself. Across over travel is sin(half angle).

Along the axis: the same, the second one reading how far the top slide goes lengthwise. Across over travel is
tan(half angle).

By the carriage: the top slide stands still, an indicator fixed to bed or headstock bears square to the axis
on its side and the carriage takes it past, a second one reading the travel. Across over travel is
tan(half angle) again, but the top slide's side and the bed are then the references: what is known of them
(`calc.setting.known`) is taken off the reading.

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
    BACKLASH,
    DIVISION,
    SIDE,
    STOP,
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
    said,
    swing_result,
    swing_step,
    swing_words,
    tighten_step,
    too_fine,
    whole_pair,
    words,
)
from calc.setting.known import axis_adds, axis_doubt, known_working, outdone, side_adds, side_doubt
from calc.setting.one_dial import bar_and_clamp
from calc.setting.way import Answer, Correction
from calc.sheet import Step, Working

ID = "two_dials"
LABEL = "Two indicators, along and across"
SOURCE = "Plane geometry: across over along"
STEEPEST = math.radians(60.0)

ALONG = Ask(
    "setting.travel_along",
    "Travel is read along",
    "choice",
    {"mm": "slide", "inch": "slide"},
    "Along the top slide the ratio is the sine, along the lathe or by the carriage the tangent.",
    choices=(
        ("slide", "the top slide (sine)"),
        ("axis", "the lathe's axis, by the top slide (tangent)"),
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
    "Two indicators must both be square to what they read; one out of square reads long.",
    "The second one needs a firm foot that does not move with the top slide.",
)


def ratio(half_angle: float, along: str) -> float:
    """Cross reading for each unit of travel, plain; along: "slide", "axis" or "carriage"."""
    return math.sin(half_angle) if along == "slide" else math.tan(half_angle)


def refusal(task: Task) -> str:
    """Why two indicators cannot do it: too steep, or known errors that outdo the angle."""
    if task.half_angle > STEEPEST + 1e-9:
        return (
            "Past a half angle of 60° the reading across outruns the indicator. Use the graduated base, or"
            " set 90° − angle from square."
        )
    return outdone(task, _known(task))


def set_up(task: Task) -> Answer:
    """Cross reading for the travel [mm], the ratio for any travel, swing; valid up to 60 degrees."""
    plan, known = from_above(task), _known(task)
    angle = task.half_angle + known
    travel, division = task.lengths["setting.travel"], task.lengths["setting.division"]
    along = task.choices["setting.travel_along"]
    each_unit = ratio(angle, along)
    exact = travel * each_unit
    told_travel, told = whole_pair(travel, each_unit, division)
    working = [*_working(travel, angle, exact, along), *known_working(known)]
    by = "carriage" if along == "carriage" else "top slide"
    results = [
        read_off(
            "setting.cross_reading",
            f"Indicator across, over {words(task, travel)} of {by}; {swing_words(plan)}",
            exact,
            division,
            working,
            SOURCE,
            lead=True,
        ),
        figure("setting.cross_whole", "Reading to set (rounded)", told, "mm", working, SOURCE),
        figure("setting.travel_whole", "Travel to match", told_travel, "mm", working),
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
        ["By the carriage the bed and the top slide's side are the references: both errors come in."]
        if along == "carriage"
        else ["The test bar in the work's place is the reference: the bed does not matter."]
    )
    cautions = [BACKLASH, *far_run(max(exact, told_travel)), *too_fine(told, exact, angle)]
    turns = division / told_travel * (1.0 / math.cos(angle) if along == "slide" else math.cos(angle) ** 2)
    got = angle_from(task, told, told_travel, along)
    return Answer(results, cautions=cautions, angle=got, snags=snags, division_turns=turns)


def _known(task: Task) -> float:
    """What is known to be out of bed and top slide, by the carriage [rad]; the test bar knows of neither."""
    if task.choices.get("setting.travel_along") != "carriage":
        return 0.0
    return axis_adds(task) + side_adds(task, task.cut_side)


def angle_from(task: Task, told: float, travel: float, along: str) -> Estimate:
    """The half angle [rad] that a cross reading [mm] over a travel [mm] gives, with its doubts."""
    # Two indicators of a kind, each out by itself and each askew by itself.
    across = _read(task, told, 1)
    quotient = across / _read(task, travel, 2)
    got = asin(quotient) if along == "slide" else atan(quotient)
    if along == "carriage":
        side = side_doubt(task, task.cut_side) + task.slope("setting.play_give")
        return got + side + axis_doubt(task) - _known(task)
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
        "Sine: the travel lies along the top slide."
        if along == "slide"
        else "Tangent: the travel lies along the lathe."
    )
    return [Working(f"across = travel × {name}(half angle)", numbers, why)]


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    along, division = task.choices["setting.travel_along"], task.lengths["setting.division"]
    known = _known(task)
    travel, told = whole_pair(task.lengths["setting.travel"], ratio(task.half_angle + known, along), division)
    before = told if was is None else was
    back = arcsine if along == "slide" else math.atan
    anew = Anew.after(task, error, back(before / travel) - known)
    number = (sin if along == "slide" else tan)(anew.aim + known) * travel
    now = settable(number.value, division, travel)
    return anew.correction(
        "cross_reading",
        f"New reading across, over {words(task, travel)}",
        number,
        "mm",
        before,
        now,
        f"across = travel × {'sin' if along == 'slide' else 'tan'}(half angle set − error)",
        "Tap the top slide until the indicator across moves {now} in place of {was}, over the same travel.",
        angle=anew.cuts(back(now / travel) - known, angle_from(task, now, travel, along)),
    )


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order."""
    told, travel = number_of(answer, "setting.cross_whole"), number_of(answer, "setting.travel_whole")
    ratio_said = f"{number_of(answer, 'setting.cross_ratio'):.5f}"
    any_travel = said("ratio", f"Any other travel does as well: across must be {ratio_said} of it.")
    swing = swing_step(task, from_above(task))
    shows = ("setting.cross_whole", "setting.travel_whole")
    must = f"must go {plunger_goes(task)} by {words(task, told)}"
    one, other = "a dial indicator", "a second dial indicator"
    if task.choices["setting.travel_along"] == "carriage":
        on = f"the {SIDE[task.cut_side]} of the top slide itself, clean and free of burrs"
        return [
            said("stop", STOP, cautions=("stopped",)),
            swing,
            said(
                "indicator",
                indicator_words("to the bed or headstock", "plunger", on, "square to the lathe's axis", one),
            ),
            said("along", indicator_words("to the bed", "plunger", "the carriage", "along the bed", other)),
            said(
                "run",
                f"Wind the carriage {words(task, travel)} towards the {task.small_end}: the first one's"
                " plunger"
                f" {must}.",
                shows=shows,
            ),
            any_travel,
            said("tap", "Tap the top slide and wind the carriage again until it does."),
            tighten_step("check once more"),
        ]
    by_slide = task.choices["setting.travel_along"] == "slide"
    second = (
        indicator_words(
            "to the cross-slide", "plunger", "the end of the top slide", "along the top slide", other
        )
        if by_slide
        else indicator_words(
            "to the cross-slide",
            "plunger",
            "a flat face on the tool post, set square to the lathe's axis",
            "along the lathe's axis",
            other,
        )
    )
    on = f"the {SIDE[task.cut_side]} of the test bar, at centre height"
    return [
        bar_in_place(),
        swing,
        said(
            "indicator",
            indicator_words("in the tool post", "plunger", on, "square to the lathe's axis", one),
            cautions=("stopped",),
        ),
        said("along", second),
        said(
            "run",
            f"Wind the top slide towards the {task.small_end} until the second one has moved"
            f" {words(task, travel)}: the first one's plunger {must}.",
            shows=shows,
        ),
        any_travel,
        said("tap", "Tap the top slide and wind again until it does."),
        tighten_step("check once more"),
    ]
