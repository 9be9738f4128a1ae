"""The ways against plain physics: points turned in the plane, cones in space, sizes drawn at random.

Nothing expected here comes from the core's formulas. Plan points are complex numbers: the real axis runs
along the lathe to the tailstock, the imaginary one away from the operator.
"""

from __future__ import annotations

import cmath
import math
from itertools import product
from typing import Any

import mpmath
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from calc.doubt.shape import curved
from calc.estimate import Estimate
from calc.setting import attachment, collars, graduations, master, one_dial, plate, set_over, two_dials
from calc.setting.collars import round_amount, turn_and_move
from calc.setting.common import whole_pair
from calc.setting.plan import ENDS, SIDES
from setting.told import said, task_for, usual_doubts, value, word

Array = NDArray[np.float64]
MORSE_2 = math.atan(1.0 / 20.020 / 2.0)
CASES = list(product(ENDS, SIDES))
every_case = pytest.mark.parametrize(("small_end", "cut_side"), CASES)


def flank(half_angle: float, small_end: str, cut_side: str) -> complex:
    """Direction along the flank that is cut, towards the tailstock, in the work's own frame."""
    side = 1.0 if cut_side == "far" else -1.0
    # Towards a small end at the tailstock the flank comes nearer to the axis, else it leaves it.
    nearer = -side if small_end == "tailstock" else side
    return complex(math.cos(half_angle), nearer * math.sin(half_angle))


@every_case
@pytest.mark.parametrize("plunger", ["axis", "slide"])
def test_one_dial(small_end: str, cut_side: str, plunger: str) -> None:
    """The point at which the plunger's line meets the bar's side, before and after the slide is wound."""
    angle, travel = 0.31, 35.0
    along = flank(angle, small_end, cut_side)
    side = 1.0 if cut_side == "far" else -1.0
    towards_bar = complex(0.0, -side) if plunger == "axis" else along * complex(0.0, -side)
    surface = 12.0 * side
    first = complex(-40.0, side * 80.0)
    wound = first + travel * along * (1.0 if small_end == "tailstock" else -1.0)
    reach = [(surface - point.imag) / towards_bar.imag for point in (first, wound)]
    task = task_for(
        one_dial,
        angle,
        {"travel": travel, "plunger": plunger},
        small_end=small_end,
        cut_side=cut_side,
        length=10.0,
    )
    answer = one_dial.set_up(task)
    # Wound towards the small end the plunger is pushed in: its reach to the bar grows shorter.
    assert reach[0] - reach[1] == pytest.approx(value(answer, "dial_reading"), abs=1e-12)
    assert "go in by" in said(one_dial.steps(task, answer, ""))


@every_case
def test_set_over_lays_the_flank_along_the_bed(small_end: str, cut_side: str) -> None:
    angle, work = 0.06, 250.0
    task = task_for(
        set_over, angle, {"work_length": work}, small_end=small_end, cut_side=cut_side, length=50.0
    )
    answer = set_over.set_up(task)
    sign = {"the operator": -1.0, "the far side": 1.0}[word(answer, "towards")]
    over = sign * value(answer, "set_over")
    dead_centre = complex(math.sqrt(work**2 - over**2), over)
    turned = flank(angle, small_end, cut_side) * dead_centre / abs(dead_centre)
    assert turned.imag == pytest.approx(0.0, abs=1e-12)


@every_case
@given(st.floats(0.005, 0.5), st.floats(-0.004, 0.004), st.floats(10.0, 200.0), st.floats(0.0, 120.0))
@settings(max_examples=40, deadline=None)
def test_collar_correction(
    small_end: str, cut_side: str, wanted: float, off: float, ahead: float, across: float
) -> None:
    """Tip and slide turned about the pivot, the cross-slide moved: the tip is on the old flank again."""
    task = task_for(
        collars,
        wanted,
        {"pivot_ahead": ahead, "pivot_across": across},
        small_end=small_end,
        cut_side=cut_side,
        length=10.0,
        large=400.0,
    )
    turn, move = turn_and_move(task, wanted + off)
    side = 1.0 if cut_side == "far" else -1.0
    now = flank(wanted + off, small_end, cut_side)
    # The slide then lies as the flank wanted does.
    assert cmath.phase(now * cmath.exp(1j * turn) / flank(wanted, small_end, cut_side)) == pytest.approx(
        0.0, abs=1e-12
    )
    pivot = complex(30.0, side * (25.0 + across))
    tip = pivot - ahead - 1j * side * across
    swung = pivot + (tip - pivot) * cmath.exp(1j * turn) + 1j * side * move
    off_flank = ((swung - tip) / now).imag
    assert off_flank == pytest.approx(0.0, abs=1e-10)


