"""What is amiss with the machine or the copy of the project is said in a sentence, never as a trace."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from own_builder import build_in, copy_of_project


def _in_words(told: subprocess.CompletedProcess[str], *texts: str) -> None:
    whole = told.stdout + told.stderr
    assert told.returncode != 0, whole
    assert "Traceback" not in whole, whole
    for text in texts:
        assert text in whole


@pytest.mark.parametrize("command", ["site", "serve", "test", "bench"])
def test_a_missing_core_is_a_sentence(tmp_path: Path, command: str) -> None:
    copy_of_project(tmp_path, "calc")
    _in_words(build_in(tmp_path, command), "The core is not here: calc/job.py is missing.")


def test_a_missing_page_is_a_sentence(tmp_path: Path) -> None:
    copy_of_project(tmp_path, "web")
    _in_words(build_in(tmp_path, "site"), "The page is not here: web/index.html is missing.")


@pytest.mark.parametrize("port", ["70000", "-1", "http", "8765.5", "9" * 5000, ""])
def test_a_bad_port_is_a_sentence(tmp_path: Path, port: str) -> None:
    copy_of_project(tmp_path, "web", "tests", "calc")
    _in_words(build_in(tmp_path, "serve", f"--port={port}"), "argument --port")


def test_a_folder_that_cannot_be_written_is_a_sentence(tmp_path: Path) -> None:
    copy_of_project(tmp_path)
    (tmp_path / ".build").write_text("not a folder")
    _in_words(build_in(tmp_path, "site"), "Stopped. ", ".build", "may this account write")


def _nobody_can_run(python: str, folder: Path) -> bool:
    try:
        return subprocess.run([python, "-c", ""], user=65534, cwd=folder).returncode == 0
    except OSError:
        return False


def test_a_folder_of_somebody_else_is_a_sentence() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = copy_of_project(Path(name))
        if os.geteuid() != 0:
            folder.chmod(0o555)
            told = build_in(folder, "site")
            folder.chmod(0o755)
        else:
            folder.chmod(0o755)
            pythons = [each for each in (sys.executable, "/usr/bin/python3") if _nobody_can_run(each, folder)]
            if not pythons:
                pytest.skip("no Python here that another account may run")
            told = build_in(folder, "site", user=65534, python=pythons[0])
    _in_words(told, "Stopped. ", "may this account write")
