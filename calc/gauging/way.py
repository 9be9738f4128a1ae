"""What every way of proving a taper has in common: what is asked, and what an observation says.

A way is a module in this folder with the names of `Way`, listed in ``gauging/__init__.py``. From what was
seen it answers how far the half angle is out, above zero too steep, and where it can the diameter at the
gauge plane, which is taken at the cone's large end. What it says of the angle is either a bell, with the part
of every doubt in it, or a bearing, whose likelihood is no bell: blue and feel speak of a range.

Lengths [mm], angles [rad]. A way knows no page and no drawer.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from calc.cone import Cone
from calc.doubt.asks import Ask
from calc.estimate import Estimate, limits
from calc.sheet import Working

EXTERNAL, INTERNAL = "external", "internal"
CUSTOMARY_LENGTH = 100.0
"""Length [mm] over which an error is stated where the taper's own is not known."""
GAUGE = "proving.gauge_give"
"""The gauge's own taper: the same at every reading, so that readings by one gauge share it."""


@dataclass(frozen=True, slots=True)
class Part:
    """The taper that is proved: its cone, form ("external" or "internal") and the gauge's ± on diameter.

    gauge_give: half-width [mm on diameter over the taper's length] of the gauge's own taper. bar_centres,
    bar_give: of the sine bar that the part may be laid on [mm]. axis: half-width [rad] of the angle between
    the work's axis and the bed."""

    cone: Cone
    form: str = EXTERNAL
    gauge_give: float = 0.001
    bar_centres: float = 100.0
    bar_give: float = 0.003
    axis: float = 0.000025
    system: str = "mm"

    @property
    def length(self) -> float:
        """Along the axis [mm], the customary one where it is not known."""
        return self.cone.length or CUSTOMARY_LENGTH

    @property
    def slant(self) -> float:
        """Along the taper's surface [mm]."""
        return self.length / math.cos(self.cone.half_angle)

    @property
    def on_diameter(self) -> float:
        """What a radian of half angle is on diameter over the length [mm/rad], to first order."""
        return 2.0 * self.length / math.cos(self.cone.half_angle) ** 2

    @property
    def steep_bears(self) -> str:
        """The end at which a taper too steep bears: a plug's large end, a socket's small one."""
        return "large" if self.form == EXTERNAL else "small"

    @property
    def gauge_standard(self) -> float:
        """Standard uncertainty of the gauge's half angle [rad]."""
        return self.gauge_give / math.sqrt(3.0) / self.on_diameter


@dataclass(frozen=True, slots=True)
class Row:
    """One observation as read: lengths [mm], choices, and shares and films as numbers; absent where empty.

    number: its place among the observations, from 0; it keeps apart the doubts of separate readings.
    """

    way: str
    number: int = 0
    lengths: Mapping[str, float] = field(default_factory=dict)
    choices: Mapping[str, str] = field(default_factory=dict)

    def has(self, *names: str) -> bool:
        """True where each of these lengths was given."""
        return all(name in self.lengths for name in names)

    def reading(self, name: str, half_width: float | None = None, value: float | None = None) -> Estimate:
        """A length that was read once [mm], known to ± `half_width`, or to the row's `give`."""
        known = self.lengths.get("give", 0.0) if half_width is None else half_width
        return limits(
            self.lengths[name] if value is None else value, known, f"{self.way} {self.number} {name}"
        )


@dataclass(frozen=True, slots=True)
class Bell:
    """The half angle's error as measured [rad]: reading = error + the sum of `parts`, by doubt."""

    value: float
    parts: Mapping[str, float]

    @property
    def standard(self) -> float:
        """Standard uncertainty [rad]."""
        return math.hypot(*self.parts.values())

    @staticmethod
    def of(half_angle: Estimate, part: Part) -> Bell:
        """From a measured half angle [rad]."""
        return Bell(half_angle.value - part.cone.half_angle, dict(half_angle.parts))


class Bearing(Protocol):
    """What blue or feel says: a likelihood that is no bell."""

    @property
    def gauge(self) -> float:
        """Standard uncertainty of the gauge's half angle [rad]: what is seen is the error less the gauge's
        own.
        """

    @property
    def tells(self) -> float:
        """About how finely it can tell [rad]."""

    @property
    def reach(self) -> tuple[float, float]:
        """From where to where [rad] the likelihood is worth looking at."""

    def likelihood(self, error: float, film: float = 0.0) -> float:
        """Of what was seen, for this error of the half angle [rad], up to a factor.

        film: how much thicker than supposed the film is that all readings share, in standard deviations of
        its logarithm; without meaning where no film is in use."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What one observation says.

    angle: of the half angle's error; None where it says nothing of it. diameter: how far the diameter at the
    large end is above the cone's own [mm], whatever the angle's error; None where it does not tell, as with
    `bearing_end`: a stand-off tells of whichever end bears. form: "hollow" or "proud" where that was seen,
    `sag` being at least how much [mm, square to the surface]. line: in words, in both systems.
    """

    row: Row
    angle: Bell | Bearing | None = None
    diameter: Estimate | None = None
    bearing_end: Estimate | None = None
    shape: str = ""
    sag: float = 0.0
    working: Sequence[Working] = ()


class Way(Protocol):
    """The names that a module in this folder bears."""

    ID: str
    LABEL: str
    ASKS: Sequence[Ask]
    TELLS: str
    CANNOT: str
    SOURCE: str

    def missing(self, row: Row, part: Part) -> tuple[str, str]:
        """The row's key and the sentence for what is missing or cannot be; ("", "") where all is there."""

    def seen(self, row: Row, part: Part) -> Seen:
        """What the row says; to be asked only where nothing is missing."""

    def steps(self, part: Part) -> Sequence[str]:
        """How it is done, in the order of doing."""
