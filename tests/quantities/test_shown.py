"""How many digits are shown, against the `uncertainties` package, and that what is shown reads back.

Rule: Particle Data Group, Review of Particle Physics, Introduction, "Rounding"; `uncertainties` (public, BSD)
implements the same rule independently.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from calc.quantities import (
    plus_minus_angle,
    plus_minus_length,
    plus_minus_micrometres,
    plus_minus_rate,
    read_angle,
    read_length,
    read_rate,
    round_like,
    shown_angle,
    shown_length,
    shown_micrometres,
    shown_rate,
)

values = st.floats(-1e4, 1e4)
spreads = st.floats(-7.5, 1.5).map(lambda power: 10.0**power)
optional_spreads = st.none() | spreads


# Below 10, where that package stops at whole units and the rule goes on to tens.
# Four digits and a half, so that no case lies on a fence of the rule, where the last bit of a float decides.
rule_spreads = st.tuples(st.integers(1000, 9999), st.integers(3, 9)).map(
    lambda pair: (pair[0] + 0.5) / 10.0 ** pair[1]
)


@given(values, rule_spreads)
def test_digits_are_those_of_the_uncertainties_package(value: float, spread: float) -> None:
    theirs, their_spread = f"{ufloat(value, spread):f}".split("+/-")
    ours, our_spread = round_like(value, spread)
    assert our_spread == their_spread
    assert ours == (theirs.lstrip("-") if not theirs.strip("-0.") else theirs)


@pytest.mark.parametrize(
    ("value", "spread", "expected"),
    [
        # The three cases of the rule's own text: 0.827 ± 0.119, ± 0.367, and the fence at 949 | 950.
        (0.827, 0.119, ("0.83", "0.12")),
        (0.827, 0.367, ("0.8", "0.4")),
        (0.827, 0.354, ("0.83", "0.35")),
        (0.827, 0.355, ("0.8", "0.4")),
        (0.827, 0.0949, ("0.83", "0.09")),
        (0.827, 0.949, ("0.8", "0.9")),
        (0.827, 0.950, ("0.8", "1.0")),
        (0.827, 0.0095, ("0.827", "0.010")),
        (0.827, 0.0951, ("0.83", "0.10")),
        (0.8274, 0.000962, ("0.8274", "0.0010")),
        (0.827, 0.0354, ("0.827", "0.035")),
        (0.827, 0.0356, ("0.83", "0.04")),
        (1234.5, 120.0, ("1230", "120")),
        (1255.0, 420.0, ("1300", "400")),
        (-0.0004, 0.05, ("0.00", "0.05")),
    ],
)
def test_rounding_rule(value: float, spread: float, expected: tuple[str, str]) -> None:
    assert round_like(value, spread) == expected


def last_place(text: str) -> Fraction:
    """One unit of the last digit of a decimal text."""
    return Fraction(1, 10 ** len(text.partition(".")[2]))


def half_unit(text: str, spread: float = 0.0) -> float:
    """Half of the last place shown; where that is tens or more, half of the first place of `spread`."""
    place = float(last_place(text))
    if place == 1 and spread >= 9.5:
        place = 10.0 ** math.floor(math.log10(spread * 1.06))
    return place * (0.5 + 1e-6) + 1e-12


@given(values, optional_spreads)
def test_a_shown_length_reads_back_within_half_its_last_digit(mm: float, spread: float | None) -> None:
    for system, unit in (("mm", 1.0), ("inch", 25.4)):
        text = shown_length(mm, spread)[system]
        off = abs(read_length(text).value - mm) / unit
        assert off <= half_unit(text.split()[0], (spread or 0) / unit)
        assert not text.startswith("-0.0") or text.split()[0].strip("-0.")


@given(values, spreads)
def test_no_more_digits_than_the_spread_supports(mm: float, spread: float) -> None:
    for system, unit in (("mm", 1.0), ("inch", 25.4)):
        text = shown_length(mm, spread)[system].split()[0]
        stated = plus_minus_length(spread)[system].split()[1]
        assert last_place(text) == last_place(stated)
        # The rule keeps two digits of the ± at most, so its last place is never below a 35.5th of it.
        assert float(last_place(text)) >= spread / unit / 35.5 or last_place(text) == 1


@given(st.floats(-1.5, 1.5), st.none() | st.floats(-7.0, -0.5).map(lambda power: 10.0**power))
def test_a_shown_angle_reads_back_in_both_its_forms(radians: float, spread: float | None) -> None:
    text = shown_angle(radians, spread)["mm"]
    assert shown_angle(radians, spread)["inch"] == text
    first, _, second = text.rstrip(")").partition(" (")
    degrees = math.degrees(radians)
    assert abs(float(read_angle(first).exact) - degrees) <= half_unit(first.rstrip("°"))
    if second:
        before, worth = ("'", 3600) if second[-1] == '"' else ("°", 60)
        last = second[:-1].rpartition(before)[2]
        assert abs(float(read_angle(second).exact) - degrees) * worth <= half_unit(last)
    else:
        assert spread is not None and spread > 0.01


@given(
    st.floats(0.001, 2.0) | st.floats(-2.0, -0.001),
    st.none() | st.floats(-7.0, -2.0).map(lambda power: 10.0**power),
)
def test_a_shown_rate_reads_back(ratio: float, spread: float | None) -> None:
    shown = shown_rate(ratio, spread)
    foot = shown["inch"]
    assert abs(read_rate(foot).value * 12 - ratio * 12) <= half_unit(foot.split()[0])
    one_in, _, percent = shown["mm"].rstrip(")").rpartition(" (")
    assert abs(read_rate(percent).value * 100 - ratio * 100) <= half_unit(percent.split()[0])
    if one_in:
        assert read_rate(one_in).value * ratio > 0
        off = abs(1 / read_rate(one_in).value - 1 / ratio)
        assert off <= half_unit(one_in.partition(":")[2], (spread or 0) / ratio**2)
    else:
        assert spread is not None and spread >= abs(ratio)


@given(st.floats(-3.0, 3.0), st.none() | st.floats(-5.0, -0.5).map(lambda power: 10.0**power))
def test_a_shown_small_error_reads_back_with_its_sign(mm: float, spread: float | None) -> None:
    shown = shown_micrometres(mm, spread)
    sizes = {"µm": 0.001, "mm": 1.0, "tenths": 0.00254, "in": 25.4}
    for text in shown.values():
        number, name = text.split()
        off = abs(read_length(text).value - mm) / sizes[name]
        assert off <= half_unit(number.lstrip("+-"), (spread or 0) / sizes[name])
        assert (number[0] == "+") == (Fraction(number) > 0)
        assert (number[0] == "-") == (Fraction(number) < 0)


def test_how_it_looks() -> None:
    # From the rule by hand: ± 0.0025 mm keeps two digits; in inches ± 0.0000984 becomes ± 0.00010.
    assert shown_length(2.4967123, 0.0025) == {"mm": "2.4967 mm", "inch": "0.09830 in"}
    assert plus_minus_length(0.0025) == {"mm": "± 0.0025 mm", "inch": "± 0.00010 in"}
    assert shown_length(34.9) == {"mm": "34.90 mm", "inch": "1.37402 in"}
    assert shown_length(25.4) == {"mm": "25.40 mm", "inch": "1.000 in"}
    assert shown_length(-0.00001) == {"mm": "0.00 mm", "inch": "0.000 in"}
    # Half the included angle of 1:20.020 is atan(1 / 40.040) = 1.430666 degrees = 1 degree 25 minutes 50.4".
    assert shown_angle(math.atan(1 / 40.04))["mm"] == "1.4307° (1°25'50\")"
    # ± 0.00001 rad is ± 0.00057 degrees or ± 2.1"; ± 0.0002 rad is ± 0.011 degrees, ± 41" or ± 0.69'.
    assert shown_angle(math.atan(1 / 40.04), 1e-5)["mm"] == "1.4307° (1°25'50.4\")"
    assert shown_angle(math.atan(1 / 40.04), 2e-4)["mm"] == "1.431° (1°25.8')"
    assert shown_angle(math.radians(1.99999))["mm"] == "2.00° (2°0'0\")"
    assert shown_angle(math.radians(-0.5), math.radians(0.02))["mm"] == "-0.500° (-0°30.0')"
    assert shown_rate(1 / 20.02) == {"mm": "1:20.020 (4.995 %)", "inch": "0.59940 in/ft"}
    assert shown_rate(-0.05)["mm"] == "-1:20.000 (-5.000 %)"
    assert shown_rate(0.0) == {"mm": "0.000 %", "inch": "0.00000 in/ft"}
    assert shown_rate(0.001, 0.002)["mm"] == "0.10 %"
    assert plus_minus_rate(0.0001) == {"mm": "± 0.010 %", "inch": "± 0.0012 in/ft"}
    assert plus_minus_angle(math.radians(0.002))["inch"] == "± 0.0020°"
    # 2.54 µm is a tenth.
    assert shown_micrometres(0.0012) == {"mm": "+1.2 µm", "inch": "+0.5 tenths"}
    assert shown_micrometres(-0.0127, 0.004) == {"mm": "-13 µm", "inch": "-5.0 tenths"}
    assert shown_micrometres(1.5) == {"mm": "+1.500 mm", "inch": "+0.059 in"}
    assert shown_micrometres(0.0) == {"mm": "0.0 µm", "inch": "0.0 tenths"}
    assert plus_minus_micrometres(0.004) == {"mm": "± 4 µm", "inch": "± 1.6 tenths"}


def test_past_ten_tenths_a_small_error_is_said_in_inches() -> None:
    """0.0001 in is a tenth by its definition; 0.254 mm is 0.010 in and 0.0254 mm 0.001 in, both exactly."""
    assert shown_micrometres(0.0254)["inch"] == "+10.0 tenths"
    assert shown_micrometres(-0.0762) == {"mm": "-76.2 µm", "inch": "-0.0030 in"}
    assert shown_micrometres(0.0508, 0.00254) == {"mm": "+50.8 µm", "inch": "+0.00200 in"}
    assert plus_minus_micrometres(0.254) == {"mm": "± 250 µm", "inch": "± 0.010 in"}
    assert plus_minus_micrometres(0.0127)["inch"] == "± 5 tenths"


@pytest.mark.parametrize("odd", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_said_so(odd: float) -> None:
    for show in (shown_length, shown_angle, shown_rate, shown_micrometres):
        assert set(show(odd).values()) == {"not known"}
        assert show(1.0, odd) == show(1.0)
    for spread in (plus_minus_length, plus_minus_angle, plus_minus_rate, plus_minus_micrometres):
        assert set(spread(odd).values()) == {""}
        assert spread(0.0) == spread(None) == {"mm": "", "inch": ""}
    assert round_like(odd, 0.1)[0] == "not known"
    assert round_like(2.0, odd) == ("2.0000", "")


@given(st.floats(allow_nan=True, allow_infinity=True), st.floats(allow_nan=True, allow_infinity=True))
def test_showing_never_fails(value: float, spread: float) -> None:
    for show in (shown_length, shown_angle, shown_rate, shown_micrometres):
        shown = show(value, spread)
        assert set(shown) == {"mm", "inch"}
        assert all(shown.values())


def test_a_spread_finer_than_any_gauge_is_rounded_up() -> None:
    """A tenth of a micrometre and 0.00001 in are the finest a length is shown to: our own stated policy."""
    assert plus_minus_length(1e-9) == {"mm": "± 0.0001 mm", "inch": "± 0.00001 in"}
    assert shown_length(1.0, 1e-9) == {"mm": "1.0000 mm", "inch": "0.03937 in"}


def test_small_errors_stop_at_a_hundredth_of_their_unit_and_large_ones_at_that_of_a_length() -> None:
    # 2.54 µm is a tenth and 2.54 mm a tenth of an inch; ± 0.002 mm is ± 0.0000787 in, one digit by the rule.
    assert plus_minus_micrometres(1e-9) == {"mm": "± 0.01 µm", "inch": "± 0.01 tenths"}
    assert shown_micrometres(0.00254, 1e-9) == {"mm": "+2.54 µm", "inch": "+1.00 tenths"}
    assert shown_micrometres(2.54, 0.002) == {"mm": "+2.5400 mm", "inch": "+0.10000 in"}
