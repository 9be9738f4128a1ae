"""Setting up anew with what the proved cut has taught: the height, and the fewest pieces to change for it.

The stacks looked at are the drawer's best for the new height and those that differ from the stack that stands
by one piece taken out, put in or changed for another. Of those as good as the best within what chances are
good to, the one with the fewest pieces touched is taken."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from calc.doubt.budget import budget
from calc.doubt.goal import Goal
from calc.doubt.task import Task
from calc.drawer import Limits, Piece, Stack, find_stacks
from calc.drawer.pieces import LEAF, ROUND
from calc.drawer.stacks import MOST_LEAVES, MOST_PIECES, stack_of
from calc.gauging.belief import Lesson
from calc.gauging.way import Part
from calc.setting.way import StackWanted
from calc.stages.common.taught import Taught
from calc.stages.proving.facts import Anew
from calc.stages.setting.bench import Bench
from calc.stages.setting.facts import SetUp, by_itself
from calc.stages.setting.search import (
    FEWEST,
    NEAR,
    SEATING,
    TOLD_APART,
    fit_of,
    just_so,
    on_diameter_per_height,
    search_drawer,
)

AS_GOOD = 0.01
"""Chances nearer together than this are alike: then the fewest pieces touched decide."""
FEW = 4
"""Stacks of each kind that are worked out to the end."""
NEAR_ENOUGH = 3
"""Swaps looked at for each piece taken out: those whose height comes nearest."""


def set_up_anew(
    bench: Bench, task: Task, now: SetUp, goal: Goal, taught: Taught, fresh: Sequence[Lesson], part: Part
) -> Anew | None:
    """What comes of setting it up anew; None where the way wants a stack and none can be made."""
    if now.outcome is None:
        return None
    bare = bench.task(task.cone, task.small_end)
    angle = by_itself(bench.way.set_up(bare)) or now.outcome.angle
    belief = taught.belief(task, fresh)
    aimed = taught.aimed(bare, angle, belief) if taught.allowed else bare
    if bench.way.refusal(aimed):
        return None
    answer = bench.way.set_up(aimed)
    if answer.stack is None:
        if answer.angle is None:
            return None
        changed = bench.way.correct(bare, bare.aim - aimed.aim)
        return Anew(aimed, answer, budget(aimed, answer.angle), correction=changed)
    if now.outcome.stack is None:
        return Anew(aimed, answer, budget(aimed, just_so(aimed, answer.stack)))
    stands = now.outcome.stack
    fits = [
        fit
        for stack in _worth_a_look(stands, bench.pieces, aimed, answer.stack, goal)
        if (fit := fit_of(aimed, answer.stack, stack, goal)) is not None
    ]
    if not fits:
        return None
    best = max(fit.sure for fit in fits)
    good = [fit for fit in fits if goal.limit is None or fit.sure >= best - AS_GOOD]
    pick = min(
        good, key=lambda fit: (_touched(stands, fit.stack), abs(fit.stack.error_nm), len(fit.stack.pieces))
    )
    removed, added = change(stands, pick.stack)
    return Anew(aimed, answer, pick.budget, pick.stack, removed, added)


def _worth_a_look(
    stands: Stack, pieces: Sequence[Piece], task: Task, wanted: StackWanted, goal: Goal
) -> list[Stack]:
    """The nearest sums of few pieces and the nearest swaps; each stack once, few of them."""
    target = round(wanted.height.value * 1e6)
    seat = task.doubts.get(SEATING, 0.0) / math.sqrt(3.0) * 1e6
    slope = on_diameter_per_height(task, wanted)
    rules = Limits(most_pieces=FEWEST, seating_nm=seat, told_apart_nm=max(1, round(TOLD_APART / slope * 1e6)))
    found = list(find_stacks(tuple(pieces), target, rules, keep=FEW).stacks)
    changed = sorted(swaps(stands, pieces, target, seat), key=lambda stack: abs(stack.error_nm))
    if not any(
        abs(stack.error_nm) * slope <= NEAR * (goal.limit or 0.0) * 1e6 for stack in (*found, *changed)
    ):
        # Nothing of few pieces comes near: then the whole search.
        found += [fit.stack for fit in search_drawer(task, wanted, pieces, goal).fits]
    looked: dict[tuple[int, ...], Stack] = {}
    for stack in (*found, *changed[:FEW]):
        looked.setdefault(_names(stack), stack)
    return list(looked.values())


def swaps(stands: Stack, pieces: Sequence[Piece], target_nm: int, seating_nm: float) -> list[Stack]:
    """Stacks that differ from the one that stands by one piece: those that come nearest the height."""
    found: list[Stack] = []
    used = Counter(piece.place for piece in stands.pieces)
    for out in (None, *stands.pieces):
        kept = list(stands.pieces)
        if out is not None:
            kept.remove(out)
        height = sum(piece.size_nm for piece in kept)
        gone = out.place if out is not None else -1
        spare = [piece for piece in pieces if used[piece.place] - (piece.place == gone) < piece.count]
        nearest = sorted(spare, key=lambda piece: abs(height + piece.size_nm - target_nm))[:NEAR_ENOUGH]
        for more in ([], *([piece] for piece in nearest)):
            stack = [*kept, *more]
            if stack and allowed(stack):
                found.append(stack_of(stack, target_nm, seating_nm))
    return found


def allowed(pieces: Sequence[Piece]) -> bool:
    """Whether these may lie in one gap: at most one round piece, few leaves, few pieces."""
    rounds = sum(piece.shape == ROUND for piece in pieces)
    leaves = sum(piece.shape == LEAF for piece in pieces)
    return rounds <= 1 and leaves <= MOST_LEAVES and len(pieces) <= MOST_PIECES


def change(before: Stack, after: Stack) -> tuple[list[str], list[str]]:
    """Names of the pieces to take out and to put in."""
    old, new = Counter(piece.name for piece in before.pieces), Counter(piece.name for piece in after.pieces)
    return sorted((old - new).elements()), sorted((new - old).elements())


def _touched(before: Stack, after: Stack) -> int:
    removed, added = change(before, after)
    return len(removed) + len(added)


def _names(stack: Stack) -> tuple[int, ...]:
    return tuple(sorted(piece.place for piece in stack.pieces))
