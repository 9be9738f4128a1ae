"""The best stacks against every allowed combination, sorted (an independent search in brute.py)."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drawer import FLAT, LEAF, ROUND, Limits, Piece, find_stacks
from calc.drawer.groups import MOST_GROUPS, group
from drawer.brute import best_keys, brute_key, every_stack
from drawer.workshop import mixed_drawer

DOUBTS = (
    (0.0,),
    (1000.0,),
    (260.0, 1466.5),
    (0.0, 100.0, 1000.0, 3000.0),
    (137.1, 999.9, 1466.5, 2001.7, 2886.8, 5196.2),
)


def random_case(seed: int) -> tuple[list[Piece], int, Limits, int]:
    """A small drawer, a height, limits and how many to keep."""
    chance = random.Random(seed)
    grain = chance.choice([1, 1, 100, 25_400, 1_000_000])
    most = chance.choice([5, 12, 60, 2000])
    doubts = chance.choice(DOUBTS)
    pieces = [
        Piece(
            f"piece {place}",
            chance.choice([ROUND, FLAT, FLAT, LEAF]),
            chance.randint(1, most) * grain,
            chance.choice(doubts),
            True,
            chance.choice([1, 1, 1, 2, 3]),
            place,
        )
        for place in range(chance.randint(1, 9))
    ]
    while sum(piece.count for piece in pieces) > 11:
        pieces.pop()
    limits = Limits(
        most_pieces=chance.randint(1, 5),
        most_leaves=chance.randint(0, 3),
        seating_nm=chance.choice([0.0, 500.0, 1000.0]),
        told_apart_nm=chance.choice([1, 2, 3, 10, 400, 1000, 1_000_000]),
    )
    target = chance.choice(
        [
            chance.randint(1, most * grain * 5),
            chance.randint(1, most * 5) * grain,
            sum(piece.size_nm for piece in pieces[:3]),
        ]
    )
    return pieces, target, limits, chance.choice([8, 8, 1, 3])


def check(pieces: list[Piece], target: int, limits: Limits, keep: int = 8) -> None:
    """Keys equal to brute force, proof whole, every rule kept, no stack twice."""
    found = find_stacks(pieces, target, limits, keep)
    assert found.complete
    got = [brute_key(stack.pieces, target, limits) for stack in found.stacks]
    assert got == best_keys(pieces, target, limits, keep)
    seen = set()
    for stack in found.stacks:
        shapes = [piece.shape for piece in stack.pieces]
        assert 1 <= len(shapes) <= limits.most_pieces
        assert shapes.count(ROUND) <= 1
        assert shapes.count(LEAF) <= limits.most_leaves
        for piece in stack.pieces:
            assert stack.pieces.count(piece) <= piece.count
        assert stack.height_nm == sum(piece.size_nm for piece in stack.pieces)
        assert stack.error_nm == stack.height_nm - target
        variance = sum(piece.standard_nm**2 for piece in stack.pieces)
        variance += (len(shapes) + 1) * limits.seating_nm**2
        assert stack.standard_nm == pytest.approx(variance**0.5, rel=1e-12)
        seen.add(tuple(sorted((piece.size_nm, piece.shape, piece.standard_nm) for piece in stack.pieces)))
    assert len(seen) == len(found.stacks)


@pytest.mark.parametrize("start", range(0, 3000, 500))
def test_random_small_drawers(start: int) -> None:
    for seed in range(start, start + 500):
        check(*random_case(seed))


@pytest.mark.deep
@pytest.mark.parametrize("start", range(100_000, 140_000, 5000))
def test_many_more_random_small_drawers(start: int) -> None:
    for seed in range(start, start + 5000):
        check(*random_case(seed))


def drawers() -> st.SearchStrategy[list[Piece]]:
    """Up to seven pieces of few sizes, so that ties and equal sums are common."""
    piece = st.tuples(
        st.sampled_from([ROUND, FLAT, LEAF]),
        st.integers(1, 12) | st.sampled_from([2540, 2500, 25_400, 1_000_000]),
        st.sampled_from([0.0, 1.0, 2.0]),
        st.integers(0, 2),
    )
    return st.lists(piece, max_size=7).map(
        lambda rows: [
            Piece(f"p{place}", shape, size, doubt, True, count, place)
            for place, (shape, size, doubt, count) in enumerate(rows)
        ]
    )


def all_limits() -> st.SearchStrategy[Limits]:
    return st.builds(
        Limits,
        most_pieces=st.integers(1, 5),
        most_leaves=st.integers(0, 3),
        seating_nm=st.sampled_from([0.0, 1.0]),
        told_apart_nm=st.integers(1, 12),
    )


@settings(max_examples=150, deadline=None)
@given(drawers(), st.integers(1, 80) | st.integers(1, 3_000_000), all_limits())
def test_any_small_drawer(pieces: list[Piece], target: int, limits: Limits) -> None:
    check(pieces, target, limits)


@settings(max_examples=150, deadline=None)
@given(drawers(), st.integers(1, 60), all_limits(), st.randoms(use_true_random=False))
def test_the_order_of_the_drawer_does_not_matter(
    pieces: list[Piece], target: int, limits: Limits, chance: random.Random
) -> None:
    """The same pieces shuffled give the same stacks, down to size, shape and doubt, in the same order."""

    def signature(drawer: list[Piece]) -> list[list[tuple[int, str, float]]]:
        found = find_stacks(drawer, target, limits)
        return [
            sorted((piece.size_nm, piece.shape, piece.standard_nm) for piece in stack.pieces)
            for stack in found.stacks
        ]

    shuffled = list(pieces)
    chance.shuffle(shuffled)
    assert signature(shuffled) == signature(pieces)


@pytest.mark.parametrize("seed", range(40))
def test_nearest_sum(seed: int) -> None:
    """The smallest error of all combinations, whatever its doubt."""
    pieces, target, limits, _ = random_case(seed + 9000)
    allowed = every_stack(pieces, limits)
    exact = Limits(limits.most_pieces, limits.most_leaves, limits.seating_nm, 1)
    found = find_stacks(pieces, target, exact, keep=1).best
    if not allowed:
        assert found is None
        return
    assert found is not None
    assert abs(found.error_nm) == min(
        abs(sum(piece.size_nm for piece in chosen) - target) for chosen in allowed
    )


@pytest.mark.parametrize(("number", "seed"), [(12, 1), (14, 2), (17, 3), (15, 4)])
def test_flat_drawers_with_every_doubt_different(number: int, seed: int) -> None:
    """Nothing but flat pieces, so that the sieve for five pieces decides; no two as certain as each other."""
    chance = random.Random(seed)
    pieces = [
        Piece(f"p{place}", FLAT, chance.randint(1, 40_000), chance.uniform(0.0, 50.0), True, 1, place)
        for place in range(number)
    ]
    limits = Limits(seating_nm=chance.choice([0.0, 5.0]), told_apart_nm=chance.choice([1, 7, 40]))
    for target in (chance.randint(1, 40_000), 60_000, 100_000, 140_000):
        check(pieces, target, limits)


@pytest.mark.parametrize("seed", range(6))
def test_flat_drawers_of_big_pieces(seed: int) -> None:
    """Sizes so big that the sieve's places are many nanometres wide: a place too few would lose a stack."""
    chance = random.Random(seed)
    pieces = [
        Piece(f"p{place}", FLAT, chance.randint(1, 40_000_000), 1000.0, True, 1, place) for place in range(15)
    ]
    for target in (60_000_000, 100_000_001, 120_000_000):
        check(pieces, target, Limits(told_apart_nm=chance.choice([1, 400])))


