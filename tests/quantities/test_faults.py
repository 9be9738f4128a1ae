"""One fault, one example: every place where a reader refuses is provoked, with message, span and offers."""

from __future__ import annotations

import ast
import inspect
import time
from collections.abc import Callable
from fractions import Fraction

import pytest

from calc.quantities import (
    Reading,
    Unreadable,
    angle,
    count,
    cursor,
    drill_name,
    length,
    number,
    rate,
    read_angle,
    read_count,
    read_length,
    read_rate,
    scan,
    wording,
)


def drill(name: str) -> Fraction | None:
    return {"#7": Fraction("5.1054"), "F": Fraction("6.5278")}.get(name)


def _length(text: str) -> Reading:
    return read_length(text, "mm", drill)


def _no_drills(text: str) -> Reading:
    return read_length(text, "in")


def _foot(text: str) -> Reading:
    return read_rate(text, "in/ft")


Reader = Callable[[str], Reading]

FAULTS: list[tuple[Reader, str, str, str, tuple[str, ...]]] = [
    # reader, text, what is marked in it, a piece of the message, the offers
    (_length, "", "", "nothing is typed", ()),
    (_length, "   ", "   ", "nothing is typed", ()),
    (_length, "9" * 10000, "9" * 9000, "too long", ()),
    (_length, "9" * 30, "9" * 30, "too many digits", ()),
    (_length, "0." + "1" * 24, "0." + "1" * 24, "too many digits", ()),
    (_length, "nan", "nan", "nothing to measure by", ()),
    (_length, "inf", "inf", "nothing to measure by", ()),
    (_length, "-Infinity", "Infinity", "nothing to measure by", ()),
    (_length, "1e999", "1e999", "out of reach", ()),
    (_length, "1e10 mm", "1e10", "out of reach", ()),
    (_length, "4.2mm drill and", "and", "left over after “4.2mm drill”", ("4.2mm drill",)),
    (_length, "4.2mm and 6thou", "and 6thou", "left over", ("4.2mm + 6thou", "4.2mm")),
    (_length, "2*3", "*3", "left over after “2”", ("2",)),
    (_length, "4.2 mm (0.165 in)", "(0.165 in)", "left over", ("4.2 mm", "0.165 in")),
    (_length, "1,234.5", "1,234.5", "more than one point or comma", ("1234.5", "1.2345")),
    (_length, "1.234,5", "1.234,5", "more than one point or comma", ("1234.5", "1.2345")),
    (_length, "1,234,567 mm", "1,234,567", "more than one point or comma", ("1234567 mm",)),
    (_length, "1,234", "1,234", "can mean 1.234 or 1234", ("1.234", "1234")),
    (_length, "12,345", "12,345", "can mean 12.345 or 12345", ("12.345", "12345")),
    (_length, "123,456", "123,456", "can mean 123.456 or 123456", ("123.456", "123456")),
    (_length, "1,234+5,678", "1,234", "can mean 1.234 or 1234", ("1.234+5.678", "1234+5678")),
    (_length, "34,", "34,", "ends in a comma", ("34",)),
    (_length, "1 234", "1 234", "side by side", ("1234", "1 + 234")),
    (_length, "4.2mm 6thou", "4.2mm 6", "side by side", ("4.2mm + 6thou",)),
    (_length, "5 ft 6 in", "5 ft 6", "side by side", ("5 ft + 6 in",)),
    (_length, "1 - 3/8", "1 - 3/8", "can mean 1-3/8 or 5/8", ("1-3/8", "5/8")),
    (_length, "1-9/8", "1-9/8", "a fraction of one or more", ("2-1/8", "-1/8")),
    (_length, "1.5 3/8", "1.5 3/8", "a decimal with a fraction", ("1.5 + 3/8",)),
    (_length, "3/0", "0", "cannot have 0 below", ()),
    (_length, "1.5/2", "1.5/2", "not a fraction of two whole numbers", ()),
    (_length, "3/8/2", "3/8/2", "two fraction bars", ()),
    (_length, "5 +", "+", "nothing follows “+”", ("5",)),
    (_length, "5--3", "--", "two signs", ("5-3", "5+3")),
    (_length, "banana", "banana", "stands where a number should", ()),
    (_length, "D25", "D", "stands where a number should", ("25",)),
    (_length, "+".join("1" * 11), "+1", "more than 10 sizes", ()),
    (_length, "4 mil", "4 mil", "thousandths of an inch or millimetres", ("4 thou", "4 mm")),
    (_length, "5'", "5'", "feet or minutes of arc", ("5 ft", "5 in")),
    (_length, "5'6\"", "5'", "feet or minutes of arc", ('5 ft + 6"', '5 in + 6"')),
    (_length, "5°", "5°", "is an angle; a length is asked for", ()),
    (_length, "1 mm + 5° 3'", "5° 3'", "is an angle; a length is asked for", ()),
    (_length, "1 rad", "1 rad", "is an angle; a length is asked for", ()),
    (_length, "5%", "5%", "is a taper; a length is asked for", ()),
    (_length, "1:20", "1:20", "is a taper; a length is asked for", ()),
    (_length, "0.6 in/ft", "0.6 in/ft", "is a taper; a length is asked for", ()),
    (_length, "1 in 20", "1 in 20", "is a taper; a length is asked for", ("1 in + 20",)),
    (_length, "7 drill", "7", "7 mm or the number drill #7", ("7 mm drill", "#7 drill")),
    (_length, "#99", "#99", "no drill is known", ()),
    (_no_drills, "#7 drill", "#7 drill", "is a drill; a length is asked for", ()),
    (_no_drills, "F", "F", "stands where a number should", ()),
    (read_angle, "", "", "nothing is typed", ()),
    (read_angle, "°", "°", "stands where a number should", ()),
    (read_angle, "1°75'", "75", "75 minutes behind degrees is 60 or more", ("2°15'",)),
    (read_angle, "1°2'60\"", "60", "60 seconds behind degrees is 60 or more", ("1°3'",)),
    (read_angle, "-1.5°30'", "1.5°30", "degrees have decimals", ("-2°0'",)),
    (read_angle, "1°26", "26", "“26” has no mark", ("1°26'",)),
    (read_angle, "1°26'16'", "16'", "minutes cannot stand behind minutes", ("1°26'16\"",)),
    (read_angle, "-1 26 16", "1 26 16", "numbers without marks", ("-1°26'16\"",)),
    (read_angle, "1°26'x", "x", "left over", ("1°26'",)),
    (read_angle, "0.1 rad 3", "3", "left over", ("0.1 rad",)),
    (read_angle, "5 apples", "apples", "no mark of an angle", ("5",)),
    (read_angle, "5 mm", "5 mm", "is a length; an angle is asked for", ()),
    (read_angle, "1:20", "1:20", "is a taper; an angle is asked for", ()),
    (read_rate, " ", " ", "nothing is typed", ()),
    (read_rate, "steep", "steep", "stands where a number should", ()),
    (read_rate, "1:", ":", "nothing follows “:”", ()),
    (read_rate, "0.6 in/", "/", "nothing follows “/”", ()),
    (read_rate, "1:0", "0", "cannot run over a length of 0", ()),
    (read_rate, "1 mm/0 mm", "0", "cannot run over a length of 0", ()),
    (read_rate, "19.922", "19.922", "too steep", ("1:19.922", "19.922 %")),
    (_foot, "19.922", "19.922", "too steep", ("1:19.922", "19.922 in/ft")),
    (_foot, "7/24", "7/24", "can mean 7:24 or 7/24 inch per foot", ("7:24", "7/24 in/ft")),
    (read_rate, "0.6 in/12", "0.6 in/12", "a unit above but none below", ("0.6 in/12 in",)),
    (read_rate, "5 mm", "5 mm", "is a length; a taper is asked for", ()),
    (read_rate, "1.4°", "1.4°", "is an angle; a taper is asked for", ()),
    (read_rate, "5'", "5'", "is an angle; a taper is asked for", ()),
    (read_rate, "1:20.02 (4.995 %)", "(4.995 %)", "left over", ("1:20.02", "4.995 %")),
    (read_rate, "0.05 steep", "steep", "left over", ("0.05",)),
    (read_count, "", "", "nothing is typed", ()),
    (read_count, "three", "three", "stands where a number should", ()),
    (read_count, "2.5", "2.5", "not a whole number", ("2", "3")),
    (read_count, "-1", "-1", "at least 0", ("0",)),
    (read_count, "10000", "10000", "at most 9999", ("9999",)),
    (read_count, "3 mm", "3 mm", "is a length; a whole number is asked for", ()),
    (read_count, "3 off", "off", "left over", ("3",)),
]


