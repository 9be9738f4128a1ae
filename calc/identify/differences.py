"""By how much a standard taper misses what was measured, and two tapers miss each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc.identify.evidence import Evidence, Measured, StandOff, TwoDiameters
from calc.identify.hypotheses import Known
from calc.identify.stand_off import stand_off_reach
from calc.quantities import shown_length

Both = Mapping[str, str]
NOT_TOLD = 0.003
"""Cones nearer than this on diameter [mm] over what both cover: no measurement in a shop tells them apart."""
SAME_SIZE = 0.02
"""Gauge diameters nearer together than this [mm] count as one: a gauge plane is not found closer by hand."""
_FINEST = 0.002
"""No difference is said finer than with this ± [mm]."""
_SLIGHT = 0.1
"""A difference below this share of the ± is none worth a figure."""
_FOOT = 304.8
CUSTOMARY = 100.0
"""The length [mm] over which a difference of rates is said where no length is known."""


def at_large_end(each: Known, two: TwoDiameters) -> float:
    """How much larger the larger diameter would be for this taper, with the smaller one standing [mm]."""
    return two.small.value + each.rate * two.apart.value - two.large.value


def beyond(each: Known, two: TwoDiameters) -> tuple[float, float]:
    """How far the diameters lie outside those it has, above its large end and below its small end [mm]."""
    if each.reach is None:
        return 0.0, 0.0
    largest, smallest = each.reach
    return max(0.0, two.large.value - largest), max(0.0, smallest - two.small.value)


def misfit(each: Known, evidence: Evidence) -> float:
    """By how much it misses in all [mm on diameter], to find the nearest where none fits."""
    amount = 0.0
    two = evidence.diameters
    if two is not None:
        amount += abs(at_large_end(each, two)) + sum(beyond(each, two))
    if evidence.rate is not None:
        amount += CUSTOMARY * abs(each.rate - evidence.rate.value)
    if evidence.end_diameter is not None and each.large is not None:
        amount += _outside(evidence.end_diameter.value - each.large, each.rate * each.ends)
    if evidence.stand_off is not None:
        reach = stand_off_reach(each, evidence.stand_off)
        if reach is not None:
            amount += each.rate * _outside(evidence.stand_off.proud.value - reach[0], sum(reach[1]))
    if evidence.length is not None and each.length is not None:
        amount += each.rate * max(0.0, evidence.length.value - each.length - each.ends)
    return amount


def _outside(away: float, half: float) -> float:
    return max(0.0, abs(away) - half)


def needs(each: Known, evidence: Evidence) -> Both:
    """What this taper would need to fit, in words: "would need 0.04 mm more at the large end"."""
    parts: list[Both] = []
    two = evidence.diameters
    if two is not None:
        parts.append(_needs_diameter(at_large_end(each, two), two))
        above, below = beyond(each, two)
        if above > two.large.give:
            parts.append(_with("ends at its large end {} too small", above, two.large.give))
        if below > two.small.give:
            parts.append(_with("ends at its small end {} too large", below, two.small.give))
    if evidence.rate is not None:
        parts.append(_needs_rate(each, evidence.rate))
    if evidence.end_diameter is not None and each.large is not None:
        away = each.large - evidence.end_diameter.value
        if abs(away) > evidence.end_diameter.give:
            where = "larger" if away > 0 else "smaller"
            parts.append(
                _with("its gauge diameter is {} " + where + " than the end", away, evidence.end_diameter.give)
            )
    if evidence.stand_off is not None:
        parts.append(_needs_stand_off(each, evidence.stand_off))
    if evidence.length is not None and each.length is not None and each.printed_length:
        away = each.length - evidence.length.value
        if abs(away) > max(each.ends, evidence.length.give):
            parts.append(_with(f"is {{}} {'longer' if away > 0 else 'shorter'}", away, evidence.length.give))
    parts = [part for part in parts if part["mm"]]
    if not parts:
        return _alike("fits")
    return {system: "; ".join(part[system] for part in parts) for system in ("mm", "inch")}


def _needs_diameter(away: float, two: TwoDiameters) -> Both:
    """The difference at the large end, where it is more than the measuring leaves open."""
    rate = (two.large.value - two.small.value) / two.apart.value
    give = two.large.give + two.small.give + rate * two.apart.give
    if abs(away) > give:
        return _with(f"would need {{}} {'more' if away > 0 else 'less'} at the large end", away, give)
    if abs(away) > _SLIGHT * give:
        return _with("agrees at the large end to {}", away, give)
    return _alike("agrees at the large end")


def _needs_rate(each: Known, rate: Measured) -> Both:
    away = CUSTOMARY * (each.rate - rate.value)
    if abs(away) <= CUSTOMARY * rate.give:
        return _alike("agrees in taper")
    text = f"is {'steeper' if away > 0 else 'shallower'} by {{}} on diameter over "
    metric = _with(text, away, CUSTOMARY * rate.give)["mm"]
    inch = _with(text, away * _FOOT / CUSTOMARY, _FOOT * rate.give)["inch"]
    return {"mm": f"{metric}100 mm", "inch": f"{inch}a foot"}


def _needs_stand_off(each: Known, stand_off: StandOff) -> Both:
    reach = stand_off_reach(each, stand_off)
    if reach is None:
        return _alike("")
    away = reach[0] - stand_off.proud.value
    if abs(away) <= sum(reach[1]):
        return _alike("sits so in that socket")
    return _with(f"would stand {{}} further {'out' if away > 0 else 'in'}", away, stand_off.proud.give)


def _with(text: str, length: float, give: float) -> Both:
    """`text` with a length in both systems, as fine as the ± of the measures supports."""
    shown = shown_length(abs(length), max(give, _FINEST))
    return {system: text.format(shown[system]) for system in ("mm", "inch")}


def _alike(text: str) -> Both:
    return {"mm": text, "inch": text}


@dataclass(frozen=True, slots=True)
class Twins:
    """Two tapers side by side over the diameters that both have.

    over: the length of these [mm]. on_diameter: by how much their rates part them there [mm].
    at_large_end: by how much the second's gauge diameter is larger [mm].
    """

    over: float
    on_diameter: float
    at_large_end: float


def compare(one: Known, other: Known) -> Twins | None:
    """The difference of two tapers; None where they have no diameter in common, or no size."""
    if one.large is None or other.large is None or one.length is None or other.length is None:
        return None
    smallest = max(one.large - one.rate * one.length, other.large - other.rate * other.length)
    over = (min(one.large, other.large) - smallest) / max(one.rate, other.rate)
    if over <= 0.0:
        return None
    return Twins(over, abs(one.rate - other.rate) * over, other.large - one.large)


def same_cone(one: Known, other: Known) -> bool:
    """True where both describe one cone under two names: no measurement but of its ends tells them apart."""
    if one.taper is other.taper:
        return True
    twins = compare(one, other)
    return twins is not None and twins.on_diameter < NOT_TOLD and abs(twins.at_large_end) < SAME_SIZE
