"""Faults found by reading whole jobs aloud, from the first line to the last, as if the hands did it."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from calc.demo import demo_request
from calc.job import work

SPEEDS = "45, 75, 120, 190, 300, 480, 760, 1200"


def _demo(seen: list[dict[str, str]], history: list[Any] | None = None, **entries: str) -> dict[str, Any]:
    request: Any = copy.deepcopy(demo_request())
    request["observations"], request["history"] = seen, history or []
    request["entries"].update({name.replace("__", "."): text for name, text in entries.items()})
    return work(request)  # type: ignore[return-value]


def _job(units: str = "mm", **entries: str) -> dict[str, Any]:
    told = {name.replace("__", "."): text for name, text in entries.items()}
    drawer = demo_request()["drawer"]
    return work({"format": 1, "units": units, "entries": told, "drawer": drawer})  # type: ignore[return-value]


def _blue(end: str, share: str) -> dict[str, str]:
    return {"way": "contact", "end": end, "share": share, "film": "thin"}


def _figure(sheet: dict[str, Any], name: str) -> dict[str, Any] | None:
    return next((each for stage in sheet["stages"] for each in stage["figures"] if each["id"] == name), None)


def _route(sheet: dict[str, Any], system: str = "mm") -> dict[str, str]:
    return {step["id"]: step["text"][system] for step in sheet["route"]}


def _shaft(units: str = "mm") -> dict[str, Any]:
    """A 1:20 end on a shaft of 300 mm between centres."""
    return _job(
        units,
        taper__series="own",
        taper__large_diameter="40 mm",
        taper__rate="1:20",
        taper__length="60 mm",
        taper__form="external",
        setting__way="set_over",
        blank__end="plain",
        blank__head_length="240 mm",
        blank__head_diameter="45 mm",
        finishing__spigot="25 mm",
        cutting__speeds=SPEEDS,
    )


def test_what_a_bar_has_taught_is_not_laid_to_the_other_methods() -> None:
    """Four cuts by the sine bar, all steep: a master or two collars are not aimed shallow for it."""
    records: list[Any] = []
    for share in ("half", "40 %", "three quarters", "half"):
        records.append(_demo([_blue("large", share)], list(records))["record"])
    before, after = _figure(_demo([]), "setting.ways"), _figure(_demo([], records), "setting.ways")
    assert before is not None and after is not None
    for old, new in zip(before["value"], after["value"], strict=True):
        if old["id"] in ("master", "collars", "one_dial", "two_dials", "set_over"):
            assert new["value"] == pytest.approx(old["value"], abs=0.003), old["id"]
            assert new["chance"] >= old["chance"] - 0.02, old["id"]
