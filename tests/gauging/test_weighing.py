"""How finely what is seen is summed: against the mathematics of the rules, and against grids much finer."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cone import Cone
from calc.gauging import contact, shape
from calc.gauging.blue_reading import read_share
from calc.gauging.contact import Blue
from calc.gauging.contradictions import UNLIKELY, _apart
from calc.gauging.density import Density, density
from calc.gauging.evidence import FIVE, THREE, Expected, _spread, weigh
from calc.gauging.record import AFRESH, NoRecord, Record, plain, read
from calc.gauging.rocking import FEEL, FEEL_SPREAD, LEAK, Felt
from calc.gauging.way import GAUGE, Bell, Part, Row, Seen
from calc.quantities import Unreadable

MICRO = 1e-6


@pytest.mark.parametrize(("rule", "exact"), [(THREE, 5), (FIVE, 9)])
def test_means_over_a_normal_are_exact_as_far_as_is_said(
    rule: tuple[tuple[float, float], ...], exact: int
) -> None:
    """The moments of the standard normal: 1, 0, 1, 0, 3, 0, 15, 0, 105 (any text on probability)."""
    for power in range(exact + 1):
        moment = 0.0 if power % 2 else float(math.prod(range(1, power, 2)))
        assert math.fsum(share * place**power for place, share in rule) == pytest.approx(moment, abs=1e-6)


@given(
    st.lists(st.floats(1.0, 200.0), max_size=6),
    st.lists(st.floats(0.1, 60.0), max_size=2),
    st.floats(-300.0, 300.0),
)
def test_a_density_has_the_moments_of_its_parts(boxes: list[float], bells: list[float], mean: float) -> None:
    """Means and variances of independent parts add up (GUM 4.3.7 for a rectangle), and so they do here."""
    found = density(mean, boxes, bells, tail=0.0)
    places = [found.low + k * found.step for k in range(len(found.values))]
    shares = [value * found.step for value in found.values]
    total = math.fsum(shares)
    middle = math.fsum(v * at for v, at in zip(shares, places, strict=True))
    spread = math.fsum(v * (at - middle) ** 2 for v, at in zip(shares, places, strict=True))
    variance = math.fsum(half * half / 3.0 for half in boxes) + math.fsum(bell * bell for bell in bells)
    assert total == pytest.approx(1.0)
    assert middle == pytest.approx(mean, abs=1e-3 * found.step + 1e-9)
    assert spread == pytest.approx(variance, rel=0.03, abs=found.step**2)


def _blue(side: int, share: float, gauge: float = 0.0) -> Blue:
    return Blue(side, share, 0.003, 64.0, 0.36, 0.0, gauge)


@given(
    st.sampled_from([-1, 1]),
    st.floats(0.2, 0.9),
    st.floats(-400.0, 400.0),
    st.floats(3.0, 60.0),
)
def test_two_contradict_where_no_error_leaves_both_standing(
    side: int, share: float, value: float, standard: float
) -> None:
    """By the rule as it is said, on a grid ten times as fine; too near to call is left out."""
    bell, blue = Bell(value * MICRO, {"reading": standard * MICRO}), _blue(side, share)
    grid = [MICRO * k for k in range(-1500, 1501)]
    best = max(blue.likelihood(at) for at in grid)
    stands = max(
        blue.likelihood(at) * math.exp(-0.5 * ((at - bell.value) / bell.standard) ** 2) for at in grid
    )
    share_left = stands / best / UNLIKELY
    if not 0.8 < share_left < 1.25:
        assert _apart(bell, blue) is _apart(blue, bell) is (share_left < 1.0)


@pytest.mark.parametrize("value", [-20.0, 60.0, 110.0])
@pytest.mark.parametrize("share", [0.4, 0.75])
def test_a_gauge_s_error_counts_in_all_that_it_was_used_for(value: float, share: float) -> None:
    """One ring for blue and for a reading: summed over what the ring may be out by, on a fine grid."""
    gauge, own, before = 20.0 * MICRO, 12.0 * MICRO, 60.0 * MICRO
    expected = Expected(0.0, {"bar": before}, bells=frozenset({"bar"}))
    bell, blue = Bell(value * MICRO, {"reading": own, GAUGE: gauge}), _blue(1, share, gauge)
    seen = [Seen(Row("contact", 0), blue), Seen(Row("two_diameters", 1), bell)]
    believed = weigh(expected, seen)

    prior = expected.density()
    errors = [2.0 * MICRO * k for k in range(-200, 201)]
    weights = []
    for error in errors:
        both = 0.0
        for k in range(-40, 41):
            out = k / 8.0
            away = (bell.value - error - gauge * out) / own
            both += math.exp(-0.5 * out * out - 0.5 * away * away) * blue.likelihood(error + gauge * out)
        weights.append(prior.at(error) * both)
    whole = math.fsum(weights)
    mean = math.fsum(w * at for w, at in zip(weights, errors, strict=True)) / whole
    spread = math.sqrt(math.fsum(w * (at - mean) ** 2 for w, at in zip(weights, errors, strict=True)) / whole)
    assert believed.mean == pytest.approx(mean, abs=0.1 * spread)
    assert believed.standard == pytest.approx(spread, rel=0.1)


@given(st.sampled_from([-1, 0, 1]), st.floats(0.2, 0.9))
def test_what_blue_says_by_itself_is_as_wide_as_on_a_finer_grid(side: int, share: float) -> None:
    blue = _blue(side, share)
    low, high = blue.reach
    places = [low + (high - low) * k / 2000 for k in range(2001)]
    values = [blue.likelihood(at) for at in places]
    whole = math.fsum(values)
    mean = math.fsum(v * at for v, at in zip(values, places, strict=True)) / whole
    fine = math.fsum(v * (at - mean) ** 2 for v, at in zip(values, places, strict=True)) / whole
    assert _spread(blue) == pytest.approx(fine, rel=0.12)


def test_a_blued_part_of_its_own_film_alone_shares_none() -> None:
    """Two films of one tin are weighed together; one alone is as wide as both spreads together."""
    part = Part(Cone(0.04995, 17.78, 14.5832, 64.0), gauge_give=0.0)
    one = contact.seen(Row("contact", 0, {"share": 0.5, "film": -0.003}, {"end": "large"}), part)
    assert isinstance(one.angle, Blue) and one.angle.shared > 0.0
    alone = weigh(Expected(0.0, {"bar": 60e-6}), [one])
    wide = Blue(1, 0.5, 0.003, one.angle.slant, math.hypot(one.angle.spread, one.angle.shared), 0.0)
    same = weigh(Expected(0.0, {"bar": 60e-6}), [Seen(Row("contact", 0), wide)])
    assert (alone.mean, alone.standard) == pytest.approx((same.mean, same.standard), rel=1e-6)


def _moments(found: Density) -> tuple[float, float]:
    places = [found.low + k * found.step for k in range(len(found.values))]
    shares = [value * found.step for value in found.values]
    middle = math.fsum(v * at for v, at in zip(shares, places, strict=True))
    return middle, math.fsum(v * (at - middle) ** 2 for v, at in zip(shares, places, strict=True))


def test_one_rectangle_ends_where_it_ends_and_strips_lie_where_they_lie() -> None:
    alone = density(0.0, [100.0], tail=0.0)
    assert _moments(alone)[1] == pytest.approx(100.0**2 / 3.0, rel=0.005)
    # Strips of equal chance about a mean of 0; their variance by hand.
    strips = [(-20.0, 10.0), (40.0, 10.0), (-20.0, 30.0)]
    middle, spread = _moments(density(0.0, [30.0], shaped=[strips], tail=0.0))
    by_hand = 30.0**2 / 3.0 + sum(m * m + h * h / 3.0 for m, h in strips) / 3.0
    assert middle == pytest.approx(0.0, abs=0.5)
    assert spread == pytest.approx(by_hand, rel=0.02)
    whole = density(0.0, [5.0], shaped=[strips], tail=0.0)
    above = math.fsum(v for k, v in enumerate(whole.values) if whole.low + k * whole.step > 25.0) * whole.step
    assert above == pytest.approx(1.0 / 3.0, abs=0.02)  # the one strip that lies up there


@pytest.mark.parametrize(
    ("text", "part"),
    [("a quarter", (1, 4)), ("third", (1, 3)), ("half", (1, 2)), ("two thirds", (2, 3)), ("40 %", (2, 5))]
    + [("three quarters", (3, 4)), ("all", (1, 1)), ("0.3", (3, 10)), ("100 %", (1, 1))],
)
def test_a_share_is_what_its_words_say(text: str, part: tuple[int, int]) -> None:
    assert read_share(text).exact == Fraction(*part)


@pytest.mark.parametrize("text", ["150 %", "1.5", "0 %", "-10 %", "0"])
def test_no_share_is_more_than_all_or_nothing(text: str) -> None:
    with pytest.raises(Unreadable):
        read_share(text)


@pytest.mark.parametrize(("z", "below"), [(-1.0, 0.158655), (0.0, 0.5), (1.0, 0.841345), (2.0, 0.977250)])
def test_what_a_hand_feels_is_normal_in_the_shake_s_logarithm(z: float, below: float) -> None:
    """Phi from any table of the normal distribution; the shake is twice the length times the error."""
    length = 64.0
    error = FEEL * math.exp(FEEL_SPREAD * z) / (2.0 * length)
    for side, felt in ((1, below), (-1, 0.0), (0, 1.0 - below)):
        assert Felt(side, length).likelihood(error) == pytest.approx(LEAK + (1.0 - LEAK) * felt, abs=1e-5)
    assert Felt(1, length).tells == pytest.approx(FEEL / 2.0 / length)


@given(st.floats(0.2, 3.0), st.floats(0.02, 0.2))
def test_the_tool_height_that_left_a_hollow_is_found_from_it(height: float, rate: float) -> None:
    part = Part(Cone(rate, 20.0, 20.0 - rate * 50.0, 50.0), gauge_give=0.0)
    sag = -0.5 * shape.middle(height, 0.5 * rate, 50.0, 20.0)
    assert shape.height_for(sag, part) == pytest.approx(height, rel=1e-6)
    assert shape.height_for(50.0, part) is None is shape.height_for(0.0, part)
    assert shape.height_for(sag, Part(Cone(0.0, 20.0, 20.0, 50.0), gauge_give=0.0)) is None


def test_blue_is_half_where_nothing_is_said_and_tells_nothing_of_a_parallel_part() -> None:
    part = Part(Cone(0.05, 20.0, 17.0, 60.0), gauge_give=0.0)
    said: list[dict[str, float]] = [{}, {"share": 0.5}]
    bare, half = (contact.seen(Row("contact", 0, each, {"end": "large"}), part) for each in said)
    assert bare.angle == half.angle
    parallel = Part(Cone(0.0, 20.0, 20.0, 60.0), gauge_give=0.0)
    row = Row("contact", 0, {}, {"end": "large"})
    assert contact.missing(row, parallel)[0] == "end" and not contact.missing(row, part)[0]


def test_a_record_of_before_turns_were_kept_is_read_as_not_turned() -> None:
    """Parts came later: what is missing counts as nothing."""
    record = Record({}, {}, AFRESH, 1e-5, 2e-5, {"bar": 1e-5}, {}, [], (1e-5, 1e-5))
    told = plain(record)
    del told["turn"]
    found = read(told)
    assert (record.turn, found.turn, found.units) == (0.0, 0.0, {"bar": 0.0})
    with pytest.raises(NoRecord):
        read({**told, "believed": {"value": 0.0, "standard": -0.5}})
