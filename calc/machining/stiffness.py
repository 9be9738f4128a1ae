"""How long a thing may stick out for its thickness, and how far a force at its end springs it.

The end of a round bar, thicker towards where it is held (free diameter d1, held diameter d2, length L):

    deflection = 64 F L^3 / (3 pi E d1 d2^3)

from the integral of x^2 / (E I) with d running straight from d1 to d2 (beam theory). What counts as long is
common practice, no source; so are the elastic moduli, from memory to two figures.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import pi

FREE, CENTRED, BAR = 3.0, 10.0, 4.0
"""Length over diameter up to which it is customary to work: work free at its end, work on a centre, a boring
bar of steel (common practice, no source)."""

MODULUS: Mapping[str, float] = {
    "stainless steel 303": 193e3,
    "stainless steel 304": 193e3,
    "grey cast iron": 110e3,
    "aluminium": 70e3,
    "brass": 100e3,
    "bronze": 110e3,
    "acetal": 3e3,
}
"""Elastic modulus [N/mm2] by material, from memory; steel where it is not listed."""
STEEL = 206e3


def spring(force: float, length: float, free: float, held: float, modulus: float) -> float:
    """How far `force` [N] moves the free end [mm]; length [mm], diameters at the free and held end [mm]."""
    return 64.0 * force * length**3 / (3.0 * pi * modulus * free * held**3)
