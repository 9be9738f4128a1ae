"""The inverse of every way: a set-up that errs, corrected, gives the angle wanted.

The machine that errs is drawn here by itself: points turned in the plane, cones laid on a bar.
What a way says is to be set is handed to that machine, never to the way's own formulas.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.estimate import Estimate, normal
from calc.setting import WAYS, collars
from calc.setting.way import Way
from door import job
from setting.told import BY_ID, task_for, usual_doubts, value

FINE: dict[str, float | str] = {"division": 1e-7, "degree_division": 1e-8}
"""So fine that what is told is what is wanted; ways that ask for no division do not heed it."""


def _solved(forward: Callable[[float], float], number: float) -> float:
    """The angle at which the machine shows this number, by bisection."""
    low, high = 0.0, 1.4
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if forward(middle) < number else (low, middle)
    return low


def _turn(angle: float) -> complex:
    return cmath.exp(1j * angle)


def _stack(angle: float) -> float:
    """A bar of 100 mm parallel to the axis, 20 mm pins: the gap between the further pin and the slide."""
    slide = _turn(angle)
    pins = [0j, 100 + 0j]
    off = [(pin / slide).imag for pin in pins]
    return max(off) - min(off)


def _dial(angle: float) -> float:
    """One dial, its plunger square to the axis: how far across 50 mm along the slide lead."""
    return (50 * _turn(angle)).imag


def _slanting(angle: float) -> float:
    """The plunger square to the slide: how far it runs until it meets the line it started on."""
    end, plunger = 50 * _turn(angle), _turn(angle + math.pi / 2)
    return end.imag / plunger.imag


def _by_carriage(angle: float) -> float:
    """The carriage travels 50 mm; the point of the slide's side that is then across from the dial."""
    side = _turn(angle)
    return side.imag * (50 / side.real)


def _master(angle: float) -> float:
    """80 mm along a master of 1:25 from its side: how far the slide is then off it, square to the axis."""
    end = 80 * _turn(angle)
    return end.imag - end.real / 50


def _set_over(angle: float) -> float:
    """A work of 200 mm turned about the headstock's centre until its flank lies along the bed."""
    return (200 * _turn(angle)).imag


def _plate(angle: float) -> float:
    """A cone with its side on the bar, its upper side level: the bar leans as both sides part."""
    upper, lower = _turn(angle), _turn(-angle)
    return (100 * upper / lower).imag


def _upright(angle: float) -> float:
    return (100 * _turn(2 * angle)).real


MACHINES: dict[str, tuple[str, dict[str, float | str], Callable[[float], float]]] = {
    "bar": ("bar", {}, _stack),
    "bar with packing": ("bar", {"packing": 1.5, "roller_difference": 0.0}, lambda a: _stack(a) + 1.5),
    "one dial": ("one_dial", {}, _dial),
    "one dial, square to the slide": ("one_dial", {"plunger": "slide"}, _slanting),
    "two dials along the slide": ("two_dials", {"travel_along": "slide"}, _dial),
    "two dials along the axis": ("two_dials", {"travel_along": "axis"}, _by_carriage),
    "two dials, by the carriage": ("two_dials", {"travel_along": "carriage"}, _by_carriage),
    "master": ("master", {"master_rate": 0.04}, _master),
    "set-over": ("set_over", {"work_length": 200.0}, _set_over),
    "attachment by dial": ("attachment", {"attachment_by": "dial"}, _by_carriage),
    "attachment by rate": (
        "attachment",
        {"attachment_by": "scale"},
        lambda a: 2 * _turn(a).imag / _turn(a).real,
    ),
    "attachment by degrees": (
        "attachment",
        {"attachment_by": "scale", "attachment_scale": "degrees"},
        lambda a: a,
    ),
    "graduations": ("graduations", {}, lambda a: a),
    "plate": ("plate", {}, _plate),
}


