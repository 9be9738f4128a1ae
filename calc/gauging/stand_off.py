"""How far a gauge stands off its place: what is still to come off, not what the angle is.

A plug gauge, or the shank in a ring, that stands off by s from home bears where the taper has most metal, and
there

    diameter still to come off = s × taper on diameter

Only with the angle right is that the same at both ends. Standing further in than home it is below 0: too much
has come off.

Source: plane geometry; F. D. Jones, Turning and Boring (about 1914), for the rule.
"""

from __future__ import annotations

from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.estimate import Estimate
from calc.gauging.way import EXTERNAL, Part, Row, Seen
from calc.quantities import shown_length, shown_rate
from calc.sheet import Working

ID = "stand_off"
LABEL = "How far the gauge stands off"
SOURCE = "Plane geometry: diameter = stand-off × taper on diameter"
TELLS = "The size: how much is still to come off at the end that bears."
CANNOT = "It says nothing of the angle: blue it as well."
ASKS: Sequence[Ask] = (
    Ask(
        "stand_off",
        "Gauge stands off from home by",
        "length",
        help="Below 0 where it goes further on than home: then too much has come off.",
        least=-200.0,
        most=500.0,
    ),
    Ask(
        "give",
        "Good to ±",
        "length",
        {"mm": "0.1 mm", "inch": "0.004 in"},
        "By steel rule; a feeler gauge or a calliper is better. Common practice, no source.",
        most=10.0,
    ),
)


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if not row.has("stand_off"):
        return "stand_off", "How far does it stand off?"
    if part.cone.rate <= 0.0:
        return "stand_off", "On a parallel part a gauge does not stand off."
    return "", ""


def seen(row: Row, part: Part) -> Seen:
    """What the stand-off says: the metal still on at the end that bears, on diameter [mm]."""
    left = on_diameter(part, row.reading("stand_off"))
    numbers = {
        key: (
            f"{shown_length(row.lengths['stand_off'])[key]} × {shown_rate(part.cone.rate)[key]} ="
            f" {shown_length(left.value, left.expanded)[key]}"
        )
        for key in ("mm", "inch")
    }
    return Seen(row, None, None, left, working=[Working("diameter = stand-off × taper", numbers)])


def on_diameter(part: Part, stand_off: Estimate) -> Estimate:
    """Metal still to come off, on diameter [mm], at the end that bears."""
    return stand_off * part.cone.rate


def stands_off(part: Part, on_diameter: float) -> float:
    """How far a gauge stands off [mm] with so much still to come off on diameter [mm]: the inverse."""
    return on_diameter / part.cone.rate


def steps(part: Part) -> Sequence[str]:
    """How to read a stand-off."""
    gauge = "the ring gauge or socket" if part.form == EXTERNAL else "the plug gauge"
    return (
        "Stop the spindle and isolate it. Let the part cool to the gauge's temperature: a warm shank stands"
        " off further than it will.",
        f"Take off burrs and wipe the taper and {gauge}. Seat it by hand, without a knock.",
        "Measure how far it stands off from its mark or from the face it comes home to.",
    )
