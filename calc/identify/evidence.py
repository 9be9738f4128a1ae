"""What was found out about an unknown taper: each measure with its ±, and the rates it tells."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.tables import Taper


@dataclass(frozen=True, slots=True)
class Measured:
    """A measure with the half-width of its limits, in one unit [mm, or plain for a rate].

    The true value lies within `value` ± `give`, anywhere alike (rectangular, GUM 4.3.7).
    """

    value: float
    give: float


@dataclass(frozen=True, slots=True)
class TwoDiameters:
    """Two diameters [mm] anywhere on the taper, and how far apart they lie along the axis [mm]."""

    large: Measured
    small: Measured
    apart: Measured


@dataclass(frozen=True, slots=True)
class StandOff:
    """The unknown plug tried in a known socket.

    proud: how far the large end of the plug's taper stands out of the socket's gauge plane [mm]; below zero
    where it sinks in. The gauge plane of a socket is where it has its large diameter, as a rule its face.
    """

    socket: Taper
    proud: Measured


@dataclass(frozen=True, slots=True)
class Evidence:
    """Everything found out about one taper; what was not measured is None.

    rate: on diameter, plain. end_diameter: where the taper ends at its large end, at the shoulder [mm].
    length: of the whole taper, from end to end [mm].

    Raises ValueError, in words, for what cannot be a measurement, and where nothing but a length is told.
    """

    diameters: TwoDiameters | None = None
    rate: Measured | None = None
    stand_off: StandOff | None = None
    end_diameter: Measured | None = None
    length: Measured | None = None

    def __post_init__(self) -> None:
        if not (self.diameters or self.rate or self.stand_off or self.end_diameter):
            raise ValueError("measure two diameters and their distance, or a rate, or a stand-off")
        if self.diameters is not None:
            _positive(self.diameters.large, "the large diameter")
            _positive(self.diameters.small, "the small diameter")
            _positive(self.diameters.apart, "the distance between the diameters")
            if self.diameters.small.value > self.diameters.large.value:
                raise ValueError("the small diameter is larger than the large one")
            if self.diameters.apart.give >= self.diameters.apart.value:
                raise ValueError("the ± of the distance is as large as the distance")
        if self.rate is not None:
            _positive(self.rate, "the rate")
        if self.stand_off is not None:
            _finite(self.stand_off.proud, "the stand-off")
            if "large_diameter" not in self.stand_off.socket.data:
                raise ValueError("this socket has no diameter in the tables, so a stand-off tells nothing")
        if self.end_diameter is not None:
            _positive(self.end_diameter, "the diameter at the large end")
        if self.length is not None:
            _positive(self.length, "the length of the taper")


def _finite(measured: Measured, name: str) -> None:
    if not math.isfinite(measured.value):
        raise ValueError(f"{name} is not a finite number")
    if not 0 <= measured.give < math.inf:
        raise ValueError(f"the ± of {name} must be 0 or more, and finite")


def _positive(measured: Measured, name: str) -> None:
    _finite(measured, name)
    if measured.value <= 0:
        raise ValueError(f"{name} must be more than 0")


@dataclass(frozen=True, slots=True)
class RateSeen:
    """The rate that the evidence tells [plain]: the best value, and its independent half-widths."""

    value: float
    parts: tuple[float, ...]

    @property
    def give(self) -> float:
        """The furthest it can be out."""
        return sum(self.parts)


def rate_seen(evidence: Evidence) -> RateSeen | None:
    """The rate told by two diameters, by a rate, or by both weighted by the inverse of their variance.

    rate = (large - small) / apart; to first order its ± are give / apart for each diameter and
    rate x give / apart for the distance.
    """
    found: list[RateSeen] = []
    two = evidence.diameters
    if two is not None:
        over = two.apart.value
        value = (two.large.value - two.small.value) / over
        parts = (two.large.give / over, two.small.give / over, value * two.apart.give / over)
        found.append(RateSeen(value, parts))
    if evidence.rate is not None:
        found.append(RateSeen(evidence.rate.value, (evidence.rate.give,)))
    if len(found) < 2:
        return found[0] if found else None
    one, other = found
    spreads = [sum(part * part for part in each.parts) for each in found]
    whole = sum(spreads)
    share = spreads[1] / whole if whole else 0.5
    return RateSeen(
        share * one.value + (1.0 - share) * other.value,
        (*(share * part for part in one.parts), *((1.0 - share) * part for part in other.parts)),
    )
