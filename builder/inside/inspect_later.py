"""Stands for `inspect`, of which the runtime wants one function at start; the whole comes when asked for."""

from importlib import import_module
from typing import Any

_COROUTINE = 0x80  # inspect.CO_COROUTINE


def iscoroutinefunction(thing: object) -> bool:
    """Whether it is an `async def`."""
    code = getattr(getattr(thing, "__func__", thing), "__code__", None)
    return bool(getattr(code, "co_flags", 0) & _COROUTINE)


def __getattr__(name: str) -> Any:
    return getattr(import_module("inspect_whole"), name)
