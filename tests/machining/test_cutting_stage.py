"""The cutting stage through the one door: what it asks, finds, says and draws, and every fault it names."""

from __future__ import annotations

import math
from typing import Any

import mpmath
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.demo import demo_request
from calc.job import work
from calc.tables.speeds import MATERIALS, TOOLS, published_speeds, start_feed, start_speed
from drawings.reading import assert_sound
from steps import said_steps

ITS_OWN_LATHE = ("cutting.speeds", "cutting.slide_travel")
"""What the demonstration says of its lathe and these checks say for themselves."""


def ask(entries: dict[str, str] | None = None, units: str = "mm") -> dict[str, Any]:
    """The cutting stage of the demonstration, with nothing left on to rough, some entries changed."""
    request: dict[str, Any] = dict(demo_request())
    request["units"] = units
    told = {name: text for name, text in request["entries"].items() if name not in ITS_OWN_LATHE}
    request["entries"] = {**told, "blank.rough_allowance": "0", **(entries or {})}
    request["drawer"] = []
    sheet = work(request)
    assert sheet["problems"] == []
    found: dict[str, Any] = next(stage for stage in sheet["stages"] if stage["id"] == "cutting")
    return found


def figure(stage: dict[str, Any], name: str) -> Any:
    return next((each for each in stage["figures"] if each["id"] == f"cutting.{name}"), None)


def value(stage: dict[str, Any], name: str) -> Any:
    found = figure(stage, name)
    return found and found["value"]


def field(stage: dict[str, Any], name: str) -> Any:
    return next((each for each in stage["fields"] if each["id"] == f"cutting.{name}"), None)


def said(stage: dict[str, Any]) -> str:
    return " ".join([*said_steps(stage), *(f"{each['text']} {each['reason']}" for each in stage["cautions"])])


def test_speed_of_the_demonstration_by_hand() -> None:
    """Mild steel and HSS start at 100 ft/min (handout, data book): 30.48 / (pi x 0.01778) = 545.7."""
    mild = {"cutting.material": "mild steel", "cutting.start_diameter": "17.78"}
    stage = ask({**mild, "cutting.speeds": "300; 500 545 546 1000"})
    assert value(stage, "rpm") == 545
    assert figure(stage, "rpm")["lead"] and "handout" in figure(stage, "rpm")["source"]
    assert value(ask({**mild, "cutting.tool": "carbide"}), "rpm") == 1000
    assert value(ask({"cutting.speeds": "40-3000", "cutting.start_diameter": "17.78"}), "rpm") == math.floor(
        24384 / (math.pi * 17.78)
    )


def test_start_comes_from_the_blank_until_it_is_told() -> None:
    """Shown as the default, to the figure of the blank stage; a diameter told here counts before it."""
    request: dict[str, Any] = {**demo_request(), "drawer": []}
    stages = {stage["id"]: stage for stage in work(request)["stages"]}
    (rough,) = [each for each in stages["blank"]["figures"] if each["id"] == "blank.rough_diameter"]
    stage = stages["cutting"]
    default = float(field(stage, "start_diameter")["default"].split()[0])
    assert rough["value"] == pytest.approx(default, abs=1e-4)
    told = ask({"cutting.start_diameter": "30", "cutting.speeds": "1-9999"})
    assert value(told, "rpm") == math.floor(24384 / (math.pi * 30))


def test_largest_diameter_counts() -> None:
    """The round start is larger than the taper, and it is what the speed is for."""
    wide = ask({"cutting.start_diameter": "40", "cutting.speeds": "1-9999"})
    assert value(wide, "rpm") == math.floor(24384 / (math.pi * 40))
    bore = ask({"taper.form": "internal", "cutting.start_diameter": "10", "cutting.speeds": "1-9999"})
    assert value(bore, "rpm") == math.floor(24384 / (math.pi * 17.78))


