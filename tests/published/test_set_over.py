"""Set-over of the tailstock against published examples (sources in the file's rows)."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from calc.cone import Cone
from calc.quantities import read_length, read_rate
from calc.setting import set_over
from setting.told import task_for, value

ROWS = list(csv.DictReader(Path(__file__).with_name("set_over.csv").read_text("utf-8").splitlines()))


def _given(row: dict[str, str]) -> dict[str, str]:
    return dict(part.split("=") for part in row["given"].split(";"))


def _half_angle(given: dict[str, str]) -> float:
    if "taper_per_foot" in given:
        return Cone(read_rate(given["taper_per_foot"]).value).half_angle
    large, small, length = (read_length(given[name]).value for name in ("D", "d", "taper_length"))
    return math.atan((large - small) / 2.0 / length)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['given']}:{row['expected']}")
def test_set_over(row: dict[str, str]) -> None:
    given = _given(row)
    work = next(text for name, text in given.items() if "work" in name)
    told: dict[str, float | str] = {"work_length": read_length(work).value}
    task = task_for(set_over, _half_angle(given), told, length=10.0, large=300.0)
    # Past 8 degrees the rule still gives its number, but no pair of centres carries the work.
    assert bool(set_over.refusal(task)) == (_half_angle(given) > math.radians(8.0))
    answer = set_over.set_up(task)
    exact, usual = value(answer, "set_over"), value(answer, "set_over_usual")
    # Published rows follow the usual rule; the exact one is told beside it and never larger.
    found = {"set_over_exact": exact, "difference": usual - exact}.get(row["expected"], usual)
    unit = 25.4 if row["expected_unit"] == "in" else 1.0
    assert found / unit == pytest.approx(float(row["expected_value"]), abs=float(row["tolerance"]), rel=0)
    assert exact <= usual


def test_rows_are_there() -> None:
    assert {row["expected"] for row in ROWS} >= {"set_over_exact", "difference"}
    assert all(row["source"] for row in ROWS)
