"""The steps of blank, cutting and finishing in the job's one order: what hands can and cannot do."""

from __future__ import annotations

import re
from itertools import product
from typing import Any

import pytest

from calc.sheet import PHASES
from door import job

WAYS = ("bar", "two_dials", "set_over", "attachment", "graduations", "collars")
TAPERS = (
    {"taper.series": "Morse", "taper.size": "2"},
    {"taper.series": "Morse", "taper.size": "3", "blank.end": "drawbar"},
    {
        "taper.series": "Jacobs",
        "taper.size": "2",
        "blank.head_length": "60 mm",
        "blank.head_diameter": "20 mm",
    },
    {"taper.series": "B", "taper.size": "B16", "finishing.spigot": "16 mm", "blank.head_length": "30 mm"},
)


def routes() -> list[tuple[dict[str, str], list[dict[str, Any]]]]:
    """Jobs of shanks and sockets by several ways, with and without a short top slide, and their routes."""
    found = []
    for taper, way, form, travel in product(TAPERS, WAYS, ("external", "internal"), ("", "30 mm")):
        entries = {**taper, "setting.way": way, "taper.form": form, "cutting.slide_travel": travel}
        if form == "internal":
            entries = {
                name: text for name, text in entries.items() if not name.startswith(("blank", "finish"))
            }
        found.append((entries, job(entries)["route"]))
    return found


ROUTES = routes()


def places(route: list[dict[str, Any]]) -> dict[str, int]:
    return {step["id"]: place for place, step in enumerate(route)}


def words(step: dict[str, Any]) -> str:
    return str(step["text"]["mm"])


def test_there_are_routes_to_check() -> None:
    assert sum(bool(route) for _, route in ROUTES) > 60
    assert all(step["phase"] in PHASES for _, route in ROUTES for step in route)


def test_no_step_before_what_it_needs() -> None:
    """Faced, centred, roughed; set before cut; proved before the last cut; sawn off at the end."""
    order = (
        "blank.cut_off", "blank.small_end", "blank.rough", "blank.flats", "finishing.second_flat",
        "blank.back_again", "cutting.tool_height", "cutting.clearance", "blank.taper", "cutting.touch",
        "cutting.depths", "cutting.measure", "cutting.finish_cuts", "cutting.last_cut", "finishing.spigot",
        "blank.part_off", "blank.to_length", "finishing.spigot_seated",
    )  # fmt: skip
    bored = (
        "blank.mouth",
        "blank.drill",
        "blank.bore_true",
        "cutting.touch",
        "cutting.last_cut",
        "blank.outside",
    )
    for _, route in ROUTES:
        at = places(route)
        for line in (order, bored):
            found = [at[name] for name in line if name in at]
            assert found == sorted(found)


def test_nothing_parallel_is_turned_while_the_tailstock_is_set_over() -> None:
    """Cylinders before the setting or after it is moved back, never between."""
    for entries, route in ROUTES:
        at = places(route)
        for step in route:
            if step["stage"] in ("blank", "finishing") and "parallel to" in words(step):
                assert step["phase"] == "rough"
            if step["id"] in ("blank.head", "finishing.spigot"):
                assert (
                    step["phase"] == "finish"
                    and step["order"] == 50
                    and at[step["id"]] > at["cutting.last_cut"]
                )
                between = "tailstock back in line" in words(step)
                assert between == (entries["setting.way"] == "set_over")


def test_both_ends_are_centred_where_the_work_runs_between_centres() -> None:
    for entries, route in ROUTES:
        if entries["taper.form"] == "external" and route:
            ids = {step["id"] for step in route}
            assert ("blank.other_end" in ids) == (entries["setting.way"] == "set_over")
            assert any("carrier" in step["cautions"] for step in route) >= (
                entries["setting.way"] == "set_over"
            )


