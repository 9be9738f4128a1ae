"""Texts read once: between two key presses nearly all stay the same. One at fault is read anew each time."""

from __future__ import annotations

from functools import lru_cache

from calc.quantities import Reading, read_angle, read_count, read_length
from calc.tables import drill_size


@lru_cache(maxsize=512)
def length(text: str, unit: str) -> Reading:
    """A length, or a drill's name; `unit` is what a bare number means. Raises Unreadable."""
    return read_length(text, unit, drill_size)


@lru_cache(maxsize=64)
def angle(text: str) -> Reading:
    """An angle, a bare number being degrees. Raises Unreadable."""
    return read_angle(text)


@lru_cache(maxsize=64)
def count(text: str, most: int) -> Reading:
    """A whole number from 0 to `most`. Raises Unreadable."""
    return read_count(text, 0, most)
