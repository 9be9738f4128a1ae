"""A dear drawer ends after bounded, counted work, with the best it met and a word that this is not proved."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drawer import FLAT, LEAF, ROUND, Found, Limits, Piece, find_stacks, lack_of
from calc.drawer.stacks import WORK_LIMIT
from tests.drawer.workshop import mixed_drawer

ONE_JOIN_AT_MOST = 1024 * 1024
"""All pairs of 1024 pieces, twice: what one piece of work may add before the limit is looked at."""


def leaves(number: int) -> list[Piece]:
    """So many leaves, every one of another thickness."""
    chance = random.Random(number)
    sizes = chance.sample(range(20_000, 1_000_000), number)
    return [Piece(f"leaf {n}", LEAF, size, 2900.0, False, 2, n) for n, size in enumerate(sizes)]


def grid(shape: str, number: int, step: int, doubts: int) -> list[Piece]:
    """Pieces at even steps, so that a great many sums are alike."""
    return [
        Piece(f"{shape} {n}", shape, step * (n + 1), 2900.0 + n % doubts, False, 2, n) for n in range(number)
    ]


DEAR = {
    "700 leaves, far out of reach": (leaves(700), 25_496_701),
    "700 leaves, within reach": (leaves(700), 2_496_701),
    "700 flats at even steps": (grid(FLAT, 700, 10_000, 1), 25_496_701),
    "1000 flats in inches": (grid(FLAT, 1000, 25_400, 9), 60_000_000),
    "1000 leaves of twenty sizes": (
        [Piece(f"{n}", LEAF, 50_000 * (1 + n % 20), 2900.0 + n, False, 2, n) for n in range(1000)],
        25_496_701,
    ),
    "1000 of all": (
        [
            Piece(f"{n}", (ROUND, FLAT, LEAF)[n % 3], 10_001 * (n + 1), 2000.0 + n, True, 2, n)
            for n in range(1000)
        ],
        25_496_701,
    ),
}


@pytest.mark.parametrize("name", DEAR)
def test_no_drawer_takes_more_than_the_counted_work(name: str) -> None:
    pieces, target = DEAR[name]
    for told in (1, 300):
        found = find_stacks(pieces, target, Limits(told_apart_nm=told))
        assert found.searched <= WORK_LIMIT + ONE_JOIN_AT_MOST
        assert len(found.stacks) == 8
        assert found.complete != any("Not proved best" in note for note in found.notes())


def test_leaves_alone_are_proved_though_many() -> None:
    """At most three go together, so four and five need no look; the highest is the three thickest."""
    pieces = leaves(700)
    found = find_stacks(pieces, 25_496_701)
    assert found.complete and found.best is not None
    thickest = sorted((piece.size_nm for piece in pieces for _ in range(2)), reverse=True)[:3]
    assert found.best.height_nm == sum(thickest)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 20_000), st.integers(500_000, 30_000_000))
def test_what_was_met_is_true_whatever_the_limit(seed: int, limit: int, target: int) -> None:
    """Cut anywhere, stacks keep the rules and are no better than the proved ones; whole, they are these."""
    pieces = mixed_drawer(40, seed)
    proved = find_stacks(pieces, target)
    cut = find_stacks(pieces, target, Limits(work_limit=limit))
    assert proved.complete and cut.stacks
    for stack in cut.stacks:
        shapes = [piece.shape for piece in stack.pieces]
        assert shapes.count(ROUND) <= 1 and shapes.count(LEAF) <= 3 and len(shapes) <= 5
        assert stack.error_nm == sum(piece.size_nm for piece in stack.pieces) - target
    assert abs(cut.stacks[0].error_nm) >= abs(proved.stacks[0].error_nm)
    if cut.complete:
        assert cut.stacks == proved.stacks


def found_in(*sizes: int, target: int) -> Found:
    return find_stacks([Piece(str(n), FLAT, size, 500.0, True, 1, n) for n, size in enumerate(sizes)], target)


def test_no_usable_stack_is_said_with_the_piece_that_helps() -> None:
    """2.597 wanted and 0.1 in the drawer: 2.497 short, which one piece on top would close."""
    lack = lack_of(found_in(100_000, target=2_597_000), 4_000)
    assert lack is not None
    assert lack.line["mm"] == "no stack within 0.004 mm from this drawer: 2.497 mm short"
    assert lack.off_nm == -2_497_000 and lack.on_top_nm == 2_497_000 and lack.alone_nm == 2_597_000
    assert "2.497 mm on top" in lack.way_out["mm"] and "2.597 mm" in lack.way_out["mm"]
    assert " in" in lack.line["inch"] and "mm" not in lack.line["inch"]


def test_a_stack_near_enough_lacks_nothing_and_one_too_high_says_so() -> None:
    assert lack_of(found_in(2_500_000, target=2_496_700), 4_000) is None
    high = lack_of(found_in(3_000_000, target=2_496_700), 4_000)
    assert high is not None and high.on_top_nm is None and "too high" in high.line["mm"]
    assert "on top" not in high.way_out["mm"]
    empty = lack_of(find_stacks([], 2_496_700), 4_000)
    assert empty is not None and empty.off_nm == -2_496_700
    assert lack_of(find_stacks([], 0), 4_000) is None


@given(st.lists(st.integers(1, 5_000_000), min_size=1, max_size=6), st.integers(1, 9_000_000))
def test_the_piece_said_to_help_does(sizes: list[int], target: int) -> None:
    """Put into the drawer, it makes the height to the nanometre."""
    lack = lack_of(found_in(*sizes, target=target), 1000)
    if lack is None:
        return
    for piece in (lack.alone_nm, lack.on_top_nm):
        if piece is not None:
            best = found_in(*sizes, piece, target=target).best
            assert best is not None and best.error_nm == 0
