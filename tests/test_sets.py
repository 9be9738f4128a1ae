"""The drawer by the handful: sets put in once, pieces named as a shop names its drills."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.job import work, work_text
from calc.quantities import read_length
from calc.tables.loader import load

KEYS = ("name", "shape", "size", "measured", "give", "count")


def ask(drawer: list[Any], add: Any = None, units: str = "mm") -> dict[str, Any]:
    return work({"format": 1, "units": units, "entries": {}, "drawer": drawer, "add": add})


def drawer_field(sheet: dict[str, Any]) -> Any:
    return next(each for stage in sheet["stages"] for each in stage["fields"] if each["kind"] == "pieces")


def piece(name: str, shape: str, size: str, measured: str = "") -> dict[str, str]:
    return {"name": name, "shape": shape, "size": size, "measured": measured, "give": "", "count": "1"}


def test_the_sets_stand_in_the_drawers_field() -> None:
    choices = {each["value"]: each["label"] for each in drawer_field(ask([]))["choices"]}
    rows = load("sets")
    assert list(choices) == [row["key"] for row in rows]
    assert all(f"({row['count']} pieces)" in choices[row["key"]] for row in rows)


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("row", load("sets"), ids=lambda row: str(row["key"]))
def test_a_set_comes_in_whole_and_only_once(row: Any, units: str) -> None:
    sheet = ask([], [row["key"]], units)
    drawer, many = sheet["drawer"], int(row["count"])
    assert sheet["problems"] == [] and len(drawer) == many
    assert f"{many} added" in drawer_field(sheet)["read"]
    for each in drawer:
        assert tuple(each) == KEYS and each["name"] and each["shape"] == row["shape"]
        assert (each["measured"], each["give"], each["count"]) == ("", "", "1")
    fields = drawer_field(sheet)["rows"]
    assert len(fields) == many and all(cell["wrong"] is None for cells in fields for cell in cells)
    assert all("as sold" in cells[KEYS.index("give")]["read"] for cells in fields)
    again = ask(drawer, [row["key"]], units)
    assert again["drawer"] == drawer
    assert f"0 added, {many} were there already" in drawer_field(again)["read"]
    assert ask(drawer, None, units)["drawer"] == drawer


def test_sizes_from_outside() -> None:
    """Number 7 is 0.201 in, letter F 0.257 in, in two printed charts of drills; 1/4 is a quarter inch."""
    drawer = ask([], ["drills-number-60", "drills-letter-26", "drills-fraction-13"])["drawer"]
    sizes = {each["name"]: read_length(each["size"]).exact for each in drawer}
    assert sizes["#7 drill"] == Fraction("0.201") * Fraction("25.4")
    assert sizes["F drill"] == Fraction("0.257") * Fraction("25.4")
    # E and 1/4 in are one size, and a drawer holds it once.
    assert sizes["E drill"] == Fraction("6.35") and "1/4 drill" not in sizes
    assert sizes["3/16 drill"] == Fraction(3, 16) * Fraction("25.4")


def test_what_is_there_is_kept_as_it_was_and_not_put_in_again() -> None:
    """Told by shape and size, however the size was written; a piece of another shape is another piece."""
    mine = [
        piece("my best", "round", "2.5", "2.489 mm"),
        piece("", "", "3,0"),
        piece("block", "flat", "4 mm"),
        piece("broken", "round", "4.2mm drill and"),
    ]
    sheet = ask(mine, ["drills-mm-19"])
    assert sheet["drawer"][0] == {**mine[0], "size": "2.5 mm"}
    assert len(sheet["drawer"]) == 4 + 17
    assert "17 added, 2 were there already" in drawer_field(sheet)["read"]
    assert [each["size"] for each in sheet["drawer"] if each["name"] == "4.0 drill"] == ["4 mm"]
    one = ask([piece("", "round", "2.5")], ["drills-mm-19"])
    assert "18 added, 1 was there already" in drawer_field(one)["read"]


def test_two_sets_that_share_sizes() -> None:
    """0.5 steps to 10 mm are 19 drills, to 13 mm 25: six more."""
    sheet = ask([], ["drills-mm-19", "drills-mm-25"])
    assert len(sheet["drawer"]) == 25 and "25 added, 19 were there already" in drawer_field(sheet)["read"]


def test_a_full_drawer_says_what_was_left_out() -> None:
    full = [piece("", "leaf", f"{number} tenths") for number in range(1, 291)]
    sheet = ask(full, ["drills-mm-19"])
    assert len(sheet["drawer"]) == 300
    assert "10 added, 9 left out: a drawer holds 300 rows" in drawer_field(sheet)["read"]
    assert "0 added, 19 left out" in drawer_field(ask([*full, *full], ["drills-mm-19"]))["read"]


def test_a_set_from_memory_says_so() -> None:
    for row in load("sets"):
        said = "from memory" in drawer_field(ask([], [row["key"]]))["read"]
        assert said == ("memory" in row["confidence"]), row["key"]


@pytest.mark.parametrize(
    "add", ["drills-mm-19", 7, {}, ["drills-mm-20"], [None, ["drills-mm-19"]], ["x" * 9000]]
)
def test_sets_not_known_are_named_and_the_rest_stands(add: Any) -> None:
    mine = [piece("mine", "flat", "2 mm")]
    sheet = ask(mine, add)
    assert sheet["problems"] and {each["id"] for each in sheet["problems"]} == {"add"}
    assert sheet["drawer"] == mine and all(len(each["message"]) < 200 for each in sheet["problems"])
    both = ask(mine, [*add, "drills-mm-19"] if isinstance(add, list) else ["drills-mm-19"])
    assert len(both["drawer"]) == 20


set_keys = st.sampled_from([row["key"] for row in load("sets")])
plain = st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8)


@settings(max_examples=80, deadline=None)
@given(
    plain
    | st.lists(plain | st.sampled_from([row["key"] for row in load("sets")]) | st.lists(plain), max_size=5),
    st.lists(plain | st.dictionaries(st.sampled_from(KEYS), plain | st.lists(plain, max_size=2)), max_size=5),
)
def test_total_whatever_is_added(add: object, drawer: list[object]) -> None:
    asked = {"format": 1, "units": "mm", "entries": {}, "drawer": drawer, "add": add}
    answer = json.loads(
        work_text(json.dumps(asked)), parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    assert answer["stages"] and len(answer["drawer"]) <= 300
    again = work({"format": 1, "units": "mm", "entries": {}, "drawer": answer["drawer"], "add": add})
    assert len(again["drawer"]) == len(answer["drawer"]), "what was added is not added twice"


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("#7", "0.201"),
        ("#7 drill", "0.201"),
        ("no. 7 drill", "0.201"),
        ("F drill", "0.257"),
        ("letter F", "0.257"),
        ("1/4 drill", "0.25"),
        ("drill 1/4", "0.25"),
        ("17/64 drill", "0.265625"),
    ],
)
def test_a_drills_name_is_a_size_in_either_system(typed: str, inches: str, units: str) -> None:
    """Sizes [in] as two printed charts of drills have them; fractions by arithmetic."""
    sheet = ask([piece("", "round", typed)], None, units)
    cells = {each["id"].rpartition(".")[2]: each for each in drawer_field(sheet)["rows"][0]}
    assert cells["size"]["wrong"] is None and "read as" in cells["size"]["read"]
    assert read_length(sheet["drawer"][0]["size"]).exact == Fraction(inches) * Fraction("25.4")
    assert "1 piece," in drawer_field(sheet)["read"]


def test_a_metric_drill_in_inches_is_asked_about() -> None:
    """4.2 in would be a drill as thick as an arm; both can be picked."""
    sheet = ask([piece("", "round", "4.2 drill")], None, "inch")
    wrong = drawer_field(sheet)["rows"][0][KEYS.index("size")]["wrong"]
    assert wrong["offers"] == ["4.2 in drill", "4.2 mm drill"]
    for offer, millimetres in zip(wrong["offers"], (Fraction("106.68"), Fraction("4.2")), strict=True):
        mended = ask([piece("", "round", offer)], None, "inch")
        assert read_length(mended["drawer"][0]["size"]).exact == millimetres
    assert ask([piece("", "round", "4.2 drill")])["drawer"][0]["size"] == "4.2 mm"


def test_a_drawer_read_before_is_read_alike() -> None:
    """The same rows again, in the other system, and with one cell changed in kind only."""
    rows = [piece("", "round", "2.5"), {**piece("", "flat", "1"), "count": 2}]
    first = ask(rows)
    assert ask(rows) == first
    assert ask(rows, None, "inch")["drawer"][0]["size"] == "2.5 in"
    assert ask([rows[0], {**rows[1], "count": True}])["drawer"] != first["drawer"]
    assert ask([rows[0], {**rows[1], "count": 2.0}])["drawer"] == first["drawer"]
    assert ask([rows[0], {"size": "1", "shape": "flat", "count": 2}])["drawer"] == first["drawer"]
