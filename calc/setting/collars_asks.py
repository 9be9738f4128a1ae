"""What trial collars ask, feel and do not feel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from calc.doubt.asks import Ask
from calc.setting.common import DIVISION

ASKS: Sequence[Ask] = (
    Ask(
        "setting.collar_room",
        "Room between the collars, at most",
        "length",
        {"mm": "60 mm", "inch": "2.5 in"},
        "No longer than the top slide's travel; the longer, the surer.",
        least=2.0,
        most=1000.0,
    ),
    Ask(
        "setting.collar_measured",
        "Collars: difference of diameters, measured",
        "length",
        {},
        "After the trial cut: large collar less small collar. Leave empty before.",
        least=0.0,
        most=500.0,
        meanwhile=True,
    ),
    Ask(
        "setting.pivot_ahead",
        "Tool ahead of the top slide's pivot",
        "length",
        {"mm": "60 mm", "inch": "2.5 in"},
        "Along the bed towards the headstock, with the tool at the collar further from the pivot.",
        least=10.0,
        most=500.0,
    ),
    Ask(
        "setting.pivot_across",
        "Tool's tip from the pivot, across",
        "length",
        {"mm": "40 mm", "inch": "1.5 in"},
        "Square to the bed, from the pivot towards the work.",
        least=0.0,
        most=500.0,
    ),
    replace(
        DIVISION,
        label="One division of the cross-slide's collar",
        help="The finest that the cross-slide is moved by its graduated collar.",
    ),
)
FEELS: Sequence[str] = ("setting.collar_give", "setting.collar_left", "setting.travel_give")
IMMUNE = "not affected: the collars are cut on the work's own axis"
CUTS_BY = "slide"
RESOLUTION = ""
SNAGS: Sequence[str] = (
    "A piece to spoil, or room on the blank, and two or three rounds of cutting and measuring.",
    "Collars spring or burr under a blunt tool: light cuts, sharp edges.",
)
