"""How an unknown plug stands in a known socket: the geometry, and how probable a stand-off is.

The axis runs into the socket from its gauge plane, where it has its large diameter Ds. The plug's large end,
of diameter D, stands out by `proud`; at the depth z the plug has D - rate (z + proud), the socket
Ds - socket rate z. Straight flanks touch first at an end of what both cover:

- a plug as steep as the socket or steeper at the mouth, z = 0, or at its own large end where that sinks in;
- a flatter one at its small end, z = L - proud, or at the end of the socket, z = Ls, where that comes first.

By geometry; rigid parts.
"""

from __future__ import annotations

import math

from calc.doubt.densities import density_of_sum, log_uniform
from calc.identify.evidence import StandOff
from calc.identify.hypotheses import CARELESS_WIDTH, CUT_SHORT, SHORTEST, Known, known

_STEPS = 12
"""Lengths tried for a plug of which no length is known."""
_LEAST = 1e-12
"""Nothing that was truly seen is impossible for a plug of any size [1/mm]."""


def proud_of(each: Known, stand_off: StandOff) -> float | None:
    """How far this plug would stand out, as the standard has it [mm]; None where it has no size."""
    if each.large is None or each.length is None:
        return None
    socket, mouth = known(stand_off.socket), stand_off.socket.data["large_diameter"].value
    return _proud(each.rate, each.large, each.length, socket.rate, mouth, socket.length)


def _proud(
    rate: float, large: float, length: float, socket_rate: float, mouth: float, depth: float | None
) -> float:
    """Where a plug of these measures comes to rest [mm]."""
    if rate >= socket_rate:
        return (large - mouth) / (rate if large >= mouth else socket_rate)
    steeper = socket_rate - rate
    proud = (large - mouth + steeper * length) / socket_rate
    if depth is not None and length - proud > depth:
        return (large - mouth + steeper * depth) / rate
    return proud


def stand_off_reach(
    each: Known,
    stand_off: StandOff,
    at_large: float | None = None,
    at_small: tuple[float, float] | None = None,
) -> tuple[float, tuple[float, ...]] | None:
    """What this plug would stand out in the middle of all it may [mm], and what may move it either way [mm].

    These are where its large and its small end truly are, its rate as made, and the ± of the measure.
    at_large: how far the large end may lie from the standard's [mm]; at_small: where the small end lies
    beyond the standard's in the middle of all it may, and how far from there [mm]. None as they do as a rule.
    """
    large_ends = each.ends if at_large is None else at_large
    beyond, small_ends = (0.0, each.small_ends) if at_small is None else at_small
    if each.large is None or each.length is None:
        return None
    socket, mouth = known(stand_off.socket), stand_off.socket.data["large_diameter"].value
    large, length, rate = each.large, each.length + beyond, each.rate

    def rests(at_large: float, at_small: float, as_made: float) -> float:
        made = rate + as_made
        whole = length + at_large + at_small
        return _proud(made, large + made * at_large, whole, socket.rate, mouth, socket.length)

    proud = rests(0.0, 0.0, 0.0)
    middle, halves = proud, [stand_off.proud.give]
    for moved in ((large_ends, 0.0, 0.0), (0.0, small_ends, 0.0), (0.0, 0.0, each.spread)):
        highest, lowest = rests(*moved), rests(*(-each for each in moved))
        # Where the plug comes to bear elsewhere, the two moves are not alike and the middle moves too.
        middle += 0.5 * (highest + lowest) - proud
        halves.append(0.5 * abs(highest - lowest))
    return middle, tuple(halves)


def stand_off_density(
    each: Known, stand_off: StandOff, diameters: tuple[float, float], lengths: tuple[float, float]
) -> float:
    """The density of this stand-off for a standard taper [1/mm]; for one of any size see `of_any_size`."""
    if each.large is None or each.length is None:
        return of_any_size(stand_off, each.rate, diameters, lengths)
    return sum(
        share * part * density_of_sum(stand_off.proud.value - reach[0], reach[1])
        for half, share in each.at_large
        for small, part in _small_ends(each, known(stand_off.socket))
        if (reach := stand_off_reach(each, stand_off, half, small)) is not None
    )


def _small_ends(each: Known, socket: Known) -> list[tuple[tuple[float, float], float]]:
    """Where the small end may lie: ((middle beyond the standard's, half-width) [mm], share of all)."""
    if each.rate - CARELESS_WIDTH * each.spread >= socket.rate:
        return [((0.0, each.small_ends), 1.0)]  # as steep as the socket: its small end touches nothing
    cut = CUT_SHORT if each.printed_length else 0.0
    half = 0.5 * (1.0 - SHORTEST) * (each.length or 0.0)
    found = [((0.0, small), (1.0 - cut) * share) for small, share in each.at_small]
    return [*found, ((-half, half), cut)] if cut else found


def of_any_size(
    stand_off: StandOff, rate: float, diameters: tuple[float, float], lengths: tuple[float, float]
) -> float:
    """The density where the plug's diameter and length are log-uniform [1/mm]: a mean over lengths.

    density of proud = density of D x dD / d proud, with D the large diameter that would stand so.
    """
    socket = known(stand_off.socket)
    mouth, proud = stand_off.socket.data["large_diameter"].value, stand_off.proud.value
    spread = math.log(lengths[1] / lengths[0])
    whole = 0.0
    for step in range(_STEPS):
        length = lengths[0] * math.exp(spread * (step + 0.5) / _STEPS)
        if proud >= length:
            continue
        if rate >= socket.rate:
            slope = rate if proud >= 0.0 else socket.rate
            large = mouth + slope * proud
        elif socket.length is not None and length - proud > socket.length:
            slope, large = rate, mouth + rate * proud - (socket.rate - rate) * socket.length
        else:
            slope, large = socket.rate, mouth + socket.rate * proud - (socket.rate - rate) * length
        if large > rate * length:
            whole += slope * log_uniform(large, *diameters)
    return max(whole / _STEPS, _LEAST)
