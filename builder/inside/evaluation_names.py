"""Stands for the runtime's `pyodide/code.py`: what runs a text, without what reads signatures."""

from _pyodide._base import eval_code  # type: ignore[import-not-found]

__all__ = ["eval_code"]
