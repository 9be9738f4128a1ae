"""The stack for a height: which pieces, how far off, and what that is on the work."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.cone import Cone, error_on_diameter
from calc.drawer import Found, Limits, Piece, Stack, find_stacks
from calc.drawings.stack import stack_picture
from calc.estimate import Estimate, limits, through
from calc.quantities import (
    plus_minus_micrometres,
    shown_angle,
    shown_length,
    shown_micrometres,
)
from calc.setting.doubts import DOUBTS
from calc.setting.way import StackWanted
from calc.sheet import Figure, Row, Table, Working, same

TOLD_APART = 0.0005
"""Errors nearer together than this [mm on diameter] cannot be told apart in a shop: a fifth of a tenth."""
CUSTOMARY_LENGTH = 100.0
"""Length [mm] over which the taper's error is told where the part's own is not known."""
SEARCHED = "The whole drawer searched: least off on diameter (to half a micrometre), smaller ±, then fewer"
NOT_COUNTED = (
    "Counts the bar, the pieces and how they seat (first order, GUM: JCGM 100). Not counted: the sweep of the"
    " bar, the slide's side against its travel, tool height, temperature."
)


FINE = 0.0001
"""Heights in a sum and in a table are all shown to this place [mm], so that they can be added by eye."""


def _fine(mm: float) -> Mapping[str, str]:
    return shown_length(mm, FINE)


@dataclass(frozen=True, slots=True)
class StackFound:
    """What the drawer gives for a height: figures, notes, and the best stack in words ("" where none)."""

    figures: Sequence[Figure]
    notes: Sequence[str]
    words: str = ""
    out_by: str = ""


@dataclass(frozen=True, slots=True)
class Fit:
    """A stack and what it does to the taper: error on diameter over its length [mm]."""

    stack: Stack
    error: Estimate


def stack_for(
    cone: Cone, wanted: StackWanted, pieces: Sequence[Piece], seating: float, system: str
) -> StackFound:
    """The best stacks of `pieces` for the height wanted; `seating` [mm] is the ± of each joint."""
    if wanted.height.value <= 0.0:
        return StackFound([], [])
    found, fits = fits_for(cone, wanted, pieces, seating)
    notes = found.notes(system)
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
    best = fits[0]
    figures = [
        _pieces_figure(best, fits, wanted, system),
        _off_figure(best, wanted),
        _error_figure(cone, best, wanted),
    ]
    error, spread = best.error, plus_minus_micrometres(best.error.expanded)[system]
    out_by = f"out by {shown_micrometres(error.value, error.expanded)[system]} {spread} on diameter"
    return StackFound(figures, notes, best.stack.words(), out_by)


def fits_for(
    cone: Cone, wanted: StackWanted, pieces: Sequence[Piece], seating: float
) -> tuple[Found, list[Fit]]:
    """The search of the drawer and its best stacks, each with what it does to the taper, best first."""
    found = _search(cone, wanted, pieces, seating)
    return found, [_fit(cone, wanted, stack, seating) for stack in found.stacks]


def _search(cone: Cone, wanted: StackWanted, pieces: Sequence[Piece], seating: float) -> Found:
    """The best stacks for this part; half a micrometre on its diameter decides what counts as equal."""
    length = cone.length or CUSTOMARY_LENGTH
    little = wanted.height.value * 1e-6
    higher = wanted.angle_from_height(Estimate(wanted.height.value + little)).value
    slope = error_on_diameter(cone.half_angle, higher, length) / little
    told_apart = max(1, round(TOLD_APART / slope * 1e6))
    rules = Limits(seating_nm=seating / math.sqrt(3.0) * 1e6, told_apart_nm=told_apart)
    return find_stacks(tuple(pieces), round(wanted.height.value * 1e6), rules)


def _fit(cone: Cone, wanted: StackWanted, stack: Stack, seating: float) -> Fit:
    """What this stack leaves on the work, every doubt carried along."""
    doubts = {
        f"piece {number} {piece.place}": piece.standard_nm / 1e6 for number, piece in enumerate(stack.pieces)
    }
    height = Estimate(stack.height_mm, doubts)
    for joint in range(stack.interfaces):
        height = height + limits(0.0, seating, f"setting.seating {joint}")
    length = cone.length or CUSTOMARY_LENGTH
    angle = wanted.angle_from_height(height)
    return Fit(stack, through(lambda got: error_on_diameter(cone.half_angle, got, length), angle))


def _pieces_figure(best: Fit, fits: Sequence[Fit], wanted: StackWanted, system: str) -> Figure:
    stack = best.stack
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


def _error_figure(cone: Cone, best: Fit, wanted: StackWanted) -> Figure:
    error = best.error
    angle = wanted.angle_from_height(Estimate(best.stack.height_mm)).value
    got, meant, over = shown_angle(angle), shown_angle(cone.half_angle), _over(cone)
    shown, spread = shown_micrometres(error.value, error.expanded), plus_minus_micrometres(error.expanded)
    line = {
        each: f"{got[each]} got, {meant[each]} wanted, {over[each]}: {shown[each]}" for each in ("mm", "inch")
    }
    shares = _shares(error)
    parts = {
        each: ", ".join(f"{name} {plus_minus_micrometres(2.0 * share)[each]}" for name, share in shares)
        for each in ("mm", "inch")
    }
    return Figure(
        "setting.error_on_diameter",
        f"Taper out by, on diameter {over['mm'] if cone.length is None else 'over its length'}",
        error.value,
        "mm",
        error.expanded,
        shown,
        spread,
        [
            Working(
                "2 × length × (tan(angle got) − tan(angle wanted))",
                line,
                "Above zero is too steep: in a true socket the large end bears first; below zero, the small.",
            ),
            Working("± from its parts, two standard uncertainties each", parts),
        ],
        NOT_COUNTED,
    )


def _over(cone: Cone) -> Mapping[str, str]:
    words = shown_length(cone.length or CUSTOMARY_LENGTH)
    return {system: f"over {words[system]}" for system in ("mm", "inch")}


def _shares(error: Estimate) -> list[tuple[str, float]]:
    """Bar, pieces together and seating together: standard contributions, the largest first."""
    groups: dict[str, float] = {}
    for name, share in error.parts.items():
        group = name.split()[0]
        groups[group] = math.hypot(groups.get(group, 0.0), share)
    words = {"setting.bar_give": "bar centres", "piece": "pieces", "setting.seating": "seating"}
    return sorted(
        ((words.get(name) or DOUBTS[name].label, share) for name, share in groups.items()),
        key=lambda each: -each[1],
    )


def _table(fits: Sequence[Fit]) -> Table:
    rows = [
        Row(
            [
                same(fit.stack.words()),
                _fine(fit.stack.height_mm),
                shown_micrometres(fit.stack.error_mm),
                shown_micrometres(fit.error.value, fit.error.expanded),
                plus_minus_micrometres(fit.error.expanded),
            ],
            best=index == 0,
        )
        for index, fit in enumerate(fits)
    ]
    return Table(["Stack", "Height", "Off in stack", "Out on diameter", "±"], rows)


def _picture(stack: Stack, wanted: StackWanted, system: str) -> str:
    """From the pin (top) to the slide (bottom), as the picture wants it."""
    pieces = [
        (piece.name, piece.shape, piece.size_mm, _fine(piece.size_mm)[system])
        for piece in reversed(stack.building_order())
    ]
    want = f"wanted {_fine(wanted.height.value)[system]}"
    return stack_picture(pieces, _fine(stack.height_mm)[system], want)
