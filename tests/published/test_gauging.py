"""Rollers, balls, discs, rings, an indicator on a sine bar: published and separately computed examples.

The source stands beside each row. Rows marked "computed" were worked out at 40 digits from the relation
named, when the examples were collected, by other code than ours. Tolerance: half a unit of the last digit
printed."""

from __future__ import annotations

import math

import pytest

from calc.cone import Cone, rate_from_half_angle, solve
from calc.gauging import balls, discs, indicator_run, rollers, stand_off, two_diameters
from calc.gauging.plain import sine_angle, sine_height
from calc.gauging.shape import middle
from calc.gauging.way import Bell, Part, Row

INCH = 25.4
PER_FOOT = 1.0 / 12.0
ARCSECOND = math.radians(1.0 / 3600.0)


@pytest.mark.parametrize(
    ("larger", "smaller", "per_foot", "centres"),
    # F. D. Jones, Turning and Boring (about 1914), pages 97 to 99; the same in a machinists' handbook, page
    # 701
    [(1.5, 1.25, 0.75, 4.002)],
)
def test_discs_apart(larger: float, smaller: float, per_foot: float, centres: float) -> None:
    half = math.atan(per_foot * PER_FOOT / 2.0)
    assert discs.centres(larger, smaller, half) == pytest.approx(centres, abs=0.0005)


def test_discs_measured_from_one_side() -> None:
    # Machinists' handbook, 31st edition (2020), page 701: discs of 3 and 2 in, centres 5 in apart
    half = discs.half_angle(3.0 * INCH, 2.0 * INCH, 5.0 * INCH)
    assert 12.0 * math.tan(2.0 * half) == pytest.approx(2.4367, abs=5e-5)


@pytest.mark.parametrize(
    ("larger", "smaller", "centres", "degrees"),
    # machinists' handbook, angles and tapers (figure quoted from memory)
    [(1.5, 1.0, 5.0, 5.732)],
)
def test_discs_included_angle(larger: float, smaller: float, centres: float, degrees: float) -> None:
    half = discs.half_angle(larger * INCH, smaller * INCH, centres * INCH)
    assert math.degrees(2.0 * half) == pytest.approx(degrees, abs=0.0005)


def test_two_diameters_over_parallels() -> None:
    # public machinists' discussion, quick measurement of a taper with parallel blocks: 3 deg 34 min 35 s
    cone = Cone(0.125)
    row = Row("two_diameters", 0, {"diameter_1": 0.745 * INCH, "diameter_2": 0.62 * INCH, "apart": INCH})
    angle = two_diameters.seen(row, Part(cone)).angle
    assert isinstance(angle, Bell)
    assert math.degrees(cone.half_angle + angle.value) == pytest.approx(3.5763, abs=5e-5)


@pytest.mark.parametrize(
    ("roller", "over_1", "over_2", "height_1", "height_2", "length", "degrees", "small", "large"),
    [
        # computed; the angle formula as in a university metrology laboratory sheet
        (10.0, 40.26529, 42.88388, 0.0, 50.0, 80.0, 1.499998765, 20.00000308, 24.18974708),
        (8.0, 34.7053, 37.7172, 10.0, 70.0, 94.0, 1.437774453, 18.00000386, 22.71864719),
    ],
)
def test_rollers(
    roller: float,
    over_1: float,
    over_2: float,
    height_1: float,
    height_2: float,
    length: float,
    degrees: float,
    small: float,
    large: float,
) -> None:
    half = rollers.half_angle(over_1, over_2, height_1, height_2)
    assert math.degrees(half) == pytest.approx(degrees, abs=1.5e-8)
    assert rollers.at_plate(over_1, half, height_1, roller) == pytest.approx(small, abs=2e-7)
    # the whole way: as an observation of that very cone, which then is out by nothing
    lengths = {
        "roller": roller,
        "over_1": over_1,
        "over_2": over_2,
        "height_1": height_1,
        "height_2": height_2,
    }
    cone = Cone(rate_from_half_angle(math.radians(degrees)), large, small, length)
    seen = rollers.seen(Row("rollers", 0, lengths), Part(cone))
    assert isinstance(seen.angle, Bell) and seen.diameter is not None
    assert seen.angle.value == pytest.approx(0.0, abs=1e-9)
    assert seen.diameter.value == pytest.approx(0.0, abs=3e-7)


@pytest.mark.parametrize(
    ("run", "length", "arcseconds"),
    [
        # computed; included angle's error = atan(n / l), as in a university metrology laboratory sheet
        (0.0005 * INCH, 2.5 * INCH, 41.2529607),
        (-0.01, 80.0, -25.78310065),
    ],
)
def test_indicator_on_a_sine_bar(run: float, length: float, arcseconds: float) -> None:
    row = Row("indicator_run", 0, {"run": run, "run_length": length}, {"setup": "plate"})
    angle = indicator_run.seen(row, Part(Cone(0.05))).angle
    assert isinstance(angle, Bell)
    assert 2.0 * angle.value / ARCSECOND == pytest.approx(arcseconds, abs=1e-6)


