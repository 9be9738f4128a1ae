"""Every row of `published/` as a person would bring it to the door: one request a row.

What the rows must come to is checked beside them; these requests are for comparing one Python, or one
browser, with another on the same work.
"""

from __future__ import annotations

import csv
import json
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

Row = Mapping[str, str]
PUBLISHED = Path(__file__).with_name("published")
MORSE_2 = {"taper.series": "Morse", "taper.size": "2"}


def _job(entries: Mapping[str, str], unit: str = "mm", drawer: list[dict[str, str]] | None = None) -> Any:
    units = "inch" if unit.startswith("in") else "mm"
    return {"format": 1, "units": units, "entries": dict(entries), "drawer": drawer or []}


def _blocks(sizes: str, unit: str) -> list[dict[str, str]]:
    none = {"measured": "", "give": "", "count": "1"}
    return [
        {"name": f"block {size}", "shape": "flat", "size": f"{size} {unit}", **none} for size in sizes.split()
    ]


def _cutting(row: Row) -> Any:
    """The diameter to be turned, where the row has one; its first figure, whole, as the lathe's speed."""
    length = f"{row['given_2']} {row['unit_2']}" if row["unit_2"] in ("in", "mm") else "20 mm"
    entries = {"taper.large_diameter": length, "taper.rate": "1:20", "taper.length": "60 mm"}
    speed = str(1 + int(float(row["given_1"])))
    return _job({**entries, "taper.series": "own", "cutting.speeds": speed, "setting.way": "bar"})


def _sine_bar(row: Row) -> Any:
    centres = f"{row['centres']} {row['centres_unit']}"
    entries = {"taper.series": "own", "setting.bar_centres": centres, "taper.large_diameter": "20 mm"}
    entries |= {"taper.length": "60 mm", "setting.way": "bar"}
    drawer = []
    if row["given"] == "height":
        drawer = _blocks(row["given_value"], row["given_unit"])
        entries["taper.rate"] = "1:20"
    elif row["given"] == "rate":
        entries["taper.rate"] = row["given_value"]
        if row["angle_used"] == "included":
            entries["setting.way"] = "plate"
    else:
        entries["taper.half_angle"] = f"{row['given_value']}°"
    return _job(entries, row["centres_unit"], drawer)


TOLD = {
    "D": "taper.large_diameter",
    "d": "taper.small_diameter",
    "L": "taper.length",
    "taper_length": "taper.length",
    "taper_per_foot": "taper.rate",
    "half_angle": "taper.half_angle",
    "angle_of_surface_with_axis": "taper.half_angle",
    "included_angle": "taper.included_angle",
    "work_length": "setting.work_length",
    "distance_between_centre_contact_points_along_the_work": "setting.work_length",
    "travel": "setting.travel",
    "compound_travel": "setting.travel",
}


def _told(row: Row, way: str) -> Any:
    given = dict(part.split("=") for part in row["given"].split(";"))
    entries = {TOLD[name]: text for name, text in given.items() if name in TOLD}
    if "ratio_1_in" in given:
        entries["taper.rate"] = f"1:{given['ratio_1_in']}"
    return _job({"taper.series": "own", "setting.way": way, **entries}, row["expected_unit"])


def _slide(row: Row) -> Any:
    return _told(row, "graduations" if row["expected"] == "swivel" else "one_dial")


def _conversion(row: Row) -> Any:
    names = ("large_diameter", "small_diameter", "length", "rate", "included_angle", "half_angle")
    entries = {f"taper.{name}": row[name] for name in names if row[name]}
    return _job({"taper.series": "own", "setting.way": "bar", **entries})


def _shank(row: Row) -> Any:
    entries = {"taper.series": row["series"], "taper.size": row["size"], "blank.end": row["end"]}
    return _job(entries, row["unit"])


def _fit(row: Row) -> Any:
    """A hole stands as the shaft of its letter: the door is asked for spigots alone."""
    fit = row["zone"].lower()
    return _job({**MORSE_2, "finishing.spigot": f"{row['nominal']} mm", "finishing.fit": fit})


def _stack(row: Row) -> Any:
    """The row's blocks, and a bar that wants them all: sin(30°) is a half."""
    twice = f"{2 * float(row['total']):.10g} {row['unit']}"
    entries = {"taper.series": "own", "taper.half_angle": "30°", "setting.bar_centres": twice}
    return _job({**entries, "setting.way": "bar"}, row["unit"], _blocks(row["stack"], row["unit"]))


def _block_set(row: Row) -> Any:
    return _job({**MORSE_2, "setting.way": "bar"}, row["unit"], _blocks(row["sizes"], row["unit"]))


AS_REQUEST: Mapping[str, Callable[[Row], Any]] = {
    "cutting": _cutting,
    "gauge_block_sets": _block_set,
    "gauge_block_stacks": _stack,
    "iso286": _fit,
    "set_over": lambda row: _told(row, "set_over"),
    "shanks": _shank,
    "sine_bar": _sine_bar,
    "slide_and_attachment": _slide,
    "taper_conversion": _conversion,
}


def published_requests() -> Iterator[str]:
    """One text for every row of every table in `published/`."""
    for table in sorted(PUBLISHED.glob("*.csv")):
        for row in csv.DictReader(table.read_text("utf-8").splitlines()):
            yield json.dumps(AS_REQUEST[table.stem](row), ensure_ascii=False)
