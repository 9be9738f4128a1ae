"""What a little at the machine is worth on this taper."""

from __future__ import annotations

import math

from calc.estimate import Estimate
from calc.quantities import shown_length, shown_micrometres
from calc.setting.way import Task
from calc.sheet import Figure, Working
from calc.stages.budget import over

TENTH = 0.00254
FINER = 0.1
"""Below this [mm] a worth is shown in micrometres and tenths."""


DIAL = "setting.dial_give"


def sensitivities(task: Task, per_height: float | None, angle: Estimate | None) -> list[Figure]:
    """On diameter: a tenth in the stack (per_height [mm per mm]), what the sweep is read to, slide travel."""
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
    division, known = task.lengths.get("setting.division"), task.doubts.get(DIAL, 0.0)
    if division is not None and angle is not None and known > 0.0:
        # The way has told what its dial's ± does to the angle; a division does as much for its size.
        turned = abs(angle.share(DIAL)) * math.sqrt(3.0) * division / known
        found.append(
            _worth(
                "setting.per_division",
                f"One division of the dial, on diameter {words}",
                2.0 * length * turned / math.cos(half) ** 2,
                "2 × length × what a division turns the slide / cos²(half angle)",
            )
        )
    span = task.lengths.get("setting.sweep_length") if per_height is not None else None
    if span is not None:
        reading = task.doubts.get("setting.sweep_give", 0.0)
        found.append(
            _worth(
                "setting.per_division",
                f"What the sweep is read to, once, on diameter {words}",
                2.0 * length * reading / span / math.cos(half) ** 2,
                "2 × length × reading / length swept / cos²(half angle)",
            )
        )
    found.append(
        _worth(
            "setting.per_travel",
            "1 mm (0.0394 in) of travel along the cut, on diameter",
            2.0 * math.sin(half),
            "2 × sin(half angle) × travel",
        )
    )
    return found


def _worth(name: str, label: str, value: float, formula: str) -> Figure:
    shown = shown_length(value) if abs(value) >= FINER else shown_micrometres(value)
    value = float(f"{value:.6g}")  # a slope taken by differences supports no more
    source = "Geometry of the cone and of the way it is set"
    return Figure(name, label, value, "mm", shown=shown, working=[Working(formula, shown)], source=source)
