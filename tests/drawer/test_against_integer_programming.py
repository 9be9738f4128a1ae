"""The best stack against an integer-programming solver (SciPy's milp, which is HiGHS).

Two linear programmes: the smallest error step first, then within that step the smallest variance. The
solver's stack is rounded to whole pieces and evaluated exactly, so its tolerances do not count for us or
against us.
"""

from __future__ import annotations

import numpy
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from calc.drawer import LEAF, ROUND, Limits, Piece, find_stacks
from drawer.brute import brute_key
from drawer.workshop import GRID, mixed_drawer

TARGETS = (2_496_700, 5_016_400, 8_715_500, 1_437_000)


def solved(pieces: list[Piece], target: int, limits: Limits) -> tuple[int, tuple[Piece, ...]]:
    """The smallest error step, and a stack of the smallest variance in it."""
    number = len(pieces)
    sizes = numpy.array([piece.size_nm // GRID for piece in pieces], dtype=float)
    ones = numpy.ones(number)
    rounds = numpy.array([piece.shape == ROUND for piece in pieces], dtype=float)
    leaves = numpy.array([piece.shape == LEAF for piece in pieces], dtype=float)
    told = limits.told_apart_nm / GRID
    wanted = target / GRID

    def rules(extra: int) -> list[LinearConstraint]:
        def wide(row: numpy.ndarray) -> numpy.ndarray:
            return numpy.concatenate([row, numpy.zeros(extra)])

        return [
            LinearConstraint(wide(ones), 1, limits.most_pieces),
            LinearConstraint(wide(rounds), 0, 1),
            LinearConstraint(wide(leaves), 0, limits.most_leaves),
        ]

    # Unknowns: how many of each piece, and the step. Half a grid unit keeps the step's edge off whole
    # numbers.
    upper = LinearConstraint(numpy.append(sizes, -told), -numpy.inf, wanted + told - 0.5)
    lower = LinearConstraint(numpy.append(sizes, told), wanted - told + 0.5, numpy.inf)
    counts = [float(piece.count) for piece in pieces]
    first = milp(
        numpy.append(numpy.zeros(number), 1.0),
        constraints=[*rules(1), upper, lower],
        integrality=numpy.ones(number + 1),
        bounds=Bounds(numpy.zeros(number + 1), [*counts, numpy.inf]),
        options={"mip_rel_gap": 0.0},
    )
    assert first.status == 0, first.message
    step = round(first.x[-1])
    within = LinearConstraint(sizes, wanted - (step + 1) * told + 0.5, wanted + (step + 1) * told - 0.5)
    seat = limits.seating_nm**2
    doubt = numpy.array([piece.standard_nm**2 + seat for piece in pieces]) / 1e6
    second = milp(
        doubt,
        constraints=[*rules(0), within],
        integrality=numpy.ones(number),
        bounds=Bounds(numpy.zeros(number), counts),
        options={"mip_rel_gap": 0.0},
    )
    assert second.status == 0, second.message
    chosen: list[Piece] = []
    for piece, many in zip(pieces, second.x, strict=True):
        chosen += [piece] * round(many)
    return step, tuple(chosen)


def check(number: int, target: int, limits: Limits, seed: int) -> None:
    pieces = mixed_drawer(number, seed)
    found = find_stacks(pieces, target, limits)
    assert found.complete and found.best is not None
    ours = brute_key(found.best.pieces, target, limits)
    step, theirs = solved(pieces, target, limits)
    assert ours[0] == step
    assert ours[:2] == brute_key(theirs, target, limits)[:2]


@pytest.mark.parametrize("target", TARGETS)
@pytest.mark.parametrize("number", [10, 20, 40])
@pytest.mark.parametrize("depth", [3, 5])
def test_drawers_up_to_forty(number: int, target: int, depth: int) -> None:
    check(number, target, Limits(most_pieces=depth, told_apart_nm=400), number + depth)


@pytest.mark.parametrize(
    ("number", "target", "depth"), [(80, 2_496_700, 5), (120, 2_496_700, 5), (120, 5_016_400, 4)]
)
def test_big_drawers(number: int, target: int, depth: int) -> None:
    check(number, target, Limits(most_pieces=depth, told_apart_nm=400), number + depth)


@pytest.mark.deep
@pytest.mark.parametrize("target", TARGETS)
@pytest.mark.parametrize("number", [60, 80, 100, 120])
def test_bigger_drawers_at_every_height(number: int, target: int) -> None:
    check(number, target, Limits(told_apart_nm=400), number)
