"""The one door: total on anything, every answer beside its field, every figure with its unit and working."""

from __future__ import annotations

import json
import math
import subprocess
import sys
from itertools import product
from typing import Any

import mpmath
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.demo import demo_request
from calc.job import work, work_text
from calc.sheet import as_plain


def ask(entries: dict[str, str] | None = None, drawer: Any = None, units: str = "mm") -> dict[str, Any]:
    """The sheet for the demonstration with some entries changed."""
    request: dict[str, Any] = dict(demo_request())
    request["units"] = units
    request["entries"] = {**request["entries"], **(entries or {})}
    if drawer is not None:
        request["drawer"] = drawer
    return work(request)


def figure(sheet: dict[str, Any], name: str) -> Any:
    found = [each for stage in sheet["stages"] for each in stage["figures"] if each["id"] == name]
    return found[0] if found else None


def field(sheet: dict[str, Any], name: str) -> Any:
    return next(each for stage in sheet["stages"] for each in stage["fields"] if each["id"] == name)


def hollow_moments() -> tuple[Any, Any]:
    """Mean and standard deviation [mm on diameter] of what a tool within 0.1 mm of centre does to a Morse 2
    (17.780 mm, 64 mm, ISO 296), size true at the large end: a hyperboloid, integrated at 50 digits."""
    with mpmath.workdps(50):
        large, slope, length = mpmath.mpf("8.89"), 1 / mpmath.mpf("40.040"), 64

        def error(h: Any) -> Any:
            small = mpmath.sqrt((mpmath.sqrt(large**2 - h**2) - slope * length) ** 2 + h**2)
            return 2 * (large - small) - 2 * slope * length

        mean = mpmath.quad(error, [0, 0.1]) / 0.1
        square = mpmath.quad(lambda h: (error(h) - mean) ** 2, [0, 0.1]) / 0.1
        return mean, mpmath.sqrt(square)


def test_demonstration_against_mpmath() -> None:
    """Half angle, height and error on diameter, recomputed at 50 digits from 1:20.020 (ISO 296)."""
    sheet = ask()
    assert sheet["problems"] == []
    with mpmath.workdps(50):
        half = mpmath.atan(mpmath.mpf(1) / mpmath.mpf("20.020") / 2)
        height = 100 * mpmath.sin(half)
        assert figure(sheet, "taper.half_angle")["value"] == pytest.approx(float(half), rel=1e-10)
        assert figure(sheet, "setting.stack_height")["value"] == pytest.approx(float(height), rel=1e-10)
        pieces = figure(sheet, "setting.stack")["value"]
        built = sum(mpmath.mpf(repr(piece["size"])) for piece in pieces)
        assert figure(sheet, "setting.stack_error")["value"] == pytest.approx(float(built - height), abs=1e-6)
        error = 2 * 64 * (mpmath.tan(mpmath.asin(built / 100)) - mpmath.tan(half))
        bias = error + hollow_moments()[0]
        assert figure(sheet, "setting.error_on_diameter")["value"] == pytest.approx(float(bias), abs=1e-9)
        assert abs(float(error)) < 0.001  # a drawer of thirty-odd pieces does better than a micrometre here
    assert figure(sheet, "setting.pin")["value"] == "tailstock"
    assert figure(sheet, "setting.swing")["value"] == "anticlockwise"


