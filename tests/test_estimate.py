"""Uncertainty to first order: against the `uncertainties` package, mpmath's derivatives and Monte Carlo."""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from typing import Any

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat, umath

from calc import estimate
from calc.estimate import Estimate, exact, limits, normal, through

values = st.floats(0.1, 50.0) | st.floats(-50.0, -0.1)
spreads = st.floats(1e-6, 0.05)

FORMULAS: list[Callable[[Any, Any, Any, Any], Any]] = [
    # a, b, c and the functions of either package; b is used more than once, so that its parts must combine
    lambda a, b, c, f: a + b - c + b,
    lambda a, b, c, f: 2 * a - b * b / c,
    lambda a, b, c, f: (a - b) / (a * a + b * b + 1),
    lambda a, b, c, f: 3 - (1 / b) * (-c),
    lambda a, b, c, f: a * f.sin(b) + c * f.cos(b),
    lambda a, b, c, f: f.tan(b / 100) * a - b,
    lambda a, b, c, f: 2 * f.atan((a - b) / (2 * c)),
    lambda a, b, c, f: f.asin(b / 60) + f.asin(b / 70) * a,
    lambda a, b, c, f: f.sqrt(a * a + b * b) - f.sqrt(c * c + b * b),
]


@given(st.tuples(values, values, values), st.tuples(spreads, spreads, spreads))
def test_formulas_against_the_uncertainties_package(
    at: tuple[float, float, float], u: tuple[float, float, float]
) -> None:
    ours = [normal(value, spread, key) for value, spread, key in zip(at, u, "abc", strict=True)]
    theirs = [ufloat(value, spread) for value, spread in zip(at, u, strict=True)]
    for formula in FORMULAS:
        result, expected = formula(*ours, estimate), formula(*theirs, umath)
        assert result.value == pytest.approx(expected.nominal_value, rel=1e-12, abs=1e-12)
        assert result.standard == pytest.approx(expected.std_dev, rel=1e-9, abs=1e-14)
        assert result.expanded == 2 * result.standard
        sensitivities = expected.derivatives
        for key, variable, spread in zip("abc", theirs, u, strict=True):
            if variable in sensitivities:
                share = sensitivities[variable] * spread
                assert result.share(key) == pytest.approx(share, rel=1e-9, abs=1e-13)


@given(values, spreads, values, spreads)
def test_two_results_that_share_a_source_stay_correlated(a: float, ua: float, b: float, ub: float) -> None:
    x, y = normal(a, ua, "x"), normal(b, ub, "y")
    p, q = ufloat(a, ua), ufloat(b, ub)
    ours = (x * y) - (x + 3 * y) / x
    theirs = (p * q) - (p + 3 * q) / p
    assert ours.standard == pytest.approx(theirs.std_dev, rel=1e-9, abs=1e-14)


@given(values, spreads)
def test_what_cancels_leaves_exactly_nothing(value: float, spread: float) -> None:
    x = normal(value, spread, "x")
    nothing = x - x
    assert (nothing.value, nothing.standard, dict(nothing.parts)) == (0.0, 0.0, {})
    assert ((x + 1) - x).standard == 0.0
    assert (x - normal(value, spread, "another")).standard == pytest.approx(spread * math.sqrt(2))


@pytest.mark.parametrize("name", ["sin", "cos", "tan", "asin", "atan", "sqrt"])
def test_functions_against_mpmath(name: str) -> None:
    function, theirs = getattr(estimate, name), getattr(mpmath, name)
    with mpmath.workdps(30):
        for step in range(1, 40):
            at = step / 41
            result = function(normal(at, 1e-3, "x"))
            assert result.value == pytest.approx(float(theirs(at)), rel=1e-15)
            assert result.share("x") == pytest.approx(1e-3 * float(mpmath.diff(theirs, at)), rel=1e-13)
            assert function(at).value == result.value
            assert function(at).standard == 0.0


def test_limits_are_rectangular() -> None:
    # GUM 4.3.7, equation (7): u squared is a squared over 3. Monte Carlo besides, with a fixed seed.
    piece = limits(10.0, 0.03, "piece")
    assert piece.value == 10.0
    assert piece.standard**2 == pytest.approx(0.03**2 / 3, rel=1e-12)
    source = random.Random(11)
    draws = [source.uniform(-0.03, 0.03) for _ in range(40_000)]
    assert piece.standard == pytest.approx(math.sqrt(sum(d * d for d in draws) / len(draws)), rel=0.02)


