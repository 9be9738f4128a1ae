"""What the last decimal typed is worth: told by the text, not by the number."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.quantities import read_length


@pytest.mark.parametrize(
    ("text", "unit", "worth"),
    [
        ("0.7 mm", "mm", 0.1),
        ("0.700 mm", "mm", 0.001),
        ("34,90", "mm", 0.01),
        (".6in", "mm", 2.54),
        ("0.0625", "in", 0.00254),
        ("1.5 thou", "mm", 0.00254),
        ("0.25 millimetres", "mm", 0.01),
        ("7 mm", "mm", 0.0),
        ("1-3/8 in", "mm", 0.0),
        ("½ in", "mm", 0.0),
        ("4.2mm + 6thou", "mm", 0.0),
    ],
)
def test_one_in_the_last_decimal(text: str, unit: str, worth: float) -> None:
    """By hand; whole numbers, fractions and sums do not tell how finely they were read."""
    assert read_length(text, unit).resolution == pytest.approx(worth, abs=1e-15)


@given(st.integers(1, 10**6), st.integers(1, 6), st.sampled_from(["mm", "in"]))
def test_a_nought_more_is_ten_times_finer(digits: int, places: int, unit: str) -> None:
    text = f"{digits // 10**places}.{digits % 10**places:0{places}d}"
    coarse, fine = read_length(text, unit), read_length(text + "0", unit)
    assert coarse.exact == fine.exact
    assert fine.resolution == pytest.approx(coarse.resolution / 10.0)
