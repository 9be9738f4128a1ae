"""Chances, shapes and densities where the answer is known by hand or by the mathematics of the rule."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.doubt.chance import chance_inside
from calc.doubt.densities import density_of_sum
from calc.doubt.doubts import _ALL
from calc.doubt.figures import RATE, figure
from calc.doubt.hollow import flatter_by, strips
from calc.doubt.percent import percent
from calc.doubt.shape import _NODES, curved, mean_spread_shape
from calc.estimate import Estimate
from calc.quantities import read_angle, read_length


def test_five_points_are_exact_to_the_ninth_power() -> None:
    """Means of powers over -1 to 1 (Gauss and Legendre): 1 / (power + 1) for even powers, else 0."""
    for power in range(10):
        mean = math.fsum(0.5 * weight * at**power for at, weight in _NODES)
        assert mean == pytest.approx(0.0 if power % 2 else 1.0 / (power + 1), abs=1e-14)


@given(st.floats(-5.0, 5.0), st.floats(0.0, 2.0))
def test_what_is_not_in_doubt_is_what_the_function_says(offset: float, half: float) -> None:
    def square(x: float) -> float:
        return offset + x * x + x

    known = curved(square, 0.0, "a")
    assert (known.value, known.standard) == (offset, 0.0)
    # Mean and variance of x + x² over ± h, by integrals.
    found = curved(square, half, "a")
    assert found.value == pytest.approx(offset + half**2 / 3.0, abs=1e-12)
    assert found.standard**2 == pytest.approx(half**2 / 3.0 + 4.0 * half**4 / 45.0, rel=1e-9, abs=1e-15)


@pytest.mark.parametrize(
    ("low", "high", "chance"), [(0.75, 1.25, 0.25), (-0.5, 0.5, 0.0), (0.0, 9.0, 0.5), (0.5, 1.0, 0.25)]
)
def test_two_points_and_a_rectangle_by_hand(low: float, high: float, chance: float) -> None:
    """At -1 or 1, each ± 0.5: the series ends within a thousandth where sharp ends meet."""
    points = [(-1.0, 0.0), (1.0, 0.0)]
    assert chance_inside(low, high, 0.0, [0.5], [points]) == pytest.approx(chance, abs=2e-3)


@pytest.mark.parametrize("unit", [1.0, 1e-6])
def test_one_rectangle_alone_is_its_share(unit: float) -> None:
    assert chance_inside(-0.25 * unit, 0.25 * unit, 0.0, [0.5 * unit]) == pytest.approx(0.5)
    strips = [(-1.0 * unit, 0.5 * unit), (1.0 * unit, 0.5 * unit)]
    assert chance_inside(0.5 * unit, 1.0 * unit, 0.0, [], [strips]) == pytest.approx(0.25)


@given(st.floats(0.2, 5.0), st.floats(0.2, 5.0), st.floats(0.01, 0.2), st.floats(0.9, 1.1))
def test_no_density_is_below_nothing(one: float, two: float, third: float, at: float) -> None:
    reach = one + two + 9.0 * third / math.sqrt(3.0)
    assert density_of_sum(at * reach, [one, two, third, 0.9 * third]) >= 0.0
    assert density_of_sum(at * (one + two), [one, two, third]) >= 0.0


@pytest.mark.parametrize(
    ("unit", "metric", "inch"),
    [("mm", " mm", " in"), ("rad", "°", "°"), (RATE, "1:20", "in/ft"), ("1", "0.05", "0.05")],
)
def test_a_figure_is_shown_in_its_own_unit(unit: str, metric: str, inch: str) -> None:
    found = figure("a.b", "It", Estimate(0.05, {"x": 1e-5}), unit)
    assert found.unit == ("1" if unit == RATE else unit)
    assert found.shown is not None
    assert metric in found.shown["mm"] and inch in found.shown["inch"]


def test_chances_are_said_to_the_whole_per_cent_and_never_as_certain() -> None:
    told = {0.0: "under 1 %", 0.0099: "under 1 %", 0.01: "1 %", 0.5: "50 %", 0.99: "99 %", 0.991: "over 99 %"}
    assert {chance: percent(chance) for chance in (*told, 1.0)} == {**told, 1.0: "over 99 %"}


STEADY = {"bar_give", "roller_give", "edge_give", "packing_give", "side_give", "axis_give", "master_give"}
"""What is the same piece, edge or bed at the next set-up; all else is set, read or wiped anew each time."""


def test_only_what_is_the_same_next_time_is_carried_on() -> None:
    ids = {each.id.removeprefix("setting.") for each in _ALL}
    assert ids >= STEADY
    assert {each.id.removeprefix("setting.") for each in _ALL if each.steady} == STEADY


@given(st.floats(0.01, 3.0), st.floats(0.01, 0.3), st.floats(5.0, 80.0), st.floats(8.0, 60.0))
def test_a_tool_off_centre_anywhere_leaves_what_its_strips_hold(
    half: float, slope: float, length: float, large: float
) -> None:
    """From nothing to the farthest the tool can stand off; and never steeper."""
    small = large / 2.0 - slope * length
    if small <= 0.01:
        return
    found = strips(half, slope, length, large)
    worst = flatter_by(min(half, small), slope, length, large)
    assert min(m - h for m, h in found) == pytest.approx(worst, rel=0.02, abs=1e-9)
    assert max(m + h for m, h in found) == pytest.approx(0.0, abs=1e-2 * abs(worst) + 1e-12)


@pytest.mark.parametrize(
    ("strips_told", "mean", "variance"),
    [([(-1.0, 0.0), (1.0, 0.0)], 0.0, 1.0), ([(0.0, 1.0), (4.0, 1.0)], 2.0, 4.0 + 1.0 / 3.0)],
)
def test_mean_and_spread_of_strips_by_hand(
    strips_told: list[tuple[float, float]], mean: float, variance: float
) -> None:
    found = mean_spread_shape(strips_told)
    assert (found[0], found[1] ** 2) == pytest.approx((mean, variance))
    back = [length for m, h in found[2] for length in (mean + found[1] * m, found[1] * h)]
    assert back == pytest.approx([length for strip in strips_told for length in strip])


def test_a_tool_farther_off_than_the_small_end_is_taken_at_it() -> None:
    """20 mm less 60 mm at a slope of 0.05 leaves 7 mm of radius: no tool turns that from farther off."""
    found = strips(50.0, 0.05, 60.0, 20.0)
    assert min(m - h for m, h in found) == pytest.approx(flatter_by(7.0, 0.05, 60.0, 20.0), rel=0.02)


def test_what_is_advised_against_a_doubt_leaves_less_of_it() -> None:
    advised = [each for each in _ALL if each.gain]
    assert advised and all(each.better for each in advised)
    for each in advised:
        reader = read_length if "mm" in each.default["mm"] else read_angle
        text = each.default["mm"]
        known_to = float(text.split()[0]) if each.kind == "count" or "°C" in text else reader(text).value
        assert each.gain < known_to, each.id
