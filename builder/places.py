"""Where things lie, and whether a step has been done already for what lies there now."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WORK = ROOT / ".build"
DIST = ROOT / "dist"
WEB = ROOT / "web"
CORE = ROOT / "calc"
CORPUS = ROOT / "tests" / "corpus"
NODE_MODULES = WEB / "node_modules"
PYODIDE = NODE_MODULES / "pyodide"

_SKIPPED = {"__pycache__", "node_modules", "generated"}


def files_below(*places: Path) -> list[Path]:
    """Every file at or below the given places, in a steady order, without caches and generated files."""
    found: list[Path] = []
    for place in places:
        if place.is_file():
            found.append(place)
            continue
        for folder, folders, names in os.walk(place):
            folders[:] = sorted(name for name in folders if name not in _SKIPPED)
            found += [Path(folder) / name for name in sorted(names) if not name.endswith(".pyc")]
    return found


def key_of(places: Iterable[Path], *words: str) -> str:
    """A hash of the content and names of all files below the places, and of the words."""
    digest = hashlib.sha256("\0".join(words).encode())
    for file in files_below(*places):
        name = file.relative_to(ROOT) if file.is_relative_to(ROOT) else file
        digest.update(b"\0" + str(name).encode() + b"\0" + hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()


def is_done(step: str, key: str) -> bool:
    """Whether the step was last finished with exactly this key."""
    stamp = WORK / "stamps" / step
    return stamp.is_file() and stamp.read_text() == key


def mark_done(step: str, key: str) -> None:
    """Remember that the step was finished with this key."""
    stamp = WORK / "stamps" / step
    stamp.parent.mkdir(parents=True, exist_ok=True)
    stamp.write_text(key)
