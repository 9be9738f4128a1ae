"""Slide, dials and attachment against published and independently computed examples (sources in the rows)."""

from __future__ import annotations

import csv
import math
from dataclasses import replace
from pathlib import Path

import pytest

from calc.cone import Cone, error_on_diameter
from calc.estimate import Estimate
from calc.quantities import read_length, read_rate
from calc.setting import attachment, graduations, one_dial, plate, two_dials
from setting.told import task_for, value

ROWS = list(
    csv.DictReader(Path(__file__).with_name("slide_and_attachment.csv").read_text("utf-8").splitlines())
)
SWIVEL = [row for row in ROWS if row["expected"] == "swivel"]
READINGS = [row for row in ROWS if "travel" in row["given"]]
FEED = [row for row in ROWS if "advance" in row["given"]]


def _given(row: dict[str, str]) -> dict[str, str]:
    return dict(part.split("=") for part in row["given"].split(";"))


def _half_angle(given: dict[str, str]) -> float:
    for name in ("half_angle", "angle_of_surface_with_axis"):
        if name in given:
            return math.radians(float(given[name].split()[0]))
    if "taper_per_foot" in given:
        return Cone(read_rate(given["taper_per_foot"]).value).half_angle
    if "ratio_1_in" in given:
        return Cone(1.0 / float(given["ratio_1_in"])).half_angle
    large, small, length = (read_length(given[name]).value for name in ("D", "d", "L"))
    return math.atan((large - small) / 2.0 / length)


@pytest.mark.parametrize("row", SWIVEL, ids=lambda row: row["given"])
def test_swivel(row: dict[str, str]) -> None:
    given = _given(row)
    zero = "across" if given.get("zero_of_swivel") == "across the bed" else "axis"
    answer = graduations.set_up(task_for(graduations, _half_angle(given), {"zero": zero}, length=5.0))
    expected, tolerance = float(row["expected_value"]), max(float(row["tolerance"]), 1e-9)
    assert math.degrees(value(answer, "degrees")) == pytest.approx(expected, abs=tolerance, rel=0)


def test_a_rule_of_thumb_that_disagrees() -> None:
    """28 × (D − d) / L gives 3.5 degrees where the angle is 3.576: the row says so, and so do we."""
    (row,) = [row for row in SWIVEL if row["confidence"] == "published_but_wrong"]
    assert "PUBLISHED swivel = 3.5 deg" in row["note"]
    answer = graduations.set_up(task_for(graduations, _half_angle(_given(row)), length=5.0))
    assert math.degrees(value(answer, "degrees")) - 3.5 > 0.07


@pytest.mark.parametrize("row", READINGS, ids=lambda row: f"{row['given']}:{row['expected']}")
def test_reading(row: dict[str, str]) -> None:
    given = _given(row)
    angle = _half_angle(given)
    travel: dict[str, float | str] = {
        "travel": read_length(next(v for k, v in given.items() if "travel" in k)).value
    }
    along_slide = value(one_dial.set_up(task_for(one_dial, angle, travel)), "dial_reading")
    by_bed = value(
        two_dials.set_up(task_for(two_dials, angle, {**travel, "travel_along": "carriage"})), "cross_reading"
    )
    found = {
        "reading_if_travel_is_along_bed_axis": by_bed,
        "difference": by_bed - along_slide,
    }.get(row["expected"], along_slide)
    unit = 25.4 if row["expected_unit"] == "in" else 1.0
    assert found / unit == pytest.approx(float(row["expected_value"]), abs=float(row["tolerance"]), rel=0)
    # The attachment's dial, and the tangent of a plunger square to the slide, agree with the bed's.
    if angle < math.radians(8.0):
        dial = value(attachment.set_up(task_for(attachment, angle, travel)), "cross_reading")
        assert dial == pytest.approx(by_bed, rel=1e-12)
    slanting = value(
        one_dial.set_up(task_for(one_dial, angle, {**travel, "plunger": "slide"})), "dial_reading"
    )
    assert slanting == pytest.approx(by_bed, rel=1e-12)


