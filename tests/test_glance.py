"""The job at a glance: what leads is on the sheet, and a fault leads to its entry."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.demo import demo_request
from calc.job import work, work_text
from calc.setting import WAYS
from generated_requests import generated


def _glance(request: object) -> tuple[dict[str, Any], dict[str, Any]]:
    sheet: Any = work(request)
    return sheet, sheet["glance"]


def _ids(sheet: dict[str, Any], kind: str) -> set[str]:
    return {each["id"] for stage in sheet["stages"] for each in stage[kind]}


def test_before_a_cut_what_to_set_where_and_which_way_leads() -> None:
    sheet, glance = _glance({**demo_request(), "observations": []})
    assert (glance["lead"], glance["stack"], glance["step"]) == ("setting.stack_height", "setting.stack", "")
    figures = {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}
    words = " ".join(each["mm"] for each in glance["words"])
    assert figures["setting.pin"]["shown"]["mm"] in words
    assert figures["setting.swing"]["shown"]["mm"] in words
    assert [each["figure"] for each in glance["rows"]] == ["setting.error_on_diameter", "setting.chance"]
    assert glance["wants"] == ""


LARGE_QUARTER = {"way": "contact", "end": "large", "share": "quarter", "film": "thin"}
TOO_STEEP = {"way": "two_diameters", "diameter_1": "17.70mm", "diameter_2": "15.5mm", "apart": "40mm"}


@pytest.mark.parametrize("way", [way.ID for way in WAYS])
@pytest.mark.parametrize("row", [LARGE_QUARTER, TOO_STEEP], ids=["blue", "diameters"])
def test_after_a_proof_that_wants_a_change_the_change_leads(way: str, row: dict[str, str]) -> None:
    demo: Any = demo_request()
    entries = {**demo["entries"], "setting.way": way}
    sheet, glance = _glance({**demo, "entries": entries, "observations": [row]})
    figures = {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}
    if "proving.decision" not in figures:
        # Plain fits: nothing of the setting moves under the tool.
        assert glance["step"] == ""
        return
    assert figures["proving.decision"]["value"] == "change"
    proving = next(stage for stage in sheet["stages"] if stage["id"] == "proving")
    leads = [each for each in proving["figures"] if each["lead"]]
    tapped = any(word in proving["line"].lower() for word in ("tap ", "move the tailstock"))
    right = next(step for step in sheet["route"] if step["id"] == "proving.right")
    if glance["lead"].startswith("proving."):
        # What the card says and what the step says are one thing.
        assert glance["step"] == right["id"]
        assert glance["lead"] in [each["id"] for each in leads]
        number = figures[glance["lead"]]["shown"]["mm"]
        assert tapped is (glance["lead"] == "proving.tap")
        assert not tapped or number in right["text"]["mm"]
        assert [each["figure"] for each in glance["rows"]] == ["proving.chance_now", "proving.chance_changed"]
    else:
        # To be set up anew on the same number: that number leads, and no tap is spoken of.
        assert all(not each["value"] for each in leads)
        assert not tapped


@pytest.mark.parametrize("way", [way.ID for way in WAYS])
def test_every_way_leads_with_a_number_and_a_label_of_its_own(way: str) -> None:
    request = {"entries": {"taper.series": "Morse", "taper.size": "2", "setting.way": way}}
    sheet, glance = _glance(request)
    if glance["lead"]:
        assert glance["lead"].startswith("setting.")
        assert glance["label"]["mm"]
    else:
        assert glance["wants"]


def test_an_entry_with_a_fault_leaves_no_number_and_is_named() -> None:
    _, glance = _glance({"entries": {"taper.size": "3", "setting.bar_centres": "wide"}})
    assert glance["lead"] == ""
    assert glance["wants"] == "setting.bar_centres"


def test_an_empty_job_wants_its_taper() -> None:
    _, glance = _glance({})
    assert (glance["lead"], glance["wants"]) == ("", "taper.size")


@pytest.mark.parametrize("text", generated(work, 60, 12))
def test_all_that_is_named_stands_on_the_sheet(text: str) -> None:
    sheet = json.loads(work_text(text))
    glance = sheet["glance"]
    figures = _ids(sheet, "figures")
    for name in (glance["lead"], glance["stack"], *(row["figure"] for row in glance["rows"])):
        assert name == "" or name in figures
    assert glance["step"] in {"", *(step["id"] for step in sheet["route"])}
    if glance["wants"] and not glance["wants"].startswith("drawer."):
        assert glance["wants"] in _ids(sheet, "fields")


@given(st.lists(st.one_of(st.text(max_size=20), st.integers(), st.none()), max_size=5))
@settings(max_examples=30, deadline=None)
def test_lines_for_the_drawer_are_answered_one_by_one(lines: list[object]) -> None:
    sheet: Any = work({"add_lines": ["4.2 mm drill", *lines]})
    told = sheet["lines"]
    assert len(told) == 1 + sum(1 for each in lines if not isinstance(each, str) or each.strip())
    assert len(sheet["drawer"]) == sum(1 for each in told if each["wrong"] is None)
    assert told[0]["wrong"] is None
    assert sheet["drawer"][0]["size"] == "4.2 mm"


@pytest.mark.parametrize(
    ("entries", "name"),
    [
        ({"taper.size": "3"}, "Morse 3, external, sine bar 100 mm"),
        ({"taper.size": "3", "setting.bar_centres": "5 in"}, "Morse 3, external, sine bar 5 in"),
        ({"taper.size": "3", "setting.way": "set_over"}, "Morse 3, external, set-over"),
        ({"taper.size": "3", "setting.way": "master"}, "Morse 3, external, along a master"),
        ({"taper.size": "3", "setting.bar_centres": "wide"}, ""),
        ({}, ""),
    ],
)
def test_a_set_up_is_called_by_its_taper_and_its_way(entries: dict[str, str], name: str) -> None:
    _, glance = _glance({"entries": entries})
    assert glance["name"] == name
