"""Conewright on a terminal: a job card to read, or JSON in and out.

python3 -m calc                                      the demonstration job's card
python3 -m calc --taper Morse --size 3 --bar 4in --piece "2.5 drill, round, 2.5mm, 2.489mm"
python3 -m calc --json < request.json                the sheet for a request
python3 -m calc --demo                               the demonstration job as a request
python3 -m calc --chart --series "Morse, Jarno"      the wall chart as text; with --csv for a spreadsheet
"""

from __future__ import annotations

import argparse
import json
import sys
import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.demo import NAME, demo_request
from calc.job import work, work_text
from calc.printed import aligned, harmless

WIDTH = 78
CHART_WIDTH = 132
FEW_COLUMNS, FEW_ROWS = 3, 8
"""A table no larger than this stands on the card."""
CHART_BATCH = 50
PHASE_WORDS = {
    "align": "Bring the lathe true",
    "saw": "Saw",
    "ends": "Ends and centres",
    "rough": "Rough out",
    "flats": "Flats",
    "set": "Set the taper",
    "cut": "Cut, and leave metal",
    "prove": "Prove and correct",
    "finish": "Finish",
    "part": "Part off and reverse",
    "keep": "Keep",
}
"""What the parts of a job are called on the card; in the order of `calc.sheet.PHASES`."""
PIECE_KEYS = ("name", "shape", "size", "measured", "give", "count")
PLAIN = {
    "taper": "taper.series",
    "size": "taper.size",
    "form": "taper.form",
    "small_end": "taper.small_end",
    "length": "taper.length",
    "way": "setting.way",
    "bar": "setting.bar_centres",
    "bar_side": "setting.bar_side",
    "cut_side": "setting.cut_side",
}


def _options() -> argparse.ArgumentParser:
    options = argparse.ArgumentParser(
        prog="python3 -m calc",
        description="Set, cut and prove a taper.",
        epilog="Without options: the card of the demonstration job (invented figures).",
    )
    options.add_argument(
        "--json", action="store_true", help="read a request on standard input, print the sheet as JSON"
    )
    options.add_argument("--demo", action="store_true", help="print the demonstration job as a request")
    options.add_argument("--tables", action="store_true", help="the card with every table in full")
    options.add_argument("--request", metavar="FILE", help="the card for a request kept in a file")
    options.add_argument(
        "--chart", action="store_true", help="the wall chart for the bar and the drawer instead of the card"
    )
    options.add_argument(
        "--series", metavar="SERIES, SERIES", help='series on the wall chart, such as "Morse, Jarno"'
    )
    options.add_argument("--csv", action="store_true", help="the wall chart as comma-separated values")
    options.add_argument(
        "--units", choices=("mm", "inch"), help="what the card is written in, and bare numbers mean"
    )
    options.add_argument("--taper", metavar="SERIES", help="series of the taper, such as Morse")
    options.add_argument("--size", help="size in the series, such as 2")
    options.add_argument("--form", help="external or internal")
    options.add_argument("--small-end", help="tailstock or headstock: where the small end points")
    options.add_argument("--length", help="length of the taper on this part")
    options.add_argument("--way", help="way of setting the slide, such as bar")
    options.add_argument("--bar", metavar="CENTRES", help="the bar, between pin centres, as measured")
    options.add_argument("--bar-side", help="operator or far: the side of the slide the bar lies on")
    options.add_argument("--cut-side", help="operator or far: the side of the work the tool cuts")
    options.add_argument(
        "--entry", metavar="ID=TEXT", action="append", default=[], help="any other entry, by its id"
    )
    options.add_argument(
        "--piece",
        metavar="NAME, SHAPE, SIZE, MEASURED, ±, COUNT",
        action="append",
        default=[],
        help="one piece of the drawer; what follows the size may be left out",
    )
    return options


