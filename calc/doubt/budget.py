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
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.cone import Cone, error_on_diameter
from calc.doubt.chance import Strip, chance_inside
from calc.doubt.hollow import strips
from calc.doubt.task import Task
from calc.estimate import Estimate

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
    standard contribution. hollow: the tool's height, as strips about its own mean; () where it is nothing or
    unknown.
    """

    length: float
    bias: float
    parts: Mapping[str, float]
    hollow: Sequence[Strip] = ()
    hollow_standard: float = 0.0

    @property
    def standard(self) -> float:
        """Standard uncertainty [mm]."""
        return math.hypot(self.hollow_standard, *self.parts.values())

    @property
    def expanded(self) -> float:
        """Two standard uncertainties [mm]: the ± that is shown."""
        return 2.0 * self.standard

    def ranked(self) -> list[tuple[str, float]]:
        """Every doubt with its standard contribution [mm], 0 or more, the largest first."""
        shares = {key: abs(part) for key, part in self.parts.items()}
        if self.hollow_standard:
            shares[HEIGHT] = self.hollow_standard
        return sorted(shares.items(), key=lambda each: (-each[1], each[0]))

    def chance(self, low: float, high: float) -> float:
        """Chance that the error lies from low to high [mm on diameter], each doubt being rectangular."""
        halves = [_ROOT3 * abs(part) for part in self.parts.values()]
        if self.hollow_standard < _FAINT * sum(halves):
            # So small a part that its shape cannot show: its spread is enough.
            return chance_inside(low, high, self.bias, [*halves, _ROOT3 * self.hollow_standard])
        return chance_inside(low, high, self.bias, halves, self.hollow)


def budget(task: Task, angle: Estimate) -> Budget:
    """The budget for a taper that gets this half angle [rad], with its doubts; adds tool height and warmth.

    These two need the taper's diameters and are left out where these are not known.
    """
    cone, length = task.cone, task.length
    error = error_on_diameter(cone.half_angle, angle.value, length)
    per_angle = 2.0 * length * (1.0 + math.tan(angle.value) ** 2)
    parts = {key: per_angle * part for key, part in angle.parts.items()}
    warm = warmth(cone, task.doubts.get(WARMTH, 0.0))
    if warm:
        parts[WARMTH] = warm
    mean, standard, about = hollow(cone, length, task.doubts.get(HEIGHT, 0.0))
    return Budget(length, error + mean, parts, about, standard)


def warmth(cone: Cone, kelvin: float) -> float:
    """Standard contribution [mm on diameter] of one end being warmer than the other by up to ± kelvin."""
    return EXPANSION * (cone.large_diameter or 0.0) * kelvin / _ROOT3


@lru_cache(maxsize=64)
def hollow(cone: Cone, length: float, height: float) -> tuple[float, float, list[Strip]]:
    """Mean, its spread and strips about the mean [mm on diameter]; the tool within ± height [mm]."""
    if cone.large_diameter is None or cone.rate <= 0.0 or height <= 0.0:
        return 0.0, 0.0, []
    found = strips(height, 0.5 * cone.rate, length, cone.large_diameter)
    mean = math.fsum(middle for middle, _ in found) / len(found)
    variance = math.fsum((middle - mean) ** 2 + half * half / 3.0 for middle, half in found) / len(found)
    return mean, math.sqrt(variance), [(middle - mean, half) for middle, half in found]
