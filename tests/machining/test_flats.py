"""Flats on a round: against trigonometry by the angle at the centre, and by laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.machining.flats import across_flat_and_round, flat_depth, flat_width, run_out, second_flat

diameters = st.floats(min_value=1.0, max_value=200.0)
shares = st.floats(min_value=0.05, max_value=0.95)


@given(diameters, shares)
def test_chord_by_the_angle_at_the_centre(diameter: float, share: float) -> None:
    """A flat seen from the axis under twice the angle a: distance r cos a, width 2 r sin a."""
    radius, thickness = diameter / 2, diameter * share
    angle = math.acos(thickness / diameter)
    depth = flat_depth(diameter, thickness)
    assert radius - depth == pytest.approx(radius * math.cos(angle), rel=1e-9)
    assert flat_width(diameter, depth) == pytest.approx(2 * radius * math.sin(angle), rel=1e-7)


@given(diameters, shares)
def test_micrometer_reads_what_is_left(diameter: float, share: float) -> None:
    """After one flat the reading is a radius and a half thickness: found by turning the outline's points."""
    thickness = diameter * share
    depth = flat_depth(diameter, thickness)
    points = [
        (diameter / 2 * math.cos(k * math.pi / 500), diameter / 2 * math.sin(k * math.pi / 500))
        for k in range(1000)
    ]
    cut = [min(y, thickness / 2) for _, y in points]
    assert across_flat_and_round(diameter, depth) == pytest.approx(max(cut) - min(cut), rel=1e-9)


@given(st.floats(min_value=1.0, max_value=50.0), shares)
def test_run_out_lies_on_cutter_and_round(radius: float, share: float) -> None:
    """The place where it ends is `radius` from the cutter's axis, which stands `radius` above the flat."""
    depth = 2 * radius * share
    along = run_out(radius, depth)
    height = min(depth, radius)
    assert math.hypot(along, radius - height) == pytest.approx(radius, rel=1e-9)
    assert along <= radius


@given(diameters, shares, st.floats(min_value=0.0, max_value=0.2), st.floats(min_value=0.3, max_value=0.99))
def test_second_flat_leaves_what_it_says(diameter: float, share: float, band: float, first: float) -> None:
    """The tang built up from two cuts has the thickness and the offset that were told."""
    wanted = diameter * share
    least = wanted * (1 - band)
    depth = flat_depth(diameter, wanted) * 2 * first
    across = diameter - depth
    if across <= diameter / 2:
        return
    second = second_flat(diameter, across, wanted, least)
    upper = diameter / 2 - depth - second.first_more
    lower = -(diameter / 2 - second.depth)
    assert upper - lower == pytest.approx(second.thickness, abs=1e-9 * diameter)
    assert abs(upper + lower) / 2 == pytest.approx(second.off_centre, abs=1e-9 * diameter)
    assert least - 1e-9 <= second.thickness <= wanted + 1e-9
    assert second.first_more == 0.0 or second.off_centre == 0.0


@pytest.mark.parametrize(
    ("across", "depth", "thickness", "more", "off"),
    [
        (13.20, 5.30, 7.90, 0.00, 0.00),  # as wanted
        (13.25, 5.355, 7.79, 0.105, 0.00),  # first too shallow: 4.00 from the axis; 7.79 is the middle
        (13.15, 5.35, 7.80, 0.00, 0.00),  # a little deep, inside: alike
        (13.00, 5.32, 7.68, 0.00, 0.09),  # too deep: 3.75 one side, 3.93 the other
    ],
)
def test_morse_3_by_hand(across: float, depth: float, thickness: float, more: float, off: float) -> None:
    """A round of 18.5 mm to 7.9 mm, not under 7.68; worked by hand."""
    second = second_flat(18.5, across, 7.9, 7.68)
    assert second.depth == pytest.approx(depth)
    assert second.thickness == pytest.approx(thickness)
    assert second.first_more == pytest.approx(more, abs=1e-9)
    assert second.off_centre == pytest.approx(off, abs=1e-9)
