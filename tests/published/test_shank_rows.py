"""Finished shanks row by row, through the one door, against the published dimensions.

The rows' source stands beside each; diameters printed as approximate agree to half of their last digit.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from calc.job import work

ROWS = list(csv.DictReader(Path(__file__).with_name("shanks.csv").read_text("utf-8").splitlines()))
IN_FINISHED = {
    "overall": "shank, end to large end",
    "gauge_from_end": "end to gauge plane",
    "large_end": "diameter at the large end",
    "end_diameter": "tang, diameter at most",
    "cone_small": "diameter at the cone's small end",
}
FIGURES = {
    "thickness": "finishing.tang_thickness",
    "flat_length": "finishing.flat_length",
    "cutter_radius": "finishing.cutter",
    "thread_depth": "finishing.thread_depth",
    "thread": "finishing.thread_name",
}


@cache
def _figures(series: str, size: str, end: str) -> dict[str, Any]:
    entries = {"taper.series": series, "taper.size": size, "blank.end": end}
    sheet: Any = work({"format": 1, "units": "inch" if "inch" in series else "mm", "entries": entries})
    assert sheet["problems"] == []
    return {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: " ".join((row["series"], row["size"], row["datum"])))
def test_row(row: dict[str, str]) -> None:
    figures, datum = _figures(row["series"], row["size"], row["end"]), row["datum"]
    if datum == "thread":
        assert figures[FIGURES[datum]]["value"] == row["value"]
        return
    number = float(row["value"])
    inch = 25.4 if row["unit"] == "in" else 1.0
    if datum == "below":
        low, high = figures["finishing.tang_limits"]["value"]
        assert low - high == pytest.approx(number, abs=1e-9)
    elif datum in FIGURES:
        twice = 2.0 if datum == "cutter_radius" else 1.0
        assert figures[FIGURES[datum]]["value"] == pytest.approx(twice * number * inch, abs=1e-6)
    elif datum == "overall":
        assert figures["blank.finished_length"]["value"] == pytest.approx(number * inch, abs=1e-6)
    else:
        system = "inch" if row["unit"] == "in" else "mm"
        rows = figures["blank.finished_length"]["table"]["rows"]
        shown = {each["cells"][0][system]: each["cells"][1][system] for each in rows}[IN_FINISHED[datum]]
        # Printed as approximate (large end), to 0.1 mm; inch diameters to 0.001 in.
        printed = 0.051 if row["unit"] == "mm" else 0.0006
        assert float(shown.split()[0]) == pytest.approx(number, abs=printed)
