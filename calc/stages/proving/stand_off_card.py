"""The stand-off card: how far a gauge stands off, on diameter, on the cross-slide and by the top slide."""

from __future__ import annotations

import math

from calc.cone import Cone
from calc.quantities import shown_length
from calc.sheet import Both, Figure, Row, Table, Working, same
from calc.stages.proving.said import GEOMETRY, SYSTEMS

CARD = "proving.stand_off_card"
COLUMNS = ("Gauge off home", "Off the diameter", "Cross-slide (radius)", "Or top slide (compound)")
INCH = 25.4
STEPS = (
    (10.0, 0.5 * INCH),
    (5.0, 0.25 * INCH),
    (2.0, 0.1 * INCH),
    (1.0, 0.05 * INCH),
    (0.5, 0.02 * INCH),
    (0.2, 0.01 * INCH),
    (0.1, 0.005 * INCH),
)
"""Stand-offs [mm] of the card's rows, round in millimetres and round in inches."""


def stand_off_card(cone: Cone, left: tuple[float, float] | None = None) -> Figure:
    """The card for `cone`, to hang at the lathe; valid for a taper above nothing.

    left: what is off the diameter now, and what will be once the angle is right [mm]; None where nobody knows
    yet.
    """
    rows = []
    if left is not None:
        most, least = (diameter / cone.rate for diameter in left)
        rows = [
            Row([same("now"), *_cells(cone, most, most)]),
            Row([same("once the angle is right"), *_cells(cone, least, least)]),
        ]
    head = [] if left is None else [same("")]
    rows += [Row([*head, *_cells(cone, *step)]) for step in STEPS]
    told = shown_length(left[0] / cone.rate, 0.02) if left else _for_one(cone)
    return Figure(
        CARD,
        "Stand-off card",
        left[0] / cone.rate if left else None,
        "mm",
        shown=told,
        working=[
            Working(
                "diameter = stand-off × taper; top slide = stand-off / cos(half angle)",
                shown_length(cone.rate),
                "On diameter for 1 mm (0.039 in) of stand-off.",
            )
        ],
        source=GEOMETRY,
        table=Table(COLUMNS if left is None else ["", *COLUMNS], rows),
    )


def _cells(cone: Cone, metric: float, inch: float) -> list[Both]:
    """One row for a stand-off [mm], in each system for its own."""
    off = {"mm": metric, "inch": inch}

    def each(factor: float, fineness: float) -> Both:
        return {key: shown_length(off[key] * factor, fineness)[key] for key in SYSTEMS}

    slide = 1.0 / math.cos(cone.half_angle)
    return [each(1.0, 0.02), each(cone.rate, 0.001), each(cone.rate / 2, 0.001), each(slide, 0.02)]


def _for_one(cone: Cone) -> Both:
    """What one millimetre, or a tenth of an inch, of stand-off is on diameter."""
    return {
        "mm": f"1 mm is {shown_length(cone.rate, 0.001)['mm']} on diameter",
        "inch": f"0.1 in is {shown_length(cone.rate * 0.1 * INCH, 0.001)['inch']} on diameter",
    }
