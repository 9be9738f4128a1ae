"""Which tests reach which lines of a room, so that a changed line is tried against these alone.

Run by the private Python in a copy of the core and its tests:

    coverage run -m pytest -p mutants_reach ...    as a plugin it tells coverage which test begins
    python mutants_reach.py note ROOM              writes what was seen to reach.json
    python mutants_reach.py try ROOM TEST ...      finds the changed line and runs the tests that reach it

A line that is also run outside of any test, when a module is imported or while tests are listed, may matter
to any: where those that reach it notice nothing, all of the room's are run. A room's caches are emptied
before each test, or what one test made another would use unseen.
"""

from __future__ import annotations

import ast
import importlib
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

try:
    import resource
except ImportError:  # not on every system
    resource = None  # type: ignore[assignment]

_MEMORY = 3 << 30
REACH = Path("reach.json")
AS_IT_WAS = Path("as_it_was")
Reach = dict[str, dict[str, list[str]]]


def _forget(room: str) -> None:
    for name in [each for each in sys.modules if each == room or each.startswith(f"{room}.")]:
        for one in list(vars(sys.modules[name]).values()):
            if callable(getattr(one, "cache_clear", None)):
                one.cache_clear()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    """What runs from here on runs for this test."""
    coverage: Any = importlib.import_module("coverage")
    seen = coverage.Coverage.current()
    _forget(os.environ["CONEWRIGHT_ROOM"])
    seen.switch_context(item.nodeid)
    yield
    seen.switch_context("")


def _files(place: Path) -> list[Path]:
    return [place] if place.is_file() else sorted(place.rglob("*.py"))


def note(room: str) -> None:
    """By file and line the tests that reached it, in the order in which they ran; "" stands for an import."""
    coverage: Any = importlib.import_module("coverage")
    data = coverage.CoverageData(".coverage")
    data.read()
    order = {name: place for place, name in enumerate(json.loads(Path("order.json").read_text("utf-8")))}
    reach: Reach = {}
    for file in _files(Path("calc", room)):
        lines = data.contexts_by_lineno(str(file.resolve()))
        reach[file.as_posix()] = {
            str(line): sorted(names, key=lambda name: order.get(name, -1)) for line, names in lines.items()
        }
    REACH.write_text(json.dumps(reach), "utf-8")


def pytest_collection_finish(session: pytest.Session) -> None:
    """In which order they run is kept: the quick ones stand first in each room's list."""
    Path("order.json").write_text(json.dumps([item.nodeid for item in session.items]), "utf-8")


def _changed(room: str) -> tuple[str, int] | None:
    """The file and line that are not as they were."""
    for file in _files(Path("calc", room)):
        new, old = file.read_text("utf-8"), (AS_IT_WAS / file).read_text("utf-8")
        if new != old:
            pairs = enumerate(zip(old.splitlines(), new.splitlines(), strict=False), 1)
            return file.as_posix(), next((line for line, (one, two) in pairs if one != two), 1)
    return None


def _statement(source: str, line: int) -> range:
    """The lines of the statement in which a line stands; of one that holds others, those before them."""
    found = range(line, line + 1)
    size = sys.maxsize
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.stmt):
            body = getattr(node, "body", None)
            end = body[0].lineno - 1 if isinstance(body, list) and body else node.end_lineno or node.lineno
            lines = range(node.lineno, max(end, node.lineno) + 1)
            if line in lines and len(lines) < size:
                found, size = lines, len(lines)
    return found


def reaching(room: str) -> tuple[list[str], bool]:
    """The tests that reach the changed line, and whether any other may notice it too."""
    place = _changed(room)
    if place is None:
        return [], True
    file, line = place
    reach: Reach = json.loads(REACH.read_text("utf-8"))
    found: dict[str, None] = {}
    for each in _statement((AS_IT_WAS / file).read_text("utf-8"), line):
        found.update(dict.fromkeys(reach.get(file, {}).get(str(each), [])))
    order = {name: at for at, name in enumerate(json.loads(Path("order.json").read_text("utf-8")))}
    return sorted(filter(None, found), key=lambda name: order[name]), "" in found


def attempt(room: str, tests: list[str]) -> int:
    """Run what is to be run; 0 where nothing was noticed."""
    chosen, any_other = reaching(room)
    if resource is not None:  # a loop that no longer ends may also fill the machine
        resource.setrlimit(resource.RLIMIT_AS, (_MEMORY, _MEMORY))
    words = ["-q", "-x", "--assert=plain", "-m", "not deep", "-p", "no:cacheprovider"]
    for some in [chosen, tests if any_other else []]:
        code = subprocess.run([sys.executable, "-m", "pytest", *words, *some]).returncode if some else 0
        if code:
            return code
    return 0


if __name__ == "__main__":
    if sys.argv[1] == "note":
        note(sys.argv[2])
    else:
        sys.exit(attempt(sys.argv[2], sys.argv[3:]))