@pytest.mark.parametrize(
    ("target", "told"), [(2_496_700, 400), (5_016_400, 1), (900_000, 50), (16_000_000, 3)]
)
def test_a_drawer_of_twenty_whole(target: int, told: int) -> None:
    """Drills, leaves and blocks as in a shed, some twenty thousand stacks, sorted whole."""
    check(mixed_drawer(20, told), target, Limits(told_apart_nm=told))


@pytest.mark.parametrize("seed", range(12))
def test_a_stack_of_five_that_was_put_together_is_found_again(seed: int) -> None:
    """Sizes of no common grain, so that hardly two stacks come to the same height; the drill big or small."""
    chance = random.Random(seed)
    sizes = chance.sample(range(900_001, 9_000_001), 16)
    pieces = [
        Piece(f"piece {place}", ROUND if place < 3 else FLAT, size, 0.0, True, 1, place)
        for place, size in enumerate(sorted(sizes, reverse=bool(seed % 2)))
    ]
    chosen = [pieces[seed % 3], *chance.sample(pieces[3:], 4)]
    target = sum(piece.size_nm for piece in chosen)
    found = find_stacks(pieces, target, Limits(most_pieces=5, told_apart_nm=1), 1).best
    assert found is not None and found.error_nm == 0
    assert len(found.pieces) < 5 or sorted(found.pieces, key=lambda one: one.place) == sorted(
        chosen, key=lambda one: one.place
    )


def test_no_more_groups_than_can_be_searched_leave_none_out() -> None:
    for more in (0, 1):
        pieces = [
            Piece("leaf", LEAF, size, 0.0, True, 1, size) for size in range(1, MOST_GROUPS + more + 1)
        ]
        gathered = group(pieces, 1, 1)
        assert len(gathered.sizes) == MOST_GROUPS
        assert gathered.left_out is bool(more)
        assert gathered.sizes == list(range(1, MOST_GROUPS + 1))