def test_collar_correction_by_hand() -> None:
    """Cut too flat, small end to the tailstock, tool on the operator's side.

    The slide goes further anticlockwise, which takes a tip on the headstock's side away from the work, and
    the cross-slide follows.
    """
    task = task_for(collars, 0.025, {"collar_measured": 2.4, "pivot_across": 0.0})
    answer = collars.set_up(task)
    missing = 0.025 - math.atan(2.4 / 2.0 / value(answer, "collar_distance"))
    assert word(answer, "collar_way") == "towards the work, then swing anticlockwise"
    assert value(answer, "collar_move") == pytest.approx(60.0 * missing, rel=0.01)
    assert "swing it anticlockwise, clear of the work" in said(collars.steps(task, answer, ""))


@every_case
@pytest.mark.parametrize("lies", ENDS)
def test_side_of_the_master(small_end: str, cut_side: str, lies: str) -> None:
    task = task_for(master, 0.03, {"master_lies": lies}, small_end=small_end, cut_side=cut_side)
    swept = master.sweep_side(task)
    assert flank(0.03, lies, swept) == pytest.approx(flank(0.03, small_end, cut_side))
    other = "far" if swept == "operator" else "operator"
    assert abs(flank(0.03, lies, other) - flank(0.03, small_end, cut_side)) > 0.05


@given(st.floats(0.01, 0.4), st.floats(-0.01, 0.01))
@settings(max_examples=60, deadline=None)
def test_drift_over_a_master(master_angle: float, more: float) -> None:
    """A point that runs along the slide from the master's side, and how far it then stands off square."""
    mpmath.mp.dps = 40
    slide = mpmath.mpf(master_angle + more)
    travel = mpmath.mpf(70)
    ends = travel * mpmath.expj(-slide)
    surface = -ends.real * mpmath.tan(mpmath.mpf(master_angle))
    expected = surface - ends.imag
    assert float(expected) == pytest.approx(master.drift(70.0, master_angle + more, master_angle), abs=1e-12)


def test_indicator_off_centre_height() -> None:
    """A cone in space cut at height h: the chord of its side between both ends."""
    mpmath.mp.dps = 40
    doubts = {"setting.dial_height_give": 1.5}
    task = task_for(master, MORSE_2, large=17.78, length=64.0, doubts=doubts)
    large, small = mpmath.mpf("8.89"), mpmath.mpf("8.89") - 32 * mpmath.mpf(task.cone.rate)

    def chord(height: Any) -> Any:
        return mpmath.atan((mpmath.sqrt(large**2 - height**2) - mpmath.sqrt(small**2 - height**2)) / 64)

    mean = mpmath.quad(chord, [0, mpmath.mpf("1.5")]) / mpmath.mpf("1.5")
    spread = mpmath.quad(lambda h: (chord(h) - mean) ** 2, [0, mpmath.mpf("1.5")]) / mpmath.mpf("1.5")
    got = master.set_up(task).angle
    assert got is not None
    assert got.value == pytest.approx(float(mean), abs=1e-10)
    assert got.standard == pytest.approx(float(mpmath.sqrt(spread)), rel=1e-4)


@pytest.mark.parametrize("half_width", [0.001, 0.02, 0.3])
def test_curved_against_quadrature(half_width: float) -> None:
    mpmath.mp.dps = 30
    for ours, theirs in ((math.cos, mpmath.cos), (lambda x: math.exp(3 * x), lambda x: mpmath.exp(3 * x))):
        mean = mpmath.quad(theirs, [-half_width, half_width]) / (2 * half_width)
        variance = mpmath.quad(lambda x, f=theirs, m=mean: (f(x) - m) ** 2, [-half_width, half_width])
        found = curved(ours, half_width, "key")
        assert found.value == pytest.approx(float(mean), rel=1e-9)
        assert found.standard == pytest.approx(float(mpmath.sqrt(variance / (2 * half_width))), rel=1e-5)


@given(st.floats(0.05, 90.0), st.sampled_from(["mm", "inch"]))
@settings(max_examples=100, deadline=None)
def test_round_amounts(most: float, system: str) -> None:
    found = round_amount(most, system)
    assert 0.66 * most < found <= most * (1.0 + 1e-9)
    shown = f"{found / (25.4 if system == 'inch' else 1.0):.6e}"
    assert shown[:4] in {"1.00", "1.50", "2.00", "2.50", "3.00", "4.00", "5.00", "6.00", "8.00"}


def _draws(seed: int, doubts: dict[str, float], count: int = 200_000) -> dict[str, Array]:
    """Each doubt by its short name, drawn anywhere within its limits, twice over (… and …_2)."""
    made = np.random.default_rng(seed)
    names = [name.removeprefix("setting.") for name in doubts]
    drawn = {
        name: made.uniform(-half, half, count) for name, half in zip(names, doubts.values(), strict=True)
    }
    again = {
        f"{name}_2": made.uniform(-half, half, count)
        for name, half in zip(names, doubts.values(), strict=True)
    }
    return drawn | again


