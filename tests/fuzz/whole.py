"""What must hold of every answer, whatever was asked: each fault is told in one line, none is no fault."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from typing import Any

LARGEST_ANSWER = 1_500_000
"""Characters: a full drawer of 300 faulty rows comes to a good part of that."""


def _numbers(thing: object, place: str) -> Iterator[tuple[str, float]]:
    if isinstance(thing, bool) or thing is None or isinstance(thing, str):
        return
    if isinstance(thing, int | float):
        yield place, float(thing)
    elif isinstance(thing, Mapping):
        for key, value in thing.items():
            yield from _numbers(value, f"{place}.{key}")
    elif isinstance(thing, list):
        for at, value in enumerate(thing):
            yield from _numbers(value, f"{place}[{at}]")


def _figure(figure: Mapping[str, Any]) -> Iterator[str]:
    name = figure["id"]
    for place, number in (*_numbers(figure["value"], name), *_numbers(figure["plus_minus"], f"{name} ±")):
        if not math.isfinite(number):
            yield f"{place} is {number}"
    if isinstance(figure["value"], int | float) and not isinstance(figure["value"], bool):
        if not figure["unit"]:
            yield f"{name} has no unit"
    if figure["plus_minus"] is not None and figure["plus_minus"] < 0.0:
        yield f"{name} has a ± below nought"
    for key in ("shown", "plus_minus_shown"):
        for system, text in figure[key].items():
            if "nan" in text.split() or "inf" in text.split():
                yield f"{name} shows {text!r} in {system}"


def refusals(fields: list[Mapping[str, Any]]) -> Iterator[Mapping[str, Any]]:
    """Every field with a fault, those of rows too."""
    for field in fields:
        if field["wrong"]:
            yield field
        for row in field["rows"]:
            yield from refusals(row)


def _refusal(field: Mapping[str, Any]) -> Iterator[str]:
    fault, name = field["wrong"], field["id"]
    if not fault["message"]:
        yield f"{name} is refused without a word"
    if not fault["way_out"] and not fault["offers"]:
        yield f"{name} is refused without a way out: {fault['message']}"
    if not 0 <= fault["start"] <= fault["end"] <= len(fault["text"]):
        yield f"{name} has its span outside the text: {fault}"
    if fault["text"].strip() and fault["start"] == fault["end"]:
        yield f"{name} has a span of nothing: {fault}"


def faults_of(answer: Mapping[str, Any]) -> list[str]:
    """What is wrong with an answer."""
    text = json.dumps(answer, allow_nan=False)
    found = [f"{len(text)} characters"] if len(text) > LARGEST_ANSWER else []
    for problem in answer["problems"]:
        if not problem["message"] or not problem["way_out"]:
            found.append(f"a problem without words or way out: {problem}")
    for stage in answer["stages"]:
        if not stage["line"]:
            found.append(f"{stage['id']} says nothing")
        for figure in stage["figures"]:
            found += _figure(figure)
        for field in refusals(stage["fields"]):
            found += _refusal(field)
    return found
