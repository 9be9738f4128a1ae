"""A changed line is tried against the tests that reach it: no fewer, and all where any may."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from own_builder import mutants_reach

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
    lines = {"1": [""], "4": [""], "5": ["two", "one"], "6": ["two"], "10": ["one"]}
    (tmp_path / "reach.json").write_text(json.dumps({"calc/room.py": lines}), "utf-8")
    (tmp_path / "order.json").write_text(json.dumps(["one", "two"]), "utf-8")
    return tmp_path / "calc" / "room.py"


@pytest.mark.parametrize(
    ("old", "new", "tests"),
    [
        ("= 3", "= 4", None),  # seen by whatever imports it
        ("value >", "value >=", ["one", "two"]),
        ("            LIMIT", "            -LIMIT", ["two"]),  # a line of its own in a longer statement
        ("return 0", "return 1", ["one"]),
    ],
)
def test_the_tests_that_reach_a_changed_line(
    copy: Path, old: str, new: str, tests: list[str] | None
) -> None:
    assert mutants_reach.reaching("room.py") is None  # nothing is changed: all are run
    copy.write_text(SOURCE.replace(old, new), "utf-8")
    assert mutants_reach.reaching("room.py") == tests


def test_what_no_test_reaches_starts_none(copy: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[object] = []
    monkeypatch.setattr(os, "execv", lambda *words: started.append(words))
    copy.write_text(SOURCE.replace("return 0", "return 1"), "utf-8")
    (copy.parents[1] / "reach.json").write_text(json.dumps({"calc/room.py": {"5": ["one"]}}), "utf-8")
    mutants_reach.attempt("room.py", ["tests/all"])
    assert started == []
