"""Times the stack search, in CPython (`python -m bench.search`) and in the browser's Python.

The drawers come from a seeded generator: drills, pins, blocks and leaves in both systems, as a shed has them.
"""

from __future__ import annotations

import json
import time

from calc.drawer import Limits, Piece, find_stacks

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

SIZES = (30, 75, 150)
DEPTHS = (3, 4, 5)
TRIALS = 9


PRIME = 2**31 - 1


class Chance:
    """Seeded chance (Lehmer, Park and Miller's second multiplier): the library's own is not shipped."""

    def __init__(self, seed: str) -> None:
        self.state = 1
        for letter in seed:
            self.state = (self.state * 31 + ord(letter)) % PRIME or 1

    def randint(self, low: int, high: int) -> int:
        """A whole number from low to high."""
        self.state = self.state * 48271 % PRIME
        return low + self.state % (high - low + 1)

    def choice(self, of: Sequence[Any]) -> Any:
        """One of these."""
        return of[self.randint(0, len(of) - 1)]


def drawer(chance: Chance, count: int) -> list[Piece]:
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
            chance = Chance(f"{count} {depth}")
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
