"""Laws that every text and every quantity obeys."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.quantities import Reading, Unreadable, read_angle, read_count, read_length, read_rate

# Nanometres in one of each unit that is a whole number of them, from the definition of the inch.
NANOMETRES = {
    "mm": 1_000_000, "cm": 10_000_000, "m": 1_000_000_000, "µm": 1000,
    "in": 25_400_000, "ft": 304_800_000, "thou": 25_400, "tenths": 2540,
}  # fmt: skip

whole_terms = st.lists(
    st.tuples(st.sampled_from("+-"), st.integers(0, 9999), st.sampled_from(sorted(NANOMETRES))),
    min_size=1, max_size=8,
)  # fmt: skip
pieces = st.sampled_from(
    "0 1 3 7 8 12 16 20 26 60 999 1.5 .25 34,9 1,234 1e3 1-3/8 3/8 ⅜ + - − / : ° ' \" ′ ″ % # ( ) and in mm "
    "cm m thou tenths ft deg rad d s min per drill letter F no. mil nan µm \xa0 e , .".split(" ")
)
shop_texts = st.lists(pieces, max_size=9).map("".join) | st.lists(pieces, max_size=9).map(" ".join)
digits = st.tuples(st.integers(0, 99999), st.integers(0, 5), st.integers(0, 99999)).map(
    lambda three: f"{three[0]}.{three[2]:05d}"[: len(str(three[0])) + 1 + three[1]].rstrip(".")
)


def no_drill(name: str) -> Fraction | None:
    return Fraction("5.1054") if name in ("#7", "F") else None


def read_all(text: str) -> list[Reading]:
    """What the readers make of a text; anything raised but Unreadable comes through."""
    readings = []
    for reader in (
        lambda text: read_length(text, "mm", no_drill),
        lambda text: read_length(text, "in"),
        read_angle,
        lambda text: read_angle(text, "rad"),
        read_rate,
        lambda text: read_rate(text, "in/ft"),
        read_count,
    ):
        try:
            readings.append(reader(text))
        except Unreadable as fault:
            assert 0 <= fault.start <= fault.end <= len(text)
            assert fault.message and fault.way_out
            for offer in fault.offers:
                reader(offer)
    return readings


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    for reading in read_all(text):
        assert reading.understood


@given(shop_texts)
def test_any_shop_text_is_read_or_refused(text: str) -> None:
    for reading in read_all(text):
        assert reading.understood


@given(shop_texts, st.sampled_from(["mm", "in"]))
def test_understood_length_reads_back_exactly(text: str, unit: str) -> None:
    try:
        reading = read_length(text, unit, no_drill)
    except Unreadable:
        return
    for other in ("mm", "in"):
        again = read_length(reading.understood, other)
        assert (again.exact, again.value) == (reading.exact, reading.value)


@given(whole_terms, st.sampled_from(["mm", "in"]))
def test_sums_are_exact_in_whole_nanometres(terms: list[tuple[str, int, str]], unit: str) -> None:
    text = " ".join(f"{sign} {number} {name}" for sign, number, name in terms)
    total = sum((1 if sign == "+" else -1) * number * NANOMETRES[name] for sign, number, name in terms)
    reading = read_length(text, unit)
    assert reading.exact * 1_000_000 == total
    assert read_length(reading.understood, unit).exact * 1_000_000 == total


@settings(max_examples=20)
@given(st.lists(st.tuples(st.integers(0, 10**24 - 1), st.integers(1, 10**24 - 1)), min_size=8, max_size=10))
def test_the_longest_sums_read_back(fractions: list[tuple[int, int]]) -> None:
    text = "+".join(f"{top}/{bottom}in" for top, bottom in fractions)
    reading = read_length(text)
    assert reading.exact == sum(Fraction(top, bottom) for top, bottom in fractions) * Fraction("25.4")
    assert read_length(reading.understood).exact == reading.exact


@given(digits, st.sampled_from(["mm", "in", "thou"]))
def test_decimal_comma_and_point_are_alike_or_asked_about(number: str, unit: str) -> None:
    with_point = read_length(f"{number} {unit}").exact
    assert with_point == Fraction(number) * NANOMETRES[unit] / 1_000_000
    try:
        with_comma = read_length(f"{number.replace('.', ',')} {unit}").exact
    except Unreadable as fault:
        whole, _, part = number.partition(".")
        assert len(part) == 3 and len(whole) <= 3 and whole[0] != "0"
        assert fault.offers == (f"{number} {unit}", f"{whole}{part} {unit}")
    else:
        assert with_comma == with_point


@given(st.integers(0, 89), st.integers(0, 59), st.integers(0, 5999), st.booleans())
def test_degrees_minutes_seconds_are_exact(degrees: int, minutes: int, hundredths: int, below: bool) -> None:
    seconds = f"{hundredths // 100}.{hundredths % 100:02d}"
    reading = read_angle(f"{'-' if below else ''}{degrees}°{minutes}'{seconds}\"")
    exact = Fraction(degrees * 360000 + minutes * 6000 + hundredths, 360000)
    assert reading.exact == (-exact if below else exact)
    assert read_angle(reading.understood).exact == reading.exact


@given(shop_texts)
def test_understood_angles_and_rates_read_back_exactly(text: str) -> None:
    for reader, unit, other in (
        (read_angle, "deg", "rad"), (read_angle, "rad", "deg"), (read_rate, "ratio", "in/ft"),
        (read_rate, "in/ft", "ratio"),
    ):  # fmt: skip
        try:
            reading = reader(text, unit)
        except Unreadable:
            continue
        assert reader(reading.understood, other).exact == reading.exact


@given(st.integers(1, 9999), digits.filter(lambda number: Fraction(number) > 0))
def test_a_taper_reads_alike_in_all_its_forms(top: int, bottom: str) -> None:
    ratio = Fraction(top) / Fraction(bottom)
    for text in (f"{top}:{bottom}", f"{top} in {bottom}", f"{top} mm per {bottom} mm", f"{top}in/{bottom}in"):
        assert read_rate(text).exact == ratio
    assert read_rate(f"{top} in/{bottom} ft").exact == ratio / 12


@pytest.mark.parametrize("text", ["1-3/8", "1 3/8", "1⅜", "1 ⅜", "1-⅜", "11/8", "1.375", "1,3750"])
def test_forms_of_one_number(text: str) -> None:
    assert read_length(text).exact == Fraction(11, 8)
