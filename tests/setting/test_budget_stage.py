"""Limits, aim, chance, advice and the ways side by side, as the door answers them."""

from __future__ import annotations

import math
from typing import Any

import mpmath
import pytest

from calc.demo import demo_request
from calc.doubt.doubts import DOUBTS
from calc.job import work
from calc.setting import WAYS


def ask(entries: dict[str, str] | None = None, drawer: Any = None, units: str = "mm") -> dict[str, Any]:
    request: dict[str, Any] = dict(demo_request())
    request["units"] = units
    request["entries"] = {**request["entries"], **(entries or {})}
    if drawer is not None:
        request["drawer"] = drawer
    return work(request)


def stage(sheet: dict[str, Any]) -> Any:
    return next(each for each in sheet["stages"] if each["id"] == "setting")


def figure(sheet: dict[str, Any], name: str) -> Any:
    return next((each for each in stage(sheet)["figures"] if each["id"] == name), None)


def field(sheet: dict[str, Any], name: str) -> Any:
    return next(each for each in stage(sheet)["fields"] if each["id"] == name)


def block(size: str, give: str, name: str = "block", shape: str = "flat") -> dict[str, str]:
    return {"name": name, "shape": shape, "size": size, "measured": size, "give": give, "count": "1"}


def test_wider_limits_are_likelier_held() -> None:
    grades = [
        figure(ask({"setting.grade": f"AT{grade}"}), "setting.chance")["value"] for grade in range(3, 13)
    ]
    assert grades == sorted(grades) and grades[0] < 0.3 and grades[-1] == 1.0


def test_a_limit_is_read_as_grade_or_as_length() -> None:
    for text, same in (
        ("at 6", "AT6"),
        ("± 0.01", "0.01 mm"),
        ("0.01", "0.01 mm"),
        ("4 tenths", "0.0004 in"),
    ):
        got, meant = ask({"setting.grade": text}), ask({"setting.grade": same})
        assert figure(got, "setting.chance")["value"] == figure(meant, "setting.chance")["value"], text
    # AT7 over 64 mm is 250 µrad (ISO 1947, from memory): ± 8 µm on diameter.
    by_length = figure(ask({"setting.grade": "0.008"}), "setting.chance")["value"]
    assert figure(ask(), "setting.chance")["value"] == pytest.approx(by_length, abs=1e-3)
    assert field(ask(), "setting.grade")["default"] == "AT7"


@pytest.mark.parametrize("text", ["AT13", "AT0", "ATx", "0", "5 mm", "-0.01", "much", "1,234.5", "1°"])
def test_a_limit_that_cannot_be_is_answered_beside_its_field(text: str) -> None:
    sheet = ask({"setting.grade": text})
    wrong = field(sheet, "setting.grade")["wrong"]
    assert wrong and wrong["way_out"]
    for offer in wrong["offers"]:
        assert field(ask({"setting.grade": offer}), "setting.grade")["wrong"] is None, offer
    assert sheet["problems"] == []


def test_short_of_the_grades_says_so() -> None:
    sheet = ask({"taper.length": "5"})
    assert figure(sheet, "setting.chance") is None
    assert any("630 mm" in each["text"] for each in stage(sheet)["cautions"])
    assert figure(ask({"taper.length": "5", "setting.grade": "0.002"}), "setting.chance") is not None


def test_the_aim_moves_the_stack_and_the_chance_follows() -> None:
    """A hair steep is a quarter of the whole width: 4 µm of AT7's 16 over 64 mm (ISO 1947, from memory)."""
    dead, steep = ask(), ask({"setting.aim": "large_end"})
    more = figure(steep, "setting.stack_height")["value"] - figure(dead, "setting.stack_height")["value"]
    half = math.atan(1 / 40.04 + 0.004 / 64 / 2)
    assert more == pytest.approx(100 * (math.sin(half) - math.sin(math.atan(1 / 40.04))), rel=2e-3)
    assert figure(steep, "setting.error_on_diameter")["value"] == pytest.approx(0.004, abs=0.001)
    assert figure(steep, "setting.chance")["value"] < figure(dead, "setting.chance")["value"]
    assert figure(steep, "setting.chance_large_end")["value"] > 0.6
    socket = ask({"setting.aim": "large_end", "taper.form": "internal"})
    assert figure(socket, "setting.error_on_diameter")["value"] == pytest.approx(-0.004, abs=0.001)
    assert figure(socket, "setting.chance_large_end")["value"] > 0.6


