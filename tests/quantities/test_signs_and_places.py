"""Fraction signs against the Unicode database, and to which place angles and rates are shown."""

from __future__ import annotations

import math
import unicodedata
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from calc.quantities import (
    Unreadable,
    plus_minus_rate,
    read_angle,
    read_length,
    shown_angle,
    shown_rate,
)
from calc.tables import drill_size

# Every sign that Unicode knows as a fraction of two whole numbers (Latin-1, "Number Forms"); nought thirds
# is no measure.
FRACTIONS = [
    sign
    for sign in map(chr, range(0x110000))
    if unicodedata.decomposition(sign).startswith("<fraction>")
    and unicodedata.numeric(sign) > 0
    and "2044" in unicodedata.decomposition(sign).split()[2:-1]
]


@pytest.mark.parametrize("sign", FRACTIONS)
def test_a_fraction_sign_is_what_unicode_says(sign: str) -> None:
    over, under = (int(part) for part in unicodedata.normalize("NFKC", sign).split("\u2044"))
    assert read_length(f"{sign} in", "mm").exact == Fraction(254, 10) * Fraction(over, under)
    assert read_length(f"2{sign} in", "mm").exact == Fraction(254, 10) * (2 + Fraction(over, under))


def test_all_of_the_common_fractions_are_among_them() -> None:
    assert set("½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞") <= set(FRACTIONS)


def _places(text: str) -> int:
    return len(text.partition(".")[2])


@given(st.floats(0.0, 89.0), st.floats(-8.0, -1.0).map(lambda power: 10.0**power))
def test_seconds_and_minutes_go_as_far_as_the_spread(degrees: float, spread: float) -> None:
    """Seconds from a ± of under ten of them, minutes likewise, by an independent rounding rule."""

    def theirs(times: int) -> str:
        # A hair off every fence of the rule, which floats may fall either side of.
        return f"{ufloat(1000.0, spread * times):f}".split("+/-")[1]

    if any(abs(math.log10(spread * times * fence) % 1.0 - 0.5) > 0.4999 for times in (60, 3600)
           for fence in (math.sqrt(10), math.sqrt(10) / 0.95, math.sqrt(10) / 3.55)):  # fmt: skip
        return
    shown = shown_angle(math.radians(degrees), math.radians(spread))["mm"]
    in_brackets = shown.partition("(")[2].rstrip(")")
    if spread * 3600 < 9.4:
        assert in_brackets.endswith('"')
        assert _places(in_brackets.rstrip('"')) == min(2, _places(theirs(3600)))
    elif 36 < spread * 3600 and spread * 60 < 9.4:
        assert in_brackets.endswith("'")
        assert _places(in_brackets.rstrip("'")) == _places(theirs(60))
    elif spread * 60 > 36:
        assert in_brackets == ""


@pytest.mark.parametrize("seconds", [1.0, 3.6, 9.0])
def test_whole_seconds_are_still_shown(seconds: float) -> None:
    """By hand: 9 seconds of doubt still leave a whole second to be told."""
    assert shown_angle(math.radians(1.5), math.radians(seconds / 3600))["mm"].endswith('")')


# Four digits and a half, so that neither a hundred nor twelve times it lies on a fence of the rule.
rule_spreads = st.tuples(st.integers(1000, 9999), st.integers(6, 7)).map(
    lambda pair: (pair[0] + 0.5) / 10.0 ** pair[1]
)


@given(st.floats(0.02, 3.0), rule_spreads)
def test_a_rate_is_shown_as_far_as_its_spread_in_both_systems(ratio: float, spread: float) -> None:
    """Per cent and inches per foot: a hundred and twelve times the plain ratio, value and ± alike."""
    shown, stated = shown_rate(ratio, spread), plus_minus_rate(spread)
    percent = shown["mm"].partition("(")[2].rstrip(")") or shown["mm"]
    for text, told, times in ((percent, stated["mm"], 100), (shown["inch"], stated["inch"], 12)):
        value, give = f"{ufloat(times * ratio, times * spread):f}".split("+/-")
        assert told.split()[1] == give
        assert text.split()[0] == value


@given(st.sampled_from(["1.5d26m", "1°26.5'10\"", "1.25° 3'", "1d2.5m3s", "1.5°10\""]))
def test_only_the_last_part_of_an_angle_has_decimals(text: str) -> None:
    with pytest.raises(Unreadable, match="decimals"):
        read_angle(text)


@pytest.mark.parametrize("name", ["F drill", "f", "Z drill", "#7 drill"])
def test_a_letter_alone_is_a_drill_where_drills_are_asked_for(name: str) -> None:
    assert read_length(name, "mm", drill_size).value > 0


@pytest.mark.parametrize("name", ["FG drill", "ab drill", "drill", "zz"])
def test_two_letters_are_none(name: str) -> None:
    with pytest.raises(Unreadable):
        read_length(name, "mm", drill_size)
