"""Stands for the runtime's `_pyodide/docstring.py`: its own functions go without their help texts.

Working out their signatures would bring `inspect` and what that imports.
"""

from __future__ import annotations

from collections.abc import Callable


def get_cmeth_docstring(func: Callable[..., object]) -> str:
    """Name and an empty signature, in the form that the interpreter wants of a function of its own."""
    return f"{func.__name__}($module, /)\n--\n\n"
