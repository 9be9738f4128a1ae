"""Limits of ISO 286 against published spot values; the title of the source stands in each row.

A published value that cannot be right is recorded with the reason, and must then differ from ours.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from calc.machining.fits import clearance, width, zone

ROWS = list(csv.DictReader(Path(__file__).with_name("iso286.csv").read_text("utf-8").splitlines()))


def _name(row: dict[str, str]) -> str:
    return f"{row['nominal']} {row['zone']}"


@pytest.mark.parametrize("row", [row for row in ROWS if not row["disagreement"]], ids=_name)
def test_spot_value(row: dict[str, str]) -> None:
    found = zone(row["zone"], float(row["nominal"]))
    assert (found.upper, found.lower) == (float(row["upper"]), float(row["lower"]))


@pytest.mark.parametrize("row", [row for row in ROWS if row["disagreement"]], ids=_name)
def test_disagreement(row: dict[str, str]) -> None:
    """Upper less lower is the grade's width in ours, not in the printed one: ISO 286-1, table 1, decides."""
    found = zone(row["zone"], float(row["nominal"]))
    it = width(found.grade, float(row["nominal"]))
    assert found.upper - found.lower == it != float(row["upper"]) - float(row["lower"])


def test_fifty_h7_g6() -> None:
    """H7/g6 at 50 mm: clearance 9 to 50 µm (ISO 286-2 values, from memory)."""
    assert clearance(zone("H7", 50.0), zone("g6", 50.0)) == (9.0, 50.0)


def test_it7_by_its_formula() -> None:
    """IT7 over 30 to 50 mm: 16 i with i = 0.45 D^(1/3) + 0.001 D and D the geometric mean (ISO 286-1)."""
    mean = (30.0 * 50.0) ** 0.5
    unit = 0.45 * mean ** (1 / 3) + 0.001 * mean
    assert unit == pytest.approx(1.561243, abs=1e-6)
    assert width(7, 40.0) == 25.0 == round(16 * unit)
