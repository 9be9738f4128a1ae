"""Invented drawers of any size, mixed inch and metric, for tests of the search."""

from __future__ import annotations

import random

from calc.drawer import Piece

# In units of 10 nm, which both 0.0001 mm and 0.0001 in (2540 nm) are whole multiples of.
GRID = 10


def mixed_drawer(number: int, seed: int) -> list[Piece]:
    """So many pieces: half drills, a quarter leaves, a quarter blocks; a third of all in inches."""
    chance = random.Random(seed)
    pieces: list[Piece] = []
    for place in range(number):
        inch = chance.random() < 1 / 3
        kind = place % 4
        if kind < 2:
            size = chance.randint(400, 5000) * 2540 if inch else chance.randint(10, 130) * 100_000
            size -= chance.randint(0, 60) * 100
            doubt = chance.choice([1466.5, 1466.5, 4041.5])
            pieces.append(Piece(f"drill {place}", "round", size, doubt, True, 1, place))
        elif kind == 2:
            size = chance.randint(2, 25) * 25400 if inch else chance.randint(1, 20) * 50_000
            size += chance.randint(-20, 20) * 100
            pieces.append(
                Piece(f"leaf {place}", "leaf", size, chance.choice([1466.5, 2886.8]), True, 1, place)
            )
        else:
            size = chance.randint(50, 300) * 25400 if inch else chance.randint(100, 1000) * 10_000
            pieces.append(
                Piece(f"block {place}", "flat", size, chance.choice([260.0, 1466.5]), True, 1, place)
            )
    return pieces
