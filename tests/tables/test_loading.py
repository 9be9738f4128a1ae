"""Nothing is read before it is asked for, and reading all of it is quick."""

from __future__ import annotations

import subprocess
import sys

from calc.tables import ALL_SERIES, all_tapers

STARTED = """
import calc.tables
from calc.tables import ALL_SERIES, find_taper
from calc.tables.loader import load
listed = [(each.value, each.label) for each in ALL_SERIES]
print(len(listed), load.cache_info().currsize)
find_taper("Jarno", "6")
print(load.cache_info().currsize)
"""

TIMED = """
import time
import calc.tables
begun = time.process_time()
count = len(calc.tables.all_tapers())
print(count, time.process_time() - begun)
"""


def _run(*arguments: str) -> list[str]:
    return subprocess.run(
        [sys.executable, *arguments], check=True, capture_output=True, text=True
    ).stdout.split()


def test_the_list_of_series_costs_no_reading() -> None:
    """Also without docstrings and asserts; one family asked for is one file read."""
    for flags in ((), ("-OO",)):
        assert _run(*flags, "-c", STARTED) == [str(len(ALL_SERIES)), "0", "1"]


def test_all_families_load_quickly() -> None:
    """Meant to take under 20 ms of processor time; four times that is let pass on a busy machine."""
    count, best = "", 1.0
    for _ in range(3):
        count, seconds = _run("-c", TIMED)
        best = min(best, float(seconds))
    assert count == str(len(all_tapers()))
    assert best < 0.08
