"""What is known of a lathe, a top slide and a sine bar, taken off what is set.

Each is a length with its sign, over the span that its own ± is given over:

- `setting.axis_known`: above 0 where work turned by the carriage comes out larger at its tailstock end; the
  axis then leans away from the operator towards the tailstock by half of it.
- `setting.side_known`: above 0 where the top slide's side stands further out at its tailstock end than its
  own travel, seen from that side.
- `setting.edge_known`: above 0 where the sine bar's working face stands further from the line of its rollers
  at the tailstock roller (on the plate: at the raised roller).

A doubt of the same name is signed alike, so that what one job teaches of the lathe is right for the next,
however that lies. Each turns what is set against the taper by its own small angle; the ways add the sum to
the half angle that their number stands for. Plane geometry, in the axes of `calc.setting.plan`.
"""

from __future__ import annotations

import math

from calc.doubt.task import CUSTOMARY_LENGTH, Task
from calc.estimate import Estimate
from calc.quantities import shown_angle
from calc.sheet import Working

MOST_KNOWN = math.radians(10.0)
"""More cannot be out of a lathe that turns at all: such an entry has another unit or length. Common practice,
no source."""


def _over(task: Task, known: str, span: str) -> float:
    return task.lengths.get(known, 0.0) / task.lengths.get(span, CUSTOMARY_LENGTH)


def _sense(task: Task) -> float:
    """1 where the top slide is swung anticlockwise for this taper, else -1."""
    return (1.0 if task.small_end == "tailstock" else -1.0) * (1.0 if task.cut_side == "operator" else -1.0)


def axis_adds(task: Task) -> float:
    """What the axis, out of line with the bed, adds to the angle set from the bed [rad]."""
    return _sense(task) * 0.5 * _over(task, "setting.axis_known", "setting.axis_length")


def side_adds(task: Task, side: str) -> float:
    """What the top slide's `side`, "operator" or "far", adds where the angle is set at that side [rad]."""
    outwards = 1.0 if side == "far" else -1.0
    return _sense(task) * outwards * _over(task, "setting.side_known", "setting.side_length")


def edge_leans(task: Task) -> float:
    """How far the sine bar's working face leans off the line of its rollers [rad]."""
    return _over(task, "setting.edge_known", "setting.bar_centres")


def edge_adds(task: Task, side: str) -> float:
    """What the sine bar's working face adds, the bar lying on this side of the top slide [rad]."""
    return _sense(task) * (1.0 if side == "far" else -1.0) * edge_leans(task)


def axis_doubt(task: Task) -> Estimate:
    """The same, not known: about 0 [rad], of one sign with what a lathe that turns a taper does to this
    cut."""
    return task.slope("setting.axis_give") * (0.5 * _sense(task))


def side_doubt(task: Task, side: str) -> Estimate:
    """What the top slide's side is not known to do, about 0 [rad]: signed as for `side_adds`."""
    return task.slope("setting.side_give") * (_sense(task) * (-1.0 if side == "far" else 1.0))


def edge_doubt(task: Task, side: str) -> Estimate:
    """What the working face is not known to do, about 0 [rad]: signed as for `edge_adds`."""
    centres = task.lengths["setting.bar_centres"]
    return task.doubt("setting.edge_give") * (_sense(task) * (-1.0 if side == "far" else 1.0) / centres)


def outdone(task: Task, adds: float) -> str:
    """Why what is known cannot be right: more than any lathe is out, or than the taper; "" where it can.

    adds: what is known, as it adds to the half angle here [rad].
    """
    if abs(adds) > MOST_KNOWN:
        return (
            "What is entered as known to be out of lathe, top slide or sine bar comes to more than 10°: check"
            " those entries, their units and the lengths they are given over."
        )
    if task.half_angle <= 0.0 or adds > -task.half_angle:
        return ""
    return (
        "What is entered as known to be out of lathe, top slide or sine bar outdoes the taper itself: check"
        " those"
        " entries, their signs and the lengths they are given over."
    )


def known_working(adds: float) -> list[Working]:
    """That known errors were taken off; nothing where there are none. adds: to the half angle [rad]."""
    if not adds:
        return []
    seconds = shown_angle(abs(adds), abs(adds) / 100.0)
    sign = "+" if adds > 0.0 else "−"
    return [
        Working(
            "angle set = half angle and what is known to be out",
            {each: f"half angle {sign} {seconds[each]}" for each in ("mm", "inch")},
            "Known errors of lathe, top slide and sine bar, as entered, are taken off here.",
        )
    ]
