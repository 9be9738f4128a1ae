"""From a measured taper to what is cut: nothing of it leaks into another taper, and both roads stay open."""

from __future__ import annotations

import math

import pytest

from door import answered, field, figure, job

MEASURED = {
    "taper.large_diameter": "23.60 mm",
    "taper.small_diameter": "21.20 mm",
    "taper.length": "47.8 mm",
}
ASKED_OF_IT = {**MEASURED, "taper.series": "unknown"}


@pytest.mark.parametrize(("series", "size"), [("Morse", "3"), ("Jarno", "10"), ("7/24", "40"), ("R8", "R8")])
def test_measures_of_an_unknown_taper_do_not_become_those_of_a_picked_one(series: str, size: str) -> None:
    """A distance between two diameters is not how long the taper on this part is to be."""
    picked = {"taper.series": series, "taper.size": size}
    alone, after = job(picked), job({**MEASURED, **picked})
    for name in ("taper.large_diameter", "taper.small_diameter", "taper.length", "taper.rate"):
        one, other = figure(alone, name), figure(after, name)
        assert (one is None) == (other is None)
        assert one is None or one["value"] == other["value"]
    assert not any(
        each["value"] for stage in after["stages"] for each in stage["fields"] if each["id"] in MEASURED
    )


def test_a_picked_taper_is_as_long_as_entered_even_so() -> None:
    """What is typed where it is asked counts, whatever was measured before."""
    picked = {"taper.series": "Morse", "taper.size": "3"}
    sheet = job({**MEASURED, **picked})
    asked = next(each["id"] for each in sheet["stages"][0]["fields"] if each["id"].endswith("length"))
    longer = job({**MEASURED, **picked, asked: "70 mm"})
    assert figure(longer, "taper.length")["value"] == 70.0
    kept = job({**picked, "taper.length": "70 mm"})  # as kept before there was another entry for it
    assert figure(kept, "taper.length")["value"] == 70.0


def test_two_roads_lead_on_from_a_measured_taper() -> None:
    """By hand: (23.60 - 21.20) / 47.8 = 0.0502092; Morse 3 is 1:19.922 (ISO 296), 0.0501958."""
    asked = field(job(ASKED_OF_IT), "taper.go_on")
    assert asked["kind"] == "choice" and {each["value"] for each in asked["choices"]} == {
        "table",
        "measured",
        "mate",
    }
    measured, mate, table = (
        job({**ASKED_OF_IT, "taper.go_on": each, "taper.form": "internal"})
        for each in ("measured", "mate", "table")
    )
    for sheet in (measured, mate):
        assert figure(sheet, "taper.rate")["value"] == pytest.approx(2.40 / 47.8, rel=1e-9)
        assert figure(sheet, "taper.half_angle")["value"] == pytest.approx(math.atan(1.2 / 47.8), rel=1e-9)
    named = figure(table, "taper.candidates")["value"][0]
    by_name = job({"taper.series": named["series"], "taper.size": named["size"], "taper.form": "internal"})
    assert figure(table, "taper.rate")["value"] == figure(by_name, "taper.rate")["value"]


def test_the_mate_of_a_socket_is_a_shank_and_that_of_a_shank_a_socket() -> None:
    for form, cut in (("internal", "external"), ("external", "internal")):
        sheet = job({**ASKED_OF_IT, "taper.go_on": "mate", "taper.form": form})
        assert f", {cut}: " in sheet["stages"][0]["line"]
        # Blank asks a bore's allowance of a socket, and the end of a shank.
        assert (field(sheet, "blank.end") is None) == (cut == "internal")
        assert sheet["entries"]["taper.form"] == form


def test_a_mate_is_as_long_as_the_whole_taper_where_that_was_measured() -> None:
    """From 23.60 at 0.0502 to a mouth of 23.825 mm; 81 mm long in all, by hand 23.825 - 81 * 2.4 / 47.8."""
    more = {"taper.end_diameter": "23.825 mm", "taper.whole_length": "81 mm", "taper.go_on": "mate"}
    sheet = job({**ASKED_OF_IT, **more})
    assert figure(sheet, "taper.large_diameter")["value"] == pytest.approx(23.825)
    assert figure(sheet, "taper.length")["value"] == pytest.approx(81.0)
    assert figure(sheet, "taper.small_diameter")["value"] == pytest.approx(23.825 - 81.0 * 2.4 / 47.8)


def test_a_socket_is_measured_as_a_socket() -> None:
    """No standing it on a plate, no stand-off in a known socket; a shank has both."""
    for form, plate in (("internal", False), ("external", True)):
        sheet = job({"taper.series": "unknown", "taper.form": form})
        said = " ".join(step["text"]["mm"] for step in sheet["stages"][0]["steps"])
        assert ("surface plate" in said) == plate and ("discs" in said) != plate
        assert (field(sheet, "taper.stand_off") is not None) == plate


def test_kept_work_opens_as_it_was() -> None:
    """Without a choice an unknown taper goes on as before: by the likely table, else as measured."""
    request = {"format": 1, "units": "mm", "entries": dict(ASKED_OF_IT), "drawer": []}
    sheet = answered(request)
    assert field(sheet, "taper.go_on")["value"] == ""
    assert "go_on" not in "".join(sheet["entries"])
