"""Every picture that invented jobs of every way, form, end, side and system put on their sheets.

Sound (`reading.assert_sound`): letters of 12 px on a narrow phone, no two texts over each other, none outside
the picture, at 0.6 em a letter and 0.66 in bold, which is wider than the fonts that phones carry.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from calc.cone import solve
from calc.drawings.blue_lines import rubbed_picture
from calc.gauging.contact import bearing_end
from calc.gauging.way import Part
from calc.job import work
from drawings.reading import assert_sound
from route.jobs import WAYS, a_job

BLUED = [{"way": "contact", "end": "large", "share": "40 %", "film": "2 µm"}]
AWKWARD: tuple[dict[str, str], ...] = (
    {"taper.series": "own", "taper.large_diameter": "20 mm", "taper.rate": "1:5000", "taper.length": "60 mm"},
    {"taper.series": "own", "taper.large_diameter": "60mm", "taper.half_angle": "30", "taper.length": "20mm"},
    {"taper.series": "Morse", "taper.size": "6", "blank.stock": "", "blank.head_length": "1/64 in"},
    {"taper.series": "Morse", "taper.size": "0", "setting.bar_centres": "10in", "blank.head_length": "11in"},
)


def pictures(request: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """Each picture of the sheet, with the id of what it belongs to."""
    for stage in work(request)["stages"]:  # type: ignore[attr-defined]
        yield stage["id"], stage["drawing"]
        for part in (*stage["figures"], *stage["steps"]):
            yield part["id"], part["drawing"]


@pytest.mark.parametrize("seed", range(2 * len(WAYS)))
def test_of_generated_jobs(seed: int) -> None:
    request = a_job(seed)
    if seed >= len(WAYS):
        request["observations"] = BLUED
    found = [(name, drawing) for name, drawing in pictures(request) if drawing]
    assert len(found) >= 3
    for name, drawing in found:
        read = assert_sound(drawing)
        assert not [each for each in read.words() if "…" in each.text], name


@pytest.mark.parametrize("entries", AWKWARD)
@pytest.mark.parametrize("units", ["mm", "inch"])
def test_of_awkward_jobs(entries: dict[str, str], units: str) -> None:
    request = a_job(0)
    request = {**request, "units": units, "entries": {"setting.way": "bar", **entries}}
    found = [drawing for _, drawing in pictures(request) if drawing]
    assert len(found) >= 3
    for drawing in found:
        assert_sound(drawing)


@pytest.mark.parametrize("form", ["external", "internal"])
def test_what_rubbed_lines_mean_is_what_reads_the_blue(form: str) -> None:
    """The words beside each end are those for the error at which the geometry lets that end bear."""
    said = [each.text for each in assert_sound(rubbed_picture(form)).words()]
    cone = solve({"rate": 0.05, "large_diameter": 20.0, "length": 60.0})
    for word, error in (("too steep", 1e-4), ("too shallow", -1e-4)):
        end = bearing_end(error, Part(cone, form))
        assert said[said.index(f"rubs at the {end} end") + 1] == word
