"""Boring bars: the thickest that goes in, and cuts that its overhang allows, by the bending of a beam."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.job import work
from calc.machining.boring import (
    FINISHING,
    ROUGHING,
    SHARE,
    SPECIFIC_FORCE,
    STEEL_FORCE,
    boring,
    deepest_cut,
    largest_bar,
)
from calc.machining.stiffness import STEEL

BARS = st.floats(3.0, 60.0)
OVERHANGS = st.floats(10.0, 400.0)
FEEDS = st.floats(0.01, 0.5)


def bent(force: float, length: float, thick: float) -> float:
    """The end of a beam held at the other [mm]: the moment's curvature summed up twice, in small steps."""
    inertia = math.pi * thick**4 / 64
    steps = 2000
    step = length / steps
    slope = sag = 0.0
    for place in range(steps):
        at = (place + 0.5) * step
        sag += slope * step
        curve = force * (length - at) / (STEEL * inertia) * step
        sag += curve * step / 2
        slope += curve
    return sag


@given(BARS, OVERHANGS, FEEDS, st.sampled_from([*SPECIFIC_FORCE, "mild steel"]))
def test_the_deepest_cut_springs_the_tip_by_just_what_is_let_pass(
    bar: float, overhang: float, feed: float, material: str
) -> None:
    depth = deepest_cut(bar, overhang, feed, material, ROUGHING)
    push = SHARE * SPECIFIC_FORCE.get(material, STEEL_FORCE) * depth * feed
    assert bent(push, overhang, bar) == pytest.approx(ROUGHING, rel=1e-3)


@given(BARS, OVERHANGS, FEEDS)
def test_twice_as_long_bears_an_eighth_and_twice_as_thick_sixteen_times(
    bar: float, overhang: float, feed: float
) -> None:
    """Bending: the third power of the length, the fourth of the thickness."""
    depth = deepest_cut(bar, overhang, feed, "brass", FINISHING)
    assert deepest_cut(bar, 2 * overhang, feed, "brass", FINISHING) == pytest.approx(depth / 8)
    assert deepest_cut(2 * bar, overhang, feed, "brass", FINISHING) == pytest.approx(16 * depth)


@given(st.floats(4.0, 100.0))
def test_the_thickest_bar_goes_in_and_leaves_room(bore: float) -> None:
    """It is thinner than the bore by at least a fifth, whatever the bore; taken where none is told."""
    assert 0.5 * bore < largest_bar(bore) < 0.8 * bore
    assert boring(bore, None, 50.0, 0.1, "brass").bar == largest_bar(bore)
    assert boring(bore, 3.0, 50.0, 0.1, "brass").bar == 3.0


def cutting(**more: str) -> dict:
    entries = {"taper.series": "Morse", "taper.size": "2", "taper.form": "internal"}
    entries |= {f"cutting.{name}": text for name, text in more.items()}
    sheet = work({"format": 1, "units": "mm", "entries": entries})
    return next(stage for stage in sheet["stages"] if stage["id"] == "cutting")


def figure(stage: dict, name: str) -> dict:
    return next(each for each in stage["figures"] if each["id"] == f"cutting.{name}")


def words(stage: dict) -> str:
    return " ".join(each["text"] for each in stage["cautions"])


@pytest.mark.parametrize("bar", ["", "6 mm", "8 mm", "10 mm"])
def test_cuts_are_no_deeper_than_the_bar_allows(bar: str) -> None:
    """The depths planned by default, and those said, hold to what the bar's overhang allows."""
    stage = cutting(boring_bar=bar)
    allowed = figure(stage, "boring_cuts")["value"]
    depths = [float(row["cells"][1]["mm"].split()[0]) for row in figure(stage, "passes")["table"]["rows"]]
    assert depths and max(depths) <= max(allowed, 0.02) + 0.005


def test_no_bar_told_takes_the_thickest_that_goes_in() -> None:
    """Three quarters of a Morse 2's small end, 17.78 - 64 / 20.02 = 14.583 mm."""
    assert figure(cutting(), "boring_bar_most")["value"] == pytest.approx(0.75 * (17.78 - 64 / 20.020))


def test_what_a_bar_cannot_do_is_said() -> None:
    assert "springs from the lightest cut" in words(cutting(boring_bar="3 mm"))
    assert "no room" in words(cutting(boring_bar="13 mm")) and "no room" not in words(cutting(boring_bar="9"))
    assert "deep for this boring bar" in words(cutting(boring_bar="8 mm", depth="1.5 mm"))
