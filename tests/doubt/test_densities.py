"""The closed forms against folding by brute force."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.doubt.densities import density_of_sum, log_uniform

CASES = [
    (1.0,),
    (1.0, 1.0),
    (2.0, 0.3),
    (1.0, 1.0, 1.0),
    (3.0, 1.0, 0.5, 0.2),
    (1.0, 0.9, 0.9, 0.9),
    (1.0, 0.02),
]


@pytest.mark.parametrize("half_widths", CASES)
def test_against_folding_on_a_grid(half_widths: tuple[float, ...]) -> None:
    """numpy folds the rectangles; three and more may differ by a few per cent of the peak, as is said."""
    step = 0.001
    folded = np.array([1.0 / step])
    for half in half_widths:
        count = 2 * round(half / step) + 1
        folded = np.convolve(folded, np.full(count, 1.0 / count))
    at = (np.arange(len(folded)) - len(folded) // 2) * step
    ours = np.array([density_of_sum(x, half_widths) for x in at])
    allowed = (0.003 if len(half_widths) < 3 else 0.03) * folded.max()
    edges = [
        sum(sign * half for sign, half in zip(signs, half_widths, strict=True))
        for signs in _signs(half_widths)
    ]
    away = np.min(np.abs(at[:, None] - np.array(edges)[None, :]), axis=1)
    inside = away > (0.05 if len(half_widths) < 3 else 0.0)  # a jump lies between two points of the grid
    assert np.abs(ours - folded)[inside].max() <= allowed


def _signs(half_widths: tuple[float, ...]) -> list[tuple[int, ...]]:
    found: list[tuple[int, ...]] = [()]
    for _ in half_widths:
        found = [(*each, sign) for each in found for sign in (-1, 1)]
    return found


@given(st.lists(st.floats(0.0, 10.0), min_size=1, max_size=4), st.floats(-50.0, 50.0))
def test_it_is_a_density(half_widths: list[float], at: float) -> None:
    if max(half_widths) < 1e-6:
        return
    there = density_of_sum(at, half_widths)
    assert there >= 0.0 and math.isfinite(there)
    assert there == pytest.approx(density_of_sum(-at, half_widths), abs=1e-9 / max(half_widths))
    reach = 3.0 * sum(half_widths)
    count = 4001
    whole = (
        sum(density_of_sum(reach * (2 * i / count - 1), half_widths) for i in range(count))
        * 2
        * reach
        / count
    )
    assert whole == pytest.approx(1.0, abs=0.01)


def test_no_error_has_no_density() -> None:
    with pytest.raises(ValueError, match="spread"):
        density_of_sum(0.0, (0.0, 0.0))


def test_log_uniform_adds_up_to_one_and_stays_finite() -> None:
    assert math.isfinite(log_uniform(0.0, 1.0, 100.0))
    count = 20000
    points = (1.0 + 99.0 * (i + 0.5) / count for i in range(count))
    assert sum(log_uniform(x, 1.0, 100.0) for x in points) * 99.0 / count == pytest.approx(1.0, abs=1e-3)
