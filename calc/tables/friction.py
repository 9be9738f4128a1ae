"""Coefficients of friction, and what is said of the angles at which tapers hold or release.

Friction is a range, not a figure: 0.12 to 0.78 for steel on steel, by cleanliness and by source.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from calc.tables.loader import load
from calc.tables.published import Origin, origin_of


@dataclass(frozen=True, slots=True)
class Friction:
    """One published range: `lowest` to `highest` of a coefficient (unit "1") or an angle (unit "deg").

    item: what slides on what, or which kind of taper. quantity: "static coefficient" and so on.
    """

    item: str
    condition: str
    quantity: str
    lowest: float
    highest: float
    unit: str
    found: Origin


@cache
def friction_figures() -> tuple[Friction, ...]:
    """Every published range, coefficients first."""
    return tuple(
        Friction(
            row["item"],
            row["condition"],
            row["quantity"],
            float(row["value"]),
            float(row["highest"]),
            row["unit"],
            origin_of(row),
        )
        for row in load("friction")
    )


def friction(item: str, condition: str = "", quantity: str = "static coefficient") -> tuple[Friction, ...]:
    """The ranges for an item such as "steel on steel"; an empty condition asks for all conditions."""
    return tuple(
        each
        for each in friction_figures()
        if each.item == item and each.quantity == quantity and condition in ("", each.condition)
    )


def design_range() -> Friction:
    """The range to reckon with for oiled ground steel tapers (from memory, which its origin says)."""
    return friction("steel on steel", "lightly oiled, design value for tapers")[0]