def bar_angle(height: float, centres: float) -> float:
    return math.asin(height / centres)


def test_the_bar_against_monte_carlo() -> None:
    """Half angle set by a stack on a bar, H and C uncertain, against 40 000 draws (GUM Supplement 1)."""
    height, centres = limits(2.4967, 0.004, "stack"), normal(100.0, 0.02, "bar")
    source = random.Random(7)
    draws = [
        bar_angle(2.4967 + source.uniform(-0.004, 0.004), source.gauss(100.0, 0.02)) for _ in range(40_000)
    ]
    mean = sum(draws) / len(draws)
    spread = math.sqrt(sum((draw - mean) ** 2 for draw in draws) / len(draws))
    for angle in (estimate.asin(height / centres), through(bar_angle, height, centres)):
        assert angle.value == pytest.approx(mean, abs=4 * spread / math.sqrt(len(draws)))
        assert angle.standard == pytest.approx(spread, rel=0.02)
        assert angle.share("stack") > 0 > angle.share("bar")
        assert angle.ranked()[0][0] == "stack"


@given(values, spreads, values, spreads)
def test_through_agrees_with_the_arithmetic(a: float, ua: float, b: float, ub: float) -> None:
    x, y = normal(a, ua, "x"), normal(b, ub, "y")
    shared = x + 2 * y
    direct = estimate.sin(shared / 40) * x
    stepped = through(lambda both, one: math.sin(both / 40) * one, shared, x)
    assert stepped.value == pytest.approx(direct.value, rel=1e-12, abs=1e-12)
    # The central difference errs by the third derivative times u cubed.
    assert stepped.standard == pytest.approx(direct.standard, rel=1e-3, abs=1e-6)


def test_through_keeps_small_spreads_and_the_edges_of_a_function() -> None:
    tiny = through(math.sqrt, normal(2.0, 1e-13, "x"))
    assert tiny.standard == pytest.approx(1e-13 / (2 * math.sqrt(2)), rel=1e-6)
    near_edge = through(math.asin, normal(0.99, 0.02, "x"))
    assert near_edge.standard == pytest.approx(0.02 / math.sqrt(1 - 0.99**2), rel=1e-3)
    assert through(math.hypot, 3.0, 4).value == 5.0
    assert through(math.hypot, 3.0, 4).standard == 0.0
    with pytest.raises(ValueError):
        through(math.asin, normal(2.0, 0.1, "x"))


def test_through_takes_a_shared_source_as_one() -> None:
    x = normal(3.0, 0.1, "x")
    assert through(lambda a, b: a - b, x, x + 1).standard == pytest.approx(0.0, abs=1e-15)
    assert through(lambda a, b: a + b, x, x).standard == pytest.approx(0.2)


def test_exact_and_mixed_arithmetic() -> None:
    x = normal(4.0, 0.2, "x")
    assert exact(x) is x
    assert exact(3).value == 3.0 and exact(3).standard == 0.0
    assert ((10 - x).value, (10 - x).share("x")) == (6.0, -0.2)
    assert (8 / x).value == 2.0
    assert (8 / x).share("x") == pytest.approx(-0.1)
    assert ((-x).value, (-x).share("x")) == (-4.0, -0.2)
    assert Estimate(1.0, {"none": 0.0}).parts == {}
    assert x.share("unheard of") == 0.0
    assert eval(repr(x)).parts == x.parts


@pytest.mark.parametrize("bad", [-0.1, math.inf, math.nan])
def test_a_spread_is_positive_and_finite(bad: float) -> None:
    with pytest.raises(ValueError):
        normal(1.0, bad, "x")
    with pytest.raises(ValueError):
        limits(1.0, bad, "x")


def test_where_first_order_fails_it_is_said() -> None:
    for at in (-1.0, 1.0, 1.5):
        with pytest.raises(ValueError):
            estimate.asin(normal(at, 0.01, "x"))
    for at in (0.0, -1.0):
        with pytest.raises(ValueError):
            estimate.sqrt(normal(at, 0.01, "x"))
    assert estimate.sqrt(0.0).value == 0.0
    with pytest.raises(ZeroDivisionError):
        normal(1.0, 0.1, "x") / 0.0
