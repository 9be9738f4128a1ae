"""How far out the taper is likely to be, from everything that moves it: the error budget.

The error is told on diameter over the taper's length, above zero for too steep:

    2 L (tan(angle got) − tan(half angle)) + hollow of the tool's height + warmth

First order per the GUM (JCGM 100:2008, 5.1.2): each doubt is moved by itself, and they add as independent.
The tool's height is not of first order (above and below centre flatten alike): it is computed exactly over
its whole spread and brings a mean and a spread of its own. What the doubts share stands under one key and
counts once.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from calc.cone import Cone, error_on_diameter
from calc.doubt.chance import chance_inside
from calc.doubt.hollow import strips
from calc.doubt.shape import mean_spread_shape
from calc.doubt.task import Task
from calc.estimate import Estimate, Shape, Strip, source_of

HEIGHT = "setting.tool_height"
WARMTH = "setting.temperature"
EXPANSION = 11.5e-6
"""Carbon steel [1/K]: 11.2 to 11.7 µm per metre and kelvin in two published tables."""
EXPANSION_SOURCE = "carbon steel, 11.5 µm per metre and kelvin, as two published tables agree"
_ROOT3 = math.sqrt(3.0)
_FAINT = 0.02


@dataclass(frozen=True, slots=True)
class Budget:
    """The error on diameter [mm] and what makes it up.

    length: told over [mm]. bias: the error expected, above zero too steep. parts: by doubt, its signed
    standard contribution; several alike that are out each by itself stand under keys of their own (`twin`).
    shapes: of the parts that are not rectangular.
    """

    length: float
    bias: float
    parts: Mapping[str, float]
    shapes: Mapping[str, Shape]

    @property
    def standard(self) -> float:
        """Standard uncertainty [mm]."""
        return math.hypot(*self.parts.values())

    @property
    def expanded(self) -> float:
        """Two standard uncertainties [mm]: the ± that is shown."""
        return 2.0 * self.standard

    def ranked(self) -> list[tuple[str, float]]:
        """Every doubt with its standard contribution [mm], 0 or more, largest first; several alike as one."""
        shares: dict[str, float] = {}
        for key, part in self.parts.items():
            source = source_of(key)
            shares[source] = math.hypot(shares.get(source, 0.0), part)
        return sorted(shares.items(), key=lambda each: (-each[1], each[0]))

    def chance(self, low: float, high: float) -> float:
        """Chance that the error lies from low to high [mm on diameter], each doubt of its own shape."""
        faint = _FAINT * sum(abs(part) for part in self.parts.values())
        halves: list[float] = []
        shaped: list[list[Strip]] = []
        for key, part in self.parts.items():
            shape = self.shapes.get(key)
            # So small a part that its shape cannot show: its spread is enough.
            if shape is None or abs(part) < faint:
                halves.append(_ROOT3 * abs(part))
            else:
                shaped.append([(part * middle, abs(part) * half) for middle, half in shape])
        return chance_inside(low, high, self.bias, halves, shaped)


def budget(task: Task, angle: Estimate) -> Budget:
    """The budget for a taper that gets this half angle [rad], with its doubts; adds tool height and warmth.

    These two need the taper's diameters and are left out where these are not known. What proved cuts have
    taught of the task's doubts is taken in."""
    cone, length = task.cone, task.length
    if task.learned is not None:
        angle = task.learned(angle)
    error = error_on_diameter(cone.half_angle, angle.value, length)
    per_angle = 2.0 * length * (1.0 + math.tan(angle.value) ** 2)
    parts = {key: per_angle * part for key, part in angle.parts.items()}
    warm = warmth(cone, task.doubts.get(WARMTH, 0.0))
    if warm:
        parts[WARMTH] = warm
    mean, standard, shape = hollow(cone, length, task.doubts.get(HEIGHT, 0.0))
    if not standard:
        return Budget(length, error, parts, angle.shapes)
    return Budget(length, error + mean, {**parts, HEIGHT: standard}, {**angle.shapes, HEIGHT: shape})


def warmth(cone: Cone, kelvin: float) -> float:
    """Standard contribution [mm on diameter] of one end being warmer than the other by up to ± kelvin."""
    return EXPANSION * (cone.large_diameter or 0.0) * kelvin / _ROOT3


@lru_cache(maxsize=64)
def hollow(cone: Cone, length: float, height: float) -> tuple[float, float, Shape]:
    """Mean, standard spread [mm on diameter] and shape of what the tool does, within ± height [mm]."""
    if cone.large_diameter is None or cone.rate <= 0.0 or height <= 0.0:
        return 0.0, 0.0, ()
    return mean_spread_shape(strips(height, 0.5 * cone.rate, length, cone.large_diameter))
