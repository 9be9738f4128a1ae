"""Stands for `traceback`, which the runtime imports at start: the whole of it comes when a fault is to be told."""

from importlib import import_module
from typing import Any


def __getattr__(name: str) -> Any:
    return getattr(import_module("traceback_whole"), name)
