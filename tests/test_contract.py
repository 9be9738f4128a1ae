"""What the page believes of the core's answer (contract.ts) is what the vocabulary says (calc/sheet.py)."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from calc import sheet as vocabulary
from calc.demo import demo_request
from calc.job import work

PAGE = Path(__file__).parent.parent / "web" / "src"
KINDS = {
    name: kind
    for name, kind in vars(vocabulary).items()
    if isinstance(kind, type) and dataclasses.is_dataclass(kind)
}
PLAIN = {"str": "string", "bool": "boolean", "int": "number", "float": "number", "object": "unknown"}
PLAIN |= {"None": "null", "Both": "Pair", "Drawing": "string"}


def contract() -> str:
    """The one file of that name, wherever the page keeps it, without its comments."""
    (path,) = PAGE.rglob("contract.ts")
    return re.sub(r"/\*.*?\*/|//[^\n]*", "", path.read_text("utf-8"), flags=re.DOTALL)


def interfaces(text: str) -> dict[str, dict[str, tuple[bool, str]]]:
    """Members of each interface: whether it must be there, and its type; of those it extends too."""
    found: dict[str, dict[str, tuple[bool, str]]] = {}
    for name, parent, body in re.findall(
        r"export interface (\w+)(?: extends (\w+))? \{(.*?)\}\n", text + "\n", flags=re.DOTALL
    ):
        members = dict(found.get(parent, {}))
        for member, optional, kind in re.findall(r"(?:readonly )?(\w+)(\??): ([^;]+);", body):
            members[member] = (not optional, " ".join(kind.split()))
        found[name] = members
    return found


INTERFACES = interfaces(contract())


def alternatives(kind: str) -> set[str]:
    """A type of the page as the set of what it allows: `readonly` and brackets are no difference."""
    kind = re.sub(r"\breadonly ", "", kind)
    kind = re.sub(r"Readonly<(Record<[^<>]*>)>", r"\1", kind)
    while re.search(r"\((\w+(?:\[\])*)\)", kind):
        kind = re.sub(r"\((\w+(?:\[\])*)\)", r"\1", kind)
    return {each.strip() for each in kind.split("|")}


def as_page_says(kind: str) -> set[str]:
    """A type of the vocabulary in the page's language."""
    found: set[str] = set()
    for each in (part.strip() for part in kind.split("|")):
        inner = re.fullmatch(r"Sequence\[(.*)\]", each)
        table = re.fullmatch(r"Mapping\[str, (.*)\]", each)
        if inner:
            (one,) = as_page_says(inner.group(1))
            found.add(f"{one}[]")
        elif table:
            (one,) = as_page_says(table.group(1))
            found.add(f"Record<string, {one}>")
        else:
            found.add(PLAIN.get(each, each))
    return found


SHARED = sorted(set(KINDS) & set(INTERFACES))


def test_both_sides_are_read() -> None:
    """Otherwise the checks below would check nothing."""
    assert {"Field", "Figure", "Stage", "Problem"} <= set(SHARED)
    assert all(INTERFACES[name] for name in SHARED)


def of_a_stage(name: str = "Stage") -> Iterator[str]:
    """The kinds that a stage is made of, by name."""
    yield name
    for part in dataclasses.fields(KINDS[name]):
        for inner in re.findall(r"\w+", str(part.type)):
            if inner in KINDS and inner != name:
                yield from of_a_stage(inner)


def test_the_page_knows_all_that_a_stage_is_made_of() -> None:
    assert set(of_a_stage()) <= set(INTERFACES)


@pytest.mark.parametrize("name", SHARED)
def test_the_page_reads_nothing_that_the_core_does_not_say(name: str) -> None:
    said = {part.name: str(part.type) for part in dataclasses.fields(KINDS[name])}
    for member, (_, kind) in INTERFACES[name].items():
        assert member in said, f"{name}.{member} is read, but never said"
        told, believed = as_page_says(said[member]), alternatives(kind)
        # A cell is a pair under its own name.
        believed = {re.sub(r"^Cell\b", "Pair", each) for each in believed}
        assert believed == {"unknown"} or told <= believed, (
            f"{name}.{member}: the core says {said[member]}, the page believes {kind}"
        )


def kept(raw: dict[str, Any], name: str) -> None:
    """Whether what must be there is there, in a piece of a true answer."""
    for member, (needed, _) in INTERFACES[name].items():
        assert member in raw or not needed, f"{name}.{member} is missing from the answer"


def test_a_true_answer_holds_what_the_page_counts_on() -> None:
    answer = work(demo_request())
    kept(answer, "Sheet")
    for stage in answer["stages"]:
        kept(stage, "Stage")
        for field in stage["fields"]:
            kept(field, "Field")
        for figure in stage["figures"]:
            kept(figure, "Figure")
    later = work({**demo_request(), "later": {"figure": "chart.tapers", "items": ["Morse 2"]}})
    assert later["rows"]
    kept(later, "LaterRows")
    kept(later["rows"][0], "Row")
    kept(work({"format": 1, "entries": {"no.such": "1"}})["problems"][0], "Problem")


def test_a_piece_has_the_keys_that_the_page_sends() -> None:
    told = re.search(r"PIECE_KEYS = \[(.*?)\]", contract(), flags=re.DOTALL)
    assert told is not None
    keys = re.findall(r'"(\w+)"', told.group(1))
    assert keys == list(INTERFACES["Piece"])
    answer = work(demo_request())
    assert all(set(row) == set(keys) for row in answer["drawer"])
