"""Surface speeds and feeds for turning, by material and tool.

Two sorts of rows: what sources publish, and one cautious range to start from for each material and tool,
chosen from these (its note says how). Publications differ by a factor of two and more: a range to start from
is no more than that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.tables.loader import load
from calc.tables.published import Origin, origin_of

START = "start"
TO_METRIC: Mapping[str, float] = {"ft/min": 0.3048, "m/min": 1.0, "in/rev": 25.4, "mm/rev": 1.0}
"""Metres a minute or millimetres a turn in each unit, exactly."""

MATERIALS = (
    ("mild steel", "Mild steel"),
    ("free-machining steel", "Free-machining steel"),
    ("medium carbon steel", "Medium-carbon steel"),
    ("high carbon steel", "High-carbon steel, drill rod, annealed"),
    ("alloy steel 4140", "Alloy steel such as 4140, annealed"),
    ("alloy steel 4140 prehardened", "Alloy steel such as 4140, prehardened"),
    ("tool steel", "Tool steel, annealed"),
    ("stainless steel 303", "Stainless steel 303"),
    ("stainless steel 304", "Stainless steel 304"),
    ("grey cast iron", "Grey cast iron"),
    ("aluminium", "Aluminium"),
    ("brass", "Brass, free-cutting"),
    ("bronze", "Bronze, tin or phosphor"),
    ("acetal", "Acetal"),
)
"""Every material with a range to start from: key and label."""

TOOLS = (("HSS", "high-speed steel"), ("carbide", "carbide"))
"""The tools: key and label."""


@dataclass(frozen=True, slots=True)
class Range:
    """One published range: speeds [m/min] or feeds [mm a turn of the work], with its words as printed.

    printed: material and condition as the source has them. cut: what sort of cut, or "start".
    """

    printed: str
    cut: str
    lowest: float
    highest: float
    text: str
    found: Origin


def start_speed(material: str, tool: str) -> Range:
    """The surface speeds [m/min] to start from; material and tool are keys of MATERIALS and TOOLS.

    Raises KeyError for others: a fault of ours, never of an entry.
    """
    return _starts()[material, tool, "speed"]


def start_feed(material: str, tool: str) -> Range:
    """The feeds [mm a turn of the work] to start from; raises KeyError as `start_speed` does."""
    return _starts()[material, tool, "feed"]


def published_speeds(material: str, tool: str) -> tuple[Range, ...]:
    """The published speeds [m/min] beside which the range to start from stands, in the order of the table."""
    return tuple(
        _range(row)
        for row in load("cutting_speeds")
        if (row["material"], row["tool"], row["quantity"]) == (material, tool, "speed")
        and row["cut"] != START
    )


@cache
def _starts() -> Mapping[tuple[str, str, str], Range]:
    return {
        (row["material"], row["tool"], row["quantity"]): _range(row)
        for row in load("cutting_speeds")
        if row["cut"] == START
    }


def _range(row: Mapping[str, str]) -> Range:
    factor = TO_METRIC[row["unit"]]
    low, high = row["value"], row["highest"]
    text = f"{low} {row['unit']}" if low == high else f"{low} to {high} {row['unit']}"
    return Range(row["printed"], row["cut"], float(low) * factor, float(high) * factor, text, origin_of(row))
