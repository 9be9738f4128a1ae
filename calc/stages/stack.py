"""The stack for a height: the one of the drawer's best that is likeliest to make the taper right."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from calc.cone import error_on_diameter
from calc.doubt.budget import Budget, budget
from calc.doubt.goal import Goal
from calc.doubt.percent import percent
from calc.doubt.task import CUSTOMARY_LENGTH, Task
from calc.drawer import Found, Limits, Piece, Stack, find_stacks
from calc.drawings.stack import stack_picture
from calc.estimate import Estimate
from calc.quantities import plus_minus_micrometres, shown_length, shown_micrometres
from calc.setting.way import StackWanted
from calc.sheet import Figure, Row, Table, Working, same

__all__ = ["CUSTOMARY_LENGTH", "Fit", "StackFound", "fits_for", "stack_for"]

TOLD_APART = 0.0005
"""Errors nearer together than this [mm on diameter] cannot be told apart in a shop: a fifth of a tenth."""
FEWEST = 3
"""Pieces, at most, of the stacks looked for besides the nearest sums: those that are best known."""
ALIKE = 0.005
"""Chances nearer together than this are alike; then the nearer sum, the smaller ± and fewer pieces decide."""
SHOWN = 8
NEAR = 0.25
"""Part of the limit that the best stack may leave before a better one is worth a word."""
SEARCHED = (
    "The whole drawer searched for the sums that leave least on diameter (to half a micrometre) and for"
    " those that"
    " are best known; of these, the one likeliest to be right"
)
FINE = 0.0001
"""Heights in a sum and in a table are all shown to this place [mm], so that they can be added by eye."""


def _fine(mm: float) -> Mapping[str, str]:
    return shown_length(mm, FINE)


@dataclass(frozen=True, slots=True)
class Fit:
    """A stack and what it does to the taper: its budget, and the chance to be within the limits, if any.

    sure: the same chance with the limits laid about the aim, so that a stack is picked for where it is aimed.
    """

    stack: Stack
    angle: Estimate
    budget: Budget
    chance: float | None
    sure: float = 0.0


@dataclass(frozen=True, slots=True)
class StackFound:
    """What the drawer gives for a height: figures, notes, and the stacks, the likeliest to be right first."""

    figures: Sequence[Figure]
    notes: Sequence[str]
    fits: Sequence[Fit] = ()

    @property
    def words(self) -> str:
        """The best stack in words, "" where there is none."""
        return self.fits[0].stack.words() if self.fits else ""


def stack_for(
    task: Task, wanted: StackWanted, pieces: Sequence[Piece], goal: Goal, system: str
) -> StackFound:
    """The best stacks of `pieces` for the height wanted."""
    if wanted.height.value <= 0.0:
        return StackFound([], [])
    found, fits = fits_for(task, wanted, pieces, goal)
    if (
        fits
        and goal.limit
        and abs(found.stacks[0].error_mm) * on_diameter_per_height(task, wanted) < (NEAR * goal.limit)
    ):
        found = replace(found, reason="")  # near enough: no piece need be bought
    notes = list(found.notes(system))
    if not fits:
        none = Figure(
            "setting.stack",
            "Stack from your drawer",
            [],
            shown=same("none yet"),
            working=[Working("pieces that fill the height", _fine(wanted.height.value))],
            source=SEARCHED,
        )
        return StackFound([none], notes)
    figures = [_pieces_figure(fits, wanted, system), _off_figure(fits[0], wanted)]
    why = _why_not_nearest(fits, system)
    return StackFound(figures, [*notes, why] if why else notes, fits)


def fits_for(task: Task, wanted: StackWanted, pieces: Sequence[Piece], goal: Goal) -> tuple[Found, list[Fit]]:
    """The search of the drawer; its stacks with what each does to the taper, likeliest to be right first."""
    height = wanted.height.value
    slope = on_diameter_per_height(task, wanted)
    seat = task.doubts.get("setting.seating", 0.0) / math.sqrt(3.0) * 1e6
    rules = Limits(seating_nm=seat, told_apart_nm=max(1, round(TOLD_APART / slope * 1e6)))
    found = find_stacks(tuple(pieces), round(height * 1e6), rules)
    stacks = {_places(stack): stack for stack in found.stacks}
    if goal.limit is not None and found.stacks:
        # Within this part of the limit a sum that is better known can beat a nearer one.
        wide = max(1, round(NEAR * goal.limit / slope * 1e6))
        rules = Limits(most_pieces=FEWEST, seating_nm=seat, told_apart_nm=wide)
        for stack in find_stacks(tuple(pieces), round(height * 1e6), rules, keep=4).stacks:
            stacks.setdefault(_places(stack), stack)
    fits = [fit for stack in stacks.values() if (fit := _fit(task, wanted, stack, goal)) is not None]
    if goal.limit is not None:
        fits.sort(key=lambda fit: -round(fit.sure / ALIKE))  # stable: the search's order otherwise
    return found, fits[:SHOWN]


def just_so(task: Task, wanted: StackWanted) -> Estimate:
    """The angle [rad] with one piece just so high, seated at two joints: what is left without a drawer."""
    seat = task.doubts.get("setting.seating", 0.0) / math.sqrt(3.0)
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


def _fit(task: Task, wanted: StackWanted, stack: Stack, goal: Goal) -> Fit | None:
    """What this stack leaves on the work, every doubt carried along; None where it is higher than the bar."""
    try:
        angle = wanted.angle_from_height(height_of(stack, task.doubts.get("setting.seating", 0.0)))
    except ValueError:
        return None
    made = budget(task, angle)
    if goal.limit is None:
        return Fit(stack, angle, made, None)
    chance = made.chance(-goal.limit, goal.limit)
    sure = made.chance(goal.aim - goal.limit, goal.aim + goal.limit) if goal.aim else chance
    return Fit(stack, angle, made, chance, sure)


def height_of(stack: Stack, seating: float) -> Estimate:
    """The stack's height [mm], each piece and each joint (known to ± seating [mm]) with its own doubt."""
    doubts = {
        f"piece {number} {piece.place}": piece.standard_nm / 1e6 for number, piece in enumerate(stack.pieces)
    }
    each = seating / math.sqrt(3.0)
    doubts |= {f"setting.seating {joint}": each for joint in range(stack.interfaces)}
    return Estimate(stack.height_mm, doubts)


