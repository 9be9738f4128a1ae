"""What must be read, with the exact worth worked out by hand from the definitions of the units.

1 in = 25.4 mm exactly (international inch, 1959), 1 ft = 12 in, 1 thou = 0.001 in, a tenth = 0.0001 in.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from calc.quantities import read_angle, read_count, read_length, read_rate

# Number and letter drill sizes, inches, as in the printed charts (two of them; common practice).
_DRILLS = {"#7": "0.2010", "#60": "0.0400", "F": "0.257", "A": "0.234"}


def drill(name: str) -> Fraction | None:
    size = _DRILLS.get(name)
    return None if size is None else Fraction(size) * Fraction("25.4")


LENGTHS = [
    # text, field's unit, exact mm, understood, a piece of the note
    ("100mm", "mm", "100", "100 mm", ""),
    ("4.2mm + 6thou", "mm", "4.3524", "4.3524 mm", ""),
    ("4.2mm + 6thou", "in", "4.3524", "4.2 mm + 6 thou", ""),
    ("1-3/8", "in", "34.925", "1-3/8 in", "1-3/8 read as 1 and 3/8"),
    ("1-3/8", "mm", "1.375", "1.375 mm", "1-3/8 read as 1 and 3/8"),
    ('1 3/8"', "mm", "34.925", "1-3/8 in", ""),
    ("1⅜", "in", "34.925", "1-3/8 in", ""),
    ("1\N{EN DASH}3\N{FRACTION SLASH}8 in", "mm", "34.925", "1-3/8 in", "read as 1 and 3/8"),
    ("⅜ inch", "mm", "9.525", "3/8 in", ""),
    ("3/8", "in", "9.525", "3/8 in", ""),
    ("1/128 in", "mm", "0.1984375", "1/128 in", ""),
    ("1/256 in", "mm", "0.09921875", "0.00390625 in", ""),
    ("6/16 in", "mm", "9.525", "3/8 in", ""),
    ("11/8in", "mm", "34.925", "1-3/8 in", ""),
    ("34,9", "mm", "34.9", "34.9 mm", "comma read as a decimal comma"),
    ("0,125", "in", "3.175", "0.125 in", "comma read as a decimal comma"),
    (",125", "in", "3.175", "0.125 in", "comma read as a decimal comma"),
    ("1234,567", "mm", "1234.567", "1234.567 mm", "comma read as a decimal comma"),
    ("1562.5 tenths", "mm", "3.96875", "1562.5 tenths", "a tenth is 0.0001 in"),
    ("0.1562in", "mm", "3.96748", "0.1562 in", ""),
    (".6in", "mm", "15.24", "0.6 in", ""),
    ("4.2+.152", "mm", "4.352", "4.352 mm", ""),
    ("4-3", "mm", "1", "1 mm", "4-3 read as 4 minus 3"),
    ("5 mm - 7 mm", "in", "-2", "-2 mm", ""),
    ("1/16+1/32", "in", "2.38125", "3/32 in", ""),
    ("6 thou + 2 thou", "mm", "0.2032", "0.008 in", ""),
    ("4.2 + 6thou", "mm", "4.3524", "4.3524 mm", "4.2 has no unit: read as 4.2 mm"),
    ("4.2mm + .006", "in", "4.3524", "4.2 mm + 0.006 in", ".006 has no unit: read as .006 in"),
    ("2 cm", "in", "20", "2 cm", ""),
    ("0.1 m", "mm", "100", "0.1 m", ""),
    ("50µm", "mm", "0.05", "50 µm", ""),
    ("50 \N{GREEK SMALL LETTER MU}m", "mm", "0.05", "50 µm", ""),
    ("50 um", "in", "0.05", "50 µm", ""),
    ("2 microns", "in", "0.002", "2 µm", ""),
    ("1 ft", "mm", "304.8", "1 ft", ""),
    ("5 FT + 6 IN", "mm", "1676.4", "66 in", ""),
    ("25.4 MM", "in", "25.4", "25.4 mm", ""),
    ("1 Inch", "mm", "25.4", "1 in", ""),
    ("1.5 in.", "mm", "38.1", "1.5 in", ""),
    ("0.5''", "mm", "12.7", "0.5 in", ""),
    ("0.5\N{DOUBLE PRIME}", "mm", "12.7", "0.5 in", ""),
    ("0.5\N{PRIME}\N{PRIME}", "mm", "12.7", "0.5 in", ""),
    ("1\N{NO-BREAK SPACE}3/8\N{NARROW NO-BREAK SPACE}in", "mm", "34.925", "1-3/8 in", ""),
    ("5mm \N{MINUS SIGN} 2mm", "mm", "3", "3 mm", ""),
    ("-3 mm", "in", "-3", "-3 mm", ""),
    ("-0 mm", "in", "0", "0 mm", ""),
    ("1e-3", "mm", "0.001", "0.001 mm", ""),
    ("2.5E2mm", "mm", "250", "250 mm", ""),
    ("1 plus 2 minus .5", "mm", "2.5", "2.5 mm", ""),
    ("  12  ", "mm", "12", "12 mm", ""),
    ("1/3", "mm", "1/3", "1/3 mm", ""),
    ("1/3 mm + 1/7 in", "mm", "416/105", "1/3 mm + 1/7 in", ""),
    ("#7 drill", "mm", "5.1054", "5.1054 mm", "#7 drill is 0.201 in"),
    ("#7", "in", "5.1054", "0.201 in", "#7 drill is 0.201 in"),
    ("no. 7", "in", "5.1054", "0.201 in", "#7 drill"),
    ("No 7 drill", "in", "5.1054", "0.201 in", "#7 drill"),
    ("number 7 drill", "in", "5.1054", "0.201 in", "#7 drill"),
    ("drill #7", "in", "5.1054", "0.201 in", "#7 drill"),
    ("#60 + 2 thou", "in", "1.0668", "0.042 in", "#60 drill is 0.04 in"),
    ("letter F", "in", "6.5278", "0.257 in", "F drill is 0.257 in"),
    ("F drill", "in", "6.5278", "0.257 in", "F drill"),
    ("letter f drill", "in", "6.5278", "0.257 in", "F drill"),
    ("F", "in", "6.5278", "0.257 in", "F drill"),
    ("1/4 drill", "in", "6.35", "1/4 in", ""),
    ("4.2 drill", "mm", "4.2", "4.2 mm", ""),
    ("4.2mm drill", "in", "4.2", "4.2 mm", ""),
]


@pytest.mark.parametrize(("text", "unit", "mm", "understood", "note"), LENGTHS)
def test_length(text: str, unit: str, mm: str, understood: str, note: str) -> None:
    reading = read_length(text, unit, drill)
    assert reading.exact == Fraction(mm)
    assert reading.value == float(Fraction(mm))
    assert reading.understood == understood
    assert note in reading.note
    assert bool(note) == bool(reading.note)


@pytest.mark.parametrize(("text", "unit", "mm"), [(row[0], row[1], row[2]) for row in LENGTHS])
def test_understood_reads_the_same_in_either_system(text: str, unit: str, mm: str) -> None:
    understood = read_length(text, unit, drill).understood
    for other in ("mm", "in"):
        again = read_length(understood, other)
        assert again.exact == Fraction(mm)
        assert again.understood in (understood, read_length(again.understood, other).understood)


def test_a_bare_number_may_be_called_by_any_spelling_of_its_unit() -> None:
    assert read_length("1", "inch").exact == Fraction("25.4")


ANGLES = [
    # text, exact degrees, understood
    ("1°26'16\"", Fraction(1) + Fraction(26, 60) + Fraction(16, 3600), "1°26'16\""),
    ("1d26m16s", Fraction(1) + Fraction(26, 60) + Fraction(16, 3600), "1°26'16\""),
    ("1\N{DEGREE SIGN}26\N{PRIME}16\N{DOUBLE PRIME}", Fraction(5176, 3600), "1°26'16\""),
    ("1° 26' 16''", Fraction(5176, 3600), "1°26'16\""),
    ("1 deg 26 min 16 sec", Fraction(5176, 3600), "1°26'16\""),
    ("1d 26m", Fraction(86, 60), "1°26'"),
    ('1°16"', Fraction(3616, 3600), '1°16"'),
    ("1.4377", Fraction("1.4377"), "1.4377°"),
    ("1,4377", Fraction("1.4377"), "1.4377°"),
    ("1.4377 deg", Fraction("1.4377"), "1.4377°"),
    ("1°26.27'", Fraction(1) + Fraction("26.27") / 60, "1°26.27'"),
    ("86'", Fraction(86, 60), "86'"),
    ('16"', Fraction(16, 3600), '16"'),
    ("-1°30'", Fraction(-3, 2), "-1°30'"),
    ("\N{MINUS SIGN}1.5", Fraction(-3, 2), "-1.5°"),
    ("1 1/2°", Fraction(3, 2), "1.5°"),
    ("1/3 deg", Fraction(1, 3), "1/3°"),
    ("-0", Fraction(0), "0°"),
]


@pytest.mark.parametrize(("text", "degrees", "understood"), ANGLES)
def test_angle(text: str, degrees: Fraction, understood: str) -> None:
    reading = read_angle(text)
    assert reading.exact == degrees
    assert reading.value == pytest.approx(math.radians(float(degrees)), rel=1e-15, abs=0)
    assert reading.understood == understood
    assert read_angle(understood) == read_angle(read_angle(understood).understood)
    assert read_angle(understood).exact == degrees


@pytest.mark.parametrize(
    ("text", "unit", "radians", "understood"),
    [
        ("0.0251 rad", "deg", 0.0251, "0.0251 rad"),
        ("25.1 mrad", "deg", 0.0251, "25.1 mrad"),
        ("-0.5 radians", "deg", -0.5, "-0.5 rad"),
        ("0.0251", "rad", 0.0251, "0.0251 rad"),
    ],
)
def test_angle_in_radians(text: str, unit: str, radians: float, understood: str) -> None:
    reading = read_angle(text, unit)
    assert reading.value == radians
    assert float(reading.exact) == pytest.approx(math.degrees(radians), rel=1e-15)
    assert reading.understood == understood
    assert read_angle(understood).exact == reading.exact


RATES = [
    # text, field's unit, exact ratio, understood
    ("1:19.922", "ratio", Fraction(1000, 19922), "1:19.922"),
    ("1:19.922", "in/ft", Fraction(1000, 19922), "1:19.922"),
    ("7/24", "ratio", Fraction(7, 24), "7:24"),
    ("7:24", "in/ft", Fraction(7, 24), "7:24"),
    ("1 in 20", "ratio", Fraction(1, 20), "1:20"),
    ("1 in 20", "in/ft", Fraction(1, 20), "1:20"),
    ("1 to 20", "ratio", Fraction(1, 20), "1:20"),
    ("0.602 in/ft", "ratio", Fraction(602, 12000), "0.602 in/ft"),
    ("0.602 inch per foot", "ratio", Fraction(602, 12000), "0.602 in/ft"),
    ('.602"/ft', "ratio", Fraction(602, 12000), "0.602 in/ft"),
    ("0.602 tpf", "ratio", Fraction(602, 12000), "0.602 in/ft"),
    ("5/8 in/ft", "ratio", Fraction(5, 96), "5/8 in/ft"),
    ("50.2 mm/m", "in/ft", Fraction(502, 10000), "50.2 mm/m"),
    ("5 mm per 100 mm", "ratio", Fraction(1, 20), "5 mm/100 mm"),
    ("1 mm in 20 mm", "ratio", Fraction(1, 20), "1 mm/20 mm"),
    ("5%", "ratio", Fraction(1, 20), "5 %"),
    ("50 ‰", "in/ft", Fraction(1, 20), "50 ‰"),
    ("0.05", "ratio", Fraction(1, 20), "0.05 mm/mm"),
    ("0,05", "ratio", Fraction(1, 20), "0.05 mm/mm"),
    ("0.05 in/in", "in/ft", Fraction(1, 20), "0.05 in/in"),
    ("0.05 mm/mm", "in/ft", Fraction(1, 20), "0.05 mm/mm"),
    ("0.602", "in/ft", Fraction(602, 12000), "0.602 in/ft"),
    ("5/8", "in/ft", Fraction(5, 96), "5/8 in/ft"),
    ("-1:20", "ratio", Fraction(-1, 20), "-1:20"),
    ("0", "ratio", Fraction(0), "0 mm/mm"),
]


@pytest.mark.parametrize(("text", "unit", "ratio", "understood"), RATES)
def test_rate(text: str, unit: str, ratio: Fraction, understood: str) -> None:
    reading = read_rate(text, unit)
    assert reading.exact == ratio
    assert reading.value == float(ratio)
    assert reading.understood == understood
    assert read_rate(understood, "ratio") == read_rate(understood, "in/ft")
    assert read_rate(understood).exact == ratio
    assert read_rate(understood).understood == understood


@pytest.mark.parametrize(("text", "count"), [("3", 3), (" 12 ", 12), ("3.0", 3), ("+4", 4), ("6/2", 3)])
def test_count(text: str, count: int) -> None:
    reading = read_count(text)
    assert reading.exact == count
    assert reading.understood == str(count)


def test_count_keeps_its_limits() -> None:
    assert read_count("-2", least=-2, most=5).exact == -2
    assert read_count("5", least=-2, most=5).exact == 5
