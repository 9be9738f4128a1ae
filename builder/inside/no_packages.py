"""Stands for the runtime's `pyodide/_package_loader.py`: no package is ever installed.

What the runtime asks of it at start is all that is left.
"""

from __future__ import annotations

import sys

# A snapshot of the memory names what of the page's side is in it by its place in a list, and this is in it.
from pyodide_js import loadedPackages as loadedPackages  # type: ignore[import-not-found]


class Place:
    """A folder, for the runtime to ask for its name."""

    def __init__(self, name: str) -> None:
        self._name = name

    def __str__(self) -> str:
        return self._name


SITE_PACKAGES = Place(f"/lib/python{sys.version_info.major}.{sys.version_info.minor}/site-packages")
DSO_DIR = Place("/usr/lib")


def init_loaded_packages() -> None:
    """Nothing is loaded."""