def _why_not_nearest(fits: Sequence[Fit], system: str) -> str:
    """A sentence where the likeliest stack is not the nearest sum."""
    best = fits[0]
    nearest = min(fits, key=lambda fit: abs(fit.stack.error_nm))
    if nearest is best or best.chance is None or best.sure < nearest.sure + ALIKE:
        return ""
    off = shown_micrometres(nearest.stack.error_mm)[system], shown_micrometres(best.stack.error_mm)[system]
    return (
        f"{nearest.stack.words()} is the nearer sum ({off[0]} off against {off[1]}), but its pieces and"
        f" joints are"
        f" less well known: {percent(nearest.sure)} to be right against {percent(best.sure)}."
    )


def _pieces_figure(fits: Sequence[Fit], wanted: StackWanted, system: str) -> Figure:
    stack = fits[0].stack
    high = _fine(stack.height_mm)
    sums = {
        each: " + ".join(_fine(piece.size_mm)[each] for piece in stack.pieces) + f" = {high[each]}"
        for each in ("mm", "inch")
    }
    value = [
        {"name": piece.name, "shape": piece.shape, "size": piece.size_mm, "place": piece.place}
        for piece in stack.pieces
    ]
    return Figure(
        "setting.stack",
        "Stack from your drawer",
        value,
        shown=same(stack.words()),
        working=[Working("sum of the pieces", sums, stack.building_words())],
        source=SEARCHED,
        table=_table(fits),
        drawing=_picture(stack, wanted, system),
    )


def _off_figure(best: Fit, wanted: StackWanted) -> Figure:
    stack, doubt = best.stack, 2.0 * best.stack.standard_mm
    high, target, off = (
        _fine(stack.height_mm),
        _fine(wanted.height.value),
        shown_micrometres(stack.error_mm),
    )
    line = {each: f"{high[each]} − {target[each]} = {off[each]}" for each in ("mm", "inch")}
    return Figure(
        "setting.stack_error",
        "Stack less the height wanted",
        stack.error_mm,
        "mm",
        doubt,
        shown_micrometres(stack.error_mm, doubt),
        plus_minus_micrometres(doubt),
        [Working("built − wanted", line, "The sum itself is exact, in whole nanometres.")],
        "± from each piece and each joint, as independent (GUM: JCGM 100)",
    )


def _table(fits: Sequence[Fit]) -> Table:
    rows = [
        Row(
            [
                same(fit.stack.words()),
                _fine(fit.stack.height_mm),
                shown_micrometres(fit.stack.error_mm),
                shown_micrometres(fit.budget.bias, fit.budget.expanded),
                plus_minus_micrometres(fit.budget.expanded),
                same("–" if fit.chance is None else percent(fit.chance)),
            ],
            best=index == 0,
        )
        for index, fit in enumerate(fits)
    ]
    return Table(["Stack", "Height", "Off in stack", "Out on diameter", "±", "Right first time"], rows)


def _picture(stack: Stack, wanted: StackWanted, system: str) -> str:
    """From the pin (top) to the slide (bottom), as the picture wants it."""
    pieces = [
        (piece.name, piece.shape, piece.size_mm, _fine(piece.size_mm)[system])
        for piece in reversed(stack.building_order())
    ]
    want = f"wanted {_fine(wanted.height.value)[system]}"
    return stack_picture(pieces, _fine(stack.height_mm)[system], want)
