"""What an unmeasured piece is taken to be: the middle of the limits it is sold to, and how far it may be off.

The limits stand in calc/tables/as_sold.csv, each row with its standard, source and how far that is confirmed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from calc.drawer.pieces import NANOMETRES_PER_MILLIMETRE
from calc.tables.loader import load

# A micrometer reading ten-thousandths of an inch, read to the nearest one: 0.0001 in either way [nm].
# Common practice, no source.
MICROMETER_NM = 2540.0


@dataclass(frozen=True, slots=True)
class AsSold:
    """The limits a piece is sold to.

    middle_nm: what to add to the named size for the middle of the limits [nm].
    half_width_nm: half of their width [nm].
    words: the standard and where it was read, in one line.
    """

    middle_nm: int
    half_width_nm: float
    words: str


def as_sold(kind: str, size_nm: int) -> AsSold:
    """The limits for a piece of this kind ("drill", "gauge block" ...; see `shapes.kind_of`) and size [nm].

    Valid for drills over 1 to 120 mm, gauge blocks (grade 2) over 0.5 to 500 mm, dowels, pins and rods over 1
    to 50 mm; beyond a table's ends its nearest row serves, and the words say so.
    """
    rows = [row for row in load("as_sold") if row["kind"] == kind]
    chosen = rows[-1]
    for row in rows:
        if size_nm <= _nanometres(row["up_to_mm"]):
            chosen = row
            break
    outside = size_nm > _nanometres(chosen["up_to_mm"]) or size_nm <= _nanometres(chosen["over_mm"])
    upper, lower = Fraction(chosen["upper_um"]), Fraction(chosen["lower_um"])
    words = f"{chosen['standard']} ({chosen['source']})" if chosen["standard"] else chosen["source"]
    if outside and chosen["standard"]:
        words += "; the table does not reach this size, its nearest row is used"
    return AsSold(round((upper + lower) * 500), float((upper - lower) * 500), words)


def _nanometres(millimetres: str) -> Fraction:
    return Fraction(millimetres) * NANOMETRES_PER_MILLIMETRE
