"""A request through the one door, and what stands in its answer: by id, so that no module is named."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from calc.demo import demo_request
from calc.job import work

DOUBTS_ALONE = ("setting.seating", "setting.tool_height", "setting.temperature", "setting.collar_left")
"""Half-widths whose ids do not end in _give."""


def demo(
    entries: Mapping[str, str], drawer: Sequence[Mapping[str, str]] | None = None, units: str = "mm"
) -> dict[str, Any]:
    """The sheet of the demonstration job with these entries changed."""
    request: dict[str, Any] = dict(demo_request())
    request["units"] = units
    request["entries"] = {**request["entries"], **entries}
    if drawer is not None:
        request["drawer"] = list(drawer)
    return answered(request)


def job(entries: Mapping[str, str], units: str = "mm") -> dict[str, Any]:
    """The sheet of a job of these entries alone, without a drawer."""
    return answered({"format": 1, "units": units, "entries": dict(entries), "drawer": []})


def answered(request: dict[str, Any]) -> dict[str, Any]:
    """The sheet; entries that no stage knows would stand among its problems."""
    sheet: dict[str, Any] = work(request)
    assert sheet["problems"] == []
    return sheet


def figure(sheet: Mapping[str, Any], name: str) -> Any:
    """The figure with this id; None where there is none."""
    return next(
        (each for stage in sheet["stages"] for each in stage["figures"] if each["id"] == name), None
    )


def field(sheet: Mapping[str, Any], name: str) -> Any:
    """The field with this id; None where it is not asked."""
    return next((each for stage in sheet["stages"] for each in stage["fields"] if each["id"] == name), None)


def warnings(sheet: Mapping[str, Any], stage: str) -> str:
    """What a stage warns of, with the reasons, as one text."""
    found = next(each for each in sheet["stages"] if each["id"] == stage)
    return " ".join(f"{each['text']} {each['reason']}" for each in found["cautions"])


def steps(sheet: Mapping[str, Any], stage: str, system: str = "mm") -> Iterator[str]:
    """What is to be done in a stage, a text each, whichever way steps are told."""
    for each in next(one for one in sheet["stages"] if one["id"] == stage)["steps"]:
        yield each if isinstance(each, str) else each["text"][system]


def doubts(sheet: Mapping[str, Any]) -> list[str]:
    """The half-widths that setting asks for."""
    stage = next(each for each in sheet["stages"] if each["id"] == "setting")
    names = [each["id"] for each in stage["fields"]]
    return [name for name in names if name.endswith("_give") or name in DOUBTS_ALONE]


def nothing_in_doubt(way: str = "bar") -> dict[str, str]:
    """Entries that make everything known exactly, for one way of setting."""
    return {"setting.way": way} | {name: "0" for name in doubts(demo({"setting.way": way}))}


def piece(size: float, give: str = "0", name: str = "block", shape: str = "flat") -> dict[str, str]:
    """A piece for the drawer, its size [mm] to the nanometre."""
    text = f"{size:.6f} mm"
    return {"name": name, "shape": shape, "size": text, "measured": text, "give": give, "count": "1"}
