"""What the sine bar beside the top slide asks, feels and does not feel."""

from __future__ import annotations

from collections.abc import Sequence

from calc.doubt.asks import Ask

ASKS: Sequence[Ask] = (
    Ask(
        "setting.bar_centres",
        "Sine bar, roller centre distance",
        "length",
        {"mm": "100 mm", "inch": "4 in"},
        "As measured, not as sold: over both rollers, less one roller's diameter.",
        least=10.0,
        most=1000.0,
    ),
    Ask(
        "setting.bar_side",
        "Sine bar lies on",
        "choice",
        {"mm": "operator", "inch": "operator"},
        "Which side of the top slide (compound) the sine bar lies against.",
        choices=(("operator", "operator's side"), ("far", "far side")),
    ),
    Ask(
        "setting.roller_difference",
        "Roller difference: headstock roller minus tailstock roller",
        "length",
        {"mm": "0 mm", "inch": "0 in"},
        "Of their diameters: + if the headstock roller is larger, − if it is smaller.",
        least=-5.0,
        most=5.0,
    ),
    Ask(
        "setting.packing",
        "Packing under the other roller",
        "length",
        {"mm": "0 mm", "inch": "0 in"},
        "Where the stack alone would be lower than the smallest piece: it then grows by as much.",
        least=0.0,
        most=200.0,
    ),
)

FEELS: Sequence[str] = (
    "setting.bar_give",
    "setting.roller_give",
    "setting.edge_give",
    "setting.packing_give",
    "setting.seating",
    "setting.sweep_give",
    "setting.side_give",
    "setting.axis_give",
)
IMMUNE = ""
CUTS_BY = "slide"
RESOLUTION = "setting.sweep_give"
SNAGS: Sequence[str] = (
    "The sine bar lies against the top slide's side, not its travel: check once that they are parallel.",
    "Swarf under a roller is more than all the rest.",
    "The indicator's run follows the bed: a lathe that turns a taper adds that taper.",
)
