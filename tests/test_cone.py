"""The cone from any sufficient set, its laws, and mpmath at 50 digits for the whole chain."""

from __future__ import annotations

import math

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cone import Cone, Disagreement, Unsolved, error_on_diameter, solve
from calc.doubt.task import Task
from calc.estimate import Estimate
from calc.setting import bar
from door import field, job

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
    ("measures", "wanted"),
    [
        ({}, "two diameters and the length"),
        ({"large_diameter": 20.0}, "the small diameter and the length"),
        ({"length": 50.0}, "the large diameter and the small diameter"),
        ({"large_diameter": 20.0, "length": 50.0}, "or the small diameter"),
        ({"large_diameter": 20.0, "small_diameter": 18.0}, "or the length"),
    ],
)
def test_too_little_says_what_is_needed(measures: dict[str, float], wanted: str) -> None:
    with pytest.raises(Unsolved) as told:
        solve(measures)
    assert "rate or an angle" in told.value.needed
    assert wanted in told.value.needed


def test_a_cylinder_is_no_taper_of_any_length() -> None:
    assert solve({"large_diameter": 20.0, "small_diameter": 20.0, "rate": 0.0}) == Cone(0.0, 20.0, 20.0)
    assert solve({"large_diameter": 20.0, "small_diameter": 18.0, "rate": -0.05}).length is None
    for rate in (0.0, -0.05):
        with pytest.raises(Disagreement) as told:
            solve({"large_diameter": 20.0, "small_diameter": 18.0, "length": 50.0, "rate": rate})
        assert "length" not in told.value.would_be


@given(
    small_diameters, lengths, st.floats(0.001, 0.5), st.sampled_from(["rate", "half_angle", "included_angle"])
)
def test_what_a_measure_would_have_to_be_lets_the_others_stand(
    small: float, length: float, rate: float, told_as: str
) -> None:
    cone = solve({"small_diameter": small, "length": length, "rate": rate})
    assert cone.large_diameter is not None
    told = {"rate": rate, "half_angle": cone.half_angle, "included_angle": cone.included_angle}[told_as]
    measures = {"large_diameter": cone.large_diameter + 0.1, "small_diameter": small, "length": length}
    measures[told_as] = told
    with pytest.raises(Disagreement) as two:
        solve(measures)
    assert set(two.value.would_be) == set(measures)
    for name, value in two.value.would_be.items():
        assert solve({**measures, name: value}).rate > 0
    # Two angles that disagree: either would have to be as the other says.
    other = "half_angle" if told_as != "half_angle" else "included_angle"
    flatter = 0.9 * cone.half_angle if other == "half_angle" else 1.8 * cone.half_angle
    angles = {told_as: told, other: flatter}
    with pytest.raises(Disagreement) as both:
        solve(angles)
    for name, value in both.value.would_be.items():
        assert solve({**angles, name: value}).rate > 0


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


AGREES = 0.001
"""One division of a micrometer that reads 0.001 mm: what lies within one cannot be a contradiction."""


@given(
    st.floats(5.0, 200.0),
    st.floats(5.0, 200.0),
    st.floats(0.001, 0.5),
    st.sampled_from([0.0, 0.005, 0.05]),
    st.sampled_from([0.0, 0.005, 0.05]),
    st.sampled_from([0.0, 0.05, 0.5]),
    st.sampled_from([-1.0, 1.0]),
)
def test_rounding_agrees_and_more_does_not(
    small: float,
    length: float,
    rate: float,
    large_off: float,
    small_off: float,
    length_off: float,
    way: float,
) -> None:
    """A true cone whose measures were rounded agrees with itself, whichever way each went; more does not.

    The worst by hand: the diameters apart from each other, and the length against them, rate times as much.
    """
    give = {"large_diameter": large_off, "small_diameter": small_off, "length": length_off}
    rounded = {
        "rate": rate,
        "large_diameter": small + length * rate + way * (large_off + 0.9 * AGREES),
        "small_diameter": small - way * small_off,
        "length": length - way * length_off,
    }
    if rounded["large_diameter"] < rounded["small_diameter"]:
        return
    assert solve(rounded, give).rate == rate
    rounded["large_diameter"] += way * 0.2 * AGREES
    with pytest.raises(Disagreement):
        solve(rounded, give)


@pytest.mark.parametrize(
    ("length", "agrees", "contradicts"),
    [(None, 0.9e-5, 1.1e-5), (10.0, 0.9e-4, 1.1e-4), (1000.0, 0.9e-6, 1.1e-6)],
)
def test_two_rates_agree_by_what_they_leave_on_the_diameter(
    length: float | None, agrees: float, contradicts: float
) -> None:
    """A micrometre over the length, by hand; where none is known, over a customary 100 mm."""
    rest: dict[str, float] = {} if length is None else {"length": length, "large_diameter": 900.0}
    for sign in (-1.0, 1.0):
        near, far = (0.05 + sign * more for more in (agrees, contradicts))
        assert solve({"rate": 0.05, "half_angle": math.atan(near / 2.0), **rest}).rate == 0.05
        with pytest.raises(Disagreement):
            solve({"rate": 0.05, "included_angle": 2.0 * math.atan(far / 2.0), **rest})


def test_a_tenth_of_a_thou_is_told_apart_and_a_micrometre_s_rounding_is_not() -> None:
    """0.0001 in is 2.54 µm, which a shop reads; half of 0.001 mm is how a reading is rounded."""
    cone = {"large_diameter": 20.0, "small_diameter": 17.5, "length": 50.0, "rate": 0.05}
    for sign in (-1.0, 1.0):
        assert solve({**cone, "small_diameter": 17.5 + sign * 0.0005}).length == 50.0
        with pytest.raises(Disagreement):
            solve({**cone, "small_diameter": 17.5 + sign * 0.00254})


@pytest.mark.parametrize("half_angle", [84.9, 85.1])
def test_beyond_85_degrees_it_is_a_face_however_it_is_told(half_angle: float) -> None:
    rate = 2.0 * math.tan(math.radians(half_angle))
    told = {"half_angle": f"{half_angle}°", "included_angle": f"{2 * half_angle}°"}
    told["rate"] = f"1:{1.0 / rate:.9f}"
    for name, text in told.items():
        measure = field(job({"taper.series": "own", f"taper.{name}": text}), f"taper.{name}")
        assert bool(measure["wrong"]) is (half_angle > 85.0), (name, measure["wrong"])