def test_doubt_of_the_demonstration_against_uncertainties() -> None:
    """The ± on diameter against the uncertainties package, fed the same limits as rectangular spreads."""
    import uncertainties
    from uncertainties import umath

    sheet = ask()
    root3 = math.sqrt(3.0)
    bar = uncertainties.ufloat(100.0, 0.003 / root3)
    pieces = figure(sheet, "setting.stack")["value"]
    give = {row["name"]: float(row["give"].split()[0]) for row in demo_request()["drawer"]}  # type: ignore[attr-defined]
    height = sum(uncertainties.ufloat(piece["size"], give[piece["name"]] / root3) for piece in pieces)
    for _ in range(len(pieces) + 1):
        height += uncertainties.ufloat(0.0, 0.001 / root3)
    # The defaults shown beside the fields: pins, edge over the bar, sweep and side over 80 mm, axis on
    # diameter.
    height += uncertainties.ufloat(0.0, 0.002 / root3) / 2
    turned = uncertainties.ufloat(0.0, 0.001 / root3) / 100
    for known, over in ((0.002, 80), (0.005, 80), (0.005, 2 * 100)):
        turned += uncertainties.ufloat(0.0, known / root3) / over
    error = 2 * 64 * (umath.tan(umath.asin(height / bar) + turned) - math.tan(math.atan(1 / 20.020 / 2)))
    # One end 3 K warmer, carbon steel 11.5 µm/m K; the tool's height, not of first order, by its own spread.
    error += uncertainties.ufloat(0.0, 11.5e-6 * 17.78 * 3 / root3)
    error += uncertainties.ufloat(0.0, float(hollow_moments()[1]))
    assert figure(sheet, "setting.error_on_diameter")["plus_minus"] == pytest.approx(
        2 * error.std_dev, rel=1e-4
    )


def test_every_figure_is_whole() -> None:
    for units in ("mm", "inch"):
        for stage in ask(units=units)["stages"]:
            assert stage["line"] and stage["title"]
            assert stage["drawing"].startswith("<svg") or stage["id"] == "chart" or not stage["figures"]
            for each in stage["figures"]:
                assert set(each["shown"]) == {"mm", "inch"} and all(each["shown"].values()), each["id"]
                assert each["source"], each["id"]
                assert each["working"], each["id"]
        leads = [
            each["id"] for stage in ask(units=units)["stages"] for each in stage["figures"] if each["lead"]
        ]
        assert leads == [
            "setting.stack_height",
            "blank.diameter",
            "cutting.rpm",
            "proving.tap",
            "finishing.flat_aim",
            "finishing.spigot_limits",
        ]


@pytest.mark.parametrize(
    ("small_end", "cut", "bar"), list(product(("tailstock", "headstock"), *[("operator", "far")] * 2))
)
def test_all_eight_cases_hold_together(small_end: str, cut: str, bar: str) -> None:
    """Swing and pin by turning a drawn slide as complex numbers, not by the core's own plan."""
    sheet = ask({"taper.small_end": small_end, "setting.cut_side": cut, "setting.bar_side": bar})
    side = -1.0 if cut == "operator" else 1.0
    ends = (
        (20.0, 10.0) if small_end == "tailstock" else (10.0, 20.0)
    )  # radius at the headstock and at the tailstock end
    flank = complex(100.0, side * (ends[1] - ends[0]))
    swing = "anticlockwise" if flank.imag > 0 else "clockwise"
    normal = flank * (1j if bar == "far" else -1j) / abs(flank)
    gap_at_tailstock = (complex(50.0, 0.0) * normal.conjugate()).real
    pin = "tailstock" if gap_at_tailstock > 0 else "headstock"
    assert figure(sheet, "setting.swing")["value"] == swing
    assert figure(sheet, "setting.pin")["value"] == pin
    words = " ".join(
        each["text"]["mm"] for stage in sheet["stages"] if stage["id"] == "setting" for each in stage["steps"]
    )
    assert f"{pin} roller" in words and swing in words


def test_mixed_entry_is_read() -> None:
    sheet = ask({"setting.bar_centres": "4in - 6thou"})
    assert "read as" in field(sheet, "setting.bar_centres")["read"]
    assert figure(sheet, "setting.stack_height")["value"] == pytest.approx(
        (101.6 - 0.1524) * math.sin(math.atan(1 / 40.04))
    )


