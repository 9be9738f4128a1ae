"""No datum of any table lacks its value, unit, standard, edition, source or confidence."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

import calc.tables
from calc.tables import source_title
from calc.tables.loader import load
from calc.tables.published import CONFIDENCE

TABLES = sorted(path.stem for path in Path(str(calc.tables.__file__)).parent.glob("*.csv"))
SOURCED = [name for name in TABLES if name not in ("sources", "as_sold")]


def test_the_tables_are_there() -> None:
    assert {"morse", "at_grades", "morse_shanks", "friction", "sets", "drills", "iso286"} <= set(SOURCED)


@pytest.mark.parametrize("name", SOURCED)
def test_every_datum_is_whole(name: str) -> None:
    rows = load(name)
    assert rows
    for row in rows:
        for column in ("value", "unit", "standard", "edition", "sources", "confidence"):
            assert row[column].strip(), f"{name}: no {column} in {row}"
        allowed = {"refused"} if name == "disagreements" else set(CONFIDENCE)
        assert row["confidence"] in allowed
        keys = row["sources"].split()
        assert len(keys) == len(set(keys))
        for key in keys:
            assert source_title(key) != key, f"no title for source {key}"


@pytest.mark.parametrize("name", SOURCED)
def test_confidence_fits_the_sources(name: str) -> None:
    """Two sources that agree are two, neither of them memory; one from memory names memory and nothing else
    as the only origin, or beside what supports a part of it."""
    for row in load(name):
        keys = row["sources"].split()
        if row["confidence"] == "two_sources_agree":
            assert len(keys) >= 2 and "memory" not in keys, row
        elif row["confidence"].endswith("from_memory"):
            assert "memory" in keys, row
        else:
            assert "memory" not in keys, row


def test_pieces_as_sold_are_whole() -> None:
    """This table spells its source out; what has no standard says so."""
    for row in load("as_sold"):
        for column in ("upper_um", "lower_um", "unit", "edition", "source", "confidence"):
            assert row[column].strip(), f"no {column} in {row}"
        assert row["standard"] or row["source"] == "common practice, no source"


def test_titles_are_titles() -> None:
    """Each once, used by some table, and no address in any of them."""
    titles = Counter(row["title"] for row in load("sources"))
    assert set(titles.values()) == {1}
    used = {key for name in SOURCED for row in load(name) for key in row["sources"].split()}
    assert {row["key"] for row in load("sources")} == used
    for title in titles:
        assert not any(mark in title for mark in ("http", "www.", ".com", ".org", ".htm"))