@pytest.mark.parametrize("machine", MACHINES)
@given(wanted=st.floats(0.012, 0.12), off=st.floats(-0.006, 0.006), near=st.floats(-0.002, 0.002))
@settings(max_examples=25, deadline=None)
def test_corrected_the_machine_cuts_what_is_wanted(
    machine: str, wanted: float, off: float, near: float
) -> None:
    """Whatever was set and whatever the machine adds to it: once corrected the angle is right."""
    name, told, shows = MACHINES[machine]
    way = BY_ID[name]
    task = task_for(way, wanted, {**FINE, **told}, length=20.0)
    # A reading is told for a travel of its own, near the one asked.
    answer, by_scale = way.set_up(task), told.get("attachment_by") == "scale"
    over_travel = any(each.id == "setting.travel_whole" for each in answer.figures) and not by_scale
    part = value(answer, "travel_whole") / 50.0 if over_travel else 1.0
    was = part * shows(max(wanted + near, 0.001))
    cut = _solved(shows, was / part) + off
    change = way.correct(task, cut - wanted, was)
    assert change.was == was
    now = _solved(shows, change.number.value / part) + off
    assert now == pytest.approx(wanted, abs=1e-11)


@given(wanted=st.floats(0.5, 0.75), off=st.floats(-0.004, 0.004))
@settings(max_examples=25, deadline=None)
def test_against_the_upright(wanted: float, off: float) -> None:
    way = BY_ID["plate"]
    task = task_for(way, wanted, {"plate_from": "upright"}, length=5.0, large=800.0)
    was = float(_upright(wanted))
    change = way.correct(task, off, was)
    now = _solved(lambda angle: -_upright(angle), -change.number.value) + off
    assert float(now) == pytest.approx(wanted, abs=1e-12)


@given(wanted=st.floats(0.02, 0.2), off=st.floats(-0.004, 0.004))
@settings(max_examples=25, deadline=None)
def test_a_scale_that_counts_from_across(wanted: float, off: float) -> None:
    """Nought across the bed: the scale reads less as the slide swings further from the axis."""
    way = BY_ID["graduations"]
    task = task_for(way, wanted, {**FINE, "zero": "across"}, length=5.0, large=800.0)
    change = way.correct(task, off)
    assert math.pi / 2 - change.number.value + off == pytest.approx(wanted, abs=3e-9)
    assert change.number.value > change.was or off <= 3e-9  # a billionth of a radian is what can be set


@given(
    wanted=st.floats(0.01, 0.4),
    off=st.floats(-0.004, 0.004),
    ahead=st.floats(10.0, 200.0),
    across=st.floats(0.0, 120.0),
    small_end=st.sampled_from(["tailstock", "headstock"]),
    cut_side=st.sampled_from(["operator", "far"]),
)
@settings(max_examples=80, deadline=None)
def test_collars(
    wanted: float, off: float, ahead: float, across: float, small_end: str, cut_side: str
) -> None:
    """The cross-slide moved as told and the slide swung until the tip touches: it then runs as is wanted."""
    told: dict[str, float | str] = {"pivot_ahead": ahead, "pivot_across": across}
    task = task_for(collars, wanted, told, small_end=small_end, cut_side=cut_side, length=10.0, large=400.0)
    change = BY_ID["collars"].correct(task, off)
    side = 1.0 if cut_side == "far" else -1.0
    lean = -side if small_end == "tailstock" else side
    flank = cmath.exp(1j * lean * (wanted + off))
    tip = complex(-ahead, -side * across)

    def off_flank(turn: float) -> float:
        """How far the tip is off the flank it had touched, the slide turned so far about its pivot."""
        swung = tip * cmath.exp(1j * turn) + 1j * side * change.number.value
        return ((swung - tip) / flank).imag

    turn = lean * -off
    assert off_flank(turn) == pytest.approx(0.0, abs=1e-9)
    swung = "anticlockwise" if turn > 0 else "clockwise"
    if abs(off) > 1e-9:
        assert swung in str(change.figures[1].value)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.ID)
