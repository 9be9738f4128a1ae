"""How probable the evidence is on each hypothesis.

Two diameters D1 > D2 at a distance A: with the taper's ends where they are, the distance is some part u of
its whole extent E, with density 6 u (1 - u): nobody measures over a short piece without need, nor from edge
to edge, where the measure slips off (our assumption, no source). The position is anywhere alike where both
planes lie on it, so D1 is anywhere alike over rate x (E - A). The measured rate lies about the printed one by
what the making and the measuring allow. The length from end to end is the extent itself, and the diameter at
the large end tells where that end lies:

    p(D1, rate, A, end, length) = p(rate) x mean over where the large end lies of
        { p(end | large end) x mean over extents { [D1 in its window] / (rate (E - A)) x 6 A (E - A) / E^3 } }

with the extent as measured, and its density, where the length was measured.

Where a hypothesis has no size (a general cone) and for "none of these", diameters are log-uniform over
`DIAMETERS`, lengths over `LENGTHS`, and with "none of these" rates over `RATES`: from a hundredfold flatter
than a Morse taper's to 120 degrees, the range a shop meets. Our assumptions, no source.

A stand-off is a diameter at the large end by way of the socket: see `stand_off.py`.
"""

from __future__ import annotations

import math

from calc.doubt.densities import density_of_sum, log_uniform
from calc.estimate import Estimate
from calc.identify.evidence import Evidence, TwoDiameters
from calc.identify.hypotheses import CARELESS, CARELESS_WIDTH, CUT_SHORT, SHORTEST, Known
from calc.identify.stand_off import of_any_size, stand_off_density

RATES = (0.002, 3.47)
DIAMETERS = (0.5, 600.0)
LENGTHS = (2.0, 300.0)
_NEVER = 0.0
_CELLS = 4
_MIDPOINTS = tuple((2 * cell + 1 - _CELLS) / _CELLS for cell in range(_CELLS))
"""Where the large end is tried, as shares of how far it may lie from the standard: the midpoint rule."""
_CUTS = 6
_CUT_PLACES = tuple((2 * cell + 1 - _CUTS) / _CUTS for cell in range(_CUTS))
"""Where the end of one cut short is tried, likewise."""
_LOBATTO = (
    (-1.0, 0.05),
    (-math.sqrt(3.0 / 7.0), 49.0 / 180.0),
    (0.0, 16.0 / 45.0),
    (math.sqrt(3.0 / 7.0), 49.0 / 180.0),
    (1.0, 0.05),
)
"""Where the small end is tried, with weights: Lobatto's rule of five points, which reaches to both limits."""


def likelihood(each: Known, evidence: Evidence, seen: Estimate | None) -> float:
    """The density of the evidence where the part is this standard taper (in mm and plain)."""
    if each.size_missing and (evidence.diameters or evidence.end_diameter or evidence.stand_off):
        return _NEVER
    density = 1.0
    if seen is not None:
        density *= rate_density(each, seen)
        if density == _NEVER:
            return _NEVER
    if evidence.stand_off is not None:
        density *= stand_off_density(each, evidence.stand_off, DIAMETERS, LENGTHS)
    return density * _shape(each, evidence)


def likelihood_of_none(evidence: Evidence, seen: Estimate | None) -> float:
    """The density of the evidence where the part is no standard taper at all."""
    density = 1.0
    rate = 0.05
    if seen is not None:
        # Near a parallel part the ± smears the density out over its own width.
        rate = max(seen.value, seen.reach)
        density *= log_uniform(rate, *RATES)
    if evidence.diameters is not None:
        density *= log_uniform(evidence.diameters.large.value, *DIAMETERS)
        if evidence.length is None:
            density *= log_uniform(evidence.diameters.apart.value, *LENGTHS)
    if evidence.end_diameter is not None:
        density *= log_uniform(evidence.end_diameter.value, *DIAMETERS)
    if evidence.stand_off is not None:
        density *= of_any_size(evidence.stand_off, rate, DIAMETERS, LENGTHS)
    if evidence.length is not None:
        density *= log_uniform(evidence.length.value, *LENGTHS)
    return density