@pytest.mark.parametrize(
    ("name", "text", "fragment"),
    [
        ("setting.bar_centres", "4.2mm drill and", ""),
        ("setting.bar_centres", "1,234.5", ""),
        ("setting.bar_centres", "nan", ""),
        ("setting.bar_centres", "1e999", ""),
        ("setting.bar_centres", "9" * 10240, ""),
        ("setting.bar_centres", "-5", "too small"),
        ("setting.bar_centres", "0", "too small"),
        ("setting.bar_centres", "5 m", "too large"),
        ("setting.bar_centres", "1.43°", "angle"),
        ("setting.bar_side", "left", "not one of"),
        ("setting.cut_side", "under", "not one of"),
        ("setting.way", "by eye", "not one of"),
        ("setting.seating", "much", ""),
        ("taper.size", "22", "not one of"),
        ("taper.series", "Moose", "not one of"),
        ("taper.length", "500", "point"),
        ("taper.form", "sideways", "not one of"),
        ("taper.small_end", "up", "not one of"),
    ],
)
def test_bad_entry_is_answered_beside_its_field(name: str, text: str, fragment: str) -> None:
    sheet = ask({name: text})
    wrong = field(sheet, name)["wrong"]
    assert wrong is not None and fragment in wrong["message"]
    assert wrong["way_out"] or wrong["offers"]
    assert sheet["problems"] == []
    others = [each for stage in sheet["stages"] for each in stage["fields"] if each["id"] != name]
    assert all(each["wrong"] is None for each in others)
    assert field(sheet, name)["value"].startswith(text[:80]), "what was typed must stay"
    for offer in wrong["offers"]:
        again = ask({name: offer})
        assert field(again, name)["wrong"] is None, offer


def test_a_wrong_bar_leaves_the_taper_standing() -> None:
    sheet = ask({"setting.bar_centres": "4.2mm drill and"})
    assert figure(sheet, "taper.half_angle") is not None
    assert figure(sheet, "setting.stack_height") is None


def test_own_taper_from_measures_and_their_disagreement() -> None:
    own = {
        "taper.series": "own",
        "taper.size": "",
        "taper.large_diameter": "0.700 in",
        "taper.small_diameter": "14.528",
        "taper.length": "65.0875",
    }
    sheet = ask(own)
    assert figure(sheet, "taper.rate")["value"] == pytest.approx((17.78 - 14.528) / 65.0875)
    sheet = ask({**own, "taper.rate": "1:15"})
    for name in ("large_diameter", "small_diameter", "length", "rate"):
        wrong = field(sheet, f"taper.{name}")["wrong"]
        assert wrong and "agree" in wrong["message"] and "would have to be" in wrong["way_out"]
    sheet = ask({"taper.series": "own", "taper.size": "", "taper.large_diameter": "20"})
    assert "small diameter" in sheet["stages"][0]["line"] and "length" in sheet["stages"][0]["line"]


def test_rounded_measures_agree_as_far_as_they_were_written() -> None:
    """17.8, 14.6 and 64 mm are a Morse 2 (ISO 296) written to a tenth: no contradiction with 1:20.020."""
    own = {
        "taper.series": "own",
        "taper.size": "",
        "taper.large_diameter": "17.8",
        "taper.small_diameter": "14.6",
    }
    sheet = ask({**own, "taper.length": "64", "taper.rate": "1:20.020"})
    assert figure(sheet, "taper.rate")["value"] == pytest.approx(1 / 20.020)
    sheet = ask({**own, "taper.length": "67", "taper.rate": "1:20.020"})
    assert field(sheet, "taper.length")["wrong"] is not None
    whole = {**own, "taper.large_diameter": "20", "taper.small_diameter": "17"}
    sheet = ask({**whole, "taper.length": "50", "taper.rate": "1:20"})
    assert (
        "would have to be 17.50 mm, 0.50 mm more" in field(sheet, "taper.small_diameter")["wrong"]["way_out"]
    )


def test_every_taper_of_every_series_answers() -> None:
    """Also those whose table tells an angle only; what is from memory is said beside the figure."""
    from calc.tables import all_tapers

    for taper in all_tapers():
        sheet = work({"entries": {"taper.series": taper.series, "taper.size": taper.size}})
        assert figure(sheet, "taper.half_angle")["value"] > 0, taper.name
        assert "setting.stack_height" in [each["id"] for each in sheet["stages"][1]["figures"]], taper.name
        labels = {each["id"]: each["label"] for each in sheet["stages"][0]["figures"]}
        for name in set(taper.from_memory) & {"rate", "large_diameter", "length"}:
            assert "from memory" in labels[f"taper.{name}"], (taper.name, name)
            assert any("From memory" in each["text"] for each in sheet["stages"][0]["cautions"]), taper.name


