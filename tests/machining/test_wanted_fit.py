"""What fit is meant: pairs, shop words, so much under or over."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.machining.wanted_fit import SAID_ALSO, WORDS, UnclearFit, read_fit

INCH = 25.4


@pytest.mark.parametrize("text", ["H7/g6", "h7/g6".replace("h", "H"), "g6/H7", "H7 g6", " H7 / g6 ", "g6"])
def test_a_pair_however_written(text: str) -> None:
    """H7/g6 at 25.4 mm: g6 is -7, -20 µm over 18 to 30 mm (a public limits and fits library)."""
    fit = read_fit(text, INCH, "mm")
    assert (fit.upper, fit.lower, fit.hole.name, fit.shaft.name) == (-7.0, -20.0, "H7", "g6")
    assert fit.text == "H7/g6" and fit.exact


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("2 thou under", -2.5, -1.5),
        ("2 thou undersize", -2.5, -1.5),
        ("1 to 2 thou under", -2.0, -1.0),
        ("2 thou to 1 thou under", -2.0, -1.0),
        ("1 thou over", 0.5, 1.5),
        ("5 tenths under", -1.0, 0.0),
    ],
)
def test_so_many_thou(text: str, low: float, high: float) -> None:
    """Half a thou either side of one amount; a range as it stands [thou]."""
    fit = read_fit(text, INCH, "mm")
    assert fit.limits(INCH) == pytest.approx((INCH + low * 0.0254, INCH + high * 0.0254), abs=1e-9)
    assert not fit.exact


def test_a_bare_amount_takes_the_unit() -> None:
    assert read_fit("0.001 under", INCH, "in").lower == pytest.approx(-38.1)
    assert read_fit("0.02 under", INCH, "mm").lower == pytest.approx(-30.0)


@pytest.mark.parametrize(
    ("text", "shaft"),
    [("2 thou under", "e8"), ("1 thou under", "f7"), ("0.01 mm under", "g6"), ("1 thou over", "p6")],
)
def test_resembles_the_nearest(text: str, shaft: str) -> None:
    """At 1 in the middles are e8 -56.5, f7 -30.5, g6 -13.5, p6 28.5 µm from ISO 286-2: by hand."""
    assert read_fit(text, INCH, "mm").shaft.name == shaft


def test_words_go_from_loose_to_tight() -> None:
    middles = []
    for word, pair, _ in WORDS:
        fit = read_fit(word, 30.0, "mm")
        assert f"{fit.hole.name}/{fit.shaft.name}" == pair and not fit.exact
        middles.append(fit.lower + fit.upper)
    assert middles == sorted(middles)
    for other, word in SAID_ALSO.items():
        assert read_fit(f"A {other} fit", 30.0, "mm").text == word


@given(
    st.floats(min_value=1.0, max_value=500.0),
    st.sampled_from(
        [each for each, _, _ in WORDS] + ["H8/e9", "js6", "2 thou under", "0.01 mm over", "M7/h6"]
    ),
)
def test_what_it_reads_back_means_the_same(nominal: float, text: str) -> None:
    """Law: the text that stands for the fit, read again in the other system, gives the same limits."""
    fit = read_fit(text, nominal, "mm")
    again = read_fit(fit.text, nominal, "in")
    assert (again.lower, again.upper) == (fit.lower, fit.upper)
    assert fit.clearance() == (fit.hole.lower - fit.upper, fit.hole.upper - fit.lower)


@pytest.mark.parametrize(
    "text",
    [
        "H7",
        "x",
        "H7/u6",
        "g6/h7",
        "H7/g6/f7",
        "under",
        "two thou under",
        "-1 thou under",
        "9 mm under",
        "1e9 mm over",
        "1 to under",
        "³",
        "/",
        "g",
        "H99/g6",
        "1,234.5 thou under",
        "🔩 fit",
        "g6 under",
        "nan over",
    ],
)
def test_unclear_ones_are_refused_with_a_way_out(text: str) -> None:
    with pytest.raises(UnclearFit) as caught:
        read_fit(text, INCH, "mm")
    assert caught.value.message and caught.value.way_out
    for offer in caught.value.offers:
        read_fit(offer, INCH, "mm")


@given(st.text(max_size=30))
def test_total_on_any_text(text: str) -> None:
    try:
        assert read_fit(text, INCH, "in").lower <= 1e6
    except UnclearFit as error:
        assert error.message


@pytest.mark.parametrize("word", WORDS, ids=[each[0] for each in WORDS])
def test_a_pair_feels_as_the_shop_s_word_for_it_says(word: tuple[str, str, str]) -> None:
    assert read_fit(word[1], INCH, "mm").feel == word[2]


def test_a_pair_for_which_the_shop_has_no_word_is_said_to_feel_like_none() -> None:
    assert read_fit("H7/e8", INCH, "mm").feel == "" == read_fit("H7/d9", INCH, "mm").feel
