"""Laws of speeds, cuts, bites, infeed and nose; independent sums where there is no law."""

from __future__ import annotations

import math

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.machining import bites, handfeed, infeed, passes, speeds, stiffness, tool
from calc.quantities import Unreadable

angles = st.floats(0.001, 1.2)
lists = st.lists(st.integers(1, 20000), min_size=1, max_size=30)


@given(lists, st.floats(1.0, 700.0), st.floats(1.0, 1000.0))
def test_turns_never_run_the_surface_too_fast(listed: list[int], wanted: float, diameter: float) -> None:
    """At or below, and the very nearest: the next speed of the list would be too fast."""
    found = speeds.read_speeds(", ".join(map(str, listed)))
    turns = found.at_or_below(speeds.turns_a_minute(wanted, diameter))
    if turns is None:
        assert speeds.surface_speed(min(listed), diameter) > wanted
        return
    assert turns in listed
    assert speeds.surface_speed(turns, diameter) <= wanted * (1 + 1e-9)
    faster = [each for each in listed if each > turns]
    assert not faster or speeds.surface_speed(min(faster), diameter) > wanted * (1 - 1e-9)


@given(st.integers(1, 9000), st.integers(0, 9000), st.floats(1.0, 30000.0))
def test_speed_without_steps(low: int, more: int, wanted: float) -> None:
    turns = speeds.read_speeds(f"{low}-{low + more}").at_or_below(wanted)
    if wanted < low:
        assert turns is None
    else:
        assert turns == min(math.floor(wanted), low + more)


@given(lists)
def test_a_list_reads_back(listed: list[int]) -> None:
    found = speeds.read_speeds(" ".join(map(str, listed)))
    assert speeds.read_speeds(found.text()) == found
    assert [low for low, _ in found.spans] == sorted(set(listed))


@pytest.mark.parametrize(
    ("text", "start", "end", "says"),
    [
        ("", 0, 0, "no speed"),
        (" , ;", 0, 4, "no speed"),
        ("100, fast, 300", 5, 9, "“fast” is not a speed"),
        ("100, 2.5", 5, 8, "“2.5” is not a speed"),
        ("1-2-3", 0, 5, "not a speed"),
        ("100, 0", 5, 6, "out of range"),
        ("100, 99999999999", 5, 16, "out of range"),
        ("500-100", 0, 7, "runs backwards"),
        (" ".join(["100"] * 61), 0, 243, "61 speeds are too many"),
        ("1" * 1001, 1000, 1001, "too long"),
    ],
)
def test_every_fault_of_a_list(text: str, start: int, end: int, says: str) -> None:
    with pytest.raises(Unreadable) as caught:
        speeds.read_speeds(text)
    error = caught.value
    assert (error.start, error.end) == (start, end) and says in error.message and error.way_out
    for offer in error.offers:
        speeds.read_speeds(offer)


@given(
    st.floats(0.0, 40.0),
    angles,
    st.floats(1.0, 300.0),
    st.floats(0.05, 3.0),
    st.floats(0.01, 0.5),
    st.integers(1, 5),
    st.booleans(),
)
def test_cuts_take_all_and_none_is_too_deep(
    most: float, angle: float, length: float, rough: float, finish: float, fine: int, parallel: bool
) -> None:
    cuts = passes.plan_cuts(most, angle, length, rough, finish, fine, parallel)
    assert math.fsum(cut.depth for cut in cuts) == pytest.approx(most, abs=1e-8)
    assert all(cut.depth <= (finish if cut.finishing else rough) * (1 + 1e-9) for cut in cuts)
    assert [cut.finishing for cut in cuts] == sorted(cut.finishing for cut in cuts), "finishing comes last"
    assert len([cut for cut in cuts if cut.finishing]) <= fine
    assert not cuts or cuts[-1].left == 0.0
    for before, after in zip(cuts, cuts[1:], strict=False):
        assert after.left < before.left and after.reach >= before.reach
    for cut in cuts:
        assert 0.0 < cut.reach <= length
        # Where a cut from a parallel start ends, the tool's line meets the start: two lines, met by hand.
        if parallel and cut.reach < length:
            assert cut.left + cut.reach * math.tan(angle) == pytest.approx(most, abs=1e-6)
        elif not parallel:
            assert cut.reach == length


@given(
    st.floats(0.05, 8.0),
    st.integers(2, 200),
    st.floats(0.02, 0.2),
    st.integers(1, 4),
    st.floats(0.0, 0.4),
    st.sampled_from([0.01, 0.0254]),
)
def test_roughing_ends_on_a_whole_division_of_the_collar(
    most: float, rough: int, finish: float, fine: int, keep: float, step: float
) -> None:
    """What is odd stays for the last cuts; as much is left for proving as without, and no cut is deeper."""
    cuts = passes.plan_cuts(most, 0.05, 60.0, rough * step, finish, fine, True, keep, step)
    assert math.fsum(cut.depth for cut in cuts) == pytest.approx(most, abs=1e-8)
    assert all(cut.depth <= (finish if cut.finishing else rough * step) * (1 + 1e-9) for cut in cuts)
    roughed = math.fsum(cut.depth for cut in cuts if not cut.finishing)
    assert roughed / step == pytest.approx(round(roughed / step), abs=1e-5)
    assert not roughed or most - roughed >= min(keep, most) - 1e-9
    last = [cut.depth for cut in cuts if cut.finishing]
    assert not last or min(last) >= 0.7 * max(last)


