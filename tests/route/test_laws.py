"""The order of work of 200 invented jobs, held to what hands, metal and machine allow.

Sources: the laws themselves are common practice at a lathe, no source; a person working alone from the list
must not be led to a step that an earlier one has made impossible.
"""

from __future__ import annotations

import re
from typing import Any

import pytest

from calc.sheet import PHASES
from route.jobs import DRAWER, a_job, sheet

JOBS = 200
NAMES = [name for name, *_ in DRAWER]
METRIC = re.compile(r"\d\s?(mm|µm)\b")
INCH = re.compile(r"\d\s?(in|thou|tenths?)\b|\d\s?″")
HANDS = re.compile(
    r"\b(measure|blue|gauge it|wipe|indicator|seat|feel|calliper|clean|by hand)\b", re.IGNORECASE
)
STOPS = re.compile(
    r"(stop(ped)? (the )?(spindle|cutter)|(spindle|cutter) (is )?stopped|isolate)", re.IGNORECASE
)
BAR_STOCK = re.compile(r"[\d./-]+ (in|mm) bar\b")
"""What a bar is sold as, in whatever system."""
BRACKETS = re.compile(r"\([\d./ -]+ (in|mm)\)")
"""What a drill is sold as, beside its size."""
SCALE = re.compile(r"[\d.]+ in/ft")
"""What a scale divided so reads, whoever looks at it."""
STARTS = re.compile(r"\bstart the spindle\b|\bspindle running\b", re.IGNORECASE)


def route(seed: int) -> list[dict[str, Any]]:
    steps: list[dict[str, Any]] = sheet(seed)["route"]
    return steps


def plain(text: str) -> str:
    """A step's text without the names of pieces, which are the person's own."""
    for name in NAMES:
        text = text.replace(name, "")
    return BRACKETS.sub("", BAR_STOCK.sub("bar", SCALE.sub("rate", text)))


def stages(seed: int) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = sheet(seed)["stages"]
    return found


@pytest.fixture(params=range(JOBS), ids=lambda seed: f"job {seed}")
def seed(request: pytest.FixtureRequest) -> int:
    return int(request.param)


def test_phases_follow_and_steps_have_names(seed: int) -> None:
    steps = route(seed)
    line = next(stage["line"] for stage in stages(seed) if stage["id"] == "setting")
    assert steps or "Use the top slide" in line, "there is something to do in every one of these jobs"
    assert [PHASES.index(step["phase"]) for step in steps] == sorted(
        PHASES.index(step["phase"]) for step in steps
    )
    ids = [step["id"] for step in steps]
    assert len(set(ids)) == len(ids)
    assert all(step["text"]["mm"] and step["text"]["inch"] for step in steps)


def test_the_route_is_all_stages_steps(seed: int) -> None:
    of_stages = sorted(step["id"] for stage in stages(seed) for step in stage["steps"])
    assert of_stages == sorted(step["id"] for step in route(seed))


def test_every_measure_is_in_the_system_of_its_text(seed: int) -> None:
    for step in route(seed):
        metric, inch = plain(step["text"]["mm"]), plain(step["text"]["inch"])
        assert bool(METRIC.search(metric)) == bool(INCH.search(inch)), step["text"]
        assert not INCH.search(metric), metric
        assert not METRIC.search(inch), inch


def test_the_spindle_stands_before_hands_go_in(seed: int) -> None:
    """Said in the step, by its caution, or by a step before it with no start in between."""
    stopped = False
    for step in route(seed):
        text = step["text"]["mm"]
        if STOPS.search(text) or "stopped" in step["cautions"]:
            stopped = True
        if STARTS.search(text) and not STOPS.search(text):
            stopped = False
        if step["phase"] not in ("saw", "keep") and HANDS.search(text):
            assert stopped or STOPS.search(text), text


def test_cautions_named_are_on_the_sheet(seed: int) -> None:
    known = {caution["id"] for stage in stages(seed) for caution in stage["cautions"]}
    for step in route(seed):
        assert set(step["cautions"]) <= known, step["id"]


def test_each_hazard_stands_on_a_step_of_its_kind(seed: int) -> None:
    steps = route(seed)
    entries = a_job(seed)["entries"]
    named = {name for step in steps for name in step["cautions"]}
    by_phase = {phase: {name for step in steps if step["phase"] == phase for name in step["cautions"]}
                for phase in PHASES}  # fmt: skip
    phases = {step["phase"] for step in steps}
    if "cut" in phases:
        assert "swarf" in by_phase["rough"] | by_phase["cut"]
    if "flats" in phases:
        assert "milling" in by_phase["flats"] and "sharp" in by_phase["flats"] | by_phase["finish"]
    if "saw" in phases:
        assert "long_bar" in by_phase["saw"]
    last = " ".join(step["text"]["mm"].casefold() for step in steps if step["phase"] == "part")
    if "saw off" in last or "part off" in last:
        assert "parting" in by_phase["part"]
    if entries["setting.way"] == "set_over" and "set" in phases:
        assert {"carrier", "centre"} <= named
        assert "parting" not in by_phase["cut"]
    if entries.get("setting.cut_side") == "far" and "cut" in phases:
        assert "far_side" in by_phase["set"] | by_phase["cut"]
    for step in steps:
        assert "carrier" not in step["cautions"] or re.search("carrier|between centres", step["text"]["mm"])
    assert "far_side" not in named or entries.get("setting.cut_side") == "far"
    assert "milling" not in by_phase["cut"] | by_phase["set"]


def test_nothing_parallel_is_turned_at_the_offset(seed: int) -> None:
    """Between setting the tailstock over (or swinging the slide) and moving it back only the taper is cut."""
    steps = route(seed)
    ids = [step["id"] for step in steps]
    if a_job(seed)["entries"]["setting.way"] != "set_over" or "cut" not in {step["phase"] for step in steps}:
        return
    over = ids.index("setting.over")
    back = ids.index("setting.back")
    parallel = [place for place, step in enumerate(steps)
                if step["id"].startswith(("finishing.spigot", "blank.head", "blank.rough"))]  # fmt: skip
    cuts = [place for place, step in enumerate(steps)
            if step["stage"] == "cutting" and step["phase"] in ("cut", "finish")]  # fmt: skip
    assert all(place < over or place > back for place in parallel)
    assert cuts and all(over < place < back for place in cuts)


def test_no_step_comes_before_what_it_needs(seed: int) -> None:
    """Sawn before faced, roughed before the taper, set before cut, proved before the last cut."""
    first = {step["phase"]: place for place, step in reversed(list(enumerate(route(seed))))}
    order = [first[phase] for phase in ("saw", "ends", "rough", "set", "cut", "prove", "finish", "part")
             if phase in first]  # fmt: skip
    assert order == sorted(order)
    if "cut" in first:
        assert "set" in first and "prove" in first
        assert route(seed)[-1]["phase"] == "keep", "what was learned of it is worth keeping"
    for step in route(seed):
        for name in step["asks"]:
            assert any(name == field["id"] for stage in stages(seed) for field in stage["fields"]), name
