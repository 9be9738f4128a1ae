"""Figures from Estimates: one place where a value and its ± become words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from calc.estimate import Number, exact
from calc.quantities import (
    plus_minus_angle,
    plus_minus_length,
    plus_minus_rate,
    shown_angle,
    shown_length,
    shown_rate,
)
from calc.sheet import Both, Figure, Working, same

RATE = "rate"
"""A taper on diameter: plain like "1", but shown as tapers are."""
_SAID: Mapping[str, str] = {
    "headstock": "the headstock roller",
    "tailstock": "the tailstock roller",
    "anticlockwise": "anticlockwise (counterclockwise)",
}


def figure(
    id: str,
    label: str,
    value: Number,
    unit: str,
    working: Sequence[Working] = (),
    source: str = "",
    lead: bool = False,
) -> Figure:
    """A value [mm, rad, plain] with its ±, shown with as many digits as that supports.

    unit: "mm", "rad", "1", or `RATE`.
    """
    found = exact(value)
    shown, spread = _shown(found.value, found.expanded, unit)
    plain = "1" if unit == RATE else unit
    return Figure(id, label, found.value, plain, found.expanded, shown, spread, working, source, lead)


def worded(id: str, label: str, word: str, working: Sequence[Working] = (), source: str = "") -> Figure:
    """An answer in a word, such as which way or which roller."""
    return Figure(id, label, word, shown=same(_SAID.get(word, word)), working=working, source=source)


def _shown(value: float, doubt: float, unit: str) -> tuple[Both, Both]:
    if unit == "rad":
        return shown_angle(value, doubt), plus_minus_angle(doubt)
    if unit == RATE:
        return shown_rate(value, doubt), plus_minus_rate(doubt)
    if unit == "1":
        return same(f"{value:.4g}"), same("")
    return shown_length(value, doubt), plus_minus_length(doubt)
