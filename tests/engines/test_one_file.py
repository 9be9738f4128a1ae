"""The page as one file, opened from a disk in three engines: it answers, and keeps or says so."""

from __future__ import annotations

import math
import shutil
from pathlib import Path

import pytest

from engines.engine import Engine
from engines.hands import ANSWERED, JOB, keep, kept_names, number_is
from in_browser import ROOT

pytestmark = pytest.mark.deep

BUILT = ROOT / "single" / "conewright.html"


def test_it_answers_and_keeps_what_it_is_given_or_says_that_it_cannot(engine: Engine, tmp_path: Path) -> None:
    if not BUILT.is_file():
        pytest.fail("single/ is missing: run `python3 build.py single`, or the tests through build.py test")
    file = tmp_path / "my lathe.html"
    shutil.copyfile(BUILT, file)
    engine.open(file.as_uri() + JOB.format("100mm"))
    engine.wait(ANSWERED, 90)
    # Morse 2 is 1:20.020 on diameter (ISO 296); the height by the sine of the half angle.
    number_is(engine, f"{100 * math.sin(math.atan(1 / 20.020 / 2)):.4f}")
    assert "in this one file" in engine.text(".status")
    keep(engine, "sleeve")
    engine.wait("document.querySelector('.kept-name, .kept .fault') !== null")
    if kept_names(engine) == ["sleeve"]:
        engine.reload()
        engine.wait("document.querySelector('.kept-name')?.textContent === 'sleeve'")
    else:
        assert "Keep the link" in engine.text(".kept")
    asked = engine.evaluate("performance.getEntriesByType('resource').map(({ name }) => name)")
    assert not [address for address in asked if address.startswith("http")]
