"""Set-over (offset) of the tailstock: work between centres stands askew, the carriage cuts along the bed.

    exact:  S = Lw sin(half angle)          usual:  S = Lw tan(half angle) = Lw (D - d) / (2 l)

Lw being the length of the work between the points where it is carried, along the work: it is the long side
of the triangle, so sine is exact; the usual rule is too large by about half the angle squared.

Plain 60 degree centres bear somewhere within their holes, taken at half depth; ball centres carry the work
in the balls' centres, so that Lw is what is measured over both balls less one ball. What is to be parallel is
turned with the tailstock in line; the set-over counts from there, less what the lathe is known to turn then
(`setting.axis_known`).

Source: F. D. Jones, Turning and Boring (about 1914), pages 80 to 83; J. Rose, Modern Machine-Shop Practice.
"""

from __future__ import annotations

import math

from calc.cone import error_on_diameter
from calc.doubt.figures import figure, worded
from calc.doubt.shape import curved
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, asin, sin
from calc.quantities import shown_micrometres
from calc.setting.anew import Anew, arcsine, settable
from calc.setting.common import (
    GEOMETRY,
    LEVER_RUN,
    PLUNGER_RUN,
    STOP,
    about,
    angle_words,
    both_lengths,
    from_above,
    indicator_words,
    number_of,
    read_off,
    said,
    tool_hazards,
    whole,
    words,
)
from calc.setting.known import axis_adds, axis_doubt, known_working, outdone
from calc.setting.set_over_asks import ASKS, CUTS_BY, FEELS, IMMUNE, RESOLUTION, SNAGS
from calc.setting.way import Answer, Correction
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

ID = "set_over"
LABEL = "Set-over (offset) of the tailstock"
SOURCE = "F. D. Jones, Turning and Boring (about 1914), pages 80 to 83: work length × taper / 2; exact: sine"
STEEPEST = math.radians(8.0)
"""Half angle that no pair of centres carries, 7/24 among them: common practice, no source."""
COMFORTABLE = math.radians(4.0)
"""Past this half angle 60° centres hardly bed (common practice, no source)."""
USUAL_SHARE = 1.0 / 50.0
"""Set-over by the work's length up to which it goes well: common practice, no source."""


def exact_set_over(work_length: float, half_angle: float) -> float:
    """Set-over [mm] for the length between bearing points along the work [mm] and the half angle [rad]."""
    return work_length * math.sin(half_angle)


def usual_set_over(work_length: float, half_angle: float) -> float:
    """The usual approximation [mm]: tangent, which is exact for a length along the bed."""
    return work_length * math.tan(half_angle)


def towards(task: Task) -> str:
    """The side the tailstock's centre goes to, "operator" or "far", seen from the line of the bed.

    The surface that is cut is to lie along the bed; the plan is turned back by its own angle, and with it the
    axis, whose tailstock end moves to that side.
    """
    return "operator" if from_above(task).slide_angle > 0.0 else "far"


def between(task: Task) -> float:
    """Length between the points that carry the work, along the work [mm]."""
    over = task.lengths.get("setting.over_balls")
    if task.choices["setting.centres"] == "ball" and over is not None:
        return over - task.lengths["setting.ball"]
    # Two holes, each bearing at half its depth.
    return task.lengths["setting.work_length"] - task.lengths["setting.centre_depth"]


