"""A drawer that cannot make the height is said to lack it; its useless pieces lead nowhere."""

from __future__ import annotations

import pytest

from calc.job import work

BAR = {
    "taper.series": "Morse",
    "taper.size": "2",
    "setting.way": "bar",
    "setting.bar_centres": "100 mm",
    "setting.grade": "0.01 mm",
}


def setting(drawer: list[dict[str, str]], units: str = "mm", **more: str) -> dict:
    sheet = work({"format": 1, "units": units, "entries": {**BAR, **more}, "drawer": drawer})
    return next(stage for stage in sheet["stages"] if stage["id"] == "setting")


def stack(stage: dict) -> dict:
    return next(each for each in stage["figures"] if each["id"] == "setting.stack")


LEAF = {"name": "thin leaf", "shape": "leaf", "size": "0.001 mm", "measured": "0.001 mm", "give": "0.0002 mm"}


def test_the_lead_says_that_nothing_serves_and_by_how_much() -> None:
    """100 sin(atan(1/40.04)) = 2.49673 mm is wanted, and 0.001 mm is there: 2.49573 mm short."""
    stage = setting([LEAF])
    found = stack(stage)
    assert found["value"] == [] and found["lead"]
    assert found["shown"]["mm"].startswith("no stack within ")
    assert "from this drawer: 2.495" in found["shown"]["mm"] and found["shown"]["mm"].endswith(" mm short")
    assert "no stack within" in stage["line"] and "thin leaf" not in stage["line"]
    assert all("thin leaf" not in step["text"]["mm"] for step in stage["steps"])
    assert "setting.stack_error" not in {each["id"] for each in stage["figures"]}
    assert "2.495" in " ".join(each["text"] for each in stage["cautions"])


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_the_piece_said_to_help_makes_a_stack(units: str) -> None:
    stage = setting([LEAF], units)
    helps = {"name": "a slip", "shape": "flat", "size": "2.4957 mm", "measured": "2.4957 mm"}
    assert stack(stage)["value"] == []
    made = stack(setting([LEAF, helps], units))
    assert [each["name"] for each in made["value"]] in (["a slip", "thin leaf"], ["a slip"])


@pytest.mark.parametrize(("size", "serves"), [("2.51", True), ("2.52", True), ("2.6", False), ("9", False)])
def test_far_outside_is_several_limits(size: str, serves: bool) -> None:
    """A piece 0.02 mm off in 100 is 0.025 mm out on 64: bad, but a setting; 0.1 mm off is none."""
    piece = {"name": "one piece", "shape": "flat", "size": f"{size} mm", "measured": f"{size} mm"}
    assert bool(stack(setting([piece]))["value"]) is serves


def test_without_pieces_one_just_so_high_is_supposed_as_before() -> None:
    assert "with a piece just so high" in setting([])["line"]
