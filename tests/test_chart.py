"""The wall chart: its lines are what the setting stage says, worked out some at a time."""

from __future__ import annotations

import csv
import io
import json
import math
import re
import subprocess
import sys
import time
from types import SimpleNamespace
from typing import Any

import mpmath
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.cone import Cone
from calc.demo import demo_request
from calc.job import work, work_text
from calc.setting import bar
from calc.stages import chart, setting
from calc.stages.common.job_facts import Job, Sent
from calc.stages.setting import bench as benches
from calc.tables import ALL_SERIES, all_tapers, sizes
from calc.tables.loader import load

WALL = "chart.tapers"


def request(entries: dict[str, str] | None = None, units: str = "mm", **more: Any) -> dict[str, Any]:
    """The demonstration with some entries changed."""
    told: dict[str, Any] = dict(demo_request())
    told["entries"] = {**told["entries"], **(entries or {})}
    return {**told, "units": units, **more}


def later(told: dict[str, Any], items: Any, figure: Any = WALL) -> dict[str, Any]:
    return work({**told, "later": {"figure": figure, "items": items}})


def cells(answer: dict[str, Any], system: str) -> dict[str, dict[str, str]]:
    """Rows by taper, each cell by the name of its column."""
    return {
        row["cells"][0]["mm"]: dict(zip(chart.COLUMNS, (cell[system] for cell in row["cells"]), strict=True))
        for row in answer["rows"]
    }


def stage_of(answer: dict[str, Any], name: str) -> Any:
    return next(each for each in answer["stages"] if each["id"] == name)


def figure_of(answer: dict[str, Any], name: str) -> Any:
    return next(each for stage in answer["stages"] for each in stage["figures"] if each["id"] == name)


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("series", ["Morse", "Jarno", "Jacobs"])
def test_every_line_is_what_the_setting_stage_says(series: str, units: str) -> None:
    """The same request with this taper picked: angle, rate, height, stack, what it leaves and its ±."""
    changed = {
        "setting.bar_centres": "4.9997 in",
        "setting.bar_give": "0.002 mm",
        "setting.seating": "0.0007 mm",
    }
    told = request({**changed, "chart.series": series}, units)
    names = figure_of(work(told), WALL)["later"]
    assert len(names) == len(sizes(series))
    lines = cells(later(told, names), units)
    for name, size in zip(names, sizes(series), strict=True):
        sheet = work(request({**changed, "taper.series": series, "taper.size": size}, units))
        line = lines[name]
        half, rate = figure_of(sheet, "taper.half_angle")["shown"], figure_of(sheet, "taper.rate")["shown"]
        height = figure_of(sheet, "setting.stack_height")["shown"]
        error = figure_of(sheet, "setting.error_on_diameter")
        assert line["Half angle"] == half[units]
        assert rate["mm"].startswith(line["Taper on diameter, 1:x"] + " (")
        assert line["Taper on diameter, in/ft"] + " in/ft" == rate["inch"]
        assert line["Stack for this sine bar, mm"] + " mm" == height["mm"]
        assert line["Stack for this sine bar, in"] + " in" == height["inch"]
        assert line["Best stack from this drawer"] == figure_of(sheet, "setting.stack")["shown"][units]
        assert line["Taper error on diameter"] == error["shown"][units]
        assert line["±"] == error["plus_minus_shown"][units]
        assert line["over"] == figure_of(sheet, "taper.length")["shown"][units]


def test_a_stack_that_is_far_too_low_is_none() -> None:
    """90° wants 70.7 mm on a bar of 100 mm: all the small pieces of a drawer are no stack for it."""
    told = request({"setting.bar_centres": "100 mm"})
    lines = cells(later(told, ["Cone 90°", "Morse 2"]), "mm")
    assert lines["Cone 90°"]["Stack for this sine bar, mm"].startswith("70.71")
    assert lines["Cone 90°"]["Best stack from this drawer"] == "none yet"
    assert "mm too" not in lines["Cone 90°"]["Taper error on diameter"]
    assert "none" not in lines["Morse 2"]["Best stack from this drawer"]


