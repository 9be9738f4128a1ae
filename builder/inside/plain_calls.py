"""Stands for the runtime's `_pyodide/jsbind.py`: JavaScript is called as it is, without signatures for it.

The core calls none; reading signatures would bring `inspect` and what that imports.
"""

from typing import Any

from _pyodide_core import (  # type: ignore[import-not-found]
    JsFuncSignature,
    js2py_default_call_result,
    py2js_default,
)

no_default = object()


def _any(*args: object, **words: object) -> None:
    """Takes anything."""


default_signature = JsFuncSignature(
    _any, False, 0, (), (), py2js_default, (), (), (), py2js_default, js2py_default_call_result
)


def func_to_sig(f: object) -> Any:
    """The one signature there is."""
    return default_signature


def bind_class_sig(sig: object) -> object:
    """What is bound to a class: nothing of its own."""
    return sig
