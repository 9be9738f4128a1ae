"""Stands for `traceback`, which the runtime imports at start: the whole comes with the first fault."""

from importlib import import_module
from typing import Any


def __getattr__(name: str) -> Any:
    return getattr(import_module("traceback_whole"), name)
