"""The one further measurement that would best tell the leaders apart: by expected information.

For each practicable measurement every leader says where the result would lie. The information expected is

    I = sum over h of p(h) x mean over h's own results y of log2( p(y | h) / p(y) )   [bits]

(Shannon's mutual information), by the midpoint rule over each leader's own spread. At most log2 of the number
of leaders; the best is the measurement with most.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.doubt.densities import density_of_sum
from calc.estimate import Estimate
from calc.identify.evidence import Evidence
from calc.identify.hypotheses import Known
from calc.quantities import shown_length

WORTH_DOING = 0.1
"""Below so many bits a measurement is not worth the walk."""
LONGER = 1.25
_LEADERS = 6
_POINTS = 9
_SURE = 0.99
MICROMETER = 0.005
"""± of a diameter by micrometer over parallels [mm]: common practice, no source."""
AT_THE_END = 0.1
"""± of a diameter found at an edge [mm]: common practice, no source."""
BY_RULE = 0.5
"""± of a length by rule or caliper [mm]: common practice, no source."""
SINE_BAR = 0.00005
"""± of a rate proved on a sine bar [plain]: 0.005 mm over 100 mm, common practice, no source."""


@dataclass(frozen=True, slots=True)
class Next:
    """What to measure next: its kind, what to do in words, and how many bits it is expected to tell."""

    kind: str
    words: Mapping[str, str]
    bits: float


@dataclass(frozen=True, slots=True)
class _Spread:
    """Where a result would lie: its middle and its half-widths."""

    middle: float
    parts: tuple[float, ...]

    def density(self, at: float) -> float:
        return density_of_sum(at - self.middle, self.parts)


def best_next(
    evidence: Evidence, seen: Estimate | None, leaders: Sequence[tuple[Known, float]], none: float
) -> Next | None:
    """The most telling of the practicable measurements; None where none would tell anything."""
    named = list(leaders[:_LEADERS])
    if not named or none > _SURE or named[0][1] > _SURE:
        return None
    found: list[Next] = []
    for kind, spreads, words in _practicable(evidence, seen, named):
        bits = _information([share for _, share in named], spreads, none)
        found.append(Next(kind, words, bits))
    best = max(found, key=lambda each: each.bits, default=None)
    return best if best is not None and best.bits >= WORTH_DOING else None


def _practicable(
    evidence: Evidence, seen: Estimate | None, named: Sequence[tuple[Known, float]]
) -> list[tuple[str, list[_Spread | None], Mapping[str, str]]]:
    """Each measurement with what every leader expects of it; None where a leader expects nothing of it."""
    known = [each for each, _ in named]
    found: list[tuple[str, list[_Spread | None], Mapping[str, str]]] = []
    two = evidence.diameters
    if two is not None:
        lengths = [each.length for each in known if each.length is not None]
        over = min(lengths, default=3.0 * two.apart.value)
        if over >= LONGER * two.apart.value:
            parts = (MICROMETER / over, MICROMETER / over)
            words = shown_length(float(round(over)))
            found.append(
                (
                    "longer",
                    [_rate(each, seen, parts) for each in known],
                    _both("two diameters again, further apart: about {} if the taper is so long", words),
                )
            )
    if evidence.end_diameter is None and evidence.stand_off is None:
        found.append(
            (
                "large_end",
                [_large_end(each, evidence) for each in known],
                _both("the diameter at the very large end, where the taper stops", None),
            )
        )
    if evidence.length is None:
        found.append(
            (
                "length",
                [
                    _Spread(each.length, (each.ends, BY_RULE))
                    if each.length is not None and each.printed_length
                    else None
                    for each in known
                ],
                _both("the length of the whole taper, from end to end", None),
            )
        )
    found.append(
        (
            "sine_bar",
            [_rate(each, seen, (SINE_BAR,)) for each in known],
            _both("the taper itself, on a sine bar under a dial indicator", None),
        )
    )
    return found


def _large_end(each: Known, evidence: Evidence) -> _Spread | None:
    """The diameter at the large end; not below what was measured already."""
    if each.large is None:
        return None
    half = each.rate * each.ends
    lowest, highest = each.large - half, each.large + half
    if evidence.diameters is not None:
        lowest = min(max(lowest, evidence.diameters.large.value), highest - 1e-6)
    return _Spread(0.5 * (lowest + highest), (0.5 * (highest - lowest), AT_THE_END * each.rate))


def _rate(each: Known, seen: Estimate | None, parts: tuple[float, ...]) -> _Spread:
    """The rate as made and as far as what was measured already leaves it open, measured again."""
    lowest, highest = each.rate - each.spread, each.rate + each.spread
    if seen is not None:
        lowest, highest = (
            max(lowest, seen.value - seen.reach),
            min(highest, seen.value + seen.reach),
        )
    if lowest >= highest:
        middle = each.rate if seen is None else 0.5 * (each.rate + seen.value)
        return _Spread(middle, parts)
    return _Spread(0.5 * (lowest + highest), (0.5 * (highest - lowest), *parts))


def _information(shares: Sequence[float], spreads: Sequence[_Spread | None], none: float) -> float:
    """Mutual information [bits] of the hypotheses and the result.

    Leaders that expect nothing, and "none of these", share one broad spread over all results and half as far
    again to either side.
    """
    sized = [each for each in spreads if each is not None]
    if not sized:
        return 0.0
    lowest = min(each.middle - sum(each.parts) for each in sized)
    highest = max(each.middle + sum(each.parts) for each in sized)
    broad = _Spread(0.5 * (lowest + highest), (max(highest - lowest, 1e-9),))
    groups = [(share, each or broad) for share, each in zip(shares, spreads, strict=True)]
    if none > 0.0:
        groups.append((none, broad))
    whole = sum(share for share, _ in groups)
    bits = 0.0
    for share, spread in groups:
        width = sum(spread.parts)
        points = [spread.middle + width * (2 * step + 1 - _POINTS) / _POINTS for step in range(_POINTS)]
        own = [spread.density(at) for at in points]
        total = sum(own)
        for at, density in zip(points, own, strict=True):
            if density > 0.0:
                mixed = sum(part * each.density(at) for part, each in groups) / whole
                bits += share / whole * density / total * math.log2(density / mixed)
    return bits


def _both(text: str, length: Mapping[str, str] | None) -> Mapping[str, str]:
    return {system: text.format(length[system] if length else "") for system in ("mm", "inch")}
