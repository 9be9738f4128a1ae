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
    """The code without its tables of lines and columns: a third of the wire, wanted only to read a trace."""
    inner = tuple(_without_lines(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.replace(co_consts=inner, co_linetable=b"")


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
