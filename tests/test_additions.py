"""In a copy of the core: a new way, series and stage touch what DEVELOPERS.md says, and nothing more."""

from __future__ import annotations

import json
import math
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.demo import demo_request
from calc.job import work

WAY = '''"""A bevel protractor held against the slide: for this check alone."""

from calc.doubt.figures import figure
from calc.setting.anew import Anew
from calc.setting.common import said
from calc.setting.way import Answer

ID, LABEL, ASKS, IMMUNE, CUTS_BY, RESOLUTION = "protractor", "Bevel protractor", (), "", "slide", ""
FEELS = ("setting.graduation_give", "setting.axis_give", "setting.play_give")
SNAGS = ("It reads to five minutes.",)


def refusal(task):
    """Any angle can be set."""
    return ""


def set_up(task):
    """The half angle itself."""
    got = task.doubt("setting.graduation_give", task.half_angle) + task.slope("setting.axis_give") / 2.0
    told = figure("setting.degrees", "Set it to", task.half_angle, "rad", (), "Geometry", lead=True)
    return Answer([told], angle=got + task.slope("setting.play_give"))


def correct(task, error, was=None):
    """What it was set to, less the error."""
    before = task.half_angle if was is None else was
    anew = Anew.after(task, error, before)
    now, spread = anew.aim, set_up(task).angle
    words = "Set the protractor to {now} in place of {was}."
    return anew.correction("degrees", "Set it now to", now, "rad", before, now.value, "less the error", words,
                           angle=anew.cuts(now.value, spread))


def steps(task, answer, stack_words):
    """What to do."""
    hold = said("hold", "Hold the protractor against the top slide.", cautions=("stopped",))
    return [hold, said("tighten", "Tighten.")]
'''
ROWS = """series,size,datum,value,unit,standard,edition,sources,confidence,note
Shed,1,rate,1:16,ratio,"invented, for a check",none,memory,from_memory,
Shed,1,large_diameter,20,mm,"invented, for a check",none,memory,from_memory,
Shed,1,length,40,mm,"invented, for a check",none,memory,from_memory,
"""
STAGE = '''"""A stage that asks and finds nothing: for this check alone."""

from calc.sheet import Stage

ID, IDS, SHOP = "nothing", (), ()


def work(job):
    """Nothing is found."""
    return None


def sheet(job):
    """Nothing is said."""
    return Stage(ID, "Nothing", "Nothing to do.")
'''


def line_more(path: Path, opening: str, line: str, before: str = "") -> None:
    """One line more at the end of the list that begins so, and its import above the list."""
    text = path.read_text("utf-8")
    found = re.search(rf"^{re.escape(opening)}.*?^\)$", text, flags=re.DOTALL | re.MULTILINE)
    assert found is not None, f"{path.name} has no list {opening}"
    listed = found.group()[:-1] + f"    {line},\n)"
    path.write_text(text.replace(found.group(), before + listed), "utf-8")


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The core with a way, a series and a stage more: three new files, and a line in each of three lists."""
    folder = tmp_path_factory.mktemp("copy")
    core = folder / "calc"
    shutil.copytree(Path(str(calc.__file__)).parent, core, ignore=shutil.ignore_patterns("__pycache__"))
    (core / "setting" / "protractor.py").write_text(WAY, "utf-8")
    line_more(
        core / "setting" / "__init__.py", "WAYS:", "protractor", "from calc.setting import protractor\n\n"
    )
    (core / "tables" / "shed.csv").write_text(ROWS, "utf-8")
    line_more(core / "tables" / "series.py", "ALL_SERIES:", 'Series("Shed", "Shed tapers, invented", "shed")')
    (core / "stages" / "nothing").mkdir()
    (core / "stages" / "nothing" / "__init__.py").write_text(STAGE, "utf-8")
    line_more(core / "stages" / "__init__.py", "STAGES:", "nothing", "from calc.stages import nothing\n\n")
    return folder


def told(folder: Path, entries: dict[str, str]) -> dict[str, Any]:
    """What the copy answers on the demonstration job with these entries changed."""
    request: dict[str, Any] = dict(demo_request())
    request["entries"] = {**request["entries"], **entries}
    done = subprocess.run(
        [sys.executable, "-m", "calc", "--json"],
        input=json.dumps(request),
        capture_output=True,
        encoding="utf-8",
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder), "PYTHONUTF8": "1"},
    )
    assert done.returncode == 0, done.stderr
    answer: dict[str, Any] = json.loads(done.stdout)
    assert answer["problems"] == []
    return answer


def choices(answer: dict[str, Any], name: str) -> list[str]:
    field = next(each for stage in answer["stages"] for each in stage["fields"] if each["id"] == name)
    return [each["value"] for each in field["choices"]]


def figures(answer: dict[str, Any]) -> dict[str, Any]:
    return {each["id"]: each for stage in answer["stages"] for each in stage["figures"]}


def test_the_rest_says_what_it_said(copy: Path) -> None:
    """Nothing else of the answer changes: neither figures, but for lists of ways and series, nor steps."""
    before, after = work(demo_request()), told(copy, {})
    for old in before["stages"]:
        new = next(each for each in after["stages"] if each["id"] == old["id"])
        assert new["line"] == old["line"] and new["steps"] == old["steps"]
        for one, other in zip(old["figures"], new["figures"], strict=True):
            assert one == other or one["id"] in ("setting.ways", "chart.tapers"), one["id"]


def test_a_way_more(copy: Path) -> None:
    answer = told(copy, {"setting.way": "protractor"})
    assert choices(answer, "setting.way")[-1] == "protractor"
    found = figures(answer)
    # Morse 2 is 1:20.020 (ISO 296).
    assert found["setting.degrees"]["value"] == pytest.approx(math.atan(1 / 40.04), rel=1e-9)
    assert 0.0 < found["setting.chance"]["value"] < 1.0
    assert "protractor" in [each["id"] for each in found["setting.ways"]["value"]]
    felt = {each["id"] for each in found["setting.budget"]["value"]}
    assert {"setting.graduation_give", "setting.play_give"} <= felt


def test_a_series_more(copy: Path) -> None:
    answer = told(copy, {"taper.series": "Shed", "taper.size": "1"})
    assert "Shed" in choices(answer, "taper.series") and "Shed" in choices(answer, "chart.series")
    found = figures(answer)
    assert found["taper.rate"]["value"] == 1 / 16
    assert found["taper.small_diameter"]["value"] == pytest.approx(20 - 40 / 16)
    measured = {"taper.series": "unknown", "taper.size": "", "taper.large_diameter": "19.5"}
    named = told(copy, {**measured, "taper.small_diameter": "17.625", "taper.length": "30"})
    assert figures(named)["taper.candidates"]["value"][0]["series"] == "Shed"


def test_a_stage_more(copy: Path) -> None:
    answer = told(copy, {})
    assert answer["stages"][-1]["id"] == "nothing" and answer["stages"][-1]["line"] == "Nothing to do."
    known = [each["id"] for each in work(demo_request())["stages"]]
    assert [each["id"] for each in answer["stages"][:-1]] == known
