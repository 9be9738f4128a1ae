"""Taper pipe threads: what is turned lies over the crests, on the pipe's outside, as long as the thread."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from calc.job import work
from calc.tables import find_taper, sizes
from calc.tables.pipes import pipe_end

NPT, R = sizes("NPT"), sizes("R")
EVERY = [*(("NPT", size) for size in NPT), *(("R", size) for size in R)]


def data(series: str, size: str) -> dict[str, float]:
    taper = find_taper(series, size)
    assert taper is not None
    return {name: datum.value for name, datum in taper.data.items()}


@pytest.mark.parametrize("size", NPT)
def test_outside_and_pitch_agree_with_the_printed_small_end(size: str) -> None:
    """ASME B1.20.1: E0 = D - (0.05 D + 1.1) p, by which the printed E0 proves the pipe's outside from memory;
    L2 = (0.8 D + 6.8) p and L4 = L2 + 3.47 p, the run-out of the die (formulas from memory)."""
    pipe = pipe_end("NPT", size)
    assert pipe is not None
    outside, pitch = pipe.outside.value / 25.4, pipe.pitch / 25.4
    small = outside - (0.05 * outside + 1.1) * pitch
    assert small == pytest.approx(data("NPT", size)["small_diameter"] / 25.4, abs=1.1e-5)
    full = (0.8 * outside + 6.8) * pitch + 3.47 * pitch
    assert full == pytest.approx(pipe.thread_length.value / 25.4, abs=5e-4)


@pytest.mark.parametrize("size", R)
def test_the_crests_end_inside_the_pipe(size: str) -> None:
    """ISO 7-1: at the end of the useful thread the crests lie at most at the pipe's outside, and near it."""
    pipe, taper = pipe_end("R", size), data("R", size)
    assert pipe is not None
    end = taper["large_diameter"] + (pipe.thread_length.value - taper["length"]) / 16
    assert 0.0 <= pipe.outside.value - end <= 0.7


def sheet(series: str, size: str, **more: str) -> dict:
    entries = {"taper.series": series, "taper.size": size, "blank.holding": "0", "blank.facing": "0", **more}
    return work({"format": 1, "units": "mm", "entries": entries})


def values(found: dict) -> dict:
    return {each["id"]: each["value"] for part in found["stages"] for each in part["figures"]}


@pytest.mark.parametrize(("series", "size"), EVERY)
def test_the_blank_is_the_pipe_as_long_as_its_thread(series: str, size: str) -> None:
    """Never the pitch diameter: the bar holds the pipe's outside, the length the whole thread."""
    pipe = pipe_end(series, size)
    assert pipe is not None
    got = values(sheet(series, size))
    assert got["blank.rough_diameter"] == pytest.approx(pipe.outside.value)
    assert got["blank.diameter"] is None or got["blank.diameter"] >= pipe.outside.value
    assert got["blank.length"] == pytest.approx(pipe.thread_length.value)
    assert got["blank.length"] > data(series, size)["length"]


def test_what_is_cut_of_npt_half_inch_by_hand() -> None:
    """p = 1/14, so the crests begin at 0.75843 + 0.8/14 = 0.81557 in and meet 0.840 in after 0.3909 in."""
    got = values(sheet("NPT", "1/2"))
    small = 0.75843 + 0.8 / 14
    flank = (0.840 - small) * 16 * 25.4 * math.hypot(1, 1 / 32)
    assert got["cutting.travel"] == pytest.approx(flank + 2.0, abs=1e-3)


def test_progress_is_measured_over_the_crests() -> None:
    """At the gauge plane an R 1/2 is 20.955 over its crests, an NPT 1/2 is 0.77843 + 0.8/14 in."""
    for series, over in (("R", 20.955), ("NPT", (0.77843 + 0.8 / 14) * 25.4)):
        got = values(sheet(series, "1/2", **{"cutting.diameter_now": f"{over + 0.4:.6f} mm"}))
        assert got["cutting.cross_slide_to_go"] == pytest.approx(0.2, abs=1e-5)


@pytest.mark.parametrize(("series", "size"), EVERY)
def test_an_inside_thread_is_bored_to_its_crests(series: str, size: str) -> None:
    """One height of thread inside the pitch line: the drill leaves the crests standing."""
    pipe, taper = pipe_end(series, size), data(series, size)
    assert pipe is not None
    height = {"NPT": Fraction(8, 10), "R": Fraction(640327, 10**6)}[series] * Fraction(pipe.pitch)
    small = taper["large_diameter"] - taper["length"] / 16
    crests = small - float(height) * (1 if series == "NPT" else 2)
    got = values(sheet(series, size, **{"taper.form": "internal"}))
    assert got["blank.pilot"] < crests < small