def test_jarno_against_its_rule() -> None:
    """Jarno n tapers 1 in 20 over n/2 in (rule of the series): height and what is left, at 50 digits."""
    names = [f"Jarno {size}" for size in sizes("Jarno")]
    units = {"mm": mpmath.mpf(1), "in": mpmath.mpf("25.4"), "thou": mpmath.mpf("0.0254")}
    measured = {}
    for row in request()["drawer"]:
        number, unit = row["measured"].split()
        measured[row["name"]] = mpmath.mpf(number) * units[unit]
    answer = later(request(), names)
    assert answer["problems"] == []
    with mpmath.workdps(50):
        half = mpmath.atan(mpmath.mpf(1) / 40)
        for name, line in cells(answer, "mm").items():
            height = 100 * mpmath.sin(half)
            assert abs(mpmath.mpf(line["Stack for this sine bar, mm"]) - height) <= 0.00005
            assert abs(mpmath.mpf(line["Stack for this sine bar, in"]) - height / 25.4) <= 0.000005
            length = mpmath.mpf(name.split()[1]) / 2 * mpmath.mpf("25.4")
            assert abs(mpmath.mpf(line["over"].split()[0]) - length) <= 0.00005
            built = sum(measured[piece] for piece in line["Best stack from this drawer"].split(" + "))
            left = 2 * length * (mpmath.tan(mpmath.asin(built / 100)) - mpmath.tan(half)) * 1000
            shown = line["Taper error on diameter"]
            assert re.fullmatch(r"[\d.]+ µm too (steep|shallow)|0(\.0+)? µm", shown)
            sign = -1 if shown.endswith("shallow") else 1
            # Shown to the place that its ± supports (Particle Data Group): from ± 36 µm on, whole tens.
            places = len(shown.split()[0].partition(".")[2])
            step = 10 if 35.4 < float(line["±"].split()[1]) < 95 else 10**-places
            # The tool's height, 0.1 mm at most, flattens these by well under a tenth of a micrometre.
            assert abs(sign * mpmath.mpf(shown.split()[0]) - left) <= 0.5 * step + 0.1, name


def test_a_length_on_this_part_is_not_put_on_the_wall() -> None:
    told = request()
    shorter = request({"taper.length": "20 mm"})
    assert later(told, ["Morse 2"]) == later(shorter, ["Morse 2"])
    assert cells(later(shorter, ["Morse 2"]), "mm")["Morse 2"]["over"] == "64.00 mm"  # ISO 296


def test_what_is_from_memory_is_marked() -> None:
    """Against the tables' own words, datum by datum."""
    files = {each.value: each.file for each in ALL_SERIES}
    bare = {"format": 1, "units": "mm", "entries": {}, "drawer": []}
    names = [taper.name for taper in all_tapers()]
    lines: dict[str, dict[str, str]] = {}
    for start in range(0, len(names), 50):
        lines |= cells(later(bare, names[start : start + 50]), "mm")
    assert list(lines) == names
    marked = 0
    for taper in all_tapers():
        told = {
            row["datum"]
            for row in load(files[taper.series])
            if (row["series"], row["size"]) == (taper.series, taper.size) and "memory" in row["confidence"]
        }
        mark = lines[taper.name]["From memory"]
        assert ("taper" in mark) == ("rate" in told) and ("length" in mark) == ("length" in told), taper.name
        marked += bool(mark)
        assert lines[taper.name]["Best stack from this drawer"] == "none yet"
    assert 0 < marked < len(names)


def test_order_and_batches_do_not_matter() -> None:
    told = request()
    names = ["Jarno 6", "Morse 2", "5C", "Jarno 6"]
    together = later(told, names)["rows"]
    assert together == [later(told, [name])["rows"][0] for name in names]
    assert set(later(told, names)) == {"format", "units", "stages", "problems", "entries", "drawer", "rows"}


def test_the_sheet_names_the_rows_and_works_none_out() -> None:
    sheet = work(request({"chart.series": " jarno;  BROWN&sharpe,jarno "}))
    stage = stage_of(sheet, "chart")
    assert stage["fields"][0]["value"] == "Jarno, Brown & Sharpe" == sheet["entries"]["chart.series"]
    assert stage["fields"][0]["kind"] == "several" and stage["fields"][0]["wrong"] is None
    figure = stage["figures"][0]
    assert figure["table"] == {"columns": list(chart.COLUMNS), "rows": []}
    assert len(figure["later"]) == figure["value"] == len(sizes("Jarno")) + len(sizes("Brown & Sharpe"))
    assert stage["line"] == f"{figure['value']} tapers for the sine bar of 100.00 mm and this drawer"
    others = [each for each in sheet["stages"] if each["id"] != "chart"]
    assert all(each["later"] == [] for other in others for each in other["figures"])
    assert sheet["stages"][-1] == stage, "the chart is last"


def test_no_series_asked_is_morse_and_needs_no_taper() -> None:
    sheet = work({"entries": {"chart.series": " , "}})
    assert figure_of(sheet, WALL)["later"] == [f"Morse {size}" for size in sizes("Morse")]
    assert "chart.series" not in sheet["entries"]
    assert "empty drawer" in stage_of(sheet, "chart")["line"]


