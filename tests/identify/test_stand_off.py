"""A plug in a socket by the flanks themselves, and what is likely by drawing plugs by lot."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.identify.evidence import Measured, StandOff
from calc.identify.hypotheses import CUT_SHORT, SHORTEST, Known, known
from calc.identify.likelihood import _extents
from calc.identify.stand_off import of_any_size, proud_of, stand_off_density, stand_off_reach
from calc.tables import find_taper

MORSE_2 = find_taper("Morse", "2")
assert MORSE_2 is not None
SOCKET = known(MORSE_2)
MOUTH = MORSE_2.data["large_diameter"].value
assert SOCKET.length is not None
DEPTH = SOCKET.length


def rests(rate: float, large: float, length: float) -> float:
    """Pushed in until the flanks touch: halving between out and in, by the room left where both are."""
    out, inside = 900.0, -900.0
    for _ in range(60):
        proud = 0.5 * (out + inside)
        room = min(
            MOUTH - SOCKET.rate * z - (large - rate * (z + proud))
            for z in (max(0.0, -proud), min(DEPTH, length - proud))
        )
        out, inside = (proud, inside) if room >= 0.0 else (out, proud)
    return out


def plug(rate: float, large: float, length: float) -> Known:
    return replace(SOCKET, rate=rate, large=large, length=length)


@given(st.floats(0.02, 0.12), st.floats(16.5, 19.5), st.floats(30.0, 110.0))
def test_it_rests_where_the_flanks_touch(rate: float, large: float, length: float) -> None:
    there = rests(rate, large, length)
    if not -0.9 * DEPTH < there < 0.9 * length:
        return  # hardly in, or out of sight
    stand_off = StandOff(SOCKET.taper, Measured(0.0, 0.5))
    assert proud_of(plug(rate, large, length), stand_off) == pytest.approx(there, abs=1e-6)


def test_in_the_middle_of_all_it_may_it_stands_as_the_standard_has_it() -> None:
    flat = plug(0.04, 17.78, 50.0)
    stand_off = StandOff(SOCKET.taper, Measured(0.0, 0.5))
    found = stand_off_reach(flat, stand_off)
    assert found is not None
    assert found[0] == pytest.approx(rests(0.04, 17.78, 50.0), abs=0.05)


def drawn(
    rate: float, dice: random.Random, sizes: tuple[float, float], lengths: tuple[float, float]
) -> float:
    while True:
        large, length = (
            math.exp(dice.uniform(math.log(low), math.log(high))) for low, high in (sizes, lengths)
        )
        if large > rate * length and (there := rests(rate, large, length)) < length:
            return there


@pytest.mark.parametrize("rate", [0.030, 0.045, 0.070])
def test_plugs_of_any_size_stand_as_often_as_is_said(rate: float) -> None:
    """Flatter than the socket, some of them longer than it is, and steeper: drawn by lot and counted."""
    sizes, lengths = (15.5, 20.0), (40.0, 110.0)
    dice = random.Random(11)
    stands = [drawn(rate, dice, sizes, lengths) for _ in range(1500)]

    def density(at: float) -> float:
        return of_any_size(StandOff(SOCKET.taper, Measured(at, 0.1)), rate, sizes, lengths)

    for low, high in ((-15.0, 0.0), (0.0, 12.0), (12.0, 30.0)):
        step = (high - low) / 60
        said = math.fsum(density(low + (k + 0.5) * step) for k in range(60)) * step
        counted = sum(low <= each < high for each in stands) / len(stands)
        assert said == pytest.approx(counted, abs=0.04), (low, high)


def test_a_flat_plug_cut_short_stands_further_out_as_often_as_is_said() -> None:
    """Its small end bears: what is cut off it lets it in. All its places together make one."""
    flat = replace(plug(0.03, 17.78, 50.0), printed_length=True, spread=0.0)
    flat = replace(flat, at_large=[(0.05, 1.0)], at_small=[(1.0, 0.5), (2.0, 0.5)])
    step = 0.1
    places = [-40.0 + (k + 0.5) * step for k in range(800)]
    said = [
        stand_off_density(flat, StandOff(SOCKET.taper, Measured(at, 0.1)), (0.5, 600.0), (2.0, 300.0))
        for at in places
    ]
    assert math.fsum(said) * step == pytest.approx(1.0, abs=0.01)
    dice = random.Random(3)
    stands = []
    for _ in range(4000):
        length = 50.0 + dice.uniform(-1, 1) * dice.choice([1.0, 2.0])
        if dice.random() < CUT_SHORT:
            length = 50.0 * dice.uniform(SHORTEST, 1.0)
        stands.append(rests(0.03, 17.78, length))
    for below in (5.0, 12.0, 18.0):
        counted = sum(each < below for each in stands) / len(stands)
        summed = math.fsum(part for at, part in zip(places, said, strict=True) if at < below) * step
        assert summed == pytest.approx(counted, abs=0.03), below


def test_a_plug_longer_than_the_socket_by_hand() -> None:
    """It bears at the socket's end: 17.78 less (1/20.020 - 0.03) of the socket's length at the mouth."""
    found = of_any_size(StandOff(SOCKET.taper, Measured(0.0, 0.1)), 0.03, (10.0, 30.0), (100.0, 110.0))
    large = MOUTH - (SOCKET.rate - 0.03) * DEPTH
    # The density of a log-uniform diameter, and how far out it stands a millimetre of it.
    assert found == pytest.approx(0.03 / large / math.log(3.0), rel=1e-9)


def test_lengths_not_known_are_log_uniform() -> None:
    """Standing out by 70 mm, no plug is shorter: of 40 to 110 mm, log-uniform, ln(110/70) / ln(110/40)."""
    stand_off = StandOff(SOCKET.taper, Measured(70.0, 0.1))
    some, all_of_them = (
        of_any_size(stand_off, 0.07, (10.0, 30.0), lengths) for lengths in ((40.0, 110.0), (80.0, 110.0))
    )
    assert some / all_of_them == pytest.approx(math.log(110 / 70) / math.log(110 / 40), abs=0.06)


def test_all_places_of_a_small_end_together_are_one() -> None:
    for each in (SOCKET, replace(SOCKET, printed_length=False)):
        assert math.fsum(weight for _, weight in _extents(each)) == pytest.approx(1.0)
