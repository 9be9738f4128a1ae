"""Evidence adds up: what was expected of the half angle, times what each observation says.

Everything speaks of one number, the error e of the half angle [rad], above 0 too steep. Its density before
looking is that of the budget's doubts (`density`). A bell says reading = e + its own doubts; where such a
doubt is in the budget too (the same bar, the lathe's axis), it says more or less than it seems, by how far
that doubt goes along with e: the regression of the doubt on e. Bells that share a doubt are weighed together
by their covariances (GLS). A bearing (blue, feel) is multiplied in as it is; the gauge's own error and the
film that readings share are averaged over a few places.

The doubts themselves follow by regression on e.

Source: Bayes' rule; least squares with covariances, JCGM 100:2008 (GUM), H.3; Gauss-Hermite quadrature.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from calc.estimate import Shape
from calc.gauging.contact import Blue
from calc.gauging.density import Density, density
from calc.gauging.equations import solved
from calc.gauging.way import GAUGE, Bearing, Bell, Seen

_ROOT3 = math.sqrt(3.0)
_SMALLEST = 1e-9
COARSE, FINE = 33, 97
GAUGE_COUNTS = 0.15
DEEP = 24.0
"""How far below its peak [in logarithms] a density is looked at."""
THREE = ((0.0, 2.0 / 3.0), (_ROOT3, 1.0 / 6.0), (-_ROOT3, 1.0 / 6.0))
FIVE = (
    (0.0, 0.5333333333333333),
    (1.3556261799742657, 0.22207592200561265),
    (-1.3556261799742657, 0.22207592200561265),
    (2.8569700138728056, 0.011257411327720693),
    (-2.8569700138728056, 0.011257411327720693),
)
"""Places and weights for a mean over a standard normal (Gauss-Hermite): exact to the fifth and ninth power.
"""


@dataclass(frozen=True, slots=True)
class Expected:
    """What the setting leads one to expect of e [rad]: its mean, and by doubt the signed standard
    contribution.

    shapes: of the doubts that act crookedly, in units of their contribution. bells: the doubts whose spread
    is a bell, such as those that were learned. The others are rectangles."""

    mean: float
    parts: Mapping[str, float]
    shapes: Mapping[str, Shape] = field(default_factory=dict)
    bells: frozenset[str] = frozenset()

    @property
    def variance(self) -> float:
        """[rad²]."""
        return math.fsum(part * part for part in self.parts.values())

    @property
    def standard(self) -> float:
        """Standard uncertainty [rad]."""
        return math.sqrt(self.variance)

    def density(self) -> Density:
        """The density of e before anything was seen."""
        boxes, bells, shaped = [], [], []
        for key, part in self.parts.items():
            shape = self.shapes.get(key)
            if key in self.bells:
                bells.append(abs(part))
            elif shape:
                shaped.append([(part * middle, abs(part) * half) for middle, half in shape])
            else:
                boxes.append(_ROOT3 * abs(part))
        return density(self.mean, boxes, bells, shaped)


@dataclass(frozen=True, slots=True)
class Believed:
    """What is believed of e [rad] after looking: a density on a grid, and what came of it.

    weights: by the observation's number, its share in what is known; -1 is what was expected. bell: all bells
    in one, None without any. prior: what was expected.
    """

    low: float
    step: float
    values: Sequence[float]
    mean: float
    standard: float
    prior: Expected
    weights: Mapping[int, float] = field(default_factory=dict)
    bell: Bell | None = None

    @property
    def expanded(self) -> float:
        """Two standard uncertainties [rad]: the ± that is shown."""
        return 2.0 * self.standard

    def chance(self, low: float, high: float, moved: float = 0.0, more: float = 0.0) -> float:
        """Chance that e + moved lies from low to high [rad], `more` [rad] being a bell that comes on top."""
        total = 0.0
        for place, value in enumerate(self.values):
            at = self.low + place * self.step + moved
            if more > 0.0:
                spread = math.hypot(more, self.step / math.sqrt(12.0))
                total += value * (_below((high - at) / spread) - _below((low - at) / spread))
            else:
                # A point stands for a step about it.
                half = 0.5 * self.step
                inside = min(high, at + half) - max(low, at - half)
                total += value * max(0.0, min(1.0, inside / self.step))
        return min(1.0, total * self.step)

    def learned(self, keys: Sequence[str]) -> tuple[float, float]:
        """What these doubts together put into e: mean and standard uncertainty [rad], by regression on e."""
        variance = self.prior.variance
        own = math.fsum(self.prior.parts.get(key, 0.0) ** 2 for key in keys)
        if variance <= 0.0:
            return 0.0, 0.0
        share = own / variance
        left = own - share * own * (1.0 - min(1.0, self.standard**2 / variance))
        return share * (self.mean - self.prior.mean), math.sqrt(max(0.0, left))


def _below(z: float) -> float:
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def weigh(expected: Expected, seen: Sequence[Seen]) -> Believed:
    """Everything together. The order of `seen` does not matter; without any it is what was expected."""
    before = expected.density()
    bells = [(one.row.number, one.angle) for one in seen if isinstance(one.angle, Bell)]
    bearings = [
        (one.row.number, one.angle)
        for one in seen
        if one.angle is not None and not isinstance(one.angle, Bell)
    ]
    joint = _Joint(expected, before, [bell for _, bell in bells], _together([each for _, each in bearings]))
    low, high = joint.reach()
    points: list[float] = []
    logs: list[float] = []
    for count in (COARSE, COARSE, FINE):
        points = [low + (high - low) * k / (count - 1) for k in range(count)]
        logs = [joint.log(at, count == COARSE) for at in points]
        low, high = _worth(points, logs, low, high)
    top = max(logs)
    values = [math.exp(log - top) for log in logs]
    step = points[1] - points[0]
    total = math.fsum(values) * step
    values = [value / total for value in values]
    mean = math.fsum(value * at for value, at in zip(values, points, strict=True)) * step
    variance = math.fsum(value * (at - mean) ** 2 for value, at in zip(values, points, strict=True)) * step
    weights = _weights(expected, bells, bearings)
    return Believed(points[0], step, values, mean, math.sqrt(variance), expected, weights, joint.one_bell())


def _worth(points: Sequence[float], logs: Sequence[float], low: float, high: float) -> tuple[float, float]:
    """Where the density is worth looking at: within DEEP of its peak, and a step beyond."""
    floor = max(logs) - DEEP
    inside = [k for k, log in enumerate(logs) if log >= floor]
    return points[max(0, inside[0] - 1)], points[min(len(points) - 1, inside[-1] + 1)]


def _together(bearings: Sequence[Bearing]) -> list[Bearing]:
    """A film that only one reading uses is shared with none: its spread is that reading's own."""
    films = [each for each in bearings if isinstance(each, Blue)]
    if len(films) != 1:
        return list(bearings)
    return [
        replace(b, spread=math.hypot(b.spread, b.shared), shared=0.0) if isinstance(b, Blue) else b
        for b in bearings
    ]


