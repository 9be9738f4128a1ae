"""The families of tapers that the tables hold: listed here, so that the list costs no reading of files."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Series:
    """A family of tapers.

    value: what stands in entries. label: what is shown. file: which table holds the rows.
    whole: True where every size has a rate, a large diameter and a length; elsewhere some may be missing.
    """

    value: str
    label: str
    file: str
    whole: bool = True


ALL_SERIES: tuple[Series, ...] = (
    Series("Morse", "Morse, metric standard (ISO 296)", "morse"),
    Series("Morse inch", "Morse, inch standard (ASME B5.10)", "morse"),
    Series("Metric", "Metric 1:20, sizes 4 to 200 (ISO 296)", "metric"),
    Series("Brown & Sharpe", "Brown & Sharpe", "brown_sharpe"),
    Series("Jarno", "Jarno", "jarno"),
    Series("3/4 in per foot", "American 3/4 in per foot, self-holding", "inch_self_holding", whole=False),
    Series("Jacobs", "Jacobs, drill chucks", "jacobs"),
    Series("B", "B tapers, drill chucks (ISO 239)", "chuck", whole=False),
    Series("7/24", "7/24, metric standard (ISO 297)", "steep", whole=False),
    Series("7/24 inch", "7/24, inch standard (ASME B5.10)", "steep"),
    Series("HSK-A", "HSK hollow shank, form A (ISO 12164)", "hollow_shanks", whole=False),
    Series("R8", "R8, milling spindle", "collets", whole=False),
    Series("5C", "5C, lathe collet", "collets", whole=False),
    Series("ER", "ER collet seat (ISO 15488)", "collets", whole=False),
    Series("Spindle nose", "Lathe spindle nose, short (A, D1) and long (L)", "noses", whole=False),
    Series("Shaft end", "Conical shaft end 1:10 (ISO 775)", "shaft_ends"),
    Series("Taper pin", "Taper pin 1:50 (ISO 2339)", "taper_pins", whole=False),
    Series("Taper pin inch", "Taper pin 1/4 in per foot (ASME B18.8.2)", "taper_pins", whole=False),
    Series("NPT", "NPT taper pipe thread (ASME B1.20.1)", "pipe"),
    Series("R", "R taper pipe thread (ISO 7-1)", "pipe"),
    Series("Bearing bore", "Tapered bore of rolling bearings", "bearings", whole=False),
    Series("Centre", "Lathe centre", "centres", whole=False),
    Series("Cone", "General cones and angles (ISO 1119)", "general", whole=False),
)

SERIES: tuple[Series, ...] = tuple(each for each in ALL_SERIES if each.whole)
"""The series of which every size has a rate, a large diameter and a length."""
