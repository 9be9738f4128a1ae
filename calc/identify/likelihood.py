"""How probable the evidence is on each hypothesis.

Two diameters D1 > D2 at a distance A: with the taper's ends where they are, the distance is anywhere alike
up to its whole extent (nobody measures a long taper over a short piece of it without need), and the position
anywhere alike where both planes lie on it, so D1 is anywhere alike over rate x (extent - A). The measured
rate lies about the printed one by what the making and the measuring allow.

    p(D1, rate, A) = mean over the ends of { [D1 in its window] / (rate (extent - A)) / extent }  x  p(rate)

Where a hypothesis has no size (a general cone) and for "none of these", diameters are log-uniform over
`DIAMETERS`, lengths over `LENGTHS`, and with "none of these" rates over `RATES`: from a hundredfold flatter
than a Morse taper's to 120 degrees, the range a shop meets. Our assumptions, no source.

A stand-off is a diameter at the large end by way of the socket: see `stand_off.py`.
"""

from __future__ import annotations

import math

from calc.doubt.densities import density_of_sum, log_uniform
from calc.identify.evidence import Evidence, Measured, RateSeen, TwoDiameters
from calc.identify.hypotheses import CARELESS, CARELESS_WIDTH, Known
from calc.identify.stand_off import of_any_size, stand_off_density

RATES = (0.002, 3.47)
DIAMETERS = (0.5, 600.0)
LENGTHS = (2.0, 300.0)
CUT_SHORT = 0.2
"""How many of all tapers are cut short or stubbed at the small end. Our assumption, no source."""
SHORTEST = 0.3
"""What is left of the shortest of these, as a share of the standard length."""
_NEVER = 0.0
_CELLS = 4
_MIDPOINTS = tuple((2 * cell + 1 - _CELLS) / _CELLS for cell in range(_CELLS))
"""Where the large end is tried, as shares of how far it may lie from the standard: the midpoint rule."""
_LOBATTO = (
    (-1.0, 0.05),
    (-math.sqrt(3.0 / 7.0), 49.0 / 180.0),
    (0.0, 16.0 / 45.0),
    (math.sqrt(3.0 / 7.0), 49.0 / 180.0),
    (1.0, 0.05),
)
"""Where the small end is tried, with weights: Lobatto's rule of five points, which reaches to both limits."""


def likelihood(each: Known, evidence: Evidence, seen: RateSeen | None) -> float:
    """The density of the evidence where the part is this standard taper (in mm and plain)."""
    if each.size_missing and (evidence.diameters or evidence.end_diameter or evidence.stand_off):
        return _NEVER
    density = 1.0
    if seen is not None:
        density *= rate_density(each, seen)
        if density == _NEVER:
            return _NEVER
    if evidence.diameters is not None:
        density *= _place(each, evidence.diameters, evidence.length is None)
    if evidence.end_diameter is not None:
        density *= _end(each, evidence.end_diameter)
    if evidence.stand_off is not None:
        density *= stand_off_density(each, evidence.stand_off, DIAMETERS, LENGTHS)
    if evidence.length is not None:
        density *= _length(each, evidence.length)
    return density


def likelihood_of_none(evidence: Evidence, seen: RateSeen | None) -> float:
    """The density of the evidence where the part is no standard taper at all."""
    density = 1.0
    rate = 0.05
    if seen is not None:
        # Near a parallel part the ± smears the density out over its own width.
        rate = max(seen.value, seen.give)
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


def rate_density(each: Known, seen: RateSeen) -> float:
    """The density of the measured rate: as made, few of them carelessly, and measured with its ±."""
    away = seen.value - each.rate
    if abs(away) > CARELESS_WIDTH * each.spread + 3.0 * seen.give:
        return _NEVER
    ordinary = density_of_sum(away, (each.spread, *seen.parts))
    careless = density_of_sum(away, (CARELESS_WIDTH * each.spread, *seen.parts))
    return (1.0 - CARELESS) * ordinary + CARELESS * careless


def _place(each: Known, two: TwoDiameters, distance_tells: bool) -> float:
    """The density of the larger diameter and of the distance."""
    apart = two.apart.value
    if each.large is None or each.length is None:
        density = log_uniform(two.large.value, *DIAMETERS)
        return density * log_uniform(apart, *LENGTHS) if distance_tells else density
    total = 0.0
    smear = each.rate * each.ends / _CELLS
    for large_end in _MIDPOINTS:
        above = each.ends * large_end
        for small_end, weight in _LOBATTO:
            extent = each.length + above + each.small_ends * small_end
            room = extent - apart
            # Within its cell the large end may leave a little room where its middle leaves none.
            at_most = room + each.ends / _CELLS + two.apart.give
            if at_most <= 0.0:
                continue
            # Half the room for the upper plane, on diameter.
            half = 0.5 * each.rate * max(room, 0.5 * at_most)
            middle = each.large + each.rate * above - half
            density = density_of_sum(two.large.value - middle, (half, smear, two.large.give))
            total += weight * (density / extent if distance_tells else density)
    return total / _CELLS


def _end(each: Known, end: Measured) -> float:
    """The density of the diameter at the large end."""
    if each.large is None:
        return log_uniform(end.value, *DIAMETERS)
    return density_of_sum(end.value - each.large, (each.rate * each.ends, end.give))


def _length(each: Known, length: Measured) -> float:
    """The density of the length from end to end: as printed, or some of them cut short."""
    if each.length is None or not each.printed_length:
        return log_uniform(length.value, *LENGTHS)
    whole = density_of_sum(length.value - each.length, (each.ends, length.give))
    half = 0.5 * (1.0 - SHORTEST) * each.length
    cut = density_of_sum(length.value - (each.length - half), (half, length.give))
    return (1.0 - CUT_SHORT) * whole + CUT_SHORT * cut
