"""The budget against the uncertainties package, against draws, and against a lathe in vectors."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import mpmath
import numpy as np
import pytest
import uncertainties
from uncertainties import umath

from calc.cone import Cone
from calc.cone import error_on_diameter as over_length
from calc.doubt.budget import EXPANSION, Budget, budget
from calc.doubt.doubts import COMMON, DOUBTS
from calc.doubt.goal import Wanted, blue_limit, goal_for
from calc.doubt.hollow import flatter_by, strips
from calc.doubt.task import Task
from calc.estimate import Estimate
from calc.setting import bar
from calibration.lathe import Truth, error_on_diameter

MORSE = Cone(1 / 20.020, 17.780, 17.780 - 64 / 20.020, 64.0)
"""Morse 2, ISO 296."""
DOUBT = {
    "setting.bar_give": 0.01,
    "setting.roller_give": 0.004,
    "setting.edge_give": 0.002,
    "setting.packing_give": 0.003,
    "setting.seating": 0.001,
    "setting.sweep_give": 0.002,
    "setting.side_give": 0.005,
    "setting.axis_give": 0.006,
    "setting.tool_height": 0.4,
    "setting.temperature": 8.0,
}


def task(cone: Cone = MORSE, small_end: str = "tailstock", **lengths: float) -> Task:
    """A bar of 100 mm with these doubts; lengths by the last word of their id."""
    told = {
        "setting.bar_centres": 100.0,
        "setting.roller_difference": 0.0,
        "setting.packing": 0.0,
        "setting.sweep_length": 80.0,
        "setting.side_length": 60.0,
        "setting.axis_length": 150.0,
        **{f"setting.{name}": value for name, value in lengths.items()},
    }
    return Task(cone, small_end, "operator", told, {"setting.bar_side": "operator"}, DOUBT)


def made(asked: Task) -> Budget:
    stack = bar.set_up(asked).stack
    assert stack is not None
    # One piece, known to 0.0025 mm, and its two joints.
    parts = {
        "piece 0 0": 0.0025 / 3**0.5,
        "setting.seating 0": 0.001 / 3**0.5,
        "setting.seating 1": 0.001 / 3**0.5,
    }
    return budget(asked, stack.angle_from_height(Estimate(stack.height.value, parts)))


@pytest.mark.parametrize("degrees", [0.5, 1.43, 8.3, 30.0, 44.9, 55.0])
def test_against_uncertainties(degrees: float) -> None:
    half, length = math.radians(degrees), 20.0
    cone = Cone(2 * math.tan(half), None, None, length)
    asked = task(cone, roller_difference=0.02, packing=1.5)

    def rectangular(value: float, give: float) -> Any:
        return uncertainties.ufloat(value, give / math.sqrt(3))

    centres = rectangular(100.0, 0.01)
    stack = rectangular(100.0 * math.sin(half) + 1.5 + 0.01, 0.0025)
    stack += rectangular(0.0, 0.001) + rectangular(0.0, 0.001)
    shift = rectangular(1.5, 0.003) + rectangular(0.02, 0.004) / 2
    got = umath.asin((stack - shift) / centres) + rectangular(0, 0.002) / 100
    got += rectangular(0, 0.002) / 80 + rectangular(0, 0.005) / 60 + rectangular(0, 0.006) / 300
    error = 2 * length * (umath.tan(got) - math.tan(half))
    found = made(asked)
    assert found.bias == pytest.approx(error.nominal_value, abs=1e-9)
    assert found.standard == pytest.approx(error.std_dev, rel=1e-6)


def _against_draws(count: int) -> None:
    """Everything drawn within its ±, the exact formulas taken: mean, spread and chances."""
    draw = np.random.default_rng(7)

    def within(give: float, about: float = 0.0) -> Any:
        return about + draw.uniform(-give, give, count)

    half = math.atan(1 / 40.04)
    stack = within(0.0025, 100 * math.sin(half)) + within(0.001) + within(0.001)
    angle = np.arcsin((stack - within(0.004) / 2) / within(0.01, 100.0)) + within(0.002) / 100
    angle += within(0.002) / 80 + within(0.005) / 60 + within(0.006) / 300
    height = within(0.4)
    out = np.sqrt(8.89**2 - height**2)
    at_small = np.hypot(out - 64 * np.tan(angle), height)
    errors = 17.78 * (1 + 11.5e-6 * within(8.0)) - 2 * at_small - 64 / 20.020
    found = made(task())
    spread = errors.std() / math.sqrt(count)
    assert found.bias == pytest.approx(errors.mean(), abs=5 * spread)
    assert found.standard == pytest.approx(errors.std(), rel=4 / math.sqrt(count) + 1e-4)
    for low, high in ((-0.004, 0.004), (-0.01, 0.01), (0.0, 1.0)):
        share = np.count_nonzero((errors >= low) & (errors <= high)) / count
        assert found.chance(low, high) == pytest.approx(share, abs=3 / math.sqrt(count) + 5e-4)


def test_against_a_hundred_thousand_draws() -> None:
    _against_draws(100_000)


@pytest.mark.deep
def test_against_a_million_draws() -> None:
    _against_draws(1_000_000)


MOVED = {
    "setting.bar_give": "centres",
    "setting.roller_give": "headstock_pin",
    "setting.edge_give": "edge_run",
    "piece 0 0": "stack",
    "setting.sweep_give": "swept_run",
    "setting.side_give": "side_run",
    "setting.axis_give": "axis_on_diameter",
    "setting.temperature": "warmer",
}


@pytest.mark.parametrize("doubt", MOVED)
@pytest.mark.parametrize("rate", [1 / 20.020, 0.4])
def test_each_doubt_moves_the_taper_as_on_a_lathe_in_vectors(doubt: str, rate: float) -> None:
    """One thing at a time off by its ±: size of the move, from vectors, against the contribution."""
    cone = Cone(rate, 40.0, 40.0 - 50.0 * rate, 50.0)
    asked = replace(task(cone), doubts={**DOUBT, "setting.tool_height": 0.0})
    give = 0.0025 if doubt.startswith("piece") else DOUBT[doubt]
    one = np.ones(2)
    true = Truth(100 * one, 20 * one, 20 * one, 0 * one, 100 * math.sin(cone.half_angle) * one, 0 * one, 80.0,
                 0 * one, 60.0, 0 * one, 150.0, 0 * one, 0 * one)  # fmt: skip
    name = MOVED[doubt]
    moved = replace(true, **{name: getattr(true, name) + np.array([give, -give])})
    up, down = error_on_diameter(moved, 40.0, cone.small_diameter or 0.0, 50.0, 11.5e-6)
    expected = 0.5 * abs(up - down) / math.sqrt(3)
    assert abs(made(asked).parts[doubt]) == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize("small_end", ["tailstock", "headstock"])
@pytest.mark.parametrize("side", ["operator", "far"])
def test_unlike_pins_and_packing_give_the_angle_wanted(small_end: str, side: str) -> None:
    """The bar's pins set down on stack and packing as circles on a line, 50 digits: the angle comes out."""
    asked = replace(
        task(MORSE, small_end, roller_difference=0.03, packing=2.0), choices={"setting.bar_side": side}
    )
    answer = bar.set_up(asked)
    pin = next(each.value for each in answer.figures if each.id == "setting.pin")
    head, tail = mpmath.mpf("10.03") / 2, mpmath.mpf(10) / 2
    on_stack, other = (head, tail) if pin == "headstock" else (tail, head)
    height = next(each.value for each in answer.figures if each.id == "setting.stack_height")
    assert isinstance(height, float)
    with mpmath.workdps(50):
        lift = (mpmath.mpf(height) + on_stack) - (2 + other)
        assert float(mpmath.asin(lift / 100)) == pytest.approx(MORSE.half_angle, abs=1e-15)


