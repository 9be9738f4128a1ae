"""A sine bar on the surface plate or an angle plate: for checking a plug, or for the mill.

    H = C sin(angle)

C being the distance between the sine bar's roller centres. A cone that lies on the bar has the whole included
angle between its lowest and its highest line, so the bar is set to the included angle and the highest line
then lies level; the raised roller is the one under the small end. A cone held by its own axis (on centres
that stand on the bar) needs the half angle only. Past 60 degrees the stack stands against an angle plate's
upright instead and holds 90° − angle: H = C cos(angle). A working face that is known to stand further from
the rollers at the raised one leans by so much more than they do (`setting.edge_known`).

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
from calc.setting import bar_asks
from calc.setting.anew import Anew, arcsine
from calc.setting.common import CHIP, angle_words, both_lengths, indicator_words, run, said
from calc.setting.known import edge_leans, known_working
from calc.setting.way import Answer, Correction, StackWanted
from calc.sheet import Caution, Step, Working

ID = "plate"
LABEL = "Sine bar on the surface plate (checking, or the mill)"
SOURCE = "US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C: height = centres × sine"
STEEPEST = math.radians(60.0)
FLATTEST_UPRIGHT = math.radians(30.0)

ASKS: Sequence[Ask] = (
    next(each for each in bar_asks.ASKS if each.id == "setting.bar_centres"),
    Ask(
        "setting.plate_angle",
        "The taper lies",
        "choice",
        {"mm": "included", "inch": "included"},
        "Laid on the sine bar it needs the included angle; held by its axis the half angle.",
        choices=(
            ("included", "on the sine bar itself (included angle)"),
            ("half", "by its own axis, between centres on the sine bar (half angle)"),
        ),
    ),
    Ask(
        "setting.plate_from",
        "Stack stands",
        "choice",
        {"mm": "plate", "inch": "plate"},
        "Steep angles are held by 90° − angle from an angle plate's upright.",
        choices=(("plate", "on the surface plate"), ("upright", "against the upright of an angle plate")),
    ),
)
FEELS: Sequence[str] = (
    "setting.bar_give",
    "setting.roller_give",
    "setting.edge_give",
    "setting.seating",
    "setting.sweep_give",
)
IMMUNE = "not affected: the lathe is not used"
CUTS_BY = ""
RESOLUTION = "setting.sweep_give"
SNAGS: Sequence[str] = (
    "Half or included: a cone laid on the bar needs the included angle, twice what the top slide needs.",
    "A cone rolls: stop it with a plate square to the bar and take the highest reading.",
)


def angle_set(task: Task) -> float:
    """The angle the bar is set to [rad]: included or half."""
    return task.half_angle * _times(task)


def _times(task: Task) -> float:
    return 2.0 if task.choices["setting.plate_angle"] == "included" else 1.0


def refusal(task: Task) -> str:
    """Why it cannot be set so: too steep for the plate, too shallow for the upright."""
    angle = angle_set(task)
    if task.choices["setting.plate_from"] == "plate" and angle > STEEPEST + 1e-9:
        return (
            f"From the surface plate a sine bar cannot hold {angle_words(angle)}: past 60° the height hardly"
            " changes with the angle. Stand the stack against the upright of an angle plate: it then holds"
            " 90° − angle."
        )
    if task.choices["setting.plate_from"] == "upright" and angle < FLATTEST_UPRIGHT - 1e-9:
        return (
            f"Against the upright a sine bar cannot hold {angle_words(angle)}: below 30° the stack is"
            " nearly as long as it is itself and says little of the angle. Stand it on the surface plate."
        )
    return ""


def set_up(task: Task) -> Answer:
    """Stack height [mm]; valid to 60 degrees from the plate, from 30 degrees against the upright."""
    angle, times, leans = angle_set(task), _times(task), edge_leans(task)
    upright = task.choices["setting.plate_from"] == "upright"
    centres = task.lengths["setting.bar_centres"]
    bar_length = task.doubt("setting.bar_give", centres)
    rollers = task.doubt("setting.roller_give") / 2.0
    line = angle - leans
    height = bar_length * (math.cos(line) if upright else math.sin(line)) + rollers

    def angle_from_height(built: Estimate) -> Estimate:
        held = asin((built - rollers) / bar_length)
        held = math.pi / 2.0 - held if upright else held
        # The run along the top and the working face turn what is set, of which the taper is a part.
        turned = task.doubt("setting.edge_give") / centres + task.slope("setting.sweep_give")
        return (held + leans + turned) / times

    results = [
        figure(
            "setting.stack_height",
            f"Stack height, {'upright' if upright else 'under the roller at the small end'}",
            height,
            "mm",
            [*_working(centres, line, height.value, upright, times), *known_working(-leans)],
            SOURCE,
            lead=True,
        ),
        figure("setting.plate_set", "Sine bar stands at", angle, "rad", (), SOURCE),
    ]
    stack = StackWanted(height, angle_from_height)
    return Answer(results, stack=stack, cautions=_cautions(angle, upright, task.system))


def _working(centres: float, angle: float, height: float, upright: bool, times: float) -> list[Working]:
    name = "cos" if upright else "sin"
    which = "included angle" if times == 2.0 else "half angle"
    numbers = both_lengths(lambda say: f"{say(centres)} × {name} {angle_words(angle)} = {say(height)}")
    why = "90° − angle, from square." if upright else "Sine: the sine bar is the long side of the triangle."
    return [Working(f"H = C × {name}({which})", numbers, why)]


def _cautions(angle: float, upright: bool, system: str) -> list[Caution]:
    rows = [
        Caution(
            "care",
            "Wipe surface plate, rollers and every piece; the sine bar must not rock.",
            f"A chip of {CHIP[system]} under one roller is more than the whole error shown here.",
        )
    ]
    if angle > math.radians(45.0) and not upright:
        rows.append(
            Caution(
                "care",
                "Past 45° stand the stack against the upright of an angle plate.",
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
    leans = edge_leans(task)
    anew = Anew.after(task, error, (held + leans) / times)
    height = (cos if upright else sin)(anew.aim * times - leans) * centres
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


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the surface plate, in order."""
    upright = task.choices["setting.plate_from"] == "upright"
    included = task.choices["setting.plate_angle"] == "included"
    taper = "the taper" if task.form == "external" else "the plug that the socket is to fit"
    place = (
        f"Stand the sine bar against the angle plate, the stack between the upright and the far roller:"
        f" {stack_words}"
        if upright
        else f"Put the stack under the roller that comes below the small end: {stack_words}"
    )
    lay = (
        f"Lay {taper} along the sine bar, against a stop across it, small end over the stack. It rolls: hold"
        " it by the stop."
        if included
        else f"Stand the centres on the sine bar, their line parallel to it, {taper} between them with its"
        " small end over the stack."
    )
    far = run(task, task.lengths.get("setting.sweep_length", task.length))
    return [
        said("clean", "Wipe the surface plate, the sine bar's rollers and every piece."),
        said("stack", place, shows=("setting.stack", "setting.stack_height")),
        said("lay", lay),
        said(
            "indicator",
            indicator_words(
                "to a stand that slides on the surface plate",
                "stylus",
                "the highest line of the taper",
                "square to the surface plate",
            ),
        ),
        said(
            "sweep",
            f"Slide the stand so that the stylus runs along {far} of that line: the reading must be the same"
            " at both ends. Large end high: the taper is too steep; small end high: too shallow. On the mill,"
            " cut level now.",
        ),
    ]
