"""Two discs, or rollers, of different size between straight edges that lie along the taper.

    sin a = (R − r) / (distance of the centres)

Touching discs are R + r apart; a block G between them adds G. The edges are tangents of both discs, so that
the angle between them is the included one.

Source: F. D. Jones, Turning and Boring (about 1914), pages 97 to 99: setting a taper gauge by discs.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.estimate import asin
from calc.gauging.way import Bell, Part, Row, Seen
from calc.quantities import shown_length
from calc.sheet import Working

ID = "discs"
LABEL = "Two discs in a taper gauge"
SOURCE = "F. D. Jones, Turning and Boring (about 1914), pages 97 to 99: sine = difference of radii / centres"
TELLS = "The half angle of whatever the straight edges fit, and how far apart discs must stand for one."
CANNOT = "It says nothing of size; light under an edge of the gauge is judged by eye."
DISC_GIVE = 0.002
"""Half-width of a disc's diameter [mm]. Common practice, no source."""
ASKS: Sequence[Ask] = (
    Ask("disc_1", "Larger disc's diameter", "length", least=1.0, most=500.0),
    Ask("disc_2", "Smaller disc's diameter", "length", least=1.0, most=500.0),
    Ask("apart", "Their centres apart", "length"),
    Ask("between", "Or the block between them", "length", help="0 where they touch.", most=500.0),
    Ask(
        "give",
        "That distance good to ±",
        "length",
        {"mm": "0.01 mm", "inch": "0.0004 in"},
        "Common practice, no source.",
        most=1.0,
    ),
)


def half_angle(larger: float, smaller: float, centres: float) -> float:
    """Half angle [rad] between straight edges over two discs; diameters and centre distance [mm].

    Raises ValueError where the discs overlap one another so far that no edge touches both.
    """
    ratio = 0.5 * (larger - smaller) / centres
    if not 0.0 <= ratio < 1.0:
        raise ValueError("no straight edge touches both discs")
    return math.asin(ratio)


def centres(larger: float, smaller: float, half_angle: float) -> float:
    """How far apart the discs' centres must stand [mm] for this half angle [rad, above 0]."""
    return 0.5 * (larger - smaller) / math.sin(half_angle)


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if not row.has("disc_1", "disc_2"):
        return ("disc_2" if row.has("disc_1") else "disc_1"), "Both discs' diameters are needed."
    if not row.has("apart") and not row.has("between"):
        return "apart", "How far apart are the centres? 0 for the block between where they touch."
    half = 0.5 * abs(row.lengths["disc_1"] - row.lengths["disc_2"])
    if half >= _apart(row):
        return "apart", "So near together no straight edge touches both discs."
    return "", ""


def _apart(row: Row) -> float:
    if row.has("apart"):
        return row.lengths["apart"]
    return 0.5 * (row.lengths["disc_1"] + row.lengths["disc_2"]) + row.lengths["between"]


def seen(row: Row, part: Part) -> Seen:
    """What the discs say."""
    first, second = row.reading("disc_1", DISC_GIVE), row.reading("disc_2", DISC_GIVE)
    radii = (first - second) / 2.0
    if radii.value < 0.0:
        radii = -radii
    apart = row.reading("apart" if row.has("apart") else "between", value=_apart(row))
    numbers = {
        key: f"{shown_length(radii.value)[key]} / {shown_length(apart.value)[key]}" for key in ("mm", "inch")
    }
    working = [Working("sin(half angle) = difference of radii / distance of the centres", numbers)]
    return Seen(row, Bell.of(asin(radii / apart), part), working=working)


def steps(part: Part) -> Sequence[str]:
    """How to prove by discs."""
    return (
        "Wipe the discs and the straight edges; take off burrs and let the part cool.",
        "Set the two edges against the taper until no light shows under either, and clamp them.",
        "Put the two discs between the edges and measure how far apart they stand: over"
        " both, less half of each.",
    )