# Two worked examples computed at 40 digits from the hyperbola, independently of this core.
@pytest.mark.parametrize(
    ("small", "large", "length", "height", "error"),
    [(20.0, 24.0, 80.0, 0.5, -0.004169636299), (0.778, 0.938, 3.1875, 0.02, -0.0001755316595)],
)
def test_tool_off_centre(small: float, large: float, length: float, height: float, error: float) -> None:
    slope = (large - small) / 2 / length
    for each in (height, -height):
        assert flatter_by(each, slope, length, large, "small") == pytest.approx(error, abs=1e-9)
    # Set true at the other end the small end is too large by nearly as much: the taper is as much flatter.
    assert flatter_by(height, slope, length, large) == pytest.approx(error, rel=0.02)


def test_tool_height_over_its_whole_spread() -> None:
    found = strips(1.0, 1 / 40.04, 64.0, 17.78)
    with mpmath.workdps(30):

        def error(h: Any) -> Any:
            return 2 * (
                8.89 - mpmath.hypot(mpmath.sqrt(8.89**2 - h**2) - 64 / mpmath.mpf("40.04"), h)
            ) - 64 / (mpmath.mpf("20.02"))

        mean = mpmath.quad(error, [0, 1])
    assert sum(middle for middle, _ in found) / len(found) == pytest.approx(float(mean), rel=1e-6)
    assert all(middle <= 0.0 for middle, _ in found), "either way off centre the taper is flatter"
    with pytest.raises(ValueError, match="off centre"):
        flatter_by(9.0, 1 / 40.04, 64.0, 17.78)


