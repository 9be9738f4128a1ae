"""The stages of blank and finishing through the one door: what is asked, what is said, and what is not."""

from __future__ import annotations

from typing import Any

import pytest

from calc.job import work
from drawings.reading import assert_sound
from steps import said_steps


def ask(entries: dict[str, str], units: str = "mm") -> dict[str, Any]:
    """The sheet; entries that no stage knows would stand among its problems."""
    sheet: dict[str, Any] = work({"format": 1, "units": units, "entries": entries, "drawer": []})
    assert sheet["problems"] == []
    return sheet


def stage(sheet: dict[str, Any], name: str) -> Any:
    return next(each for each in sheet["stages"] if each["id"] == name)


def fields(sheet: dict[str, Any], name: str) -> dict[str, Any]:
    return {each["id"]: each for each in stage(sheet, name)["fields"]}


def figures(sheet: dict[str, Any]) -> dict[str, Any]:
    return {
        each["id"]: each for each in stage(sheet, "blank")["figures"] + stage(sheet, "finishing")["figures"]
    }


MORSE_3 = {"taper.series": "Morse", "taper.size": "3"}


def test_morse_3_with_tang() -> None:
    """Common practice, no source: roughed to just over 24 mm for 100 mm; flats (18.5 - 7.9)/2 at least,
    milled to 7.79, the middle of 7.68 to 7.9, by hand."""
    sheet = ask(MORSE_3)
    found = figures(sheet)
    assert 24.0 < found["blank.rough_diameter"]["value"] < 24.5
    assert found["blank.rough_length"]["value"] == pytest.approx(100.0)
    assert found["finishing.flat_depth"]["value"] == pytest.approx(5.30)
    assert found["finishing.across_first"]["value"] == pytest.approx(18.5 - (18.5 - 7.79) / 2)
    assert found["finishing.tang_limits"]["value"] == pytest.approx([7.68, 7.90])
    assert found["blank.diameter"]["lead"] and found["finishing.flat_aim"]["lead"]
    # The next customary bar above 24.08 + 0.3 + 1.0 mm.
    assert found["blank.diameter"]["value"] == 28.0
    steps = said_steps(stage(sheet, "blank"))
    mill = next(index for index, step in enumerate(steps) if "flats" in step)
    taper = next(index for index, step in enumerate(steps) if step.startswith("Turn the taper"))
    assert mill < taper and "before the taper is finished: there is metal to hold" in steps[mill]


def test_the_round_as_measured() -> None:
    found = figures(ask(MORSE_3 | {"finishing.diameter_now": "19.1"}))
    assert found["finishing.flat_depth"]["value"] == pytest.approx((19.1 - 7.9) / 2)


@pytest.mark.parametrize(
    ("now", "word", "said"),
    [
        ("7.75", "inside", "0.07 mm to spare"),
        ("7.60", "under", "0.08 mm under"),
        ("7.9", "inside", ""),
        ("7.68", "inside", ""),
        ("7.679", "under", ""),
        ("7.94", "over", "0.04 mm over"),
        ("0.3051 in", "inside", ""),
    ],
)
def test_verdict_on_a_slip(now: str, word: str, said: str) -> None:
    """Morse 3 tang 7.9 mm h13: 7.75 inside, 7.60 not (common practice and ISO 286)."""
    sheet = ask(MORSE_3 | {"finishing.tang_now": now})
    verdict = figures(sheet)["finishing.tang_verdict"]
    assert verdict["value"] == word and said in verdict["shown"]["mm"]
    texts = " ".join(each["text"] for each in stage(sheet, "finishing")["cautions"])
    assert ("Metal cannot be put back" in texts) == (word == "under")
    assert ("more off each flat" in texts) == (word == "over")
    # Where it is measured it is judged, and what is to be done about a slip is said there.
    (step,) = (each for each in sheet["route"] if "finishing.tang_now" in each["asks"])
    assert {"finishing.tang_verdict", "finishing.tang_limits"} <= set(step["shows"])
    assert ("tang_slip" in step["cautions"]) == (word != "inside")


def test_the_second_flat_follows_the_reading() -> None:
    """13.15 over the first flat is 3.90 mm from the axis: both alike make 7.80, inside; by hand."""
    sheet = ask(MORSE_3 | {"finishing.across_now": "13.15"})
    assert figures(sheet)["finishing.second_flat"]["value"] == pytest.approx(5.35)
    assert "7.80 mm thick, true to the axis" in " ".join(said_steps(stage(sheet, "finishing")))


