"""Speeds, times, fine feed and finish against published examples (sources in the file's rows)."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from calc.machining import handfeed, infeed, speeds, tool

ROWS = list(csv.DictReader(Path(__file__).with_name("cutting.csv").read_text("utf-8").splitlines()))
METRES_A_MINUTE = {"ft/min": 0.3048, "m/s": 60.0, "m/min": 1.0}
MILLIMETRES = {"in": 25.4, "mm": 1.0}


def _ours(row: dict[str, str]) -> float:
    """The row's answer by the core, in the row's unit."""
    first, second = float(row["given_1"]), float(row["given_2"])
    if row["what"] == "rpm":
        return speeds.turns_a_minute(
            first * METRES_A_MINUTE[row["unit_1"]], second * MILLIMETRES[row["unit_2"]]
        )
    if row["what"] == "rpm_from_time":
        # The time at one turn a minute is as many times longer as there are turns.
        return handfeed.minutes(first, second, 1.0) / float(row["given_3"])
    if row["what"] == "time":
        return handfeed.minutes(first, second, 1.0)
    if row["what"] == "infeed":
        return (
            infeed.inward(first * MILLIMETRES[row["unit_1"]], math.radians(second))
            / MILLIMETRES[row["unit_1"]]
        )
    assert row["what"] == "crest"
    return tool.crest_height(first, second)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['what']} {row['given_1']} {row['given_2']}")
def test_against_published(row: dict[str, str]) -> None:
    """A row that is published but wrong must disagree: if it came to agree, one of the two has changed."""
    agrees = abs(_ours(row) - float(row["expected"])) <= float(row["tolerance"])
    assert agrees == (row["confidence"] == "published"), (row["note"], _ours(row))


def test_the_wrong_rows_are_wrong_as_their_notes_say() -> None:
    """By hand: 150 m/min / (pi x 0.140 m) and 200 mm / 250 mm a minute."""
    wrong = [row for row in ROWS if row["confidence"] == "published_but_wrong"]
    assert [_ours(row) for row in wrong] == pytest.approx([150.0 / (math.pi * 0.14), 0.8])
