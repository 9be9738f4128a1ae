"""Stands for the runtime's `pyodide/__init__.py`: the same without the event loop."""

# A snapshot of the memory names what of the page's side is in it by its place in a list, and this is in it.
from pyodide_js._api import scheduleCallback  # type: ignore[import-not-found]

__all__ = ["scheduleCallback"]
