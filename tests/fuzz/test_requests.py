"""Requests thrown together, through the one door: never an exception, never a figure that is none."""

from __future__ import annotations

import json
import os
import random
import re
import sys
from collections.abc import Iterator
from typing import Any

from calc.job import work, work_text
from fuzz.cases import CASES
from fuzz.texts import spoilt_copy, text
from fuzz.ways_out import tells_a_range, to_type
from fuzz.whole import faults_of, refusals
from generated_requests import NOT_REQUESTS, generated, known_fields

DEEP = bool(os.environ.get("CONEWRIGHT_DEEP"))
COUNT = 100_000 if DEEP else 400
OFFERS = 5_000 if DEEP else 100
MOST_CALLS = 250_000
"""Of functions, for one request: a phone makes a few million a second."""
ODD = (None, True, False, 0, -1, 1.5, 1e308, 10**40, "", [], {}, ["1"], {"a": 1}, "\ud800", "x" * 3000)


def _spoil(chance: random.Random, request: dict[str, Any], ids: list[str]) -> None:
    """Change a request in one to four places, as a damaged link, an old file or a hand would."""
    for _ in range(chance.randint(1, 4)):
        kind = chance.randrange(7)
        entries, drawer, seen = request["entries"], request["drawer"], request["observations"]
        if kind <= 2:
            entries[chance.choice(ids)] = text(chance)
        elif kind == 3 and drawer:
            row = chance.choice(drawer)
            row[chance.choice(("name", "shape", "size", "measured", "give", "count"))] = text(chance)
        elif kind == 4 and seen:
            row = chance.choice(seen)
            row[chance.choice(sorted(row))] = text(chance)
        elif kind == 5:
            entries[chance.choice([*ids, "no.such"])] = chance.choice(ODD)
        else:
            places: list[Any] = [request, entries, *drawer, *seen]
            place = chance.choice(places)
            if isinstance(place, dict) and place and place is not request:
                place[chance.choice(list(place))] = chance.choice(ODD)
            elif chance.random() < 0.2:
                request["history"] = [chance.choice(ODD) for _ in range(chance.randint(0, 3))]


def requests(count: int, seed: int) -> list[dict[str, Any]]:
    """Generated requests, each spoilt; a record of the core's own now and then in the history."""
    chance = random.Random(seed)
    ids = sorted(known_fields(work))
    told = []
    for each in generated(work, count + len(NOT_REQUESTS), seed)[len(NOT_REQUESTS) :]:
        request = json.loads(each)
        _spoil(chance, request, ids)
        told.append(request)
    return told


def test_no_request_raises_or_is_answered_with_what_is_no_figure() -> None:
    told = []
    for request in requests(COUNT, 20):
        sent = json.dumps(request)
        answer = json.loads(work_text(sent))
        told += [(sent, each) for each in faults_of(answer)]
        if len(told) > 20:
            break
    assert told[:5] == []


def test_no_request_takes_more_than_a_counted_work() -> None:
    """Calls of functions are counted, not seconds: the same on every machine, however busy."""
    dearest: tuple[int, str] = (0, "")
    for request in requests(COUNT // 8, 23):
        calls = 0

        def count(frame: object, event: str, told: object) -> None:
            nonlocal calls
            calls += event == "call"

        sys.setprofile(count)
        try:
            work(request)
        finally:
            sys.setprofile(None)
        dearest = max(dearest, (calls, json.dumps(request)))
    assert dearest[0] <= MOST_CALLS, dearest


def test_records_come_back_in_whatever_state_and_harm_nothing() -> None:
    chance = random.Random(21)
    from calc.demo import demo_request

    demonstration: Any = work(demo_request())
    record = demonstration["record"]
    assert record, "the demonstration is proved, so that there is something to learn"
    for _ in range(COUNT // 5):
        spoilt = spoilt_copy(chance, record, ODD, least=1)
        request = {**demo_request(), "history": [record, spoilt]}
        assert faults_of(work(request)) == [], spoilt


def test_every_way_out_that_can_be_typed_is_accepted() -> None:
    """In the place of what was refused an offer, an example or the end of a range is refused no more."""
    told, asked = [], 0
    for request in requests(COUNT, 22):
        answer: Any = work(request)
        for stage in answer["stages"]:
            for field in refusals(stage["fields"]):
                if field["id"] not in request["entries"]:
                    continue
                for told_to, any_size in to_type(field["wrong"]):
                    asked += 1
                    again: Any = work({**request, "entries": {**request["entries"], field["id"]: told_to}})
                    # It is read; whether it can stand beside the other entries is another matter.
                    if field["id"] in again["entries"]:
                        continue
                    fields = [each for one in again["stages"] for each in refusals(one["fields"])]
                    now = next((each["wrong"] for each in fields if each["id"] == field["id"]), None)
                    if now and not (any_size and tells_a_range(now)):
                        told.append((field["id"], field["value"], told_to, field["wrong"]["way_out"]))
        if asked > OFFERS:
            break
    assert asked > OFFERS // 3
    assert told[:5] == []


def _asked_in_rows(answer: Any, request: dict[str, Any]) -> Iterator[tuple[str, str, int, str, Any]]:
    """Every refused cell of a row: its id, the list, the place, the key, and the fault."""
    for stage in answer["stages"]:
        for field in refusals(stage["fields"]):
            found = re.fullmatch(r"(drawer|observations)\.(\d+)\.(\w+)", field["id"])
            if found and isinstance(request[found[1]][int(found[2])], dict):
                yield field["id"], found[1], int(found[2]), found[3], field["wrong"]


def test_an_offer_in_a_row_is_accepted_there() -> None:
    """In a piece and in what was seen; an example shows how one is written, and may be too large for this."""
    told, asked = [], 0
    for request in requests(COUNT // 4, 41):
        for name, table, place, key, fault in _asked_in_rows(work(request), request):
            for typed, any_size in to_type(fault):
                asked += 1
                rows = [{**row, key: typed} if at == place else row for at, row in enumerate(request[table])]
                again: Any = work({**request, table: rows})
                left = [each for each in _asked_in_rows(again, {table: rows, **request}) if each[0] == name]
                if left and not (any_size and left[0][4]["message"] != fault["message"]):
                    told.append((key, fault["text"], typed, left[0][4]["message"]))
        if asked > OFFERS:
            break
    assert asked > OFFERS // 2
    assert told[:5] == []


def test_what_was_found_once_stays_mended() -> None:
    for case in CASES:
        assert faults_of(work(case)) == [], case