@pytest.mark.parametrize("material", [key for key, _ in MATERIALS])
@pytest.mark.parametrize("tool", [key for key, _ in TOOLS])
def test_start_never_above_what_is_published(material: str, tool: str) -> None:
    """The range to start from ends no higher than the highest published; where none is, it says so."""
    start, published = start_speed(material, tool), published_speeds(material, tool)
    assert 0 < start.lowest <= start.highest and start_feed(material, tool).lowest > 0
    if published:
        assert start.highest <= max(row.highest for row in published) * 1.0001
    else:
        assert start.found.from_memory
    stage = ask({"cutting.material": material, "cutting.tool": tool, "cutting.speeds": "1-9999"})
    assert math.pi * 17.78 * value(stage, "rpm") / 1000 <= start.lowest
    noted = "from memory: begin slower" in said(stage)
    assert noted == start.found.from_memory


def test_handle_count_and_time_by_hand() -> None:
    """0.1 mm at 400 turns is 40 mm a minute; 2 mm a turn of the handle: 20 turns, one every 3 s."""
    stage = ask({"cutting.feed": "0.1", "cutting.slide_lead": "2", "cutting.speeds": "400"})
    assert value(stage, "handle_rate") == pytest.approx(20.0)
    assert "one turn every 3.0 s" in figure(stage, "handle_rate")["shown"]["mm"]
    cuts = figure(stage, "passes")["table"]["rows"]
    along = sum(float(row["cells"][3]["mm"].split()[0]) for row in cuts)
    assert value(stage, "time") == pytest.approx((along + 2 * len(cuts)) / 40.0, rel=0.01)


@pytest.mark.parametrize("feed", ["5", "0.5", "0.02 in"])
def test_a_feed_that_no_hand_can_wind_gets_no_count_but_one_that_it_can(feed: str) -> None:
    """2 mm a turn of the handle, 400 turns of the work: at 60 turns of the handle a minute, 0.3 mm a turn."""
    stage = ask({"cutting.feed": feed, "cutting.slide_lead": "2", "cutting.speeds": "400"})
    said_of = figure(stage, "handle_rate")["shown"]["mm"] + stage["line"] + said(stage)
    assert "every" not in figure(stage, "handle_rate")["shown"]["mm"] and "0.0 s" not in said_of
    assert "faster than a hand can wind" in said_of and "0.3 mm" in said(stage).replace("0.30 mm", "0.3 mm")
    again = ask({"cutting.feed": "0.3", "cutting.slide_lead": "2", "cutting.speeds": "400"})
    assert "one turn every 1.0 s" in figure(again, "handle_rate")["shown"]["mm"]
    assert "even hand" not in said(again)


def test_to_go_against_mpmath() -> None:
    """Morse 2, 1:20.020 (ISO 296): diameter, stand-off, cross-slide and slide by exact sums at 50 digits."""
    with mpmath.workdps(50):
        rate = 1 / mpmath.mpf("20.020")
        angle = mpmath.atan(rate / 2)
        depth = 3 * rate / 2
        advance, now = depth / mpmath.sin(angle), mpmath.mpf("17.780") + 3 * rate
    for internal in (False, True):
        form = {"taper.form": "internal" if internal else "external"}
        by_gauge = ask({**form, "cutting.stand_off": "3 mm"})
        diameter = f"{float(2 * mpmath.mpf('17.780') - now if internal else now):.15g} mm"
        for stage in (by_gauge, ask({**form, "cutting.diameter_now": diameter})):
            assert value(stage, "cross_slide_to_go") == pytest.approx(float(depth), abs=1e-9)
            assert value(stage, "slide_to_go") == pytest.approx(float(advance), abs=1e-6)
            sense = "away from the axis" if internal else "towards the axis"
            last = next(each for each in stage["steps"] if each["id"] == "cutting.last_cut")
            finer = next(each for each in stage["steps"] if each["id"] == "cutting.finer")
            assert sense in last["text"]["mm"] and finer["order"] < last["order"]
            assert last["shows"] == ["cutting.cross_slide_to_go"]
            assert f"to the {'large' if internal else 'small'} end" in finer["text"]["mm"]
    # Before anything is measured there is no number for it: that of all cuts is none.
    (bare,) = (each for each in ask({})["steps"] if each["id"] == "cutting.last_cut")
    assert not bare["shows"]