class _Joint:
    """The logarithm of expected × bells × bearings at any e."""

    def __init__(
        self, expected: Expected, before: Density, bells: Sequence[Bell], bearings: Sequence[Bearing]
    ) -> None:
        self.expected, self.before, self.bells, self.bearings = expected, before, bells, bearings
        # A gauge's error counts beside blue and feel only where it is not far below what they can tell.
        counts = any(each.gauge > GAUGE_COUNTS * each.tells for each in bearings)
        self.weights, self.centre, self.precision, self.shift = _one(expected, bells, counts)
        shared = any(isinstance(each, Blue) and each.shared for each in bearings)
        films = FIVE if shared else ((0.0, 1.0),)
        gauges = THREE if counts else ((0.0, 1.0),)
        self.places = [(g, f, u * v) for g, u in gauges for f, v in films]

    def reach(self) -> tuple[float, float]:
        """From where to where the density may lie [rad]."""
        lows, highs = [self.before.low], [self.before.high]
        if self.precision > 0.0:
            wide = 8.0 / math.sqrt(self.precision)
            lows.append(self.centre - wide)
            highs.append(self.centre + wide)
        for each in self.bearings:
            low, high = each.reach
            lows.append(low)
            highs.append(high)
        return min(lows), max(highs)

    def log(self, error: float, rough: bool = False) -> float:
        """At one error [rad]; rough: with the middle of gauge and film alone."""
        log = math.log(max(self.before.at(error), 1e-300))
        away = error - self.centre
        if not self.bearings:
            return log - 0.5 * self.precision * away * away
        total = 0.0
        for gauge, film, weight in self.places[:1] if rough else self.places:
            # What the gauge shifts a bell, beside its place without: a factor that is never far from 1.
            more = self.shift * gauge
            product = weight * math.exp(min(700.0, -0.5 * self.precision * more * (2.0 * away + more)))
            for each in self.bearings:
                product *= each.likelihood(error + each.gauge * gauge, film)
            total += product
        return log - 0.5 * self.precision * away * away + math.log(max(total, 1e-300))

    def one_bell(self) -> Bell | None:
        """All bells in one."""
        if not self.bells:
            return None
        parts: dict[str, float] = {}
        for weight, bell in zip(self.weights, self.bells, strict=True):
            for key, part in bell.parts.items():
                parts[key] = parts.get(key, 0.0) + weight * part
        value = math.fsum(w * bell.value for w, bell in zip(self.weights, self.bells, strict=True))
        return Bell(value, parts)


