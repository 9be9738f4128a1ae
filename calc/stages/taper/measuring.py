"""How an unknown taper is measured with what any shop has, before metal is cut."""

from __future__ import annotations

from calc.hazards import KEEN, STOPPED
from calc.sheet import Step, same

EASY_WAY = (
    ("stand_up", "Wipe the taper and stand it small end down on a surface plate."),
    (
        "lower",
        "Lay two flat parallels of one height against it, one either side. Rest the micrometer on them,"
        " measure over the taper, and note the diameter: this is the smaller one.",
    ),
    (
        "higher",
        "Do the same on a pair of higher parallels: the larger diameter. The distance between the two is the"
        " difference of the heights.",
    ),
    (
        "anvils",
        "The anvils bear on their upper edge both times, so their thickness does not matter.",
    ),
    (
        "no_parallels",
        "No parallels: scribe two fine marks, measure the diameters at the marks, and enter for the distance"
        " the"
        " ± it deserves. The further apart the two are, the surer the answer.",
    ),
)
"""How to measure a shank without bench tools; before anything else is done."""
SOCKETS_WAY = (
    ("wipe", "A machine's own socket: spindle stopped and isolated first. Wipe it out."),
    (
        "discs",
        "Turn two discs of one thickness, sharp at the front edge and clear behind it: one a little smaller"
        " than"
        " the mouth, one a little larger than the far end. Measure both by micrometer: these are the"
        " diameters.",
    ),
    (
        "depths",
        "Let each in square until its edge bears all round, and measure the depth of its back from the"
        " socket's"
        " face. The distance between the diameters is the difference of the depths.",
    ),
    (
        "no_discs",
        "No discs: a telescopic or small-hole gauge at two depths, and for diameters and distance the ± they"
        " deserve. The further apart the two are, the surer the answer.",
    ),
)
"""How to measure a socket without bench tools (common practice, no source)."""


ROAD = (
    "road",
    "Enter the measures and see what they say. Where there is a choice, choose what to cut: the standard"
    " taper, what was measured, or its mate.",
)
"""From the measures to the work."""


def easy_way(internal: bool = False) -> list[Step]:
    """How to measure the taper, before any metal is cut."""
    way = SOCKETS_WAY if internal else EASY_WAY
    asks = {
        "lower": ("taper.small_diameter",),
        "higher": ("taper.large_diameter", "taper.length"),
        "discs": ("taper.large_diameter", "taper.small_diameter"),
        "depths": ("taper.length",),
        "road": ("taper.go_on",),
    }
    cautions = {"wipe": (STOPPED.id,), "discs": (KEEN.id,), "depths": (KEEN.id,)}
    return [
        Step(f"taper.{word}", "align", same(text), cautions.get(word, ()), asks.get(word, ()))
        for word, text in (*way, ROAD)
    ]