def test_what_the_dial_shows() -> None:
    radius = ask({"cutting.stand_off": "20.02"})
    diameter = ask({"cutting.stand_off": "20.02", "cutting.dial_reads": "diameter"})
    assert value(radius, "cross_slide_to_go") == pytest.approx(value(diameter, "cross_slide_to_go"))
    assert "0.50 mm on radius, 1.00 mm on diameter" in figure(radius, "cross_slide_to_go")["shown"]["mm"]
    assert "its collar shows 1.00 mm" in figure(diameter, "cross_slide_to_go")["shown"]["mm"]
    last = figure(diameter, "passes")["table"]["rows"][-1]["cells"][2]["mm"]
    assert last == "1.00 mm"


def test_too_much_is_off() -> None:
    for stage in (ask({"cutting.diameter_now": "17.68"}), ask({"cutting.stand_off": "-2.002"})):
        assert value(stage, "cross_slide_to_go") == pytest.approx(-0.05)
        assert figure(stage, "slide_to_go") is None
        assert [each["id"] for each in stage["steps"]] == ["cutting.measure"]
        assert "Over-cut by 0.10 mm on diameter" in said(stage) and "2.002 mm past home" in said(stage)
        assert "off the small end" in said(stage) and "mouth" not in said(stage)
        assert figure(stage, "cross_slide_to_go")["shown"]["mm"].startswith("over-cut by 0.10 mm on diameter")
        assert stage["line"].startswith("Over-cut by 0.10 mm on diameter")
    bore = ask({"taper.form": "internal", "cutting.stand_off": "-2.002"})
    assert "Face 2.002 mm off the mouth" in said(bore) and "small end" not in said(bore)


def test_gauge_counts_before_the_diameter() -> None:
    stage = ask({"cutting.diameter_now": "18", "cutting.stand_off": "2.002"})
    assert value(stage, "cross_slide_to_go") == pytest.approx(0.05)
    assert "it would be 0.11 mm" in figure(stage, "cross_slide_to_go")["working"][0]["note"]


def test_fine_division_by_hand() -> None:
    """0.02 mm × sin(atan(1 / 40.04)), told on radius and on diameter."""
    stage = ask({"cutting.slide_division": "0.02"})
    assert value(stage, "fine_division") == pytest.approx(0.02 / math.hypot(1, 40.04), rel=1e-9)
    assert figure(stage, "fine_division")["shown"]["mm"] == "0.5 µm on radius, 1.0 µm on diameter"


def test_bites_follow_the_travel() -> None:
    """The cone of a Morse 2 shank, 80 mm with a tang of 10 (ISO 296), wants 70.02 and 2 mm."""
    untold = ask()
    assert value(untold, "travel") == pytest.approx(70 * math.hypot(1, 1 / 40.04) + 2) and not value(
        untold, "bites"
    )
    assert value(ask({"cutting.slide_travel": "72.03"}), "bites") == 1
    assert value(ask({"cutting.slide_travel": "67"}), "bites") == 2
    short = ask({"cutting.slide_travel": "40 mm"})
    assert (
        value(short, "bites") == 2 and "film of blue" not in short["line"] and "2 sections" in short["line"]
    )
    words = " ".join(said_steps(short))
    assert "wipes the blue" in words and "34.50 mm to the large end" in words and "0.862 mm" in words
    # (72.022 - 3) / (12.86 - 3) = 7.0002 and (72.022 - 3) / (12.87 - 3) = 6.993, by hand.
    assert value(ask({"cutting.slide_travel": "12.86"}), "bites") == 8
    assert value(ask({"cutting.slide_travel": "12.87"}), "bites") == 7
    assert len(assert_sound(short["drawing"]).parts("bite")) == 2
    useless = ask({"cutting.slide_travel": "4"})
    assert value(useless, "bites") is None and "So short a travel" in said(useless)