@pytest.mark.parametrize("row", FEED, ids=lambda row: row["expected"])
def test_fine_feed_by_the_slide(row: dict[str, str]) -> None:
    """The slide advanced by f goes f sin(half angle) deeper: the same sine as the dial's."""
    given = _given(row)
    depth = one_dial.reading(read_length(given["compound_advance"]).value, _half_angle(given), "axis")
    found = depth * (2.0 if row["expected"] == "diameter_change" else 1.0)
    assert found == pytest.approx(float(row["expected_value"]), abs=float(row["tolerance"]), rel=0)


def test_rows_are_there() -> None:
    """Each is checked one way or another."""
    assert SWIVEL and READINGS and FEED
    assert len(SWIVEL) + len(READINGS) + len(FEED) == len(ROWS)


def test_attachment_scale() -> None:
    """3.5 inches per foot is 8 degrees 18 minutes of half angle (machine-tool textbook, from memory)."""
    angle = Cone(3.5 / 12.0).half_angle
    by_degrees = attachment.set_up(task_for(attachment, angle, {"attachment_scale": "degrees"}))
    assert math.degrees(value(by_degrees, "attachment")) == pytest.approx(8.3, abs=0.00834)
    by_rate = attachment.set_up(task_for(attachment, angle))
    assert value(by_rate, "attachment") * 12.0 == pytest.approx(3.5, abs=1e-12)


def test_cone_on_a_sine_bar() -> None:
    """1:19.922 on a 100 mm bar: stack 5.016416489 mm; 3 µm high at the large end over 50 mm is 2.878839503°.

    Computed independently at 40 digits when the examples were collected; the rule (difference over run) as in
    a university metrology laboratory sheet.
    """
    nominal = Cone(1.0 / 19.922)
    task = task_for(plate, nominal.half_angle, {"bar_centres": 100.0})
    answer = plate.set_up(task)
    assert answer.stack is not None
    assert answer.stack.height.value == pytest.approx(5.016416489, abs=5.02e-8)
    held = answer.stack.angle_from_height(answer.stack.height).value
    actual = 2.0 * held + math.atan(0.003 / 50.0)
    assert math.degrees(actual) == pytest.approx(2.878839503, abs=2.88e-8)


def test_bar_and_stack_out_together() -> None:
    """50 mm on a 100 mm bar, 2 µm and 5 µm out: -1.190870414 seconds of arc to first order.

    Relation of a public examination item, d(angle) = tan(angle) (dh/h - dl/l); numbers computed at 40 digits.
    """
    task = task_for(plate, math.radians(30.0), {"plate_angle": "half", "bar_centres": 100.0}, length=5.0)
    task = replace(task, doubts={"setting.bar_give": 0.005 * math.sqrt(3.0)})
    answer = plate.set_up(task)
    assert answer.stack is not None
    built = answer.stack.angle_from_height(Estimate(50.0, {"stack": 0.002}))
    seconds = math.degrees(built.share("stack") + built.share("setting.bar_give")) * 3600.0
    assert seconds == pytest.approx(-1.190870414, abs=1.2e-8)


@pytest.mark.parametrize(
    ("half_angle", "error", "length", "expected", "tolerance"),
    [(1.4377, 0.05, 80.0, 0.1397173868, 1.4e-9), (1.4876, -0.01, 100.0, -0.03492996833, 1e-9)],
)
def test_slide_error_on_diameter(
    half_angle: float, error: float, length: float, expected: float, tolerance: float
) -> None:
    """Computed independently at 40 digits: an error of the slide counts twice on diameter."""
    found = error_on_diameter(math.radians(half_angle), math.radians(half_angle + error), length)
    assert found == pytest.approx(expected, abs=tolerance, rel=0)
