"""Published dimensions: one CSV a family, one row a datum, one loader."""

from calc.tables.drills import drill_size
from calc.tables.tapers import SERIES, Datum, Series, Taper, find_taper, sizes, source_title

__all__ = ["SERIES", "Datum", "Series", "Taper", "drill_size", "find_taper", "sizes", "source_title"]
