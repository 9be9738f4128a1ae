"""What is seen is one thing or another: chances make one, means weigh by worth, rows say what they lack."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cone import Cone
from calc.gauging import rollers, two_diameters
from calc.gauging.blue_reading import read_share
from calc.gauging.contact import LEAK, Blue
from calc.gauging.record import AFRESH, Record, Site, lessons
from calc.gauging.rocking import Felt
from calc.gauging.way import Part, Row
from calc.quantities import Unreadable

PART = Part(Cone(0.05, 20.0, 16.8, 64.0), "external")


@given(st.floats(0.2, 1.5), st.floats(0.1, 0.4), st.sampled_from([1, -1]))
def test_every_share_of_blue_together_makes_certainty(over: float, spread: float, side: int) -> None:
    """Where blue reaches nearly all along or all along: the densities of all shares add up."""
    film, slant = 0.003, 60.0
    error = side * film / slant / math.exp(over)
    shares = numpy.linspace(0.002, 1.6, 1200)
    seen = [Blue(side, float(share), film, slant, spread, 0.0).likelihood(error) for share in shares]
    inside = (numpy.array(seen) - LEAK) / (1.0 - LEAK)
    assert float(numpy.trapezoid(inside, shares)) == pytest.approx(1.0, abs=0.1)


@given(st.floats(-0.002, 0.002), st.floats(10.0, 200.0))
def test_it_rocks_or_it_does_not(error: float, length: float) -> None:
    """For an error of one sign there are two answers: their chances, less those of a slip, make one."""
    chances = [Felt(side, length).likelihood(error) for side in (-1, 0, 1)]
    assert all(0.0 < chance <= 1.0 for chance in chances)
    slip = min(chances[0], chances[2])
    assert sum(chances) == pytest.approx(1.0 + 2.0 * slip)


@given(st.lists(st.tuples(st.floats(-1e-3, 1e-3), st.floats(1e-6, 1e-3)), min_size=2, max_size=5))
def test_several_readings_weigh_by_what_each_is_known_to(pairs: list[tuple[float, float]]) -> None:
    """The weighted mean and its standard uncertainty, by numpy (Bevington's formulas, from memory)."""
    values, noises = zip(*pairs, strict=True)
    weights = [noise**-2 for noise in noises]
    sites = [Site(value, noise, {"bar": 2e-5}) for value, noise in pairs]
    record = Record({}, {}, AFRESH, 1e-4, 0.0, {}, {}, sites, (0.0, 1e-4))
    (lesson,) = lessons([record], {}, {"bar": 1e-3}, {})
    assert lesson.value == pytest.approx(float(numpy.average(values, weights=weights)) - 1e-4, abs=1e-12)
    assert lesson.noise == pytest.approx(math.sqrt(1.0 / sum(weights)))
    # Nothing is known of how well the bar was known then: its part is taken as it was.
    assert lesson.parts["bar"] == pytest.approx(2e-5)


@pytest.mark.parametrize(
    ("lengths", "wants"),
    [
        ({}, "roller"),
        ({"roller": 6.0}, "over_1"),
        ({"roller": 6.0, "over_1": 30.0}, ""),
        ({"roller": 6.0, "over_2": 30.0}, "height_2"),
        ({"roller": 6.0, "over_2": 30.0, "height_2": 20.0}, ""),
        ({"roller": 6.0, "over_1": 30.0, "over_2": 28.0}, "height_2"),
        ({"roller": 6.0, "over_1": 30.0, "over_2": 28.0, "height_2": 20.0}, ""),
        ({"roller": 6.0, "over_1": 30.0, "over_2": 28.0, "height_1": 20.0, "height_2": 20.0}, "height_2"),
    ],
)
def test_a_row_of_rollers_says_what_it_lacks(lengths: Mapping[str, float], wants: str) -> None:
    """By meaning: one measure gives the size, two at different heights the taper."""
    assert rollers.missing(Row("rollers", 0, lengths), PART)[0] == wants


@given(st.floats(0.0, 5.0))
def test_an_error_of_place_is_worth_the_taper_over_it(along: float) -> None:
    assert two_diameters.place_on_diameter(PART, along) == pytest.approx(0.05 * along)


def test_blue_over_less_than_a_millimetre_is_none() -> None:
    with pytest.raises(Unreadable):
        read_share("0.9 mm")
    assert read_share("1.5 mm").exact == Fraction(3, 2)