def test_what_have_i_got_here() -> None:
    """Two diameters of a Morse 2 by its metric rate, 1:20.020 (ISO 296), read to 0.01 mm at 64 mm apart."""
    asked = {
        "taper.series": "unknown",
        "taper.size": "",
        "taper.large_diameter": "17.75",
        "taper.small_diameter": "14.60",
        "taper.length": "63",
    }
    sheet = ask(asked)
    candidates = figure(sheet, "taper.candidates")["value"]
    assert {each["series"] for each in candidates[:2]} == {"Morse", "Morse inch"}
    assert sum(each["probability"] for each in candidates[:2]) > 0.9
    assert figure(sheet, "taper.half_angle") is not None and sheet["stages"][0]["steps"]
    empty = ask({"taper.series": "unknown", "taper.size": ""})
    assert "measure two diameters" in empty["stages"][0]["line"]
    assert empty["stages"][0]["steps"], "how to measure must be said before there is anything to answer"


def test_holding_is_said() -> None:
    """Morse holds itself, 45 degrees of half angle does not: statics, tan a < friction."""
    assert figure(ask(), "taper.holding")["value"] == "self-holding"
    steep = ask({"taper.series": "own", "taper.size": "", "taper.half_angle": "45"})
    assert figure(steep, "taper.holding")["value"] == "releasing"


def test_both_morse_standards_are_told_apart() -> None:
    """12 x 20.020 against 0.59941 in/ft over 64 mm, by hand: (0.59941/12 - 1/20.020) x 64 mm."""
    sheet = ask()
    assert figure(sheet, "taper.other_standard")["value"] == pytest.approx(
        (0.59941 / 12 - 1 / 20.020) * 64, abs=1e-12
    )


def test_measures_alone_mean_an_own_taper() -> None:
    sheet = work({"format": 1, "units": "inch", "entries": {"taper.rate": "0.602"}, "drawer": []})
    assert figure(sheet, "taper.rate")["value"] == pytest.approx(0.602 / 12)
    assert figure(sheet, "setting.stack_height")["value"] == pytest.approx(
        101.6 * math.sin(math.atan(0.602 / 24))
    )


def test_no_taper_no_swing() -> None:
    sheet = ask({"taper.series": "own", "taper.size": "", "taper.rate": "0"})
    assert figure(sheet, "setting.swing")["value"] == "none"
    assert figure(sheet, "setting.stack_height")["value"] == 0


def test_too_steep_for_a_bar_says_why() -> None:
    sheet = ask({"taper.series": "own", "taper.size": "", "taper.half_angle": "70"})
    stage = sheet["stages"][1]
    assert "60°" in stage["line"] and figure(sheet, "setting.stack_height") is None


def test_empty_job_asks() -> None:
    sheet = work({})
    assert sheet["problems"] == []
    assert "choose a size" in sheet["stages"][0]["line"]
    assert "Waiting" in sheet["stages"][1]["line"]


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_normalised_job_means_the_same_in_the_other_system(units: str) -> None:
    """What the page sends after a change of system: bare numbers keep the meaning they had."""
    bare = {
        "setting.bar_centres": "100" if units == "mm" else "4",
        "taper.length": "60" if units == "mm" else "2.5",
    }
    drawer = [
        {
            "name": "",
            "shape": "round",
            "size": "2.5" if units == "mm" else ".1",
            "measured": "",
            "give": "",
            "count": "2",
        }
    ]
    sheet = ask(bare, drawer, units)
    other = "inch" if units == "mm" else "mm"
    request = {"format": 1, "units": other, "entries": sheet["entries"], "drawer": sheet["drawer"]}
    again = work(request)
    for name in ("setting.stack_height", "taper.small_diameter", "setting.stack_error"):
        assert figure(again, name)["value"] == figure(sheet, name)["value"]
    assert again["entries"] == sheet["entries"]


def test_a_default_is_the_table_s_own_number_in_both_systems() -> None:
    """Morse 3 is 81 mm long (ISO 296), also where the page shows inches."""
    for units in ("mm", "inch"):
        assert figure(ask({"taper.size": "3"}, units=units), "taper.length")["value"] == 81.0


