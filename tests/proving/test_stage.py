"""The stage of proving, through the door: what is asked, found, said and handed on."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest

from calc.demo import demo_request
from calc.gauging import WAYS
from calc.job import work
from calc.setting import WAYS as SETTING_WAYS

Row = dict[str, str]
STEEP: Row = {"way": "contact", "end": "large", "share": "40 %"}
SHALLOW: Row = {"way": "contact", "end": "small", "share": "40 %"}


def _ask(
    rows: list[Row], history: list[object] | None = None, units: str = "mm", **entries: str
) -> dict[str, Any]:
    request: dict[str, Any] = demo_request()
    request["units"] = units
    request["entries"].update({name.replace("__", "."): value for name, value in entries.items()})
    request["observations"] = rows
    request["history"] = history or []
    return work(request)


def _stage(sheet: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = next(stage for stage in sheet["stages"] if stage["id"] == "proving")
    return found


def _figure(sheet: dict[str, Any], name: str) -> dict[str, Any] | None:
    return next((f for stage in sheet["stages"] for f in stage["figures"] if f["id"] == name), None)


def _value(sheet: dict[str, Any], name: str) -> Any:
    figure = _figure(sheet, name)
    assert figure is not None, name
    return figure["value"]


@pytest.mark.parametrize("form", ["external", "internal"])
@pytest.mark.parametrize("row", [STEEP, SHALLOW])
def test_blue_says_which_way_and_the_slide_turns_back(form: str, row: Row) -> None:
    sheet = _ask([row], taper__form=form, taper__small_end="tailstock")
    steep = (row["end"] == "large") == (form == "external")
    assert (_value(sheet, "proving.angle_error") > 0.0) == steep
    assert _value(sheet, "proving.decision") == "change"
    # small end at the tailstock, tool on the operator's side: the slide was swung anticlockwise
    assert _value(sheet, "proving.turn") == ("clockwise" if steep else "anticlockwise")
    old, new = _value(sheet, "setting.stack_height"), _value(sheet, "proving.new_stack_height")
    assert (new < old) == steep
    assert _value(sheet, "proving.chance_changed") > _value(sheet, "proving.chance_now") + 0.3


@pytest.mark.parametrize("way", [way.ID for way in SETTING_WAYS if way.CUTS_BY])
def test_every_way_of_setting_is_put_right_the_same_way_round(way: str) -> None:
    for row, sign in ((STEEP, 1.0), (SHALLOW, -1.0)):
        sheet = _ask([row], setting__way=way, setting__work_length="150 mm")
        assert _value(sheet, "proving.angle_error") * sign > 0.0
        assert _figure(sheet, "proving.tap") is not None
        step = next(s for s in _stage(sheet)["steps"] if s["id"] == "proving.right")
        assert step["phase"] == "prove" and "indicator" in step["text"]["mm"]


def test_blue_all_along_is_left_alone() -> None:
    sheet = _ask([{"way": "contact", "end": "all"}])
    assert _value(sheet, "proving.decision") == "done"
    assert _value(sheet, "proving.inside_grade") > 0.9
    assert "leave" in _stage(sheet)["line"]


def test_more_evidence_narrows() -> None:
    one, two = (
        _ask([STEEP]),
        _ask([STEEP, {"way": "two_diameters", "difference": "2.506 mm", "apart": "50 mm"}]),
    )
    first, second = _figure(one, "proving.angle_error"), _figure(two, "proving.angle_error")
    assert first is not None and second is not None
    assert second["plus_minus"] < first["plus_minus"]
    weights = [row["cells"][2]["mm"] for row in second["table"]["rows"]]
    assert len(weights) == 3


def test_a_contradiction_is_named_and_nothing_is_worked_out_from_it() -> None:
    sheet = _ask([STEEP, {"way": "two_diameters", "difference": "2.470 mm", "apart": "50 mm"}])
    found = [c for c in _stage(sheet)["cautions"] if c["id"] == "contradiction"]
    assert len(found) == 1
    text = found[0]["text"]
    assert "too steep" in text and "too shallow" in text and "blue again" in text and "at stops" in text
    for name in ("angle_error", "new_stack", "new_stack_height", "tap", "decision"):
        assert _figure(sheet, f"proving.{name}") is None
    assert sheet["record"] is None


def test_further_out_than_the_setting_allows_is_said() -> None:
    sheet = _ask([{"way": "two_diameters", "difference": "2.60 mm", "apart": "50 mm"}])
    assert any("Further out than the setting allows" in c["text"] for c in _stage(sheet)["cautions"])
    assert sheet["record"]["surprise"] is True


def test_hollow_and_proud_are_told_apart_from_a_wrong_angle() -> None:
    hollow = _ask([{"way": "contact", "end": "both"}])
    assert any("hollow" in c["text"] and "centre height" in c["text"] for c in _stage(hollow)["cautions"])
    proud = _ask([{"way": "contact", "end": "middle"}])
    assert any(
        "proud" in c["text"] and "nor the tool's height" in c["reason"] for c in _stage(proud)["cautions"]
    )
    bore = _ask([{"way": "contact", "end": "middle"}], taper__form="internal")
    assert any("proud" in c["text"] and "centre height" in c["text"] for c in _stage(bore)["cautions"])


def test_size_alone_says_nothing_of_the_angle() -> None:
    sheet = _ask([{"way": "stand_off", "stand_off": "3 mm"}])
    assert _figure(sheet, "proving.angle_error") is None and sheet["record"] is None
    rate = _value(sheet, "taper.rate")
    assert _value(sheet, "proving.depth_to_go") == pytest.approx(3.0 * rate / 2.0)
    assert _value(sheet, "proving.large_diameter") >= _value(sheet, "taper.large_diameter")


def test_angle_and_size_in_one_answer() -> None:
    sheet = _ask([STEEP, {"way": "stand_off", "stand_off": "3 mm"}])
    rate = _value(sheet, "taper.rate")
    across = _value(sheet, "proving.error_on_diameter")
    large = _value(sheet, "proving.large_diameter") - _value(sheet, "taper.large_diameter")
    small = _value(sheet, "proving.small_diameter") - _value(sheet, "taper.small_diameter")
    # a steep shank bears at its large end: the small end has less left
    assert large == pytest.approx(3.0 * rate, abs=1e-6)
    assert large - small == pytest.approx(across, abs=1e-5)
    assert _value(sheet, "proving.left_when_right") == pytest.approx(small, abs=1e-6)


def test_metal_is_left_for_what_proving_may_find() -> None:
    before, after = _ask([]), _ask([STEEP])
    metal = _value(before, "proving.metal")
    likely = abs(_value(before, "setting.error_on_diameter"))
    spread = _figure(before, "setting.error_on_diameter")
    assert spread is not None
    assert metal == pytest.approx(likely + spread["plus_minus"] + 0.006 + 0.1, abs=1e-4)
    assert _value(after, "proving.metal") < metal + 0.03
    step = next(s for s in before["route"] if s["id"] == "proving.metal")
    assert step["phase"] == "cut" and "proving.metal" in step["shows"]


def test_the_route_proves_before_the_last_cut() -> None:
    ids = [step["id"] for step in _ask([])["route"]]
    assert (
        ids.index("proving.metal")
        < ids.index("proving.enter")
        < ids.index("proving.again")
        < ids.index("proving.last")
    )


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("way", [way.ID for way in WAYS])
def test_every_way_of_proving_asks_and_is_answered(way: str, units: str) -> None:
    form = "internal" if way == "balls" else "external"
    sheet = _ask([{"way": way}], units=units, taper__form=form)
    fields = _stage(sheet)["fields"]
    rows = next(field for field in fields if field["id"] == "observations")
    assert rows["kind"] == "rows" and rows["rows"][0][0]["value"] == way
    assert all(field["wrong"] is None for field in rows["rows"][0]), "an empty row is no fault"


def test_what_is_missing_is_said_beside_its_cell() -> None:
    sheet = _ask([{"way": "rollers", "roller": "8 mm", "over_1": "34.7 mm", "over_2": "36.2 mm"}])
    rows = next(field for field in _stage(sheet)["fields"] if field["id"] == "observations")["rows"]
    wrong = {cell["id"]: cell["wrong"]["message"] for cell in rows[0] if cell["wrong"]}
    assert wrong == {"observations.0.height_2": "How high are the other blocks?"}


def test_targets_and_plain_questions() -> None:
    sheet = _ask(
        [{"way": "rollers", "roller": "8 mm", "height_1": "0 mm", "height_2": "30 mm"}],
        proving__sine_height="5.016416489 mm",
        proving__plain_height="3.2 mm",
        proving__warmer="20",
    )
    table = _figure(sheet, "proving.targets")
    assert table is not None and len(table["table"]["rows"]) == 4
    assert math.degrees(_value(sheet, "proving.sine_angle")) == pytest.approx(
        2.0 * math.degrees(math.atan(0.5 / 19.922)), abs=1e-7
    )
    assert _value(sheet, "proving.plain_stack")
    # 17.78 mm of steel, 20 K warmer, 11.5 µm per metre and kelvin, Morse 2 (1 : 20.02)
    assert _value(sheet, "proving.warm_stand_off") == pytest.approx(17.78 * 11.5e-6 * 20 / 0.04995, rel=1e-3)


def test_the_lathe_teaches_and_what_it_taught_can_be_left_out() -> None:
    row: Row = {
        "way": "two_diameters",
        "difference": "2.5068 mm",
        "apart": "50 mm",
        "give": "0.002 mm",
        "apart_give": "0.01 mm",
    }
    history: list[object] = []
    for _ in range(4):
        sheet = _ask([row], history=[])
        history.append(json.loads(json.dumps(sheet["record"])))
    plain, taught = _ask([]), _ask([], history)
    learned = _figure(taught, "proving.learned")
    assert learned is not None and learned["value"] > 0.0 and "4 proved cuts" in learned["shown"]["mm"]
    assert "allowed for" in learned["shown"]["mm"] and "not allowed" not in learned["shown"]["mm"]
    # set-ups that come out steep are aimed shallower, and the chance of the next first cut is better
    assert _value(taught, "setting.stack_height") < _value(plain, "setting.stack_height")
    assert _value(taught, "setting.chance") > _value(plain, "setting.chance")
    assert abs(_value(taught, "setting.error_on_diameter")) < 0.002
    setting = next(stage for stage in taught["stages"] if stage["id"] == "setting")
    said = [caution["text"] for caution in setting["cautions"] if caution["id"] == "learned"]
    assert len(said) == 1 and "too steep" in said[0] and "4 proved cuts" in said[0]
    left_out = _ask([], history, proving__learned_use="leave_out")
    assert _value(left_out, "setting.stack_height") == _value(plain, "setting.stack_height")
    assert "not allowed for" in _figure(left_out, "proving.learned")["shown"]["mm"]  # type: ignore[index]
    other = _ask([], history, setting__bar_centres="127 mm", proving__slide_mark="scraped")
    fresh = _ask([], setting__bar_centres="127 mm")
    assert _value(other, "setting.stack_height") == pytest.approx(
        _value(fresh, "setting.stack_height"), abs=2e-4
    )


def test_a_tapped_slide_carries_on_from_what_was_believed() -> None:
    row: Row = {
        "way": "two_diameters",
        "difference": "2.5068 mm",
        "apart": "50 mm",
        "give": "0.002 mm",
        "apart_give": "0.01 mm",
    }
    first = _ask([row])
    believed = first["record"]["believed"]
    again = _ask([{"way": "contact", "end": "all"}], [first["record"]], proving__since="tapped")
    # the tap takes out what was believed; all that is left is its ± and the tap's own
    assert abs(_value(again, "proving.angle_error")) < believed["standard"]
    tap = math.hypot(0.002 / 100.0, 0.002 / 80.0) / math.sqrt(3.0)
    known = _figure(again, "proving.angle_error")["plus_minus"] / 2.0  # type: ignore[index]
    assert known < 1.1 * math.hypot(believed["standard"], tap)
    left = _ask([row], [first["record"]], proving__since="unchanged")
    assert _value(left, "proving.angle_error") == pytest.approx(believed["value"], rel=0.2)


def _step(sheet: dict[str, Any], name: str) -> dict[str, Any]:
    return next(step for step in sheet["route"] if step["id"] == name)


@pytest.mark.parametrize("way", ["bar", "two_dials", "set_over"])
def test_the_next_cut_counts_on_from_the_proof_that_was_remembered(way: str) -> None:
    """Bearing at one end, corrected, then all along: no contradiction, as it is where both are one cut's."""
    told = {"setting__way": way, "setting__work_length": "200 mm"}
    first = _ask([STEEP], **told)
    renews = _step(first, "proving.again")["renews"]
    assert set(renews) == {"proving.since", "proving.tap"}
    along: Row = {"way": "contact", "end": "all"}
    assert "contradicts" in _stage(_ask([STEEP, along], **told))["line"]
    entries = told | {name.replace(".", "__"): text for name, text in renews.items()}
    second = _ask([along], [first["record"]], **entries)
    assert _value(second, "proving.decision") == "done"
    assert abs(_value(second, "proving.angle_error")) < abs(_value(first, "proving.angle_error"))
    # Nothing is to be remembered where nothing was seen, or where it contradicts itself.
    for rows in ([], [STEEP, along]):
        assert not _step(_ask(rows, **told), "proving.again")["renews"]


