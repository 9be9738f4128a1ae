"""Errors in words: which way, how much, in both systems."""

from __future__ import annotations

import math
from collections.abc import Mapping

from calc.quantities import shown_length
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
    texts = {key: shown[key].lstrip("+-") for key in SYSTEMS}
    return {
        key: f"{text} {word}" if any(each in "123456789" for each in text) else text
        for key, text in texts.items()
    }


def read_off(mm: float) -> Both:
    """What an indicator is to move by, to a micrometre and to 0.0001 in: nobody reads it finer."""
    inch = max(1, round(mm / 0.00254)) * 0.00254
    return {"mm": shown_length(max(0.001, round(mm, 3)))["mm"], "inch": shown_length(inch)["inch"]}


def at(mm: float) -> Both:
    """A place along the slide, to a tenth of a millimetre and a hundredth of an inch."""
    return shown_length(mm, 0.5)


def seconds(angle: float) -> str:
    """An angle [rad] in whole seconds of arc."""
    return f"{math.degrees(angle) * 3600:.0f}″"


def signed(angle: float) -> str:
    """An error [rad] in seconds of arc with which way it is."""
    if abs(angle) < NOTHING:
        return "0″"
    return f"{seconds(abs(angle))} {'too steep' if angle > 0 else 'too shallow'}"