def _told(options: argparse.Namespace) -> dict[str, Any]:
    """The request that the options describe; the demonstration where they describe nothing."""
    entries = {
        name: getattr(options, option)
        for option, name in PLAIN.items()
        if getattr(options, option) is not None
    }
    for each in options.entry:
        name, _, text = each.partition("=")
        entries[name.strip()] = text
    drawer = [
        dict(zip(PIECE_KEYS, (part.strip() for part in each.split(",")), strict=False))
        for each in options.piece
    ]
    if options.request:
        with open(options.request, encoding="utf-8") as file:
            request: dict[str, Any] = json.load(file)
        if not isinstance(request, dict):
            raise ValueError("it does not hold a job")
        request.setdefault("entries", {})
    elif entries or drawer:
        request = {"format": 1, "units": "mm", "entries": {}, "drawer": []}
    else:
        request = dict(demo_request())
    if isinstance(request["entries"], dict):
        request["entries"] = {**request["entries"], **entries}
    if drawer:
        request["drawer"] = drawer
    if options.series is not None and isinstance(request["entries"], dict):
        request["entries"] = {**request["entries"], "chart.series": options.series}
    if options.units:
        request["units"] = options.units
    return request


def card(sheet: Mapping[str, Any], title: str = "", tables: bool = False) -> str:
    """The sheet as a job card, plain text, `WIDTH` characters wide; `tables` brings the long ones too."""
    system, lines = sheet["units"], []
    if title:
        lines += [title, "=" * min(len(title), WIDTH)]
    for problem in sheet["problems"]:
        lines += _wrapped(f"! {problem['message']} {problem['way_out']}", "  ")
    for caution in sheet["cautions"]:
        lines += _caution(caution)
    for stage in sheet["stages"]:
        lines += ["", stage["title"].upper(), *_wrapped(stage["line"])]
        lines += _faults(stage["fields"])
        for figure in stage["figures"]:
            lines += _figure(figure, system, tables)
        on_steps = {name for step in stage["steps"] for name in step["cautions"]}
        for caution in stage["cautions"]:
            if caution["id"] not in on_steps:
                lines += _caution(caution)
    lines += _route(sheet, system)
    return "\n".join(lines).strip() + "\n"


def _route(sheet: Mapping[str, Any], system: str) -> list[str]:
    """The order of work: every step with what is to be heeded and written down at it."""
    known = {each["id"]: each for stage in sheet["stages"] for each in stage["cautions"] if each["id"]}
    labels = {each["id"]: each["label"] for stage in sheet["stages"] for each in stage["fields"]}
    filled = {each["id"]: each["value"] for stage in sheet["stages"] for each in stage["fields"]}
    lines: list[str] = []
    phase, heeded = "", set()
    for number, step in enumerate(sheet["route"], 1):
        if not phase:
            lines += ["", "ORDER OF WORK"]
        if step["phase"] != phase:
            phase = step["phase"]
            lines += ["", f"-- {PHASE_WORDS[phase]}"]
        for name in step["cautions"]:
            if name in known and name not in heeded:
                heeded.add(name)
                lines += _caution(known[name])
        lines += _wrapped(f"{number:>2}. {step['text'][system]}", "    ")
        for name in step["asks"]:
            if name in labels:
                lines += _wrapped(f"    [{filled[name] or '________'}] {labels[name]}", "        ")
    return lines


def _caution(caution: Mapping[str, Any]) -> list[str]:
    return _wrapped(f"[{caution['level']}] {caution['text']} {caution['reason']}", "    ")


def _figure(figure: Mapping[str, Any], system: str, tables: bool) -> list[str]:
    other = "inch" if system == "mm" else "mm"
    shown, doubt = figure["shown"], figure["plus_minus_shown"]
    text = " ".join(filter(None, (shown[system], doubt[system])))
    if shown[other] != shown[system]:
        text += f"  ({shown[other]})"
    mark = "*" if figure["lead"] else " "
    lines = _wrapped(f"{mark} {figure['label']}: {text}", "    ")
    table = figure["table"]
    if figure["later"]:
        lines.append("    (python3 -m calc --chart prints them)")
    elif table and not tables and (len(table["columns"]) > FEW_COLUMNS or len(table["rows"]) > FEW_ROWS):
        lines.append("    (--tables prints what it was chosen from or is made up of)")
    elif table:
        rows = [table["columns"]] + [[cell[system] for cell in row["cells"]] for row in table["rows"]]
        widths = [max(len(row[column]) for row in rows) for column in range(len(table["columns"]))]
        if sum(widths) + 2 * len(widths) + 2 > WIDTH:
            return lines + ["    " + line for line in aligned(rows[0], rows[1:], WIDTH - 4)]
        for row in rows:
            lines.append(
                "    "
                + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
            )
    return lines


