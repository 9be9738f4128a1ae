"""Gauge-block stacks as published: the same total, exactly, from no more blocks than the fewest stated."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from calc.drawer import FLAT, Limits, Piece, find_stacks

PUBLISHED = Path(__file__).parents[1] / "published"
NANOMETRES = {"mm": 1_000_000, "in": 25_400_000}


def rows(name: str) -> list[dict[str, str]]:
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


SETS = {row["set"]: row for row in rows("gauge_block_sets.csv")}
STACKS = rows("gauge_block_stacks.csv")


def nanometres(text: str, unit: str) -> int:
    exact = Fraction(text) * NANOMETRES[unit]
    assert exact.denominator == 1
    return int(exact)


def blocks(name: str) -> list[Piece]:
    unit = SETS[name]["unit"]
    sizes = SETS[name]["sizes"].split()
    return [
        Piece(f"{size} {unit}", FLAT, nanometres(size, unit), 1.0, True, 1, place)
        for place, size in enumerate(sizes)
    ]


@pytest.mark.parametrize("row", STACKS, ids=[f"{row['set']} {row['total']}" for row in STACKS])
def test_published_stack(row: dict[str, str]) -> None:
    """Equal doubts and no seating make the variance the number of blocks, so the fewest blocks rank first."""
    total = nanometres(row["total"], row["unit"])
    published = [nanometres(size, row["unit"]) for size in row["stack"].split()]
    pieces = blocks(row["set"])
    assert sum(published) == total
    assert set(published) <= {piece.size_nm for piece in pieces}
    found = find_stacks(pieces, total, Limits(seating_nm=0.0, told_apart_nm=1), keep=500)
    assert found.complete and found.best is not None
    assert found.best.error_nm == 0
    assert len(found.best.pieces) == int(row["fewest"])
    # All stacks as good as the best were kept, so the published one must be among them.
    assert found.stacks[-1].error_nm or len(found.stacks[-1].pieces) > len(published)
    assert sorted(published) in [sorted(piece.size_nm for piece in stack.pieces) for stack in found.stacks]


def test_every_stack_is_of_a_set_that_is_told() -> None:
    assert STACKS and {row["set"] for row in STACKS} <= set(SETS)
