"""The list of stages: what each must keep to; a further one needs nothing but its place in the list."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from calc import stages
from calc.demo import demo_request
from calc.job import work, work_text
from calc.sheet import PHASES, Stage, Step, same
from calc.stages.common.job_facts import Job

CORPUS = Path(__file__).parent / "corpus"
MEASURED = {
    "setting.collar_measured",
    "cutting.diameter_now",
    "cutting.stand_off",
    "proving.since",
    "proving.tap",
    "finishing.across_now",
    "finishing.tang_now",
    "finishing.diameter_now",
    "finishing.spigot_now",
}
"""What is measured of the part in hand, or done to it, and is not so of the next."""


def sheets() -> Iterator[dict[str, Any]]:
    """The sheet of every request of the corpus."""
    for path in sorted(CORPUS.iterdir()):
        yield json.loads(work_text(path.read_text(encoding="utf-8", errors="surrogatepass")))


def ask(entries: dict[str, str], units: str = "mm", **more: Any) -> dict[str, Any]:
    """The demonstration with some entries changed."""
    told: dict[str, Any] = dict(demo_request())
    return work({**told, "units": units, "entries": {**told["entries"], **entries}, **more})


def figure(sheet: dict[str, Any], name: str) -> Any:
    return next((each for one in sheet["stages"] for each in one["figures"] if each["id"] == name), None)


def field(sheet: dict[str, Any], name: str) -> Any:
    return next((each for one in sheet["stages"] for each in one["fields"] if each["id"] == name), None)


def test_the_route_is_every_step_in_the_order_of_phases() -> None:
    routes = 0
    for sheet in sheets():
        told = {(one["id"], step["id"]): step for one in sheet["stages"] for step in one["steps"]}
        route = sheet.get("route", [])
        assert {(step["stage"], step["id"]) for step in route} == set(told)
        assert len(route) == sum(len(one["steps"]) for one in sheet["stages"]) == len(told)
        for step in route:
            assert told[step["stage"], step["id"]] == {key: step[key] for key in step if key != "stage"}
        places = [PHASES.index(step["phase"]) for step in route]
        assert places == sorted(places)
        routes += bool(route)
    assert routes > 10


def test_a_step_is_called_after_its_stage_and_names_what_stands_on_the_sheet() -> None:
    for sheet in sheets():
        asked = {each["id"] for one in sheet["stages"] for each in one["fields"]}
        found = {each["id"] for one in sheet["stages"] for each in one["figures"]}
        for one in sheet["stages"]:
            for step in one["steps"]:
                assert step["id"].startswith(one["id"] + ".") and step["text"]["mm"] and step["text"]["inch"]
                assert set(step["asks"]) <= asked and set(step["shows"]) <= found


def test_a_stage_asks_what_it_lists_and_says_whose_the_answer_is() -> None:
    shop = {name for stage in stages.STAGES for name in stage.SHOP}
    listed = {stage.ID: {*stage.IDS, "drawer", "observations"} for stage in stages.STAGES}
    assert all(set(stage.SHOP) <= listed[stage.ID] for stage in stages.STAGES)
    owners = set()
    for sheet in sheets():
        for one in sheet["stages"]:
            for each in one["fields"]:
                assert each["id"] in listed[one["id"]]
                whose = "shop" if each["id"] in shop else "part" if each["id"] in MEASURED else "job"
                assert each["belongs"] == whose, each["id"]
                owners.add(each["belongs"])
    assert owners == {"job", "part", "shop"}


def test_a_further_stage_needs_only_its_place_in_the_list(monkeypatch: pytest.MonkeyPatch) -> None:
    """It finds its own facts, reads those before it, and its steps join the route."""

    def find(job: Job) -> object:
        return SimpleNamespace(many=len(job.sent.drawer))

    def say(job: Job) -> Stage:
        many = job.found(SimpleNamespace).many
        steps = [Step("oiling.oil", "keep", same("Oil the ways.")), Step("oiling.wipe", "saw", same("Wipe."))]
        return Stage("oiling", "Oiling", f"{many} pieces to oil", steps=steps)

    oiling: Any = SimpleNamespace(ID="oiling", IDS=(), SHOP=(), work=find, sheet=say)
    before = work(demo_request())
    monkeypatch.setattr(stages, "STAGES", (*stages.STAGES, oiling))
    after = work(demo_request())
    assert after["stages"][:-1] == before["stages"]
    assert after["stages"][-1]["line"] == f"{len(demo_request()['drawer'])} pieces to oil"  # type: ignore[arg-type]
    added = [step["id"] for step in after["route"] if step not in before["route"]]
    assert added == ["oiling.wipe", "oiling.oil"]


def test_how_the_taper_lies_is_read_alike_everywhere() -> None:
    """A choice may be typed by its label: the aim at the large end is then a socket's, flat and not steep."""
    aim = {"setting.aim": "large_end"}
    by_value = ask({**aim, "taper.form": "internal"})
    by_label = ask({**aim, "taper.form": "internal (socket, sleeve)"})
    assert figure(by_value, "setting.error_on_diameter")["value"] < 0.0
    assert [one["figures"] for one in by_label["stages"]] == [one["figures"] for one in by_value["stages"]]


def test_a_slip_in_the_tang_does_not_take_the_head_off_the_blank() -> None:
    """The spigot was told; a fault in the tang is said beside it and changes nothing else."""
    told = {"finishing.spigot": "16 mm", "blank.head_length": ""}
    right, slipped = ask(told), ask({**told, "finishing.tang_now": "4.2mm drill and"})
    assert field(slipped, "finishing.tang_now")["wrong"]
    assert field(slipped, "blank.head_length") == field(right, "blank.head_length")
    assert figure(slipped, "blank.length")["value"] == figure(right, "blank.length")["value"]


def test_a_bar_needs_no_stack_for_a_parallel_part_whichever_way_is_picked() -> None:
    """Where there is nothing to stack no drawer can lack it."""
    parallel = {"taper.series": "own", "taper.size": "", "taper.rate": "0", "taper.length": "60 mm"}
    rows = {}
    for way in ("bar", "one_dial"):
        ways = figure(ask({**parallel, "setting.way": way}), "setting.ways")["value"]
        rows[way] = next(each for each in ways if each["id"] == "bar")
    assert rows["bar"] == rows["one_dial"] and rows["bar"]["reason"] == ""


def test_an_old_socket_that_names_no_end_is_told_of_the_default_and_nothing_is_filled_in() -> None:
    """Kept before the default was the headstock: the field says so, and the entry stays the person's."""
    for form, told in (("internal", True), ("external", False)):
        entries = {"taper.series": "Morse", "taper.size": "2", "taper.form": form}
        answer = work({"format": 1, "units": "mm", "entries": entries, "drawer": []})
        fields = answer["stages"][0]["fields"]
        end = next(field for field in fields if field["id"] == "taper.small_end")
        assert ("Earlier versions took the tailstock" in end["help"]) == told
        assert end["value"] == "" and "taper.small_end" not in answer["entries"]
