"""What was seen and what was proved before, at the door: each cell is answered beside itself."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.demo import demo_request
from calc.gauging import WAYS
from calc.job import work, work_text
from calc.stages.common.observations import Observations, read_observations

RECORD: dict[str, Any] = {
    "format": 1,
    "job": {"taper": "Morse 2"},
    "gear": {"bar": "100 mm"},
    "since": "afresh",
    "expected": {"value": 1e-5, "standard": 2e-5, "parts": {"setting.bar_give": [1e-6, 0.003]}},
    "seen": [{"value": 2e-5, "noise": 1e-5, "parts": {}}],
    "believed": {"value": 1.5e-5, "standard": 9e-6},
    "turn": 0.0,
    "surprise": False,
}
"""Invented; shaped as a record is."""
TWO = {
    "way": "two_diameters",
    "diameter_1": "17.5",
    "diameter_2": "15.5",
    "apart": "40",
    "note": " after  the third\tcut ",
}


def seen(rows: Any, units: str = "mm", **more: Any) -> dict[str, Any]:
    """The demonstration with these observations."""
    told: dict[str, Any] = dict(demo_request())
    return work({**told, "units": units, "observations": rows, **more})


def cells(found: Observations, place: int) -> dict[str, Any]:
    return {each.id: each for each in found.rows[place].fields}


def test_rows_come_back_with_every_unit_spelled_out() -> None:
    once = seen([TWO, {"way": "two_diameters", "difference": "6 thou", "apart": "2 in"}])
    assert once["problems"] == []
    assert once["observations"] == [
        {
            "way": "two_diameters",
            "diameter_1": "17.5 mm",
            "diameter_2": "15.5 mm",
            "apart": "40 mm",
            "note": "after the third cut",
        },
        {"way": "two_diameters", "difference": "6 thou", "apart": "2 in"},
    ]
    for units in ("mm", "inch"):
        assert seen(once["observations"], units)["observations"] == once["observations"]


def test_a_row_is_read_for_its_way_of_proving() -> None:
    row = read_observations([{**TWO, "diameter_2": "0.6 in"}], "mm").rows[0].row
    assert row is not None and row.way == "two_diameters" and row.number == 0, "a note is not in it"
    assert row.lengths["diameter_1"] == 17.5 and row.lengths["diameter_2"] == pytest.approx(15.24)
    assert row.choices["at"] == "stops", "what is left empty takes the way's own default"


def test_what_another_way_asks_is_kept_while_the_way_is_changed() -> None:
    changed = seen([{**TWO, "way": "contact"}])["observations"]
    assert changed == [{**seen([TWO])["observations"][0], "way": "contact"}]


def test_each_cell_is_answered_beside_itself_and_the_other_rows_stand() -> None:
    faulty = {**TWO, "diameter_1": "4.2mm drill and", "apart": [1]}
    found = read_observations([TWO, faulty, {"way": "by moonlight"}], "mm")
    assert [row.wrong for row in found.rows] == [False, True, True]
    assert found.rows[0].row is not None and found.rows[1].row is None and found.rows[2].row is None
    row = cells(found, 1)
    assert row["observations.1.diameter_1"].wrong and row["observations.1.apart"].wrong
    assert not row["observations.1.diameter_2"].wrong
    assert "by moonlight" in cells(found, 2)["observations.2.way"].wrong.message
    assert found.rows[1].normalised["diameter_1"] == "4.2mm drill and", "what cannot be read stays as typed"


def test_a_row_shows_what_its_way_asks_and_nothing_else() -> None:
    for way in WAYS:
        found = read_observations([{"way": way.ID}], "inch")
        keys = [name.rpartition(".")[2] for name in cells(found, 0)]
        assert keys == ["way", *(ask.id for ask in way.ASKS), "note"]
    field = read_observations([TWO], "mm").field()
    assert field.kind == "rows" and [each.value for each in field.choices] == [way.ID for way in WAYS]


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({}, "not a list"),
        ("contact", "not a list"),
        ([7], "Observation 1 could not be read"),
        ([TWO, None, 7], "Observations 2, 3 could not be read"),
        ([{**TWO, "colour": "red"}], "“colour”"),
        ([TWO] * 101, "101 observations"),
    ],
)
def test_what_is_wrong_with_the_rows_as_a_whole_is_named(sent: Any, words: str) -> None:
    sheet = seen(sent)
    assert [each["id"] for each in sheet["problems"]] == ["observations"]
    assert words in sheet["problems"][0]["message"]
    assert len(sheet["observations"]) == min(100, len(sent) if isinstance(sent, list) else 0)


def test_good_records_come_back_unchanged_and_the_others_are_named() -> None:
    other = {**RECORD, "job": {"taper": "Jarno 6"}, "of a newer core": ["kept"]}
    newer, damaged = {**RECORD, "format": 2}, {**RECORD, "seen": 3}
    sheet = seen([], history=[RECORD, newer, damaged, other, 7, {**RECORD, "believed": {"value": 9}}])
    assert sheet["history"] == [RECORD, other]
    told = " ".join(each["message"] for each in sheet["problems"])
    assert {each["id"] for each in sheet["problems"]} == {"history"} and len(sheet["problems"]) == 2
    assert "cuts 3, 5, 6" in told and "newer Conewright" in told and "cut 2" in told


def test_too_many_or_too_large_records_are_left_aside() -> None:
    many = [{**RECORD, "turn": number / 1000.0} for number in range(501)]
    sheet = seen([], history=many)
    assert sheet["history"] == many[1:] and "501 proved cuts" in sheet["problems"][0]["message"]
    large = seen([], history=[{**RECORD, "padding": "x" * 30_000}, RECORD])
    assert large["history"] == [RECORD] and "cut 1" in large["problems"][0]["message"]
    none = seen([], history="yesterday")
    assert none["history"] == [] and "not a list" in none["problems"][0]["message"]


anything = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=10,
)
keys = st.sampled_from(["way", "note", *dict.fromkeys(ask.id for way in WAYS for ask in way.ASKS)])
texts = st.sampled_from(["17.5", "4in", "0", "-1", "half", "40 %", "1,234", "large", "", "x", "1e999"])
rows = st.dictionaries(keys, texts | st.sampled_from([way.ID for way in WAYS]) | anything, max_size=6)
bent = st.dictionaries(st.sampled_from([*RECORD]), anything, max_size=3).map(lambda more: {**RECORD, **more})


@settings(max_examples=80, deadline=None)
@given(st.lists(rows | anything, max_size=4) | anything, st.lists(bent | anything, max_size=4) | anything)
def test_total_on_anything(observed: Any, history: Any) -> None:
    request = {"format": 1, "observations": observed, "history": history}
    answer = json.loads(work_text(json.dumps(request)), parse_constant=lambda name: pytest.fail(name))
    again = work({"format": 1, "observations": answer["observations"], "history": answer["history"]})
    assert again["history"] == answer["history"]
    assert again["observations"] == answer["observations"]