# A public machinists' discussion of sine-bar accuracy (2012): 0.0001 in on a 5 in bar at 30 degrees is
# 0.00132 degrees. The others are worked examples of a slide's angle error, computed apart.
def test_published_sensitivities() -> None:
    asked = replace(
        task(Cone(2 * math.tan(math.radians(30.0)), None, None, 10.0), bar_centres=127.0), doubts={}
    )
    stack = bar.set_up(asked).stack
    assert stack is not None
    more = stack.angle_from_height(Estimate(stack.height.value + 0.00254)).value - math.radians(30.0)
    assert math.degrees(more) == pytest.approx(0.00132, abs=5e-6)
    for half, error, length, expected in (
        (1.4377, 0.05, 80, 0.1397173868),
        (1.4876, -0.01, 100, -0.03492996833),
    ):
        got = over_length(math.radians(half), math.radians(half + error), length)
        assert got == pytest.approx(expected, abs=1e-9)


def test_angle_nothing_and_past_45_degrees() -> None:
    level = made(task(Cone(0.0, 20.0, 20.0, 50.0)))
    assert level.bias == 0.0 and "setting.tool_height" not in level.parts
    # A cylinder: the lathe's own taper, sweep and side remain, over the length.
    assert abs(level.parts["setting.axis_give"]) == pytest.approx(0.006 / 150 * 50 / math.sqrt(3), rel=1e-9)
    steep = made(
        task(Cone(2 * math.tan(math.radians(59.0)), 60.0, 20.0, 40 / 2 / math.tan(math.radians(59.0))))
    )
    flat = made(
        task(Cone(2 * math.tan(math.radians(30.0)), 60.0, 20.0, 40 / 2 / math.tan(math.radians(30.0))))
    )
    # The angle's error for a height grows as 1 / cos.
    ratio = abs(steep.parts["piece 0 0"] / steep.length) / abs(flat.parts["piece 0 0"] / flat.length)
    assert ratio == pytest.approx((math.cos(math.radians(30)) / math.cos(math.radians(59))) ** 3, rel=1e-9)
    assert "60°" in bar.refusal(task(Cone(2 * math.tan(math.radians(61.0)))))


def test_doubts_are_told_once_and_whole() -> None:
    for name in (*bar.FEELS, *COMMON):
        doubt = DOUBTS[name]
        assert doubt.id == name and doubt.help.endswith(".") and set(doubt.default) == {"mm", "inch"}
    assert EXPANSION == 11.5e-6


def test_limits_of_a_grade_and_the_aim() -> None:
    """AT7 over 50 mm is 315 µrad on the included angle (ISO 1947, from memory): 15.75 µm on diameter."""
    cone = Cone(0.05, 20.0, 17.5, 50.0)
    dead = goal_for(cone, Wanted("AT7"))
    assert dead.limit == pytest.approx(0.5 * 0.01575, rel=1e-3) and dead.aim == 0.0
    steep = goal_for(cone, Wanted("AT7", aim="large_end"))
    assert steep.limit == dead.limit and steep.aim == pytest.approx(0.5 * 0.5 * 0.01575, rel=1e-3)
    got = 2 * 50 * (math.tan(cone.half_angle + steep.aim_angle) - math.tan(cone.half_angle))
    assert got == pytest.approx(steep.aim, rel=1e-9)
    assert goal_for(cone, Wanted("AT7", aim="large_end"), "internal").aim == -steep.aim
    assert goal_for(Cone(0.05, 20.0, 19.8, 4.0), Wanted("AT7")).limit is None
    assert goal_for(cone, Wanted("", 0.01)).limit == 0.01


def test_film_of_blue() -> None:
    """Cones touching at one end gape by half the difference of diameters; across the flank, times cosine."""
    cone = Cone(0.4, 40.0, 20.0, 50.0)
    most = blue_limit(cone, 0.003)
    gap = mpmath.mpf(most) / 2 * mpmath.cos(mpmath.atan(mpmath.mpf("0.2")))
    assert float(gap) == pytest.approx(0.003, rel=1e-12)
