"""Faults found by reading whole jobs aloud, from the first line to the last, as if the hands did it."""

from __future__ import annotations

import copy
import re
from typing import Any

import pytest

from calc.demo import demo_request
from calc.job import work
from calc.quantities import shown_micrometres

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


def test_centring_and_roughing_are_told_once_where_the_blank_tells_them() -> None:
    route = _route(_shaft())
    assert "setting.centre_both" not in route and "setting.parallel" not in route
    assert "drill a centre hole there as well" in route["blank.other_end"]
    assert "set over only for the taper" in route["blank.rough_hold"]


def test_no_lever_indicator_is_asked_for_a_set_over_of_eight_millimetres() -> None:
    """A lever-type test indicator runs some 0.8 mm; a plunger 10 mm; this set-over is nearly 8 mm."""
    told = _route(_shaft())["setting.indicator"]
    assert "(DTI)" not in told and "plunger" in told
    longer = _job(
        taper__series="own",
        taper__large_diameter="40 mm",
        taper__rate="1:20",
        taper__length="60 mm",
        setting__way="set_over",
        setting__work_length="600 mm",
    )
    said = [each["text"] for stage in longer["stages"] for each in stage["cautions"]]
    assert any("further than most dial indicators run" in each for each in said)


def test_what_is_set_stands_in_the_line_and_not_only_digits_nobody_sets() -> None:
    line = next(each["line"] for each in _shaft()["stages"] if each["id"] == "setting")
    assert "7.97 mm;" in line and "7.96" not in line
    # The number on the card is the one that the step says, and the exact one stands beside it.
    for units in ("mm", "inch"):
        sheet = _shaft(units)
        lead, exact = _figure(sheet, sheet["glance"]["lead"]), _figure(sheet, "setting.set_over")
        assert lead is not None and exact is not None
        said = next(step["text"][units] for step in sheet["route"] if step["id"] == "setting.over")
        assert f"by {lead['shown'][units]}." in said
        assert abs(exact["value"] - lead["value"]) < 0.0128


def test_work_of_another_length_than_its_blank_is_pointed_out() -> None:
    """A shaft planned 325 mm long and set over for one of 360 mm comes out a tenth too steep."""
    for length, said in (("", False), ("326 mm", False), ("360 mm", True), ("13 in", True)):
        sheet = _job(
            taper__series="own",
            taper__large_diameter="30 mm",
            taper__rate="1:20",
            taper__length="300 mm",
            setting__way="set_over",
            setting__work_length=length,
        )
        told = [each["text"] for stage in sheet["stages"] for each in stage["cautions"]]
        assert any("the blank is planned 325.0 mm long" in each for each in told) == said, length
    dial = _job(taper__series="Jarno", taper__size="6", setting__way="one_dial")
    line = next(each["line"] for each in dial["stages"] if each["id"] == "setting")
    assert "to set 1.20 mm over 48.01 mm" in line and "taper 0" not in line


def test_a_dowel_has_no_flutes() -> None:
    for name, fluted in (("2.5 dowel pin", False), ("2.5 drill", True)):
        request: Any = copy.deepcopy(demo_request())
        request["drawer"] = [
            {"name": name, "shape": "round", "size": "2.5 mm", "measured": "2.4967 mm", "count": "1"}
        ]
        assert ("flutes" in _route(work(request))["setting.stack"]) is fluted


def test_a_live_centre_in_the_outer_end_finds_a_centre_hole_there() -> None:
    """The chucking allowance is sawn off and the end faced: no centre hole is left, or ever was."""
    for sheet in (_demo([]), _shaft()):
        route = _route(sheet)
        assert "centre in its outer end" in route["finishing.spigot_seated"]
        assert "drill a centre hole in that end" in route["blank.to_length"]
        assert "part: in" not in route["blank.to_length"]


def test_an_inch_card_speaks_of_a_chip_in_inches_and_of_one_tenth() -> None:
    sheet = _job("inch", taper__series="Morse", taper__size="2", setting__bar_centres="5 in")
    reasons = [each["reason"] for stage in sheet["stages"] for each in stage["cautions"]]
    chip = next(each for each in reasons if each.startswith("A chip of"))
    assert "0.001 in" in chip and "mm" not in chip
    assert shown_micrometres(0.00254)["inch"] == "+1.0 tenths"
    assert shown_micrometres(0.0025, 0.02)["inch"] == "+1 tenth"
    assert shown_micrometres(0.0051, 0.02)["inch"] == "+2 tenths"


