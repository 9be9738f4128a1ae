"""A test that failed beside others in a browser runs once more by itself; a fault fails then, too."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from own_builder import checks

AT_FIRST_ONLY = """
from pathlib import Path
def test_that_raced():
    seen = Path("seen")
    first = not seen.exists()
    seen.touch()
    assert not first
"""
ALWAYS = "def test_that_fails():\n    assert False\n"
MANY = "".join(f"def test_{at}():\n    assert False\n" for at in range(checks.FEW + 1))


@pytest.mark.parametrize(
    ("text", "code", "runs"),
    [(AT_FIRST_ONLY, 0, 1), (ALWAYS, checks.TESTS_FAILED, 1), (MANY, checks.TESTS_FAILED, 0)],
    ids=["raced", "fault", "many"],
)
def test_only_what_passes_by_itself_is_forgiven(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capfd: pytest.CaptureFixture[str],
    text: str,
    code: int,
    runs: int,
) -> None:
    monkeypatch.setattr(checks, "ROOT", tmp_path)
    (tmp_path / "pytest.ini").write_text("[pytest]\n")
    (tmp_path / "test_made_up.py").write_text(text)
    command: list[str | Path] = [sys.executable, "-m", "pytest", "-q", "test_made_up.py"]
    # Only what pytest itself brings: to load all the rest takes longer than to run these.
    env = {**os.environ, "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    assert checks.run_openly(command, cwd=tmp_path, env=env) == checks.TESTS_FAILED
    capfd.readouterr()
    assert checks.once_more(command, env) == code
    told = capfd.readouterr().out
    assert told.count("once more") == runs
    assert ("test_that_raced" in told) == (code == 0)
