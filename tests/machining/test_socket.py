"""A socket's rough hole: drill and depth, and which way it lies unless said."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.job import work
from calc.machining.socket import RUN_OUT, socket_depth, socket_drill


def sheet(size: str = "2", **more: str) -> dict:
    entries = {"taper.series": "Morse", "taper.size": size, "taper.form": "internal", **more}
    return work({"format": 1, "units": "mm", "entries": entries})


def stage(found: dict, name: str) -> dict:
    return next(each for each in found["stages"] if each["id"] == name)


def values(found: dict) -> dict:
    return {each["id"]: each["value"] for part in found["stages"] for each in part["figures"]}


@given(st.floats(0.5, 60.0))
def test_the_drill_is_sold_and_no_larger(most: float) -> None:
    """In millimetres by tenths or halves, in inches by sixty-fourths; the next one up would be too large."""
    drill = socket_drill(most)
    if not drill:
        assert most < 1.0  # the metric table begins there
        return
    assert drill["mm"].diameter <= most + 1e-9 and drill["inch"].diameter <= most + 1e-9
    assert drill["mm"].text.endswith("mm") and drill["inch"].text.endswith("in")
    if most < 25.0:
        assert drill["mm"].diameter + 0.5 > most - 1e-9
        assert drill["inch"].diameter + 25.4 / 64 > most - 1e-9


@given(st.floats(1.0, 300.0), st.floats(1.0, 300.0))
def test_the_hole_is_deep_enough_for_taper_and_table(length: float, least: float) -> None:
    assert socket_depth(length, least) >= max(length + RUN_OUT, least)
    assert socket_depth(length, None) == length + RUN_OUT


@pytest.mark.parametrize("size", ["1", "2", "3", "4", "5"])
def test_every_socket_says_drill_and_depth(size: str) -> None:
    """The drill stays under the taper's small end and the bore behind it; the depth passes the taper."""
    found = sheet(size)
    got = values(found)
    assert got["blank.drill_size"] <= got["blank.pilot"] < got["taper.small_diameter"]
    assert got["blank.drill_depth"] >= got["taper.length"] + RUN_OUT
    step = next(each for each in stage(found, "blank")["steps"] if each["id"] == "blank.drill")
    assert " deep at its full diameter" in step["text"]["mm"] and " mm" in step["text"]["mm"]
    assert " in" in step["text"]["inch"] and "mm" not in step["text"]["inch"]


def test_a_sockets_small_end_lies_towards_the_headstock_unless_said() -> None:
    """It is bored from its mouth. The other way about is cautioned; a shank's usual way is the other one."""
    field = next(each for each in stage(sheet(), "taper")["fields"] if each["id"] == "taper.small_end")
    assert field["default"] == "headstock"
    assert values(sheet())["setting.swing"] == "clockwise"
    said = sheet(**{"taper.small_end": "tailstock"})
    assert values(said)["setting.swing"] == "anticlockwise"
    assert any("narrow end" in each["text"] for each in stage(said, "taper")["cautions"])
    assert not any("narrow end" in each["text"] for each in stage(sheet(), "taper")["cautions"])
    shank = sheet(**{"taper.form": "external"})
    assert values(shank)["setting.swing"] == "anticlockwise"


def test_nothing_of_a_socket_runs_on_a_centre() -> None:
    """No plug on a centre: neither in the route nor in what is asked."""
    found = sheet(**{"setting.way": "bar", "setting.bar_centres": "100mm"})
    for step in found["route"]:
        if step["stage"] in ("blank", "cutting", "finishing"):
            said = step["text"]["mm"].replace("plug gauge", "gauge")
            assert "on its centre" not in said and "plug" not in said
    assert all(each["id"] != "cutting.support" for each in stage(found, "cutting")["fields"])