@pytest.mark.parametrize(
    ("end", "asked", "not_asked"),
    [
        ("tang", "finishing.diameter_now", "finishing.thread"),
        ("drawbar", "finishing.thread", "finishing.tang_now"),
        ("plain", "finishing.spigot", "finishing.diameter_now"),
    ],
)
def test_only_what_the_end_needs(end: str, asked: str, not_asked: str) -> None:
    sheet = ask(MORSE_3 | {"blank.end": end})
    known = fields(sheet, "finishing")
    assert asked in known and not_asked not in known
    assert ("blank.head_diameter" in fields(sheet, "blank")) is False
    said = str(said_steps(stage(sheet, "blank")))
    assert ("flats" in said) == (end == "tang") and ("tap it" in said) == (end == "drawbar")


def test_drawbar_thread_in_either_system() -> None:
    metric = figures(ask(MORSE_3 | {"blank.end": "drawbar"}))
    assert (metric["finishing.thread_name"]["value"], metric["finishing.tapping_drill"]["value"]) == (
        "M12",
        10.2,
    )
    assert metric["finishing.thread_depth"]["value"] == 24.0
    inch = figures(ask(MORSE_3 | {"blank.end": "drawbar"}, "inch"))
    assert inch["finishing.thread_name"]["value"] == "1/2-13 UNC"
    assert inch["finishing.tapping_drill"]["shown"]["inch"] == "27/64 in"


def test_spigot_of_an_inch() -> None:
    """g6 over 18 to 30 mm is -7, -20 µm (ISO 286-2): 25.380 to 25.393 mm."""
    sheet = ask(
        MORSE_3 | {"finishing.spigot": "1 in", "finishing.fit": "H7/g6", "finishing.spigot_now": "25.5"}
    )
    found = figures(sheet)
    assert found["finishing.spigot_limits"]["value"] == pytest.approx([25.380, 25.393])
    assert found["finishing.clearance"]["value"] == pytest.approx([0.007, 0.041])
    assert found["finishing.spigot_to_go"]["value"] == pytest.approx(25.5 - 25.3865)
    steps = " ".join(said_steps(stage(sheet, "finishing")))
    assert "0.1135 mm" in steps and any(half in steps for half in ("0.0567 mm", "0.0568 mm"))
    # The head is as thick as the spigot without being asked again, and the bar holds it.
    assert fields(sheet, "blank")["blank.head_diameter"]["default"] == "25.393 mm"
    assert found["blank.diameter"]["value"] >= 26.393


def test_warm_spigot() -> None:
    """50 mm × 11.6e-6 /K × 20 K = 11.6 µm: by hand, with the tabulated expansion of steel 1045."""
    sheet = ask(MORSE_3 | {"finishing.spigot": "50"})
    warm = next(each for each in stage(sheet, "finishing")["cautions"] if "Measure cold" in each["text"])
    assert "20 °C" in warm["text"] and "11.6 µm" in warm["text"]


def test_shop_words_and_amounts_name_their_iso_fit() -> None:
    for text, pair in (("sliding", "H7/g6"), ("2 thou under", "H7/e8")):
        sheet = ask(MORSE_3 | {"finishing.spigot": "1 in", "finishing.fit": text})
        assert pair in stage(sheet, "finishing")["line"]
        assert sheet["entries"]["finishing.fit"] == text


@pytest.mark.parametrize(
    ("stock", "name", "diameter"),
    [
        ("20; 25; 30", "30 mm", 30.0),
        ("20 mm, 1 in, 1-1/8 in", "1 in", 25.4),
        ("20mm,26mm", "26 mm", 26.0),
        ("20,25,26", "26 mm", 26.0),
        ("25.4 mm\n1.25 in", "25.4 mm", 25.4),
    ],
)
def test_bars_of_ones_own(stock: str, name: str, diameter: float) -> None:
    """The thinnest of the list above 25.38 mm, under its own name."""
    sheet = ask(MORSE_3 | {"blank.stock": stock})
    assert figures(sheet)["blank.diameter"]["value"] == diameter
    assert stage(sheet, "blank")["line"].startswith(f"{name} bar")
    again = ask(MORSE_3 | {"blank.stock": sheet["entries"]["blank.stock"]}, "inch")
    assert figures(again)["blank.diameter"]["value"] == diameter


def test_no_bar_thick_enough() -> None:
    sheet = ask(MORSE_3 | {"blank.stock": "12; 20"})
    assert figures(sheet)["blank.diameter"]["value"] is None
    assert "No bar stock here is thick enough" in stage(sheet, "blank")["line"]


