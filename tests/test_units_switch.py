"""Switching the units changes how a job is written and nothing that it says: every figure keeps its value."""

from __future__ import annotations

import json
import math
import os
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from calc.demo import demo_request
from calc.job import work
from door import figure
from generated_requests import NOT_REQUESTS, generated

CLOSE = 1e-9
"""Values leave with ten digits; a half of the last one is less than this of any."""
COUNT = 120
OTHER = {"mm": "inch", "inch": "mm"}
ROUND = {
    "blank.diameter": "bar is sold in round millimetres or in fractions of an inch",
    "cutting.time": "roughing ends on a whole division of the person's own collar, and so does its path",
    "setting.ways set_over": "its dial's usual division is another than the slide's, under the same entry",
    "setting.ways collars": "trial collars are turned to a round number on the person's own dial",
}
"""What is a round number in the person's own system, and so another one after the switch, with the reason."""


def switched(request: Mapping[str, Any], sheet: Mapping[str, Any]) -> dict[str, Any]:
    """The request in the other units, as the page makes it: with units spelled out and defaults in force."""
    rows = {}
    for key in ("drawer", "observations"):
        sent, read = request.get(key) or [], sheet[key]
        same = len(sent) == len(read)
        rows[key] = [
            {name: (read[at].get(name) or text) if same and text else text for name, text in row.items()}
            if isinstance(row, dict)
            else row
            for at, row in enumerate(sent)
        ]
    entries = {**request["entries"], **sheet["entries"]}
    entries = {**entries, **{name: text for name, text in sheet["defaults"].items() if not entries.get(name)}}
    return {**request, "units": OTHER[sheet["units"]], "entries": entries, **rows}


def _differences(one: object, other: object, place: str) -> Iterator[str]:
    if isinstance(one, float | int) and isinstance(other, float | int) and not isinstance(one, bool):
        if not math.isclose(one, other, rel_tol=CLOSE, abs_tol=1e-12):
            yield f"{place}: {one} became {other}"
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for at, pair in enumerate(zip(one, other, strict=True)):
            yield from _differences(*pair, f"{place}[{at}]")
    elif isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        for key in one:
            yield from _differences(one[key], other[key], f"{place}.{key}")
    elif type(one) is not type(other) or (not isinstance(one, str) and one != other):
        yield f"{place}: {one!r} became {other!r}"


def _unround(figure: Mapping[str, Any]) -> object:
    if figure["id"] != "setting.ways":
        return figure["value"]
    return [each for each in figure["value"] if f"setting.ways {each['id']}" not in ROUND]


def changes(request: Mapping[str, Any]) -> list[str]:
    """What of the answer changes by the switch and should not."""
    before: Any = work(request)
    after: Any = work(switched(request, before))
    if _half_read(before) & (_wrong(before) ^ _wrong(after)):
        return []  # a bare number that is none here may be one there: it was never part of the answer
    told = []
    figures = [
        {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}
        for sheet in (before, after)
    ]
    if figures[0].keys() != figures[1].keys():
        told.append(f"figures: {sorted(figures[0].keys() ^ figures[1].keys())}")
    for name, each in figures[0].items():
        there = figures[1].get(name)
        if there is not None and name not in ROUND:
            told += _differences(_unround(each), _unround(there), name)
            told += _differences(each["plus_minus"], there["plus_minus"], f"{name} ±")
    if _wrong(before) != _wrong(after):
        told.append(f"wrong: {sorted(_wrong(before) ^ _wrong(after))}")
    return told


def _wrong(sheet: Mapping[str, Any]) -> set[str]:
    return {each["id"] for stage in sheet["stages"] for each in stage["fields"] if each["wrong"]}


def _half_read(sheet: Mapping[str, Any]) -> set[str]:
    """Entries of which nothing was understood, so that no unit could be spelled out."""
    return _wrong(sheet) - sheet["entries"].keys()


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_the_bar_that_nobody_named_stays_as_long_as_it_was(units: str) -> None:
    """100 mm and 4 in are both usual; which one a job was reckoned with is not for a switch to change."""
    request: dict[str, Any] = dict(demo_request())
    request["units"] = units
    request["entries"] = {"taper.series": "Morse", "taper.size": "2"}
    before: Any = work(request)
    after: Any = work(switched(request, before))
    height = "setting.stack_height"
    assert figure(after, height)["value"] == figure(before, height)["value"]
    assert before["defaults"]["setting.bar_centres"] == ("100 mm" if units == "mm" else "4 in")
    assert after["entries"]["setting.bar_centres"] == before["defaults"]["setting.bar_centres"]
    assert changes(request) == []


def test_the_demonstration_and_the_empty_job_keep_every_figure() -> None:
    assert changes(demo_request()) == []
    for units in ("mm", "inch"):
        assert changes({"format": 1, "units": units, "entries": {}, "drawer": []}) == []


def test_no_generated_job_changes_a_figure_by_the_switch() -> None:
    count = 4000 if os.environ.get("CONEWRIGHT_DEEP") else COUNT
    texts = generated(work, count + len(NOT_REQUESTS), 13)[len(NOT_REQUESTS) :]
    texts = [text for text in texts if '"collars"' not in text]
    assert len(texts) > 0.8 * count
    told = [(text, found) for text in texts if (found := changes(json.loads(text)))]
    assert told == []
