"""Drill sizes by name: number, letter, fraction and metric series."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

from calc.tables.loader import load

_INCH = Fraction(254, 10)


@cache
def _sizes() -> Mapping[str, Fraction]:
    return {
        row["name"].upper(): Fraction(row["value"]) * (_INCH if row["unit"] == "in" else 1)
        for row in load("drills")
    }


def drill_size(name: str) -> Fraction | None:
    """Diameter of a drill [mm, exact] by the name of its series; None where no drill bears the name.

    Names: "7" and "F" (number and letter), "1/4" (fraction of an inch), "4.2" and "4.0" (metric, always with
    its decimal). A whole number without decimal is a number drill, never millimetres.
    """
    return _sizes().get(name.strip().upper())


@cache
def drills(series: str) -> Mapping[str, str]:
    """Name to size with its unit, as text, of one series: "number", "letter", "fraction" or "metric"."""
    return {row["name"]: f"{row['value']} {row['unit']}" for row in load("drills") if row["series"] == series}
