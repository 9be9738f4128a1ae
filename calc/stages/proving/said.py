"""Errors in words: which way, how much, in both systems."""

from __future__ import annotations

import math
from collections.abc import Mapping

from calc.sheet import Both

SYSTEMS = ("mm", "inch")
GEOMETRY = "Plane geometry"
BAYES = (
    "What the setting leads one to expect times what each observation says"
    " (Bayes); ± two standard uncertainties"
)
NOTHING = 2.4e-6
"""Half a second of arc [rad]: less is shown as none."""


def sided(error: float, shown: Mapping[str, str]) -> Both:
    """A size with which way it is out, in words: no bare sign."""
    word = "too steep" if error > 0.0 else "too shallow"
    return {key: f"{shown[key].removeprefix('+')} {word}" for key in SYSTEMS}


def seconds(angle: float) -> str:
    """An angle [rad] in whole seconds of arc."""
    return f"{math.degrees(angle) * 3600:.0f}″"


def signed(angle: float) -> str:
    """An error [rad] in seconds of arc with which way it is."""
    if abs(angle) < NOTHING:
        return "0″"
    return f"{seconds(abs(angle))} {'too steep' if angle > 0 else 'too shallow'}"
