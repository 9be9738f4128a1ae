"""How much is left to take off, what a correction does to it, and how much to leave for proving.

An error e of the half angle makes the one end larger than the other by E = e × (what a radian is on
diameter). A gauge that stands off by s touches the end that has most metal, so that

    metal at the end that bears = s × taper,   at the other end less by |E|

Brought right, the taper is to clean up at both: what is then left is that of the end with least, and the
gauge stands off by |E| / taper less. So much must be left for proving that this never comes to nothing: the
likely error over the whole length, what proving may be out by in telling it, and the last cut.

Source: plane geometry.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.estimate import Estimate
from calc.gauging.evidence import Believed
from calc.gauging.way import EXTERNAL, Part, Seen

LIKELY = 2.0
"""Standard uncertainties within which the error nearly always lies (GUM 6.3.3)."""
PROVED_TO = 0.006
"""What proving by a thin film is out by at most, on diameter [mm]: the film on either side. No source."""


@dataclass(frozen=True, slots=True)
class Size:
    """Diameter still to come off [mm]: at the large and the small end as cut. Below 0 it is too much already.

    most: where most metal is, which a gauge feels. least: what is left once the angle is right.
    """

    large: Estimate
    small: Estimate

    @property
    def most(self) -> Estimate:
        """At the end with most metal."""
        return self.large if self.large.value >= self.small.value else self.small

    @property
    def least(self) -> Estimate:
        """At the end with least metal: all that a right taper can still lose."""
        return self.small if self.large.value >= self.small.value else self.large


def size(seen: Sequence[Seen], part: Part, error: float, standard: float) -> Size | None:
    """What is left at either end, from all that tells of size; None where nothing does.

    error, standard: of the half angle, as believed [rad].
    """
    # A bore's diameter is too small where metal is left, a shank's too large.
    sign = 1.0 if part.form == EXTERNAL else -1.0
    over = Estimate(
        sign * error * part.on_diameter, {"proving.angle_error": sign * standard * part.on_diameter}
    )
    found: list[Estimate] = []
    for one in seen:
        if one.diameter is not None:
            found.append(sign * one.diameter)
        elif one.bearing_end is not None:
            # The end that bears has most; where that is the small end, the large one has less.
            found.append(one.bearing_end if over.value >= 0.0 else one.bearing_end + over)
    if not found:
        return None
    large = _mean(found)
    return Size(large, large - over)


def _mean(found: Sequence[Estimate]) -> Estimate:
    """Weighted by the inverse of their variances; what has no doubt counts alone."""
    certain = [each for each in found if each.standard <= 0.0]
    if certain:
        return certain[0]
    weights = [1.0 / each.standard**2 for each in found]
    total = sum(weights)
    mean = Estimate(0.0)
    for weight, each in zip(weights, found, strict=True):
        mean = mean + each * (weight / total)
    return mean


def metal(part: Part, bias: float, standard: float, last_cut: float, proved_to: float = PROVED_TO) -> float:
    """What must be left on diameter for proving [mm], so that any correction still cleans up.

    bias, standard: of the error that the setting leads one to expect [rad]. last_cut: least that the last cut
    may take [mm on diameter]. proved_to: what proving may be out by on diameter [mm]."""
    return (abs(bias) + LIKELY * standard) * part.on_diameter + proved_to + last_cut


def metal_now(part: Part, believed: Believed, last_cut: float) -> float:
    """The same once something was seen [mm]."""
    over = believed.expanded * part.on_diameter
    return abs(believed.mean) * part.on_diameter + min(over, 2.0 * PROVED_TO) + last_cut


def expansion_stand_off(diameter: float, warmer: float, expansion: float, rate: float) -> float:
    """How much further off a gauge stands [mm] on a part warmer by so much [K].

    diameter × expansion / taper; diameter [mm], expansion [1/K], rate [plain].
    """
    return diameter * expansion * warmer / rate if rate > 0.0 else 0.0