def test_bore_words_and_no_others() -> None:
    stage = ask({"taper.form": "internal", "taper.small_end": "headstock", "cutting.boring_bar": "10"})
    words = said(stage)
    assert "boring bar is long" in words and "the large end" in words and "pinch" not in words
    assert field(stage, "overhang") is None and field(stage, "support") is None
    assert field(stage, "start_diameter")["label"] == "Diameter bored parallel first"
    assert "6.6" in figure(stage, "overhang")["shown"]["mm"]  # (64 + 2) / 10
    assert field(ask(), "boring_bar") is None


def test_overhang_and_room() -> None:
    free = ask({"cutting.support": "free", "cutting.overhang": "72"})
    assert "use a centre in its free end" in said(free) and "Only 2.00 mm between taper and jaws" in said(
        free
    )
    assert value(free, "overhang") == pytest.approx(72 / (17.78 - 65 / 20.020))
    assert "springs the taper by" in figure(free, "overhang")["working"][0]["note"]
    held = ask({"cutting.overhang": "100"})
    assert "times its small diameter" not in said(held) and "between taper and jaws" not in said(held)
    assert "use a steady" in said(ask({"cutting.overhang": "200"}))
    # Ten times its 14.583 mm, common practice.
    for overhang, steady in (("144", False), ("147", True)):
        assert ("use a steady" in said(ask({"cutting.overhang": overhang}))) is steady


def test_tool_height_is_the_settings_own() -> None:
    """The height at which a Morse 2 is 2.5 µm flat: e² m L / (r1 r2) to first order, geometry."""
    first_order = math.sqrt(0.0025 * 7.2916 * 8.89 / (64 / 40.04))
    stage = ask({"setting.tool_height": "0.3 mm"})
    assert value(stage, "tool_height") == pytest.approx(first_order, rel=0.01)
    told = [row["cells"][0]["mm"] for row in figure(stage, "tool_height")["table"]["rows"]]
    assert told == ["0.10 mm", "0.20 mm", "0.30 mm, as entered", "0.50 mm"]
    usual = [row["cells"][0]["mm"] for row in figure(ask(), "tool_height")["table"]["rows"]]
    assert "0.10 mm, default" in usual


def test_no_speed_is_slow_enough() -> None:
    stage = ask({"cutting.speeds": "800, 1200", "cutting.start_diameter": "17.78"})
    assert figure(stage, "rpm")["value"] is None and figure(stage, "handle_rate") is None
    assert (
        "800 r/min, and 437 is wanted" in said(stage)
        and "no spindle speed slow enough" in stage["line"].lower()
    )


@pytest.mark.parametrize(
    ("entries", "says"),
    [
        ({"cutting.feed": "0.5", "cutting.speeds": "400"}, "200 turns of the handle a minute are too many"),
        ({"cutting.feed": "2", "cutting.nose_radius": "0.4"}, "wider than the tool's nose"),
        ({"cutting.depth": "0.01", "cutting.start_diameter": "90"}, "too many to be listed"),
        (
            {"taper.series": "7/24", "taper.size": "40", "cutting.nose_radius": "0.4"},
            "4.2 µm deeper on radius",
        ),
        ({}, "list of speeds that stands there is invented"),
    ],
)
def test_cautions_where_they_belong(entries: dict[str, str], says: str) -> None:
    assert says in said(ask(entries))
    other = ask({"cutting.speeds": "100, 200", "cutting.nose_radius": "0.4"})
    assert says not in said(other)