def _alike(got: Estimate | None, true: Array) -> None:
    assert got is not None
    assert got.standard == pytest.approx(float(np.std(true)), rel=0.01)
    assert got.value == pytest.approx(float(np.mean(true)), abs=0.02 * got.standard)


@pytest.mark.parametrize("plunger", ["axis", "slide"])
def test_one_dial_by_draws(plunger: str) -> None:
    doubts = usual_doubts(one_dial) | {"setting.plunger_give": math.radians(6.0)}
    task = task_for(one_dial, 0.15, {"plunger": plunger}, length=20.0, doubts=doubts)
    answer = one_dial.set_up(task)
    d = _draws(1, doubts)
    reading, travel = (
        value(answer, "dial_whole") + d["dial_give"],
        value(answer, "travel_whole") + d["travel_give"],
    )
    off = d["plunger_give"]
    # Plunger at `off` beside its square: in the frame of the bar it leans, so it runs 1 / cos as far.
    if plunger == "axis":
        angle = np.arcsin(reading * np.cos(off) / travel)
    else:
        angle = np.full_like(off, 0.15)
        for _ in range(60):
            angle = np.arcsin(reading * np.cos(angle + off) / travel)
    bar = d["master_give"] / 2.0 / 50.0 + d["true_give"] / 50.0
    _alike(answer.angle, angle + bar + d["play_give"] / 80.0)


def test_two_dials_by_draws() -> None:
    doubts = usual_doubts(two_dials) | {"setting.dial_give": 0.01}
    task = task_for(two_dials, 0.15, {"travel_along": "carriage"}, length=20.0, doubts=doubts)
    answer = two_dials.set_up(task)
    d = _draws(2, doubts)
    across = value(answer, "cross_whole") + d["dial_give"]
    along = value(answer, "travel_whole") + d["dial_give_2"]
    true = np.arctan(across * np.cos(d["plunger_give"]) / (along * np.cos(d["plunger_give_2"])))
    turned = d["side_give"] / 80.0 + d["play_give"] / 80.0 + d["axis_give"] / 2.0 / 100.0
    _alike(answer.angle, true + turned)


def test_set_over_by_draws() -> None:
    doubts = usual_doubts(set_over)
    task = task_for(set_over, 0.03, {"centre_depth": 6.0}, doubts=doubts)
    answer = set_over.set_up(task)
    d = _draws(3, doubts)
    over = (value(answer, "set_over_whole") + d["dial_give"]) * np.cos(d["plunger_give"])
    between = 194.0 + d["lengths_give"] + d["centre_give"] + d["centre_give_2"]
    _alike(answer.angle, np.arcsin(over / between) + d["axis_give"] / 2.0 / 100.0)


def test_collars_by_draws() -> None:
    doubts = usual_doubts(collars)
    task = task_for(collars, MORSE_2, doubts=doubts)
    answer = collars.set_up(task)
    d = _draws(4, doubts)
    difference = value(answer, "collar_difference") + d["collar_give"] - d["collar_give_2"] + d["collar_left"]
    _alike(answer.angle, np.arctan(difference / 2.0 / (value(answer, "collar_distance") + d["travel_give"])))


def test_attachment_and_graduations_by_draws() -> None:
    doubts = usual_doubts(attachment)
    answer = attachment.set_up(task_for(attachment, MORSE_2, doubts=doubts))
    d = _draws(5, doubts)
    reading = (value(answer, "cross_whole") + d["dial_give"]) * np.cos(d["plunger_give"])
    true = np.arctan(reading / (value(answer, "travel_whole") + d["travel_give"]))
    turned = d["master_give"] / 2.0 / 50.0 + d["true_give"] / 50.0 + d["play_give"] / 80.0
    _alike(answer.angle, true + turned)
    doubts = usual_doubts(graduations)
    answer = graduations.set_up(task_for(graduations, MORSE_2, {"zero": "across"}, doubts=doubts))
    d = _draws(6, doubts)
    true = math.pi / 2.0 - (value(answer, "degrees_whole") + d["graduation_give"])
    _alike(answer.angle, true + d["play_give"] / 80.0 + d["axis_give"] / 2.0 / 100.0)


def test_master_by_draws() -> None:
    doubts = usual_doubts(master) | {"setting.dial_height_give": 0.0}
    task = task_for(
        master, 0.2, {"master_rate": 2.0 * math.tan(0.195)}, length=20.0, large=80.0, doubts=doubts
    )
    answer = master.set_up(task)
    d = _draws(7, doubts)
    at = np.arctan(math.tan(0.195) + d["master_give"] / 2.0 / 50.0)
    moved = value(answer, "dial_whole") + d["sweep_give"]
    true = at + np.arcsin(moved * np.cos(at) / 80.0) + d["true_give"] / 50.0 + d["play_give"] / 80.0
    _alike(answer.angle, true)


