"""The door holds against what no person types: whatever comes, it answers with a sheet of a readable size."""

from __future__ import annotations

import json
from typing import Any

import pytest

from calc.demo import demo_request
from calc.job import LONGEST_REQUEST, work, work_text

LARGEST_ANSWER = 1_000_000
"""Characters; the demonstration's own sheet has a quarter of that."""


def nest(depth: int, kind: str) -> object:
    """Lists or named values, one in another."""
    made: object = "core"
    for _ in range(depth):
        made = [made] if kind == "list" else {"in": made}
    return made


HOSTILE = {
    "number of 5000 digits": 10**5000,
    "negative number of 5000 digits": -(10**5000),
    "lists in lists": nest(100_000, "list"),
    "names in names": nest(100_000, "dict"),
    "long text": "x" * 1_000_000,
    "half a pair": "\ud800",
    "not a number": float("nan"),
    "endless": float("inf"),
    "truth": True,
    "nothing": None,
}
PLACES = ("format", "units", "entries", "drawer", "history", "name", "later", "add", "observations", "no")


@pytest.mark.parametrize("thing", HOSTILE.values(), ids=HOSTILE.keys())
@pytest.mark.parametrize("place", PLACES)
def test_nothing_in_any_place_of_a_request_raises(place: str, thing: object) -> None:
    for value in (thing, [thing], {"figure": thing, "items": [thing], "taper.length": thing, "size": thing}):
        answer = work({**demo_request(), place: value})
        assert len(json.dumps(answer, allow_nan=False)) < LARGEST_ANSWER
        assert "stages" in answer


@pytest.mark.parametrize("thing", HOSTILE.values(), ids=HOSTILE.keys())
def test_nothing_as_an_entry_or_in_a_piece_raises(thing: object) -> None:
    request: dict[str, Any] = dict(demo_request())
    for name in (*request["entries"], "setting.bar_give"):
        answer: Any = work({**request, "entries": {**request["entries"], name: thing}})
        assert len(json.dumps(answer, allow_nan=False)) < LARGEST_ANSWER
    for name in ("name", "shape", "size", "measured", "give", "count"):
        answer = work({**request, "drawer": [{**request["drawer"][0], name: thing}]})
        assert len(json.dumps(answer, allow_nan=False)) < LARGEST_ANSWER


def test_a_job_too_long_to_read_is_said_to_be_too_long() -> None:
    text = json.dumps({**demo_request(), "history": ["x" * LONGEST_REQUEST]})
    sheet = json.loads(work_text(text))
    assert [each["id"] for each in sheet["problems"]] == [""]
    told = sheet["problems"][0]
    assert "too long" in told["message"] and "2 MB" in told["message"]
    assert "take" in told["way_out"]
    json.loads(work_text(text[:LONGEST_REQUEST]))


def test_a_hundred_thousand_unknown_keys_are_counted_and_not_recited() -> None:
    known: dict[str, Any] = dict(demo_request())
    unknown = {f"unknown {place}": "1" for place in range(100_000)}
    for request in (
        {**unknown, **known},
        {**known, "entries": {**unknown, **known["entries"]}},
        {**known, "entries": {**{name: [] for name in unknown}, **known["entries"]}},
        {**known, "add": list(unknown)},
        {**known, "later": {"figure": "chart.tapers", "items": list(unknown)}},
    ):
        answer: Any = work(request)
        assert len(json.dumps(answer["problems"])) < 20_000
        said = " ".join(each["message"] for each in answer["problems"])
        assert "unknown 0" in said or "unknown" in said
        assert "999" in said or "100000" in said, "how many there are"
        if answer["stages"]:
            # What is known is read, however much stands before it.
            assert answer["entries"]["setting.bar_centres"] == "100 mm"


def test_a_key_of_a_million_letters_is_cut_where_it_is_said_back() -> None:
    long = "k" * 1_000_000
    for request in ({long: 1}, {"entries": {long: "1"}}, {"entries": {long: [1]}}, {"add": [long]}):
        problems: Any = work(request)["problems"]
        assert problems and len(json.dumps(problems)) < 2_000
