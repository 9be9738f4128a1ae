"""Chances of sums of rectangular doubts: closed forms, and draws by the hundred thousand."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.doubt.chance import chance_inside

SHAPES = (
    [3.0],
    [3.0, 0.01],
    [3.0, 1.0],
    [5.0, 5.0],
    [1.0, 2.0, 3.0, 4.0],
    [8.0, 3.0, 3.0, 2.0, 2.0, 1.0, 1.0, 0.5, 0.2, 0.1],
)


def irwin_hall(count: int, up_to: Fraction) -> Fraction:
    """Chance that a sum of `count` numbers, each anywhere from 0 to 1, is at most this (Irwin, Hall 1927)."""
    terms = [(-1) ** k * math.comb(count, k) * (up_to - k) ** count for k in range(math.floor(up_to) + 1)]
    return sum(terms, Fraction(0)) / math.factorial(count)


@pytest.mark.parametrize("count", range(2, 13))
def test_alike_parts_against_irwin_and_hall(count: int) -> None:
    for tenths in range(1, 10 * count, 3):
        limit = Fraction(tenths, 10)
        exact = float(irwin_hall(count, limit))
        # The sum of numbers from 0 to 1 is half the count, give or take halves.
        got = chance_inside(-1.0, float(limit), 0.5 * count, [0.5] * count)
        assert got == pytest.approx(exact, abs=1e-3 if count == 2 else 1e-5)


def test_two_unlike_parts_against_the_trapezium() -> None:
    """The sum of ± 5 and ± 2 is level from -3 to 3 and falls straight to 7."""
    assert chance_inside(-3.0, 3.0, 0.0, [5.0, 2.0]) == pytest.approx(0.6, abs=1e-3)
    assert chance_inside(3.0, 7.0, 0.0, [5.0, 2.0]) == pytest.approx(0.2, abs=1e-3)


def test_a_part_too_small_to_count() -> None:
    assert chance_inside(-1.0, 1.0, 0.0, [2.0, 5e-324]) == pytest.approx(0.5)
    assert chance_inside(-1.0, 1.0, 0.0, [5e-324, 5e-324]) == 1.0
    assert chance_inside(-1.0, 1.0, 0.0, [1e-30], [[(0.0, 1e-30)]]) == 1.0


def test_a_single_part_and_none() -> None:
    assert chance_inside(-1.0, 2.0, 0.5, [2.0]) == pytest.approx(0.75)
    assert chance_inside(-1.0, 2.0, 0.5, []) == 1.0
    assert chance_inside(-1.0, 0.4, 0.5, [0.0, 0.0]) == 0.0


def drawn(shape: list[float], count: int, seed: int) -> tuple[np.random.Generator, np.ndarray]:
    draw = np.random.default_rng(seed)
    return draw, sum((draw.uniform(-half, half, count) for half in shape), np.zeros(count))


def _against_draws(count: int) -> None:
    for place, shape in enumerate(SHAPES):
        _, total = drawn(shape, count, place)
        for low, high in ((-2.0, 2.0), (1.0, 4.0), (-9.0, 0.3)):
            share = np.count_nonzero((total >= low) & (total <= high)) / count
            spread = math.sqrt(max(share * (1.0 - share), 1e-4) / count)
            assert chance_inside(low, high, 0.0, shape) == pytest.approx(share, abs=5.0 * spread + 5e-4)


def test_against_a_hundred_thousand_draws() -> None:
    _against_draws(100_000)


@pytest.mark.deep
def test_against_a_million_draws() -> None:
    _against_draws(1_000_000)


def test_a_one_sided_part_against_draws() -> None:
    """A part of two unlike strips beside rectangular ones."""
    draw, total = drawn([0.5, 1.0], 200_000, 9)
    strips = [(-3.0, 0.5), (-1.0, 1.0)]
    which = draw.integers(0, 2, total.size)
    for place, (middle, half) in enumerate(strips):
        total = total + np.where(which == place, middle + draw.uniform(-half, half, total.size), 0.0)
    for low, high in ((-9.0, -2.0), (-2.0, 0.0), (-0.5, 3.0)):
        share = np.count_nonzero((total >= low) & (total <= high)) / total.size
        assert chance_inside(low, high, 0.0, [0.5, 1.0], [strips]) == pytest.approx(share, abs=0.006)


halves = st.lists(st.floats(0.0, 10.0), min_size=1, max_size=9)


@given(halves, st.floats(-20, 20), st.floats(0, 20), st.floats(-5, 5))
def test_law_chances_of_neighbours_add_up(parts: list[float], low: float, wide: float, centre: float) -> None:
    below = chance_inside(-1e3, low, centre, parts)
    inside = chance_inside(low, low + wide, centre, parts)
    above = chance_inside(low + wide, 1e3, centre, parts)
    assert all(0.0 <= each <= 1.0 for each in (below, inside, above))
    if max(parts) > 1e-6:  # of a sum without spread the bound itself is counted on both sides
        assert below + inside + above == pytest.approx(1.0, abs=5e-3)


@given(halves, st.floats(0, 20))
def test_law_either_side_alike(parts: list[float], limit: float) -> None:
    assert chance_inside(-limit, 0.1, 0.0, parts) == pytest.approx(
        chance_inside(-0.1, limit, 0.0, parts), abs=1e-6
    )