def rate_density(each: Known, seen: Estimate) -> float:
    """The density of the measured rate: as made, few of them carelessly, and measured with its ±."""
    away = seen.value - each.rate
    if abs(away) > CARELESS_WIDTH * each.spread + 3.0 * seen.reach:
        return _NEVER
    ordinary = density_of_sum(away, (each.spread, *seen.halves))
    careless = density_of_sum(away, (CARELESS_WIDTH * each.spread, *seen.halves))
    return (1.0 - CARELESS) * ordinary + CARELESS * careless


def _shape(each: Known, evidence: Evidence) -> float:
    """The density of what was seen of its diameters, its large end and its length."""
    two, end, length = evidence.diameters, evidence.end_diameter, evidence.length
    density = 1.0
    if length is not None and (each.length is None or not each.printed_length):
        density *= log_uniform(length.value, *LENGTHS)
    if each.large is None or each.length is None:
        if two is not None:
            density *= log_uniform(two.large.value, *DIAMETERS)
            density *= log_uniform(two.apart.value, *LENGTHS) if length is None else 1.0
        if end is not None:
            density *= log_uniform(end.value, *DIAMETERS)
        return density
    if not each.printed_length:
        length = None
    if two is None and end is None and length is None:
        return density
    total = 0.0
    for half, share in each.at_large:
        cell = half / _CELLS
        for place in _MIDPOINTS:
            above = half * place
            found = share / _CELLS
            if end is not None:
                at_end = each.large + each.rate * above
                found *= density_of_sum(end.value - at_end, (each.rate * cell, end.give))
            if length is not None:
                found *= _length(each, length.value - each.length - above, (cell, length.give))
            if two is not None and found > 0.0:
                wide = 0.0 if evidence.length is None else evidence.length.give
                if length is not None:
                    found *= _window(each, two, above, cell, length.value, wide)
                else:
                    found *= _over_extents(each, two, above, cell, evidence.length is None)
            total += found
    return density * total


def _extents(each: Known) -> list[tuple[float, float]]:
    """Where the small end is tried: how far beyond where the standard has it [mm], with weights."""
    whole, length = 1.0 - CUT_SHORT if each.printed_length else 1.0, each.length or 0.0
    tried = [
        (half * place, whole * share * weight) for half, share in each.at_small for place, weight in _LOBATTO
    ]
    if each.printed_length:
        half = 0.5 * (1.0 - SHORTEST) * length
        tried += [(half * (place - 1.0), CUT_SHORT / _CUTS) for place in _CUT_PLACES]
    return tried


def _over_extents(each: Known, two: TwoDiameters, above: float, cell: float, distance_tells: bool) -> float:
    """The density of the larger diameter, and of the distance where that tells, over all extents."""
    total = 0.0
    length = (each.length or 0.0) + above
    for beyond, weight in _extents(each):
        extent = length + beyond
        density = _window(each, two, above, cell, extent, 0.0)
        if density and distance_tells:
            apart = two.apart.value
            room = max(extent - apart, 0.5 * (extent - apart + cell + two.apart.give))
            density *= 6.0 * apart * room / (apart + room) ** 3
        total += weight * density
    return total


def _window(
    each: Known, two: TwoDiameters, above: float, cell: float, extent: float, extent_give: float
) -> float:
    """The density of the larger diameter on a taper of this extent [1/mm]; 0 where it has no room.

    above: of its large end beyond the standard's, known to ± cell [mm].
    """
    room = extent - two.apart.value
    # Within its cell the large end may leave a little room where its middle leaves none.
    at_most = room + cell + two.apart.give + extent_give
    if at_most <= 0.0 or each.large is None:
        return _NEVER
    # Half the room for the upper plane, on diameter.
    half = 0.5 * each.rate * max(room, 0.5 * at_most)
    away = two.large.value - (each.large + each.rate * above - half)
    smear = each.rate * cell
    if abs(away) > half + smear + two.large.give:
        return _NEVER
    return density_of_sum(away, (half, smear, two.large.give))


def _length(each: Known, away: float, gives: tuple[float, float]) -> float:
    """The density of a length so far [mm] from the standard's, by where the small end lies, cut or not."""
    whole = sum(share * density_of_sum(away, (half, *gives)) for half, share in each.at_small)
    half = 0.5 * (1.0 - SHORTEST) * (each.length or 0.0)
    return (1.0 - CUT_SHORT) * whole + CUT_SHORT * density_of_sum(away + half, (half, *gives))
