"""What a little at the machine is worth on this taper."""

from __future__ import annotations

import math

from calc.doubt.doubts import DOUBTS
from calc.doubt.task import Task
from calc.estimate import Estimate
from calc.quantities import shown_length, shown_micrometres
from calc.setting.way import Way
from calc.sheet import Figure, Working
from calc.stages.setting.error_words import over

TENTH = 0.00254
FINER = 0.1
"""Below this [mm] a worth is shown in micrometres and tenths."""


def sensitivities(way: Way, task: Task, per_height: float | None, angle: Estimate | None) -> list[Figure]:
    """On diameter: a tenth in the stack (per_height [mm per mm]), what the way is read to, slide travel."""
    found: list[Figure] = []
    half, length = task.cone.half_angle, task.length
    words = over(task.cone, length)["mm"]
    if per_height is not None:
        found.append(
            _worth(
                "setting.per_tenth",
                f"One tenth more in the stack, on diameter {words}",
                TENTH * per_height,
                "0.0001 in × what the diameter changes for a change of height",
            )
        )
    found += _resolution(way, task, angle, words)
    found.append(
        _worth(
            "setting.per_travel",
            "1 mm (0.0394 in) of travel along the cut, on diameter",
            2.0 * math.sin(half),
            "2 × sin(half angle) × travel",
        )
    )
    return found


def _resolution(way: Way, task: Task, angle: Estimate | None, words: str) -> list[Figure]:
    """What the finest that the way is read to is on diameter: a division of its dial, or a sweep."""
    doubt = DOUBTS.get(way.RESOLUTION)
    if doubt is None:
        return []
    half, length, known = task.cone.half_angle, task.length, task.doubts.get(doubt.id, 0.0)
    if doubt.over is not None:
        return [
            _worth(
                "setting.per_division",
                f"What the sweep is read to, once, on diameter {words}",
                2.0 * length * known / task.lengths[doubt.over.id] / math.cos(half) ** 2,
                "2 × length × reading / length swept / cos²(half angle)",
            )
        ]
    if angle is None or known <= 0.0:
        return []
    # The way has told what its dial's ± does to the angle; a division does as much for its size.
    turned = abs(angle.share(doubt.id)) * math.sqrt(3.0) * task.lengths["setting.division"] / known
    return [
        _worth(
            "setting.per_division",
            f"One division of the dial, on diameter {words}",
            2.0 * length * turned / math.cos(half) ** 2,
            "2 × length × what a division turns the slide / cos²(half angle)",
        )
    ]


def _worth(name: str, label: str, value: float, formula: str) -> Figure:
    shown = shown_length(value) if abs(value) >= FINER else shown_micrometres(value)
    value = float(f"{value:.6g}")  # a slope taken by differences supports no more
    source = "Geometry of the cone and of the way it is set"
    return Figure(name, label, value, "mm", shown=shown, working=[Working(formula, shown)], source=source)
