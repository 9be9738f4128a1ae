"""Units of length and their spellings."""

from __future__ import annotations

from fractions import Fraction

INCH = Fraction(254, 10)
"""One inch [mm], exact by its definition of 1959."""
MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "µm": Fraction(1, 1000),
    "in": INCH,
    "ft": 12 * INCH,
    "thou": INCH / 1000,
    "tenths": INCH / 10000,
}
"""Unit to its length [mm]; a tenth is a tenth of a thou."""
METRIC = ("mm", "cm", "m", "µm")
_SPELLINGS = {
    "mm": "mm millimetre millimetres millimeter millimeters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "m": "m metre metres meter meters",
    "µm": "um micron microns micrometre micrometres micrometer micrometers",
    "in": 'in ins inch inches "',
    "ft": "ft foot feet",
    "thou": "thou thous",
    "tenths": "tenth tenths",
}
UNITS = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings.split()}
"""Spelling (plain, lower case) to unit."""