def refused(reader: Reader, text: str) -> Unreadable:
    with pytest.raises(Unreadable) as caught:
        reader(text)
    return caught.value


@pytest.mark.parametrize(("reader", "text", "marked", "message", "offers"), FAULTS)
def test_fault(reader: Reader, text: str, marked: str, message: str, offers: tuple[str, ...]) -> None:
    fault = refused(reader, text)
    assert fault.text == text
    assert text[fault.start : fault.end] == marked
    assert message in fault.message
    assert fault.message == str(fault)
    assert fault.way_out.endswith(".") and fault.way_out[0].isupper()
    assert fault.offers == offers
    for offer in fault.offers:
        assert reader(offer).understood


def _refusals() -> set[tuple[str, int]]:
    """Every place in the readers where text is refused: module and first line of the call."""
    places = set()
    for module in (angle, count, cursor, drill_name, length, number, rate, scan, wording):
        for node in ast.walk(ast.parse(inspect.getsource(module))):
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func)
                if called == "cursor.refuse" or (called == "Unreadable" and module is scan):
                    places.add((module.__name__, node.lineno))
    return places


def test_every_refusal_has_an_example() -> None:
    provoked = set()
    for reader, text, *_ in FAULTS:
        traceback = refused(reader, text).__traceback__
        while traceback is not None:
            provoked.add((traceback.tb_frame.f_globals["__name__"], traceback.tb_lineno))
            traceback = traceback.tb_next
    assert len(_refusals()) > 25
    assert _refusals() - provoked == set()


def test_hostile_lengths_are_refused_at_once() -> None:
    hostile = ["9" * 10_000_000, "1+" * 5000, "1 " * 5000, "(" * 10000]
    hostile += ["1/" * 499, "1e" * 499, "'" * 1000, "1,234+" * 160, "1-" * 499, "1°" * 499, " " * 1000]
    started = time.process_time()
    for text in hostile:
        for reader in (_length, read_angle, read_rate, read_count):
            refused(reader, text)
    assert time.process_time() - started < 1.0
