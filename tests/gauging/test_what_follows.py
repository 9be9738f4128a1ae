"""What follows from the evidence: contradictions, what is left, the verdict, and records read back."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.cone import Cone
from calc.estimate import Estimate
from calc.gauging import contact, rocking
from calc.gauging.belief import believe
from calc.gauging.contradictions import contradictions, surprising
from calc.gauging.evidence import Expected, weigh
from calc.gauging.judge import CHANGE, DONE, LEAVE, Option, judge, tapped
from calc.gauging.left import expansion_stand_off, metal, size
from calc.gauging.record import NoRecord, Record, Site, lessons, plain, read, sites
from calc.gauging.stand_off import seen as stands_off
from calc.gauging.way import Bell, Part, Row, Seen

MICRO = 1e-6
PART = Part(Cone(0.05, 18.0, 14.8, 64.0))
SOCKET = Part(Cone(0.05, 18.0, 14.8, 64.0), "internal")
EXPECTED = Expected(0.0, {"setting.bar_give": 40 * MICRO, "setting.side_give": 30 * MICRO, "new": 15 * MICRO})


def _bell(value: float, standard: float, number: int = 0) -> Seen:
    return Seen(Row("two_diameters", number), Bell(value * MICRO, {f"reading {number}": standard * MICRO}))


def _blue(end: str, share: float, number: int = 1, part: Part = PART) -> Seen:
    return contact.seen(Row("contact", number, {"share": share, "film": -0.003}, {"end": end}), part)


def test_blue_steep_and_a_micrometer_far_shallow_contradict() -> None:
    # 26 µm on diameter too shallow over 64 mm, where blue shows a plug too steep
    found = contradictions([_blue("large", 0.4), _bell(-203.0, 10.0)])
    assert len(found) == 1
    assert found[0].first_error > 0.0 > found[0].second_error


@pytest.mark.parametrize(
    "pair",
    [
        [_blue("large", 0.4), _bell(110.0, 15.0)],
        [_blue("large", 0.75), _bell(-10.0, 40.0)],
        [_blue("all", 1.0), _bell(20.0, 15.0)],
        [_blue("small", 0.5), _blue("small", 0.4, 2)],
        [_bell(30.0, 10.0), _bell(55.0, 10.0, 1)],
    ],
)
def test_what_goes_together_is_no_contradiction(pair: list[Seen]) -> None:
    assert contradictions(pair) == []


@pytest.mark.parametrize(
    "pair",
    [
        [_bell(100.0, 10.0), _bell(0.0, 10.0, 1)],
        [_blue("large", 0.25), _blue("small", 0.25, 2)],
        [_blue("all", 1.0), _bell(300.0, 15.0)],
        [_blue("large", 0.4), rocking.seen(Row("rocking", 3, {}, {"end": "large"}), PART)],
    ],
)
def test_what_cannot_both_be_is_named(pair: list[Seen]) -> None:
    assert len(contradictions(pair)) == 1
    assert len(contradictions(pair[::-1])) == 1


@given(st.floats(-150.0, 150.0), st.floats(5.0, 30.0), st.floats(-1.5, 1.5))
@settings(max_examples=50)
def test_two_readings_within_their_spread_go_together(at: float, spread: float, apart: float) -> None:
    assert contradictions([_bell(at, spread), _bell(at + apart * spread, spread, 1)]) == []


def test_far_beyond_the_budget_is_a_surprise() -> None:
    near, far = weigh(EXPECTED, [_bell(60.0, 10.0)]), weigh(EXPECTED, [_bell(400.0, 10.0)])
    assert not surprising(EXPECTED, near)
    assert surprising(EXPECTED, far)


@given(
    st.floats(-3e-4, 3e-4).filter(lambda e: abs(e) > 1e-9),
    st.floats(0.2, 20.0),
    st.sampled_from([PART, SOCKET]),
)
def test_a_gauge_feels_the_end_with_most_metal(error: float, off: float, part: Part) -> None:
    found = size([stands_off(Row("stand_off", 0, {"stand_off": off, "give": 0.1}), part)], part, error, 0.0)
    assert found is not None
    assert found.most.value == pytest.approx(off * part.cone.rate)
    assert found.least.value == pytest.approx(off * part.cone.rate - abs(error) * part.on_diameter)
    # the shank bears at the end where it is large against the gauge: steep at its large end, a bore at its
    # small
    most_at_large = found.large.value >= found.small.value
    assert most_at_large == (error > 0.0 if part.form == "external" else error < 0.0)


@given(st.floats(-3e-4, 3e-4), st.floats(0.2, 20.0))
def test_stand_off_against_a_gauge_slid_along_the_cut_cone(error: float, off: float) -> None:
    # a cone cut too steep or shallow, and a ring pushed along until something touches: by looking at many
    # places
    part = PART
    cut = 2.0 * math.tan(part.cone.half_angle + error)
    large = 18.0 + 0.3
    touches = max(
        (large - cut * z - (18.0 - part.cone.rate * z)) / part.cone.rate
        for z in (0.0, 16.0, 32.0, 48.0, 64.0)
    )
    found = size([stands_off(Row("stand_off", 0, {"stand_off": touches}), part)], part, error, 0.0)
    assert found is not None
    assert found.large.value == pytest.approx(0.3, abs=1e-4)
    assert found.small.value == pytest.approx(0.3 - (cut - part.cone.rate) * 64.0, abs=1e-4)


def test_metal_for_proving_covers_the_likely_error() -> None:
    left = metal(PART, 20 * MICRO, 60 * MICRO, 0.1)
    assert left == pytest.approx(140 * MICRO * PART.on_diameter + 0.006 + 0.1)
    assert metal(PART, 20 * MICRO, 90 * MICRO, 0.1) > left


def test_a_warm_part_stands_off_further() -> None:
    # 20 K on 18 mm of steel, 11.5 µm per metre and kelvin: 4.14 µm on diameter, at 1 in 20 that is 0.083 mm
    assert expansion_stand_off(18.0, 20.0, 11.5e-6, 0.05) == pytest.approx(0.0828)


def test_verdicts() -> None:
    limit = 62 * MICRO
    right = weigh(EXPECTED, [_bell(5.0, 10.0)])
    assert judge(right, -limit, limit, [Option("tap", 0.99)]).decision == DONE
    out = weigh(EXPECTED, [_bell(110.0, 15.0)])
    better = tapped(out, -limit, limit, -out.mean, 10 * MICRO)
    assert better > 0.9 > out.chance(-limit, limit)
    assert judge(out, -limit, limit, [Option("tap", better)]).decision == CHANGE
    # blue all along a wide film: nothing better than what stands can be set up anew
    vague = weigh(EXPECTED, [_blue("all", 1.0)])
    narrow = 0.5 * limit
    assert judge(vague, -narrow, narrow, [Option("stack", 0.5)]).decision == LEAVE


@given(st.floats(-200.0, 200.0), st.floats(5.0, 60.0), st.floats(1.0, 40.0))
@settings(max_examples=40)
def test_tapping_by_what_is_believed_is_the_best_tap(value: float, spread: float, tap: float) -> None:
    believed = weigh(EXPECTED, [_bell(value, spread)])
    limit = 62 * MICRO
    best = tapped(believed, -limit, limit, -believed.mean, tap * MICRO)
    for off in (-40.0, 40.0):
        assert tapped(believed, -limit, limit, off * MICRO - believed.mean, tap * MICRO) <= best + 0.02


def _record(value: float, since: str = "afresh", bar: str = "100 mm") -> Record:
    return Record(
        job={"taper": "Morse 2"},
        gear={"bar": bar, "slide": ""},
        since=since,
        value=0.0,
        standard=math.hypot(40, 30, 15) * MICRO,
        parts={"setting.bar_give": 40 * MICRO, "setting.side_give": 30 * MICRO},
        units={"setting.bar_give": 0.003, "setting.side_give": 0.0000625},
        seen=[Site(value * MICRO, 10 * MICRO)],
        believed=(value * MICRO, 9 * MICRO),
    )


BELONGS = {"setting.bar_give": "bar", "setting.side_give": "slide"}
TODAY = {"setting.bar_give": 0.003, "setting.side_give": 0.0000625}
PARTS = {"setting.bar_give": 40 * MICRO, "setting.side_give": 30 * MICRO}


def test_a_record_is_read_back_as_it_was_made() -> None:
    record = _record(58.0)
    assert read(json.loads(json.dumps(plain(record)))) == record


@pytest.mark.parametrize(
    "damage",
    [
        None,
        [],
        "record",
        {},
        {"format": 2},
        {**plain(_record(1.0)), "seen": "all"},
        {**plain(_record(1.0)), "believed": {"value": 1e9, "standard": 0}},
        {**plain(_record(1.0)), "believed": {"value": True, "standard": 0}},
        {**plain(_record(1.0)), "expected": {"value": 0.0, "standard": -1.0, "parts": {}}},
        {**plain(_record(1.0)), "expected": {"value": 0.0, "standard": 1e-5, "parts": {"bar": 1e-5}}},
        {**plain(_record(1.0)), "seen": [{"value": float("nan"), "noise": 0.0}]},
    ],
)
def test_what_is_no_record_is_refused(damage: object) -> None:
    with pytest.raises(NoRecord):
        read(damage)


def test_the_lathe_teaches_its_steady_error() -> None:
    records = [_record(58.0) for _ in range(4)]
    steady = believe(lessons(records, {"bar": "100 mm", "slide": ""}, TODAY, BELONGS)).taken_in(
        Estimate(0.0, PARTS)
    )
    # four cuts with 18 µrad of what is new each time, against 50 µrad of steady doubt
    variance = 1.0 / (1.0 / 2500 + 4.0 / (15**2 + 10**2))
    assert steady.value == pytest.approx(58 * MICRO * variance * 4.0 / (15**2 + 10**2), rel=1e-6)
    assert steady.standard == pytest.approx(math.sqrt(variance) * MICRO, rel=1e-6)


def test_another_bar_starts_its_part_afresh_and_keeps_the_slides() -> None:
    records = [_record(58.0) for _ in range(4)]
    gear = {"bar": "127 mm", "slide": ""}
    steady = believe(lessons(records, gear, TODAY, BELONGS)).taken_in(Estimate(0.0, PARTS))
    same = believe(lessons(records, {"bar": "100 mm", "slide": ""}, TODAY, BELONGS)).taken_in(
        Estimate(0.0, PARTS)
    )
    assert 0.0 < steady.value < same.value
    # the new bar is as doubtful as ever
    assert steady.standard > 40 * MICRO


def test_a_scraped_slide_and_another_bar_leave_nothing_learned() -> None:
    records = [_record(58.0) for _ in range(4)]
    steady = believe(lessons(records, {"bar": "127 mm", "slide": "scraped"}, TODAY, BELONGS)).taken_in(
        Estimate(0.0, PARTS)
    )
    assert steady.value == 0.0 and steady.standard == pytest.approx(50 * MICRO)


def test_a_tapped_slide_and_a_blunder_teach_nothing_steady() -> None:
    assert lessons([_record(58.0, "tapped")], {"bar": "100 mm"}, TODAY, BELONGS) == []


def test_a_bar_stated_better_is_worth_less_to_learn() -> None:
    records = [_record(58.0) for _ in range(4)]
    gear = {"bar": "100 mm", "slide": ""}
    finer = {**TODAY, "setting.bar_give": 0.0003}
    parts = {**PARTS, "setting.bar_give": 4 * MICRO}
    steady = believe(lessons(records, gear, finer, BELONGS)).taken_in(Estimate(0.0, parts))
    # all that was seen must then be the slide's
    assert steady.value < believe(lessons(records, gear, TODAY, BELONGS)).taken_in(Estimate(0.0, PARTS)).value
    assert steady.standard < 30 * MICRO


def test_the_bells_of_a_record_carry_what_was_believed() -> None:
    bell, blue = _bell(60.0, 20.0), _blue("large", 0.5)
    both, one = weigh(EXPECTED, [bell, blue]), weigh(EXPECTED, [bell])
    found = sites(both, (one.mean, one.standard), ["setting.bar_give", "setting.side_give"])
    assert len(found) == 2
    precision = 1.0 / EXPECTED.variance + sum(1.0 / each.noise**2 for each in found)
    mean = sum(each.value / each.noise**2 for each in found) / precision
    assert mean == pytest.approx(both.mean, abs=0.1 * both.standard)
    assert math.sqrt(1.0 / precision) == pytest.approx(both.standard, rel=0.1)
