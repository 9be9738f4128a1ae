"""The cone from any sufficient set, its laws, and mpmath at 50 digits for the whole chain."""

from __future__ import annotations

import math

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cone import Cone, Disagreement, Unsolved, error_on_diameter, solve
from calc.estimate import Estimate
from calc.setting import bar
from calc.setting.way import Task

small_diameters = st.floats(0.5, 500.0)
lengths = st.floats(1.0, 1000.0)
rates = st.floats(0.0005, 2.0)


@given(small_diameters, lengths, rates)
def test_any_sufficient_set_gives_the_rest_back(small: float, length: float, rate: float) -> None:
    whole = solve({"small_diameter": small, "length": length, "rate": rate})
    assert whole.large_diameter is not None
    large = whole.large_diameter
    sets = (
        {"large_diameter": large, "small_diameter": small, "length": length},
        {"large_diameter": large, "length": length, "half_angle": whole.half_angle},
        {"small_diameter": small, "length": length, "included_angle": whole.included_angle},
        {"large_diameter": large, "small_diameter": small, "rate": rate},
    )
    for each in sets:
        cone = solve(each)
        assert cone.rate == pytest.approx(rate, rel=1e-9, abs=1e-11)
        assert cone.large_diameter == pytest.approx(large, rel=1e-9)
        assert cone.small_diameter == pytest.approx(small, rel=1e-9, abs=1e-7)
        assert cone.length == pytest.approx(length, rel=1e-6)


@given(rates)
def test_included_is_twice_the_half(rate: float) -> None:
    cone = solve({"rate": rate})
    assert cone.included_angle == 2 * cone.half_angle
    assert solve({"included_angle": cone.included_angle}).rate == pytest.approx(rate, rel=1e-12)
    assert cone.included_angle > math.atan(rate)  # atan(rate) is the classic slip
    assert cone.half_angle == pytest.approx(float(mpmath.atan(mpmath.mpf(rate) / 2)), rel=1e-14)


@pytest.mark.parametrize(
    "measures",
    [
        {},
        {"large_diameter": 20.0},
        {"length": 50.0},
        {"large_diameter": 20.0, "length": 50.0},
        {"large_diameter": 20.0, "small_diameter": 18.0},
    ],
)
def test_too_little_says_what_is_needed(measures: dict[str, float]) -> None:
    with pytest.raises(Unsolved) as told:
        solve(measures)
    assert "rate or an angle" in told.value.needed


def test_agreeing_is_accepted_and_disagreeing_named() -> None:
    agreeing = {"large_diameter": 20.0, "small_diameter": 17.5, "length": 50.0, "rate": 0.05}
    assert solve(agreeing) == Cone(0.05, 20.0, 17.5, 50.0)
    with pytest.raises(Disagreement) as told:
        solve({**agreeing, "length": 51.0})
    assert told.value.would_be == pytest.approx(
        {"large_diameter": 20.05, "small_diameter": 17.45, "length": 50.0, "rate": 2.5 / 51.0}
    )
    with pytest.raises(Disagreement) as told:
        solve({"rate": 0.05, "half_angle": 0.05})
    assert told.value.would_be["rate"] == pytest.approx(2 * math.tan(0.05))
    assert told.value.would_be["half_angle"] == pytest.approx(math.atan(0.025))
    with pytest.raises(Disagreement):
        solve({"large_diameter": 10.0, "small_diameter": 12.0, "length": 50.0})


@given(st.floats(0.001, math.radians(60.0)), st.floats(20.0, 500.0))
def test_chain_against_mpmath(half_angle: float, centres: float) -> None:
    """Rate -> half angle -> height -> angle -> error on diameter, at 50 digits."""
    with mpmath.workdps(50):
        exact_height = centres * mpmath.sin(mpmath.mpf(half_angle))
        cone = solve({"half_angle": half_angle})
        answer = bar.set_up(
            Task(
                cone,
                "tailstock",
                "operator",
                {"setting.bar_centres": centres, "setting.bar_give": 0.003},
                {"setting.bar_side": "far"},
            )
        )
        assert answer.stack is not None
        assert answer.stack.height.value == pytest.approx(float(exact_height), rel=1e-13)
        built = answer.stack.height.value + 0.002
        angle = mpmath.asin(mpmath.mpf(built) / mpmath.mpf(centres))
        assert answer.stack.angle_from_height(Estimate(built)).value == pytest.approx(float(angle), rel=1e-12)
        exact_error = 2 * 64 * (mpmath.tan(angle) - mpmath.tan(mpmath.mpf(half_angle)))
        assert error_on_diameter(half_angle, float(angle), 64.0) == pytest.approx(
            float(exact_error), abs=1e-9
        )


@given(st.floats(0.001, 1.0), st.floats(20.0, 500.0), st.floats(0.0001, 0.05))
def test_a_higher_stack_is_a_steeper_taper(half_angle: float, centres: float, more: float) -> None:
    cone = solve({"half_angle": half_angle})
    answer = bar.set_up(
        Task(
            cone,
            "headstock",
            "far",
            {"setting.bar_centres": centres, "setting.bar_give": 0.0},
            {"setting.bar_side": "operator"},
        )
    )
    assert answer.stack is not None
    steeper = answer.stack.angle_from_height(answer.stack.height + more)
    assert error_on_diameter(half_angle, steeper.value, 64.0) > 0
