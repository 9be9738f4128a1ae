"""Stands for the runtime's `_pyodide/__init__.py`: the same, with the interpreter's own words for a fault."""

from . import _base, _importhook  # type: ignore[attr-defined]

__all__ = ["_base", "_importhook"]


def set_excepthook() -> None:
    """The interpreter's own hook stays: another would bring `traceback` before there is any fault."""
