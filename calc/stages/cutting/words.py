"""Lengths of the cutting stage in words: as finely as slides are wound, no finer."""

from __future__ import annotations

from math import ceil, floor

from calc.quantities import shown_length, shown_micrometres
from calc.sheet import Both

SYSTEMS = ("mm", "inch")


def length(value: float) -> Both:
    """A length [mm] to a micrometre and to a tenth of a thou."""
    return {
        "mm": shown_length(round(value, 3))["mm"],
        "inch": shown_length(round(value / 25.4, 4) * 25.4)["inch"],
    }


def along(value: float) -> Both:
    """A length along the work [mm] to a tenth of a millimetre and to 5 thou."""
    return {
        "mm": shown_length(round(value, 1), 0.5)["mm"],
        "inch": shown_length(round(value / 0.127) * 0.127)["inch"],
    }


def wanted_along(value: float) -> Both:
    """A travel that is wanted [mm], to the next tenth of a millimetre and hundredth of an inch above."""
    return {
        "mm": shown_length(ceil(value * 10.0 - 1e-6) / 10.0)["mm"],
        "inch": shown_length(ceil(value / 0.254 - 1e-6) * 0.254)["inch"],
    }


def floored(value: float) -> float:
    """A depth that is allowed [mm], rounded down to a hundredth: no more is promised."""
    return floor(value * 100.0 + 1e-9) / 100.0


def small(value: float) -> Both:
    """A small length [mm] in micrometres and tenths, without a sign for above 0."""
    return {system: text.lstrip("+") for system, text in shown_micrometres(value).items()}


def numbers(form: str, **lengths: float) -> Both:
    """`form` with every length [mm] in it by name, in both systems."""
    return {
        system: form.format(**{name: length(value)[system] for name, value in lengths.items()})
        for system in SYSTEMS
    }