def test_blue_all_along() -> None:
    chances = [
        figure(ask({"setting.film": film}), "setting.chance_blue")["value"]
        for film in ("0.0005 mm", "0.002 mm", "0.01 mm")
    ]
    assert chances == sorted(chances) and chances[2] > 0.999
    # A film of half the limit bridges what the limit allows: cosine of 1.4 degrees apart the same chance.
    same = ask({"setting.film": "0.004 mm", "setting.grade": "0.008 mm"})
    assert figure(same, "setting.chance_blue")["value"] == pytest.approx(
        figure(same, "setting.chance")["value"], abs=1e-3
    )
    assert figure(ask(), "setting.chance_blue") is None


def test_the_budget_adds_up_and_says_where_it_comes_from() -> None:
    for units in ("mm", "inch"):
        sheet = ask({"setting.side_give": "0.004 mm"}, units=units)
        made, error = figure(sheet, "setting.budget"), figure(sheet, "setting.error_on_diameter")
        values = [each["value"] for each in made["value"]]
        assert values == sorted(values, reverse=True) and {"id", "label", "value"} == set(made["value"][0])
        assert math.hypot(*values) == pytest.approx(error["plus_minus"], rel=1e-6)
        rows = {row["cells"][0]["mm"]: row["cells"][-1]["mm"] for row in made["table"]["rows"]}
        assert rows["top slide's side against its travel"] == "as entered"
        assert "IS 5359" in rows["sine bar's centre distance"] and "measured" in rows["2.2 drill"]
        assert "no source" in rows["indicator's run"]


CHANGES = {
    doubt.better: (doubt.id, f"{doubt.gain:g} mm") for doubt in DOUBTS.values() if doubt.kind == "length"
}


@pytest.mark.parametrize("limit", ["0.004", "0.008", "0.012"])
def test_advice_is_what_comes_of_it(limit: str) -> None:
    """Each change told is carried out in the entries or the drawer: the chance then is what was told."""
    demonstration: Any = demo_request()
    rough = [
        {**row, "give": "0.008 mm"} if row["name"] == "2.2 drill" else row for row in demonstration["drawer"]
    ]
    told = {"setting.grade": limit, "setting.side_give": "0.002"}
    advice = figure(ask(told, rough), "setting.advice")
    assert 1 <= len(advice["value"]) <= 3
    done = 0
    for each in advice["value"]:
        assert each["from"] == pytest.approx(figure(ask(told, rough), "setting.chance")["value"], abs=1e-9)
        assert each["to"] > each["from"]
        words = each["change"].partition(" (")[0]
        if words in CHANGES:
            name, value = CHANGES[words]
            then = ask({**told, name: value}, rough)
        elif words.startswith("run the indicator along the whole"):
            then = ask({**told, "setting.sweep_length": "100"}, rough)
        elif words.startswith("one piece"):
            exact = figure(ask(told, rough), "setting.stack_height")["value"]
            then = ask(told, [block(f"{exact:.6f} mm", "0.00254 mm")])
        else:
            continue
        # With the change another stack may have become the best: never a worse one.
        assert figure(then, "setting.chance")["value"] >= each["to"] - 2e-3, each
        done += 1
    assert done


def test_measuring_the_worst_piece_is_advised() -> None:
    drawer = [
        {"name": "2.5 drill", "shape": "round", "size": "2.5 mm", "measured": "", "give": "", "count": "1"}
    ]
    sheet = ask({"setting.side_give": "0.001"}, drawer)
    assert any(
        each["change"] == "measure the 2.5 drill to ± 0.0025 mm"
        for each in figure(sheet, "setting.advice")["value"]
    )


def test_the_stack_likeliest_to_be_right_beats_the_nearest_sum() -> None:
    """Two leaves known to 0.01 mm make the very height; a block is 1 µm off and known to 0.0005 mm."""
    height = figure(ask(), "setting.stack_height")["value"]
    drawer = [
        block(f"{height - 0.5:.6f} mm", "0.01 mm", "thick", "leaf"),
        block("0.5 mm", "0.01 mm", "thin", "leaf"),
        block(f"{height + 0.001:.6f} mm", "0.0005 mm", "block"),
    ]
    sheet = ask(drawer=drawer)
    assert [piece["name"] for piece in figure(sheet, "setting.stack")["value"]] == ["block"]
    notes = " ".join(each["text"] for each in stage(sheet)["cautions"])
    assert "thick + thin is the nearer sum" in notes and "to be within tolerance against" in notes
    best = [row["best"] for row in figure(sheet, "setting.stack")["table"]["rows"]]
    assert best == [True] + [False] * (len(best) - 1)
    # Known alike, the nearer sum is the better one, and nothing needs explaining.
    drawer = [{**row, "give": "0.0001 mm"} for row in drawer]
    sheet = ask(drawer=drawer)
    assert len(figure(sheet, "setting.stack")["value"]) == 2
    assert "nearer sum" not in " ".join(each["text"] for each in stage(sheet)["cautions"])


