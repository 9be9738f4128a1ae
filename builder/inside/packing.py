"""Runs inside the browser's own Python, under Node, while the site is built.

Bytecode must be made by the interpreter that will load it. What the runtime needs before it can find anything
goes into a zip, stored rather than deflated so that brotli works on it whole; the rest of the library and the
core into one file each (`finder.py`). The same input gives the same bytes.
"""

from __future__ import annotations

import marshal
import os
import sys
import zipfile
from importlib.util import MAGIC_NUMBER
from io import BytesIO
from types import CodeType
from typing import Any

LIBRARY = f"/lib/python{sys.version_info.major}{sys.version_info.minor}.zip"
# Flag 1: the stamp is a hash and is not to be checked against a source, which is not there.
_HEADER = MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)


def library_files(paths: list[str]) -> dict[str, bytes]:
    """The named modules of the library, as sources."""
    with zipfile.ZipFile(LIBRARY) as library:
        return {path: library.read(path) for path in paths}


def core_files(folder: str) -> dict[str, bytes]:
    """Everything of the core below `folder`."""
    files = {}
    for place, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(place, name)
            with open(path, "rb") as file:
                files[os.path.relpath(path, folder)] = file.read()
    return files


def _without_lines(code: CodeType) -> CodeType:
    """The code with "no line" in its tables of lines and columns, which are a third of the wire, for traces.

    An empty table would not do: a trace could then not be put into words at all.
    """
    whole, rest = divmod(len(code.co_code) // 2, 8)
    table = b"\xff" * whole + (bytes([0xF8 | (rest - 1)]) if rest else b"")
    inner = tuple(_without_lines(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    # A trace names functions by their plain names.
    return code.replace(co_consts=inner, co_linetable=table, co_qualname=code.co_name)


def _code(source: bytes, path: str) -> CodeType:
    return _without_lines(compile(source, path, "exec", dont_inherit=True, optimize=2))


def zipped(files: dict[str, bytes]) -> bytes:
    """A zip of modules as -OO bytecode, for the place of the runtime's own library."""
    store = BytesIO()
    with zipfile.ZipFile(store, "w", zipfile.ZIP_STORED) as packed:
        for path in sorted(files):
            content = _HEADER + marshal.dumps(_code(files[path], f"{LIBRARY}/{path}"))
            packed.writestr(zipfile.ZipInfo(path + "c"), content)
    return store.getvalue()


def packed(files: dict[str, bytes], target: str) -> bytes:
    """One file of modules as -OO bytecode and of tables as what they hold, for the place `target`."""
    index: dict[str, tuple[bool, int, int]] = {}
    parts: list[bytes] = []
    end = 0
    for path in sorted(files):
        package = path.endswith("/__init__.py")
        name = path
        if path.endswith(".py"):
            what: Any = _code(files[path], f"{target}/{path}")
            name = path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
        else:
            what = _columns(files[path])
        parts.append(marshal.dumps(what))
        index[name] = (package, end, end := end + len(parts[-1]))
    told = marshal.dumps(index)
    return b"".join((len(told).to_bytes(4, "little"), told, *parts))


def lengths(content: bytes) -> list[int]:
    """Of what one file of modules is made of, in its order: its head, then each module and table [bytes]."""
    begin = 4 + int.from_bytes(content[:4], "little")
    index: dict[str, tuple[bool, int, int]] = marshal.loads(content[4:begin])
    return [begin, *(end - start for _, start, end in index.values())]


def _columns(content: bytes) -> dict[str, tuple[str, ...]]:
    """A table by its columns: what is alike stands together, which is shorter on the wire."""
    from _csv import reader

    columns, *lines = reader(content.decode("utf-8").splitlines())
    return dict(zip(columns, zip(*lines, strict=True), strict=True))
