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
from calc.stages.common.unasked import LENGTHS, RATES
from door import figure
from generated_requests import NOT_REQUESTS, generated

CLOSE = 1e-9
"""Values leave with ten digits; a half of the last one is less than this of any."""
COUNT = 120
OTHER = {"mm": "inch", "inch": "mm"}
ROUND = {
    "blank.diameter": "bar is sold in round millimetres or in fractions of an inch",
    "cutting.passes": "from a blank of another round size, by roughing cuts on the person's own collar",
    "cutting.time": "roughing ends on a whole division of the person's own collar, and so does its path",
    "setting.ways set_over": "its dial's usual division is another than the slide's, under the same entry",
    "setting.ways master": "as for set-over: its indicator is finer than the one for travel",
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
    for name, text in sheet["defaults"].items():
        table, _, rest = name.partition(".")
        place, _, key = rest.partition(".")
        # A cell of what was seen, or an entry.
        texts, key = (rows[table][int(place)], key) if table == "observations" else (entries, name)
        if not texts.get(key, "").strip():
            texts[key] = text
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
    half_read = _half_read(before)
    if half_read & (_wrong(before) ^ _wrong(after)) or half_read & after["entries"].keys():
        return []  # a bare number that is none here may be one there: it was never part of the answer
    if _rows_wrong(before) != _rows_wrong(after):
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


def _rows_wrong(sheet: Mapping[str, Any]) -> set[str]:
    """Cells of the drawer that bear a fault: of such a row nothing was spelled out."""
    fields = [each for stage in sheet["stages"] for each in stage["fields"] if each["id"] == "drawer"]
    return {cell["id"] for each in fields for row in each["rows"] for cell in row if cell["wrong"]}


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


@pytest.mark.parametrize(("units", "unit"), [("mm", "mm"), ("inch", "in")])
def test_what_was_typed_for_another_way_keeps_its_units_too(units: str, unit: str) -> None:
    """A division typed for the collars, then the bar is taken up, then the other units: it stays."""
    entries = {"taper.series": "Morse", "taper.size": "2", "setting.way": "bar"}
    typed = {"setting.collar_division": ".05", "finishing.tang_now": "0.4"}
    request: dict[str, Any] = {"format": 1, "units": units, "entries": {**entries, **typed}}
    there = switched(request, work(request))
    assert there["entries"]["setting.collar_division"] == f"0.05 {unit}"
    assert there["entries"]["finishing.tang_now"] == f"0.4 {unit}"


def test_every_length_and_rate_that_is_asked_is_known_as_one() -> None:
    kinds: dict[str, str] = {}
    for text in generated(work, 250 + len(NOT_REQUESTS), 5)[len(NOT_REQUESTS) :]:
        for stage in work(json.loads(text))["stages"]:  # type: ignore[attr-defined]
            kinds |= {field["id"]: field["kind"] for field in stage["fields"]}
    lengths = {name for name, kind in kinds.items() if kind == "length"}
    assert lengths <= LENGTHS and len(lengths) > 70
    assert {name for name, kind in kinds.items() if kind == "rate"} <= RATES
    assert not (LENGTHS | RATES) & {name for name, kind in kinds.items() if kind not in ("length", "rate")}


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_a_depth_of_cut_that_a_slender_bar_holds_back_stays_held_back(units: str) -> None:
    """A Morse 0 socket takes a bar of under 5 mm: half a millimetre of cut is for a stout one."""
    entries = {"taper.series": "Morse", "taper.size": "0", "taper.form": "internal"}
    request: dict[str, Any] = {"format": 1, "units": units, "entries": entries}
    before: Any = work(request)
    field = next(
        each for stage in before["stages"] for each in stage["fields"] if each["id"] == "cutting.depth"
    )
    assert float(field["default"].split()[0]) * (1.0 if units == "mm" else 25.4) < 0.07
    after: Any = work(switched(request, before))
    deepest = figure(after, "cutting.boring_cuts")["value"]
    cuts = figure(after, "cutting.passes")["table"]["rows"]
    assert max(float(row["cells"][1]["mm"].split()[0]) for row in cuts) <= deepest + 0.005


def test_a_thread_that_nobody_named_stays_the_one_it_was() -> None:
    for units, thread in (("mm", "M20"), ("inch", "5/8-11 UNC")):
        entries = {"taper.series": "Morse", "taper.size": "5", "blank.end": "drawbar"}
        request: dict[str, Any] = {"format": 1, "units": units, "entries": entries}
        before: Any = work(request)
        assert figure(before, "finishing.thread_name")["value"] == thread
        assert figure(work(switched(request, before)), "finishing.thread_name")["value"] == thread  # type: ignore[arg-type]
