"""The density of a sum of doubts on a grid, with a tail for what no budget foresees.

Rectangles are folded in one after another: the density of a sum is a running mean of the density so far,
taken over the rectangle's width, which its cumulative gives at once. A bell is three rectangles of the same
variance together, within a per cent of the peak. A chip under a roller or a piece misread is in no budget: a
small share of the density lies in a wide tail, so that what was seen can overrule what was expected."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.estimate import Strip

POINTS = 129
BLUNDER = 0.01
"""Share of set-ups in which something went wrong that no budget names. Common practice, no source."""
BLUNDER_WIDE = 4.0
"""How wide such a set-up is out, against the budget's standard uncertainty (a Cauchy curve's half-width)."""
_SMALLEST = 1e-9
_ROOT3 = math.sqrt(3.0)


@dataclass(frozen=True, slots=True)
class Density:
    """A density over an error [rad], linear between points `step` apart from `low` on; and its moments."""

    low: float
    step: float
    values: Sequence[float]
    mean: float
    standard: float
    tail: float = BLUNDER

    @property
    def high(self) -> float:
        """The last point [rad]."""
        return self.low + self.step * (len(self.values) - 1)

    def at(self, error: float) -> float:
        """The density at an error [rad], tail included; above 0 everywhere where there is a tail."""
        place = (error - self.low) / self.step
        inside = 0.0
        if 0.0 <= place < len(self.values) - 1:
            index = int(place)
            share = place - index
            inside = (1.0 - share) * self.values[index] + share * self.values[index + 1]
        if not self.tail:
            return inside
        wide = BLUNDER_WIDE * self.standard
        away = (error - self.mean) / wide
        return (1.0 - self.tail) * inside + self.tail / (math.pi * wide * (1.0 + away * away))


def density(
    mean: float,
    half_widths: Sequence[float],
    bells: Sequence[float] = (),
    shaped: Sequence[Sequence[Strip]] = (),
    tail: float = BLUNDER,
) -> Density:
    """The density of mean + independent rectangles + bells (by their standard uncertainty) + shaped parts.

    All in one unit [rad]. shaped: parts that are not rectangular, each as equally likely strips about its own
    mean. tail: the share that lies in the wide tail. With no spread at all it is next to a point.
    """
    boxes = sorted((abs(half) for half in half_widths), reverse=True)
    bell = math.hypot(*bells)
    spreads = [math.fsum(m * m + h * h / 3.0 for m, h in each) / len(each) for each in shaped]
    variance = math.fsum(half * half for half in boxes) / 3.0 + bell * bell + math.fsum(spreads)
    standard = max(_SMALLEST, math.sqrt(variance))
    wide_strips = math.fsum(max(abs(m) + h for m, h in each) for each in shaped)
    reach = math.fsum(boxes) + 3.0 * bell + wide_strips
    span = max(min(1.02 * reach, 8.0 * standard), 3.0 * standard)
    step = 2.0 * span / (POINTS - 1)
    # What is narrower than a step of the grid shows by its variance alone.
    narrow = math.fsum(h * h for h in boxes if h <= 0.75 * step) / 3.0 + bell * bell
    told = [each for each, spread in zip(shaped, spreads, strict=True) if spread > step * step]
    narrow += math.fsum(spread for spread in spreads if spread <= step * step)
    rest = math.sqrt(max(0.0, narrow))
    wide = [half for half in boxes if half > 0.75 * step]
    wide += [rest] * 3 if rest > 0.75 * step else []
    wide.sort(reverse=True)  # a bell may be wider than every box
    values = _first([span * (2.0 * k / (POINTS - 1) - 1.0) for k in range(POINTS)], wide[:2], step)
    for half in wide[2:]:
        values = _folded(values, half / step)
    for each in told:
        values = _mixed(values, each, step)
    total = math.fsum(values) * step
    return Density(mean - span, step, [v / total for v in values], mean, standard, tail)


def _first(places: Sequence[float], wide: Sequence[float], step: float) -> list[float]:
    """The one or two widest rectangles, point by point; a narrow triangle where there is none."""
    if not wide:  # all that there is comes later, or is nothing: as near to a point as the grid allows
        width = step
        return [max(0.0, 1.0 - abs(x) / width) for x in places]
    if len(wide) == 1:
        # The edge takes up a step, so that its place between two points is not lost.
        return [min(1.0, max(0.0, (wide[0] - abs(x)) / step + 0.5)) for x in places]
    larger, smaller = wide
    return [max(0.0, min(2.0 * smaller, larger + smaller - abs(x))) for x in places]


def _folded(values: Sequence[float], half: float) -> list[float]:
    """The running mean over ± half (in steps), from the cumulative, which is a parabola between points."""
    count = len(values)
    sums = [0.0] * count
    for k in range(1, count):
        sums[k] = sums[k - 1] + 0.5 * (values[k - 1] + values[k])
    last = sums[-1]
    whole = int(half)
    share = half - whole
    folded = []
    for k in range(count):
        up, down = k + whole, k - whole - 1
        above = last
        if up < count - 1:
            left = values[up]
            above = sums[up] + share * (left + 0.5 * share * (values[up + 1] - left))
        below = 0.0
        if down >= 0:
            left = values[down]
            part = 1.0 - share
            below = sums[down] + part * (left + 0.5 * part * (values[down + 1] - left))
        folded.append((above - below) / (2.0 * half))
    return folded


def _mixed(values: Sequence[float], strips: Sequence[Strip], step: float) -> list[float]:
    """Shifted by each strip's middle and widened by its half-width, in equal shares."""
    count = len(values)
    mixed = [0.0] * count
    for middle, half in strips:
        widened = _folded(values, half / step) if half > 0.75 * step else values
        shift = middle / step
        whole = math.floor(shift)
        share = shift - whole
        for k in range(count):
            at = k - whole
            right = widened[at] if 0 <= at < count else 0.0
            left = widened[at - 1] if 0 < at <= count else 0.0
            mixed[k] += (1.0 - share) * right + share * left
    return mixed
