"""Sets hold as many pieces as their name says, each readable, and the stacks that others build from them."""

from __future__ import annotations

import string
from fractions import Fraction

import pytest

from calc.quantities import read_length
from calc.tables import drill_size
from calc.tables.drills import drills
from calc.tables.loader import load
from calc.tables.sets import PieceSet, sets

SETS = {each.key: each for each in sets()}
DRILLS = ("number", "letter", "fraction", "metric")


@pytest.mark.parametrize("each", SETS.values(), ids=SETS)
def test_pieces_are_as_many_as_said_and_differ(each: PieceSet) -> None:
    row = next(row for row in load("sets") if row["key"] == each.key)
    assert len(each.pieces) == int(row["count"])
    exact = [read_length(piece.size).exact for piece in each.pieces]
    assert len(set(exact)) == len(exact)
    assert len({piece.name for piece in each.pieces}) == len(exact)
    assert all(0 < size <= 110 for size in exact)
    assert each.shape in ("round", "flat", "leaf")
    assert each.label and each.found.sources


def test_what_sets_there_are() -> None:
    assert {"drills-mm-19", "drills-number-60", "leaves-mm-20", "blocks-mm-88", "blocks-in-81"} <= set(SETS)
    assert {each.shape for each in SETS.values()} == {"round", "flat", "leaf"}


@pytest.mark.parametrize(
    ("key", "stack", "total"),
    [
        # a guide to choosing gauge blocks
        ("blocks-in-81", "0.1002 0.126 0.75 3.0", "3.9762"),
        # a public examination question of 1992, its right answer
        ("blocks-mm-45", "1.08 1.1 50 9", "61.18"),
        # a machinists' handbook, quoted from memory
        ("blocks-in-81", "0.1002 0.124 0.45 3.0", "3.6742"),
        # a machine-tool textbook, quoted from memory
        ("blocks-in-81", "0.1008 0.142 0.4 1.0", "1.6428"),
        # a national laboratory's answer on length measurement, 2010
        ("blocks-mm-112", "1.005 1.04 1.30 5 50", "58.345"),
        # worked out independently, for the example of US Army TC 9-524
        ("blocks-in-81", "0.1004 0.108 0.8 1.0", "2.0084"),
        # worked out independently
        ("blocks-mm-47b", "1.005 1.06 1.1 22 25", "50.165"),
        ("blocks-mm-88", "90", "90"),
    ],
)
def test_stacks_that_others_built(key: str, stack: str, total: str) -> None:
    unit = key.split("-")[1]
    members = {read_length(piece.size).exact for piece in SETS[key].pieces}
    wanted = [read_length(text, unit).exact for text in stack.split()]
    assert set(wanted) <= members
    assert sum(wanted) == read_length(total, unit).exact


def test_drill_sets_are_of_drills() -> None:
    """Every piece is a drill of its series, and the ends are those of the label."""
    for each in SETS.values():
        if each.shape == "round":
            for piece in each.pieces:
                name = piece.name.removesuffix(" drill").removeprefix("#")
                assert drill_size(name) == read_length(piece.size).exact
    letters = SETS["drills-letter-26"].pieces
    assert (letters[0].size, letters[-1].size) == ("0.2340 in", "0.4130 in")
    assert SETS["drills-fraction-15"].pieces[1].name == "3/32 drill"


@pytest.mark.parametrize(
    ("name", "size"),
    [
        # ANSI inch drill sizes; metric sizes of ISO 235
        ("1", "0.2280 in"),
        ("7", "0.2010 in"),
        ("80", "0.0135 in"),
        ("f", "0.257 in"),
        ("E", "0.250 in"),
        ("1/4", "0.250 in"),
        ("63/64", "0.984375 in"),
        ("4.2", "4.2 mm"),
        ("25.0", "25 mm"),
        ("4", "0.2090 in"),
    ],
)
def test_drills_by_name(name: str, size: str) -> None:
    assert drill_size(name) == read_length(size).exact


def test_drill_series() -> None:
    names = [row["name"].upper() for row in load("drills")]
    assert len(names) == len(set(names)) == sum(len(drills(series)) for series in DRILLS)
    # Number drills 1 to 80, letters A to Z, 64ths up to an inch (ASME B94.11M).
    assert set(drills("number")) == {str(number) for number in range(1, 81)}
    assert set(drills("letter")) == set(string.ascii_uppercase)
    assert len(drills("fraction")) == 64
    for number, size in enumerate(drills("fraction").values(), start=1):
        assert read_length(size).exact == Fraction(number, 64) * Fraction(254, 10)
    for series in ("letter", "metric"):
        sizes = [read_length(size).exact for size in drills(series).values()]
        assert sizes == sorted(sizes)
    numbers = [read_length(size).exact for size in drills("number").values()]
    assert numbers == sorted(numbers, reverse=True)
    assert drill_size("81") is None and drill_size("4.20") is None and drill_size("") is None
