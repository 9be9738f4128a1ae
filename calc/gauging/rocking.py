"""Rocking felt in the master: the end at which the taper is loose.

A plug too steep bears at its large end and shakes at the small one; a socket the other way round. The end
that is loose can move from side to side by twice the length times the error:

    shake at the loose end = 2 × length × |error of the half angle|

Read by an indicator it is a measure. Felt by hand it says which way, and that the shake is more than a hand
can feel; not felt, that it is less.

Source: geometry. What a hand feels is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.doubt.asks import Ask
from calc.gauging.way import GAUGE, Bell, Part, Row, Seen
from calc.quantities import shown_length
from calc.sheet import Working

ID = "rocking"
LABEL = "Rocking felt in the gauge"
SOURCE = "Geometry: shake = 2 × length × error. What a hand feels: common practice, no source"
TELLS = "Which way the half angle is out and, by an indicator at the loose end, how far."
CANNOT = "By hand it cannot tell how far, and a taper that is hollow in the middle does not rock."
FEEL = 0.01
"""Shake [mm] that a hand feels every other time. Common practice, no source."""
FEEL_SPREAD = 0.5
"""Spread of its logarithm."""
LEAK = 0.01
ASKS: Sequence[Ask] = (
    Ask(
        "end",
        "Loose",
        "choice",
        choices=(
            ("large", "at the large end"),
            ("small", "at the small end"),
            ("all", "nowhere: it does not rock"),
        ),
    ),
    Ask(
        "run",
        "Shake there, by an indicator",
        "length",
        help="From side to side. Leave it empty where it was only felt.",
        most=10.0,
    ),
    Ask(
        "give",
        "Good to ±",
        "length",
        {"mm": "0.005 mm", "inch": "0.0002 in"},
        "Common practice, no source.",
        most=1.0,
    ),
)


@dataclass(frozen=True, slots=True)
class Felt:
    """The likelihood of rocking felt (side 1: too steep, -1: too shallow) or not felt (0); length [mm]."""

    side: int
    length: float
    gauge: float = 0.0

    @property
    def tells(self) -> float:
        """About how finely it can tell [rad]."""
        return FEEL / (2.0 * self.length)

    @property
    def reach(self) -> tuple[float, float]:
        """Where the likelihood is worth looking at [rad]."""
        edge = FEEL * math.exp(3.0 * FEEL_SPREAD) / (2.0 * self.length)
        if self.side == 0:
            return -edge, edge
        return (0.0, 8.0 * edge) if self.side > 0 else (-8.0 * edge, 0.0)

    def likelihood(self, error: float, film: float = 0.0) -> float:
        """Of what was felt, for this error of the half angle [rad]."""
        shake = 2.0 * self.length * abs(error)
        feels = 0.5 * math.erfc(-math.log(max(shake, 1e-12) / FEEL) / (FEEL_SPREAD * math.sqrt(2.0)))
        if self.side == 0:
            return LEAK + (1.0 - LEAK) * (1.0 - feels)
        return LEAK + (1.0 - LEAK) * (feels if error * self.side > 0.0 else 0.0)


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if row.choices.get("end") not in ("large", "small", "all"):
        return "end", "At which end is it loose?"
    return "", ""


def seen(row: Row, part: Part) -> Seen:
    """What the rocking says."""
    end = row.choices["end"]
    # The end that is loose is not the one that bears.
    side = 0 if end == "all" else -1 if end == part.steep_bears else 1
    if side == 0 or not row.has("run"):
        return Seen(row, Felt(side, part.length, part.gauge_standard))
    shake = row.reading("run", value=abs(row.lengths["run"])) * (side / part.on_diameter)
    parts = {**shake.parts, GAUGE: part.gauge_standard}
    numbers = {
        key: f"{shown_length(abs(row.lengths['run']))[key]} / (2 × {shown_length(part.length)[key]})"
        for key in ("mm", "inch")
    }
    return Seen(row, Bell(shake.value, parts), working=[Working("error = shake / (2 × length)", numbers)])


def steps(part: Part) -> Sequence[str]:
    """How to feel for rocking."""
    return (
        "Stop the spindle and isolate it. Let the part cool, take off burrs, wipe both tapers dry.",
        "Bring the two together and press lightly. Try to rock them at the one end, then at the other.",
        "Set an indicator against the end that is loose and read how far it goes from side to side.",
    )