def test_what_was_set_stands_while_it_is_only_tapped() -> None:
    """Neither the stack nor any step up to the proof says something else for it: all that was done so."""
    first, bare = _ask([STEEP]), _ask([])
    for since in ("tapped", "unchanged"):
        later = _ask([], [first["record"]], proving__since=since)
        assert _value(later, "setting.stack") == _value(bare, "setting.stack")
        until = [step["id"] for step in bare["route"]].index("proving.enter")
        assert [step["text"] for step in later["route"][:until]] == [
            step["text"] for step in bare["route"][:until]
        ]
    anew = _ask([], [first["record"]])
    assert _value(anew, "setting.stack_height") < _value(bare, "setting.stack_height")


def test_how_to_measure_is_told_as_soon_as_the_way_is_picked() -> None:
    for rows, told in (([], False), ([{"way": "contact"}], False), ([{"way": "two_diameters"}], True)):
        route = _ask(rows)["route"]
        ids = [step["id"] for step in route]
        assert ("proving.two_diameters_1" in ids) == told
        assert ("proving.contact_1" in ids) != told
        entering = _step(_ask(rows), "proving.enter")["text"]["mm"]
        assert ("the steps before this one" in entering) == told


def test_where_nothing_is_to_be_changed_no_number_to_change_to_is_in_force() -> None:
    new = {"proving.tap", "proving.new_stack_height", "proving.new_stack"}
    for rows, changed in (([STEEP], True), ([{"way": "contact", "end": "all"}], False)):
        sheet = _ask(rows)
        assert (_value(sheet, "proving.decision") == "change") == changed
        assert bool(new & set(_step(sheet, "proving.enter")["shows"])) == changed


