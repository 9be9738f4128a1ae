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


def test_the_demonstration_shows_what_to_set_where_and_which_way() -> None:
    sheet, glance = _glance(demo_request())
    assert glance["lead"] == "setting.stack_height"
    assert glance["stack"] == "setting.stack"
    figures = {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}
    words = " ".join(each["mm"] for each in glance["words"])
    assert figures["setting.pin"]["shown"]["mm"] in words
    assert figures["setting.swing"]["shown"]["mm"] in words
    assert [each["figure"] for each in glance["rows"]] == ["proving.decision", "proving.inside_grade"]
    _, before = _glance({**demo_request(), "observations": []})
    assert [each["figure"] for each in before["rows"]] == ["setting.error_on_diameter", "setting.chance"]
    assert glance["wants"] == ""


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
