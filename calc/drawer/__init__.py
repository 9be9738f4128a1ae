"""The drawer: measured and unmeasured pieces, and the search for the best stack of them."""

from __future__ import annotations

from calc.drawer.find import find_stacks
from calc.drawer.lack import Lack, lack_of
from calc.drawer.pieces import FLAT, LEAF, ROUND, SHAPES, Piece
from calc.drawer.reading import KEYS, Drawer, PieceRow, read_drawer, read_row
from calc.drawer.stacks import Found, Limits, Stack

__all__ = [
    "FLAT",
    "KEYS",
    "LEAF",
    "ROUND",
    "SHAPES",
    "Drawer",
    "Found",
    "Lack",
    "Limits",
    "Piece",
    "PieceRow",
    "Stack",
    "find_stacks",
    "lack_of",
    "read_drawer",
    "read_row",
]