@pytest.mark.parametrize(
    ("name", "text", "fragment"),
    [
        ("material", "cheese", "not one of"),
        ("tool", "axe", "not one of"),
        ("speeds", "100, fast", "not a speed"),
        ("speeds", "0", "out of range"),
        ("feed", "0", "too small"),
        ("feed", "1:20", ""),
        ("depth", "50", "too large"),
        ("finish_depth", "0", "too small"),
        ("finish_cuts", "9", "not one of"),
        ("nose_radius", "sharp", ""),
        ("slide_travel", "0", "too small"),
        ("slide_lead", "0", "too small"),
        ("slide_division", "1e9", "too large"),
        ("dial_reads", "backwards", "not one of"),
        ("diameter_now", "-1", "too small"),
        ("stand_off", "1,234.5", ""),
        ("support", "string", "not one of"),
        ("overhang", "60", "run into the jaws"),
        ("start_diameter", "17", "clean up"),
    ],
)
def test_a_bad_entry_is_answered_beside_its_field(name: str, text: str, fragment: str) -> None:
    stage = ask({f"cutting.{name}": text})
    wrong = field(stage, name)["wrong"]
    assert wrong and fragment in wrong["message"] and (wrong["way_out"] or wrong["offers"])
    # What is measured while the work goes on takes nothing away with it as long as it reads wrong.
    meanwhile = name in ("diameter_now", "stand_off")
    assert ("Check the entries" in stage["line"]) != meanwhile and (stage["figures"] != []) == meanwhile
    for offer in wrong["offers"]:
        assert field(ask({f"cutting.{name}": offer}), name)["wrong"] is None


def test_a_bar_that_does_not_go_in_and_a_bore_too_large() -> None:
    bore = {"taper.form": "internal"}
    assert (
        "does not go in" in field(ask({**bore, "cutting.boring_bar": "15"}), "boring_bar")["wrong"]["message"]
    )
    assert (
        "clean up"
        in field(ask({**bore, "cutting.start_diameter": "15"}), "start_diameter")["wrong"]["message"]
    )


def test_little_known_little_said() -> None:
    waiting = ask({"taper.size": ""})
    assert "Waiting" in waiting["line"] and waiting["figures"] == [] and waiting["steps"] == []
    rate = ask({"taper.series": "own", "taper.size": "", "taper.rate": "1:20"})
    assert "Waiting for the taper's diameters" in rate["line"]
    assert {each["id"] for each in rate["figures"]} == {"cutting.finish", "cutting.fine_division"}
    gauged = ask({"taper.series": "own", "taper.size": "", "taper.rate": "1:20", "cutting.stand_off": "2"})
    assert value(gauged, "cross_slide_to_go") == pytest.approx(0.05)
    parallel = ask({"taper.series": "own", "taper.size": "", "taper.rate": "0", "taper.large_diameter": "20"})
    assert value(parallel, "fine_division") is None and value(parallel, "rpm") is not None


@given(
    st.sampled_from(["Morse", "Jacobs", "7/24", "own"]),
    st.sampled_from(["external", "internal"]),
    st.sampled_from(["tailstock", "headstock"]),
    st.floats(0.5, 200.0),
    st.floats(-5.0, 30.0),
    st.sampled_from(["mm", "inch"]),
)
@settings(max_examples=40)
def test_whatever_the_taper(
    series: str, form: str, small_end: str, travel: float, gap: float, units: str
) -> None:
    own = {"taper.large_diameter": "40 mm", "taper.small_diameter": "20 mm", "taper.length": "12 mm"}
    size = {"Morse": "3", "Jacobs": "2", "7/24": "40", "own": ""}[series]
    entries = {
        "taper.series": series,
        "taper.size": size,
        "taper.form": form,
        "taper.small_end": small_end,
        "cutting.slide_travel": f"{travel:.3f} mm",
        **({"cutting.stand_off": f"{gap:.3f} mm"} if gap > 0.5 else {}),
        **(own if series == "own" else {}),
    }
    stage = ask(entries, units)
    assert all(each["wrong"] is None for each in stage["fields"])
    assert_sound(stage["drawing"])
    for each in stage["figures"]:
        assert each["working"] and each["source"] and all(each["shown"].values())
    assert (figure(stage, "slide_to_go") is not None) == (gap > 0.5)


