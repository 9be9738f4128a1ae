"""What holds and what lets go, by statics of the wedge."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.identify.holding import BETWEEN, RELEASING, SELF_HOLDING, STEEP, holding
from calc.tables import find_taper
from calc.tables.friction import design_range, friction


@pytest.mark.parametrize(
    ("series", "size", "verdict"),
    [
        ("Morse", "3", SELF_HOLDING),  # textbooks: self-holding, its limit 0.0251
        ("Brown & Sharpe", "9 depth 4", SELF_HOLDING),
        ("Jacobs", "2", SELF_HOLDING),
        ("Shaft end", "40", SELF_HOLDING),  # 1:10, its limit 0.050
        ("7/24", "40", STEEP),  # in every text on milling spindles: the steep, self-releasing taper
        ("7/24 inch", "50", STEEP),
        ("5C", "5C", RELEASING),
        ("Centre", "60°", RELEASING),
    ],
)
def test_tapers_of_the_trade(series: str, size: str, verdict: str) -> None:
    taper = find_taper(series, size)
    assert taper is not None
    half_angle = math.atan(taper.data["rate"].value / 2)
    assert holding(half_angle).verdict == verdict


@given(st.floats(0.001, 1.5))
def test_by_forces_on_the_flank(half_angle: float) -> None:
    """With the normal force N on the flank, what pushes out is N sin a, what holds at most mu N cos a."""
    found = holding(half_angle, design_range())
    holds = [
        mu * math.cos(half_angle) > math.sin(half_angle)
        for mu in (found.friction.lowest, found.friction.highest)
    ]
    assert (
        found.verdict
        == {(True, True): SELF_HOLDING, (False, True): BETWEEN, (False, False): RELEASING}[
            (holds[0], holds[1])
        ]
    )
    assert found.tangent * found.margin == pytest.approx(found.friction.lowest)
    assert found.seats and found.draws


def test_the_range_can_be_another() -> None:
    """Greased steel, 0.12 to 0.35 in one source: 7/24 depends there too; dry at 0.74 it would hold."""
    half_angle = math.atan(7 / 48)
    assert holding(half_angle, friction("steel on steel", "greased")[0]).verdict == BETWEEN
    assert holding(half_angle, friction("steel on steel", "clean dry")[0]).verdict == SELF_HOLDING


def test_it_says_where_its_friction_comes_from() -> None:
    found = holding(0.025)
    assert found.friction.found.from_memory and "from memory" in found.friction.found.words()
    assert any(not each.found.from_memory for each in found.wider)


@pytest.mark.parametrize("half_angle", [0.0, -0.1, math.pi / 2, math.nan, math.inf])
def test_what_is_no_taper(half_angle: float) -> None:
    with pytest.raises(ValueError, match="half angle"):
        holding(half_angle)


def test_a_range_must_be_of_a_coefficient() -> None:
    angles = friction("self-holding taper", quantity="included angle, usual")
    with pytest.raises(ValueError, match="coefficient"):
        holding(0.02, angles[0])


@given(st.floats(0.01, 1.5))
def test_class_comes_before_friction(half_angle: float) -> None:
    """From 16 degrees included on (a shop's figure for steep machine tapers) nothing is said to hold."""
    verdict = holding(half_angle).verdict
    if math.degrees(2 * half_angle) >= 16.0:
        assert verdict in (STEEP, RELEASING)
    else:
        assert verdict == holding(half_angle, design_range()).verdict
    assert verdict.startswith("releasing") or math.degrees(2 * half_angle) < 16.0
