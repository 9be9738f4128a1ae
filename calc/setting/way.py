"""What every way of setting the slide has in common: the same doors for each.

A way is a module in this folder with these names, listed in ``setting/__init__.py``:

    ID, LABEL                what stands in ``setting.way`` and in the list
    ASKS                     what it needs to know beyond the taper
    refusal(task) -> str     why it cannot be done this way, "" where it can
    set_up(task) -> Answer   the numbers to set, their doubt, what is to be stacked
    steps(task, answer, stack_words) -> sentences in the order of doing

A way knows nothing of drawers or pages: where it wants a stack it says how
high, and how a stack's height turns into an angle.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from calc.cone import Cone
from calc.estimate import Estimate
from calc.setting.plan import PlanView


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing a way needs told: `default` by unit system, `least` and `most` in mm or rad."""

    id: str
    label: str
    kind: str
    default: Mapping[str, str]
    help: str = ""
    choices: Sequence[tuple[str, str]] = ()
    least: float = 0.0
    most: float = 0.0


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be set: the cone, which way it lies, and what was told (by id)."""

    cone: Cone
    small_end: str
    cut_side: str
    lengths: Mapping[str, float]
    choices: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Shown:
    """One line of working: formula, and the same with numbers in both systems."""

    formula: str
    numbers: Mapping[str, str]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Result:
    """One number or word to set; `value` is an Estimate in `unit` (mm, rad) or a text."""

    id: str
    label: str
    value: Estimate | str
    unit: str
    working: Sequence[Shown] = ()
    source: str = ""
    lead: bool = False


@dataclass(frozen=True, slots=True)
class StackWanted:
    """A stack to build: how high [mm], and the angle [rad] that a height [mm] really gives."""

    height: Estimate
    angle_from_height: Callable[[Estimate], Estimate]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a way answers with."""

    results: Sequence[Result]
    plan: PlanView | None = None
    stack: StackWanted | None = None
    cautions: Sequence[tuple[str, str, str]] = ()


class Way(Protocol):
    """The names that a module in this folder bears."""

    ID: str
    LABEL: str
    ASKS: Sequence[Ask]

    def refusal(self, task: Task) -> str:
        """Why the task cannot be set this way, in a sentence; "" where it can."""

    def set_up(self, task: Task) -> Answer:
        """The numbers to set."""

    def steps(self, task: Task, answer: Answer, stack_words: str) -> list[str]:
        """What to do at the lathe, in order."""