def _one(
    expected: Expected, bells: Sequence[Bell], without_gauge: bool
) -> tuple[Sequence[float], float, float, float]:
    """The bells' weights, adding to 1; their joint centre and precision; what the gauge shifts them by.

    without_gauge: the gauge's error is left out of their covariances, to be averaged over elsewhere.
    """
    if not bells:
        return (), 0.0, 0.0, 0.0
    variance = expected.variance
    along = [
        math.fsum(part * expected.parts.get(key, 0.0) for key, part in bell.parts.items()) / variance
        if variance > 0.0
        else 0.0
        for bell in bells
    ]
    parts = [
        {key: part for key, part in bell.parts.items() if not (without_gauge and key == GAUGE)}
        for bell in bells
    ]
    rows = [
        [
            math.fsum(part * parts[k].get(key, 0.0) for key, part in parts[i].items())
            - along[i] * along[k] * variance
            + (_SMALLEST**2 if i == k else 0.0)
            for k in range(len(bells))
        ]
        for i in range(len(bells))
    ]
    slopes = [1.0 + c for c in along]
    weights = solved(rows, slopes)
    precision = math.fsum(w * s for w, s in zip(weights, slopes, strict=True))
    seen = [bell.value + c * expected.mean for bell, c in zip(bells, along, strict=True)]
    if precision <= 0.0:
        return [1.0 / len(bells)] * len(bells), seen[0], 0.0, 0.0
    centre = math.fsum(w * m for w, m in zip(weights, seen, strict=True)) / precision
    shift = math.fsum(w * b.parts.get(GAUGE, 0.0) for w, b in zip(weights, bells, strict=True)) / precision
    whole = math.fsum(weights)
    shares = [w / whole for w in weights] if whole > 0.0 else [1.0 / len(bells)] * len(bells)
    return shares, centre, precision, shift if without_gauge else 0.0


def _weights(
    expected: Expected, bells: Sequence[tuple[int, Bell]], bearings: Sequence[tuple[int, Bearing]]
) -> dict[int, float]:
    """The share of each in what is known, by what each says by itself (the inverse of its variance)."""
    found: dict[int, float] = {}
    variance = expected.variance
    found[-1] = 1.0 / max(variance, _SMALLEST**2)
    for number, bell in bells:
        found[number] = 1.0 / max(bell.standard**2, _SMALLEST**2)
    for number, each in bearings:
        found[number] = 1.0 / _spread(each)
    whole = math.fsum(found.values())
    return {number: share / whole for number, share in found.items()}


def _spread(each: Bearing) -> float:
    """The variance [rad²] of a bearing's likelihood over where it is worth looking at."""
    low, high = each.reach
    points = [low + (high - low) * k / 32.0 for k in range(33)]
    values = [each.likelihood(at) for at in points]
    total = math.fsum(values)
    mean = math.fsum(v * at for v, at in zip(values, points, strict=True)) / total
    return math.fsum(v * (at - mean) ** 2 for v, at in zip(values, points, strict=True)) / total
