"""What is to be set, cut and proved, with what was told of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from calc.cone import Cone
from calc.doubt.doubts import DOUBTS
from calc.estimate import Estimate, limits, twin

CUSTOMARY_LENGTH = 100.0
"""Length [mm] over which an error is told where the taper's own is not known."""


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be set: the cone, which way it lies, and what was told (by id).

    lengths: what a way asks of lengths [mm], angles [rad] and rates [plain], and the lengths that doubts are
    given over, and known errors; what may stay empty and did is absent. choices: the words picked. doubts:
    half-widths [mm, rad or K]. aim: what the half angle is to be steeper than the cone's [rad]; below 0 it is
    to be shallower. form: "external" or "internal". system: "mm" or "inch", for amounts that are to be round
    and for words. learned: what takes an angle with its doubts to what is known of it from proved cuts; None
    where nothing is."""

    cone: Cone
    small_end: str
    cut_side: str
    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    doubts: Mapping[str, float] = field(default_factory=dict)
    aim: float = 0.0
    form: str = "external"
    system: str = "mm"
    learned: Callable[[Estimate], Estimate] | None = None

    @property
    def half_angle(self) -> float:
        """The half angle to set [rad]: the cone's, and the aim; never below 0."""
        return max(0.0, self.cone.half_angle + self.aim)

    @property
    def length(self) -> float:
        """The taper's length [mm] along its axis, or the customary one where it is not known."""
        return self.cone.length or CUSTOMARY_LENGTH

    def doubt(self, name: str, value: float = 0.0, place: int = 0) -> Estimate:
        """A value known to lie within the half-width told for this doubt [mm or rad].

        place: 1, 2 … for one of several alike that are out each by itself, such as two collars.
        """
        return limits(value, self.doubts.get(name, 0.0), twin(name, place) if place else name)

    def slope(self, name: str) -> Estimate:
        """The angle [rad], about 0, that a doubt makes over the length it is told over (both small)."""
        over = DOUBTS[name].over
        span = self.lengths.get(over.id, CUSTOMARY_LENGTH) if over else CUSTOMARY_LENGTH
        return self.doubt(name) / span
