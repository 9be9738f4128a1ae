"""The stack for a height, in words, numbers and a picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from calc.doubt.goal import Goal
from calc.doubt.percent import percent
from calc.drawer import Lack, Stack
from calc.drawings.stack import stack_picture
from calc.quantities import plus_minus_micrometres, shown_length, shown_micrometres
from calc.setting.way import StackWanted
from calc.sheet import Figure, Row, Table, Working, same
from calc.stages.setting.error_words import high_words, off_words
from calc.stages.setting.search import ALIKE, NEAR, StackFit, StackSearch

SEARCHED = (
    "The whole drawer searched for the sums that leave least on diameter (to half a micrometre) and for those"
    " that are best known; of these, the one likeliest to be right"
)
FINE = 0.0001
"""Heights in a sum and in a table are all shown to this place [mm], so that they can be added by eye."""


def _fine(mm: float) -> Mapping[str, str]:
    return shown_length(mm, FINE)


def stack_figures(search: StackSearch, goal: Goal, system: str) -> tuple[list[Figure], list[str]]:
    """What the drawer gives for the height, and notes about it; nothing where no stack is needed."""
    found, fits, wanted = search.found, search.fits, search.wanted
    if found is None:
        return [], []
    if fits and goal.limit and abs(found.stacks[0].error_mm) * search.slope < NEAR * goal.limit:
        found = replace(found, reason="")  # near enough: no piece need be bought
    if search.lack is not None:
        return [_lack_figure(search.lack, wanted)], [search.lack.way_out[system]]
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
        return [none], notes
    why = _why_not_nearest(fits, system)
    figures = [_pieces_figure(fits, wanted, system), _off_figure(fits[0], wanted)]
    return figures, [*notes, why] if why else notes


def _lack_figure(lack: Lack, wanted: StackWanted) -> Figure:
    """That no stack is of use, by how much the nearest misses, and which piece would help."""
    high = _fine(wanted.height.value)
    return Figure(
        "setting.stack",
        "Stack from your drawer",
        [],
        shown=lack.line,
        working=[Working("height wanted", high), Working("what would help", lack.way_out)],
        source=SEARCHED,
        lead=True,
    )


def _why_not_nearest(fits: Sequence[StackFit], system: str) -> str:
    """A sentence where the likeliest stack is not the nearest sum."""
    best = fits[0]
    nearest = min(fits, key=lambda fit: abs(fit.stack.error_nm))
    if nearest is best or best.chance is None or best.sure < nearest.sure + ALIKE:
        return ""
    off = high_words(nearest.stack.error_mm)[system], high_words(best.stack.error_mm)[system]
    return (
        f"{nearest.stack.words()} is the nearer sum ({off[0]} against {off[1]}), but its pieces and"
        f" joints are less well known: {percent(nearest.sure)} to be within tolerance"
        f" against {percent(best.sure)}."
    )


def _pieces_figure(fits: Sequence[StackFit], wanted: StackWanted, system: str) -> Figure:
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
        drawing=stack_drawing(stack, wanted, system),
    )


def _off_figure(best: StackFit, wanted: StackWanted) -> Figure:
    stack, doubt = best.stack, 2.0 * best.stack.standard_mm
    high, target, off = (
        _fine(stack.height_mm),
        _fine(wanted.height.value),
        shown_micrometres(stack.error_mm),
    )
    line = {each: f"{high[each]} − {target[each]} = {off[each]}" for each in ("mm", "inch")}
    return Figure(
        "setting.stack_error",
        "Stack against the height wanted",
        stack.error_mm,
        "mm",
        doubt,
        high_words(stack.error_mm, doubt),
        plus_minus_micrometres(doubt),
        [Working("built − wanted", line, "The sum itself is exact, in whole nanometres.")],
        "± from each piece and each joint, as independent (GUM: JCGM 100)",
    )


def _table(fits: Sequence[StackFit]) -> Table:
    rows = [
        Row(
            [
                same(fit.stack.words()),
                _fine(fit.stack.height_mm),
                high_words(fit.stack.error_mm),
                off_words(fit.budget.bias, fit.budget.expanded),
                plus_minus_micrometres(fit.budget.expanded),
                same("–" if fit.chance is None else percent(fit.chance)),
            ],
            best=index == 0,
        )
        for index, fit in enumerate(fits)
    ]
    return Table(
        ["Stack", "Height", "Stack error", "Taper error on diameter", "±", "Within tolerance at first cut"],
        rows,
    )


def stack_drawing(stack: Stack, wanted: StackWanted, system: str) -> str:
    """From the roller (top) to the top slide (bottom), as the picture wants it."""
    pieces = [
        (piece.name, piece.shape, piece.size_mm, _fine(piece.size_mm)[system])
        for piece in reversed(stack.building_order())
    ]
    want = f"wanted {_fine(wanted.height.value)[system]}"
    return stack_picture(pieces, _fine(stack.height_mm)[system], want)
