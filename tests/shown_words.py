"""Every text that a sheet shows a person, with where it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

SYSTEMS = ("mm", "inch")


def texts(sheet: Mapping[str, Any], system: str) -> Iterator[tuple[str, str, str]]:
    """Stage, place and text, of everything shown in `system`; what the person typed is left out."""
    for stage in sheet["stages"]:
        name = stage["id"]
        yield name, "title", stage["title"]
        yield name, "line", stage["line"]
        for field in stage["fields"]:
            yield from ((name, field["id"], text) for text in _of_field(field))
        for figure in stage["figures"]:
            yield from ((name, figure["id"], text) for text in _of_figure(figure, system))
        for step in stage["steps"]:
            yield name, step["id"], step["text"][system]
            yield from ((name, step["id"], text) for text in _drawn(step["drawing"]))
        for caution in stage["cautions"]:
            yield name, "caution", f"{caution['text']} {caution['reason']}"
        yield from ((name, "drawing", text) for text in _drawn(stage["drawing"]))


def _of_field(field: Mapping[str, Any]) -> Iterator[str]:
    yield from (field["label"], field["help"], field["group"])
    yield from (each["label"] for each in field["choices"])
    if field["wrong"]:
        yield from (field["wrong"]["message"], field["wrong"]["way_out"])
    for row in field["rows"]:
        for cell in row:
            yield from _of_field(cell)


def _of_figure(figure: Mapping[str, Any], system: str) -> Iterator[str]:
    yield from (figure["label"], figure["shown"][system])
    for line in figure["working"]:
        yield from (line["formula"], line["numbers"][system], line["note"])
    if figure["table"]:
        yield from figure["table"]["columns"]
        yield from (cell[system] for row in figure["table"]["rows"] for cell in row["cells"])
    yield from _drawn(figure["drawing"])


def _drawn(svg: str) -> Iterator[str]:
    """The words of a picture, its title and description among them."""
    yield from (re.sub("<[^>]*>", "", each) for each in re.findall(r"<(?:text|title|desc)[^>]*>.*?</", svg))
