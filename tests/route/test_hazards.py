"""Safety of use: what can hurt, and on which steps of which jobs it must stand; results near a limit.

Sources: common practice at machine tools, no single source, as in the hazards themselves. The table is made
from what the work is (where it turns, what is held, what is cut), not from the words of the steps.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from door import figure, job
from route.jobs import a_job, sheet

JOBS = range(120)
BY_TOP_SLIDE = {"bar", "one_dial", "two_dials", "master", "graduations", "collars"}
Step = dict[str, Any]


class Work:
    """One job: what was entered, and its steps."""

    def __init__(self, seed: int) -> None:
        self.entries = a_job(seed)["entries"]
        self.steps: list[Step] = sheet(seed)["route"]
        self.phases = {step["phase"] for step in self.steps}
        self.cuts = "cut" in self.phases

    def first(self, *phases: str) -> list[Step]:
        """The first step of each phase that this job has."""
        return [next(s for s in self.steps if s["phase"] == each) for each in phases if each in self.phases]

    def all_of(self, *phases: str) -> list[Step]:
        return [step for step in self.steps if step["phase"] in phases]

    def up_to(self, phase: str, which: Callable[[Step], bool]) -> list[Step]:
        """The steps of a phase up to the first of this kind, which is among them."""
        steps = self.all_of(phase)
        at = next((place for place, step in enumerate(steps) if which(step)), len(steps))
        return steps[: at + 1]

    def before_cutting(self) -> list[Step]:
        """All that is done before the tool first touches the taper."""
        at = [step["phase"] for step in self.steps].index("cut") if self.cuts else len(self.steps)
        return self.steps[:at]


def _between(work: Work) -> bool:
    return work.entries["setting.way"] == "set_over" and work.cuts


def _far(work: Work) -> bool:
    return work.entries.get("setting.cut_side") == "far" and work.cuts


def _blue(step: Step) -> bool:
    return "blue" in step["text"]["mm"].casefold()


MUST: dict[str, tuple[Callable[[Work], bool], Callable[[Work], list[Step]]]] = {
    # hazard: which jobs have it, and on one of which steps it has to stand at the latest.
    "long_bar": (lambda w: "saw" in w.phases, lambda w: w.first("saw")),
    "swarf": (lambda w: w.cuts, lambda w: w.up_to("cut", lambda step: step["stage"] == "cutting")),
    "handle": (lambda w: w.cuts and w.entries["setting.way"] in BY_TOP_SLIDE, lambda w: w.before_cutting()),
    "carrier": (_between, lambda w: w.before_cutting()),
    "centre": (_between, lambda w: w.before_cutting()),
    "far_side": (_far, lambda w: w.before_cutting()),
    "screwed_chuck": (_far, lambda w: w.before_cutting()),
    "stopped": (lambda w: "prove" in w.phases, lambda w: w.first("prove")),
    "warm": (lambda w: "prove" in w.phases, lambda w: w.all_of("prove")),
    "blue": (
        lambda w: any(_blue(step) for step in w.all_of("prove")),
        lambda w: w.up_to("prove", _blue),
    ),
    "milling": (lambda w: "flats" in w.phases, lambda w: w.first("flats")),
    "sharp": (lambda w: "flats" in w.phases, lambda w: w.all_of("flats")),
    "filing": (lambda w: any(s["id"] == "cutting.last_cut" for s in w.steps), lambda w: w.all_of("finish")),
    "parting": (
        lambda w: any(re.search("saw off|part it", s["text"]["mm"]) for s in w.all_of("part")),
        lambda w: w.all_of("part"),
    ),
}  # fmt: skip
NEVER: dict[str, Callable[[Work, Step], bool]] = {
    # hazard: where its words would be false.
    "handle": lambda work, step: work.entries["setting.way"] in ("set_over", "attachment"),
    "far_side": lambda work, step: not _far(work),
    "screwed_chuck": lambda work, step: not _far(work),
    "milling": lambda work, step: step["phase"] not in ("flats", "part", "finish"),
    "long_bar": lambda work, step: step["phase"] != "saw",
    "parting": lambda work, step: step["phase"] != "part",
    "blue": lambda work, step: step["phase"] not in ("prove", "finish"),
}
HURTS = {"job", "stopped", "swarf", "handle", "parting", "carrier", "screwed_chuck", "far_side", "long_bar",
         "milling", "filing"}  # fmt: skip
"""What takes a finger or more: shown as a danger, not as advice."""


@pytest.mark.parametrize("hazard", MUST)
def test_each_hazard_is_told_before_it_can_hurt(hazard: str) -> None:
    has, where = MUST[hazard]
    seen = 0
    for seed in JOBS:
        work = Work(seed)
        if has(work):
            seen += 1
            named = [step["id"] for step in where(work) if hazard in step["cautions"]]
            assert named, (seed, work.entries, [step["id"] for step in where(work)])
    assert seen >= 5, "the jobs must hold this hazard often enough to say anything"


BESIDE: dict[str, tuple[str, ...]] = {
    # what a step has one do, in its own words: the cautions that stand on that very step.
    r"mandrel or arbor .* between centres": ("carrier", "centre"),
    r"discs of one thickness, sharp|until its edge bears": ("keen",),
    r"[Nn]ext section.*unlock the carriage": ("stopped",),
    r"socket: spindle stopped": ("stopped",),
    r"[Ss]tand it small end down": (),
}
UNKNOWN = [{"taper.series": "unknown", "taper.form": form} for form in ("external", "internal")]
SHORT_SLIDE = {"taper.series": "Morse", "taper.size": "3", "cutting.slide_travel": "40 mm"}


def test_what_a_step_has_one_do_brings_its_caution_with_it() -> None:
    """Measuring an unknown socket and a taper in sections too, which the jobs drawn above never are."""
    steps = [step for seed in JOBS for step in sheet(seed)["route"]]
    for entries in (*UNKNOWN, SHORT_SLIDE):
        steps += job(entries)["route"]
    for words, cautions in BESIDE.items():
        found = [step for step in steps if re.search(words, step["text"]["mm"])]
        assert found, words
        for step in found:
            assert set(cautions) <= set(step["cautions"]), (step["id"], step["text"]["mm"])


@pytest.mark.parametrize("hazard", NEVER)
def test_no_hazard_is_told_where_it_is_none(hazard: str) -> None:
    """A warning that is false makes the true ones cheap."""
    for seed in JOBS:
        work = Work(seed)
        for step in work.steps:
            assert hazard not in step["cautions"] or not NEVER[hazard](work, step), (seed, step["id"])


def test_every_hazard_named_is_in_the_table_and_of_its_level() -> None:
    told: dict[str, str] = {}
    for seed in JOBS:
        answer = sheet(seed)
        for caution in (*answer["cautions"], *(c for stage in answer["stages"] for c in stage["cautions"])):
            if caution["id"]:
                told[caution["id"]] = caution["level"]
        if answer["route"]:
            assert answer["cautions"][0]["id"] == "job"
    named = {name for seed in JOBS for step in sheet(seed)["route"] for name in step["cautions"]}
    assert named - set(MUST) <= {"warm_spigot"}
    assert {name for name in told if told[name] == "danger"} >= HURTS & set(told)
    assert set(told) >= HURTS


def _cautions(answer: dict[str, Any], stage: str) -> Iterator[str]:
    for each in next(one for one in answer["stages"] if one["id"] == stage)["cautions"]:
        yield each["text"]


def _cone(half: float) -> dict[str, str]:
    """Entries of a short cone of this half angle [degrees]."""
    return {"taper.half_angle": f"{half} deg", "taper.large_diameter": "40 mm", "taper.length": "10 mm"}


@pytest.mark.parametrize(
    ("way", "limit", "words"),
    [
        # Where each is said to begin stands in its words; just short of it nothing may be said.
        ("bar", 45.0, "Past 45°"),
        ("set_over", 4.0, "half angle of 4°"),
    ],
)
def test_just_past_a_limit_it_is_said_and_just_short_of_it_not(way: str, limit: float, words: str) -> None:
    for off, expected in ((-0.05, False), (0.05, True)):
        entries = {**_cone(limit + off), "setting.way": way, "setting.work_length": "60 mm"}
        told = " ".join(_cautions(job(entries), "setting"))
        assert (words in told) == expected, told


@pytest.mark.parametrize("half", [59.9, 60.1])
def test_past_what_a_sine_bar_can_hold_nothing_is_answered(half: float) -> None:
    answer = job({**_cone(half), "setting.way": "bar", "taper.length": "8 mm"})
    assert (figure(answer, "setting.stack_height") is not None) == (half < 60.0)


@pytest.mark.parametrize("share", [0.0, 0.9, 1.0, 1.1, 3.0])
def test_a_taper_on_the_edge_of_its_limit_is_not_called_good_or_bad(share: float) -> None:
    """Two diameters measured 50 mm apart: off by this share of the limit of 0.02 mm on diameter over 50 mm.

    By hand, with each micrometer reading known to ± 0.002 mm: at the limit itself it is as likely out as in.
    """
    limit = 0.02
    off = 50.0 * 2.0 * math.tan(math.radians(1.5)) + share * limit
    row = {"way": "two_diameters", "diameter_1": "20 mm", "diameter_2": f"{20.0 - off:.6f} mm",
           "apart": "50 mm", "give": "0.002 mm"}  # fmt: skip
    entries = {"taper.half_angle": "1.5 deg", "taper.large_diameter": "20 mm", "taper.length": "50 mm",
               "setting.way": "bar", "setting.bar_centres": "100 mm", "setting.grade": "0.02 mm"}  # fmt: skip
    from calc.job import work

    answer: Any = work({"format": 1, "units": "mm", "entries": entries, "drawer": [], "observations": [row]})
    inside = figure(answer, "proving.inside_grade")["value"]
    if share == 0.0:
        assert inside > 0.95
    elif share == 3.0:
        assert inside < 0.05
    else:
        assert 0.02 < inside < 0.98, "what cannot be told from the limit is told as a chance"
        line = next(stage["line"] for stage in answer["stages"] if stage["id"] == "proving")
        assert "%" in line, line
