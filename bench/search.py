"""Times the stack search, in CPython (`python -m bench.search`) and in the browser's Python.

The drawers come from a seeded generator: drills, pins, blocks and leaves in both systems, as a shed has them.
"""

from __future__ import annotations

import json
import random
import time

from calc.drawer import Limits, Piece, find_stacks

SIZES = (30, 75, 150)
DEPTHS = (3, 4, 5)
TRIALS = 9


def drawer(chance: random.Random, count: int) -> list[Piece]:
    """So many made-up pieces."""
    pieces = []
    for place in range(count):
        shape = chance.choice(("round", "flat", "leaf"))
        top = {"round": 130, "flat": 200, "leaf": 20}[shape]
        step = chance.choice((100_000, 396_875, 254_000) if shape != "leaf" else (50_000, 25_400))
        size = max(step, step * chance.randint(1, top * 100_000 // step)) + chance.randint(-9, 9) * 1000
        pieces.append(Piece(f"piece {place}", shape, max(size, 20_000), 1200.0, True, 1, place))
    return pieces


def measured() -> str:
    """JSON: by pieces and depth the median and the longest time [ms], and whether all were proved best."""
    rows = []
    for count in SIZES:
        for depth in DEPTHS:
            chance = random.Random(f"{count} {depth}")
            times, proved = [], True
            for _ in range(TRIALS):
                pieces, target = drawer(chance, count), chance.randint(1_200_000, 7_000_000)
                begun = time.perf_counter()
                found = find_stacks(pieces, target, Limits(most_pieces=depth))
                times.append((time.perf_counter() - begun) * 1000)
                proved = proved and found.complete
            times.sort()
            rows.append({"pieces": count, "depth": depth, "median": times[TRIALS // 2], "longest": times[-1],
                         "proved": proved})  # fmt: skip
    return json.dumps(rows)


if __name__ == "__main__":
    print(measured())