def test_cuts_of_a_morse_2_in_whole_thou() -> None:
    """As below, in inches: 0.06293 on radius, 20 thou a cut, two of 4 to finish: 55 thou are roughed."""
    cuts = passes.plan_cuts(1.5984, math.atan(1 / 40.04), 64.0, 0.508, 0.1016, 2, True, 0.0, 0.0254)
    assert [round(cut.depth / 0.0254, 2) for cut in cuts] == [20.0, 20.0, 15.0, 4.0, 3.93]


def test_cuts_of_a_morse_2_from_the_round() -> None:
    """By hand: 17.78 mm to 14.5832 mm is 1.5984 mm on radius; 0.2 mm to finish leaves 2 x 0.5 and 0.3984."""
    small = 17.78 - 64 / 20.020
    cuts = passes.plan_cuts((17.78 - small) / 2, math.atan(1 / 40.04), 64.0, 0.5, 0.1, 2, True)
    assert [round(cut.depth, 4) for cut in cuts] == [0.5, 0.5, 0.3984, 0.1, 0.1]
    assert cuts[0].reach == pytest.approx(0.5 * 40.04) and cuts[-1].reach == pytest.approx(64.0)
    assert passes.path(cuts, 0.0, 2.0) == pytest.approx(sum(cut.reach for cut in cuts) + 10.0)


def test_too_many_cuts_are_refused() -> None:
    with pytest.raises(passes.TooManyCuts):
        passes.plan_cuts(100.0, 0.1, 50.0, 0.01, 0.01, 1, False)


@given(st.floats(0.001, 0.02), st.floats(0.5, 20.0), st.floats(0.05, 2.0))
def test_a_cut_left_over_is_not_thinner_than_a_finishing_cut(least: float, most: float, depth: float) -> None:
    rough = [
        cut.depth for cut in passes.plan_cuts(most, 0.1, 50.0, depth, least, 1, False) if not cut.finishing
    ]
    assert not rough or min(rough) >= min(least, rough[0]) * (1 - 1e-9)


@given(st.floats(0.5, 1000.0), st.floats(0.5, 1200.0))
def test_bites_cover_the_flank_and_overlap(flank: float, travel: float) -> None:
    if travel < bites.least_travel(flank) - 1e-6 and travel < bites.travel_wanted(flank):
        with pytest.raises(bites.TravelTooShort):
            bites.plan_bites(flank, travel)
        return
    try:
        found = bites.plan_bites(flank, travel)
    except bites.TravelTooShort:
        assert travel < bites.least_travel(flank)
        return
    spans = found.spans
    assert spans[0][0] == pytest.approx(-bites.CLEAR) and spans[-1][1] == pytest.approx(flank + bites.CLEAR)
    assert all(end - start <= travel + 1e-6 for start, end in spans)
    for (start, end), (following, _) in zip(spans, spans[1:], strict=False):
        assert end - following == pytest.approx(bites.OVERLAP) and following - start == pytest.approx(
            found.step
        )
    assert len(spans) <= bites.MOST_BITES
    assert (found.step > 0.0) is (len(spans) > 1), "nothing is stepped between bites where there is one"
    if len(spans) > 1:  # one bite fewer would not reach, however long
        assert (len(spans) - 1) * (travel - bites.OVERLAP) + bites.OVERLAP < flank + 2 * bites.CLEAR + 1e-6


@given(st.floats(1.0, 300.0), angles)
def test_the_next_bite_lies_on_the_same_cone(step: float, angle: float) -> None:
    """Carriage and cross-slide together move the tool along the flank: the step, at the half angle."""
    found = bites.Bites(((0.0, 1.0), (1.0, 2.0)), step)
    bed, cross = found.along_bed(angle), found.cross_slide(angle)
    assert math.hypot(bed, cross) == pytest.approx(step)
    assert math.atan2(cross, bed) == pytest.approx(angle)


@given(st.floats(1.0, 300.0), st.floats(-5.0, 5.0), angles, st.booleans())
def test_diameter_stand_off_and_slide_go_round(
    wanted: float, more: float, angle: float, internal: bool
) -> None:
    rate = 2.0 * math.tan(angle)
    now = wanted - more if internal else wanted + more
    depth = infeed.depth_from_diameter(now, wanted, internal)
    gap = infeed.stand_off(depth, rate)
    assert infeed.depth_from_stand_off(gap, rate) == pytest.approx(depth, abs=1e-9)
    assert gap == pytest.approx(more / rate, abs=1e-7)
    advance = infeed.slide_advance(depth, angle)
    assert infeed.inward(advance, angle) == pytest.approx(depth, abs=1e-9)
    # Slide and carriage together leave the tool where it was along the work.
    assert advance * math.cos(angle) == pytest.approx(infeed.along_bed(depth, angle), abs=1e-6)
    assert infeed.along_bed(depth, angle) == pytest.approx(gap, abs=1e-6)


