"""The blank: bar, lengths, roughing, centre holes and threads from plain numbers."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cone import solve
from calc.machining.blank import DRAWBAR, ENDS, PLAIN, TANG, Leave, finished, plan
from calc.machining.stock import bar_sizes, centre_hole, centre_holes, smallest_enough
from calc.machining.threads import drawbar
from calc.tables import ALL_SERIES, find_taper, sizes
from calc.tables.loader import load
from calc.tables.shanks import shank

SHANKS = [(series, size) for series in ("Morse", "Morse inch", "Metric") for size in sizes(series)]


@pytest.mark.parametrize("end", ENDS)
@pytest.mark.parametrize(("series", "size"), SHANKS)
def test_every_shank_lies_on_its_cone(series: str, size: str, end: str) -> None:
    """Diameters at both ends follow from gauge, taper and distance, by similar triangles from the tip."""
    taper, ends = find_taper(series, size), shank(series, size)
    assert taper is not None
    rate, large, length = (taper.data[name].value for name in ("rate", "large_diameter", "length"))
    cone = solve({"rate": rate, "large_diameter": large, "length": length})
    part = finished(cone, end, ends, length)
    assert part is not None
    tip = part.gauge_from_end - part.gauge / rate  # where the cone would come to a point, from the end
    assert part.cone_small == pytest.approx((part.cone_end - tip) * rate)
    assert part.large_end == pytest.approx((part.length - tip) * rate)
    assert 0.0 < part.cone_small < part.gauge <= part.large_end
    if part.end_diameter is not None:
        assert part.end_diameter <= part.cone_small and end == TANG


OTHERS = [each.value for each in ALL_SERIES if each.value not in ("Morse", "Metric")]


@pytest.mark.parametrize("series", OTHERS)
def test_other_series_are_the_cone_alone(series: str) -> None:
    for size in sizes(series):
        taper = find_taper(series, size)
        assert taper is not None
        if not {"large_diameter", "length"} <= set(taper.data) or shank(series, size):
            continue
        cone = solve({name: taper.data[name].value for name in ("rate", "large_diameter", "length")})
        part = finished(cone, PLAIN, None, taper.data["length"].value)
        if part is None:
            assert cone.small_diameter is not None and cone.small_diameter <= 0.0
        else:
            assert (part.length, part.large_end) == pytest.approx((cone.length, cone.large_diameter))


def test_morse_3_is_roughed_to_just_over_24_for_100() -> None:
    """Common practice, no source: a Morse 3 with tang is roughed to just over 24 mm for 100 mm."""
    cone = solve({"rate": 1 / 19.922, "large_diameter": 23.825, "length": 81.0})
    part = finished(cone, TANG, shank("Morse", "3"), 81.0)
    assert part is not None
    made = plan(part, 0.0, None, Leave(0.3, 1.0, 25.0, 1.0))
    assert 24.0 < made.roughs[0].diameter < 24.5
    assert made.roughs[0].length == pytest.approx(100.0)
    assert made.length == pytest.approx(99.0 + 2.0 + 25.0)


def test_a_shorter_taper_makes_a_shorter_shank() -> None:
    cone = solve({"rate": 1 / 19.922, "large_diameter": 23.825, "length": 61.0})
    part = finished(cone, DRAWBAR, shank("Morse", "3"), 81.0)
    assert part is not None and part.length == pytest.approx(66.0) and part.shorter == pytest.approx(20.0)
    # The cone ends where it was asked to: 61 mm below the gauge plane.
    assert part.cone_small == pytest.approx(23.825 - 61.0 / 19.922)


def test_no_shank_where_the_cone_comes_to_a_point() -> None:
    """The flank of 1:2 on 20 mm meets the axis after 40 mm; a tang 94 mm from the gauge plane has no cone."""
    steep = solve({"rate": 0.5, "large_diameter": 23.825, "length": 30.0})
    assert finished(steep, TANG, shank("Morse", "3"), 30.0) is None
    assert finished(solve({"rate": 0.05}), PLAIN, None, None) is None


@given(
    st.floats(min_value=0.0, max_value=3.0),
    st.floats(min_value=0.0, max_value=10.0),
    st.floats(min_value=0.0, max_value=80.0),
    st.floats(min_value=0.0, max_value=200.0),
    st.floats(min_value=5.0, max_value=90.0),
)
def test_the_part_fits_into_its_blank(
    rough: float, face: float, hold: float, head: float, wide: float
) -> None:
    """Law: every finished diameter and length lies inside the bar and the length cut off."""
    cone = solve({"rate": 1 / 20.02, "large_diameter": 17.78, "length": 64.0})
    part = finished(cone, TANG, shank("Morse", "2"), 64.0)
    assert part is not None
    made = plan(part, head, wide, Leave(rough, face, hold, 1.0))
    assert made.length == pytest.approx(part.length + head + 2 * face + hold)
    assert made.stock_least >= max(each.diameter for each in made.roughs)
    assert head == 0.0 or made.stock_least >= wide
    assert made.roughs[0].diameter - part.large_end == pytest.approx(rough)


def test_bars() -> None:
    for system in ("mm", "inch"):
        diameters = [each.value for each in bar_sizes(system)]
        assert diameters == sorted(set(diameters)) and len(diameters) > 30
        for needed in (5.0, 17.3, 25.0, 99.9):
            best = smallest_enough(diameters, needed)
            assert best is not None and best == next(each for each in diameters if each >= needed)
    assert smallest_enough([20.0, 25.0], 25.1) is None
    assert smallest_enough([25.0, 20.0], 20.0 + 1e-9) == 20.0


@pytest.mark.parametrize(
    ("diameter", "tang"), [(18.5, 7.9), (6.0, 3.9), (13.5, 6.3), (51.0, 19.0), (25.0, None)]
)
def test_centre_hole_leaves_room(diameter: float, tang: float | None) -> None:
    """The mouth lies inside the tang; the next larger one would break a rule. Form A: mouth 2.12 of the pilot
    (the ratio of ISO 866, from memory)."""
    hole, known = centre_hole(diameter, tang), centre_holes()
    room = min(0.4 * diameter, 0.8 * tang if tang else diameter)
    assert hole.mouth.value <= room
    larger = known[known.index(hole) + 1] if hole is not known[-1] else None
    assert larger is None or larger.mouth.value > room
    for each in known:
        assert each.mouth.value / each.drill.value == pytest.approx(2.12, abs=0.03)


THREADS = sorted({row["thread"] for row in load("drawbar_threads")})


@pytest.mark.parametrize("name", THREADS)
def test_tapping_drills(name: str) -> None:
    """Diameter less pitch, to a drill that is sold (rule of an encyclopaedia's list of drill and tap sizes);
    never below the basic minor diameter D - 1.0825 P (ISO 68-1), nor leaving under 3/4 of the thread."""
    thread = drawbar(name)
    assert thread is not None
    assert thread.drill.value == pytest.approx(thread.major_diameter - thread.pitch, abs=0.3)
    assert thread.drill.value >= thread.major_diameter - 1.0825318 * thread.pitch
    assert 0.75 < (thread.major_diameter - thread.drill.value) / (1.0825318 * thread.pitch) <= 1.0
    assert thread.drill_depth(20.0) == pytest.approx(20.0 + 4 * thread.pitch)


@pytest.mark.parametrize(
    ("name", "drill"),
    [
        ("1/4-20 UNC", 0.201),
        ("3/8-16 UNC", 0.3125),
        ("1/2-13 UNC", 0.4219),
        ("5/8-11 UNC", 0.5313),
        ("3/4-10 UNC", 0.6563),
        ("1-8 UNC", 0.875),
    ],
)
def test_published_tapping_drills(name: str, drill: float) -> None:
    """A fastener supplier's tap and drill bit size chart; a workshop-jig page has the same."""
    thread = drawbar(name)
    assert thread is not None and thread.drill.value / 25.4 == pytest.approx(drill, abs=0.00006)


def test_every_drawbar_thread_is_known() -> None:
    names = {row["value"] for row in load("morse_shanks") if row["unit"] == "thread"}
    assert names <= set(THREADS) and drawbar("M7") is None
