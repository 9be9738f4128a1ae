"""The best stacks for a height, proved.

The order among stacks is total, and is this: first how far off they are, in steps of `told_apart_nm`
(errors inside one step cannot be told apart on the work); then the smaller variance, from the doubt of each
piece and of each seat; then fewer pieces; then the smaller error to the nanometre; and last, so that the
answer never depends on how the drawer happens to be sorted, the smaller sizes piece by piece. Variances
are compared as whole thousandths of a square nanometre, so equal means equal.

How that is proved stands in `search`.
"""

from __future__ import annotations

from calc.drawer.pieces import Piece
from calc.drawer.search import Search
from calc.drawer.stacks import Found, Limits, Stack, stack_of


def find_stacks(
    pieces: tuple[Piece, ...] | list[Piece], target_nm: int, limits: Limits | None = None, keep: int = 8
) -> Found:
    """The `keep` best stacks for a height [nm] from these pieces, in the order this module states.

    Pieces with a size or count below 1 are left out. At most 1024 different pieces are searched; with more,
    the answer is marked incomplete. An empty drawer, a height not above zero and a height out of reach give a
    Found that says so; nothing raises.
    """
    chosen = limits or Limits()
    if target_nm <= 0:
        return Found((), True, 0, target_nm, "no_height")
    search = Search(pieces, target_nm, chosen, max(1, keep))
    if not search.sizes:
        return Found((), True, 0, target_nm, "empty")
    complete = search.run() and not search.groups.left_out
    stacks = tuple(
        stack_of(search.groups.pieces(key[4]), target_nm, chosen.seating_nm) for key in search.best
    )
    return Found(stacks, complete, search.steps, target_nm, _reason(stacks[0], search), search.most_pieces)


def _reason(best: Stack, search: Search) -> str:
    """Why even the best is off, or ""."""
    if abs(best.error_nm) < search.told:
        return ""
    if search.sizes[0] > search.target:
        return "too_low"
    highest = search.groups.highest(search.depth, search.most_leaves)
    return "too_high" if highest < search.target else "not_near"