@pytest.mark.parametrize(
    ("name", "text", "fragment"),
    [
        ("blank.stock", "20,25", "two sizes or be a decimal"),
        ("blank.stock", "20; oak", ""),
        ("blank.stock", "20; -4", "cannot be right"),
        ("blank.stock", "; ".join(["20"] * 100), "More than"),
        ("blank.end", "pointed", "not one of"),
        ("blank.facing", "-1", "too small"),
        ("blank.holding", "1 km", ""),
        ("blank.head_length", "30", "no diameter"),
        ("finishing.diameter_now", "7.5", "no thicker than the tang"),
        ("finishing.across_now", "9", "does not go with"),
        ("finishing.across_now", "19", "does not go with"),
        ("finishing.tang_now", "thin", ""),
        ("finishing.spigot", "501", "too large"),
        ("finishing.fit", "H7", "is a hole"),
        ("finishing.fit", "snug", "not a fit that is known"),
        ("finishing.fit", "H7/u6", "not in the tables"),
    ],
)
def test_what_is_wrong_is_said_beside_its_field(name: str, text: str, fragment: str) -> None:
    entries = MORSE_3 | {name: text}
    if name == "finishing.fit":
        entries["finishing.spigot"] = "1 in"
    sheet = ask(entries)
    answered = fields(sheet, "blank") | fields(sheet, "finishing")
    at = "blank.head_diameter" if name == "blank.head_length" else name
    wrong = answered[at]["wrong"]
    assert wrong is not None and fragment in wrong["message"]
    assert wrong["way_out"] or wrong["offers"]
    for offer in wrong["offers"]:
        again = ask(entries | {name: offer})
        assert (fields(again, "blank") | fields(again, "finishing"))[name]["wrong"] is None


def test_other_series_say_what_no_table_tells() -> None:
    sheet = ask({"taper.series": "Jarno", "taper.size": "6", "blank.end": "tang"})
    texts = " ".join(each["text"] for each in stage(sheet, "blank")["cautions"])
    assert "No table here gives the tang of Jarno 6" in texts
    asked = ask(
        {
            "taper.series": "Jarno",
            "taper.size": "6",
            "blank.end": "tang",
            "finishing.thickness": "7.9",
            "finishing.diameter_now": "15",
        }
    )
    found = figures(asked)
    assert found["finishing.flat_depth"]["value"] == pytest.approx(3.55)
    assert found["finishing.tang_limits"]["value"] == pytest.approx([7.68, 7.9])  # h13 over 6 to 10 mm


def test_a_socket_has_a_bore_and_no_blank() -> None:
    """Morse 3 socket: bore 20.2 H11 (0 to +130 µm over 18 to 30 mm), from a German encyclopaedia's table."""
    sheet = ask(MORSE_3 | {"taper.form": "internal"})
    found = figures(sheet)
    assert "blank.end" not in fields(sheet, "blank") and "blank.diameter" not in found
    assert found["blank.socket_bore"]["shown"]["mm"] == "20.200 to 20.330 mm"
    assert 19.0 < found["blank.pilot"]["value"] < 19.759
    assert fields(sheet, "finishing") == {}


def test_a_cone_without_lengths_waits() -> None:
    for entries in ({"taper.half_angle": "3"}, {"taper.series": "Morse"}, {"taper.series": "Cone"}):
        sheet = ask(entries)
        for name in ("blank", "finishing"):
            assert stage(sheet, name)["line"]
        assert stage(sheet, "blank")["figures"] == []


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize(
    "entries",
    [
        MORSE_3,
        MORSE_3 | {"blank.end": "drawbar", "finishing.spigot": "22 mm", "finishing.spigot_now": "22.5 mm"},
        MORSE_3 | {"blank.end": "plain", "blank.holding": "0", "taper.small_end": "headstock"},
        MORSE_3 | {"finishing.across_now": "13.0 mm", "finishing.tang_now": "7.6 mm"},
        {"taper.series": "Morse inch", "taper.size": "0"},
        {
            "taper.series": "Metric",
            "taper.size": "200",
            "blank.head_length": "500 mm",
            "blank.head_diameter": "210 mm",
        },
        {"taper.series": "Metric", "taper.size": "4"},
        {"taper.series": "Jarno", "taper.size": "2", "finishing.spigot": "400 mm", "finishing.fit": "drive"},
        {"taper.series": "7/24", "taper.size": "40", "taper.length": "60 mm"},
    ],
)
def test_whole_and_drawn(entries: dict[str, str], units: str) -> None:
    """Every figure has unit, working and source; every picture is sound; nothing is said twice."""
    sheet = ask(entries, units)
    for name in ("blank", "finishing"):
        found = stage(sheet, name)
        assert found["line"] and len(set(said_steps(found))) == len(found["steps"])
        if found["drawing"]:
            assert_sound(found["drawing"])
        for each in found["figures"]:
            assert all(each["shown"].values()) and each["source"] and each["working"], each["id"]
        texts = [each["text"] for each in found["cautions"]]
        assert len(set(texts)) == len(texts)
    assert stage(sheet, "blank")["drawing"]