@pytest.mark.parametrize(
    ("typed", "wrong", "used"),
    [("Morse, Moose, Jarno", "Moose", 8 + 19), ("Moose", "Moose", 0), ("Moose, Elk,Morse", "Moose", 8)],
)
def test_a_series_not_known_is_named_and_the_rest_used(typed: str, wrong: str, used: int) -> None:
    sheet = work(request({"chart.series": typed}))
    stage = stage_of(sheet, "chart")
    field = stage["fields"][0]
    fault = field["wrong"]
    assert field["value"] == typed and typed[fault["start"] : fault["end"]] == wrong
    assert f"“{wrong}”" in fault["message"] and ("“Elk”" in fault["message"]) == ("Elk" in typed)
    assert (len(stage["figures"][0]["later"]) if stage["figures"] else 0) == used
    assert sheet["problems"] == [] and "chart.series" not in sheet["entries"]
    for offer in fault["offers"]:
        assert stage_of(work(request({"chart.series": offer})), "chart")["fields"][0]["wrong"] is None


def test_too_steep_for_the_bar_says_why() -> None:
    """No table holds such a taper; 70 degrees either side."""
    bench = setting.bench_of(Job(Sent({})))
    assert bench is not None
    line = chart.row(bench, "Steep", Cone(2.0 * math.tan(math.radians(70.0)), 50.0, None, None))
    assert len(line.cells) == len(chart.COLUMNS)
    words = dict(zip(chart.COLUMNS, line.cells, strict=True))["Best stack from this drawer"]["mm"]
    assert "60°" in words
    widest = cells(later(request(), ["Cone 120°"]), "mm")["Cone 120°"]
    assert float(widest["Stack for this sine bar, mm"]) == pytest.approx(50.0 * math.sqrt(3.0), abs=5e-5)


def test_other_ways_have_no_chart_and_say_so(monkeypatch: pytest.MonkeyPatch) -> None:
    by_feel = SimpleNamespace(**{**vars(bar), "ID": "by_feel", "LABEL": "By feel"})
    monkeypatch.setattr(benches, "WAYS", (bar, by_feel))
    told = request({"setting.way": "by_feel"})
    stage = stage_of(work(told), "chart")
    assert stage["figures"] == [] and "sine bar beside the top slide" in stage["line"]
    answer = later(told, ["Morse 2"])
    assert answer["rows"] == [] and "sine bar beside the top slide" in answer["problems"][0]["message"]


def test_a_faulty_bar_is_answered_in_the_stage_and_beside_the_rows() -> None:
    told = request({"setting.bar_centres": "4.2mm drill and"})
    assert "Check the entries" in stage_of(work(told), "chart")["line"]
    answer = later(told, ["Morse 2"])
    assert answer["rows"] == [] and [each["id"] for each in answer["problems"]] == ["later"]


@pytest.mark.parametrize(
    ("items", "rows", "fragment"),
    [
        (["Morse 2", "Moose 2", "morse 3"], 1, "Moose 2"),
        (["Morse 2", 7, None, {"a": [1]}], 1, "not a name"),
        (["Morse 1"] * 60, 50, "first 50"),
        (["x" * 100_000], 0, "xxx"),
        ("Morse 2", 0, "not clear"),
        ({}, 0, "not clear"),
        (None, 0, "not clear"),
    ],
)
def test_rows_that_cannot_be_had_are_answered_in_words(items: Any, rows: int, fragment: str) -> None:
    answer = later(request(), items)
    assert len(answer["rows"]) == rows
    assert fragment in " ".join(each["message"] for each in answer["problems"])
    assert all(
        each["id"] == "later" and each["way_out"] and len(each["message"]) < 200
        for each in answer["problems"]
    )


def test_a_table_not_known_is_answered_in_words() -> None:
    for figure in ("setting.stack", None, ["chart.tapers"], {}):
        answer = later(request(), ["Morse 2"], figure)
        assert answer["rows"] == [] and len(answer["problems"]) == 1


def test_nothing_asked_for_later_is_an_ordinary_sheet() -> None:
    assert work(request(later=None)) == work(request())


anything = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=8,
)
known = st.sampled_from(["Morse 2", "Jarno 6", "5C", "B16", "R 1/8", "R8", "Cone 120°"])


