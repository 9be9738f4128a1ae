"""Indicating a master: a plug gauge or a known good arbor stands in the work's place, the top slide runs
along it.

With the indicator at centre height the reading stays the same when the top slide is parallel to the master's
side. Where the top slide is to stand otherwise (a hair steep, or a master of another taper), the reading must
change over a travel t along the top slide, its plunger square to the axis, by

    t sin(half angle - master's half angle) / cos(master's half angle)

The master's axis is the work's axis, so the bed does not matter.

Off centre height by h a cone is cut along a hyperbola, whose side is steeper than the cone's: between radii
R and r the indicator finds (sqrt(R² - h²) - sqrt(r² - h²)) / L for (R - r) / L.

Source: F. D. Jones, Turning and Boring (about 1914), taper turning; the rest is plane geometry.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from calc.doubt.asks import Ask
from calc.doubt.figures import figure, worded
from calc.doubt.shape import curved
from calc.doubt.task import CUSTOMARY_LENGTH, Task
from calc.estimate import Estimate, Number, sin
from calc.setting.anew import Anew, arcsine, settable
from calc.setting.common import (
    DIVISION,
    GEOMETRY,
    SIDE,
    STOP,
    about,
    both_lengths,
    from_above,
    indicator_words,
    number_of,
    run,
    said,
    swing_result,
    swing_step,
    swing_words,
    tighten_step,
    whole,
    words,
)
from calc.setting.plan import ENDS, SIDES, plan_view
from calc.setting.way import Answer, Correction
from calc.sheet import Caution, Step, Working

ID = "master"
LABEL = "Along a master: plug gauge or known good arbor"
SOURCE = "F. D. Jones, Turning and Boring (about 1914), taper turning; plane geometry"
MOST_DRIFT = 1.0
"""Reading [mm] past which a master of another taper is no help."""

ASKS: Sequence[Ask] = (
    Ask(
        "setting.master_lies",
        "Master's small end towards",
        "choice",
        {"mm": "tailstock", "inch": "tailstock"},
        "How the master stands in the lathe: it decides along which of its sides the indicator runs.",
        choices=(("tailstock", "tailstock"), ("headstock", "headstock")),
    ),
    Ask(
        "setting.master_held",
        "Master stands",
        "choice",
        {"mm": "centres", "inch": "centres"},
        "As the work will stand: then it has the work's own axis.",
        choices=(("centres", "between centres"), ("spindle", "in the spindle or a chuck")),
    ),
    Ask(
        "setting.master_rate",
        "Master's taper, on diameter, if another",
        "rate",
        {},
        "Leave empty where the master has the taper that is wanted.",
        most=3.5,
    ),
    replace(DIVISION, default={"mm": "0.002 mm", "inch": "0.0001 in"}),
)
FEELS: Sequence[str] = (
    "setting.sweep_give",
    "setting.master_give",
    "setting.true_give",
    "setting.dial_height_give",
    "setting.play_give",
)
IMMUNE = "not affected: the master stands on the work's own axis"
CUTS_BY = "slide"
RESOLUTION = ""
SNAGS: Sequence[str] = (
    "A worn or bruised master hands its error on.",
    "The indicator must be at centre height, or the cone's side is a curve.",
)


def drift(travel: float, half_angle: float, master: float) -> float:
    """What the indicator moves in [mm] over a travel [mm] towards the small end; angles [rad] below 90°."""
    return travel * math.sin(half_angle - master) / math.cos(master)


def sweep_side(task: Task) -> str:
    """Which side of the master runs parallel to the surface that is to be cut: "operator" or "far".

    Of the master's two sides one leans as that surface does; which follows from the vectors of the plan.
    """
    wanted = from_above(task).surface_direction
    angle = max(task.half_angle, 1e-6)

    def apart(side: str) -> float:
        lies = plan_view(angle, task.choices["setting.master_lies"], side, "operator", CUSTOMARY_LENGTH)
        across = wanted[0] * lies.surface_direction[1] - wanted[1] * lies.surface_direction[0]
        return abs(across)

    return min((task.cut_side, *SIDES), key=apart)


def refusal(task: Task) -> str:
    """Why this master is no help: of a quite other taper."""
    other = abs(drift(_travel(task), task.half_angle, _master_angle(task)))
    if other > MOST_DRIFT + 1e-9:
        return (
            f"This master's taper is too far from the one wanted: over {words(task, _travel(task))} the"
            f" indicator would move {about(task, other)}. Use one indicator along a parallel test bar."
        )
    return ""


def set_up(task: Task) -> Answer:
    """The reading that shows the angle: still, or the change that is to be seen [mm]."""
    plan, travel, master = from_above(task), _travel(task), _master_angle(task)
    exact = drift(travel, task.half_angle, master)
    told = whole(exact, task.lengths["setting.division"])
    side = sweep_side(task)
    working = _working(travel, exact)
    results = [
        figure(
            "setting.dial_reading",
            _lead(task, travel, exact, swing_words(plan)),
            exact,
            "mm",
            working,
            SOURCE,
            lead=True,
        ),
        figure("setting.dial_whole", "Reading to set (rounded)", told, "mm", working, SOURCE),
        worded(
            "setting.sweep_side",
            "Indicator runs along the master's",
            SIDE[side],
            _side_working(task),
            GEOMETRY,
        ),
        swing_result(task, plan),
    ]
    cautions: list[Caution] = []
    if task.choices["setting.master_held"] == "spindle":
        cautions.append(
            Caution(
                "care",
                "Cut the work held the same way: in the spindle the tailstock plays no part, between centres"
                " it does.",
                "A master between centres has another axis than work in a chuck.",
            )
        )
    turns = task.lengths["setting.division"] * math.cos(master) / travel
    angle = _angle(task, told, travel, master)
    return Answer(results, cautions=cautions, angle=angle, division_turns=turns)


def _lead(task: Task, travel: float, exact: float, swung: str) -> str:
    far = run(task, travel)
    if abs(exact) < 1e-9:
        return f"Indicator must read the same over the whole {far}; {swung}"
    return f"Indicator must move {'in' if exact > 0.0 else 'out'}, over {far}; {swung}"


def _travel(task: Task) -> float:
    return task.lengths.get("setting.sweep_length", 80.0)


def _master_angle(task: Task) -> float:
    """The master's half angle [rad]: that of the taper wanted, without the aim, where none is told."""
    rate = task.lengths.get("setting.master_rate")
    return task.cone.half_angle if rate is None else math.atan(rate / 2.0)


