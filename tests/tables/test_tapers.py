"""Every datum is whole, and every row agrees with itself within what the standard rounds."""

from __future__ import annotations

from fractions import Fraction

import pytest

from calc.cone import solve
from calc.tables import SERIES, Taper, find_taper, sizes, source_title
from calc.tables.loader import load
from calc.tables.tapers import CONFIDENCE

TAPERS = [(series.value, size) for series in SERIES for size in sizes(series.value)]


def _taper(series: str, size: str) -> Taper:
    taper = find_taper(series, size)
    assert taper is not None
    return taper


def _half_last_digit(text: str) -> Fraction:
    """Half a unit in the last printed digit."""
    return Fraction(1, 2) / 10 ** len(text.partition(".")[2])


def test_sizes() -> None:
    assert sizes("Morse") == ("0", "1", "2", "3", "4", "5", "6", "7")
    assert sizes("Morse inch") == ("0", "1", "2", "3", "4", "4-1/2", "5", "6", "7")


@pytest.mark.parametrize(("series", "size"), TAPERS)
def test_every_datum_is_whole(series: str, size: str) -> None:
    data = _taper(series, size).data
    assert set(data) == {"rate", "large_diameter", "small_diameter", "length"}
    for datum in data.values():
        assert datum.exact > 0
        assert datum.standard and datum.edition and datum.sources
        assert datum.confidence in CONFIDENCE
        for key in datum.sources:
            assert source_title(key) != key, f"no title for source {key}"


@pytest.mark.parametrize(("series", "size"), TAPERS)
def test_diameters_follow_from_rate_and_length(series: str, size: str) -> None:
    """D - d = L x rate within half a unit of the last printed digit of each, as the standard prints them."""
    data = _taper(series, size).data
    large, small, length, rate = (
        data[name] for name in ("large_diameter", "small_diameter", "length", "rate")
    )
    in_mm = Fraction(254, 10) if large.unit == "in" else Fraction(1)
    allowance = (_half_last_digit(large.text) + _half_last_digit(small.text)) * in_mm
    if rate.unit == "in/ft":
        rate_rounding = _half_last_digit(rate.text.split()[0]) / 12
    else:
        rate_rounding = _half_last_digit(rate.text.split(":")[1]) * rate.exact**2
    allowance += rate_rounding * length.exact
    assert abs(large.exact - small.exact - length.exact * rate.exact) <= allowance
    cone = solve({"rate": rate.value, "large_diameter": large.value, "length": length.value})
    assert cone.small_diameter == pytest.approx(small.value, abs=float(allowance) + 1e-12, rel=0)
    back = solve({"rate": rate.value, "small_diameter": small.value, "length": length.value})
    assert back.large_diameter == pytest.approx(large.value, abs=float(allowance) + 1e-12, rel=0)


@pytest.mark.parametrize("size", ["0", "1", "2", "3", "4", "5", "6"])
def test_both_standards_describe_one_cone(size: str) -> None:
    """They agree on the large diameter to 0.0006 mm and on 1:x to 0.0006 (compared table by table)."""
    metric, inch = _taper("Morse", size), _taper("Morse inch", size)
    assert float(abs(metric.data["large_diameter"].exact - inch.data["large_diameter"].exact)) < 0.0006
    assert float(abs(1 / metric.data["rate"].exact - 1 / inch.data["rate"].exact)) < 0.0006
    assert metric.data["rate"].text != inch.data["rate"].text


@pytest.mark.parametrize(
    ("size", "published"),
    [
        # printed with the Morse shank table of a trade catalogue's reference section (JIS / ISO 296)
        ("3", 1.0 + 26 / 60 + 16 / 3600),
    ],
)
def test_published_half_angle(size: str, published: float) -> None:
    cone = solve({"rate": _taper("Morse", size).data["rate"].value})
    assert cone.half_angle * 180 / 3.141592653589793 == pytest.approx(published, abs=0.5 / 3600)


def test_a_taper_that_is_not_there() -> None:
    assert find_taper("Morse", "9") is None
    assert find_taper("nobody's", "2") is None


def test_drill_names_are_unique() -> None:
    names = [row["name"] for row in load("drills")]
    assert len(names) == len(set(names)) == 106
