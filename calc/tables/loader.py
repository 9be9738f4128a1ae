"""One loader for every table: CSV beside this file, read when first asked for.

The files are found through the loader that brought this module, so that the
core works the same from a folder and from a zip.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import cache
from typing import Protocol, cast


class _Reads(Protocol):
    def get_data(self, path: str) -> bytes: ...


@cache
def load(name: str) -> tuple[Mapping[str, str], ...]:
    """The rows of `name`.csv in this folder, each a mapping of column to text.

    Raises OSError when there is no such table: a fault of ours, never of an entry.
    """
    from _csv import reader  # csv itself brings re and more, milliseconds that no table needs

    path = os.path.join(os.path.dirname(__file__), name + ".csv")
    loader = cast(_Reads, globals()["__loader__"])
    lines = reader(loader.get_data(path).decode("utf-8").splitlines())
    columns = next(lines)
    return tuple(dict(zip(columns, line, strict=True)) for line in lines)
