"""Laws of the ways of proving: signs, inverse pairs, and what each cannot see."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cone import Cone
from calc.estimate import exact
from calc.gauging import (
    WAYS,
    balls,
    contact,
    discs,
    indicator_run,
    rocking,
    rollers,
    stand_off,
    two_diameters,
)
from calc.gauging.contact import Blue
from calc.gauging.way import Bearing, Bell, Part, Row, Seen

LENGTH = 64.0
rates = st.floats(0.01, 0.3)
errors = st.floats(-5e-4, 5e-4).filter(lambda e: abs(e) > 2e-5)
forms = st.sampled_from(["external", "internal"])


def _part(rate: float, form: str = "external", length: float = LENGTH) -> Part:
    large = 17.78 + rate * length
    return Part(Cone(rate, large, large - rate * length, length), form)


def _cut(part: Part, error: float) -> Cone:
    """The cone as cut, its half angle out by `error`, its large end right."""
    rate = 2.0 * math.tan(part.cone.half_angle + error)
    assert part.cone.large_diameter is not None
    return Cone(rate, part.cone.large_diameter, part.cone.large_diameter - rate * part.length, part.length)


def _bell(seen: Seen) -> Bell:
    assert isinstance(seen.angle, Bell)
    return seen.angle


def _likeliest(bearing: Bearing, at: list[float]) -> float:
    return max(at, key=bearing.likelihood)


@given(rates, errors, forms)
def test_a_steeper_plug_bears_nearer_the_large_end_a_socket_the_other_way(
    rate: float, error: float, form: str
) -> None:
    part = _part(rate, form)
    steep_bears = "large" if form == "external" else "small"
    end = contact.bearing_end(error, part)
    assert (end == steep_bears) == (error > 0.0)
    row = Row("contact", 0, {"share": 0.4, "film": -0.003}, {"end": end})
    angle = contact.seen(row, part).angle
    assert isinstance(angle, Blue)
    found = _likeliest(angle, [k * 2e-6 for k in range(-300, 301)])
    assert found * error > 0.0


@given(st.floats(0.1, 0.85), st.floats(0.001, 0.02), rates)
def test_blue_speaks_of_the_error_that_makes_its_share(share: float, film: float, rate: float) -> None:
    part = _part(rate)
    row = Row("contact", 0, {"share": share, "film": film}, {"end": "large"})
    angle = contact.seen(row, part).angle
    assert isinstance(angle, Blue)
    makes = film / (share * part.slant)
    found = _likeliest(angle, [makes * (0.3 + 0.01 * k) for k in range(300)])
    assert found == pytest.approx(makes, rel=0.25)
    assert contact.bearing_length(makes, film, part) == pytest.approx(share * part.slant)


@given(st.floats(0.12, 0.8), st.floats(0.05, 0.15), st.sampled_from(["large", "small"]))
def test_less_blue_is_more_error(share: float, more: float, end: str) -> None:
    part = _part(0.05)

    def middle(of: float) -> float:
        row = Row("contact", 0, {"share": of, "film": -0.003}, {"end": end})
        angle = contact.seen(row, part).angle
        assert isinstance(angle, Blue)
        low, high = angle.reach
        at = [low + (high - low) * k / 400 for k in range(401)]
        weight = [angle.likelihood(each) - contact.LEAK for each in at]
        return abs(sum(w * a for w, a in zip(weight, at, strict=True)) / sum(weight))

    assert middle(share) > middle(share + more)


@given(rates, errors)
def test_two_diameters_find_the_error(rate: float, error: float) -> None:
    part = _part(rate)
    cut = _cut(part, error)
    lengths = {"difference": cut.rate * 50.0, "apart": 50.0, "give": 0.003}
    assert _bell(two_diameters.seen(Row("two_diameters", 0, lengths), part)).value == pytest.approx(
        error, abs=1e-12
    )


@given(rates, errors, st.floats(2.0, 20.0), st.booleans())
def test_parallels_tell_the_size_by_the_edge_that_touches(
    rate: float, error: float, low: float, on_small_end: bool
) -> None:
    part = _part(rate)
    cut = _cut(part, error)
    anvil, high = 6.5, low + 30.0
    assert cut.large_diameter is not None and cut.small_diameter is not None
    lengths = {"height_1": low, "height_2": high, "anvil": anvil, "give": 0.003}
    for name, height in (("diameter_1", low), ("diameter_2", high)):
        if on_small_end:  # wider upwards: the anvil's upper edge touches
            lengths[name] = cut.small_diameter + cut.rate * (height + anvil)
        else:
            lengths[name] = cut.large_diameter - cut.rate * height
    seen = two_diameters.seen(Row("two_diameters", 0, lengths), part)
    assert _bell(seen).value == pytest.approx(error, abs=1e-12)
    assert seen.diameter is not None
    # the taper's own rate carries it to the end: the error of the angle is left in, over that way
    way = part.length - high - anvil if on_small_end else low
    assert seen.diameter.value == pytest.approx(0.0, abs=2.1 * abs(error) * abs(way) + 1e-9)


@given(rates, errors, st.floats(3.0, 15.0), st.booleans())
def test_rollers_find_error_and_size(rate: float, error: float, roller: float, on_small_end: bool) -> None:
    part = _part(rate)
    cut = _cut(part, error)
    base = cut.small_diameter if on_small_end else cut.large_diameter
    assert base is not None
    lengths = {"roller": roller, "height_1": 3.0, "height_2": 40.0, "give": 0.002}
    for k in ("1", "2"):
        lengths[f"over_{k}"] = rollers.over(
            base, cut.half_angle, lengths[f"height_{k}"], roller, on_small_end
        )
    seen = rollers.seen(Row("rollers", 0, lengths), part)
    assert _bell(seen).value == pytest.approx(error, abs=1e-10)
    assert seen.diameter is not None and seen.diameter.value == pytest.approx(0.0, abs=1e-8)


@given(rates, errors)
def test_balls_find_error_and_size(rate: float, error: float) -> None:
    part = _part(rate, "internal", 80.0)
    cut = _cut(part, error)
    assert cut.large_diameter is not None
    lengths: dict[str, float] = {"give": 0.01}
    for k, share in (("1", 0.15), ("2", 0.75)):
        ball = cut.large_diameter - cut.rate * 80.0 * share
        lengths[f"ball_{k}"] = ball
        lengths[f"depth_{k}"] = balls.depth(ball, cut.large_diameter, cut.half_angle)
    seen = balls.seen(Row("balls", 0, lengths), part)
    assert _bell(seen).value == pytest.approx(error, abs=1e-9)
    assert seen.diameter is not None and seen.diameter.value == pytest.approx(0.0, abs=1e-7)


@given(st.floats(0.005, 0.5), st.floats(12.0, 60.0), st.floats(1.0, 10.0))
def test_discs_and_their_distance_are_inverse(half: float, larger: float, less: float) -> None:
    centres = discs.centres(larger, larger - less, half)
    assert discs.half_angle(larger, larger - less, centres) == pytest.approx(half, rel=1e-9)


@given(rates, st.floats(-5.0, 20.0))
def test_stand_off_and_diameter_are_inverse(rate: float, off: float) -> None:
    part = _part(rate)
    left = stand_off.on_diameter(part, exact(off))
    assert stand_off.stands_off(part, left.value) == pytest.approx(off, abs=1e-9)


@given(rates, errors, st.sampled_from(["plate", "centres", "carriage"]))
def test_an_indicator_run_finds_the_error(rate: float, error: float, setup: str) -> None:
    part = _part(rate)
    half = part.cone.half_angle
    run = 50.0 * (math.tan(2.0 * error) if setup == "plate" else math.tan(half + error))
    row = Row("indicator_run", 0, {"run": run, "run_length": 50.0, "give": 0.002}, {"setup": setup})
    assert _bell(indicator_run.seen(row, part)).value == pytest.approx(error, abs=1e-10)


def test_the_same_bar_hides_its_own_centres() -> None:
    part = _part(0.05)
    row = Row("indicator_run", 0, {"run": 0.0, "run_length": 50.0}, {"setup": "plate"})
    seen = _bell(indicator_run.seen(row, part)).parts[indicator_run.BAR]
    # a bar longer than supposed sets the half angle too shallow by tan(a) × the relative error
    set_by = -math.tan(part.cone.half_angle) * part.bar_give / part.bar_centres / math.sqrt(3.0)
    assert seen + set_by == pytest.approx(0.0, abs=0.002 * abs(set_by))


def test_the_carriage_does_not_see_the_axis_and_the_top_slide_nothing() -> None:
    part = _part(0.05)
    lengths = {"run": 1.25, "run_length": 50.0}
    seen = _bell(indicator_run.seen(Row("indicator_run", 0, lengths, {"setup": "carriage"}), part))
    assert seen.parts[indicator_run.AXIS] == pytest.approx(-part.axis / math.sqrt(3.0))
    assert indicator_run.seen(Row("indicator_run", 0, lengths, {"setup": "slide"}), part).angle is None


@given(errors, forms)
def test_the_loose_end_is_not_the_one_that_bears(error: float, form: str) -> None:
    part = _part(0.05, form)
    loose = {"large": "small", "small": "large"}[contact.bearing_end(error, part)]
    shake = 2.0 * part.length * abs(error)
    seen = rocking.seen(Row("rocking", 0, {"run": shake, "give": 0.005}, {"end": loose}), part)
    assert _bell(seen).value == pytest.approx(error, rel=0.01)
    felt = rocking.seen(Row("rocking", 0, {}, {"end": loose}), part).angle
    assert felt is not None and not isinstance(felt, Bell)
    assert felt.likelihood(error) > 5.0 * felt.likelihood(-error) or shake < rocking.FEEL


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.ID)
@pytest.mark.parametrize("form", ["external", "internal"])
def test_an_empty_row_says_what_is_missing(way: object, form: str) -> None:
    from calc.gauging.way import Way

    assert isinstance(way, object)
    named: Way = way  # type: ignore[assignment]
    key, sentence = named.missing(Row(named.ID), _part(0.05, form))
    assert key in {ask.id for ask in named.ASKS} and sentence.endswith((".", "?"))
    assert named.steps(_part(0.05, form)) and named.TELLS and named.CANNOT and named.SOURCE


@given(rates, st.floats(5.0, 12.0), st.floats(0.0, 20.0))
def test_targets_are_what_the_wanted_taper_measures(rate: float, roller: float, height: float) -> None:
    part = _part(rate)
    measures = [rollers.target(part, roller, each) for each in (height, height + 30.0)]
    assert measures[0] is not None and measures[1] is not None
    lengths = {
        "roller": roller,
        "over_1": measures[0],
        "over_2": measures[1],
        "height_1": height,
        "height_2": height + 30.0,
    }
    assert _bell(rollers.seen(Row("rollers", 0, lengths), part)).value == pytest.approx(0.0, abs=1e-10)
    bore = _part(rate, "internal")
    top = balls.target(bore, 17.0)
    assert top is not None and bore.cone.large_diameter is not None
    assert balls.at_face(17.0, top, bore.cone.half_angle) == pytest.approx(bore.cone.large_diameter)
