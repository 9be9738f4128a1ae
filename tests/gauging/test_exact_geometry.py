"""Rollers and balls against a cone in space, at 30 digits: where they touch is found, not assumed."""

from __future__ import annotations

import mpmath as mp
import pytest

from calc.gauging import balls, rollers

mp.mp.dps = 30


def _apart_from_cone(point: tuple[mp.mpf, mp.mpf, mp.mpf], base: mp.mpf, half: mp.mpf) -> mp.mpf:
    """Distance of a point from a cone about the z axis whose radius is base + z tan(half); above 0 outside.

    In the plane through the axis and the point the cone is a straight line, and nothing of it is nearer.
    """
    x, y, z = point
    away = mp.sqrt(x * x + y * y)
    return (away - (base + z * mp.tan(half))) * mp.cos(half)


def _roller_centre(base: mp.mpf, half: mp.mpf, height: mp.mpf, r: mp.mpf) -> mp.mpf:
    """How far from the axis a roller of radius r, lying along y with its middle at this height, touches the
    cone.

    The least distance of its axis from the cone is looked for along the whole roller.
    """

    def gap(x: mp.mpf) -> mp.mpf:
        nearest = min(_apart_from_cone((x, y, height), base, half) for y in mp.linspace(-20, 20, 81))
        return nearest - r

    low, high = base / 3, base + 10 * r + 10
    for _ in range(90):
        at = (low + high) / 2
        if gap(at) < 0:
            low = at
        else:
            high = at
    return (low + high) / 2


@pytest.mark.parametrize("degrees", [0.5, 1.43, 4.0, 8.2973])
@pytest.mark.parametrize("upright", [True, False])
def test_rollers_in_space(degrees: float, upright: bool) -> None:
    half = mp.radians(degrees)
    r, diameter = mp.mpf("4.5"), mp.mpf("31.7")
    measures = []
    for height in (mp.mpf("6.25"), mp.mpf("37.5")):
        base = diameter / 2
        x = _roller_centre(base, half if upright else -half, height + r, r)
        measure = 2 * (x + r)
        measures.append(measure)
        ours = rollers.over(float(diameter), float(half), float(height), float(2 * r), upright)
        assert ours == pytest.approx(float(measure), abs=1e-9)
    found = rollers.half_angle(float(measures[0]), float(measures[1]), 6.25, 37.5)
    assert abs(found) == pytest.approx(float(half), abs=1e-10)
    at_plate = rollers.at_plate(float(measures[0]), abs(found), 6.25, 9.0, upright)
    assert at_plate == pytest.approx(float(diameter), abs=1e-8)


@pytest.mark.parametrize("degrees", [0.5, 1.43, 4.0, 8.2973])
def test_balls_in_space(degrees: float) -> None:
    half = mp.radians(degrees)
    face = mp.mpf("38.1")
    tops = []
    for ball in (mp.mpf("36.5"), mp.mpf("34")):
        r = ball / 2

        def gap(z: mp.mpf, r: mp.mpf = r) -> mp.mpf:
            # depth z of the centre on the axis: the bore's radius narrows downwards
            return (face / 2 - z * mp.tan(half)) * mp.cos(half) - r

        centre = mp.findroot(gap, (mp.mpf(0), mp.mpf(200)), solver="anderson")
        tops.append(centre - r)
        assert balls.depth(float(ball), float(face), float(half)) == pytest.approx(float(tops[-1]), abs=1e-8)
    found = balls.half_angle(36.5, 34.0, float(tops[0]), float(tops[1]))
    assert found == pytest.approx(float(half), rel=1e-10)
    assert balls.at_face(36.5, float(tops[0]), found) == pytest.approx(float(face), abs=1e-8)
