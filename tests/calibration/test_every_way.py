"""The chance of a right first cut, by every way, within three points of the lathe in vectors (ways.py).

At what a shop usually knows things to, ten times better, ten times worse, and each by its own factor. The
limits are drawn so that chances of every size come up.
"""

from __future__ import annotations

import math
import random
from typing import Any

import numpy as np
import pytest

from calc.job import work
from calibration.ways import WAYS, Carried, invented

SCALES = (0.1, 1.0, 10.0, None)
SETTINGS = 4000
WITHIN = 0.03


def _figures(entries: dict[str, str]) -> dict[str, dict[str, Any]]:
    sheet: Any = work({"format": 1, "units": "mm", "entries": entries, "drawer": []})
    assert not sheet["problems"], sheet["problems"]
    return {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}


def judged(carried: Carried, scale: float | None, jobs: int, seed: int) -> list[tuple[float, float]]:
    """For each job the chance as answered and the share of settings that were right."""
    chance = random.Random(seed)
    found: list[tuple[float, float]] = []
    while len(found) < jobs:
        job = invented(chance, seed + len(found), SETTINGS, scale)
        entries = {**job.entries(), **carried.entries(job), "setting.grade": "0.02 mm"}
        first = _figures(entries)
        error = first["setting.error_on_diameter"]
        spread = abs(error["value"]) + error["plus_minus"]
        limit = float(f"{min(0.99, max(2e-5, spread * chance.uniform(0.1, 0.8))):.5g}")
        entries["setting.grade"] = f"{limit!r} mm"
        figures = _figures(entries)
        errors = carried.errors(job, entries, lambda name, known=figures: float(known[name]["value"]))  # type: ignore[misc]
        found.append((figures["setting.chance"]["value"], float(np.mean(np.abs(errors) <= limit))))
    return found


@pytest.mark.parametrize("scale", SCALES, ids=lambda each: "mixed" if each is None else f"times {each:g}")
@pytest.mark.parametrize("way", WAYS)
def test_chances_are_kept_by_every_way(way: str, scale: float | None) -> None:
    """Each job by itself, but for what 4 000 draws leave open."""
    found = judged(WAYS[way], scale, 6, 11)
    worst = max(found, key=lambda each: abs(each[0] - each[1]))
    print(f"{way}, {scale}: worst {worst[0]:.1%} stated, {worst[1]:.1%} right")
    for stated, right in found:
        noise = 4.0 * math.sqrt(max(right * (1.0 - right), 0.001) / SETTINGS)
        assert abs(stated - right) < WITHIN + noise