def _faults(fields: Sequence[Mapping[str, Any]]) -> list[str]:
    lines: list[str] = []
    for each in fields:
        if each["wrong"]:
            lines += _wrapped(
                f"! {each['label']}: {each['wrong']['message']}. {each['wrong']['way_out']}", "  "
            )
        for row in each["rows"]:
            lines += _faults(row)
    return lines


@dataclass(frozen=True, slots=True)
class WallChart:
    """The chart worked out whole: what stands above its table, the table, and what is wrong with the job."""

    told: list[str]
    columns: list[str]
    rows: list[list[str]]
    wrong: list[str]


def wall_chart(request: Mapping[str, Any]) -> WallChart:
    """The chart that the request's sheet announces, all its rows worked out."""
    sheet: Any = work(request)
    system, problems = sheet["units"], list(sheet["problems"])
    stage = next(each for each in sheet["stages"] if each["id"] == "chart")
    told, columns = [stage["line"]], []
    rows: list[list[str]] = []
    for figure in stage["figures"]:
        told += [each["numbers"][system] for each in figure["working"]]
        names = figure["later"]
        if not names:
            # A short table is said in lines, each cell under its column's name.
            for row in figure["table"]["rows"]:
                cells = zip(figure["table"]["columns"], row["cells"], strict=True)
                told.append(", ".join(f"{column} {cell[system]}" for column, cell in cells))
            continue
        columns = figure["table"]["columns"]
        for start in range(0, len(names), CHART_BATCH):
            wanted = {"figure": figure["id"], "items": names[start : start + CHART_BATCH]}
            part: Any = work({**request, "later": wanted})
            rows += [[cell[system] for cell in row["cells"]] for row in part["rows"]]
            problems += [each for each in part["problems"] if each not in problems]
    wrong = [line for each in problems for line in _wrapped(f"! {each['message']} {each['way_out']}", "  ")]
    for each in sheet["stages"]:
        wrong += _faults(each["fields"])
    return WallChart(told, columns, rows, wrong)


def chart_text(chart: WallChart, title: str = "") -> str:
    """The wall chart as plain text, at most `CHART_WIDTH` characters wide."""
    lines = [title, "=" * min(len(title), CHART_WIDTH)] if title else []
    for each in (*chart.wrong, *chart.told):
        lines += textwrap.wrap(each, CHART_WIDTH)
    if chart.rows:
        lines += ["", *aligned(chart.columns, chart.rows, CHART_WIDTH)]
    return "\n".join(lines) + "\n"


def chart_csv(chart: WallChart) -> str:
    """The wall chart as comma-separated values: one line of headings, one line a taper."""
    import csv
    import io

    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(chart.columns)
    writer.writerows([harmless(cell) for cell in row] for row in chart.rows)
    return text.getvalue()


def _wrapped(text: str, indent: str = "") -> list[str]:
    return textwrap.wrap(text, WIDTH, subsequent_indent=indent, break_long_words=False) or [""]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the terminal; exit 0 whenever a response was given, 2 on options that cannot be followed."""
    options = _options().parse_args(arguments)
    if options.json:
        print(work_text(sys.stdin.buffer.read().decode("utf-8", "replace")))
    elif options.demo:
        print(json.dumps(demo_request(), indent=1, ensure_ascii=False))
    else:
        try:
            request = _told(options)
        except (OSError, ValueError) as error:
            print(
                f"The job in {options.request} could not be read: {error}. Give a file written as a request.",
                file=sys.stderr,
            )
            return 2
        title = NAME if request.get("invented") else str(request.get("name", "Job card"))
        if options.csv:
            chart = wall_chart(request)
            print(*chart.wrong, sep="\n", end="\n" if chart.wrong else "", file=sys.stderr)
            print(chart_csv(chart), end="")
        elif options.chart:
            print(chart_text(wall_chart(request), title), end="")
        else:
            print(card(work(request), title, options.tables), end="")
    return 0


if __name__ == "__main__":
    sys.exit(main())