def test_a_measured_socket_says_the_two_roads() -> None:
    sheet = _job(
        taper__series="unknown",
        taper__form="internal",
        taper__large_diameter="23.86 mm",
        taper__small_diameter="19.90 mm",
        taper__length="79 mm",
    )
    said = " ".join(each["text"] + each["reason"] for each in sheet["stages"][0]["cautions"])
    assert "choose what was measured, or its mate" in said
    assert any("taper.go_on" in step["asks"] for step in sheet["route"])


def test_a_tap_says_how_far_from_the_pivot_in_digits_an_indicator_shows() -> None:
    sheet = _demo([_blue("large", "quarter")])
    line = next(each["line"] for each in sheet["stages"] if each["id"] == "proving")
    tap = _figure(sheet, "proving.tap")
    assert tap is not None and tap["shown"]["mm"] == f"{tap['value']:.3f} mm"
    assert f"by {tap['shown']['mm']}, 100.0 mm from its pivot" in line
    assert "100.0 mm from the pivot" in tap["label"]


@pytest.mark.parametrize("end", ["all"])
def test_what_is_right_is_neither_steep_nor_tapped(end: str) -> None:
    sheet = _demo([_blue(end, "all")])
    decision, error = _figure(sheet, "proving.decision"), _figure(sheet, "proving.error_on_diameter")
    assert decision is not None and decision["value"] == "done" and error is not None
    assert _figure(sheet, "proving.tap") is None and _figure(sheet, "proving.turn") is None
    assert error["shown"]["mm"] == "0 µm" and abs(error["value"]) < 0.0005


def test_a_contradiction_lets_nothing_be_changed_on_the_route() -> None:
    seen = {"way": "two_diameters", "diameter_1": "17.930", "diameter_2": "15.452", "apart": "50 mm"}
    route = _route(_demo([_blue("large", "quarter"), seen]))
    assert "change nothing" in route["proving.right"] and "take out the row" in route["proving.right"]


def test_a_socket_is_proved_after_a_cut_that_is_named() -> None:
    """Bored parallel to its small diameter first, only the last cut runs a socket's whole length."""
    sheet = _job(
        taper__series="Morse",
        taper__size="3",
        taper__form="internal",
        setting__bar_centres="100 mm",
        cutting__speeds=SPEEDS,
    )
    route, metal = _route(sheet), _figure(sheet, "proving.metal")
    said = route["proving.metal"]
    # Two finishing cuts of 0.1 mm on radius: one is left, less what roughing to a whole division took of it.
    still = re.match(r"Stop after cut 5 of 6: (0\.\d+) mm are still on the diameter", said)
    assert metal is not None and still is not None
    left = float(still.group(1))
    assert metal["value"] <= left <= 0.2 and "then one finishing cut" in route["cutting.depths"]
    # Bored to 19.76 mm, the mouth 23.825 mm less what is left, at 1:19.922: so far the cone reaches.
    bored = float(re.search(r"no more than (\d+\.\d+) mm", route["blank.bore_true"]).group(1))  # type: ignore[union-attr]
    assert f"{(23.825 - left - bored) * 19.922:.0f}" in said


def test_a_travel_that_is_wanted_is_said_as_far_as_a_slide_is_looked_at() -> None:
    sheet = _job(taper__series="Jarno", taper__size="6", setting__bar_centres="100 mm")
    wanted = _figure(sheet, "cutting.travel")
    assert wanted is not None and wanted["value"] == pytest.approx(76.2 / 0.999687667 + 2.0, abs=1e-3)
    assert wanted["shown"] == {"mm": "78.30 mm", "inch": "3.080 in"}


def test_a_taper_hardly_begun_is_not_proved_yet() -> None:
    """A pipe's taper, little off its blank: the first cut runs over a few millimetres of it only."""
    route = _route(
        _job(taper__series="NPT", taper__size="1/2", setting__way="attachment", cutting__speeds=SPEEDS)
    )
    assert "Stop after cut 1 of" not in route["proving.metal"]


def test_an_inch_card_names_inches_first() -> None:
    sheet = _job("inch", taper__series="Morse", taper__size="2", setting__bar_centres="5 in")
    for name in ("setting.per_tenth", "setting.per_travel"):
        worth = _figure(sheet, name)
        assert worth is not None and worth["label"].split()[1] == "in"
