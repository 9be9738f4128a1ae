"""Published dimensions: one CSV a family, one row a datum, one loader.

The rooms `at`, `friction`, `sets`, `shanks` and `twins` are imported by name where they are wanted, so that
starting does not wait for them.
"""

from calc.tables.drills import drill_size
from calc.tables.tapers import (
    ALL_SERIES,
    SERIES,
    Datum,
    Series,
    Taper,
    all_tapers,
    find_taper,
    sizes,
    source_title,
)

__all__ = [
    "ALL_SERIES",
    "SERIES",
    "Datum",
    "Series",
    "Taper",
    "all_tapers",
    "drill_size",
    "find_taper",
    "sizes",
    "source_title",
]
