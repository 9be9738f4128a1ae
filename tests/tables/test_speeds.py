"""Cutting speeds as the sources print them, and the range to start from for every choice."""

from __future__ import annotations

import pytest

from calc.tables.loader import load
from calc.tables.speeds import MATERIALS, START, TO_METRIC, TOOLS, published_speeds, start_feed, start_speed


def test_every_choice_has_one_range_to_start_from() -> None:
    starts = [
        (row["material"], row["tool"], row["quantity"])
        for row in load("cutting_speeds")
        if row["cut"] == START
    ]
    wanted = [(key, tool, what) for key, _ in MATERIALS for tool, _ in TOOLS for what in ("speed", "feed")]
    assert sorted(starts) == sorted(wanted)


def test_rows_as_printed() -> None:
    """Handout: mild steel, HSS, 100 to 250 ft/min; data handbook: bronze, HSS, 18 to 36 m/min."""
    mild = published_speeds("mild steel", "HSS")[0]
    assert mild.text == "100 to 250 ft/min"
    assert (mild.lowest, mild.highest) == (pytest.approx(30.48), pytest.approx(76.2))
    bronze = [each for each in published_speeds("bronze", "HSS") if "phosphor" in each.printed]
    assert [(each.lowest, each.highest) for each in bronze] == [(18.0, 36.0)]
    assert start_feed("mild steel", "HSS").lowest == pytest.approx(0.0762)
    assert start_speed("mild steel", "HSS").highest == pytest.approx(45.72)


def test_ranges_run_upwards_in_known_units() -> None:
    for row in load("cutting_speeds"):
        assert 0 < float(row["value"]) <= float(row["highest"]), row
        assert row["unit"] in TO_METRIC
        assert row["unit"].endswith("/rev") == (row["quantity"] == "feed"), row
        assert row["tool"] in dict(TOOLS)
    with pytest.raises(KeyError):
        start_speed("cheese", "HSS")
