"""One piece of a drawer: a drill, a pin, a block or a leaf, with the size it is trusted to have.

Sizes are whole nanometres [nm]: 0.001 mm is 1000 and 0.00001 in is 254, so sums of millimetre and inch
pieces are exact, and the search never has to ask whether two floats are equal.
"""

from __future__ import annotations

from dataclasses import dataclass

ROUND = "round"
FLAT = "flat"
LEAF = "leaf"
SHAPES = (ROUND, FLAT, LEAF)

NANOMETRES_PER_MILLIMETRE = 1_000_000
LARGEST_PIECE_NM = 1_000 * NANOMETRES_PER_MILLIMETRE
MOST_OF_ONE_PIECE = 99


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece that can go into a stack.

    name: what the person calls it, for example "4.2 drill".
    shape: "round" (drill, pin, roller), "flat" (block, parallel, shim plate) or "leaf" (feeler leaf).
    size_nm: measured size, or the best estimate of a piece not measured [nm, whole].
    standard_nm: standard uncertainty of that size [nm].
    measured: whether the size was measured or is taken from what such a piece is sold as.
    count: how many of it there are.
    place: its position in the drawer as sent, counted from 0.
    """

    name: str
    shape: str
    size_nm: int
    standard_nm: float
    measured: bool
    count: int = 1
    place: int = 0

    @property
    def size_mm(self) -> float:
        """The size [mm]."""
        return self.size_nm / NANOMETRES_PER_MILLIMETRE