def test_fine_infeed_of_a_morse_3_against_mpmath() -> None:
    """0.1 mm along the slide at 1.43777...° (computed at 50 digits): the tool goes in by 2.509 µm."""
    with mpmath.workdps(50):
        angle = mpmath.mpf("1.43777777778") * mpmath.pi / 180
        exact = float(mpmath.mpf("0.1") * mpmath.sin(angle))
    assert infeed.inward(0.1, math.radians(1.43777777778)) == pytest.approx(exact, rel=1e-12)
    assert exact == pytest.approx(0.002509132258, abs=1e-12)


@given(st.floats(0.005, 5.0), st.floats(1.0, 5000.0), st.floats(0.1, 25.4))
def test_the_count_keeps_the_feed(feed: float, turns: float, lead: float) -> None:
    rate = handfeed.handle_rate(feed, turns, lead)
    count = handfeed.count_to_keep(rate)
    assert (count is None) == (rate > handfeed.BRISK)
    if count is None:
        return
    assert count.seconds >= 1.0 or count.share > 1
    travelled = lead / count.share  # in that many seconds
    assert travelled / (count.seconds / 60.0 * turns) == pytest.approx(feed)
    assert count.seconds <= handfeed.LONGEST_COUNT or count.share == 10
    if count.share > 1:  # the next larger share would have been too long to count
        larger = {2: 1, 4: 2, 10: 4}[count.share]
        assert 60.0 / (rate * larger) > handfeed.LONGEST_COUNT


@given(st.floats(0.005, 0.5), st.floats(0.3, 3.0))
def test_crests_by_two_circles(feed: float, nose: float) -> None:
    """Where two circles of the nose, one feed apart, cross: solved at 40 digits from their equations."""
    with mpmath.workdps(40):
        exact = float(mpmath.mpf(nose) - mpmath.sqrt(mpmath.mpf(nose) ** 2 - (mpmath.mpf(feed) / 2) ** 2))
    assert tool.crest_height(feed, nose) == pytest.approx(exact, rel=1e-9)


@given(st.floats(0.1, 5.0), angles)
def test_nose_shift_by_the_tangent_circle(nose: float, angle: float) -> None:
    """A circle resting on the cylinder has its centre a nose above it; the flank's tangent passes that much
    nearer the axis below the centre: distance of the centre from the flank, by the line's own equation."""
    centre = nose
    flank_below = centre - nose * math.hypot(1.0, math.tan(angle))
    assert tool.nose_shift(nose, angle) == pytest.approx(-flank_below, abs=1e-9)


def test_height_for_a_limit() -> None:
    """Against the hyperbola's first order, e² m L / (r1 r2) (geometry), within its own accuracy."""
    slope, length, small = 1 / 40.04, 64.0, 7.2916
    large = small + slope * length

    def flatter(height: float) -> float:
        at = math.sqrt(small**2 - height**2)
        return 2 * large - 2 * math.hypot(at + slope * length, height)

    height = tool.height_for(flatter, 0.0025, 7.0)
    assert height == pytest.approx(math.sqrt(0.0025 * small * large / (slope * length)), rel=0.02)
    assert flatter(height) == pytest.approx(0.0025, rel=1e-6)
    assert tool.height_for(flatter, 1e9, 7.0) == 7.0


def test_spring_by_integration() -> None:
    """Beam theory: the integral of x² / (E I) with the diameter running straight, by numerical quadrature."""
    force, length, free, held, modulus = 50.0, 64.0, 14.58, 17.78, 206e3
    with mpmath.workdps(30):
        total = mpmath.quad(
            lambda x: force * x**2 / (modulus * mpmath.pi * (free + (held - free) * x / length) ** 4 / 64),
            [0, length],
        )
    assert stiffness.spring(force, length, free, held, modulus) == pytest.approx(float(total), rel=1e-10)


@given(
    st.floats(0.05, 4.0),
    st.floats(0.01, 0.2),
    st.floats(20.0, 90.0),
    st.floats(0.1, 1.0),
    st.floats(0.0, 0.6),
)
def test_roughing_leaves_what_proving_wants(
    most: float, angle: float, length: float, rough: float, keep: float
) -> None:
    cuts = passes.plan_cuts(most, angle, length, rough, 0.05, 2, True, keep)
    assert sum(cut.depth for cut in cuts) == pytest.approx(most)
    last_rough = [cut.left for cut in cuts if not cut.finishing]
    assert all(left >= min(keep, most) - 1e-9 for left in last_rough)
    after = passes.proved_after(cuts, keep)
    if after is not None:
        assert cuts[after - 1].left >= keep - 1e-9
        # no later cut leaves so much
        assert all(cut.left < keep for cut in cuts[after:])
