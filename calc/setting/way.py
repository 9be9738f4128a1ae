"""What every way of setting the angle has in common: the same doors for each.

A way is a module in this folder with these names, listed in `setting/__init__.py`:

- ``ID``, ``LABEL``: what stands in ``setting.way``, and the words for it in the list.
- ``ASKS``: what it needs told beyond the taper.
- ``FEELS``: ids of the doubts (`calc/doubt/doubts.py`) that move the angle it gives.
- ``IMMUNE``: why the work's axis lying askew does not move it, for the table of ways; "" where it does.
- ``CUTS_BY``: "slide" (the top slide) or "carriage", whichever then runs along the taper's surface; "" where
  it sets no lathe.
- ``RESOLUTION``: the doubt that comes of how finely it is read, by a division or by a sweep; "" for neither.
- ``SNAGS``: what goes wrong with it in practice, a sentence each.
- ``refusal(task)``: why it cannot be done this way, "" where it can.
- ``set_up(task)``: the numbers to set, their doubt, what is to be stacked, the angle that comes of it.
- ``correct(task, error, was)``: the inverse: what to change where the taper came out off.
- ``steps(task, answer, stack_words)``: what to do, in the order of doing, in the task's system.

A way knows nothing of drawers or pages: where it wants a stack it says how high, and how a stack's height
turns into an angle. It sets `task.half_angle`, which holds the aim: dead on the taper, or a hair beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from calc.doubt.asks import Ask
from calc.doubt.task import Task
from calc.estimate import Estimate, Number
from calc.setting.plan import PlanView
from calc.sheet import Both, Caution, Figure, Step

__all__ = ["Answer", "Correction", "StackWanted", "Way"]


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

    figures: the numbers and words to set. plan: top slide, sine bar and stack seen from above, where there is
    a bar. stack: what to build, where it wants one. angle: the half angle of the taper [rad] as it comes out
    when set exactly as told (rounding of what was told included), with every doubt in FEELS; None where a
    stack decides it. snags: beside SNAGS, those of this very job. division_turns: what one division of
    whatever is read turns the half angle by [rad], None where nothing is read by divisions.
    """

    figures: Sequence[Figure]
    plan: PlanView | None = None
    stack: StackWanted | None = None
    cautions: Sequence[Caution] = ()
    angle: Estimate | None = None
    snags: Sequence[str] = ()
    division_turns: float | None = None


@dataclass(frozen=True, slots=True)
class Correction:
    """What to change where the taper came out off, in the way's own number.

    number: what is to be set now, exactly, in `unit`, with the doubt of the error that was found. was: what
    was set. figures: the same to be shown, the lead first. words: what to do, in a sentence. stack, angle: as
    in an Answer, for the set-up once changed: what was found stands in for all that is steady, and what is
    new at each set-up comes in anew.
    """

    number: Estimate
    unit: str
    was: float
    figures: Sequence[Figure]
    words: Both
    stack: StackWanted | None = None
    angle: Estimate | None = None


class Way(Protocol):
    """The names that a module in this folder bears."""

    ID: str
    LABEL: str
    ASKS: Sequence[Ask]
    FEELS: Sequence[str]
    IMMUNE: str
    CUTS_BY: str
    RESOLUTION: str
    SNAGS: Sequence[str]

    def refusal(self, task: Task) -> str:
        """Why the task cannot be set this way, in a sentence; "" where it can."""

    def set_up(self, task: Task) -> Answer:
        """The numbers to set."""

    def correct(self, task: Task, error: Number, was: float | None = None) -> Correction:
        """What to change where the half angle cut was the task's and `error` [rad], above 0 too steep.

        was: the number that was set (a stack's height as built, a reading as set), as told where None. For a
        task that is not refused.
        """

    def steps(self, task: Task, answer: Answer, stack_words: str) -> list[Step]:
        """What to do at the lathe, in order; measures in the task's system, the same steps in either."""
