"""Trial collars: neither bar nor spare arbor, only a micrometer and a piece that is being turned anyway.

Two narrow collars are left standing, their edges towards the large end a distance E apart, and both are cut
in one pass of the slide. The difference of their diameters at these edges is E × taper; E is chosen so that
the difference is a round amount. Where the difference measured is another, the slide stands at

    tan(angle cut) = difference / (2 E)

and is turned by what is missing: the tool touches a collar, the slide is loosened, the cross-slide moved by
a computed amount, and the slide swung until the tool touches again. Swung about its pivot by d, a tool tip
p ahead of the pivot along the bed and q from it towards the work moves by (p, q) turned by d less (p, q); the
cross-slide makes up for what that leaves between tip and flank. The work itself is the reference.

Source: plane geometry; the trial cut itself is common practice, no source.
"""

from __future__ import annotations

import math

from calc.doubt.figures import figure, worded
from calc.doubt.task import Task
from calc.estimate import Number, atan, exact, through
from calc.setting.anew import STEEPEST as MOST
from calc.setting.collars_asks import ASKS, CUTS_BY, FEELS, IMMUNE, RESOLUTION, SNAGS
from calc.setting.common import (
    STOPPED,
    angle_words,
    both_lengths,
    from_above,
    number_of,
    swing_result,
    swing_step,
    swing_words,
    whole,
    words,
)
from calc.setting.way import Answer, Correction
from calc.sheet import Caution, Figure, Working

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
LABEL = "Trial collars"
SOURCE = "Plane geometry: difference of diameters = distance × taper"
STEEPEST = math.radians(45.0)
ROUND = (8.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.0)
TOUCH = "Bring the tool up until it just touches the collar that is further from the slide's pivot."
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
    """How far the slide must turn [rad, anticlockwise seen from above] and the cross-slide move [mm].

    cut: the half angle that the slide cut [rad]. The move is away from the work where above zero, towards it
    below. By vectors in the plan of calc.setting.plan, the slide's pivot at the origin.
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
            "Past a half angle of 45 degrees two collars are steps rather than a taper. Use the graduated"
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
            "The slide stood at",
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
        figure(
            "setting.collar_move",
            f"Move the cross-slide {_moved(move)}, then swing {way}",
            abs(move),
            "mm",
            _move_working(),
            SOURCE,
            lead=True,
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
    by = both_lengths(lambda say: say(abs(move)))
    words = {each: f"{TOUCH} {_swung(by[each], move, way)}" for each in ("mm", "inch")}
    left = task.doubt("setting.collar_left") / (2.0 * chosen(task)[0]) * math.cos(task.half_angle) ** 2
    angle = task.half_angle + (found - found.value) + left
    return Correction(number, "mm", 0.0, figures, words, None, angle)


def _moved(move: float) -> str:
    return "away from the work" if move > 0.0 else "towards the work" if move < 0.0 else "not at all"


def _swung(by: str, move: float, way: str) -> str:
    """The move and the swing in a sentence or two; by: how far in words."""
    if move > 0.0:
        turned = f"Loosen the slide. Move the cross-slide {by} away from the work, and swing the slide {way}"
    else:
        turned = (
            f"Loosen the slide and swing it {way}, clear of the work; move the cross-slide {by} towards the"
            " work, and swing the slide back"
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
    said = "the tip swings about the slide's pivot; the cross-slide makes up what that leaves to the flank"
    note = "True movement of the cross-slide: a dial that reads diameter shows twice this."
    return [
        Working(
            "move = tan(angle cut) × tip's way along − tip's way across", {"mm": said, "inch": said}, note
        )
    ]


def _cautions(task: Task, difference: float, division: float) -> list[Caution]:
    rows = [
        STOPPED,
        Caution(
            "care",
            "Do not take the piece out between cutting and measuring; measure with the spindle stopped.",
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


def steps(task: Task, answer: Answer, stack_words: str) -> list[str]:
    """What to do at the lathe, in order."""
    division = task.lengths["setting.division"]
    apart = whole(number_of(answer, "setting.collar_distance"), division)
    wanted = number_of(answer, "setting.collar_difference")
    told, difference = words(task, apart), words(task, wanted)
    step = words(task, number_of(answer, "setting.collar_step"))
    rows = [
        swing_step(task, from_above(task)).replace("leave it just free enough to tap", "tighten it"),
        "On a test piece, or on the blank before it comes to size, leave two narrow collars whose edges"
        f" towards the large end are {told} apart, and the one towards the {task.small_end} smaller by about"
        f" {difference}.",
        "Cut both in one light pass of the slide: carriage locked, cross-slide not touched.",
        "Stop the spindle and measure both at those edges, without taking the piece out: they must differ by"
        f" {difference}.",
    ]
    measured = task.lengths.get("setting.collar_measured")
    if measured is None:
        return [
            *rows,
            f"Enter the difference measured to be told the correction; it is about {step} of cross-slide for"
            f" each {words(task, division)} that the difference is out.",
            "Correct, cut both again and measure again, until the difference is right.",
        ]
    if abs(measured - wanted) < 0.5 * division:
        return [*rows, "The difference is right: leave the slide as it is."]
    turn, move = turn_and_move(task, math.atan(measured / (2.0 * apart)))
    by, way = words(task, abs(move)), _turned(turn)
    return [
        *rows,
        f"{TOUCH} It must be the collar the pivot's distances are told for.",
        _swung(by, move, way),
        "Cut both again and measure again, until the difference is right.",
    ]
