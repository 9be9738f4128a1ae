"""Runs inside the browser's own Python, under Node, while the site is built.

Bytecode must be made by the interpreter that will load it. `packed_library` and `packed_core` return zips,
stored rather than deflated so that brotli works on them whole. The same input gives the same bytes.
"""

from __future__ import annotations

import marshal
import os
import sys
import zipfile
from importlib.util import MAGIC_NUMBER
from io import BytesIO
from types import CodeType

_LIBRARY = f"/lib/python{sys.version_info.major}{sys.version_info.minor}.zip"
# Flag 1: the stamp is a hash and is not to be checked against a source, which is not there.
_HEADER = MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)


def packed_library(paths: list[str]) -> bytes:
    """The named modules of the library as -OO bytecode."""
    with zipfile.ZipFile(_LIBRARY) as library:
        return _packed({path: library.read(path) for path in paths}, _LIBRARY)


def packed_core(folder: str, target: str) -> bytes:
    """The core below `folder`: modules as bytecode, other files as they are, for the zip at `target`."""
    files = {}
    for place, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(place, name)
            with open(path, "rb") as file:
                files[os.path.relpath(path, folder)] = file.read()
    return _packed(files, target)


def _without_lines(code: CodeType) -> CodeType:
    """The code with "no line" in its tables of lines and columns, which are a third of the wire, for traces.

    An empty table would not do: a trace could then not be put into words at all.
    """
    whole, rest = divmod(len(code.co_code) // 2, 8)
    table = b"\xff" * whole + (bytes([0xF8 | (rest - 1)]) if rest else b"")
    inner = tuple(_without_lines(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.replace(co_consts=inner, co_linetable=table)


def _packed(files: dict[str, bytes], target: str) -> bytes:
    store = BytesIO()
    with zipfile.ZipFile(store, "w", zipfile.ZIP_STORED) as packed:
        for path in sorted(files):
            content = files[path]
            if path.endswith(".py"):
                code = compile(content, f"{target}/{path}", "exec", dont_inherit=True, optimize=2)
                path, content = path + "c", _HEADER + marshal.dumps(_without_lines(code))
            packed.writestr(zipfile.ZipInfo(path), content)
    return store.getvalue()
