"""Errors, tool height and angle grades against published and separately computed examples.

Sources stand beside each row. Rows marked "computed" were worked out at 40 digits from the relation named,
when the examples were collected, by other code than ours.
"""

from __future__ import annotations

import math

import pytest

from calc.cone import error_on_diameter, solve
from calc.doubt.hollow import flatter_by
from calc.estimate import Estimate
from calc.tables.at import angle_tolerance

ARCSECOND = math.radians(1 / 3600)


@pytest.mark.parametrize(
    ("grade", "length", "microradians", "micrometres"),
    [
        # ISO 1947:1973 angle grades, quoted from memory: to be held against the standard
        ("AT7", 50.0, 315.0, 15.75),
        ("AT6", 80.0, 160.0, 12.8),
        ("AT8", 24.0, 800.0, 19.2),
        ("AT7", 200.0, 160.0, 32.0),
    ],
)
def test_grades(grade: str, length: float, microradians: float, micrometres: float) -> None:
    found = angle_tolerance(grade, length)
    assert found is not None
    assert found.angle == pytest.approx(microradians * 1e-6, rel=1e-9)
    assert found.on_diameter == pytest.approx(micrometres * 1e-3, rel=1e-9)


@pytest.mark.parametrize(
    ("small", "large", "length", "height", "error"),
    [
        # computed from r(z)² = (x + z tan a)² + e², size set true at the small end
        (20.0, 24.0, 80.0, 0.5, -0.004169636299),
        (0.778 * 25.4, 0.938 * 25.4, 3.1875 * 25.4, 0.02 * 25.4, -0.0001755316595 * 25.4),
    ],
)
def test_tool_off_centre(small: float, large: float, length: float, height: float, error: float) -> None:
    slope = 0.5 * (large - small) / length
    assert flatter_by(height, slope, length, large, "small") == pytest.approx(error, abs=2.6e-8)


@pytest.mark.parametrize(
    ("half_angle", "slide_error", "length", "error"),
    [
        # computed: 2 L (tan(a + error) - tan a); the slide's error counts twice in the included angle
        (1.4377, 0.05, 80.0, 0.1397173868),
        (1.4876, -0.01, 100.0, -0.03492996833),
    ],
)
def test_slide_off_its_angle(half_angle: float, slide_error: float, length: float, error: float) -> None:
    nominal, got = math.radians(half_angle), math.radians(half_angle + slide_error)
    assert error_on_diameter(nominal, got, length) == pytest.approx(error, abs=1.5e-9)


def test_sine_bar_differential() -> None:
    """A public examination item: d(angle) = tan(angle) (dh/h - dl/l), at 50 mm on 100 mm, computed."""
    from calc.estimate import asin

    ratio = Estimate(50.0, {"height": 0.002}) / Estimate(100.0, {"bar": 0.005})
    moved = asin(ratio)
    assert (moved.share("height") + moved.share("bar")) / ARCSECOND == pytest.approx(-1.190870414, abs=1e-8)


def test_two_parallels() -> None:
    """0.745 and 0.620 in over parallels 1 in apart: half angle 3 deg 34 min 35 s (a public discussion)."""
    cone = solve({"large_diameter": 0.745 * 25.4, "small_diameter": 0.62 * 25.4, "length": 25.4})
    assert cone.half_angle == pytest.approx(math.radians(3 + 34 / 60 + 35 / 3600), abs=0.5 * ARCSECOND)


def test_taper_of_one_and_a_half_inch_per_foot() -> None:
    """Machinery's Handbook, Angles and Tapers (figure quoted from memory): 7.153 degrees included."""
    assert solve({"rate": 1.5 / 12}).included_angle == pytest.approx(
        math.radians(7.153), abs=math.radians(0.0005)
    )
