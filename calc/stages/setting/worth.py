"""What a little at the machine is worth on this taper."""

from __future__ import annotations

import math

from calc.doubt.doubts import DOUBTS
from calc.doubt.task import Task
from calc.quantities import shown_length, shown_micrometres
from calc.setting.way import Way
from calc.sheet import Both, Figure, Working
from calc.stages.setting.error_words import over

TENTH = 0.00254
FINER = 0.1
"""Below this [mm] a worth is shown in micrometres and ten-thousandths of an inch."""
STEP = {"mm": "0.0025 mm (0.0001 in)", "inch": "0.0001 in (0.0025 mm)"}
TRAVEL = {"mm": "1 mm (0.0394 in)", "inch": "0.0394 in (1 mm)"}
"""What the two sensitivities are for, the card's own system first."""


def sensitivities(way: Way, task: Task, per_height: float | None, division: float | None) -> list[Figure]:
    """On diameter: 0.0001 in more in the stack (per_height [mm per mm]), what the way is read to, travel.

    division: what one division of what is read turns the half angle by [rad], None where there is none.
    """
    found: list[Figure] = []
    half, length = task.cone.half_angle, task.length
    words = over(task.cone, length)["mm"]
    if per_height is not None:
        more = "more" if per_height >= 0.0 else "less"
        found.append(
            _worth(
                "setting.per_tenth",
                f"{STEP[task.system]} {more} in the stack: steeper by, on diameter {words}",
                TENTH * per_height,
                "0.0001 in × what the diameter changes for a change of height",
            )
        )
    found += _resolution(way, task, division, words)
    found.append(
        _worth(
            "setting.per_travel",
            f"{TRAVEL[task.system]} of tool travel along the taper, on diameter",
            2.0 * math.sin(half),
            "2 × sin(half angle) × travel",
        )
    )
    return found


def _resolution(way: Way, task: Task, division: float | None, words: str) -> list[Figure]:
    """What the finest that the way is read to is on diameter: a division, or an indicator's run."""
    half, length = task.cone.half_angle, task.length
    doubt = DOUBTS.get(way.RESOLUTION)
    if doubt is not None and doubt.over is not None:
        known = task.doubts.get(doubt.id, 0.0)
        return [
            _worth(
                "setting.per_division",
                f"One division of the indicator, on diameter {words}",
                2.0 * length * known / task.lengths[doubt.over.id] / math.cos(half) ** 2,
                "2 × length × reading / length indicated / cos²(half angle)",
            )
        ]
    if not division:
        return []
    return [
        _worth(
            "setting.per_division",
            f"One division more, on diameter {words}",
            2.0 * length * division / math.cos(half) ** 2,
            "2 × length × what a division turns the angle by / cos²(half angle)",
        )
    ]


def _unsigned(value: float) -> Both:
    size = abs(value)
    both = shown_length(size) if size >= FINER else shown_micrometres(size)
    return {each: text.lstrip("+") for each, text in both.items()}


def _worth(name: str, label: str, value: float, formula: str) -> Figure:
    shown = _unsigned(value)
    value = float(f"{value:.6g}")  # a slope taken by differences supports no more
    source = "Geometry of the cone and of the way it is set"
    return Figure(name, label, value, "mm", shown=shown, working=[Working(formula, shown)], source=source)
