"""Friction is a range, and the tapers that are known to hold or release lie on the right side of it."""

from __future__ import annotations

import math

import pytest

from calc.cone import solve
from calc.tables import find_taper
from calc.tables.friction import design_range, friction, friction_figures


def test_ranges() -> None:
    figures = friction_figures()
    assert figures
    for each in figures:
        assert 0 < each.lowest <= each.highest
        assert each.unit in ("1", "deg")
    known = {(each.item, each.condition, each.quantity, each.found.sources) for each in figures}
    assert len(known) == len(figures)


def test_steel_on_steel_is_wide() -> None:
    """Between 0.12 and 0.78 in the sources, by cleanliness; the design range from memory starts at 0.10."""
    sourced = [each for each in friction("steel on steel") if not each.found.from_memory]
    assert (min(each.lowest for each in sourced), max(each.highest for each in sourced)) == (0.12, 0.78)
    assert (design_range().lowest, design_range().highest) == (0.10, 0.16)
    assert design_range().found.from_memory
    assert friction("steel on steel", "greased")[0].highest == 0.35
    assert friction("butter on toast") == ()


@pytest.mark.parametrize(("series", "size"), [("Morse", "3"), ("Morse", "5"), ("Jacobs", "2")])
def test_holding_tapers_hold_at_the_least_friction(series: str, size: str) -> None:
    """A taper holds where tan(half angle) is below the coefficient (statics of the wedge).

    Morse and drill-chuck tapers are known to hold, and do at the lowest coefficient of the design range.
    """
    taper = find_taper(series, size)
    assert taper is not None
    half_angle = solve({"rate": taper.data["rate"].value}).half_angle
    assert math.tan(half_angle) < design_range().lowest


def test_steep_taper_is_not_sure_to_hold() -> None:
    """7/24 releases by custom: its half angle lies inside the range of friction, so it may do either."""
    taper = find_taper("7/24", "40")
    assert taper is not None
    tangent = math.tan(solve({"rate": taper.data["rate"].value}).half_angle)
    assert design_range().lowest < tangent < design_range().highest
    steep = [each for each in friction_figures() if each.item == "self-releasing taper"]
    assert math.degrees(2 * math.atan(tangent)) == pytest.approx(steep[0].lowest, abs=1.0)
