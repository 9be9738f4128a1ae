"""Text to exact quantities, and quantities to text.

Readers turn what a person types into exact numbers and refuse, with a way out, what can be meant in two ways.
Showing writes results with as many digits as their ± supports. Lengths in millimetres, angles in radians,
tapers as plain ratios on diameter.
"""

from __future__ import annotations

from .angle import read_angle
from .count import read_count
from .digits import round_like
from .length import read_length
from .rate import read_rate
from .reading import Reading, Unreadable
from .shown import (
    plus_minus_angle,
    plus_minus_length,
    plus_minus_micrometres,
    plus_minus_rate,
    shown_angle,
    shown_length,
    shown_micrometres,
    shown_rate,
)

__all__ = [
    "Reading",
    "Unreadable",
    "plus_minus_angle",
    "plus_minus_length",
    "plus_minus_micrometres",
    "plus_minus_rate",
    "read_angle",
    "read_count",
    "read_length",
    "read_rate",
    "round_like",
    "shown_angle",
    "shown_length",
    "shown_micrometres",
    "shown_rate",
]
