"""Two-collar trial cut: neither sine bar nor master, only a micrometer and a piece that is turned anyway.

Two narrow collars are left standing, their edges towards the large end a distance E apart, and both are cut
in one pass of the top slide. The difference of their diameters at these edges is E × taper; E is chosen so
that the difference is a round amount. Where the difference measured is another, the top slide stands at

    tan(angle cut) = difference / (2 E)

and is turned by what is missing: the tool touches a collar, the top slide is loosened, the cross-slide moved
by a computed amount, and the top slide swung until the tool touches again. Swung about its pivot by d, a tool
tip p ahead of the pivot along the bed and q from it towards the work moves by (p, q) turned by d less (p, q);
the cross-slide makes up for what that leaves between tip and surface. The work itself is the reference. For a
socket the trial is turned outside, on a piece that the same top slide cuts on the same side: its taper is the
same, and a micrometer reaches it.

Source: plane geometry; the trial cut itself is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import replace

from calc.doubt.figures import figure, worded
from calc.doubt.task import Task
from calc.estimate import Number, atan, exact, through
from calc.quantities import shown_length
from calc.setting.anew import STEEPEST as MOST
from calc.setting.collars_asks import ASKS, CUTS_BY, FEELS, IMMUNE, RESOLUTION, SNAGS
from calc.setting.common import (
    SIDE,
    STOP,
    angle_words,
    both_lengths,
    from_above,
    indicator_words,
    number_of,
    said,
    swing_result,
    swing_step,
    swing_words,
    whole,
    words,
)
from calc.setting.way import Answer, Correction
from calc.sheet import Caution, Figure, Step, Working

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

ID = "collars"
LABEL = "Two-collar trial cut"
SOURCE = "Plane geometry: difference of diameters = distance × taper"
STEEPEST = math.radians(45.0)
ROUND = (8.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.0)
TOUCH = "Touch the tool off on the collar that is further from the top slide's pivot."
MOST_DIFFERENCE = 20.0
"""Difference [mm] past which a micrometer of one frame no longer measures both collars."""


def round_amount(most: float, system: str) -> float:
    """The largest round length [mm] not above `most` [mm], above 0; round in mm or in inches."""
    unit = 25.4 if system == "inch" else 1.0
    power = 10.0 ** math.floor(math.log10(most / unit) + 1e-12)
    mantissa = next((each for each in ROUND if each * power * unit <= most * (1.0 + 1e-9)), 0.8)
    return mantissa * power * unit


def chosen(task: Task) -> tuple[float, float]:
    """Distance between the collars' edges and difference of their diameters [mm], exactly."""
    room, rate = task.lengths["setting.collar_room"], 2.0 * math.tan(task.half_angle)
    if room * rate < 1e-6:
        return room, room * rate
    difference = round_amount(min(room * rate, MOST_DIFFERENCE), task.system)
    return difference / rate, difference


def turn_and_move(task: Task, cut: float) -> tuple[float, float]:
    """How far the top slide must turn [rad, anticlockwise seen from above] and the cross-slide move [mm].

    cut: the half angle that the top slide cut [rad]. The move is away from the work where above zero, towards
    it below. By vectors in the plan of calc.setting.plan, the top slide's pivot
    at the origin.
    """
    out = 1.0 if task.cut_side == "far" else -1.0
    now, wanted = from_above(task, cut), from_above(task)
    turn = wanted.slide_angle - now.slide_angle
    # The tip seen from the pivot: ahead is towards the headstock, and the work lies inward of the pivot.
    x, y = -task.lengths["setting.pivot_ahead"], -out * task.lengths["setting.pivot_across"]
    moved_x = x * math.cos(turn) - y * math.sin(turn) - x
    moved_y = x * math.sin(turn) + y * math.cos(turn) - y
    across = math.tan(now.slide_angle) * moved_x - moved_y
    return turn, out * across