def refusal(task: Task) -> str:
    """Why the tailstock cannot do it: a bore, too steep, too far over, too short, its length not known."""
    if task.form == "internal":
        return (
            "Work between centres cannot be bored: the tailstock's centre fills the end. Use the top slide."
        )
    if task.half_angle > STEEPEST + 1e-9:
        return (
            "Too steep to set over: past a half angle of about 8° the centres no longer carry the work,"
            " however"
            " short it is. Use the top slide."
        )
    ball = task.choices["setting.centres"] == "ball"
    if ball and "setting.over_balls" not in task.lengths:
        return "For ball centres enter the measure over both balls, put into the centre holes."
    if not ball and "setting.work_length" not in task.lengths:
        return (
            "Enter the length of the work between centres, end to end: the set-over grows with it, and"
            " nothing"
            " here says how long it is."
        )
    carried = between(task)
    if carried <= 0.0:
        return "The centre holes leave nothing between them: check the lengths."
    if task.cone.length is not None and carried < task.cone.length - 1e-6:
        return (
            f"The work is shorter between centres, {about(task, carried)}, than the taper is long,"
            f" {words(task, task.cone.length)}."
        )
    if astray := outdone(task, axis_adds(task)):
        return astray
    most = task.lengths.get("setting.set_over_most")
    needed = exact_set_over(carried, task.half_angle + axis_adds(task))
    if most is not None and needed > most + 1e-9:
        longest = most / math.sin(task.half_angle)
        return (
            f"The tailstock would have to go over by {about(task, needed)} and goes {words(task, most)}. Work"
            f" of this taper may be at most {about(task, longest)} between centres; or use the top slide."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Set-over [mm] exact and usual, which way; valid up to a half angle of 8 degrees."""
    carried, known = between(task), axis_adds(task)
    angle = task.half_angle + known if task.half_angle > 0.0 else 0.0
    exact, usual = exact_set_over(carried, angle), usual_set_over(carried, angle)
    told = whole(exact, task.lengths["setting.division"])
    side = towards(task)
    astray = error_on_diameter(angle, math.asin(min(1.0, usual / carried)), task.length)
    working = [*_working(carried, angle, exact, usual, astray), *known_working(known)]
    to = f", towards the {'operator' if side == 'operator' else 'far side'}" if angle > 0.0 else ""
    results = [
        read_off(
            "setting.set_over",
            "Set-over, exact",
            exact,
            task.lengths["setting.division"],
            working,
            SOURCE,
        ),
        # What can be set leads: another number on the card than in the step would be read off for it.
        figure(
            "setting.set_over_whole",
            f"Set the tailstock over{to}",
            told,
            "mm",
            working,
            SOURCE,
            lead=True,
        ),
        figure(
            "setting.set_over_usual",
            "By the usual approximation (length × taper / 2)",
            usual,
            "mm",
            (),
            SOURCE,
        ),
        figure(
            "setting.usual_error",
            "What the approximation would cost, on diameter",
            astray,
            "mm",
            (),
            "Geometry: sine against tangent",
        ),
        worded("setting.towards", "Tailstock goes towards", _side_said(side, angle), (), GEOMETRY),
    ]
    turns = task.lengths["setting.division"] / (carried * math.cos(angle))
    cautions = _cautions(task, carried, exact, astray)
    return Answer(results, cautions=cautions, angle=_angle(task, told, carried), division_turns=turns)


def _side_said(side: str, angle: float) -> str:
    if angle <= 0.0:
        return "neither side"
    return "the operator" if side == "operator" else "the far side"


def _angle(task: Task, told: float, carried: float) -> Estimate:
    """The half angle [rad] that this set-over gives, with its doubts."""
    over = task.doubt("setting.dial_give", told)
    # A stylus off its square reads long, so the tailstock goes over less than it says.
    over = over * curved(math.cos, task.doubts.get("setting.plunger_give", 0.0), "setting.plunger_give")
    length = task.doubt("setting.lengths_give", carried)
    if task.choices["setting.centres"] == "plain":
        # Two holes, each bearing somewhere else by itself.
        for place in (1, 2):
            length = length + task.doubt("setting.centre_give", 0.0, place)
    return asin(over / length) + axis_doubt(task) - axis_adds(task)


def _working(carried: float, angle: float, exact: float, usual: float, astray: float) -> list[Working]:
    sine = both_lengths(lambda say: f"{say(carried)} × sin {angle_words(angle)} = {say(exact)}")
    tangent = both_lengths(lambda say: f"{say(carried)} × tan {angle_words(angle)} = {say(usual)}")
    error = shown_micrometres(astray)
    matters = {
        system: f"{tangent[system]}; on diameter over the taper {error[system]}" for system in ("mm", "inch")
    }
    return [
        Working(
            "S = length between the bearing points × sin(half angle)",
            sine,
            "Sine: the work is the long side of the triangle.",
        ),
        Working(
            "usual: S = length × taper / 2",
            matters,
            "Too large by half the angle squared: nothing at 1°, a quarter of a per cent at 4°.",
        ),
    ]


def _indicator(told: float, where: str, on: str, square: str) -> str:
    """An indicator that runs as far as the set-over goes: a lever-type one does not."""
    if told <= LEVER_RUN:
        return indicator_words(where, "stylus", on, square)
    return indicator_words(where, "plunger", on, square, "a dial indicator")


def _cautions(task: Task, carried: float, exact: float, astray: float) -> list[Caution]:
    rows: list[Caution] = []
    if task.half_angle > COMFORTABLE:
        rows.append(
            Caution(
                "care",
                "Past a half angle of 4° plain centres hardly bed: use ball centres, or the top slide.",
                "Common practice, no source.",
            )
        )
    if exact > USUAL_SHARE * carried:
        rows.append(
            Caution(
                "care",
                "More than a fiftieth of the work's length: look whether the tailstock goes over by"
                f" {about(task, exact)}.",
                "Common practice, no source.",
            )
        )
    if exact > PLUNGER_RUN:
        rows.append(
            Caution(
                "care",
                "This is further than most dial indicators run: use one of long travel, or go over in two"
                " moves and set it to zero anew between them.",
                "Past its run an indicator stops or bends.",
            )
        )
    if astray > 0.001:
        rows.append(
            Caution(
                "note",
                "The usual rule (length × taper / 2) would leave the taper"
                f" {shown_micrometres(astray)[task.system].lstrip('+')} too steep, on diameter.",
                "Tangent for sine.",
            )
        )
    return rows


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    carried, division = between(task), task.lengths["setting.division"]
    known = axis_adds(task)
    before = whole(exact_set_over(carried, task.half_angle + known), division) if was is None else was
    anew = Anew.after(task, error, arcsine(before / carried) - known)
    number = sin(anew.aim + known) * carried
    now = settable(number.value, division, carried)
    return anew.correction(
        "set_over",
        "New set-over",
        number,
        "mm",
        before,
        now,
        "S = length between the bearing points × sin(half angle set − error)",
        f"Set the tailstock over to {{now}} in place of {{was}}, towards"
        f" {_side_said(towards(task), task.half_angle)}.",
        angle=anew.cuts(arcsine(now / carried) - known, _angle(task, now, carried)),
    )


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order; parallel work comes before and after, in line."""
    told = number_of(answer, "setting.set_over_whole")
    if told == 0.0:
        return [said("none", "No set-over: the work turns parallel with the tailstock in line.")]
    to = "the operator" if towards(task) == "operator" else "the far side"
    first = (
        "Put ball centres in."
        if task.choices["setting.centres"] == "ball"
        else "Clean centres and centre holes."
    )
    carriage, square = "to the carriage", "square to the lathe's axis"
    in_line = indicator_words(
        carriage, "stylus", "the side of a test bar between centres, at centre height", square
    )
    return [
        said("centre_both", "Face and centre both ends: the work is carried between centres.", phase="ends"),
        said(
            "in_line",
            f"{STOP} Bring the tailstock in line. {in_line} Wind the carriage: the reading must be the same"
            " at both"
            " ends. A test piece turned parallel says the same.",
            phase="align",
            cautions=("stopped",),
        ),
        said(
            "parallel",
            "With the tailstock in line turn what is to be parallel: rough the blank now; head and spigot"
            " now, or"
            " once the tailstock is back in line. Nothing parallel comes of it while it is set over.",
            phase="rough",
            order=10,
        ),
        said("clean", f"{STOP} {first}", cautions=("stopped",)),
        said(
            "indicator",
            _indicator(told, carriage, "the tailstock's barrel (quill), at centre height", square)
            + " Set it to zero.",
        ),
        said(
            "over",
            f"Loosen the tailstock and set its top over towards {to}: the reading must change by"
            f" {words(task, told)}. Lock it and read again.",
            shows=("setting.set_over_whole", "setting.towards"),
        ),
        said(
            "mount",
            "Put the work between centres, driven by a carrier (dog) whose tail is free in its slot: askew,"
            " it"
            " slides to and fro once a revolution. The top slide is not swung; the carriage cuts.",
            cautions=("carrier", "centre", *tool_hazards(task)),
        ),
        said(
            "same_length",
            "Every piece of a batch must have the same length between its centre holes: another length is"
            " another"
            " taper.",
        ),
        said(
            "back",
            f"The taper done: stop the spindle, isolate it, and move the tailstock back in line. {in_line}"
            " Wind the carriage:"
            " the reading must be the same at both ends; or a light test cut must measure the same at both"
            " ends."
            " Only then turn what is still to be parallel.",
            phase="finish",
            cautions=("stopped",),
            order=40,
        ),
    ]
