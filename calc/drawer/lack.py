"""No stack near enough: by how much the nearest misses, and which single piece would help."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc.drawer.pieces import NANOMETRES_PER_MILLIMETRE
from calc.drawer.stacks import Found
from calc.quantities import shown_length


@dataclass(frozen=True, slots=True)
class Lack:
    """What a drawer misses a height by.

    within_nm: how near a stack has to come to be of use [nm].
    off_nm: the nearest stack less the height [nm], below zero where it is short; an empty drawer is short by
        the whole height.
    alone_nm: the single piece that would do it by itself [nm].
    on_top_nm: the single piece that would do it on top of the nearest stack [nm]; None where none would.
    """

    within_nm: int
    off_nm: int
    alone_nm: int
    on_top_nm: int | None

    @property
    def line(self) -> Mapping[str, str]:
        """In one line: "no stack within 0.004 mm from this drawer: 2.496 mm short"."""
        within, off = _length(self.within_nm), _length(abs(self.off_nm))
        side = "short" if self.off_nm < 0 else "too high"
        return {
            each: f"no stack within {within[each]} from this drawer: {off[each]} {side}" for each in within
        }

    @property
    def way_out(self) -> Mapping[str, str]:
        """Which piece would help, in a sentence."""
        alone = _length(self.alone_nm)
        if self.on_top_nm is None:
            return {each: f"A piece of {alone[each]} would do it alone." for each in alone}
        more = _length(self.on_top_nm)
        return {
            each: f"A piece of {more[each]} on top of the nearest stack would do it, or one of {alone[each]}"
            " alone."
            for each in alone
        }


def lack_of(found: Found, within_nm: int) -> Lack | None:
    """What is lacking where no stack comes within `within_nm` [nm] of the height; None where one does.

    None too where there is no height to fill.
    """
    if found.target_nm <= 0:
        return None
    if not found.stacks:
        return Lack(within_nm, -found.target_nm, found.target_nm, None)
    nearest = min(found.stacks, key=lambda stack: abs(stack.error_nm))
    if abs(nearest.error_nm) <= within_nm:
        return None
    room = nearest.error_nm < 0 and len(nearest.pieces) < found.most_pieces
    return Lack(within_nm, nearest.error_nm, found.target_nm, -nearest.error_nm if room else None)


def _length(nanometres: int) -> Mapping[str, str]:
    return shown_length(nanometres / NANOMETRES_PER_MILLIMETRE)