def test_collars_that_are_right_are_left() -> None:
    task = task_for(collars, MORSE_2, {"collar_measured": 2.504})
    assert value(collars.set_up(task), "collar_difference") == pytest.approx(2.5)
    assert "leave the top slide as it is" in said(collars.steps(task, collars.set_up(task), ""))
    worse = task_for(collars, MORSE_2, {"collar_measured": 2.506})
    assert "leave the top slide as it is" not in said(collars.steps(worse, collars.set_up(worse), ""))


def test_ball_centres() -> None:
    """Both balls' centres stand one ball nearer together than what is measured over them."""
    told: dict[str, float | str] = {"centres": "ball", "over_balls": 187.0, "ball": 7.0}
    answer = set_over.set_up(task_for(set_over, 0.03, told))
    assert value(answer, "set_over") == pytest.approx(180.0 * math.sin(0.03), abs=1e-12)


def test_a_master_out_of_its_taper() -> None:
    """The flank's angle for a change of the taper on diameter, by moving it: steep, so that cos² shows."""
    doubts = {"setting.master_give": 0.004}
    task = task_for(master, 0.7, length=20.0, large=80.0, doubts=doubts)
    got = master.set_up(task).angle
    rate = 2.0 * math.tan(0.7)
    moved = math.atan((rate + 0.004 / 50.0) / 2.0) - math.atan((rate - 0.004 / 50.0) / 2.0)
    assert got is not None
    assert got.standard == pytest.approx(moved / 2.0 / math.sqrt(3.0), rel=1e-5)


@every_case
def test_turn_from_square_across(small_end: str, cut_side: str) -> None:
    """The handle turned from the operator to the tailstock ends along the flank."""
    task = task_for(graduations, 0.3, {"zero": "across"}, small_end=small_end, cut_side=cut_side, length=20.0)
    turn = graduations.turn_from_across(graduations.from_above(task))
    assert -1j * cmath.exp(1j * turn) == pytest.approx(flank(0.3, small_end, cut_side))
    words = said(graduations.steps(task, graduations.set_up(task), ""))
    assert ("counts back" in words) == (turn > math.pi / 2.0)


@pytest.mark.parametrize("scale", ["per_foot", "degrees"])
def test_attachment_by_its_scale(scale: str) -> None:
    """To a tenth of an eighth of an inch per foot, and of a degree: no further off than half of that."""
    for angle in (0.01, 0.0251, 0.09):
        told: dict[str, float | str] = {"attachment_by": "scale", "attachment_scale": scale}
        got = attachment.set_up(task_for(attachment, angle, told)).angle
        assert got is not None
        half = math.radians(0.05) if scale == "degrees" else 0.00625 / 12.0 / 2.0
        assert abs(got.value - angle) <= half + 1e-12
        step = math.degrees(got.value) / 0.1 if scale == "degrees" else 24.0 * math.tan(got.value) / 0.0125
        assert step == pytest.approx(round(step), abs=1e-6)


@pytest.mark.parametrize(("lies", "stands"), list(product(["included", "half"], ["plate", "upright"])))
def test_plate_by_draws(lies: str, stands: str) -> None:
    """Rollers, bar and sweep at sizes of their own; the bar's angle from the heights of its rollers' axes."""
    doubts = usual_doubts(plate)
    steep = {"included": 0.35, "half": 0.7}[lies]
    told: dict[str, float | str] = {"plate_angle": lies, "plate_from": stands, "bar_centres": 100.0}
    answer = plate.set_up(task_for(plate, steep, told, length=20.0, doubts=doubts))
    assert answer.stack is not None
    stack = answer.stack.height.value
    d = _draws(8, doubts)
    # Half the difference of the rollers' diameters raises one axis over the other.
    raised, bar = stack + d["roller_give"] / 2.0, 100.0 + d["bar_give"]
    held = np.arcsin(raised / bar)
    held = math.pi / 2.0 - held if stands == "upright" else held
    true = (held + d["edge_give"] / 100.0 + d["sweep_give"] / 80.0) / (2.0 if lies == "included" else 1.0)
    _alike(answer.stack.angle_from_height(Estimate(stack)), true)


@given(st.floats(20.0, 200.0), st.floats(0.01, 0.3))
@settings(max_examples=60, deadline=None)
def test_told_readings_are_near_and_round(travel: float, ratio: float) -> None:
    told_travel, told = whole_pair(travel, ratio, 0.01)
    assert 0.9 * travel - 0.02 / ratio <= told_travel <= travel + 0.005
    assert told_travel * ratio == pytest.approx(told, abs=0.0051 * ratio)
    if travel * ratio >= 2.0:
        assert told / 0.1 == pytest.approx(round(told / 0.1), abs=1e-6)
