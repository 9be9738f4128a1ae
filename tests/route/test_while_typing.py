"""No step goes while its own answer is typed: half a number must not take the field from under the hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

import pytest

from calc.job import work
from calc.setting import WAYS

HALVES = (".", "-", "1", "99999", "4 m")
"""What stands in a field on the way to a measure, and what is far off it."""
PROOFS = ("contact", "two_diameters", "rollers", "balls", "stand_off", "indicator_run", "rocking")
SPIGOT = "16 mm"


def _job(way: str, form: str, units: str) -> dict[str, Any]:
    entries = {"taper.series": "Morse", "taper.size": "2", "taper.form": form, "setting.way": way}
    if form == "external":
        entries["finishing.spigot"] = SPIGOT
    return {
        "format": 1,
        "units": units,
        "entries": entries,
        "observations": [{"way": proof} for proof in PROOFS],
    }


def _fields(fields: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    for each in fields:
        yield each
        for row in each["rows"]:
            yield from _fields(row)


def _kinds(sheet: Mapping[str, Any]) -> dict[str, str]:
    return {each["id"]: each["kind"] for stage in sheet["stages"] for each in _fields(stage["fields"])}


def _with(request: dict[str, Any], name: str, text: str) -> dict[str, Any]:
    return {**request, "entries": {**request["entries"], name: text}}


@cache
def _asked(way: str, form: str, units: str) -> tuple[str, ...]:
    sheet: Any = work(_job(way, form, units))
    kinds = _kinds(sheet)
    asks = dict.fromkeys(name for step in sheet["route"] for name in step["asks"])
    return tuple(name for name in asks if kinds.get(name) in ("length", "angle", "count", "text"))


CASES = [
    (way.ID, form, units)
    for way in WAYS
    for form in ("external", "internal")
    for units in ("mm", "inch")
    if not (way.ID == "set_over" and form == "internal")
]


@pytest.mark.parametrize(("way", "form", "units"), CASES)
def test_a_step_stays_while_its_answer_is_typed(way: str, form: str, units: str) -> None:
    request = _job(way, form, units)
    for name in _asked(way, form, units):
        for text in HALVES:
            sheet: Any = work(_with(request, name, text))
            assert any(name in step["asks"] for step in sheet["route"]), (name, text)
            assert name in _kinds(sheet), (name, text)


@pytest.mark.parametrize("proof", PROOFS)
def test_the_step_of_a_proof_stays_while_it_is_entered(proof: str) -> None:
    request = _job("bar", "external", "inch")
    request["observations"] = [{"way": proof}]
    sheet: Any = work(request)
    asked = [name for name in _kinds(sheet) if name.startswith("observations.0.")]
    assert asked
    for name in asked:
        key = name.rpartition(".")[2]
        for text in HALVES if key != "way" else ():
            there: Any = work({**request, "observations": [{"way": proof, key: text}]})
            assert "proving.enter" in {step["id"] for step in there["route"]}, (name, text)
            assert name in _kinds(there), (name, text)


def test_the_first_flat_in_thou_is_typed_key_by_key() -> None:
    """0.389 in by keys, as an inch shop types it: the fault is said beside it, and all else stands."""
    request = _job("bar", "external", "inch")
    whole: Any = work(request)
    for text in (".", ".2"):
        sheet: Any = work(_with(request, "finishing.across_now", text))
        assert [step["id"] for step in sheet["route"]] == [step["id"] for step in whole["route"]], text
        wrong = [each["id"] for stage in sheet["stages"] for each in stage["fields"] if each["wrong"]]
        assert wrong == ["finishing.across_now"], text
    typed: Any = work(_with(request, "finishing.across_now", ".389"))
    assert any(step["id"] == "finishing.tang_thick" for step in typed["route"])