def test_indicator_on_a_sine_bar_with_its_stack() -> None:
    # computed: 100 mm bar, 1 in 19.922, 0.003 mm over 50 mm
    cone = Cone(1.0 / 19.922)
    row = Row("indicator_run", 0, {"run": 0.003, "run_length": 50.0}, {"setup": "plate"})
    angle = indicator_run.seen(row, Part(cone)).angle
    assert isinstance(angle, Bell)
    assert sine_height(cone.included_angle, 100.0) == pytest.approx(5.016416489, abs=5.02e-8)
    assert math.degrees(2.0 * (cone.half_angle + angle.value)) == pytest.approx(2.878839503, abs=2.9e-8)
    assert 1.0 / rate_from_half_angle(cone.half_angle + angle.value) == pytest.approx(19.89820028, abs=2e-7)


def test_two_balls_one_proud() -> None:
    # GATE (India) PI 2015: balls of 20 and 15 mm, the larger one 5 mm proud, the smaller 35 mm down; key 7.6
    # deg
    half = balls.half_angle(20.0, 15.0, -5.0, 35.0)
    assert math.degrees(2.0 * half) == pytest.approx(7.6, abs=0.05)


@pytest.mark.parametrize(
    ("small", "large", "depth_small", "depth_large", "degrees", "face"),
    [
        # computed: D at the face = 2 (r / cos a + z tan a)
        (20.0, 22.4, 66.0721, 17.0468, 1.437777742, 23.82500009),
        (30.0, 38.0, 84.62524, 0.5252981, 2.862405072, 40.00000005),
    ],
)
def test_two_balls(
    small: float, large: float, depth_small: float, depth_large: float, degrees: float, face: float
) -> None:
    half = balls.half_angle(large, small, depth_large, depth_small)
    assert math.degrees(half) == pytest.approx(degrees, abs=3e-8)
    assert balls.at_face(large, depth_large, half) == pytest.approx(face, abs=4e-7)
    assert balls.at_face(small, depth_small, half) == pytest.approx(face, abs=4e-7)


def test_one_ball() -> None:
    # computed: one ball and a known angle
    assert balls.at_face(26.0, 63.20674, math.radians(1.5)) == pytest.approx(30.00000004, abs=3e-7)


@pytest.mark.parametrize(
    ("rate", "taken_off", "moved"),
    [(1.0 / 19.922, 0.01, 0.19922), (0.1, 0.05, 0.5)],  # computed: axial = ratio × change of diameter
)
def test_gauge_moves_on(rate: float, taken_off: float, moved: float) -> None:
    assert stand_off.stands_off(Part(Cone(rate)), taken_off) == pytest.approx(moved, abs=2e-9)


@pytest.mark.parametrize(
    ("per_foot", "off", "left"),
    # computed: the plug stands proud of the ring's face
    [(0.60235, 0.125, 0.006274479167), (3.5, 0.015, 0.004375)],
)
def test_stand_off(per_foot: float, off: float, left: float) -> None:
    row = Row("stand_off", 0, {"stand_off": off * INCH})
    seen = stand_off.seen(row, Part(Cone(per_foot * PER_FOOT)))
    assert seen.bearing_end is not None
    assert seen.bearing_end.value / INCH == pytest.approx(left, abs=1e-9)


@pytest.mark.parametrize(
    ("small", "large", "length", "height", "off"),
    [
        # computed: r(z)² = (x + z tan a)² + e², size set true at the small end
        (20.0, 24.0, 80.0, 0.5, -0.0001894489081),
        (0.778 * INCH, 0.938 * INCH, 3.1875 * INCH, 0.02 * INCH, -8.179681016e-06 * INCH),
    ],
)
def test_hollow_at_mid_length(small: float, large: float, length: float, height: float, off: float) -> None:
    assert middle(height, 0.5 * (large - small) / length, length, large, "small") == pytest.approx(
        off, abs=1e-8
    )


@pytest.mark.parametrize(
    ("centres", "degrees", "height", "complement"),
    # computed: an angle plate set from its base, or from the upright
    [(5.0, 14.5, 1.25190002, 4.840738202), (10.0, 37.25, 6.05293988, 7.960020025)],
)
def test_angle_plate(centres: float, degrees: float, height: float, complement: float) -> None:
    angle = math.radians(degrees)
    assert sine_height(angle, centres) == pytest.approx(height, abs=5e-9)
    assert sine_height(0.5 * math.pi - angle, centres) == pytest.approx(complement, abs=5e-9)
    assert sine_angle(height, centres) == pytest.approx(angle, abs=2e-9)


def test_sine_bar_out_by_a_tenth() -> None:
    # public machinists' discussion of 4 February 2012: 0.0001 in on a 5 in bar at 30 degrees is 0.00132
    # degrees
    off = sine_angle(2.5 * INCH + 0.0001 * INCH, 5.0 * INCH) - sine_angle(2.5 * INCH, 5.0 * INCH)
    assert math.degrees(off) == pytest.approx(0.00132, abs=5e-6)


def test_taper_per_foot_as_an_angle() -> None:
    # machinists' handbook, angles and tapers (figure quoted from memory): 1-1/2 in per foot
    assert math.degrees(solve({"rate": 0.125}).included_angle) == pytest.approx(7.153, abs=0.0005)