def test_what_cutting_stopped_for_does_not_change_once_something_is_seen() -> None:
    before, after = (_step(_ask(rows), "proving.metal") for rows in ([], [STEEP]))
    assert before["text"] == after["text"]
    assert before["shows"] == ["proving.metal"] and not after["shows"]


def test_damaged_records_are_left_aside() -> None:
    record = _ask([STEEP])["record"]
    sheet = _ask([], [record, {"format": 1}, "nonsense", {"format": 99}])
    assert _figure(sheet, "proving.learned") is not None
    assert len(sheet["history"]) == 1 and sheet["problems"]


def test_pictures_say_where_blue_shows_and_which_way() -> None:
    stage = _stage(_ask([STEEP]))
    assert 'class="blue-large"' in stage["drawing"] and "too steep" in stage["drawing"]
    right = next(step for step in stage["steps"] if step["id"] == "proving.right")
    assert 'class="correction"' in right["drawing"] and "turn clockwise" in right["drawing"]
    bore = _stage(_ask([STEEP], taper__form="internal"))
    assert 'class="blue-large"' in bore["drawing"] and "plug gauge" in bore["drawing"]


def test_nothing_raises_and_every_figure_is_whole() -> None:
    rows: list[Row] = [
        {"way": way.ID, **{ask.id: "1" for ask in way.ASKS if ask.kind == "length"}} for way in WAYS
    ]
    for units in ("mm", "inch"):
        for form in ("external", "internal"):
            for each in ([], rows, [STEEP], [SHALLOW, {"way": "stand_off", "stand_off": "-1 mm"}]):
                stage = _stage(_ask(list(each), units=units, taper__form=form))
                assert stage["line"] and stage["title"]
                for figure in stage["figures"]:
                    assert figure["label"] and figure["shown"]["mm"] and figure["shown"]["inch"]
                    assert figure["source"] and figure["working"]


def test_the_stack_advised_is_the_one_that_is_set_on_next() -> None:
    # blue read three times: the slide is set up anew where a tap is not worth more
    first = _ask([STEEP, STEEP, STEEP])
    assert first["record"]["stack"] and first["record"]["then"]
    named = [piece["name"] for piece in _value(first, "proving.new_stack")]
    assert first["record"]["then"] == named
    after = _ask([], [first["record"]])
    assert sorted(piece["name"] for piece in _value(after, "setting.stack")) == sorted(named)
    assert _value(after, "setting.stack_height") == pytest.approx(
        _value(first, "proving.new_stack_height"), abs=1e-6
    )