@settings(max_examples=60, deadline=None)
@given(
    anything
    | st.fixed_dictionaries(
        {"figure": st.just(WALL) | anything, "items": st.lists(known | anything, max_size=6) | anything}
    ),
    st.lists(anything, max_size=2),
    st.dictionaries(
        st.sampled_from(["chart.series", "setting.way", "setting.bar_centres"]), st.text(max_size=8)
    ),
)
def test_total_whatever_is_asked_for_later(
    told: object, drawer: list[object], entries: dict[str, str]
) -> None:
    asked = {"format": 1, "units": "inch", "entries": entries, "drawer": drawer, "later": told}
    answer = json.loads(
        work_text(json.dumps(asked)), parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    if told is None:
        assert answer["stages"]
        return
    assert answer["stages"] == [] and isinstance(answer["rows"], list)
    items = told.get("items") if isinstance(told, dict) and told.get("figure") == WALL else None
    names = {taper.name for taper in all_tapers()}
    wanted = (
        [each for each in items if isinstance(each, str) and each in names] if isinstance(items, list) else []
    )
    if not any("mending" in each["message"] for each in answer["problems"]):
        assert [row["cells"][0]["mm"] for row in answer["rows"]] == wanted


def terminal(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", "calc", *words], capture_output=True, text=True, check=True)


def test_terminal_prints_the_chart_in_columns() -> None:
    text = terminal("--chart", "--series", "morse, 5c").stdout
    lines = text.splitlines()
    assert "invented" in lines[0] and "9 tapers for the sine bar of 100.00 mm" in text
    assert max(map(len, lines)) <= 132
    assert any("Small end to the tailstock" in line and "roller at the tailstock" in line for line in lines)
    rule = next(line for line in lines if set(line) == {"-", " "})
    columns = [match.span() for match in re.finditer("-+", rule)]
    assert len(columns) == len(chart.COLUMNS)
    table = lines[lines.index(rule) + 1 :]
    for line in table:
        for (_, end), (start, _) in zip(columns, columns[1:], strict=False):
            assert not line[end:start].strip(), "a cell stands outside its column"
    # Read back column by column, the broken lines joined, it is what the core answers.
    rows: list[list[str]] = []
    for line in table:
        parts = [line[start:end].strip() for start, end in columns]
        if parts[0]:
            rows.append(parts)
        else:
            rows[-1] = [f"{before} {part}".strip() for before, part in zip(rows[-1], parts, strict=True)]
    told = request({"chart.series": "Morse, 5C"})
    assert rows == [
        list(line.values())
        for line in cells(later(told, figure_of(work(told), WALL)["later"]), "mm").values()
    ]


def test_terminal_prints_the_chart_for_a_spreadsheet(tmp_path: Any) -> None:
    told = request({"chart.series": "Jacobs"}, "inch")
    told["drawer"] = [
        {"name": '-1+1, "quoted"', "shape": "flat", "size": "2.5 mm", "measured": "", "give": ""}
    ]
    file = tmp_path / "job.json"
    file.write_text(json.dumps(told), "utf-8")
    done = terminal("--csv", "--request", str(file))
    table = list(csv.reader(io.StringIO(done.stdout)))
    assert table[0] == list(chart.COLUMNS) and not done.stderr
    assert [row[0] for row in table[1:]] == [f"Jacobs {size}" for size in sizes("Jacobs")]
    at = chart.COLUMNS.index("Best stack from this drawer")
    assert {row[at] for row in table[1:]} == {'\'-1+1, "quoted"', "none yet"}, "a piece's name is no formula"
    assert all(float(row[4]) == pytest.approx(25.4 * float(row[5]), rel=1e-4) for row in table[1:])
    wrong = terminal("--csv", "--series", "Moose")
    assert "Moose" in wrong.stderr and "Morse 2" not in wrong.stdout


def test_the_card_says_how_to_get_the_chart() -> None:
    card = terminal().stdout
    assert "WALL CHART" in card and "--chart" in card


def test_a_large_chart_is_ready_within_seconds() -> None:
    """150 tapers, 150 pieces as sold, five tapers a call: processor time, with room for a slow machine."""
    series = ", ".join(each.value for each in ALL_SERIES)
    told: dict[str, Any] = {"entries": {"chart.series": series}, "drawer": []}
    told["drawer"] = work({**told, "add": ["drills-mm-51", "leaves-mm-20", "blocks-mm-88"]})["drawer"][:150]
    names = figure_of(work(told), WALL)["later"][:150]
    assert len(told["drawer"]) == len(names) == 150
    begun, slowest = time.process_time(), 0.0
    for start in range(0, 150, 5):
        before = time.process_time()
        assert len(later(told, names[start : start + 5])["rows"]) == 5
        slowest = max(slowest, time.process_time() - before)
    whole = time.process_time() - begun
    print(
        f"\n150 tapers, 150 pieces: {whole:.2f} s of processor time; the slowest call of five {slowest:.2f} s"
    )
    assert whole < 10.0 and slowest < 1.0
