"""What would raise the chance most: each change tried by working the whole budget out anew."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from calc.doubt.budget import budget
from calc.doubt.doubts import DOUBTS
from calc.doubt.percent import percent
from calc.doubt.task import Task
from calc.drawer import FLAT, Piece, Stack
from calc.quantities import shown_length
from calc.sheet import Figure, Row, Table, Working, same
from calc.stages.setting.bench import Bench, doubts_of
from calc.stages.setting.error_words import TRUE_SPREAD
from calc.stages.setting.facts import Outcome, SetUp
from calc.stages.setting.search import height_of, just_so

ADVICE = "setting.advice"
MOST = 3
"""Pieces of advice given."""
SWEPT = "setting.sweep_length"
FINE = {"mm": "0.0025 mm", "inch": "0.0001 in"}
WORTH = 0.01
"""Chance that a change must add to be shown."""
TENTH_NM = 2540.0 / math.sqrt(3.0)
"""A piece measured to ± 0.0001 in, as standard uncertainty [nm]."""


@dataclass(frozen=True, slots=True)
class Change:
    """One change: what to do, and the chance with it."""

    words: str
    chance: float


def advice_figure(bench: Bench, made: SetUp, outcome: Outcome, system: str) -> Figure | None:
    """The two or three changes that help most; None where no limit is told or nothing helps."""
    limit = made.goal.limit
    if limit is None:
        return None
    now = outcome.budget.chance(-limit, limit)
    found = _changes(made.task, outcome, limit, bench, system)
    changes = sorted(found, key=lambda each: (-each.chance, each.words))
    told = [each for each in changes if each.chance >= now + WORTH][:MOST]
    if not told:
        return None
    lines = [f"{each.words}: {percent(now)} to {percent(each.chance)}" for each in told]
    return Figure(
        ADVICE,
        "What would help most",
        [{"change": each.words, "from": now, "to": each.chance} for each in told],
        shown=same(lines[0]),
        working=[
            Working("the whole budget worked out anew with each change by itself", same("; ".join(lines)))
        ],
        source=TRUE_SPREAD,
        table=Table(
            ["Change", "Chance now", "Chance with it"],
            [Row([same(each.words), same(percent(now)), same(percent(each.chance))]) for each in told],
        ),
    )


def _changes(task: Task, outcome: Outcome, limit: float, bench: Bench, system: str) -> list[Change]:
    changed: list[Change] = []
    for name in doubts_of(bench.way):
        doubt = DOUBTS[name]
        told = task.doubts.get(name, 0.0)
        if not doubt.better or told <= doubt.gain:
            continue
        better = replace(task, doubts={**task.doubts, name: doubt.gain})
        changed.append(
            Change(f"{doubt.better}{_to(name, doubt.gain, system)}", _chance(better, outcome, limit, bench))
        )
    longest = task.lengths.get("setting.bar_centres", 0.0)
    if 0.0 < task.lengths.get(SWEPT, longest) < longest - 1e-9:
        longer = replace(task, lengths={**task.lengths, SWEPT: longest})
        whole = shown_length(longest)[system]
        words = f"run the indicator along the whole {whole} of the sine bar"
        changed.append(Change(words, _chance(longer, outcome, limit, bench)))
    if outcome.stack is not None:
        for number, piece in enumerate(outcome.stack.pieces):
            if piece.standard_nm > 1.01 * TENTH_NM:
                measured = _measured(outcome.stack, number)
                chance = _chance(task, replace(outcome, stack=measured), limit, bench)
                again = "" if not piece.measured else " again"
                changed.append(Change(f"measure the {piece.name}{again} to ± {FINE[system]}", chance))
        if len(outcome.stack.pieces) > 1:
            single = _single(outcome.stack)
            high = shown_length(single.height_mm)[system]
            words = f"one piece of {high}, measured to ± {FINE[system]}, for the stack"
            changed.append(Change(words, _chance(task, replace(outcome, stack=single), limit, bench)))
    return changed


def _to(name: str, gain: float, system: str) -> str:
    """To what it then is known, in brackets."""
    doubt = DOUBTS[name]
    if doubt.kind == "length":
        return f" (± {shown_length(gain)[system]})"
    return f" (± {gain:.0f} {doubt.unit})" if doubt.kind == "count" else f" (± {math.degrees(gain):.2g}°)"


def _measured(stack: Stack, number: int) -> Stack:
    pieces: Sequence[Piece] = [
        replace(piece, standard_nm=TENTH_NM) if place == number else piece
        for place, piece in enumerate(stack.pieces)
    ]
    return replace(stack, pieces=tuple(pieces))


def _single(stack: Stack) -> Stack:
    """One piece just as high as wanted: two joints, one piece's doubt."""
    high = stack.height_nm - stack.error_nm
    piece = Piece("one piece", FLAT, high, TENTH_NM, True)
    return replace(stack, pieces=(piece,), height_nm=high, error_nm=0)


def _chance(task: Task, outcome: Outcome, limit: float, bench: Bench) -> float:
    """The chance with this task and this stack, from the way's own answer."""
    answered = bench.way.set_up(task)
    angle = answered.angle
    if answered.stack is not None and outcome.stack is None:
        angle = just_so(task, answered.stack)
    elif answered.stack is not None and outcome.stack is not None:
        angle = answered.stack.angle_from_height(
            height_of(outcome.stack, task.doubts.get("setting.seating", 0.0))
        )
    return budget(task, angle).chance(-limit, limit) if angle is not None else 0.0
