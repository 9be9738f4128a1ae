"""A bar on the plate or the angle plate: for checking a plug, or for the mill.

    H = C sin(angle)

C being the distance between the bar's roller centres. A cone that lies on the bar with its side has the
whole included angle between its two sides, so the bar is set to the included angle and its upper side then
lies level; the raised roller is the one under the small end. A cone held by its own axis (on centres that
stand on the bar) needs the half angle only. Past 60 degrees the stack stands against an angle plate's
upright instead and holds the complement: H = C cos(angle).

Source: US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C; Machinery's Handbook, sine bar
and angle plate rules.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.doubt.figures import figure
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, asin, cos, sin
from calc.setting import bar
from calc.setting.anew import Anew, arcsine
from calc.setting.common import angle_words, both_lengths
from calc.setting.way import Answer, Correction, StackWanted
from calc.sheet import Caution, Working

ID = "plate"
LABEL = "Bar on the plate (checking, or the mill)"
SOURCE = "US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C: height = centres × sine"
STEEPEST = math.radians(60.0)
FLATTEST_UPRIGHT = math.radians(30.0)

ASKS: Sequence[Ask] = (
    next(each for each in bar.ASKS if each.id == "setting.bar_centres"),
    Ask(
        "setting.plate_angle",
        "The taper lies",
        "choice",
        {"mm": "included", "inch": "included"},
        "On its side the bar is set to the included angle; by its axis to the half angle.",
        choices=(
            ("included", "with its side on the bar (included angle)"),
            ("half", "by its own axis, between centres on the bar (half angle)"),
        ),
    ),
    Ask(
        "setting.plate_from",
        "Stack stands",
        "choice",
        {"mm": "plate", "inch": "plate"},
        "Steep angles are held by their complement from an angle plate's upright.",
        choices=(("plate", "on the plate"), ("upright", "against the upright of an angle plate")),
    ),
)
FEELS: Sequence[str] = (
    "setting.bar_give",
    "setting.roller_give",
    "setting.edge_give",
    "setting.seating",
    "setting.sweep_give",
)
IMMUNE = "immune: the lathe is not used"
CUTS_BY = ""
RESOLUTION = "setting.sweep_give"
SNAGS: Sequence[str] = (
    "Half or included: a cone on its side needs the included angle, twice what the slide needs.",
    "A cone rolls: stop it with a plate square to the bar and take the highest reading.",
)


def angle_set(task: Task) -> float:
    """The angle the bar is set to [rad]: included or half."""
    return task.half_angle * _times(task)


def _times(task: Task) -> float:
    return 2.0 if task.choices["setting.plate_angle"] == "included" else 1.0


def refusal(task: Task) -> str:
    """Why it cannot be set so: too steep for the plate, too flat for the upright."""
    angle = angle_set(task)
    if task.choices["setting.plate_from"] == "plate" and angle > STEEPEST + 1e-9:
        return (
            f"From the plate a bar cannot hold {angle_words(angle)}: past 60 degrees the height hardly"
            " changes with the angle. Stand the stack against the upright of an angle plate: it then holds"
            " the complement."
        )
    if task.choices["setting.plate_from"] == "upright" and angle < FLATTEST_UPRIGHT - 1e-9:
        return (
            f"Against the upright a bar cannot hold {angle_words(angle)}: below 30 degrees the stack is"
            " nearly as long as the bar and says little of the angle. Stand it on the plate."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Stack height [mm]; valid to 60 degrees from the plate, from 30 degrees against the upright."""
    angle, times = angle_set(task), _times(task)
    upright = task.choices["setting.plate_from"] == "upright"
    centres = task.lengths["setting.bar_centres"]
    bar_length = task.doubt("setting.bar_give", centres)
    rollers = task.doubt("setting.roller_give") / 2.0
    height = bar_length * (math.cos(angle) if upright else math.sin(angle)) + rollers

    def angle_from_height(built: Estimate) -> Estimate:
        held = asin((built - rollers) / bar_length)
        held = math.pi / 2.0 - held if upright else held
        # The sweep along the top and the bar's own face turn what is set, of which the flank is a part.
        turned = task.doubt("setting.edge_give") / centres + task.slope("setting.sweep_give")
        return (held + turned) / times

    raised = "the small end's roller" if task.choices["setting.plate_angle"] == "included" else "one roller"
    results = [
        figure(
            "setting.stack_height",
            f"Stack height, {'upright' if upright else 'under ' + raised}",
            height,
            "mm",
            _working(centres, angle, height.value, upright, times),
            SOURCE,
            lead=True,
        ),
        figure("setting.plate_set", "The bar stands at", angle, "rad", (), SOURCE),
    ]
    stack = StackWanted(height, angle_from_height)
    return Answer(results, stack=stack, cautions=_cautions(angle, upright))


def _working(centres: float, angle: float, height: float, upright: bool, times: float) -> list[Working]:
    name = "cos" if upright else "sin"
    which = "included angle" if times == 2.0 else "half angle"
    numbers = both_lengths(lambda say: f"{say(centres)} × {name} {angle_words(angle)} = {say(height)}")
    why = "The complement, from square." if upright else "Sine: the bar is the long side of the triangle."
    return [Working(f"H = C × {name}({which})", numbers, why)]


def _cautions(angle: float, upright: bool) -> list[Caution]:
    rows = [
        Caution(
            "care",
            "Wipe plate, rollers and every piece; the bar must not rock.",
            "A chip of a few hundredths under one roller is more than the whole error shown here.",
        )
    ]
    if angle > math.radians(45.0) and not upright:
        rows.append(
            Caution(
                "care",
                "Past 45 degrees stand the stack against the upright of an angle plate.",
                "The angle's error grows as 1 / cos of the angle.",
            )
        )
    return rows


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    wanted = set_up(task).stack
    assert wanted is not None
    upright, times = task.choices["setting.plate_from"] == "upright", _times(task)
    centres = task.lengths["setting.bar_centres"]
    built = wanted.height.value if was is None else was
    held = math.pi / 2.0 - arcsine(built / centres) if upright else arcsine(built / centres)
    anew = Anew.after(task, error, held / times)
    height = (cos if upright else sin)(anew.aim * times) * centres
    return anew.correction(
        "stack_height",
        "New stack height",
        height,
        "mm",
        built,
        height.value,
        f"H = C × {'cos' if upright else 'sin'}(angle set − error)",
        "Build a stack of {now} in place of {was}.",
        stack=anew.stack(height, wanted.angle_from_height),
    )


def steps(task: Task, answer: Answer, stack_words: str) -> list[str]:
    """What to do at the plate, in order."""
    upright = task.choices["setting.plate_from"] == "upright"
    included = task.choices["setting.plate_angle"] == "included"
    place = (
        "Stand the bar against the angle plate with the stack between the upright and the far roller:"
        f" {stack_words}."
        if upright
        else f"Put the stack under {'the roller at the small end' if included else 'one roller'}:"
        f" {stack_words}."
    )
    lay = (
        "Lay the taper with its side on the bar, along it, against a stop across the bar, small end over the"
        " stack."
        if included
        else "Stand the centres on the bar, their line parallel to it, the taper between them with its small"
        " end over the stack."
    )
    return [
        "Wipe the plate, the bar's rollers and every piece.",
        place,
        lay,
        "Run an indicator along the top of the taper, over its highest line.",
        "Both ends alike: the angle is right. Large end high: the taper is too steep. On the mill, cut level"
        " now.",
    ]