HAZARD_OF = (
    (r"\bswarf\b|Drill \{|^Turn shank|^Turn the shank|^Touch off|^Drill \d|^Bore it", "swarf"),
    (r"\bcarrier\b", "carrier"),
    (r"saw off the chucking|part it close", "parting"),
    (r"^Mill ", "milling"),
    (r"wind the top slide \(compound\) from", "handle"),
    (r"Spindle stopped", "stopped"),
    (r"No file or abrasive", "filing"),
    (r"^Saw off", "long_bar"),
    (r"on the tailstock's centre[.;]", "centre"),
)
SCREENED = ("blank", "cutting", "finishing")


@pytest.mark.parametrize(("pattern", "hazard"), HAZARD_OF, ids=[hazard for _, hazard in HAZARD_OF])
def test_each_hazard_stands_on_a_step_of_that_hazard(pattern: str, hazard: str) -> None:
    seen = 0
    for _, route in ROUTES:
        for step in route:
            if step["stage"] in SCREENED and re.search(pattern, words(step)):
                assert hazard in step["cautions"], step["id"]
                seen += 1
    assert seen > 5


def test_steps_ask_for_what_is_measured_at_that_moment() -> None:
    asked = {
        "cutting.measure": {"cutting.stand_off", "cutting.diameter_now"},
        "finishing.touch_round": {"finishing.diameter_now"},
        "finishing.across_first": {"finishing.across_now"},
        "finishing.second_flat": {"finishing.tang_now"},
        "finishing.spigot": {"finishing.spigot_now"},
    }
    seen = set()
    for _, route in ROUTES:
        for step in route:
            if step["id"] in asked and step["asks"]:
                assert set(step["asks"]) <= asked[step["id"]]
                seen.add(step["id"])
    assert seen == set(asked)


def test_a_spigot_may_be_turned_at_the_same_setting_or_seated_in_the_spindle() -> None:
    """Both, each with when; without a drawbar something else must hold the shank in the spindle."""
    spigot = {"finishing.spigot": "16 mm", "blank.head_length": "30 mm", "taper.series": "Morse"}
    for end in ("tang", "drawbar"):
        steps = {
            step["id"]: words(step) for step in job({**spigot, "taper.size": "3", "blank.end": end})["route"]
        }
        assert (
            "same setting as the taper" in steps["finishing.spigot"] and "Where" in steps["finishing.spigot"]
        )
        seated = steps["finishing.spigot_seated"]
        assert seated.startswith("If it was left") and "spindle" in seated
        assert ("by the drawbar" in seated) == (end == "drawbar")


def test_a_socket_has_no_words_of_a_shank() -> None:
    for entries, route in ROUTES:
        if entries["taper.form"] == "internal":
            said = " ".join(words(step) for step in route if step["stage"] in SCREENED)
            for word in ("shank", "ring gauge", "spigot", "tailstock's centre", "tang "):
                assert word not in said.replace("(tang slot)", ""), word


def test_tool_height_leaves_a_shank_hollow_and_a_socket_proud() -> None:
    """r(z) = sqrt(x² + h²) bends away from the axis: a shank's middle is low, a bore's middle stands in."""
    base = {"taper.series": "Morse", "taper.size": "2"}
    notes = {}
    for form in ("external", "internal"):
        sheet = job({**base, "taper.form": form})
        figures = {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}
        notes[form] = figures["cutting.tool_height"]["working"][0]["note"]
    assert "hollow" in notes["external"] and "proud" not in notes["external"]
    assert "proud" in notes["internal"] and "hollow" not in notes["internal"]


def test_a_short_taper_that_no_spindle_takes_is_not_seated_in_one() -> None:
    """A chuck arbor's Jacobs taper is no shank: its spigot or far end is reached another way."""
    arbor = {
        "taper.series": "Jacobs",
        "taper.size": "2",
        "finishing.spigot": "16 mm",
        "blank.head_length": "50 mm",
    }
    steps = {step["id"]: words(step) for step in job(arbor)["route"]}
    assert "headstock" not in steps["finishing.spigot_seated"] + steps["blank.to_length"]
    assert "socket that was bored to it" in steps["finishing.spigot_seated"]
