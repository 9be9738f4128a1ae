"""Evidence added up, against a direct grid over the doubts, long draws, and the direct solution."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.cone import Cone
from calc.gauging import contact
from calc.gauging import density as densities
from calc.gauging.belief import Lesson, believe
from calc.gauging.density import density
from calc.gauging.evidence import Expected, weigh
from calc.gauging.way import Bell, Part, Row, Seen

PART = Part(Cone(0.04995, 17.78, 14.5832, 64.0), gauge_give=0.0)
MICRO = 1e-6


def _blue(share: float, end: str = "large", number: int = 0, film: float = 0.003) -> Seen:
    lengths = {"share": share, "film": film}
    return contact.seen(Row("contact", number, lengths, {"end": end}), PART)


def _bell(value: float, standard: float, number: int = 1, key: str = "") -> Seen:
    return Seen(Row("two_diameters", number), Bell(value, {key or f"reading {number}": standard}))


@pytest.fixture(autouse=True)
def _no_blunders(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """The checks against plain draws are of the budget alone; the tail has its own check."""
    if "tail" not in request.node.name:
        monkeypatch.setattr(densities, "BLUNDER", 0.0)
        monkeypatch.setattr(density, "__defaults__", ((), (), 0.0))


@pytest.mark.parametrize(
    ("halves", "bells", "strips"),
    [
        ([100.0], [], []),
        ([100.0, 60.0], [], []),
        ([100.0, 60.0, 40.0, 35.0, 3.0], [], []),
        ([80.0, 10.0], [50.0], []),
        ([60.0, 20.0], [], [(15.0, 3.0), (5.0, 5.0), (-20.0, 12.0)]),
        ([], [30.0], []),
    ],
)
def test_density_against_draws(
    halves: list[float], bells: list[float], strips: list[tuple[float, float]]
) -> None:
    rng = np.random.default_rng(5)
    count = 400_000
    drawn = np.zeros(count)
    for half in halves:
        drawn += rng.uniform(-half, half, count)
    for bell in bells:
        drawn += rng.normal(0.0, bell, count)
    if strips:
        which = rng.integers(0, len(strips), count)
        middle, half_widths = np.array(strips).T
        drawn += middle[which] + half_widths[which] * rng.uniform(-1.0, 1.0, count)
    ours = density(0.0, halves, bells, [strips] if strips else [], tail=0.0)
    assert ours.mean == pytest.approx(drawn.mean(), abs=0.02 * drawn.std())
    assert ours.standard == pytest.approx(drawn.std(), rel=0.01)
    for edge in np.quantile(drawn, [0.05, 0.25, 0.5, 0.75, 0.95]):
        below = sum(v for k, v in enumerate(ours.values) if ours.low + k * ours.step <= edge) * ours.step
        assert below == pytest.approx(float((drawn <= edge).mean()), abs=0.012)


def _direct(
    halves: dict[str, float], seen: list[Seen], mean: float = 0.0
) -> tuple[float, float, dict[str, float]]:
    """Mean and spread of the error, and each doubt's mean, over every combination of the doubts on a fine
    grid.
    """
    axes = [half * (2.0 * np.arange(61) + 1.0 - 61.0) / 61.0 for half in halves.values()]
    grids = np.meshgrid(*axes, indexing="ij")
    error = mean + sum(grids)
    weight = np.ones_like(error)
    for one in seen:
        if isinstance(one.angle, Bell):
            weight *= np.exp(-0.5 * ((one.angle.value - error) / one.angle.standard) ** 2)
        else:
            assert one.angle is not None
            fine = np.linspace(error.min(), error.max(), 1201)
            likelihood = np.array([one.angle.likelihood(float(each)) for each in fine])
            weight *= np.interp(error, fine, likelihood)
    weight /= weight.sum()
    centre = float((weight * error).sum())
    doubts = {name: float((weight * grid).sum()) for name, grid in zip(halves, grids, strict=True)}
    return centre, math.sqrt(float((weight * (error - centre) ** 2).sum())), doubts


@pytest.mark.parametrize(
    "seen",
    [
        [_bell(60 * MICRO, 20 * MICRO)],
        [_blue(0.5)],
        [_blue(0.4, "small"), _bell(-70 * MICRO, 30 * MICRO)],
        [_blue(1.0, "all")],
        [_blue(0.25), _blue(0.4, number=2), _bell(110 * MICRO, 40 * MICRO)],
    ],
    ids=["bell", "half", "small end and a bell", "all along", "three"],
)
def test_against_a_grid_over_the_doubts(seen: list[Seen]) -> None:
    root3 = math.sqrt(3.0)
    parts = {"bar": 50 * MICRO, "side": 35 * MICRO, "sweep": 20 * MICRO}
    mean, spread, doubts = _direct({key: root3 * part for key, part in parts.items()}, seen)
    believed = weigh(Expected(0.0, parts), seen)
    assert believed.mean == pytest.approx(mean, abs=0.02 * spread)
    assert believed.standard == pytest.approx(spread, rel=0.02)
    # the doubts follow by regression on the error: true to first order, and for bells nearly so
    steady, _ = believed.learned(["bar", "side"])
    assert steady == pytest.approx(doubts["bar"] + doubts["side"], abs=0.2 * spread)


def test_against_draws_with_a_doubt_that_is_in_both() -> None:
    # the same bar sets the slide and carries the part on the plate: its centres are in both, with opposite
    # signs
    rng = np.random.default_rng(11)
    count = 2_000_000
    bar, rest, reading = 40 * MICRO, 25 * MICRO, 15 * MICRO
    z = rng.normal(size=(3, count))
    error = -bar * z[0] + rest * z[1]
    seen = error + bar * z[0] + reading * z[2]
    at = 30 * MICRO
    near = np.abs(seen - at) < 2 * MICRO
    expected = Expected(
        0.0, {"setting.bar_give": -bar, "rest": rest}, bells=frozenset(("setting.bar_give", "rest"))
    )
    one = Seen(Row("indicator_run", 0), Bell(at, {"setting.bar_give": bar, "reading": reading}))
    believed = weigh(expected, [one])
    # a bell is three rectangles here, and the draws near `at` are some 60 000
    assert believed.mean == pytest.approx(error[near].mean(), abs=0.03 * error[near].std())
    assert believed.standard == pytest.approx(error[near].std(), rel=0.015)


def test_bells_that_share_a_doubt_do_not_average_it() -> None:
    expected = Expected(0.0, {"bar": 1e-3}, bells=frozenset(("bar",)))
    alone = [
        Seen(Row("rocking", k), Bell(50 * MICRO, {"proving.gauge_give": 20 * MICRO, f"own {k}": 10 * MICRO}))
        for k in range(50)
    ]
    believed = weigh(expected, alone)
    assert believed.standard == pytest.approx(math.hypot(20, 10 / math.sqrt(50)) * MICRO, rel=0.01)


rows = st.lists(
    st.one_of(
        st.builds(lambda v, s: ("bell", v, s), st.floats(-80, 80), st.floats(8, 60)),
        st.builds(
            lambda s, e: ("blue", s, e),
            st.sampled_from([0.25, 0.4, 0.5, 0.75]),
            st.sampled_from(["large", "small"]),
        ),
    ),
    min_size=1,
    max_size=4,
)


def _seen(drawn: list[tuple[str, float, object]]) -> list[Seen]:
    found = []
    for number, (kind, first, second) in enumerate(drawn):
        if kind == "bell":
            assert isinstance(second, float)
            found.append(_bell(first * MICRO, second * MICRO, number))
        else:
            lengths = {"share": first, "film": -0.003}
            found.append(contact.seen(Row("contact", number, lengths, {"end": str(second)}), PART))
    return found


EXPECTED = Expected(0.0, {"bar": 40 * MICRO, "side": 30 * MICRO, "sweep": 15 * MICRO})


@given(rows)
@settings(max_examples=40)
def test_order_does_not_matter(drawn: list[tuple[str, float, object]]) -> None:
    seen = _seen(drawn)
    believed = weigh(EXPECTED, seen)
    for mixed in itertools.islice(itertools.permutations(seen), 1, 5):
        again = weigh(EXPECTED, mixed)
        assert again.mean == pytest.approx(believed.mean, abs=1e-3 * MICRO)
        assert again.standard == pytest.approx(believed.standard, rel=1e-5)


@given(st.lists(st.floats(8, 60), min_size=1, max_size=5), st.floats(-60, 60))
@settings(max_examples=60)
def test_more_readings_never_widen(spreads: list[float], value: float) -> None:
    last = weigh(EXPECTED, []).standard
    seen: list[Seen] = []
    for number, spread in enumerate(spreads):
        seen.append(_bell(value * MICRO, spread * MICRO, number))
        now = weigh(EXPECTED, seen).standard
        assert now <= last * 1.002
        last = now


@given(st.sampled_from([0.25, 0.4, 0.5, 0.75]), st.floats(0.8, 1.25), st.floats(8, 60))
@settings(max_examples=40)
def test_a_reading_that_agrees_with_the_blue_narrows(share: float, off: float, spread: float) -> None:
    seen = [_blue(share)]
    before = weigh(EXPECTED, seen)
    agrees = _bell(before.mean * off, spread * MICRO)
    assert weigh(EXPECTED, [*seen, agrees]).standard <= before.standard * 1.002


def test_weights_add_to_one_and_follow_the_precision() -> None:
    believed = weigh(EXPECTED, [_bell(0.0, 10 * MICRO, 0), _bell(0.0, 20 * MICRO, 1)])
    assert sum(believed.weights.values()) == pytest.approx(1.0)
    assert believed.weights[0] == pytest.approx(4.0 * believed.weights[1])


def test_what_no_budget_foresees_is_believed_when_it_is_seen_tail() -> None:
    # ten times what the budget allows for, measured well: a chip under a roller, a piece misread
    standard = EXPECTED.standard
    believed = weigh(EXPECTED, [_bell(10.0 * standard, 0.2 * standard)])
    assert believed.mean == pytest.approx(10.0 * standard, rel=0.02)
    assert believed.standard == pytest.approx(0.2 * standard, rel=0.1)


def test_chances_are_shares_of_the_density() -> None:
    believed = weigh(EXPECTED, [_bell(20 * MICRO, 15 * MICRO)])
    whole = believed.chance(-1.0, 1.0)
    assert whole == pytest.approx(1.0, abs=1e-6)
    low, high = believed.chance(-1.0, 20 * MICRO), believed.chance(20 * MICRO, 1.0)
    assert low + high == pytest.approx(1.0, abs=1e-6)
    z = (30 * MICRO - believed.mean) / believed.standard
    assert believed.chance(-1.0, 30 * MICRO) == pytest.approx(0.5 * math.erfc(-z / math.sqrt(2.0)), abs=0.02)
    # moved and widened: as if the density had been
    widened = believed.chance(-40 * MICRO, 40 * MICRO, -believed.mean, 12 * MICRO)
    spread = math.hypot(believed.standard, 12 * MICRO)
    assert widened == pytest.approx(math.erf(40 * MICRO / spread / math.sqrt(2.0)), abs=0.02)


def test_belief_against_the_direct_solution() -> None:
    rng = np.random.default_rng(3)
    keys = [f"doubt {k}" for k in range(6)]
    parts = rng.normal(size=(60, 6)) * 30 * MICRO
    noise = rng.uniform(5, 40, 60) * MICRO
    true = rng.normal(size=6)
    values = parts @ true + noise * rng.normal(size=60)
    lessons = [
        Lesson(float(v), dict(zip(keys, map(float, row), strict=True)), float(n))
        for v, row, n in zip(values, parts, noise, strict=True)
    ]
    belief = believe(lessons)
    inverse = np.linalg.inv(np.eye(6) + parts.T @ np.diag(noise**-2) @ parts)
    direct = inverse @ (parts.T @ (values / noise**2))
    assert np.allclose(belief.mean, direct, atol=1e-9)
    root = np.array(belief.root)
    assert np.allclose(root @ root.T, inverse, atol=1e-9)
    # the other way round it is the same
    back = believe(lessons[::-1])
    assert np.allclose(back.mean, direct, atol=1e-9)
    # and a sum of doubts is known as their covariances say
    h = rng.normal(size=6) * 30 * MICRO
    steady = belief.steady(dict(zip(keys, map(float, h), strict=True)))
    assert steady.value == pytest.approx(float(h @ direct))
    assert steady.standard == pytest.approx(math.sqrt(float(h @ inverse @ h)))


def test_each_proved_cut_makes_the_steady_part_surer() -> None:
    lessons: list[Lesson] = []
    last = math.inf
    for _ in range(8):
        lessons.append(Lesson(30 * MICRO, {"bar": 30 * MICRO, "side": 20 * MICRO}, 15 * MICRO))
        now = believe(lessons).steady({"bar": 30 * MICRO, "side": 20 * MICRO}).standard
        assert now < last
        last = now


def test_what_was_never_met_is_as_doubtful_as_before() -> None:
    belief = believe([Lesson(30 * MICRO, {"bar": 30 * MICRO}, 5 * MICRO)])
    fresh = belief.steady({"side": 20 * MICRO})
    assert fresh.value == 0.0 and fresh.parts == {}


def test_two_hundred_cuts_are_taken_in_quickly() -> None:
    import time

    keys = [f"doubt {k}" for k in range(7)]
    lessons = [Lesson(MICRO * k, {key: MICRO * (k % 5 + 1) for key in keys}, MICRO) for k in range(200)]
    best = math.inf
    for _ in range(5):
        begin = time.perf_counter()
        believe(lessons)
        best = min(best, time.perf_counter() - begin)
    assert best < 0.1, "200 records: 20 ms on the bench, with room here for a busy machine"
