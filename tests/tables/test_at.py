"""ISO 1947 grades: outside values where there are any, the standard's steps, and the edges of the ranges."""

from __future__ import annotations

import math

import pytest

from calc.tables.at import angle_tolerance, grades, usual_grades
from calc.tables.loader import load


@pytest.mark.parametrize(
    ("length", "micrometres"),
    [(48.4, 3.9), (56.4, 4.5), (65.4, 4.1), (82.8, 5.2), (101.8, 5.1), (126.8, 6.3), (161.8, 6.5)],
)
def test_grade_4_on_shanks(length: float, micrometres: float) -> None:
    """A machining-centre manual quoting MAS 403-1982 shanks with grade AT4 of JIS B 0614, one decimal."""
    tolerance = angle_tolerance("AT4", length)
    assert tolerance is not None
    assert tolerance.on_diameter * 1000 == pytest.approx(micrometres, abs=0.05, rel=0)
    assert not tolerance.found.from_memory


@pytest.mark.parametrize(
    ("grade", "length", "microradians", "micrometres"),
    [("AT7", 50, 315, 15.75), ("AT6", 80, 160, 12.8), ("AT8", 24, 800, 19.2), ("AT7", 200, 160, 32.0)],
)
def test_values_remembered_apart(grade: str, length: float, microradians: float, micrometres: float) -> None:
    """ISO 1947:1973 as quoted from memory in a collection of worked examples: no outside confirmation."""
    tolerance = angle_tolerance(grade, length)
    assert tolerance is not None
    assert tolerance.angle * 1e6 == pytest.approx(microradians)
    assert tolerance.on_diameter * 1000 == pytest.approx(micrometres)
    assert tolerance.found.from_memory


def test_grades_step_as_preferred_numbers() -> None:
    """Each grade is the next of R5 (about 1.6), each range of lengths one step of R10 (about 1.25) finer.

    Preferred numbers: ISO 3; the table rounds them as that standard does.
    """
    values = {(row["grade"], row["over"]): float(row["value"]) for row in load("at_grades")}
    starts = list(dict.fromkeys(row["over"] for row in load("at_grades")))
    assert list(grades()) == [f"AT{number}" for number in range(1, 13)]
    assert len(values) == len(grades()) * len(starts), "a value for every grade over every range"
    for finer, coarser in zip(grades(), grades()[1:], strict=False):
        for start in starts:
            assert values[coarser, start] / values[finer, start] == pytest.approx(10**0.2, rel=0.02)
    for shorter, longer in zip(starts, starts[1:], strict=False):
        for grade in grades():
            assert values[grade, shorter] / values[grade, longer] == pytest.approx(10**0.1, rel=0.02)


def test_ranges_join_and_edges_belong_below() -> None:
    """Over 6 up to and including 10, over 10 ...: the standard's convention."""
    rows = [row for row in load("at_grades") if row["grade"] == "AT6"]
    for before, after in zip(rows, rows[1:], strict=False):
        edge = float(before["up_to"])
        assert before["up_to"] == after["over"]
        at_edge, beyond = angle_tolerance("AT6", edge), angle_tolerance("AT6", math.nextafter(edge, 1e9))
        assert at_edge is not None and beyond is not None
        assert at_edge.angle == pytest.approx(float(before["value"]) * 1e-6)
        assert beyond.angle == pytest.approx(float(after["value"]) * 1e-6)


@pytest.mark.parametrize("length", [6.0, 0.0, -5.0, math.nextafter(630.0, 1e9), 1e9, math.inf, math.nan])
def test_outside_the_table(length: float) -> None:
    assert angle_tolerance("AT6", length) is None


def test_ends_of_the_table_and_names() -> None:
    assert angle_tolerance("AT6", math.nextafter(6.0, 7.0)) is not None
    assert angle_tolerance("AT6", 630.0) is not None
    assert angle_tolerance(" at 6", 80.0) == angle_tolerance("AT6", 80.0)
    assert angle_tolerance("AT13", 80.0) is None
    assert angle_tolerance("", 80.0) is None


def test_usual_grades() -> None:
    """The rate tolerance of inch Morse shanks, 0.002 in/ft, is 167 microradians (0.002/12)."""
    usual = {each.item: each for each in usual_grades()}
    assert usual["7/24 machine spindle"].text == "AT2"
    assert usual["Morse shank, inch"].direction == "only steeper"
    assert usual["Morse socket, inch"].direction == "only flatter"
    for each in usual.values():
        assert each.text in grades() or each.unit == "in/ft"
