"""A changed line is tried against the tests that reach it: no fewer, and all where any may."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest

import mutants_reach

SOURCE = """LIMIT = 3


def over(value):
    if value > LIMIT:
        return max(
            value,
            LIMIT,
        )
    return 0
"""


@pytest.fixture
def copy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A core of one file, and what its two tests were seen to reach."""
    monkeypatch.chdir(tmp_path)
    for place in ("calc", "as_it_was/calc"):
        (tmp_path / place).mkdir(parents=True)
        (tmp_path / place / "room.py").write_text(SOURCE, "utf-8")
    lines = {"1": [""], "4": [""], "5": ["two", "one"], "6": ["two"], "10": ["", "one"]}
    (tmp_path / "reach.json").write_text(json.dumps({"calc/room.py": lines}), "utf-8")
    (tmp_path / "order.json").write_text(json.dumps(["one", "two"]), "utf-8")
    return tmp_path / "calc" / "room.py"


@pytest.mark.parametrize(
    ("old", "new", "tests"),
    [
        ("= 3", "= 4", ([], True)),  # seen by whatever imports it
        ("value >", "value >=", (["one", "two"], False)),
        ("            LIMIT", "            -LIMIT", (["two"], False)),  # a line in a longer one
        ("return 0", "return 1", (["one"], True)),  # also run while tests were listed
    ],
)
def test_the_tests_that_reach_a_changed_line(
    copy: Path, old: str, new: str, tests: tuple[list[str], bool]
) -> None:
    assert mutants_reach.reaching("room.py") == ([], True)  # nothing is changed: all are run
    copy.write_text(SOURCE.replace(old, new), "utf-8")
    assert mutants_reach.reaching("room.py") == tests


@pytest.mark.parametrize(
    ("lines", "noticed", "runs"),
    [
        ({"5": ["one"]}, False, []),  # no test comes there: nobody can notice
        ({"10": ["one"]}, False, [["one"]]),
        ({"10": ["", "one"]}, False, [["one"], ["tests/all"]]),
        ({"10": ["", "one"]}, True, [["one"]]),
    ],
)
def test_all_are_run_only_where_they_may_notice_what_those_did_not(
    copy: Path,
    monkeypatch: pytest.MonkeyPatch,
    lines: dict[str, list[str]],
    noticed: bool,
    runs: list[list[str]],
) -> None:
    started: list[list[str]] = []

    def run(words: list[str]) -> subprocess.CompletedProcess[str]:
        started.append(words[words.index("no:cacheprovider") + 1 :])
        return subprocess.CompletedProcess(words, int(noticed))

    monkeypatch.setattr(mutants_reach, "resource", None)
    monkeypatch.setattr(mutants_reach.subprocess, "run", run)
    copy.write_text(SOURCE.replace("return 0", "return 1"), "utf-8")
    (copy.parents[1] / "reach.json").write_text(json.dumps({"calc/room.py": lines}), "utf-8")
    assert mutants_reach.attempt("room.py", ["tests/all"]) == int(noticed)
    assert started == runs
