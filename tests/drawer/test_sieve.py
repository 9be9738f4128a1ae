"""The sieve may keep too much, but must never lose a pair of pairs whose sum is inside the window."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from calc.drawer.sieve import surviving_places


@given(
    st.integers(1, 2000),
    st.integers(0, 100_000),
    st.integers(0, 100_000),
    st.integers(0, 5000),
    st.integers(-5000, 5000),
)
def test_no_sum_inside_the_window_is_lost(
    width: int, lower: int, upper: int, within: int, error: int
) -> None:
    """One lower and one upper pair; the window is placed so that their sum is off by `error`."""
    around = lower + upper - error
    top = (max(around, 0) + within) // width + 1
    if max(lower, upper) > around + within:
        return
    below = 1 << (top - lower // width)
    above = 1 << (upper // width)
    kept = surviving_places(below, above, around, within, width, top)
    if abs(error) <= within:
        assert kept == above
    elif abs(error) > within + 2 * width:
        assert kept == 0
