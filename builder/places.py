"""Where things lie, and whether a step has been done already for what lies there now."""

from __future__ import annotations

import hashlib
import os
import shutil
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from builder.say import Stop, say

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


def _stamp(step: str) -> Path:
    return WORK / "stamps" / step


def _listing(made: Path | None) -> str:
    """Names and contents of all that a step left, as one hash; "" where there is nothing to look at."""
    if made is None:
        return ""
    digest = hashlib.sha256()
    for folder, folders, names in os.walk(made):
        folders.sort()
        for name in sorted(names):
            file = Path(folder) / name
            content = b"" if file.is_symlink() else file.read_bytes()
            digest.update(str(file.relative_to(made)).encode() + b"\0" + hashlib.sha256(content).digest())
    return digest.hexdigest()


def is_done(step: str, key: str, made: Path | None = None) -> bool:
    """Whether the step was last finished with this key, and what it left is all there and unchanged."""
    stamp = _stamp(step)
    if not stamp.is_file() or (made is not None and not made.is_dir()):
        return False
    return stamp.read_text("utf-8") == f"{key} {_listing(made)}"


def forget(step: str) -> None:
    """To be called before a step begins: whatever breaks it off, it does not count as done."""
    _stamp(step).unlink(missing_ok=True)


def mark_done(step: str, key: str, made: Path | None = None) -> None:
    """Remember that the step was finished with this key, and what it left."""
    stamp = _stamp(step)
    stamp.parent.mkdir(parents=True, exist_ok=True)
    fresh = stamp.with_name(f"{step}.part")
    fresh.write_text(f"{key} {_listing(made)}", "utf-8")
    fresh.replace(stamp)


@contextmanager
def aside(step: str, target: Path, inner: str = "") -> Iterator[Path]:
    """An empty folder to make something in; only when all of it went well does it take the target's place.

    With `inner` it is the folder of that name inside it that does. What an earlier run that was broken off
    has left is cleared first.
    """
    forget(step)
    for left in WORK.glob(f"{step}-*"):
        shutil.rmtree(left, ignore_errors=True)
    fresh = WORK / f"{step}-new"
    fresh.mkdir(parents=True)
    yield fresh
    if target.is_symlink() or target.is_file():
        target.unlink()
    elif target.exists():
        target.rename(WORK / f"{step}-old")
    (fresh / inner).rename(target)
    for left in (fresh, WORK / f"{step}-old"):
        shutil.rmtree(left, ignore_errors=True)


_held = False


@contextmanager
def alone() -> Iterator[None]:
    """One build at a time in this folder: two at once would clear away what the other is making."""
    global _held
    if _held:
        yield
        return
    WORK.mkdir(parents=True, exist_ok=True)
    with (WORK / "lock").open("w") as lock:
        _wait_for(lock)
        _held = True
        try:
            yield
        finally:
            _held = False


def _wait_for(lock: IO[str]) -> None:
    if sys.platform == "win32":
        return  # a file cannot be locked this way there; two builds at once are the person's own care
    import fcntl

    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        say("Another build is going on in this folder; waiting for it.")
        fcntl.flock(lock, fcntl.LOCK_EX)


def need_whole() -> None:
    """Raises Stop when a part of the project that every command needs is not there."""
    generator = ROOT / "tests" / "generated_requests.py"
    for file in (CORE / "job.py", WEB / "index.html", ROOT / "NOTICES", generator):
        if not file.is_file():
            name = file.relative_to(ROOT).as_posix()
            part = {"calc": "The core", "web": "The page"}.get(name.split("/")[0], "A part of the project")
            raise Stop(f"{part} is not here: {name} is missing. Is the copy of the project complete?")
