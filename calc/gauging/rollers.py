"""Over two rollers, or balls, on blocks of two heights, the taper standing on its end on a plate.

    tan a = (M2 − M1) / (2 (h2 − h1))
    M(h) = d0 + 2 (h + r) tan a + 2 r / cos a + 2 r        standing on its small end, d0 in the plane of the
    plate M(h) = D0 − 2 (h + r) tan a + 2 r / cos a + 2 r        standing on its large end

r / cos a is how far the roller's centre stands from the taper, along the plate. A straight roller lying
square to the measure and a ball touch a cone in the same point, in the plane through the axis.

Source: university metrology laboratory sheets (roller formulas); checked against the distance of a line and
of a point from a cone in space."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.estimate import Estimate, atan
from calc.gauging.way import INTERNAL, Bell, Part, Row, Seen
from calc.quantities import shown_length
from calc.sheet import Working

ID = "rollers"
LABEL = "Over two rollers or balls, at two heights"
SOURCE = "University metrology laboratory sheets: tan(half angle) = (M2 − M1) / (2 (h2 − h1))"
TELLS = "The half angle and the diameter, both well: the rollers' own size does not enter the angle."
CANNOT = (
    "It needs a plate, two pairs of equal heights and the part out of the lathe; it"
    " cannot see a hollow middle."
)
HEIGHT_GIVE = 0.002
"""Half-width of each height [mm]. Common practice, no source."""
ROLLER_GIVE = 0.001
"""Half-width of a roller's diameter [mm]. Common practice, no source."""
ASKS: Sequence[Ask] = (
    Ask("roller", "Rollers' or balls' diameter", "length", least=0.5, most=100.0),
    Ask(
        "height_1", "Lower blocks", "length", {"mm": "0 mm", "inch": "0 in"}, "0 where they lie on the plate."
    ),
    Ask("over_1", "Over both, lower", "length"),
    Ask("height_2", "Higher blocks", "length"),
    Ask("over_2", "Over both, higher", "length"),
    Ask(
        "give",
        "Each reading good to ±",
        "length",
        {"mm": "0.003 mm", "inch": "0.0001 in"},
        "A micrometer read to 0.001 mm (0.0001 in). Common practice, no source.",
        most=1.0,
    ),
)


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if part.form == INTERNAL:
        return "roller", "Rollers go beside a shank. In a socket use balls."
    if not row.has("roller"):
        return "roller", "How large are the rollers?"
    if not row.has("over_1") and not row.has("over_2"):
        return "over_1", "Enter the measure over both rollers."
    if row.has("over_1", "over_2"):
        if not row.has("height_2"):
            return "height_2", "How high are the other blocks?"
        if row.lengths["height_2"] == row.lengths.get("height_1", 0.0):
            return "height_2", "The two heights must differ."
    elif row.has("over_2") and not row.has("height_2"):
        return "height_2", "How high are these blocks?"
    return "", ""


def over(
    diameter: float, half_angle: float, height: float, roller: float, on_small_end: bool = True
) -> float:
    """Measure over two rollers [mm]: the taper's diameter in the plane of the plate, half angle [rad], height
    of the blocks and the rollers' diameter [mm].
    """
    r = 0.5 * roller
    rise = 2.0 * (height + r) * math.tan(half_angle)
    return diameter + (rise if on_small_end else -rise) + 2.0 * r / math.cos(half_angle) + 2.0 * r


def half_angle(over_1: float, over_2: float, height_1: float, height_2: float) -> float:
    """Half angle [rad] from two measures over rollers at two heights [mm]; below 0 on its large end."""
    return math.atan((over_2 - over_1) / (2.0 * (height_2 - height_1)))


def at_plate(
    measure: float, half_angle: float, height: float, roller: float, on_small_end: bool = True
) -> float:
    """Diameter in the plane of the plate [mm], from one measure over the rollers."""
    return measure - over(0.0, half_angle, height, roller, on_small_end)


def seen(row: Row, part: Part) -> Seen:
    """What the measures over rollers say."""
    low = row.lengths.get("height_1", 0.0)
    if not row.has("over_1", "over_2"):
        name, height = ("over_1", low) if row.has("over_1") else ("over_2", row.lengths["height_2"])
        return Seen(row, None, _size(row, part, name, height, True, part.cone.half_angle))
    first, second = row.reading("over_1"), row.reading("over_2")
    # Blocks of a pair are alike to what each is known to; how high they are moves both rollers of the pair.
    rise = row.reading("height_2", HEIGHT_GIVE) - row.reading("height_1", HEIGHT_GIVE, low)
    slope = (second - first) / (2.0 * rise)
    on_small_end = slope.value >= 0.0
    half = atan(slope if on_small_end else -slope)
    numbers = {
        key: (
            f"({shown_length(second.value)[key]} − {shown_length(first.value)[key]}) / (2 ×"
            f" {shown_length(rise.value)[key]})"
        )
        for key in ("mm", "inch")
    }
    note = "" if on_small_end else "The higher measure is the smaller: it stands on its large end."
    working = [
        Working("tan(half angle) = (over, higher − over, lower) / (2 × (height − height))", numbers, note)
    ]
    size = _size(row, part, "over_1", low, on_small_end, half.value)
    return Seen(row, Bell.of(half, part), size, working=working)


def _size(row: Row, part: Part, name: str, height: float, on_small_end: bool, half: float) -> Estimate | None:
    """How far the diameter at the large end is above the cone's own [mm], from the measure nearer to the
    plate.
    """
    cone = part.cone
    if cone.large_diameter is None or (on_small_end and cone.length is None):
        return None
    roller = row.reading("roller", ROLLER_GIVE)
    r = roller / 2.0
    rise = 2.0 * (row.reading("height_1", HEIGHT_GIVE, height) + r) * math.tan(half)
    base = row.reading(name) - 2.0 * r / math.cos(half) - 2.0 * r
    if not on_small_end:
        return base + rise - cone.large_diameter
    return base - rise + 2.0 * part.length * math.tan(half) - cone.large_diameter


def target(part: Part, roller: float, height: float, on_small_end: bool = True) -> float | None:
    """The measure over the rollers that the wanted taper has [mm]; None where its size is not known."""
    at = part.cone.small_diameter if on_small_end else part.cone.large_diameter
    return None if at is None else over(at, part.cone.half_angle, height, roller, on_small_end)


def steps(part: Part) -> Sequence[str]:
    """How to measure over rollers."""
    return (
        "Take the part out, let it cool on the plate, take off burrs; wipe plate, blocks, rollers and taper.",
        "Stand it on its end face on the surface plate: the face must be square and clean.",
        "Lay two equal rollers, or balls, one on each side on blocks of equal height, and measure over both.",
        "Raise both by equal blocks and measure again. Read each three times and take the mean.",
        "Enter the rollers' diameter, both heights and both measures.",
    )
