"""A boring bar: the thickest that goes into the bore, and the deepest cut that its overhang allows.

The bar is a beam held at one end. A cut of depth a [mm on radius] at a feed f [mm a turn] pushes it off the
work with about

    push = SHARE x specific cutting force x a x f

so that the tip springs by push x spring per newton (see `stiffness`). The deepest cut is the one that springs
it by no more than is allowed. Specific cutting forces are from memory to one or two figures, higher for thin
chips; how much of the force pushes off, and what spring is allowed, are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc.machining.stiffness import STEEL, spring

ROOM = 0.75
"""Bar against the narrowest bore it goes into, at most: the rest is for the tip and the chips."""
SHARE = 0.5
"""How much of the cutting force pushes the tip off the work."""
ROUGHING, FINISHING = 0.05, 0.01
"""Spring of the tip that is let pass [mm on radius]: in a roughing cut, in one of two alike that finish."""
THINNEST = 0.02
"""Thinner cuts than this [mm on radius] rub and do not cut."""
SPECIFIC_FORCE: Mapping[str, float] = {
    "grey cast iron": 1500.0,
    "aluminium": 900.0,
    "brass": 1000.0,
    "bronze": 1300.0,
    "acetal": 200.0,
    "stainless steel 303": 2600.0,
    "stainless steel 304": 2600.0,
}
"""Cutting force for each square millimetre of chip [N/mm2] by material, from memory; steel if not listed."""
STEEL_FORCE = 2400.0


@dataclass(frozen=True, slots=True)
class Boring:
    """A bar in its bore [mm]: the thickest that goes in, the one taken, how far that sticks out.

    rough, fine: the deepest roughing and finishing cut it allows [mm on radius]. told: the bar was told.
    """

    largest: float
    bar: float
    overhang: float
    rough: float
    fine: float
    told: bool

    @property
    def rubs(self) -> bool:
        """True where even a finishing cut that still cuts springs it too far."""
        return self.fine < THINNEST


def largest_bar(bore: float) -> float:
    """The thickest boring bar [mm] for a bore that is this narrow [mm] where it goes in."""
    return ROOM * bore


def deepest_cut(bar: float, overhang: float, feed: float, material: str, allowed: float) -> float:
    """The depth [mm on radius] at which a steel bar's tip springs by `allowed` [mm]; `feed` [mm a turn]."""
    force = SPECIFIC_FORCE.get(material, STEEL_FORCE)
    return allowed / (spring(1.0, overhang, bar, bar, STEEL) * SHARE * force * feed)


def boring(bore: float, bar: float | None, overhang: float, feed: float, material: str) -> Boring:
    """The bar told, or else the thickest that goes in, and what it allows."""
    largest = largest_bar(bore)
    taken = bar if bar is not None else largest
    rough, fine = (deepest_cut(taken, overhang, feed, material, allowed) for allowed in (ROUGHING, FINISHING))
    return Boring(largest, taken, overhang, rough, fine, bar is not None)
