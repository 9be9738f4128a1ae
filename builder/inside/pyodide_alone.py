"""Stands for the runtime's `pyodide/__init__.py`: the same without the event loop."""
