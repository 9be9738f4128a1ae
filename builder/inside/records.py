"""What the data classes of the core, written out for the browser (`written_out.py`), share.

It goes to the browser as `calc/records.py`, and to no other place.
"""

from __future__ import annotations

from typing import Any

FRESH: Any = object()
"""Stands for a default that is made anew each time."""

set_part = object.__setattr__


class Frozen(AttributeError):
    """A part of something frozen was to be changed."""


class Part:
    """A part of a data class by its name."""

    __slots__ = ("name",)

    def __init__(self, name: str) -> None:
        self.name = name


def fields(kind: Any) -> tuple[Part, ...]:
    """The parts of a data class, in order."""
    return tuple(map(Part, kind.__match_args__))


def is_dataclass(kind: Any) -> bool:
    """Whether this is a data class, or something of one."""
    return hasattr(kind, "is_record")


def replace(thing: Any, /, **changes: Any) -> Any:
    """The same with some parts changed."""
    for name in thing.__match_args__:
        if name not in changes:
            changes[name] = getattr(thing, name)
    return thing.__class__(**changes)


def shown(self: Any) -> str:
    """As a data class is put into words for who looks for a fault."""
    parts = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
    return f"{self.__class__.__qualname__}({parts})"


def refused(self: Any, name: str, value: Any = None) -> None:
    """Raises Frozen."""
    raise Frozen(f"cannot assign to field {name!r}")