def test_doors(way: Way) -> None:
    task = task_for(way, 0.025, doubts=usual_doubts(way))
    change = way.correct(task, normal(0.0004, 0.0001, "seen"))
    assert change.number.share("seen") != 0.0
    assert all(each.id.startswith("proving.") and each.label for each in change.figures)
    assert [each.lead for each in change.figures].count(True) == 1 and change.figures[0].lead
    assert all(text.endswith(".") and "{" not in text for text in change.words.values())
    assert (change.stack is None) == (change.angle is not None)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.ID)
def test_the_doubt_of_the_error_goes_into_the_number(way: Way) -> None:
    """The same, by moving the error itself to either side."""
    task = task_for(way, 0.025, FINE)
    part = way.correct(task, normal(0.0004, 0.00005, "seen")).number.share("seen")
    up, down = (way.correct(task, error).number.value for error in (0.00045, 0.00035))
    assert part == pytest.approx((up - down) / 2, rel=1e-4)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.ID)
def test_what_comes_of_it_is_what_is_wanted(way: Way) -> None:
    """The angle told of the set-up once changed; steady doubts are in the error found, others are new."""
    task = task_for(way, 0.025, FINE, doubts=usual_doubts(way))
    change = way.correct(task, normal(0.0004, 0.0001, "seen"))
    if change.stack is not None:
        built = Estimate(change.stack.height.value, {"piece 0 3": 0.001})
        got = change.stack.angle_from_height(built)
        assert "piece 0 3" in got.parts
    else:
        assert change.angle is not None
        got = change.angle
    assert got.value == pytest.approx(0.025, abs=1e-8)
    assert abs(got.share("seen")) == pytest.approx(0.0001)
    assert not {"setting.bar_give", "setting.side_give", "setting.axis_give", "setting.master_give"} & set(
        got.parts
    )


@given(error=st.floats(-0.002, 0.002), stretch=st.floats(-0.001, 0.001))
@settings(max_examples=50, deadline=None)
def test_a_bar_of_another_length_than_told_comes_right_by_steps(error: float, stretch: float) -> None:
    """What stretches the number is not made good at once, but each correction leaves far less than before."""
    way, wanted = BY_ID["bar"], 0.05
    task = task_for(way, wanted)
    truly = 100.0 * (1.0 + stretch)
    height = value(way.set_up(task), "stack_height")
    left = math.asin(height / truly) + error - wanted
    for _ in range(3):
        before = left
        height = way.correct(task, left, height).number.value
        left = math.asin(height / truly) + error - wanted
        assert abs(left) <= abs(before) * (1.2 * abs(stretch) + abs(error) / wanted) + 1e-12


def test_nothing_to_change_is_said() -> None:
    for way in (BY_ID["one_dial"], BY_ID["set_over"], BY_ID["two_dials"], BY_ID["master"]):
        assert "Leave it" in way.correct(task_for(way, 0.025), 1e-7).words["mm"]
        assert "Leave it" not in way.correct(task_for(way, 0.025), 0.002).words["mm"]


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.ID)
@pytest.mark.parametrize("error", [-2.0, -0.3, 0.3, 2.0])
@pytest.mark.parametrize("was", [None, -1000.0, 1000.0])
def test_nonsense_is_answered(way: Way, error: float, was: float | None) -> None:
    change = way.correct(task_for(way, 0.025, doubts=usual_doubts(way)), error, was)
    assert math.isfinite(change.number.value)


@pytest.mark.parametrize("way", ["bar", "graduations", "set_over"])
@pytest.mark.parametrize("known", ["5 mm", "-5 mm"])
def test_what_no_lathe_can_be_out_is_refused_and_not_reckoned_with(way: str, known: str) -> None:
    """5 mm over 1.375 mm, as an entry of another unit is: told in words, and the sheet is whole."""
    entries = {"setting.way": way, "setting.axis_known": known, "setting.axis_length": "1-3/8 mm"}
    taper = {"taper.included_angle": "1°26'16\"", "taper.length": "60 mm", "taper.large_diameter": "20 mm"}
    sheet = job({**taper, "setting.work_length": "100 mm", **entries})
    line = next(stage["line"] for stage in sheet["stages"] if stage["id"] == "setting")
    assert "check those entries" in line