def refusal(task: Task) -> str:
    """Why collars cannot do it: too steep."""
    if task.half_angle > STEEPEST + 1e-9:
        return (
            "Past a half angle of 45° two collars are steps rather than a taper. Use the graduated"
            " base and a protractor."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Distance of the collars [mm], difference of their diameters [mm], the correction; up to 45 degrees."""
    plan = from_above(task)
    distance, difference = chosen(task)
    told = whole(distance, task.lengths["setting.division"])
    division = task.lengths["setting.division"]
    step = abs(turn_and_move(task, math.atan(abs(difference - division) / (2.0 * distance)))[1])
    working = _working(distance, difference)
    results = [
        figure(
            "setting.collar_distance",
            f"Collars' edges apart; {swing_words(plan)}",
            distance,
            "mm",
            working,
            SOURCE,
            lead="setting.collar_measured" not in task.lengths,
        ),
        figure(
            "setting.collar_difference", "Their diameters must differ by", difference, "mm", working, SOURCE
        ),
        figure(
            "setting.collar_step",
            "Cross-slide, for each division the difference is out",
            step,
            "mm",
            _move_working(),
            SOURCE,
        ),
        *_corrected(task, told),
        swing_result(task, plan),
    ]
    # Each collar is measured by itself.
    across = task.doubt("setting.collar_give", difference, 1) - task.doubt("setting.collar_give", 0.0, 2)
    across = across + task.doubt("setting.collar_left")
    got = atan(across / (2.0 * task.doubt("setting.travel_give", told)))
    return Answer(results, cautions=_cautions(task, difference, division), angle=got)


def _corrected(task: Task, distance: float) -> list[Figure]:
    """What to change once the difference has been measured."""
    measured = task.lengths.get("setting.collar_measured")
    if measured is None:
        return []
    cut = math.atan(measured / (2.0 * distance))
    turn, move = turn_and_move(task, cut)
    way = _turned(turn)
    return [
        figure(
            "setting.collar_angle",
            "The top slide stood at",
            cut,
            "rad",
            [
                Working(
                    "tan(half angle) = difference / (2 × distance)",
                    both_lengths(
                        lambda say: f"atan({say(measured)} / (2 × {say(distance)})) = {angle_words(cut)}"
                    ),
                )
            ],
            SOURCE,
        ),
        replace(
            figure(
                "setting.collar_move",
                f"Move the cross-slide {_moved(move)}, then swing {way}",
                abs(move),
                "mm",
                _move_working(),
                SOURCE,
                lead=True,
            ),
            shown={each: _by(replace(task, system=each), move) for each in ("mm", "inch")},
        ),
        worded("setting.collar_way", "Which way", f"{_moved(move)}, then swing {way}", (), SOURCE),
    ]


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """How to move the cross-slide and which way to swing, where the half angle cut was off by `error` [rad].

    The number is the move of the cross-slide [mm], away from the work above zero; nothing of it stood before,
    so `was` is not heeded. See `Way.correct`.
    """
    found = exact(error)

    def moved(off: float) -> float:
        return turn_and_move(task, min(max(task.half_angle + off, 0.0), MOST))[1]

    turn, move = turn_and_move(task, min(max(task.half_angle + found.value, 0.0), MOST))
    number, way = through(moved, found), _turned(turn)
    figures = [
        figure(
            "proving.collar_move",
            f"Move the cross-slide {_moved(move)}, then swing {way}",
            abs(move) + (number - number.value),
            "mm",
            _move_working(),
            SOURCE,
            lead=True,
        ),
        worded("proving.collar_way", "Which way", f"{_moved(move)}, then swing {way}", (), SOURCE),
    ]
    by = {each: _by(replace(task, system=each), move) for each in ("mm", "inch")}
    words = {each: f"{TOUCH} {_swung(by[each], move, way)}" for each in ("mm", "inch")}
    left = task.doubt("setting.collar_left") / (2.0 * chosen(task)[0]) * math.cos(task.half_angle) ** 2
    angle = task.half_angle + (found - found.value) + left
    return Correction(number, "mm", 0.0, figures, words, None, angle)


def _moved(move: float) -> str:
    return "away from the work" if move > 0.0 else "towards the work" if move < 0.0 else "not at all"


def _swung(by: str, move: float, way: str) -> str:
    """The move and the swing in a sentence or two; by: how far in words."""
    if move > 0.0:
        turned = (
            f"Loosen the top slide. Move the cross-slide {by} away from the work, and swing the top slide"
            f" {way}"
        )
    else:
        turned = (
            f"Loosen the top slide and swing it {way}, clear of the work; move the cross-slide {by} towards"
            " the"
            " work, and swing the top slide back"
        )
    return f"{turned} until the tool touches again. Tighten."


def _turned(turn: float) -> str:
    return "anticlockwise" if turn > 0.0 else "clockwise" if turn < 0.0 else "not at all"


def _working(distance: float, difference: float) -> list[Working]:
    numbers = both_lengths(lambda say: f"{say(difference)} over {say(distance)}")
    return [
        Working(
            "distance = difference / taper",
            numbers,
            "The difference is chosen round; the distance follows. Measured from edge to like edge.",
        )
    ]


def _move_working() -> list[Working]:
    said = (
        "the tip swings about the top slide's pivot; the cross-slide makes up what that leaves to the surface"
    )
    note = "True movement of the cross-slide: a collar that reads diameter shows twice this."
    return [
        Working(
            "move = tan(angle cut) × tip's way along − tip's way across", {"mm": said, "inch": said}, note
        )
    ]


def _cautions(task: Task, difference: float, division: float) -> list[Caution]:
    rows = [
        Caution(
            "care",
            "Do not take the piece out between cutting and measuring.",
            "Put back it no longer runs the same.",
        ),
        Caution(
            "care",
            "Sharp edges at the large end of each collar, burrs wiped off, and one pass over both.",
            "The micrometer bears on the larger edge; a rounded edge reads small.",
        ),
    ]
    if task.half_angle > 0.0 and difference < 20.0 * division:
        rows.append(
            Caution(
                "care",
                "The difference is small: give the collars more room.",
                "The micrometer's own error counts against it.",
            )
        )
    return rows


def _by(task: Task, move: float) -> str:
    """How far the cross-slide goes, in words: as far as its collar can say it, else by an indicator."""
    division = task.lengths["setting.division"]
    told = shown_length(abs(move), division / 2.0)[task.system]
    if abs(abs(move) - whole(abs(move), division)) < 0.1 * division and abs(move) >= division:
        return words(task, whole(abs(move), division))
    return f"{told} by an indicator"


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order."""
    division = task.lengths["setting.division"]
    apart = whole(number_of(answer, "setting.collar_distance"), division)
    wanted = number_of(answer, "setting.collar_difference")
    told, difference = words(task, apart), words(task, wanted)
    piece = (
        "On a test piece, or on the blank before it comes to size,"
        if task.form == "external"
        else f"On a test piece turned outside, the tool on the {SIDE[task.cut_side]} as for the bore (the"
        " same swing"
        " then cuts the same taper, and a micrometer reaches it),"
    )
    rows = [
        swing_step(task, from_above(task), "tighten it"),
        said(
            "collars",
            f"{piece} leave two narrow collars whose edges towards the large end are {told} apart, and the"
            " one"
            f" towards the {task.small_end} smaller by about {difference}.",
            shows=("setting.collar_distance",),
        ),
        said(
            "trial", "Cut both in one light pass of the top slide: carriage locked, cross-slide not touched."
        ),
        said(
            "measure",
            f"{STOP} Measure both at those edges, without taking the piece out: they must differ by"
            f" {difference}."
            " Enter the measured difference; the correction is then shown.",
            cautions=("stopped", "warm"),
            asks=("setting.collar_measured",),
            shows=("setting.collar_difference",),
        ),
    ]
    again = said("again", "Cut both again and measure again, until the difference is right.")
    measured = task.lengths.get("setting.collar_measured")
    if measured is None:
        step = words(task, number_of(answer, "setting.collar_step"))
        correct_by = (
            f"The correction is about {step} of the cross-slide for each {words(task, division)} that the"
            " difference is out."
        )
        return [*rows, said("correct", correct_by, shows=("setting.collar_move",)), again]
    if abs(measured - wanted) < 0.5 * division:
        return [*rows, said("correct", "The difference is right: leave the top slide as it is.")]
    turn, move = turn_and_move(task, math.atan(measured / (2.0 * apart)))
    by = _by(task, move)
    watched = (
        indicator_words("to the carriage", "stylus", "the cross-slide", "square to the lathe's axis") + " "
        if by.endswith("indicator")
        else ""
    )
    return [
        *rows,
        said(
            "correct",
            f"{STOP} {TOUCH} Use the collar for which the pivot distances were entered. {watched}"
            f"{_swung(by, move, _turned(turn))}",
            cautions=("stopped",),
            shows=("setting.collar_move",),
        ),
        again,
    ]
