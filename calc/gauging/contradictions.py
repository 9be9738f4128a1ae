"""Observations that cannot all be true, named before anything is computed from them.

Two observations contradict each other where no error of the half angle makes both of them likely: for two
bells, more than `APART` of their joint standard uncertainty (less what they share); for blue or feel and a
bell, a likelihood anywhere within the bell's reach that is next to nothing against the best it can be. What
was expected is no observation: a cut that is out by more than its budget allows is a surprise, which is said
and believed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.gauging.evidence import Believed, Expected
from calc.gauging.way import Bearing, Bell, Part, Seen

APART = 3.3
"""Standard uncertainties: by chance alone once in a thousand times."""
UNLIKELY = 0.02
"""Of the best likelihood: below this blue and a reading do not go together."""
SURPRISE = 4.0
"""Standard uncertainties from what was expected: by chance alone next to never."""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two observations, by their place in what was seen, and what each says [rad], 0 for no sign."""

    first: int
    second: int
    first_error: float
    second_error: float


def contradictions(seen: Sequence[Seen]) -> list[Contradiction]:
    """Every pair that cannot both be true."""
    found = []
    for place, one in enumerate(seen):
        for other in range(place + 1, len(seen)):
            if one.angle is not None and (two := seen[other].angle) is not None and _apart(one.angle, two):
                found.append(Contradiction(place, other, says(one.angle), says(two)))
    return found


def surprising(expected: Expected, believed: Believed) -> bool:
    """Whether the cut is out by more than what the setting allows for."""
    wide = math.hypot(expected.standard, believed.standard)
    return abs(believed.mean - expected.mean) > SURPRISE * wide if wide > 0.0 else False


def says(angle: Bell | Bearing) -> float:
    """The error that an observation by itself makes likeliest [rad]; 0 where it speaks of no sign."""
    if isinstance(angle, Bell):
        return angle.value
    points = _points(angle)
    best = max(points, key=angle.likelihood)
    low, high = angle.likelihood(-abs(best)), angle.likelihood(abs(best))
    return best if max(low, high) > 2.0 * min(low, high) else 0.0


def _points(angle: Bearing, low: float = 0.0, high: float = 0.0) -> list[float]:
    start, end = (low, high) if high > low else angle.reach
    return [start + (end - start) * k / 64.0 for k in range(65)]


def _apart(one: Bell | Bearing, two: Bell | Bearing) -> bool:
    if isinstance(one, Bell) and isinstance(two, Bell):
        keys = {*one.parts, *two.parts}
        wide = math.hypot(*(one.parts.get(key, 0.0) - two.parts.get(key, 0.0) for key in keys))
        return abs(one.value - two.value) > APART * max(wide, 1e-9)
    if isinstance(one, Bell):
        return _outside(one, two)
    if isinstance(two, Bell):
        return _outside(two, one)
    # Two that are no bells: is there any error that both leave standing?
    points = [*_points(one), *_points(two)]
    best = [max(each.likelihood(at) for at in points) for each in (one, two)]
    together = max(one.likelihood(at) * two.likelihood(at) for at in points)
    return together < UNLIKELY * best[0] * best[1]


def _outside(bell: Bell, bearing: Bell | Bearing) -> bool:
    """Whether blue or feel rules out all that a bell leaves standing."""
    assert not isinstance(bearing, Bell)
    wide = max(math.hypot(bell.standard, bearing.gauge), 1e-9)
    best = max(bearing.likelihood(at) for at in _points(bearing))
    # At each error: how likely the bearing, and how far the bell still reaches.
    for at in [*_points(bearing, bell.value - 4.0 * wide, bell.value + 4.0 * wide), bell.value]:
        away = (at - bell.value) / wide
        if bearing.likelihood(at) * math.exp(-0.5 * away * away) >= UNLIKELY * best:
            return False
    return True


def on_diameter(error: float, part: Part) -> float:
    """An error of the half angle [rad] as an error of the taper on diameter over its length [mm]."""
    return error * part.on_diameter
