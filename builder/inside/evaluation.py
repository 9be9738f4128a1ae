"""Stands for the runtime's `_pyodide/_base.py`: running a text and importing by name, and nothing beside.

The whole of it reads Python in Python, with `ast`, `tokenize` and what these import.
"""

from __future__ import annotations

import _ast
from importlib import import_module
from typing import Any

_ONLY_TREE = 0x400  # ast.PyCF_ONLY_AST


def eval_code(
    source: str,
    globals: dict[str, Any] | None = None,
    locals: dict[str, Any] | None = None,
    *,
    filename: str = "<exec>",
    **_: object,
) -> Any:
    """Run the text; the value of its last line where that is an expression, else None."""
    room = {} if globals is None else globals
    tree: Any = compile(source, filename, "exec", _ONLY_TREE)
    last = tree.body.pop() if tree.body and isinstance(tree.body[-1], _ast.Expr) else None
    exec(compile(tree, filename, "exec"), room, locals)
    if last is None:
        return None
    return eval(compile(_ast.Expression(last.value), filename, "eval"), room, locals)


def pyimport_impl(path: str) -> Any:
    """The module of this name, or what a module has under it."""
    stem, *names = path.rsplit(".", 1)
    found = __import__(stem, fromlist=names)
    if not names:
        return found
    try:
        return getattr(found, names[0])
    except AttributeError:
        return import_module(path)
