"""What a search is asked and what it answers: limits, stacks, and the finding as a whole."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.drawer.pieces import LEAF, NANOMETRES_PER_MILLIMETRE, ROUND, Piece
from calc.quantities import shown_length

# A seat between two clean pieces, wiped and wrung by hand at a machine. Common practice, no source.
SEATING_NM = 1000.0
MOST_PIECES = 5
MOST_LEAVES = 3
THINNEST_NM = 10_000
"""The thinnest shim anybody keeps, 0.01 mm: common practice, no source."""

# The search counts the sums it looks at, so that it ends after the same work on any computer. Proving the
# best of 300 mixed pieces takes up to 320 000; this many take under half a second on a small computer.
WORK_LIMIT = 400_000


@dataclass(frozen=True, slots=True)
class Limits:
    """What may be stacked, and what is too small to matter.

    most_pieces: pieces in a stack, 1 to 5.
    most_leaves: feeler leaves in a stack, since each bends and traps dirt.
    seating_nm: standard uncertainty of one contact between two faces [nm]; n pieces make n + 1 contacts.
    told_apart_nm: errors of height nearer together than this cannot be told apart on the work [nm, 1 and up].
    work_limit: sums looked at before the search gives up on proof and says so.
    """

    most_pieces: int = MOST_PIECES
    most_leaves: int = MOST_LEAVES
    seating_nm: float = SEATING_NM
    told_apart_nm: int = 1
    work_limit: int = WORK_LIMIT


@dataclass(frozen=True, slots=True)
class Stack:
    """A stack: its pieces (biggest first), its height [nm], height minus target [nm], and the standard
    uncertainty of that height from pieces and seats [nm], taken as independent of each other."""

    pieces: tuple[Piece, ...]
    height_nm: int
    error_nm: int
    standard_nm: float

    @property
    def interfaces(self) -> int:
        """Contacts in the gap: one more than there are pieces."""
        return len(self.pieces) + 1

    @property
    def height_mm(self) -> float:
        """The height [mm]."""
        return self.height_nm / NANOMETRES_PER_MILLIMETRE

    @property
    def error_mm(self) -> float:
        """Height minus the height asked for [mm]; positive is too high."""
        return self.error_nm / NANOMETRES_PER_MILLIMETRE

    @property
    def standard_mm(self) -> float:
        """Standard uncertainty of the height [mm]."""
        return self.standard_nm / NANOMETRES_PER_MILLIMETRE

    def words(self) -> str:
        """The pieces by name, biggest first: "4.2 drill + 0.15 leaf"."""
        return _joined(self.pieces)

    def building_order(self) -> tuple[Piece, ...]:
        """The pieces from the face that the stack stands on out to the roller (common practice, no source).

        Leaves go between hard flat faces, because a leaf over a gap bends: between the first two blocks where
        there are blocks enough, otherwise flat against that face. A round piece goes against
        a flat face on both sides where it can: the last block is kept for the roller, since a drill against
        a pin rolls.
        """
        leaves = [piece for piece in self.pieces if piece.shape == LEAF]
        rounds = [piece for piece in self.pieces if piece.shape == ROUND]
        blocks = [piece for piece in self.pieces if piece.shape not in (LEAF, ROUND)]
        against_pin = blocks[-1:] if rounds else []
        others = blocks[:-1] if rounds else blocks
        if len(others) >= 2:
            return tuple(others[:1] + leaves + others[1:] + rounds + against_pin)
        return tuple(leaves + others + rounds + against_pin)

    def building_words(self) -> str:
        """One sentence that says in which order the pieces go in."""
        order = self.building_order()
        if not order:
            return "Nothing goes in the gap."
        if len(order) == 1:
            return f"Put the {order[0].name} between the face that the stack stands on and the roller."
        return (
            "From the face that the stack stands on to the roller: "
            + ", then ".join(piece.name for piece in order)
            + "."
        )


@dataclass(frozen=True, slots=True)
class Found:
    """The outcome of a search.

    stacks: the best, best first.
    complete: whether they are proved to be the best; False where the work limit ended the search.
    searched: sums looked at.
    target_nm: the height asked for [nm].
    reason: "" or why there is nothing, or nothing near: "empty", "no_height", "too_low" (every stack is
        higher than asked), "too_high" (every stack is lower), "not_near" (between, but nothing within
        told_apart_nm).
    most_pieces: the most pieces a stack could have.
    """

    stacks: tuple[Stack, ...]
    complete: bool
    searched: int
    target_nm: int
    reason: str
    most_pieces: int = MOST_PIECES

    @property
    def best(self) -> Stack | None:
        """The first stack, or None."""
        return self.stacks[0] if self.stacks else None

    def notes(self, units: str = "mm") -> tuple[str, ...]:
        """What a person should know about the outcome, in plain sentences; units is "mm" or "inch"."""
        told: list[str] = []
        wanted = _length(self.target_nm, units)
        best = self.best
        if self.reason == "empty":
            told.append(f"The drawer holds no piece that can be used. A piece of {wanted} would do it alone.")
        elif self.reason == "no_height":
            told.append("There is no gap to fill: the height asked for is not more than zero.")
        elif self.reason and best is not None:
            off = _length(abs(best.error_nm), units)
            beyond = {
                "too_low": "Every stack from this drawer is higher than asked",
                "too_high": "Every stack from this drawer is lower than asked",
                "not_near": "No stack from this drawer comes nearer",
            }[self.reason]
            side = "low" if best.error_nm < 0 else "high"
            told.append(f"{beyond}; the best is {off} too {side}. A piece of {wanted} would do it alone.")
            closing = self.closing_nm
            if closing is not None:
                told.append(f"So would a piece of {_length(closing, units)} on top of the best stack.")
        if not self.complete:
            told.append(
                f"Not proved best: the search stopped after {self.searched} sums, so a better stack may be"
                " in the drawer. These are the best it met."
            )
        return tuple(told)

    @property
    def closing_nm(self) -> int | None:
        """The size that, added to the best stack, would make the height exact [nm].

        None where that is no help, or where no leaf or shim is so thin.
        """
        best = self.best
        if best is None or not self.reason or len(best.pieces) >= self.most_pieces:
            return None
        if -best.error_nm < THINNEST_NM:
            return None
        return -best.error_nm


def stack_of(pieces: list[Piece], target_nm: int, seating_nm: float) -> Stack:
    """The stack made of these pieces, for a target height [nm] and a seating doubt per contact [nm]."""
    ordered = sorted(pieces, key=lambda piece: (-piece.size_nm, piece.place))
    height = sum(piece.size_nm for piece in ordered)
    variance = math.fsum(piece.standard_nm**2 for piece in ordered) + (len(ordered) + 1) * seating_nm**2
    return Stack(tuple(ordered), height, height - target_nm, math.sqrt(variance))


def _joined(pieces: tuple[Piece, ...]) -> str:
    words: list[str] = []
    times: list[int] = []
    for piece in pieces:
        if words and words[-1] == piece.name:
            times[-1] += 1
        else:
            words.append(piece.name)
            times.append(1)
    return " + ".join(
        word if many == 1 else f"{many} × {word}" for word, many in zip(words, times, strict=True)
    )


def _length(nanometres: int, units: str) -> str:
    return shown_length(nanometres / NANOMETRES_PER_MILLIMETRE)["inch" if units == "inch" else "mm"]
