"""An indicator run along the taper: on a sine bar, between centres, or on the lathe.

Laid on a sine bar that is set to the included angle the top of the taper lies level. A run of n over l, above
0 where the large end is high, is the error of the included angle:

    error of the half angle = atan(n / l) / 2

The bar errs as it does when it sets the slide: what its centres are out by is not seen on the same bar.

Between centres, and by the carriage on the lathe, the indicator sees the whole rise of one side, which is the
half angle: tan(half angle) = n / l. The carriage runs along the bed, so it does not see the work's axis out
of line, which is in the taper all the same. The top slide runs along what it has cut: it sees nothing of the
angle.

Source: university metrology laboratory sheets (indicator on a sine bar: error = n / l); plane geometry.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.estimate import Estimate, atan, limits
from calc.gauging.way import Bell, Part, Row, Seen
from calc.quantities import shown_length
from calc.sheet import Working

ID = "indicator_run"
LABEL = "An indicator run along the taper"
SOURCE = "University metrology laboratory sheets: error of the included angle = n / l, on a sine bar"
TELLS = "The half angle, without touching the size; hollow and proud show as the reading goes and comes back."
CANNOT = (
    "By the carriage it cannot see the work's axis out of line with the bed, on the bar it was set with"
    " not the bar's own centres, by the top slide nothing of the angle at all."
)
PLATE, CENTRES, CARRIAGE, SLIDE = "plate", "centres", "carriage", "slide"
LENGTH_GIVE = {PLATE: 0.5, CENTRES: 0.05, CARRIAGE: 0.02}
"""How well the run's length is known [mm]. Common practice, no source."""
STACK_GIVE = 0.002
"""Half-width of the stack under the sine bar on the plate [mm]. Common practice, no source."""
BAR = "setting.bar_give"
AXIS = "setting.axis_give"
ASKS: Sequence[Ask] = (
    Ask(
        "setup",
        "The part lies",
        "choice",
        {"mm": PLATE, "inch": PLATE},
        choices=(
            (PLATE, "on a sine bar set to the included angle"),
            (CENTRES, "between centres, the run along its axis"),
            (CARRIAGE, "in the lathe, the run by the carriage"),
            (SLIDE, "in the lathe, the run by the top slide"),
        ),
    ),
    Ask(
        "run",
        "Reading changes by",
        "length",
        help=(
            "On a sine bar: large end less small end, below 0 where the small end is high. Between centres"
            " and by the carriage: the whole rise."
        ),
        least=-50.0,
        most=100.0,
    ),
    Ask("run_length", "Over a run of", "length", least=1.0),
    Ask(
        "bar",
        "Sine bar",
        "choice",
        {"mm": "same", "inch": "same"},
        choices=(("same", "the one it was set with"), ("other", "another one")),
    ),
    Ask(
        "give",
        "Change of reading good to ±",
        "length",
        {"mm": "0.002 mm", "inch": "0.0001 in"},
        "One division of a test indicator reading 0.002 mm. Common practice, no source.",
        most=1.0,
    ),
)


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if not row.has("run"):
        return "run", "By how much did the reading change?"
    if not row.has("run_length"):
        return "run_length", "Over what length?"
    if abs(row.lengths["run"]) >= row.lengths["run_length"]:
        return "run", "The reading cannot change by more than the run is long."
    return "", ""


def seen(row: Row, part: Part) -> Seen:
    """What the run says."""
    setup = row.choices.get("setup", PLATE)
    if setup == SLIDE:
        return Seen(row)
    run = row.reading("run")
    length = row.reading("run_length", LENGTH_GIVE[setup])
    numbers = {
        key: f"{shown_length(run.value)[key]} / {shown_length(length.value)[key]}" for key in ("mm", "inch")
    }
    if setup == PLATE:
        error = atan(run / length) / 2.0 + _bar(row, part)
        working = [
            Working(
                "error of the half angle = atan(run / length) / 2", numbers, "On a sine bar it shows twice."
            )
        ]
        return Seen(row, Bell(error.value, dict(error.parts)), working=working)
    half = atan(run / length)
    if half.value < 0.0:
        half = -half
    if setup == CARRIAGE:
        # The axis out of line is in the taper and not in the run.
        half = half - limits(0.0, part.axis, AXIS)
    return Seen(row, Bell.of(half, part), working=[Working("tan(half angle) = rise / length", numbers)])


def _bar(row: Row, part: Part) -> Estimate:
    """What the sine bar and its stack add to the error read [rad], about 0."""
    included = part.cone.included_angle
    same = row.choices.get("bar", "same") == "same"
    key = BAR if same else f"{ID} {row.number} bar"
    centres = limits(0.0, part.bar_give, key) / part.bar_centres * math.tan(included)
    stack = limits(0.0, STACK_GIVE, f"{ID} {row.number} stack") / (part.bar_centres * math.cos(included))
    return (centres - stack) / 2.0


def steps(part: Part) -> Sequence[str]:
    """How to run an indicator along a taper."""
    return (
        "Let the part cool, take off burrs, wipe it, the bar and the plate.",
        "Set the sine bar on the surface plate to the included angle, lay the part on it, large end to the"
        " lower roller, and stop it from rolling.",
        "Bring the indicator to the highest line of the taper near one end, set it to zero, then find the"
        " highest line near the other end.",
        "Enter the change, large end less small end, and how far apart the two places are. Run back: it"
        " must come to zero again.",
    )
