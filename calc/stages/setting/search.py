"""The search of the drawer for the height wanted: the stacks that are likeliest to make the taper right."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.cone import error_on_diameter
from calc.doubt.budget import Budget, budget
from calc.doubt.goal import Goal
from calc.doubt.task import Task
from calc.drawer import Found, Lack, Limits, Piece, Stack, find_stacks, lack_of
from calc.drawer.stacks import stack_of
from calc.estimate import Estimate
from calc.setting.way import StackWanted

TOLD_APART = 0.0005
"""Errors nearer together than this [mm on diameter] cannot be told apart in a shop: a fifth of a tenth."""
FEWEST = 3
"""Pieces, at most, of the stacks looked for besides the nearest sums: those that are best known."""
ALIKE = 0.005
"""Chances nearer together than this are alike; then the nearer sum, the smaller ± and fewer pieces decide."""
SHOWN = 8
NEAR = 0.25
"""Part of the limit that the best stack may leave before a better one is worth a word."""
FAR = 4.0
"""From so many times the limit on, what the nearest stack leaves is no setting but a miss."""
SEATING = "setting.seating"
AS_ADVISED = 0.02
"""Chance that a stack advised by proving may be below the best and still be the one to set on."""


@dataclass(frozen=True, slots=True)
class StackFit:
    """A stack and what it does to the taper: its budget, and the chance to be within the limits, if any.

    sure: the same chance with the limits laid about the aim, so that a stack is picked for where it is aimed.
    """

    stack: Stack
    angle: Estimate
    budget: Budget
    chance: float | None
    sure: float = 0.0


@dataclass(frozen=True, slots=True)
class StackSearch:
    """What the drawer gives for a height.

    slope: what a little more in the stack is on the taper's diameter, over its length [mm per mm]. found:
    what the search says of itself, None where no stack is needed. fits: the likeliest to be right first;
    none where even the nearest is of no use, which `lack` then tells.
    """

    wanted: StackWanted
    slope: float
    found: Found | None
    fits: Sequence[StackFit] = ()
    lack: Lack | None = None

    @property
    def words(self) -> str:
        """The best stack in words, "" where there is none."""
        return self.fits[0].stack.words() if self.fits else ""


def search_drawer(
    task: Task, wanted: StackWanted, pieces: Sequence[Piece], goal: Goal, advised: Sequence[str] = ()
) -> StackSearch:
    """The stacks of `pieces` for the height wanted, with what each does to the taper.

    advised: names of the pieces that proving said to set it on anew; as good as the best, they come first.
    """
    height, slope = wanted.height.value, on_diameter_per_height(task, wanted)
    if height <= 0.0:
        return StackSearch(wanted, slope, None)
    seat = task.doubts.get(SEATING, 0.0) / math.sqrt(3.0) * 1e6
    rules = Limits(seating_nm=seat, told_apart_nm=max(1, round(TOLD_APART / slope * 1e6)))
    found = find_stacks(tuple(pieces), round(height * 1e6), rules)
    lack = _of_no_use(found, goal.limit, slope) if pieces else None
    if lack is not None:
        return StackSearch(wanted, slope, found, (), lack)
    stacks = {_places(stack): stack for stack in found.stacks}
    if goal.limit is not None and found.stacks:
        # Within this part of the limit a sum that is better known can beat a nearer one.
        wide = max(1, round(NEAR * goal.limit / slope * 1e6))
        rules = Limits(most_pieces=FEWEST, seating_nm=seat, told_apart_nm=wide)
        for stack in find_stacks(tuple(pieces), round(height * 1e6), rules, keep=4).stacks:
            stacks.setdefault(_places(stack), stack)
    fits = [fit for stack in stacks.values() if (fit := fit_of(task, wanted, stack, goal)) is not None]
    if goal.limit is not None:
        fits.sort(key=lambda fit: -round(fit.sure / ALIKE))  # stable: the search's order otherwise
    told = _by_name(task, wanted, pieces, goal, advised) if advised and fits else None
    if told is not None and told.sure >= fits[0].sure - AS_ADVISED:
        fits = [told, *(fit for fit in fits if _places(fit.stack) != _places(told.stack))]
    return StackSearch(wanted, slope, found, fits[:SHOWN])


def _by_name(
    task: Task, wanted: StackWanted, pieces: Sequence[Piece], goal: Goal, names: Sequence[str]
) -> StackFit | None:
    """The stack of the pieces of these names; None where one of them is no longer in the drawer."""
    spare = {piece.place: piece.count for piece in pieces}
    picked: list[Piece] = []
    for name in names:
        piece = next((each for each in pieces if each.name == name and spare[each.place] > 0), None)
        if piece is None:
            return None
        spare[piece.place] -= 1
        picked.append(piece)
    seat = task.doubts.get(SEATING, 0.0) / math.sqrt(3.0) * 1e6
    return fit_of(task, wanted, stack_of(picked, round(wanted.height.value * 1e6), seat), goal)


def _of_no_use(found: Found, limit: float | None, slope: float) -> Lack | None:
    """What is lacking where the nearest stack leaves the taper far out of limit; None where it may serve.

    Without a limit nothing tells what is far, and the nearest stands.
    """
    if limit is None or lack_of(found, max(1, round(FAR * limit / slope * 1e6))) is None:
        return None
    return lack_of(found, max(1, round(limit / slope * 1e6)))


def just_so(task: Task, wanted: StackWanted) -> Estimate:
    """The angle [rad] with one piece just so high, seated at two joints: what is left without a drawer."""
    seat = task.doubts.get(SEATING, 0.0) / math.sqrt(3.0)
    joints = {"setting.seating 0": seat, "setting.seating 1": seat}
    return wanted.angle_from_height(Estimate(wanted.height.value, joints))


def _places(stack: Stack) -> tuple[int, ...]:
    return tuple(piece.place for piece in stack.pieces)


def on_diameter_per_height(task: Task, wanted: StackWanted) -> float:
    """What a little more in the stack is on the taper's diameter, over its length [mm per mm]."""
    height, length, half = wanted.height.value, task.length, task.cone.half_angle
    # Both ways, and not too fine a step: what is left to rounding differs between interpreters.
    little = max(height, 1.0) * 1e-4
    above, below = (
        error_on_diameter(half, wanted.angle_from_height(Estimate(height + step)).value, length)
        for step in (little, -little)
    )
    return (above - below) / (2.0 * little)


def fit_of(task: Task, wanted: StackWanted, stack: Stack, goal: Goal) -> StackFit | None:
    """What this stack leaves on the work, every doubt carried along; None where it is higher than the bar."""
    try:
        angle = wanted.angle_from_height(height_of(stack, task.doubts.get(SEATING, 0.0)))
    except ValueError:
        return None
    made = budget(task, angle)
    if goal.limit is None:
        return StackFit(stack, angle, made, None)
    chance = made.chance(-goal.limit, goal.limit)
    sure = made.chance(goal.aim - goal.limit, goal.aim + goal.limit) if goal.aim else chance
    return StackFit(stack, angle, made, chance, sure)


def height_of(stack: Stack, seating: float) -> Estimate:
    """The stack's height [mm], each piece and each joint (known to ± seating [mm]) with its own doubt."""
    doubts = {
        f"piece {number} {piece.place}": piece.standard_nm / 1e6 for number, piece in enumerate(stack.pieces)
    }
    each = seating / math.sqrt(3.0)
    doubts |= {f"setting.seating {joint}": each for joint in range(stack.interfaces)}
    return Estimate(stack.height_mm, doubts)