def test_unknown_entries_and_damage_are_named_and_the_rest_stands() -> None:
    request: dict[str, Any] = dict(demo_request())
    request["entries"] = {**request["entries"], "proving.mood": "good", "taper.length": ["x"]}
    request["format"] = 7
    request["colour"] = "red"
    sheet = work(request)
    assert {each["id"] for each in sheet["problems"]} == {"proving.mood", "taper.length", "format", "colour"}
    assert figure(sheet, "setting.stack_height")["value"] == pytest.approx(2.4967, abs=1e-4)


plain = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=12,
)
names = st.sampled_from(
    [
        "taper.series",
        "taper.size",
        "taper.length",
        "taper.rate",
        "taper.half_angle",
        "taper.form",
        "taper.large_diameter",
        "setting.way",
        "setting.bar_centres",
        "setting.bar_give",
        "setting.seating",
    ]
)
texts = st.sampled_from(
    ["Morse", "2", "own", "1:20", "5%", "100", "4in", "1-3/8", "34,9", "1,234", "", "-1", "0", "1e-9"]
) | st.text(max_size=8)


@settings(max_examples=150, deadline=None)
@given(plain)
def test_total_on_anything(request: object) -> None:
    json.loads(work_text(json.dumps(request)), parse_constant=lambda name: pytest.fail(f"{name} is not JSON"))


@settings(max_examples=150, deadline=None)
@given(
    st.dictionaries(names, texts, max_size=8), st.sampled_from(["mm", "inch"]), st.lists(plain, max_size=3)
)
def test_total_on_what_people_type(entries: dict[str, str], units: str, drawer: list[object]) -> None:
    sheet = work({"format": 1, "units": units, "entries": entries, "drawer": drawer})
    json.dumps(sheet, allow_nan=False)
    order = ["taper", "setting", "blank", "cutting", "finishing", "chart"]
    assert [stage["id"] for stage in sheet["stages"] if stage["id"] in order] == order


@pytest.mark.parametrize(
    "text", ["", "{", "null", "[]", "7", "[" * 100_000, "x" * 3_000_000, '{"entries": NaN}']
)
def test_damaged_text_gets_a_sheet(text: str) -> None:
    sheet = json.loads(work_text(text))
    assert sheet["stages"] and (sheet["problems"] or text == "null")


def test_terminal_speaks_json() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "calc", "--json"],
        input=json.dumps(demo_request()),
        capture_output=True,
        text=True,
        check=True,
    )
    assert json.loads(done.stdout) == json.loads(work_text(json.dumps(demo_request())))
    broken = subprocess.run(
        [sys.executable, "-m", "calc", "--json"], input="{", capture_output=True, text=True
    )
    assert broken.returncode == 0 and json.loads(broken.stdout)["problems"]


def test_terminal_prints_a_card() -> None:
    words = [
        sys.executable,
        "-m",
        "calc",
        "--taper",
        "Morse",
        "--size",
        "3",
        "--bar",
        "4in",
        "--units",
        "inch",
        "--piece",
        "#39 drill, round, #39 drill, .0995in",
        "--piece",
        "leaf, leaf, 1 thou",
    ]
    card = subprocess.run(words, capture_output=True, text=True, check=True).stdout
    assert "TAPER" in card and "0.1003" in card and "#39 drill" in card
    demonstration = subprocess.run(
        [sys.executable, "-m", "calc"], capture_output=True, text=True, check=True
    ).stdout
    assert "invented" in demonstration and "anticlockwise" in demonstration
    assert max(len(line) for line in demonstration.splitlines()) <= 120


def test_what_is_left_by_rounding_leaves_the_core_as_nothing() -> None:
    """Two mathematics libraries differ in the last bit: their difference is no figure."""
    assert as_plain([0.1 + 0.2 - 0.3, -1e-18, 3e-7, -2.5]) == [0.0, 0.0, 3e-7, -2.5]
    # Two lengths of some 10 mm, taken from each other: the last bit of either is 2e-15 mm.
    assert as_plain(8.888886518e-05) == as_plain(8.888886519e-05)
    assert as_plain(1234.567890123) == 1234.56789
