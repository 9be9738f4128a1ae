"""Number and letter drill sizes by name."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

from calc.tables.loader import load


@cache
def _sizes() -> Mapping[str, Fraction]:
    return {row["name"]: Fraction(row["size"]) * Fraction(254, 10) for row in load("drills")}


def drill_size(name: str) -> Fraction | None:
    """Diameter of a number or letter drill [mm, exact]; None where no drill bears the name."""
    return _sizes().get(name.strip().upper())
