"""Setting anew after a cut that came out off: what the inverses of the ways share.

The machine adds something to what is set (a working face, a sweep, the top slide's side, the axis): the half
angle cut is the half angle set and that. So the number to set next belongs to

    half angle set so far − error found

which is exact for whatever turns the top slide by a fixed angle, and leaves about error² / half angle for
what stretches the number itself, such as the sine bar's centres: nothing for errors that are small against
the angle.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from calc.doubt.doubts import is_steady
from calc.doubt.figures import RATE, figure
from calc.doubt.task import Task
from calc.estimate import Estimate, Number, exact
from calc.quantities import shown_angle, shown_length, shown_rate
from calc.setting.common import whole
from calc.setting.way import Correction, StackWanted
from calc.sheet import Both, Working

STEEPEST = math.radians(89.0)
FARTHEST = 0.4
"""How much steeper than wanted a set-up may be asked for [rad]: past that the error found is nonsense."""
SAYS: dict[str, Callable[[float, float], Both]] = {"mm": shown_length, "rad": shown_angle, RATE: shown_rate}
LEAVE = "Leave it as it is: the change is less than can be set."
NOTE = "What was set less the error found: the machine adds the same again."


def arcsine(ratio: float) -> float:
    """Angle [rad] of a sine; of a ratio past 1, which only a wrong entry brings, a right angle."""
    return math.asin(min(max(ratio, -1.0), 1.0))


def settable(value: float, division: float, under: float) -> float:
    """`value` on the nearest division, but where that would reach `under`, as it is [mm]."""
    told = whole(value, division)
    return told if abs(told) < under else value


@dataclass(frozen=True, slots=True)
class Anew:
    """aim: the half angle to be set [rad], with the doubt of the error. offset: cut less set [rad]."""

    aim: Estimate
    offset: Estimate

    @staticmethod
    def after(task: Task, error: Number, nominal: float) -> Anew:
        """nominal: the half angle that the number set stands for [rad]; error: cut less wanted [rad]."""
        found = exact(error)
        aim = nominal - found
        value = min(max(aim.value, 0.0), STEEPEST, task.half_angle + FARTHEST)
        return Anew(Estimate(value, aim.parts), found + (task.half_angle - nominal))

    def cuts(self, nominal: float, spread: Estimate) -> Estimate:
        """The half angle then cut [rad]; spread: the way's doubts, of which those new each time count."""
        return (
            Estimate(nominal, spread.parts, spread.shapes).only(lambda key: not is_steady(key)) + self.offset
        )

    def stack(self, height: Estimate, angle: Callable[[Estimate], Estimate]) -> StackWanted:
        """The stack to build instead; `angle` as the way gave it at first. Pieces bring their own doubts."""

        def angle_from_height(built: Estimate) -> Estimate:
            return angle(built).only(lambda key: key in built.parts or not is_steady(key)) + self.offset

        return StackWanted(height, angle_from_height)

    def correction(
        self,
        name: str,
        label: str,
        number: Estimate,
        unit: str,
        was: float,
        told: float,
        formula: str,
        words: str,
        *,
        stack: StackWanted | None = None,
        angle: Estimate | None = None,
    ) -> Correction:
        """name, label: of the figure. told: the number as it can be set. words: with {now} and {was} in."""
        say = SAYS[unit]
        aim, now, before = (
            shown_angle(self.aim.value),
            say(told, number.expanded if stack else 0.0),
            say(was, 0),
        )
        line = {
            each: f"for a half angle of {aim[each]}: {say(number.value, number.expanded)[each]};"
            f" {before[each]} was set"
            for each in ("mm", "inch")
        }
        alike = stack is None and told == was
        said = {
            each: LEAVE if alike else words.format(now=now[each], was=before[each]) for each in ("mm", "inch")
        }
        shown = figure(
            f"proving.new_{name}", label, number, unit, [Working(formula, line, NOTE)], "", lead=True
        )
        figures = [shown]
        if stack is None:
            figures.append(figure(f"proving.new_{name}_whole", "To set (rounded)", told, unit))
        return Correction(number, unit, was, figures, said, stack, angle)
