"""Two standards for one taper differ by what their printed numbers say."""

from __future__ import annotations

import pytest

from calc.tables import sizes
from calc.tables.twins import both_standards


@pytest.mark.parametrize("size", ["0", "1", "2", "3", "4", "5", "6"])
def test_morse_metric_and_inch(size: str) -> None:
    """They describe one cone: within 0.0006 mm at the gauge plane (compared table by table).

    And, since 1:x agrees within 0.0006, within 0.0006 / 19² = 1.7 millionths of the length on diameter.
    """
    (difference,) = both_standards("Morse", size)
    (back,) = both_standards("Morse inch", size)
    assert difference.other.name == f"Morse inch {size}"
    assert abs(difference.at_fixed) < 0.0006
    assert 0 < abs(difference.on_diameter) < difference.length * 1.7e-6
    assert back.on_diameter == pytest.approx(-difference.on_diameter)
    assert back.at_fixed == pytest.approx(-difference.at_fixed)


def test_morse_2_by_hand() -> None:
    """0.59941/12 - 1/20.020 over 64 mm: 0.049950833 - 0.049950050 = 7.834e-7, so 0.0000501 mm.

    The ratios are those of the reference tables; the product by hand.
    """
    (difference,) = both_standards("Morse", "2")
    assert difference.length == 64.0
    assert difference.on_diameter == pytest.approx(5.01e-5, abs=5e-8)


def test_brown_and_sharpe_depths_are_one_cone() -> None:
    variants = [size for size in sizes("Brown & Sharpe") if " depth " in size]
    assert {size.split()[0] for size in variants} >= {"7", "9", "10"}
    for size in variants:
        (difference,) = both_standards("Brown & Sharpe", size)
        assert (difference.fixed, difference.at_fixed, difference.on_diameter) == ("small_diameter", 0.0, 0.0)
        assert difference.other.size.split()[0] == size.split()[0]
        assert difference.other.data["length"].value != difference.taper.data["length"].value


def test_seven_in_twenty_four_is_one_cone() -> None:
    (difference,) = both_standards("7/24", "40")
    assert (difference.at_fixed, difference.on_diameter) == (0.0, 0.0)


def test_without_a_twin() -> None:
    assert both_standards("Jarno", "6") == ()
    assert both_standards("Morse inch", "4-1/2") == ()
    assert both_standards("7/24", "65") == ()
    assert both_standards("nobody's", "2") == ()
