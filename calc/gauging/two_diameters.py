"""Two diameters a distance apart: the rate of the taper is their difference over that distance.

    tan(half angle) = (larger − smaller) / (2 × distance apart)

Both as read, or only their difference. A position that is out by dx is a diameter out by the rate times dx,
so where they are measured counts as much as how. Over parallels on a plate the heights fix the places: the
micrometer's anvil stands on the parallel and touches a taper with the edge of its face that is nearer to the
large end, at the parallel's height or an anvil's diameter above it; alike at both, so that the angle does not
feel it, but the size does.

Source: F. D. Jones, Turning and Boring (about 1914), rules for figuring tapers; the rest is plane geometry.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.estimate import Estimate, atan, limits
from calc.gauging.way import INTERNAL, Bell, Part, Row, Seen
from calc.quantities import shown_length
from calc.sheet import Working

ID = "two_diameters"
LABEL = "Two diameters, a distance apart"
SOURCE = "F. D. Jones, Turning and Boring (about 1914): taper = difference of diameters / distance apart"
TELLS = "The half angle, and with the place of one of them the size at the gauge plane."
CANNOT = "It cannot see a hollow or proud middle, and it is only as good as the two places."

PLACES = (("stops", "at stops"), ("marks", "at marked places"), ("parallels", "over parallels on a plate"))
PLACE_GIVE = {"stops": 0.05, "marks": 0.3, "parallels": 0.01}
"""How well the distance apart is known [mm]. Common practice, no source."""
ASKS: Sequence[Ask] = (
    Ask("diameter_1", "First diameter", "length"),
    Ask("diameter_2", "Second diameter", "length"),
    Ask("difference", "Or only their difference", "length"),
    Ask("apart", "Distance apart, along the axis", "length", least=0.5),
    Ask("at", "Measured", "choice", {"mm": "stops", "inch": "stops"}, choices=PLACES),
    Ask("height_1", "First parallels' height", "length"),
    Ask("height_2", "Second parallels' height", "length"),
    Ask(
        "anvil",
        "Micrometer's anvil, diameter",
        "length",
        {"mm": "6.5 mm", "inch": "0.25 in"},
        "Counts only over parallels, and only for the size.",
        most=50.0,
    ),
    Ask(
        "from_large_end",
        "Larger diameter lies from the gauge plane",
        "length",
        help="Along the axis; with it the size at the gauge plane follows.",
        least=-500.0,
    ),
    Ask(
        "give",
        "Each reading good to ±",
        "length",
        {"mm": "0.003 mm", "inch": "0.0001 in"},
        "A micrometer read to 0.001 mm (0.0001 in). Common practice, no source.",
        most=1.0,
    ),
    Ask(
        "apart_give",
        "Distance apart good to ±",
        "length",
        help=(
            "If left empty: 0.05 mm (0.002 in) at stops, 0.3 mm (0.012 in) at marks,"
            " 0.01 mm (0.0004 in) over parallels."
        ),
        most=5.0,
    ),
)


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if not row.has("difference") and not row.has("diameter_1", "diameter_2"):
        name = "diameter_2" if row.has("diameter_1") else "diameter_1"
        return name, "Both diameters are needed, or their difference."
    if not row.has("apart") and not row.has("height_1", "height_2"):
        return "apart", "How far apart were they measured?"
    if distance(row).value <= 0.0:
        return "height_2", "The two heights must differ."
    if row.has("difference", "diameter_1", "diameter_2"):
        both = abs(row.lengths["diameter_1"] - row.lengths["diameter_2"])
        if abs(both - abs(row.lengths["difference"])) > 2.0 * row.lengths.get("give", 0.0) + 1e-6:
            return "difference", f"The two diameters differ by {shown_length(both)[part.system]}."
    return "", ""


def distance(row: Row) -> Estimate:
    """How far apart along the axis [mm]."""
    at = row.choices.get("at", "stops")
    if row.has("height_1", "height_2") and not row.has("apart"):
        at = "parallels"
        value = abs(row.lengths["height_2"] - row.lengths["height_1"])
    else:
        value = row.lengths["apart"]
    known = row.lengths.get("apart_give", PLACE_GIVE[at])
    return row.reading("apart", known, value)


def difference(row: Row) -> Estimate:
    """Larger less smaller diameter [mm]."""
    if row.has("difference"):
        return row.reading("difference", value=abs(row.lengths["difference"]))
    apart = row.reading("diameter_1") - row.reading("diameter_2")
    return apart if apart.value >= 0.0 else -apart


def seen(row: Row, part: Part) -> Seen:
    """What the two diameters say."""
    across, along = difference(row), distance(row)
    half = atan(across / (2.0 * along))
    numbers = {
        key: f"{shown_length(across.value)[key]} / (2 × {shown_length(along.value)[key]})"
        for key in ("mm", "inch")
    }
    working = [
        Working(
            "tan(half angle) = difference / (2 × distance apart)",
            numbers,
            "A place that is out by 1 mm (0.039 in) is"
            f" a diameter out by {shown_length(part.cone.rate)[part.system]}.",
        )
    ]
    return Seen(row, Bell.of(half, part), _size(row, part), working=working)


def _size(row: Row, part: Part) -> Estimate | None:
    """How far the large end is above the cone's own diameter [mm]; None where the place is not told."""
    if part.cone.large_diameter is None or not row.has("diameter_1", "diameter_2"):
        return None
    first = row.lengths["diameter_1"] >= row.lengths["diameter_2"]
    larger = row.reading("diameter_1" if first else "diameter_2")
    if row.has("from_large_end"):
        known = row.lengths.get("apart_give", PLACE_GIVE[row.choices.get("at", "stops")])
        from_end = row.reading("from_large_end", known)
        return larger + from_end * part.cone.rate - part.cone.large_diameter
    if row.has("height_1", "height_2") and part.cone.length is not None:
        return larger + _from_large(row, part, first) * part.cone.rate - part.cone.large_diameter
    return None


def _from_large(row: Row, part: Part, first: bool) -> Estimate:
    """Where the larger diameter was touched [mm from the large end]: by the anvil's edge towards it."""
    at, other = ("height_1", "height_2") if first else ("height_2", "height_1")
    height = row.lengths[at]
    place = limits(height, PLACE_GIVE["parallels"], f"{row.way} {row.number} place")
    if height > row.lengths[other]:
        # The larger diameter is the higher one: it stands on its small end, and the anvil's upper edge
        # touches.
        return (part.length - row.lengths.get("anvil", 0.0)) - place
    return place  # it stands on its large end: the lower edge touches, at the parallel's own height


def place_on_diameter(part: Part, along: float) -> float:
    """What an error of place [mm along the axis] is on diameter [mm]."""
    return part.cone.rate * along


def target(part: Part, apart: float) -> float:
    """By how much the two diameters of this cone differ [mm], `apart` [mm] along the axis."""
    return 2.0 * apart * math.tan(part.cone.half_angle)


def steps(part: Part) -> Sequence[str]:
    """How to measure two diameters of a taper."""
    rows = [
        "Stop the spindle and isolate it. Let the part cool, take off burrs, wipe it and the anvils.",
        "Fix the two places: a stop against the end face or two pairs of parallels on a plate. Marks drawn"
        " by hand are the poorest.",
        "Read each diameter three times, in the same place and with the same feel, and take the mean; the"
        " difference is what counts.",
        "Enter both diameters and how far apart they were taken along the axis.",
    ]
    if part.form == INTERNAL:
        rows[1] = (
            "Fix the two depths by a stop: an inside micrometer or telescopic gauge wanders along the bore."
        )
    return rows
