"""A piece on one line: what is meant is taken, what can be meant in two ways is asked about."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.drawer import read_drawer
from calc.drawer.line import read_line, read_lines
from calc.quantities import Unreadable, read_length
from calc.tables import drill_size

WORDS = {"round": ("drill", "pin"), "flat": ("block", "slip"), "leaf": ("leaf", "feeler", "shim")}


def _row(line: str, unit: str = "mm") -> dict[str, str]:
    return read_line(line, unit, drill_size)


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize(
    ("line", "shape", "size", "measured", "count"),
    [
        # A number drill #39 is 0.0995 in (ASME B94.11M; from memory), so its bare measure is in inches too.
        ("#39 .0995", "round", "0.0995 in", "0.0995 in", "1"),
        ("4.2 mm drill 4.187", "round", "4.2 mm", "4.187 mm", "1"),
        ("leaf 6 thou x2", "leaf", "0.006 in", "", "2"),
        ("6 thou leaf", "leaf", "0.006 in", "", "1"),
        ("1-1/2 thou leaf", "leaf", "0.0015 in", "", "1"),
        ("3/32 .0934", "round", "3/32 in", "0.0934 in", "1"),
        ("1/4 drill 6.33mm", "round", "1/4 in", "6.33 mm", "1"),
        ("2 mm dowel pin 2.003 ± 0.001", "round", "2 mm", "2.003 mm", "1"),
        ("feeler gauge 0.3 mm 0.302", "leaf", "0.3 mm", "0.302 mm", "1"),
        ("2 mm roller × 3", "round", "2 mm", "", "3"),
    ],
)
def test_a_line_is_read_alike_whatever_the_units_in_force(
    unit: str, line: str, shape: str, size: str, measured: str, count: str
) -> None:
    row = _row(line, unit)
    assert row["shape"] == shape
    assert read_length(row["size"]).exact == read_length(size).exact
    assert (row["measured"] == "") is (measured == "")
    if measured:
        assert read_length(row["measured"]).exact == read_length(measured).exact
    assert row["count"] == count


def test_the_give_takes_the_unit_of_what_it_stands_beside() -> None:
    assert _row("2 mm dowel pin 2.003 ± 0.001", "in")["give"] == "0.001 mm"


@pytest.mark.parametrize(
    ("line", "unit", "offer"),
    [
        ("7 drill 5.1", "mm", "#7 drill 5.1"),
        ("40", "mm", "40 mm"),
        ("4.2 drill 4.187", "in", "4.2 mm drill 4.187"),
        ("6 leaf", "mm", "6 thou leaf"),
        (".0015 leaf", "mm", ".0015 in leaf"),
    ],
)
def test_what_can_be_meant_in_two_ways_is_asked_about(line: str, unit: str, offer: str) -> None:
    with pytest.raises(Unreadable) as caught:
        _row(line, unit)
    assert offer in caught.value.offers
    assert caught.value.start < caught.value.end <= len(line)
    for each in caught.value.offers:
        assert _row(each, unit)["size"]


@pytest.mark.parametrize("line", ["hello", "", "drill", "4.2 4.187 4.3 leaf", "4..2 drill"])
def test_a_line_without_its_size_is_refused_with_a_way_out(line: str) -> None:
    with pytest.raises(Unreadable) as caught:
        _row(line)
    assert caught.value.way_out


def test_lines_that_cannot_be_read_stop_no_other() -> None:
    answers = read_lines(["4.2 drill", "", "hello", 7], "mm", drill_size)
    assert [isinstance(each, dict) for each in answers] == [True, False, False]


@given(
    shape=st.sampled_from(sorted(WORDS)),
    word=st.integers(0, 2),
    thousandths=st.integers(100, 3000),
    off=st.integers(-15, 15),
    first=st.booleans(),
    count=st.integers(1, 9),
    unit=st.sampled_from(["mm", "in"]),
)
def test_any_line_gives_a_piece_of_that_size(
    shape: str, word: int, thousandths: int, off: int, first: bool, count: int, unit: str
) -> None:
    called = WORDS[shape][word % len(WORDS[shape])]
    size, measured = f"{thousandths / 1000:.3f} mm", f"{(thousandths + off) / 1000:.3f} mm"
    line = f"{called} {size} {measured} x{count}" if first else f"{size} {called} {measured} x{count}"
    row = read_line(line, unit, drill_size)
    drawer = read_drawer([row], unit, drill_size)
    assert not drawer.rows[0].faults
    (piece,) = drawer.pieces
    assert piece.shape == shape
    assert piece.count == count
    assert Fraction(piece.size_nm) == (thousandths + off) * 1000


@given(st.text(max_size=60), st.sampled_from(["mm", "in"]))
def test_no_line_raises_anything_else(line: str, unit: str) -> None:
    for answer in read_lines([line], unit, drill_size):
        assert isinstance(answer, (dict, Unreadable))
