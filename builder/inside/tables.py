"""Stands in the packed core for `calc/tables/loader.py`: tables are read when the site is built."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any


@cache
def load(name: str) -> tuple[Mapping[str, str], ...]:
    """The rows of the table, each a mapping of column to text. Raises OSError when there is no such table."""
    loader: Any = globals()["__loader__"]
    columns: dict[str, tuple[str, ...]] = loader.table(f"calc/tables/{name}.csv")
    return tuple(dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True))