def test_a_piece_higher_than_the_bar_makes_no_stack() -> None:
    for way in ("bar", "plate", "set_over"):
        sheet = ask({"setting.way": way, "setting.bar_centres": "20"}, [block("150 mm", "0.01 mm")])
        assert sheet["problems"] == [] and figure(sheet, "setting.ways") is not None
        assert figure(sheet, "setting.error_on_diameter") is None or way == "set_over"


def test_without_a_drawer_a_piece_just_so_high_is_supposed() -> None:
    """The budget without any piece's doubt is that of a piece known exactly, of the very height."""
    bare = ask(drawer=[])
    error = figure(bare, "setting.error_on_diameter")
    assert "just so high" in error["label"] and figure(bare, "setting.stack")["value"] == []
    height = figure(bare, "setting.stack_height")["value"]
    exact = ask(drawer=[block(f"{height:.6f} mm", "0")])
    assert error["plus_minus"] == pytest.approx(
        figure(exact, "setting.error_on_diameter")["plus_minus"], rel=1e-6
    )
    assert figure(bare, "setting.advice")["value"]


@pytest.mark.parametrize("plunger", ["axis", "slide"])
def test_a_division_of_the_dial(plunger: str) -> None:
    """From t sin a or t tan a at 50 digits: what a division more on the dial does over the length."""
    sheet = ask({"setting.way": "one_dial", "setting.plunger": plunger, "setting.travel": "50"})
    with mpmath.workdps(50):
        reading = mpmath.mpf(repr(figure(sheet, "setting.dial_whole")["value"]))
        travel = mpmath.mpf(repr(figure(sheet, "setting.travel_whole")["value"]))
        back = mpmath.asin if plunger == "axis" else mpmath.atan
        little = mpmath.mpf("1e-9")
        turned = (back((reading + little) / travel) - back(reading / travel)) / little / 100
        worth = 2 * 64 * turned * (1 + mpmath.tan(back(reading / travel)) ** 2)
        assert figure(sheet, "setting.per_division")["value"] == pytest.approx(float(worth), rel=1e-4)


def test_a_little_at_the_machine() -> None:
    """By plain geometry at 50 digits' worth of float: 2 L / (C cos³ a) for a stack, 2 sin a for a travel."""
    half = math.atan(1 / 40.04)
    sheet = ask()
    assert figure(sheet, "setting.per_tenth")["value"] == pytest.approx(
        0.00254 * 2 * 64 / 100 / math.cos(half) ** 3, rel=1e-5
    )
    assert figure(sheet, "setting.per_travel")["value"] == pytest.approx(2 * math.sin(half), rel=1e-5)
    assert figure(sheet, "setting.per_division")["value"] == pytest.approx(
        2 * 64 * 0.002 / 80 / math.cos(half) ** 2, rel=1e-5
    )


def test_ways_side_by_side() -> None:
    sheet = ask()
    ways = figure(sheet, "setting.ways")
    assert [each["id"] for each in ways["value"]] == [way.ID for way in WAYS]
    best = [row["best"] for row in ways["table"]["rows"]]
    chances = [each["chance"] for each in ways["value"]]
    assert sum(best) == 1 and chances[best.index(True)] == max(each for each in chances if each is not None)
    for each in ways["value"]:
        assert (each["chance"] is None) == bool(each["reason"])
        # The row is what the stage says when that way is picked.
        if not each["reason"]:
            alone = ask({"setting.way": each["id"]})
            assert figure(alone, "setting.chance")["value"] == pytest.approx(each["chance"], abs=1e-9), each[
                "id"
            ]
            error = figure(alone, "setting.error_on_diameter")
            assert error["value"] == each["value"] and error["plus_minus"] == each["plus_minus"]


def test_a_way_that_cannot_stands_with_its_reason() -> None:
    sheet = ask({"taper.series": "own", "taper.size": "", "taper.half_angle": "70"})
    ways = {each["id"]: each["reason"] for each in figure(sheet, "setting.ways")["value"]}
    assert "60°" in ways["bar"] and figure(sheet, "setting.stack_height") is None


@pytest.mark.parametrize("half", ["0", "45", "59", "70", "84"])
@pytest.mark.parametrize("way", [way.ID for way in WAYS])
def test_every_way_answers_at_the_limits(way: str, half: str) -> None:
    sheet = ask({"taper.series": "own", "taper.size": "", "taper.half_angle": half, "setting.way": way})
    found = stage(sheet)
    assert found["line"] and sheet["problems"] == []
    error = figure(sheet, "setting.error_on_diameter")
    if error is not None:
        assert math.isfinite(error["value"]) and error["plus_minus"] > 0.0
    assert all(each["wrong"] is None for each in found["fields"])
