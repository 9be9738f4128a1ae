"""Worked examples of others: diameters, lengths, rates and angles into one another; sources in the rows.

A row that says `disagrees` holds what a source prints wrongly: it is kept, and must lie further off than its
own rounding, yet near enough to be meant for the same thing. Nothing here comes from our own output.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from calc.cone import Cone, solve
from calc.quantities import Reading, read_angle, read_length, read_rate

TABLE = Path(__file__).with_name("taper_conversion.csv")
ROWS = list(csv.DictReader(TABLE.read_text(encoding="utf-8").splitlines()))
MEASURES = ("large_diameter", "small_diameter", "length", "rate", "included_angle", "half_angle")
NEAR_ENOUGH = 0.01
"""A misprint or rounding by hand is still within 1 % of the right value; the slip below is not."""
SLIP = "half of atan(7/24)"


def _read(name: str, text: str) -> Reading:
    if name.endswith("angle"):
        return read_angle(text)
    return read_rate(text) if name == "rate" else read_length(text)


def _solve(row: dict[str, str]) -> Cone:
    return solve({name: _read(name, row[name]).value for name in MEASURES if row[name]})


def _found(row: dict[str, str]) -> float:
    found = getattr(_solve(row), row["expected"])
    assert isinstance(found, float)
    return found


def _of(status: str) -> list[dict[str, str]]:
    return [row for row in ROWS if row["status"] == status]


def _name(row: dict[str, str]) -> str:
    given = " ".join(row[name] for name in MEASURES if row[name])
    return f"{given} -> {row['expected']} {row['printed']}"


@pytest.mark.parametrize("row", _of("agrees"), ids=_name)
def test_agrees_within_half_a_printed_digit(row: dict[str, str]) -> None:
    expected = _read(row["expected"], row["printed"]).value
    half_digit = _read(row["expected"], row["half_digit"]).value
    assert _found(row) == pytest.approx(expected, abs=half_digit * (1 + 1e-6), rel=0)


@pytest.mark.parametrize("row", _of("disagrees"), ids=_name)
def test_disagreements_are_what_they_are_said_to_be(row: dict[str, str]) -> None:
    printed = _read(row["expected"], row["printed"]).value
    half_digit = _read(row["expected"], row["half_digit"]).value
    assert row["note"], "a disagreement needs its reason"
    assert abs(_found(row) - printed) > half_digit
    if SLIP not in row["note"]:
        assert _found(row) == pytest.approx(printed, rel=NEAR_ENOUGH)


def test_rows_are_there() -> None:
    """Each agrees, or disagrees with its reason; some are checked for more than one measure."""
    assert _of("agrees") and _of("disagrees")
    assert len(_of("agrees")) + len(_of("disagrees")) == len(ROWS)
    assert all(row["source"] for row in ROWS)
