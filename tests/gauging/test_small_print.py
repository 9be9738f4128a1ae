"""What stands between the large results of gauging: laws of densities and bells, and when a row will do."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cone import Cone
from calc.gauging import discs
from calc.gauging.blue_reading import read_share
from calc.gauging.density import density
from calc.gauging.record import FILM, sites
from calc.gauging.rocking import Felt
from calc.gauging.way import Part, Row

PART = Part(Cone(0.05, 25.0, 22.0, 60.0))
wide = st.floats(1e-6, 1e-3)


@given(st.floats(-1e-3, 1e-3), st.lists(wide, min_size=1, max_size=4), st.lists(wide, max_size=2))
def test_a_density_runs_straight_from_point_to_point(
    mean: float, boxes: list[float], bells: list[float]
) -> None:
    found = density(mean, boxes, bells, tail=0.0)
    points = [found.low + found.step * place for place in range(len(found.values))]
    assert found.high == pytest.approx(points[-1], abs=found.step * 1e-6)
    for (start, end), (one, other) in list(zip(pairwise(points), pairwise(found.values), strict=True))[::7]:
        for share in (0.25, 0.5, 0.75):
            between, straight = found.at(start + share * (end - start)), one + share * (other - one)
            assert between == pytest.approx(straight, rel=1e-6, abs=1e-9 * max(found.values))
    # As a density it comes to one, by the rule of trapezes, which is exact for straight pieces.
    whole = found.step * (math.fsum(found.values) - (found.values[0] + found.values[-1]) / 2.0)
    assert whole == pytest.approx(1.0, abs=0.01)


class Believed:
    """What is believed, as far as a record looks."""

    bell = None

    def __init__(self, mean: float, standard: float) -> None:
        self.mean, self.standard = mean, standard


@given(st.floats(-1e-3, 1e-3), st.floats(-1e-3, 1e-3), wide, st.floats(0.1, 0.95))
def test_the_bell_of_blue_takes_the_one_belief_to_the_other(
    before: float, after: float, standard: float, narrowed: float
) -> None:
    """Two bells multiplied: precisions add, means are weighed by them. A film that is one hand's hides
    nothing of it: what it shares and what is noise come to the whole."""
    believed: Any = Believed(after, standard * narrowed)
    for film in (False, True):
        (site,) = sites(believed, (before, standard), [], film)
        spread = math.hypot(site.noise, *site.parts.values())
        precision = 1.0 / standard**2 + 1.0 / spread**2
        assert 1.0 / precision == pytest.approx((standard * narrowed) ** 2, rel=1e-6)
        mean = (before / standard**2 + site.value / spread**2) / precision
        assert mean == pytest.approx(after, rel=1e-6, abs=1e-12)
        assert set(site.parts) == ({FILM} if film else set())


@pytest.mark.parametrize(
    ("lengths", "wants"),
    [
        ({}, "disc_1"),
        ({"disc_1": 30.0}, "disc_2"),
        ({"disc_1": 30.0, "disc_2": 20.0}, "apart"),
        ({"disc_1": 30.0, "disc_2": 20.0, "apart": 100.0}, ""),
        ({"disc_1": 20.0, "disc_2": 30.0, "apart": 5.1}, ""),
        ({"disc_1": 30.0, "disc_2": 20.0, "apart": 5.0}, "apart"),
        ({"disc_1": 30.0, "disc_2": 20.0, "between": 0.0}, ""),
        ({"disc_1": 1.5, "disc_2": 1.0, "apart": 0.3}, ""),
    ],
)
def test_what_discs_still_need(lengths: dict[str, float], wants: str) -> None:
    """A straight edge touches both as long as the centres stand farther apart than the radii differ."""
    assert discs.missing(Row("discs", 0, lengths), PART)[0] == wants


@given(st.floats(5.0, 500.0))
def test_where_rocking_is_looked_for(length: float) -> None:
    """Not felt, it says as much of either sense; felt, of its own alone; nothing that it says is left out."""
    low, high = Felt(0, length).reach
    assert low == -high < 0.0
    steep, shallow = Felt(1, length).reach, Felt(-1, length).reach
    assert steep[0] == 0.0 == shallow[1] and steep[1] == -shallow[0] > high
    far = Felt(0, length).likelihood(100.0 * high)
    assert Felt(0, length).likelihood(high) == pytest.approx(far, abs=0.01)
    assert Felt(0, length).likelihood(low) == pytest.approx(far, abs=0.01)


@pytest.mark.parametrize(
    ("typed", "told"), [("40 %", "40 %"), ("0.4", "40 %"), ("1/8", "12.5 %"), ("100%", "100 %")]
)
def test_a_share_is_told_in_per_cent(typed: str, told: str) -> None:
    assert read_share(typed).understood == told
