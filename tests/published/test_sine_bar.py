"""Stack heights against published and independently computed examples (sources in the file's rows)."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from calc.cone import rate_from_half_angle, solve
from calc.doubt.task import Task
from calc.estimate import Estimate
from calc.quantities import read_length, read_rate
from calc.setting import bar
from calc.setting.way import Answer

ROWS = list(csv.DictReader(Path(__file__).with_name("sine_bar.csv").read_text("utf-8").splitlines()))


def _set_up(half_angle: float, centres: float) -> Answer:
    cone = solve({"half_angle": half_angle})
    return bar.set_up(
        Task(
            cone,
            "tailstock",
            "operator",
            {"setting.bar_centres": centres, "setting.bar_give": 0.003},
            {"setting.bar_side": "operator"},
        )
    )


def _angle(row: dict[str, str]) -> float:
    """The angle the bar is set to [rad]; `whole` rows give it, the others a rate and which angle of it."""
    if row["given"] == "angle":
        return math.radians(float(row["given_value"]))
    cone = solve({"rate": read_rate(row["given_value"], row["given_unit"]).value})
    return cone.half_angle if row["angle_used"] == "half" else cone.included_angle


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if row["expected"] == "height"],
    ids=lambda row: row["note"] or row["given_value"],
)
def test_height(row: dict[str, str]) -> None:
    centres = read_length(row["centres"] + row["centres_unit"], "mm").value
    answer = _set_up(_angle(row), centres)
    assert answer.stack is not None
    in_row_unit = answer.stack.height.value / (25.4 if row["expected_unit"] == "in" else 1.0)
    assert in_row_unit == pytest.approx(float(row["expected_value"]), abs=float(row["tolerance"]), rel=0)


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row["expected"] == "angle"], ids=lambda row: row["given_value"]
)
def test_angle_from_height(row: dict[str, str]) -> None:
    centres = read_length(row["centres"] + row["centres_unit"], "mm").value
    height = read_length(row["given_value"] + row["given_unit"], "mm").value
    answer = _set_up(0.01, centres)
    assert answer.stack is not None
    angle = answer.stack.angle_from_height(Estimate(height)).value
    assert math.degrees(angle) == pytest.approx(
        float(row["expected_value"]), abs=float(row["tolerance"]), rel=0
    )


def test_rows_are_there() -> None:
    assert ROWS and all(row["source"] for row in ROWS)


def test_morse_3_on_a_4_inch_bar() -> None:
    """0.1003 to 0.1004 in: common practice, no source."""
    for rate in ("1:19.922", "0.60235 in/ft"):
        answer = _set_up(solve({"rate": read_rate(rate, "ratio").value}).half_angle, 101.6)
        assert answer.stack is not None
        assert 0.1003 <= answer.stack.height.value / 25.4 <= 0.1004


def test_stack_error_to_angle() -> None:
    """0.0001 in on a 5 in bar at 30 degrees is 0.00132 degrees.

    Source: a public machinists' discussion of sine-bar accuracy (4 February 2012), informal.
    """
    answer = _set_up(math.radians(30.0), 127.0)
    assert answer.stack is not None
    built = answer.stack.height + 0.00254
    change = math.degrees(answer.stack.angle_from_height(built).value) - 30.0
    assert change == pytest.approx(0.00132, abs=5e-6)


def test_rate_and_angle_are_inverse() -> None:
    assert solve({"half_angle": 0.3}).rate == pytest.approx(rate_from_half_angle(0.3))
