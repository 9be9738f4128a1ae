"""What was found out about an unknown taper: each measure with its ±, and the rates it tells."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.estimate import Estimate, limits
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


def rate_seen(evidence: Evidence) -> Estimate | None:
    """The rate [plain] told by two diameters, by a rate, or by both weighted by their inverse variance.

    rate = (large - small) / apart, to first order in the ± of each.
    """
    two, told = evidence.diameters, evidence.rate
    by_rate = limits(told.value, told.give, "rate") if told is not None else None
    if two is None:
        return by_rate
    larger = limits(two.large.value, two.large.give, "large")
    difference = larger - limits(two.small.value, two.small.give, "small")
    by_diameters = difference / limits(two.apart.value, two.apart.give, "apart")
    if by_rate is None:
        return by_diameters
    whole = by_diameters.standard**2 + by_rate.standard**2
    share = by_rate.standard**2 / whole if whole else 0.5
    return by_diameters * share + by_rate * (1.0 - share)
