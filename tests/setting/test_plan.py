"""Swing and pin against drawings made another way: complex numbers, turned until they fit, gaps measured.

Checks from outside this code: the rule for tool, small end and swing in the design's physics section
(common practice: compound swung anticlockwise for the small end towards the tailstock, tool at the front);
the sine relation H = C sin a evaluated with mpmath at 50 digits.
"""

from __future__ import annotations

import cmath
from itertools import product
from math import isclose, pi, radians

import mpmath  # type: ignore[import-untyped]
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.setting.plan import ENDS, SIDES, PlanView, plan_view

CASES = list(product(ENDS, SIDES, SIDES))
OTHER = {
    "tailstock": "headstock",
    "headstock": "tailstock",
    "operator": "far",
    "far": "operator",
    "clockwise": "anticlockwise",
    "anticlockwise": "clockwise",
}
angles = st.floats(min_value=1e-9, max_value=pi / 3)
bars = st.floats(min_value=10.0, max_value=500.0)
ends = st.sampled_from(ENDS)
sides = st.sampled_from(SIDES)


def turned_by_hand(half_angle: float, small_end: str, cut_side: str) -> float:
    """Turn a slide in small steps until its tool keeps to the cone, as one would at the machine; [rad].

    The cone is two points with their radii; the tool starts on one and is asked to reach the other.
    """
    radius = {"left": 200.0, "right": 200.0}
    radius["right" if small_end == "tailstock" else "left"] -= float(mpmath.tan(half_angle)) * 100.0
    side = -1j if cut_side == "operator" else 1j
    start, finish = 0 + side * radius["left"], 100 + side * radius["right"]

    def miss(angle: float) -> float:
        # Height of the finish above the slide's line, in the slide's own frame.
        return ((finish - start) * cmath.exp(-1j * angle)).imag

    low, high = -1.5, 1.5
    for _ in range(80):
        middle = (low + high) / 2
        if miss(middle) > 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def stack_by_hand(
    slide_angle: float, bar_side: str, bar_centres: float, roller: float
) -> tuple[float, float]:
    """Push a level bar at a swung slide until a pin touches, then measure both gaps: (headstock, tailstock).

    The face is sampled as dots and the distance to the nearest dot is taken: no normals, no dot products.
    """
    face = [t * cmath.exp(1j * slide_angle) for t in (step * 0.01 - 400 for step in range(80001))]
    side = -1 if bar_side == "operator" else 1
    pins = [complex(-bar_centres / 2, side * 300), complex(bar_centres / 2, side * 300)]
    # Solve in the frame in which the slide lies along the axis, where a gap is a difference of heights.
    clear = [abs((pin * cmath.exp(-1j * slide_angle)).imag) - roller / 2 for pin in pins]
    measured = [min(abs(pin - dot) for dot in face) - roller / 2 for pin in pins]
    for turned, nearest in zip(clear, measured, strict=True):
        assert abs(turned - nearest) < 1e-6
    return clear[0] - min(clear), clear[1] - min(clear)


@pytest.mark.parametrize(
    ("small_end", "cut_side", "swing"),
    [
        ("tailstock", "operator", "anticlockwise"),
        ("headstock", "operator", "clockwise"),
        ("tailstock", "far", "clockwise"),
        ("headstock", "far", "anticlockwise"),
    ],
)
def test_swing_is_the_one_a_turner_expects(small_end: str, cut_side: str, swing: str) -> None:
    for bar_side in SIDES:
        assert plan_view(radians(1.5), small_end, cut_side, bar_side, 100.0).swing == swing


@pytest.mark.parametrize(("small_end", "cut_side", "bar_side"), CASES)
def test_all_eight_cases_against_a_slide_turned_by_hand(small_end: str, cut_side: str, bar_side: str) -> None:
    half_angle, bar_centres, roller = radians(7.0), 100.0, 20.0
    plan = plan_view(half_angle, small_end, cut_side, bar_side, bar_centres, roller)
    by_hand = turned_by_hand(half_angle, small_end, cut_side)
    assert isclose(plan.slide_angle, by_hand, abs_tol=1e-12)
    assert plan.swing == ("anticlockwise" if by_hand > 0 else "clockwise")
    headstock, tailstock = stack_by_hand(by_hand, bar_side, bar_centres, roller)
    assert isclose(plan.headstock_gap, headstock, abs_tol=1e-9)
    assert isclose(plan.tailstock_gap, tailstock, abs_tol=1e-9)
    assert plan.stack_pin == ("headstock" if headstock > tailstock else "tailstock")


