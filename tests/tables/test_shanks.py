"""Shanks agree with their tapers, and the two standards with one another."""

from __future__ import annotations

import pytest

from calc.cone import solve
from calc.tables import find_taper, sizes
from calc.tables.shanks import Shank, shank

METRIC = [(series, size) for series in ("Morse", "Metric") for size in sizes(series) if size != "7"]


def _shank(series: str, size: str) -> Shank:
    found = shank(series, size)
    assert found is not None
    return found


@pytest.mark.parametrize(("series", "size"), METRIC)
def test_ends_follow_from_the_taper(series: str, size: str) -> None:
    """The standard works the ends out from gauge plane, rate and length, to one decimal (ISO 296)."""
    taper, ends = find_taper(series, size), _shank(series, size).data
    assert taper is not None
    rate, gauge = taper.data["rate"].value, taper.data["large_diameter"].value
    large = solve({"rate": rate, "small_diameter": gauge, "length": ends["setback"].value}).large_diameter
    assert ends["large_end_diameter"].value == pytest.approx(large, abs=0.051, rel=0)
    for length, small in (
        ("drawbar_cone_length", "drawbar_small_diameter"),
        ("tang_cone_length", "tang_small_diameter"),
    ):
        if length in ends:
            end = solve({"rate": rate, "large_diameter": gauge, "length": ends[length].value}).small_diameter
            assert ends[small].value == pytest.approx(end, abs=0.051, rel=0)


@pytest.mark.parametrize(("series", "size"), METRIC)
def test_lengths_add_up(series: str, size: str) -> None:
    data = _shank(series, size).data
    if "drawbar_length" in data:
        total = data["drawbar_cone_length"].value + data["setback"].value
        assert data["drawbar_length"].value == pytest.approx(total)
    if "tang_overall_length" in data:
        total = data["tang_cone_length"].value + data["setback"].value
        assert data["tang_overall_length"].value == pytest.approx(total)
        run_out = data["tang_flat_length"].value + data["tang_cutter_radius"].value
        assert data["tang_length"].value == pytest.approx(run_out)
        assert data["tang_diameter"].value < data["tang_small_diameter"].value


@pytest.mark.parametrize(
    ("size", "large_end", "small_end"),
    [("0", 9.2, 6.1), ("2", 18.0, 14.0), ("4", 31.6, 25.2), ("6", 63.8, 52.4)],
)
def test_published_ends(size: str, large_end: float, small_end: float) -> None:
    """Morse taper shank table after JIS and ISO 296, reprinted in a trade catalogue (2021-22)."""
    data = _shank("Morse", size).data
    assert data["large_end_diameter"].value == large_end
    assert data["tang_small_diameter"].value == small_end
    assert not data["tang_small_diameter"].from_memory


@pytest.mark.parametrize("size", ["0", "1", "2", "3", "4", "5", "6"])
def test_metric_and_inch_tangs_fit_one_another(size: str) -> None:
    """The inch table was read from a source, the metric tangs are from memory: one within 0.08 mm."""
    metric, inch = _shank("Morse", size).data, _shank("Morse inch", size).data
    assert metric["tang_thickness"].value == pytest.approx(inch["tang_thickness"].value, abs=0.08, rel=0)
    assert metric["tang_cutter_radius"].value == pytest.approx(
        inch["tang_cutter_radius"].value, abs=0.5, rel=0
    )
    assert metric["tang_thickness"].from_memory and not inch["tang_thickness"].from_memory


@pytest.mark.parametrize(
    ("thickness", "below"),
    [("0", -0.18), ("3", -0.22), ("4", -0.27), ("6", -0.33)],
)
def test_tang_tolerance(thickness: str, below: float) -> None:
    """h13 of 3.9, 7.9, 11.9 and 19 mm: IT13 over 3 to 6, 6 to 10, 10 to 18, 18 to 30 mm (ISO 286-1)."""
    assert _shank("Morse", thickness).data["tang_thickness_below"].value == pytest.approx(below)


def test_threads_and_what_is_not_there() -> None:
    assert _shank("Morse", "3").threads["drawbar_thread"].text == "M12"
    assert _shank("Morse", "3").threads["drawbar_thread_inch"].text == "1/2-13 UNC"
    assert _shank("Morse", "3").threads["drawbar_thread"].found.from_memory
    assert "tang_thickness" not in _shank("Metric", "4").data
    assert "tang_thickness" not in _shank("Morse inch", "4-1/2").data
    assert shank("Morse", "7") is None
    assert shank("Jarno", "6") is None
