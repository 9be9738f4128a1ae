"""`build.py mutate`: the core changed in one small place after another, to see whether its tests notice.

Cosmic Ray changes a copy of the core, never the source itself. Each room is tried against the tests that are
about it, and of these against such as reach the changed line, the quick ones first; of its places as many are
drawn as asked for, from a stated seed.
"""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from pathlib import Path

from builder.machine import ensure_venv
from builder.places import CORE, ROOT, WORK
from builder.say import Stop, run, run_openly, say, step

_LONGEST = 240
"""Seconds that one changed core may take for its tests: a loop that no longer ends counts as noticed."""

_REACH = ROOT / "tests" / "mutants_reach.py"
_QUIET = ("-q", "--assert=plain", "-m", "not deep", "-p", "no:cacheprovider")
_FEW = {"CONEWRIGHT_EXAMPLES": "few", "PYTHONUTF8": "1", "PYTHONDONTWRITEBYTECODE": "1"}

ROOMS: dict[str, tuple[str, ...]] = {
    "quantities": (
        "quantities",
        "test_cone.py",
        "published/test_taper_conversion.py",
        "fuzz/test_readers.py",
    ),
    "cone.py": ("test_cone.py", "published/test_taper_conversion.py", "test_units_switch.py"),
    "doubt": (
        "doubt/test_exact.py",
        "doubt",
        "proving",
        "setting/test_budget_stage.py",
        "setting/test_followed.py",
    ),
    "setting": (
        "published/test_sine_bar.py",
        "published/test_set_over.py",
        "published/test_slide_and_attachment.py",
        "setting/test_plan.py",
        "setting/test_words.py",
        "hands",
        "setting/test_ways_physics.py",
        "setting/test_correct.py",
        "setting/test_ways_laws.py",
        "setting",
    ),
    "gauging": ("published/test_gauging.py", "gauging/test_weighing.py", "gauging", "proving", "hands"),
    "drawer": ("drawer/test_line.py", "drawer/test_sieve.py", "drawer/test_published_stacks.py", "drawer"),
    "identify": (
        "identify/test_holding.py",
        "identify/test_stand_off.py",
        "identify/test_next.py",
        "identify/test_stage.py",
        "identify/test_identify.py",
        "identify/test_roads.py",
        "identify/test_assumptions.py",
    ),
    "machining": ("published/test_cutting.py", "published/test_iso286.py", "machining"),
}
"""Each room of the core that is tried, and below tests/ what is about it."""


def _config(room: str, command: str) -> str:
    return (
        f'[cosmic-ray]\nmodule-path = "calc/{room}"\ntimeout = {_LONGEST}.0\nexcluded-modules = []\n'
        f'test-command = "{command}"\n\n[cosmic-ray.distributor]\nname = "local"\n'
    )


def _copy(folder: Path) -> None:
    """The core and its tests, aside: what is changed is changed there."""
    shutil.rmtree(folder, ignore_errors=True)
    left_out = shutil.ignore_patterns("__pycache__", "browser", "builder")
    for each in (CORE, ROOT / "tests"):
        shutil.copytree(each, folder / each.name, ignore=left_out)
    shutil.copyfile(ROOT / "pyproject.toml", folder / "pyproject.toml")


def _note_reach(python: Path, room: str, folder: Path, way_out: str) -> None:
    """Which of the room's tests reach which of its lines: written beside the copy."""
    shutil.copytree(folder / "calc", folder / "as_it_was" / "calc", ignore=shutil.ignore_patterns("*.pyc"))
    env = {**_FEW, "PYTHONPATH": str(folder / "tests"), "CONEWRIGHT_ROOM": f"calc.{room.removesuffix('.py')}"}
    watched: list[str | Path] = [python, "-m", "coverage", "run"]
    watched.append(f"--include=calc/{room}" if room.endswith(".py") else f"--include=calc/{room}/*")
    tests = [f"tests/{each}" for each in ROOMS[room]]
    watched += ["-m", "pytest", "-p", "mutants_reach", *_QUIET]
    run([*watched, *tests], way_out=way_out, cwd=folder, env=env)
    run([python, _REACH, "note", room], way_out=way_out, cwd=folder)


def _try_room(python: Path, room: str, count: int, seed: int) -> int:
    folder = WORK / "mutants" / room.removesuffix(".py")
    _copy(folder)
    tests = " ".join(f"tests/{each}" for each in ROOMS[room])
    # Nothing is compiled twice: hashes tell which module was changed, whatever its time says.
    compiled: list[str | Path] = [python, "-m", "compileall", "-q", "--invalidation-mode", "checked-hash"]
    (folder / "mutants.toml").write_text(_config(room, f"{python} {_REACH} try {room} {tests}"), "utf-8")
    env = _FEW
    tool = python.parent / "cosmic-ray"
    drawn: list[str | Path] = [python, ROOT / "builder" / "mutants_drawn.py"]
    way_out = f"What is left of it lies in {folder}."
    run([*compiled, "calc", "tests"], way_out=way_out, cwd=folder)
    with step(f"{room}: its tests, unchanged"):
        _note_reach(python, room, folder, way_out)
    run([tool, "init", "mutants.toml", "mutants.sqlite"], way_out=way_out, cwd=folder, env=env)
    say(run([*drawn, "draw", "mutants.sqlite", str(count), str(seed)], way_out=way_out, cwd=folder).strip())
    with step(f"{room}: changed"):
        run([tool, "exec", "mutants.toml", "mutants.sqlite"], way_out=way_out, cwd=folder, env=env)
    return run_openly([*drawn, "report", "mutants.sqlite"], cwd=folder)


def run_all(rooms: Sequence[str], count: int, seed: int) -> int:
    """Try the rooms named, or all of them; what no test noticed is printed as a difference."""
    unknown = [room for room in rooms if room not in ROOMS]
    if unknown:
        raise Stop(f"There is no room {', '.join(unknown)}; there are {', '.join(ROOMS)}.")
    ensure_venv("test")
    python = ensure_venv("mutate")
    for room in rooms or ROOMS:
        _try_room(python, room, count, seed)
    return 0
