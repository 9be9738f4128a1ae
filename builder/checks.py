"""`build.py test`: every check in order, stopping at the first kind that fails."""

from __future__ import annotations

import json
import os
import shutil
import time
from collections.abc import Sequence
from pathlib import Path

from builder import outside, single, site
from builder.machine import browser_tool_env, ensure_browser, ensure_node, ensure_packages, ensure_venv
from builder.places import CORE, NODE_MODULES, ROOT, WEB, WORK, forget, is_done, key_of, mark_done, need_whole
from builder.say import run, run_openly, say, step

TESTS_FAILED = 1
"""What pytest ends with when it ran and tests failed."""

FEW = 3
"""Tests in a browser that may be run a second time; more than these do not fail by chance."""

MOST_WORKERS = 4
"""Tests that run at once, at most: more only heat a small machine."""

LONGEST = 180
"""A quick test that takes so long [s] hangs: no other takes a quarter of it."""


def install_core(python: Path) -> None:
    """Build the core's wheel and install it: what is tested is what would be shipped."""
    key = key_of([CORE, ROOT / "pyproject.toml"], str((python.parents[1] / "pyvenv.cfg").stat().st_mtime_ns))
    if is_done("wheel", key):
        return
    forget("wheel")
    with step("building and installing the core's wheel"):
        # From a clean copy: setuptools would take files of an earlier build from its build/ folder.
        source, wheels = WORK / "wheel-source", WORK / "wheel"
        for folder in (source, wheels):
            shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(CORE, source / "calc", ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copyfile(ROOT / "pyproject.toml", source / "pyproject.toml")
        pip: list[str | Path] = [python, "-m", "pip", "--disable-pip-version-check", "--quiet"]
        way_out = "Does pyproject.toml read well? The lines above say what stopped it."
        run(
            [*pip, "wheel", "--no-deps", "--no-build-isolation", "--wheel-dir", wheels, source],
            way_out=way_out,
        )
        run(
            [*pip, "install", "--no-deps", "--no-index", "--force-reinstall", *wheels.glob("*.whl")],
            way_out=way_out,
        )
    mark_done("wheel", key)


def _checks(python: Path, node: str) -> list[tuple[str, list[str | Path], Path]]:
    tools = python.parent
    return [
        (
            "ruff: style",
            [tools / "ruff", "check", "--no-cache", "--quiet", "--output-format", "concise", "."],
            ROOT,
        ),
        ("mypy: types of the core", [python, "-m", "mypy", "--strict", "--no-error-summary", "calc"], ROOT),
        (
            "mypy: types of the builder",
            [python, "-m", "mypy", "--strict", "--no-error-summary", "builder", "bench", "build.py"],
            ROOT,
        ),
        ("import-linter: the floors", [tools / "lint-imports", "--no-cache"], ROOT),
        ("tsc: types of the page", [node, NODE_MODULES / "typescript" / "bin" / "tsc", "-p", "."], WEB),
    ]


ENGINES = "tests/engines"
"""Slow, and where an engine is not on the machine its tests are skipped with the line to type."""


def run_all(words: Sequence[str], *, deep: bool, engines: bool = False) -> int:
    """Run all checks, or with further words only pytest with these; returns the first failure's exit code.

    `engines` is short for the words that name the page's tests in all three engines.
    """
    if engines:
        words = [ENGINES, *words]
    need_whole()
    begun = time.monotonic()
    python = ensure_venv("test")
    node = ensure_node()
    ensure_packages(node)
    browser = ensure_browser(python, node)
    install_core(python)
    site.write_demo()
    if not words:
        for name, command, folder in _checks(python, node.node):
            say(f"- {name}")
            code = run_openly(command, cwd=folder, env=node.env)
            if code != 0:
                say(f"\nStopped: {name.split(':')[0]} found faults; they are listed above.")
                return code
    single.build()
    env = {
        **browser_tool_env(node),
        "CONEWRIGHT_BUILT": "1",
        "CONEWRIGHT_CHROMIUM": browser,
        "PYTHONSAFEPATH": "1",
        "PYTHONUTF8": "1",
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    if deep:
        env["CONEWRIGHT_DEEP"] = "1"
    # A test that hangs is named and the others go on; the deep ones may take their time.
    limits = [f"faulthandler_timeout={LONGEST}", "faulthandler_exit_on_timeout=true"]
    marks = [] if deep or engines else ["-m", "not deep", *(f"-o{each}" for each in limits)]
    colour = ["--color=yes"] if os.isatty(1) else []
    say(f"- pytest: the core and the page (checks so far took {time.monotonic() - begun:.0f} s)")
    pytest: list[str | Path] = [python, "-m", "pytest", "-q", *marks, *colour]
    code = 0
    if words:
        code = run_openly([*pytest, *words], cwd=ROOT, env=env)
    else:
        cores = os.cpu_count() or 1
        built = ["tests/browser", "tests/builder", "tests/test_build.py", ENGINES]
        left_out = [f"--ignore={each}" for each in built]
        # Side by side, as many as there are cores: no test writes where another reads. More in a browser at
        # once make it no quicker, and each so slow that what a person does in a second takes many.
        beside = ["-n", str(min(cores, MOST_WORKERS)), "--dist", "worksteal", "--durations=12"]
        code = run_openly([*pytest, *beside, *left_out, "tests"], cwd=ROOT, env=env)
        if code == 0:
            code = run_openly([*pytest, *beside, *built], cwd=ROOT, env=env)
            if code == TESTS_FAILED and not deep:
                code = once_more([*pytest, *built], env)
        say(f"\n{outside.report()}")
    return code or (measure_branches(python, env) if deep and not words else 0)


def once_more(pytest: Sequence[str | Path], env: dict[str, str]) -> int:
    """Run by themselves the few tests in a browser that failed among the others; returns the exit code.

    What fails then is a fault. What passes then raced with a machine that did too much at once: it is told as
    that, to be mended. Many that fail are a fault whatever a second run says.
    """
    kept = ROOT / ".pytest_cache" / "v" / "cache" / "lastfailed"
    try:
        failed = sorted(json.loads(kept.read_text(encoding="utf-8")))
    except (OSError, ValueError):
        return TESTS_FAILED
    if not 0 < len(failed) <= FEW:
        return TESTS_FAILED
    say(f"- pytest: once more, by themselves, the {len(failed)} that failed")
    code = run_openly([*pytest, "--last-failed", "--last-failed-no-failures", "none"], cwd=ROOT, env=env)
    if code == 0:
        say("Failed beside the others, passed by themselves: each waits for too little and is to be mended.")
        for name in failed:
            say(f"  {name}")
    return code


def measure_branches(python: Path, env: dict[str, str]) -> int:
    """Print which branches of the built wheel the core's own tests reach, the least first.

    Few examples of each law and no simulations are enough for that: watching every line makes a run nearly
    three times as long.
    """
    say("- coverage: branches of the core that its tests reach")
    env = {key: value for key, value in env.items() if key != "CONEWRIGHT_DEEP"}
    env |= {"CONEWRIGHT_EXAMPLES": "few", "COVERAGE_FILE": str(WORK / "coverage")}
    left_out = ["--ignore=tests/browser", "--ignore=tests/test_build.py", "--ignore=tests/calibration"]
    left_out += ["--ignore=tests/identify/test_calibration.py", "--deselect=tests/test_chart.py"]
    pytest: list[str | Path] = ["-m", "pytest", "-q", "-m", "not deep", *left_out, "tests"]
    code = run_openly([python, "-m", "coverage", "run", *pytest], cwd=ROOT, env=env)
    if code == 0:
        code = run_openly([python, "-m", "coverage", "report"], cwd=ROOT, env=env)
    return code
