"""Stands for the runtime's `pyodide/__init__.py`: the same without an event loop, which nothing here waits on."""
