"""What every way of setting the slide has in common: the same doors for each.

A way is a module in this folder with these names, listed in ``setting/__init__.py``:

    ID, LABEL                what stands in ``setting.way`` and in the list ASKS                     what it
    needs to know beyond the taper FEELS                    ids of the doubts (doubts.py) that move the angle
    it gives IMMUNE                   ids of doubts that others feel and it does not, with the reason in a
    sentence SNAGS                    what goes wrong with it in practice, a sentence each refusal(task) ->
    str     why it cannot be done this way, "" where it can set_up(task) -> Answer   the numbers to set, their
    doubt, what is to be stacked, the angle that comes of it steps(task, answer, stack_words) -> sentences in
    the order of doing

A way knows nothing of drawers or pages: where it wants a stack it says how high, and how a stack's height
turns into an angle. It sets `task.half_angle`, which holds the aim: dead on the taper, or a hair beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from calc.cone import Cone
from calc.estimate import Estimate, limits
from calc.setting.asks import Ask
from calc.setting.doubts import DOUBTS
from calc.setting.plan import PlanView

__all__ = ["Answer", "Ask", "Result", "Shown", "StackWanted", "Task", "Way"]

CUSTOMARY_LENGTH = 100.0
"""Length [mm] over which an error is told where the taper's own is not known."""


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be set: the cone, which way it lies, and what was told (by id).

    lengths: what ASKS asks of lengths [mm], angles [rad] and rates [plain], and the lengths that doubts are
    told over; what may stay empty and did is absent. choices: the words picked. doubts: half-widths [mm, rad
    or K]. aim: what the half angle is to be steeper than the cone's [rad]; below 0 it is to be flatter. form:
    "external" or "internal". system: "mm" or "inch", for amounts that are to be round and for words.
    """

    cone: Cone
    small_end: str
    cut_side: str
    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    doubts: Mapping[str, float] = field(default_factory=dict)
    aim: float = 0.0
    form: str = "external"
    system: str = "mm"

    @property
    def half_angle(self) -> float:
        """The half angle to set [rad]: the cone's, and the aim; never below 0."""
        return max(0.0, self.cone.half_angle + self.aim)

    @property
    def length(self) -> float:
        """The taper's length [mm] along its axis, or the customary one where it is not known."""
        return self.cone.length or CUSTOMARY_LENGTH

    def doubt(self, name: str, value: float = 0.0) -> Estimate:
        """A value known to lie within the half-width told for this doubt [mm or rad]."""
        return limits(value, self.doubts.get(name, 0.0), name)

    def slope(self, name: str) -> Estimate:
        """The angle [rad], about 0, that a doubt makes over the length it is told over (both small)."""
        over = DOUBTS[name].over
        span = self.lengths.get(over.id, CUSTOMARY_LENGTH) if over else CUSTOMARY_LENGTH
        return self.doubt(name) / span


@dataclass(frozen=True, slots=True)
class Shown:
    """One line of working: formula, and the same with numbers in both systems."""

    formula: str
    numbers: Mapping[str, str]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Result:
    """One number or word to set; `value` is an Estimate in `unit` or a text.

    unit: mm, rad, 1, or rate for a taper on diameter.
    """

    id: str
    label: str
    value: Estimate | str
    unit: str
    working: Sequence[Shown] = ()
    source: str = ""
    lead: bool = False


@dataclass(frozen=True, slots=True)
class StackWanted:
    """A stack to build: how high [mm], and the half angle of the taper [rad] that a height [mm] really gives.

    The angle's parts hold every doubt in FEELS beside those of the height, as signed contributions.
    """

    height: Estimate
    angle_from_height: Callable[[Estimate], Estimate]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a way answers with.

    plan: the slide, bar and stack seen from above, where there is a bar. stack: what to build, where it wants
    one. angle: the half angle of the taper [rad] as it comes out when set exactly as told (rounding of what
    was told included), with every doubt in FEELS; None where a stack decides it. picture: SVG where the lathe
    from above is not the picture. snags: beside SNAGS, those of this very job. turns: False where it sets no
    lathe.
    """

    results: Sequence[Result]
    plan: PlanView | None = None
    stack: StackWanted | None = None
    cautions: Sequence[tuple[str, str, str]] = ()
    angle: Estimate | None = None
    picture: str = ""
    snags: Sequence[str] = ()
    turns: bool = True


class Way(Protocol):
    """The names that a module in this folder bears."""

    ID: str
    LABEL: str
    ASKS: Sequence[Ask]
    FEELS: Sequence[str]
    IMMUNE: Mapping[str, str]
    SNAGS: Sequence[str]

    def refusal(self, task: Task) -> str:
        """Why the task cannot be set this way, in a sentence; "" where it can."""

    def set_up(self, task: Task) -> Answer:
        """The numbers to set."""

    def steps(self, task: Task, answer: Answer, stack_words: str) -> list[str]:
        """What to do at the lathe, in order."""
