"""The builder's modules for tests: the project's folder is on the path only while they are imported, so that
the core under test stays the installed one."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]

sys.path.insert(0, str(ROOT))
try:
    from builder import checks, outside, places, say, server, site
finally:
    sys.path.remove(str(ROOT))

__all__ = ["ROOT", "build_in", "checks", "copy_of_project", "outside", "places", "say", "server", "site"]

_PARTS = ("build.py", "builder", "bench", "calc", "web", "tests", "requirements", "NOTICES", "pyproject.toml")


def copy_of_project(folder: Path, *without: str) -> Path:
    """The project's own files in another folder, some left out."""
    for part in _PARTS:
        source = ROOT / part
        if part in without:
            continue
        if source.is_dir():
            skipped = shutil.ignore_patterns("node_modules", "__pycache__", "generated")
            shutil.copytree(source, folder / part, ignore=skipped)
        else:
            shutil.copyfile(source, folder / part)
    return folder


def build_in(
    folder: Path, *words: str, user: int | None = None, python: str = sys.executable
) -> subprocess.CompletedProcess[str]:
    """What `build.py` of that folder says; for commands that end before anything is fetched."""
    return subprocess.run(
        [python, folder / "build.py", *words],
        capture_output=True, text=True, stdin=subprocess.DEVNULL, timeout=60, user=user,
    )  # fmt: skip
