"""Where two standards, or two variants of one, describe the same taper: by how much they differ."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calc.tables.tapers import Taper, find_taper, sizes

PAIRS: tuple[tuple[str, str, str], ...] = (
    ("Morse", "Morse inch", "large_diameter"),
    ("7/24", "7/24 inch", "large_diameter"),
)
"""Series that name the same cones by the same sizes, and the diameter both of them fix."""

VARIANT = " depth "
"""Stands in the size between a number and the plug depth of its variant, as in `7 depth 2-7/8`."""


@dataclass(frozen=True, slots=True)
class Difference:
    """How `other` differs from `taper`, other less this one.

    length: what both cover [mm]. on_diameter: what the two rates make over it [mm].
    fixed, at_fixed: the diameter both standards fix, and by how much it differs [mm].
    """

    taper: Taper
    other: Taper
    length: float
    on_diameter: float
    fixed: str
    at_fixed: float


def both_standards(series: str, size: str) -> tuple[Difference, ...]:
    """Every other standard or variant of this taper with the difference on diameter over the shorter length.

    Empty where there is no such taper, no twin, or no length to compare over.
    """
    this = find_taper(series, size)
    if this is None:
        return ()
    found = []
    for other, fixed in _twins(series, size):
        if all(name in each.data for each in (this, other) for name in ("length", fixed)):
            length = min(this.data["length"].value, other.data["length"].value)
            found.append(
                Difference(
                    this,
                    other,
                    length,
                    (other.data["rate"].value - this.data["rate"].value) * length,
                    fixed,
                    other.data[fixed].value - this.data[fixed].value,
                )
            )
    return tuple(found)


def _twins(series: str, size: str) -> Iterator[tuple[Taper, str]]:
    for one, two, fixed in PAIRS:
        if series in (one, two):
            twin = find_taper(two if series == one else one, size)
            if twin is not None:
                yield twin, fixed
    number, is_variant, _ = size.partition(VARIANT)
    for each in sizes(series) if is_variant else ():
        variant = find_taper(series, each)
        if each != size and each.startswith(number + VARIANT) and variant is not None:
            yield variant, "small_diameter"