@pytest.mark.parametrize("way", ["set_over", "attachment"])
def test_where_the_carriage_cuts_the_slide_is_left_out(way: str) -> None:
    """The taper is cut by the carriage's feed then: no handle to wind, no bites, no infeed by the slide."""
    stage = ask({"setting.way": way, "cutting.slide_travel": "10", "cutting.stand_off": "2"})
    names = {each["id"] for each in stage["fields"]} | {each["id"] for each in stage["figures"]}
    gone = ("slide_travel", "slide_lead", "slide_division", "bites", "travel", "handle_rate", "slide_to_go")
    assert not names & {f"cutting.{name}" for name in (*gone, "fine_division")}
    assert value(stage, "cross_slide_to_go") == pytest.approx(1 / 20.020) and "slide" not in stage["line"]
    assert stage["drawing"] == ""
    begin = ask({"setting.way": way})
    words = " ".join(said_steps(begin))
    assert "Feed the carriage at 0.08 mm per revolution" in words and "handle" not in words


def test_every_corpus_request_of_this_stage_answers() -> None:
    """Those kept for tracing the browser's library; each reaches what its name says."""
    import json
    from pathlib import Path

    folder = Path(__file__).parent.parent / "corpus"
    lines = {}
    for path in sorted(folder.glob("cutting_*.json")):
        sheet = work(json.loads(path.read_text("utf-8")))
        lines[path.stem] = next(stage for stage in sheet["stages"] if stage["id"] == "cutting")
    assert value(lines["cutting_in_bites"], "bites") == 4  # (72.02 - 3) / (25 - 3) = 3.14
    assert "away from the axis" in said(lines["cutting_bore_gauged"])
    every = json.loads((folder / "cutting_with_every_fault.json").read_text("utf-8"))["entries"]
    wrong = {each["id"] for each in lines["cutting_with_every_fault"]["fields"] if each["wrong"]}
    assert wrong == {name for name in every if name.startswith("cutting.")}
    assert "Over-cut by" in said(lines["cutting_too_much_off"])
    assert "too many to be listed" in said(lines["cutting_too_many_cuts"])
    assert value(lines["cutting_by_set_over"], "cross_slide_to_go") == pytest.approx(0.11)


@pytest.mark.parametrize("end", ["tang", "drawbar", "plain"])
@pytest.mark.parametrize("size", ["0", "1", "2", "3", "4", "5", "6"])
def test_what_is_cut_is_the_whole_cone(size: str, end: str) -> None:
    """Travel and cuts reach from the cone's small end to the shoulder: the finished shank less its end."""
    entries = {"taper.series": "Morse", "taper.size": size, "blank.end": end}
    sheet = work({"format": 1, "units": "mm", "entries": entries})
    figures = {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}
    finished = figures["blank.finished_length"]
    lengths = {row["cells"][0]["mm"]: row["cells"][1]["mm"] for row in finished["table"]["rows"]}
    tang = float(lengths.get("tang, length of its diameter", "0 mm").split()[0])
    half = figures["taper.half_angle"]["value"]
    flank = (finished["value"] - tang) / math.cos(half)
    assert figures["cutting.travel"]["value"] == pytest.approx(flank + 2.0, abs=1e-6)
    assert flank > figures["taper.length"]["value"]


def test_a_start_thinner_than_the_shoulder_ends_the_cone_sooner() -> None:
    """Turned parallel to 17.8 mm, a Morse 2 meets it 0.4 mm past its gauge plane: 65.4 mm."""
    stage = ask({"cutting.start_diameter": "17.8"})
    length = 65.0 + (17.8 - 17.78) * 20.020
    assert value(stage, "travel") == pytest.approx(length * math.hypot(1, 1 / 40.04) + 2)