def _angle(task: Task, told: float, travel: float, master: float) -> Estimate:
    """The half angle [rad] the slide then has, with its doubts."""
    cosine = math.cos(master)
    off = math.asin(told * cosine / travel)
    swept = task.slope("setting.sweep_give") * (cosine / math.cos(off))
    # The master's error is told on diameter; its angle moves by cos² of it.
    itself = task.slope("setting.master_give") * (0.5 * cosine**2)
    turned = task.slope("setting.true_give") + task.slope("setting.play_give")
    return master + off + swept + itself + turned + _off_centre(task, master)


def _off_centre(task: Task, master: float) -> Estimate:
    """What an indicator off centre height adds to the angle it finds [rad], exactly."""
    large, small = task.cone.large_diameter, task.cone.small_diameter
    half_width = task.doubts.get("setting.dial_height_give", 0.0)
    if large is None or small is None or not large > small > 0.0 or half_width <= 0.0:
        return Estimate(0.0)
    big, thin = 0.5 * large, 0.5 * small
    half_width = min(half_width, 0.9 * thin)

    def seems_steeper(height: float) -> float:
        run = (big - thin) / math.tan(master) if master > 0.0 else 1.0
        side = math.sqrt(big**2 - height**2) - math.sqrt(thin**2 - height**2)
        return math.atan2(side, run) - master

    if master <= 0.0:
        return Estimate(0.0)
    return curved(seems_steeper, half_width, "setting.dial_height_give")


def _working(travel: float, exact: float) -> list[Working]:
    numbers = both_lengths(lambda say: f"over {say(travel)} it moves {say(exact)}")
    why = "The same where the master has the very angle; else the stylus goes in towards the small end."
    return [
        Working(
            "movement = travel × sin(half angle − master's half angle) / cos(master's half angle)",
            numbers,
            why,
        )
    ]


def _side_working(task: Task) -> list[Working]:
    lies = task.choices["setting.master_lies"]
    if lies not in ENDS:
        return []
    said = (
        f"The work's small end points to the {task.small_end}, the master's to the {lies}: of the master's"
        " two sides this one leans as the surface that is cut."
    )
    return [Working("The side indicated is parallel to the surface that is cut", {"mm": said, "inch": said})]


def correct(task: Task, error: Number, was: float | None = None) -> Correction:
    """What to set instead, where the half angle cut was off by `error` [rad]; see `Way.correct`."""
    travel, master, division = _travel(task), _master_angle(task), task.lengths["setting.division"]
    before = whole(drift(travel, task.half_angle, master), division) if was is None else was
    anew = Anew.after(task, error, _shows(before, travel, master))
    number = sin(anew.aim - master) * (travel / math.cos(master))
    now = settable(number.value, division, travel)
    return anew.correction(
        "dial_reading",
        f"Indicator must move now, over {run(task, travel)}",
        number,
        "mm",
        before,
        now,
        "movement = travel × sin(half angle set − error − master's half angle) / cos(master's half angle)",
        "Tap the top slide until the stylus moves {now}, in where above zero and out where below, wound"
        " towards the"
        " master's small end; it moved {was}.",
        angle=anew.cuts(_shows(now, travel, master), _angle(task, now, travel, master)),
    )


def _shows(moved: float, travel: float, master: float) -> float:
    """The half angle [rad] that this movement [mm] of the indicator shows: the inverse of `drift`."""
    return master + arcsine(moved * math.cos(master) / travel)


def steps(task: Task, answer: Answer, stack_words: str) -> list[Step]:
    """What to do at the lathe, in order."""
    told, far = number_of(answer, "setting.dial_whole"), run(task, _travel(task))
    held = {"centres": "between centres", "spindle": "in the spindle"}[task.choices["setting.master_held"]]
    lies = task.choices["setting.master_lies"]
    way = "in" if told > 0.0 else "out"
    goal = (
        f"the stylus must go {way} by {words(task, abs(told))}"
        if told
        else "the reading must be the same at both ends"
    )
    on = f"the {SIDE[sweep_side(task)]} of the master, exactly at centre height"
    return [
        said(
            "master",
            f"{STOP} Wipe the master and put it {held}, small end towards the {lies}.",
            cautions=("stopped",),
        ),
        swing_step(task, from_above(task)),
        said("indicator", indicator_words("in the tool post", "stylus", on, "square to the lathe's axis")),
        said(
            "sweep",
            f"Wind the top slide so that the stylus runs along {far} of the master, towards its small end:"
            f" {goal}."
            " Tap the top slide until it does.",
            shows=("setting.dial_whole", "setting.sweep_side"),
        ),
        said("half_round", "Rotate the master through 180° and run along it again: set the mean of the two."),
        tighten_step("run along it once more"),
        said("away", "Take the master away."),
    ]