@given(angles, ends, sides, sides, bars, st.floats(min_value=1.0, max_value=40.0))
def test_gaps_differ_by_the_sine_of_the_half_angle(
    half_angle: float, small_end: str, cut_side: str, bar_side: str, bar_centres: float, roller: float
) -> None:
    plan = plan_view(half_angle, small_end, cut_side, bar_side, bar_centres, roller)
    with mpmath.workdps(50):
        height = float(mpmath.mpf(bar_centres) * mpmath.sin(mpmath.mpf(half_angle)))
    assert isclose(abs(plan.headstock_gap - plan.tailstock_gap), height, rel_tol=1e-14)
    assert isclose(plan.stack_height, height, rel_tol=1e-14)
    assert min(plan.headstock_gap, plan.tailstock_gap) == 0.0
    assert plan.gap(plan.stack_pin) == plan.stack_height


@given(angles, ends, sides, sides, bars)
def test_the_points_say_the_same_as_the_gaps(
    half_angle: float, small_end: str, cut_side: str, bar_side: str, bar_centres: float
) -> None:
    plan = plan_view(half_angle, small_end, cut_side, bar_side, bar_centres, 20.0)
    assert plan.headstock_pin[1] == plan.tailstock_pin[1]  # the bar lies parallel to the axis
    assert isclose(plan.tailstock_pin[0] - plan.headstock_pin[0], bar_centres, rel_tol=1e-12)
    slide = complex(*plan.surface_direction)
    face = complex(*plan.face_point)
    for end in ENDS:
        # Seen from the slide, the pin stands on the bar's side by its radius and its gap.
        seen = (complex(*plan.pin(end)) - face) / slide
        side = 1 if bar_side == "far" else -1
        assert isclose(seen.imag * side, 10.0 + plan.gap(end), abs_tol=1e-9)
        foot = (complex(*plan.foot(end)) - face) / slide
        assert isclose(foot.imag, 0.0, abs_tol=1e-9)
        assert isclose(foot.real, seen.real, abs_tol=1e-9)


def words(plan: PlanView) -> tuple[str, str]:
    return plan.swing, plan.stack_pin


@given(angles, ends, sides, sides, bars)
def test_mirrors(half_angle: float, small_end: str, cut_side: str, bar_side: str, bar_centres: float) -> None:
    swing, pin = words(plan_view(half_angle, small_end, cut_side, bar_side, bar_centres))
    mirrored = (OTHER[swing], OTHER[pin])
    assert words(plan_view(half_angle, OTHER[small_end], cut_side, bar_side, bar_centres)) == mirrored
    assert words(plan_view(half_angle, small_end, OTHER[cut_side], bar_side, bar_centres)) == mirrored
    other_side = plan_view(half_angle, small_end, cut_side, OTHER[bar_side], bar_centres)
    assert words(other_side) == (swing, OTHER[pin])


@pytest.mark.parametrize(("small_end", "cut_side", "bar_side"), CASES)
def test_a_cylinder_needs_neither_swing_nor_stack(small_end: str, cut_side: str, bar_side: str) -> None:
    plan = plan_view(0.0, small_end, cut_side, bar_side, 100.0)
    assert words(plan) == ("none", "none")
    assert (plan.stack_height, plan.headstock_gap, plan.tailstock_gap) == (0.0, 0.0, 0.0)
    assert plan.slide_angle == 0.0


def test_the_least_angle_still_has_a_swing_and_a_pin() -> None:
    plan = plan_view(5e-324, "tailstock", "operator", "operator", 100.0)
    assert words(plan) == ("anticlockwise", "tailstock")


@pytest.mark.parametrize(
    "change",
    [
        {"half_angle": -0.1},
        {"half_angle": pi / 2},
        {"half_angle": float("nan")},
        {"half_angle": float("inf")},
        {"bar_centres": 0.0},
        {"bar_centres": -5.0},
        {"bar_centres": float("nan")},
        {"bar_centres": float("inf")},
        {"roller_diameter": 0.0},
        {"slide_width": -1.0},
        {"small_end": "left"},
        {"cut_side": ""},
        {"bar_side": "headstock"},
    ],
)
def test_what_cannot_be_laid_out_is_refused_in_words(change: dict[str, float | str]) -> None:
    asked: dict[str, float | str] = {
        "half_angle": 0.025,
        "small_end": "tailstock",
        "cut_side": "operator",
        "bar_side": "operator",
        "bar_centres": 100.0,
    }
    with pytest.raises(ValueError, match="must"):
        plan_view(**(asked | change))  # type: ignore[arg-type]


def test_a_pin_is_asked_for_by_its_end() -> None:
    plan = plan_view(0.025, "tailstock", "operator", "operator", 100.0)
    with pytest.raises(ValueError, match="headstock"):
        plan.pin("none")
