"""How the build speaks: short lines of progress, and failures that say what to do."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path


class Stop(Exception):
    """The build cannot go on; the text says why and what the person can do."""


def say(text: str) -> None:
    """One line to the person, at once."""
    print(text, flush=True)


@contextmanager
def step(text: str) -> Iterator[None]:
    """Names a long step when it starts and says how long it took."""
    say(f"- {text} ...")
    begun = time.monotonic()
    yield
    say(f"  done in {time.monotonic() - begun:.1f} s")


def run(
    command: Sequence[str | Path],
    *,
    way_out: str,
    cwd: Path | None = None,
    env: Mapping[str, str] | None = None,
    given: str | None = None,
) -> str:
    """Run a command quietly and return what it printed.

    Raises Stop with the end of its output and the way out when it fails.
    """
    words = [str(word) for word in command]
    try:
        done = subprocess.run(
            words,
            cwd=cwd,
            env=None if env is None else {**os.environ, **env},
            input=given,
            stdin=subprocess.DEVNULL if given is None else None,
            capture_output=True,
            text=True,
            encoding="utf-8",
        )
    except OSError as fault:
        raise Stop(f"Could not start {words[0]}: {fault.strerror}.\n{way_out}") from fault
    if done.returncode != 0:
        lines = (done.stdout + done.stderr).strip().splitlines()[-25:]
        tail = "\n".join(line if len(line) < 300 else line[:300] + " ..." for line in lines)
        raise Stop(f"{tail}\n\nFailed: {' '.join(words[:6])}\n{way_out}")
    return done.stdout


def run_openly(command: Sequence[str | Path], *, cwd: Path, env: Mapping[str, str] | None = None) -> int:
    """Run a command whose output the person sees as it comes; returns its exit code."""
    sys.stdout.flush()
    words = [str(word) for word in command]
    return subprocess.run(
        words, cwd=cwd, env={**os.environ, **(env or {})}, stdin=subprocess.DEVNULL
    ).returncode
