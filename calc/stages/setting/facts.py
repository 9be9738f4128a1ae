"""What the setting stage finds, for the stages after it: what is set, with what, and what comes of it."""

from __future__ import annotations

from dataclasses import dataclass

from calc.doubt.budget import Budget, budget
from calc.doubt.goal import Goal
from calc.doubt.task import Task
from calc.drawer import Stack
from calc.estimate import Estimate
from calc.setting.way import Answer
from calc.sheet import Figure
from calc.stages.common.taught import Taught
from calc.stages.setting.bench import Bench
from calc.stages.setting.pieces import DrawerRead
from calc.stages.setting.search import StackSearch, just_so, search_drawer

ID = "setting"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What comes of setting the slide one way: the angle, the budget, and the stack that gave it, if any.

    supposed: there is no stack yet, and one piece just so high is supposed.
    """

    angle: Estimate
    budget: Budget
    stack: Stack | None = None
    supposed: bool = False


@dataclass(frozen=True, slots=True)
class SetUp:
    """A taper set one way: task, what counts as right, the way's answer, the drawer's stacks, the outcome.

    search: None where the way wants no stack. outcome: None where nothing in the drawer makes the height.
    """

    task: Task
    goal: Goal
    answer: Answer
    search: StackSearch | None
    outcome: Outcome | None


@dataclass(frozen=True, slots=True)
class Aimed:
    """A taper as it is to be set, before the drawer is looked through: task, what counts as right, answer."""

    task: Task
    goal: Goal
    answer: Answer


@dataclass(frozen=True, slots=True)
class SettingBegun:
    """What the setting stage finds at once; `SettingFacts` says what its parts are."""

    drawer: DrawerRead
    bench: Bench | None
    task: Task | None = None
    refused: str = ""
    aimed: Aimed | None = None
    taught: Taught | None = None

    @property
    def lead(self) -> Figure | None:
        """The number to set, where there is one."""
        figures = self.aimed.answer.figures if self.aimed else ()
        return next((each for each in figures if each.lead and not isinstance(each.value, str)), None)


@dataclass(frozen=True, slots=True)
class SettingFacts:
    """The drawer as read; the bench, None where something needs mending; the taper as it is set on it.

    refused: why this way cannot set this taper, in a sentence. task: None while the taper is not known.
    """

    drawer: DrawerRead
    bench: Bench | None
    task: Task | None = None
    refused: str = ""
    set_up: SetUp | None = None
    taught: Taught | None = None


def by_itself(answer: Answer) -> Estimate | None:
    """The half angle [rad] that a way gives with a stack just right: its own doubts, none of pieces."""
    wanted = answer.stack
    return wanted.angle_from_height(Estimate(wanted.height.value)) if wanted is not None else answer.angle


def aim(bench: Bench, task: Task, taught: Taught | None = None) -> Aimed:
    """The way's answer for this task.

    taught: what proved cuts have taught; then it is aimed so as to come out right after all.
    """
    goal, answer = bench.goal(task.cone), bench.way.set_up(task)
    if taught is not None and taught.records:
        angle = by_itself(answer)
        if angle is not None:
            task = taught.aimed(task, angle)
            answer = bench.way.set_up(task)
    return Aimed(task, goal, answer)


def set_up(bench: Bench, task: Task, taught: Taught | None = None) -> SetUp:
    """The way's answer for this task, the stacks for it, and what comes of the best."""
    return stacked(bench, aim(bench, task, taught), taught)


def stacked(bench: Bench, aimed: Aimed, taught: Taught | None = None) -> SetUp:
    """What is aimed, with the stacks for it and what comes of the best."""
    task, goal, answer = aimed.task, aimed.goal, aimed.answer
    if answer.stack is None:
        made = Outcome(answer.angle, budget(task, answer.angle)) if answer.angle is not None else None
        return SetUp(task, goal, answer, None, made)
    before = taught.previous(task, bench.way.ID) if taught is not None else None
    search = search_drawer(task, answer.stack, bench.pieces, goal, before.then if before else ())
    return SetUp(task, goal, answer, search, _of_stack(task, search, bool(bench.pieces)))


def _of_stack(task: Task, search: StackSearch, pieces: bool) -> Outcome | None:
    if search.fits:
        best = search.fits[0]
        return Outcome(best.angle, best.budget, best.stack)
    if search.found is not None and pieces:
        return None
    exact = just_so(task, search.wanted)
    return Outcome(exact, budget(task, exact), None, search.wanted.height.value > 0.0)
