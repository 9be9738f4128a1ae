"""Faults that showed where a card of setting was followed line by line, each by itself."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from calc.setting import WAYS
from calibration.lathe import Truth, error_on_diameter
from door import demo, doubts, field, figure, job, steps, warnings

MORSE_2 = {"taper.series": "Morse", "taper.size": "2"}


def setting(sheet: dict) -> dict:  # type: ignore[type-arg]
    return next(each for each in sheet["stages"] if each["id"] == "setting")


# set-over


def test_set_over_takes_the_blank_s_own_length() -> None:
    """Saw to length, less what is faced off both ends: what the centres carry."""
    sheet = demo({"setting.way": "set_over"})
    sawn, facing = figure(sheet, "blank.length")["value"], 1.0
    default = field(sheet, "setting.work_length")["default"]
    assert float(default.split()[0]) == pytest.approx(sawn - 2 * facing)
    depth = float(field(sheet, "setting.centre_depth")["default"].split()[0])
    over = figure(sheet, "setting.set_over")["value"]
    assert over == pytest.approx((sawn - 2 * facing - depth) * math.sin(math.atan(1 / 20.020 / 2)), rel=1e-6)


def test_no_set_over_without_a_length() -> None:
    own = {"taper.series": "own", "taper.rate": "1:20", "taper.large_diameter": "20 mm"}
    sheet = job({"setting.way": "set_over", **own})
    assert figure(sheet, "setting.set_over") is None
    assert "length of the work between centres" in setting(sheet)["line"]


def test_a_steep_taper_is_refused_before_a_number_leads() -> None:
    sheet = job(
        {"setting.way": "set_over", "taper.series": "7/24", "taper.size": "40", "setting.work_length": "150"}
    )
    assert figure(sheet, "taper.rate")["value"] == pytest.approx(7 / 24)
    assert figure(sheet, "setting.set_over") is None and "Too steep" in setting(sheet)["line"]
    steep = job(
        {"setting.way": "set_over", "taper.series": "own", "taper.rate": "7:24", "setting.work_length": "150"}
    )
    assert figure(steep, "setting.set_over") is None and "Too steep" in setting(steep)["line"]


def test_set_over_stands_between_what_is_parallel() -> None:
    """In line before roughing, over before cutting, back in line before anything parallel again."""
    sheet = demo({"setting.way": "set_over"})
    order = [each["id"] for each in sheet["route"]]
    parallel = next(place for place, each in enumerate(sheet["route"]) if each["phase"] == "rough")
    assert order.index("setting.in_line") < parallel < order.index("setting.over")
    back = order.index("setting.back")
    assert order.index("setting.over") < back
    after = [each for each in sheet["route"][back + 1 :]]
    spigot = [
        place
        for place, each in enumerate(sheet["route"])
        if "spigot" in each["id"] and each["phase"] == "finish"
    ]
    assert after and all(place > back for place in spigot)
    cautions = {each["id"]: set(each["cautions"]) for each in sheet["route"]}
    assert {"carrier", "centre"} <= cautions["setting.mount"]


# lengths that cannot be


@pytest.mark.parametrize(
    ("way", "bar", "longest"), [("bar", 60.0, 60.0), ("master", 100.0, 64.0), ("plate", 100.0, 64.0)]
)
def test_no_run_longer_than_what_it_runs_along(way: str, bar: float, longest: float) -> None:
    entries = {"setting.way": way, "setting.bar_centres": f"{bar} mm"}
    (said,) = [each for each in steps(demo(entries), "setting") if "runs along" in each]
    assert f"{longest:.1f} mm" in said
    long = demo({**entries, "setting.sweep_length": "90 mm"})
    assert "cannot run further" in warnings(long, "setting")
    same = demo({**entries, "setting.sweep_length": f"{longest} mm"})
    assert "cannot run further" not in warnings(same, "setting")
    one, other = (figure(each, "setting.error_on_diameter")["plus_minus"] for each in (long, same))
    assert one == other


def test_a_run_past_the_indicator_s_range_is_said() -> None:
    steep = {"taper.series": "own", "taper.rate": "1:2", "taper.large_diameter": "60", "taper.length": "40"}
    for way in ("one_dial", "two_dials"):
        far = job({**steep, "setting.way": way, "setting.travel": "60 mm"})
        assert "further than most dial indicators run" in warnings(far, "setting")


def test_the_cross_slide_is_not_moved_by_less_than_its_collar_says() -> None:
    sheet = demo({"setting.way": "collars", "setting.collar_measured": "2.99 mm"})
    (said,) = [each for each in steps(sheet, "setting") if "Touch the tool off" in each]
    assert "by an indicator" in said and "Fix a dial test indicator" in said
    assert not re.search(r"\d\.\d{4} mm", said)
    assert figure(sheet, "setting.collar_move")["shown"]["mm"].endswith(" mm by an indicator")


def test_no_chance_over_a_length_that_is_not_known() -> None:
    own = {"taper.series": "own", "taper.rate": "1:20", "taper.large_diameter": "20 mm"}
    sheet = job(own)
    assert figure(sheet, "setting.chance") is None and "Enter the taper's length" in warnings(
        sheet, "setting"
    )
    assert figure(job({**own, "taper.length": "40 mm"}), "setting.chance") is not None
    # A limit on diameter needs no grade's length.
    assert figure(job({**own, "setting.grade": "0.01 mm"}), "setting.chance") is not None


# what a division is worth


@pytest.mark.parametrize("scale", ["per_foot", "degrees"])
def test_an_attachment_set_by_its_scale(scale: str) -> None:
    """The step, the figure and the error speak of one setting; a division of it is worth something."""
    entries = {
        "setting.way": "attachment",
        "setting.attachment_by": "scale",
        "setting.attachment_scale": scale,
    }
    sheet = demo({**entries, **{name: "0" for name in doubts(demo(entries))}})
    whole = figure(sheet, "setting.attachment_whole")
    half = math.atan(whole["value"] / 2.0) if scale == "per_foot" else whole["value"]
    taper = 2.0 * 64.0 * (math.tan(half) - 0.5 / 20.020)
    assert figure(sheet, "setting.error_on_diameter")["value"] == pytest.approx(taper, abs=1e-6)
    assert any(whole["shown"]["mm"] in each for each in steps(sheet, "setting"))
    division = math.radians(1.0) if scale == "degrees" else 0.125 / 24.0
    assert figure(sheet, "setting.per_division")["value"] == pytest.approx(128.0 * division, rel=0.02)
    assert "setting.axis_give" in {each["id"] for each in figure(demo(entries), "setting.budget")["value"]}
    assert any(
        "nut released" in each and "top slide square across" in each for each in steps(sheet, "setting")
    )


@pytest.mark.parametrize("along", ["slide", "axis", "carriage"])
def test_a_division_of_two_indicators_at_a_steep_angle(along: str) -> None:
    """From the ratio itself: across is t sin a or t tan a, and a division more turns it by so much."""
    half, travel, division = math.radians(40.0), 20.0, 0.01
    entries = {
        "setting.way": "two_dials", "setting.travel_along": along, "setting.travel": "20 mm",
        "taper.series": "own",
        "taper.half_angle": "40 deg", "taper.large_diameter": "60 mm", "taper.length": "20 mm",
    }  # fmt: skip
    sheet = job(entries)
    told = figure(sheet, "setting.travel_whole")["value"]
    back, there = (math.asin, math.sin) if along == "slide" else (math.atan, math.tan)
    turned = back((told * there(half) + division) / told) - half
    worth = 2.0 * 20.0 * (math.tan(half + turned) - math.tan(half))
    assert abs(told - travel) < 3.0
    assert figure(sheet, "setting.per_division")["value"] == pytest.approx(worth, rel=0.01)


def test_on_the_plate_no_tool_is_out_of_height() -> None:
    assert field(demo({"setting.way": "plate"}), "setting.tool_height") is None
    assert field(demo({"setting.way": "bar"}), "setting.tool_height") is not None


def test_graduations_from_across_say_one_number() -> None:
    sheet = demo({"setting.way": "graduations", "setting.zero": "across"})
    (said,) = [each for each in steps(sheet, "setting")
               if "square across" in each]  # fmt: skip
    assert len(re.findall(r"\d+\.\d+°", said)) == 1


# what is known to be out


def test_known_errors_are_taken_off() -> None:
    """On the lathe in vectors, with errors as entered: nothing is left of them."""
    known = {"edge": 0.012, "side": -0.021, "axis": 0.034}
    entries = {
        **{f"setting.{name}_known": f"{value} mm" for name, value in known.items()},
        "taper.series": "own", "taper.large_diameter": "20 mm", "taper.small_diameter": "17 mm",
        "taper.length": "60 mm",
    }  # fmt: skip

    def left(asked: dict[str, str]) -> float:
        height = figure(job(asked), "setting.stack_height")["value"]
        one = np.array([0.0])
        truth = Truth(
            one + 100.0, one + 20.0, one + 20.0, one + known["edge"], one + height, one, 80.0,
            one + known["side"], 80.0,
            one + known["axis"], 100.0, one, one,
        )  # fmt: skip
        return float(error_on_diameter(truth, 20.0, 17.0, 60.0, 11.5e-6)[0])

    assert left(entries) == pytest.approx(0.0, abs=1e-6)
    without = {name: text for name, text in entries.items() if "_known" not in name}
    assert abs(left(without)) > 0.01
    each_alone = [left({**without, name: entries[name]}) for name in entries if "_known" in name]
    assert len({round(each, 6) for each in each_alone}) == 3


@pytest.mark.parametrize("way", ["bar", "two_dials", "graduations", "attachment", "set_over"])
def test_known_errors_are_asked_beside_their_doubt(way: str) -> None:
    extra = {"setting.travel_along": "carriage", "setting.attachment_by": "scale"}
    sheet = demo({"setting.way": way, **extra})
    before = figure(sheet, "setting.error_on_diameter")["value"]
    after = demo({"setting.way": way, **extra, "setting.axis_known": "0.02 mm"})
    assert field(sheet, "setting.axis_known")["belongs"] == "shop"
    # Taken off what is set: what is expected of the taper stays what it was, but for rounding.
    assert figure(after, "setting.error_on_diameter")["value"] == pytest.approx(before, abs=0.02)


@pytest.mark.parametrize("way", ["bar", "two_dials", "graduations", "attachment", "set_over"])
def test_known_errors_that_outdo_the_taper_are_refused(way: str) -> None:
    extra = {
        "setting.travel_along": "carriage",
        "setting.attachment_by": "scale",
        "setting.axis_known": "-5 mm",
    }
    sheet = demo({"setting.way": way, **extra})
    assert "outdoes the taper" in setting(sheet)["line"]
    # The other way round it adds: that can be set.
    assert "outdoes" not in setting(demo({"setting.way": way, **extra, "setting.axis_known": "5 mm"}))["line"]


# sockets, both systems, hazards

SOCKET = {"taper.form": "internal", "taper.small_end": ""}


def test_what_too_steep_means_in_a_socket() -> None:
    notes = [each["note"] for each in figure(demo(SOCKET), "setting.error_on_diameter")["working"]]
    assert any("socket bears at its small end" in each for each in notes)
    notes = [each["note"] for each in figure(demo({}), "setting.error_on_diameter")["working"]]
    assert any("shank bears at its large end" in each for each in notes)


def test_where_the_trial_for_a_bore_is_turned() -> None:
    said = " ".join(steps(demo({**SOCKET, "setting.way": "collars"}), "setting"))
    assert "turned outside" in said and "same taper" in said


@pytest.mark.parametrize("way", [each.ID for each in WAYS])
@pytest.mark.parametrize("lies", [{}, SOCKET], ids=["shank", "socket"])
def test_both_systems_are_true(way: str, lies: dict[str, str]) -> None:
    """Every measure of a step in mm is one in inches in the other text, alike to its last place."""
    sheet = demo({"setting.way": way, **lies})
    for each in setting(sheet)["steps"]:
        metric = [float(number) for number in re.findall(r"(\d+(?:\.\d+)?) mm", each["text"]["mm"])]
        inches = re.findall(r"(\d+\.\d+) in\b(?!/)", each["text"]["inch"])
        if "(0.001 in)" in each["text"]["mm"]:
            continue
        assert len(metric) == len(inches), each
        for one, other in zip(metric, inches, strict=True):
            assert abs(one - 25.4 * float(other)) <= 25.4 * 10.0 ** -len(other.partition(".")[2]) + 0.006


@pytest.mark.parametrize("way", [each.ID for each in WAYS if each.CUTS_BY])
def test_the_far_side_has_its_cautions(way: str) -> None:
    far = setting(demo({"setting.way": way, "setting.cut_side": "far"}))
    near = setting(demo({"setting.way": way}))
    named = {name for each in far["steps"] for name in each["cautions"]}
    assert "far_side" in named
    assert "far_side" not in {name for each in near["steps"] for name in each["cautions"]}


def test_no_sentence_on_drills_where_there_is_none() -> None:
    height = figure(demo({}), "setting.stack_height")["value"]
    block = {
        "name": "block",
        "shape": "flat",
        "size": f"{height:.4f} mm",
        "measured": f"{height:.4f} mm",
        "count": "1",
    }
    assert "flutes" not in " ".join(steps(demo({}, [block]), "setting"))
    assert "plain shank, never its flutes" in " ".join(steps(demo({}), "setting"))
    empty = " ".join(steps(demo({}, []), "setting"))
    assert "none found in the drawer yet" in empty and "flutes" not in empty


def test_the_card_shows_no_danger_of_its_own() -> None:
    own = [each for each in setting(demo({}))["cautions"] if each["level"] == "danger"]
    assert all(each["id"] for each in own)
