"""A measured diameter and a stand-off that cannot both be true are said to contradict each other."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.job import work
from calc.machining.infeed import depth_from_diameter, depth_from_stand_off, disagreement


@given(st.floats(0.01, 0.6), st.floats(-20.0, 50.0), st.booleans())
def test_what_follows_from_one_cone_never_disagrees(rate: float, off: float, internal: bool) -> None:
    """Standing off by s, the diameter is s x taper from the wanted one: by similar triangles."""
    now = 50.0 - off * rate if internal else 50.0 + off * rate
    by_diameter = depth_from_diameter(now, 50.0, internal)
    assert disagreement(depth_from_stand_off(off, rate), by_diameter, rate) == 0.0


@given(st.floats(0.01, 0.6), st.floats(-20.0, 50.0), st.floats(0.2, 3.0), st.sampled_from([-1.0, 1.0]))
def test_what_is_far_apart_always_does(rate: float, off: float, apart: float, sign: float) -> None:
    depth = depth_from_stand_off(off, rate)
    assert disagreement(depth, depth + sign * apart, rate) == pytest.approx(sign * apart)


def cautions(units: str, **told: str) -> str:
    entries = {"taper.series": "Morse", "taper.size": "2", **{f"cutting.{k}": v for k, v in told.items()}}
    sheet = work({"format": 1, "units": units, "entries": entries})
    stage = next(each for each in sheet["stages"] if each["id"] == "cutting")
    return " ".join(each["text"] for each in stage["cautions"])


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_the_card_says_so(units: str) -> None:
    """Morse 2, 17.78 mm at 1:20.020: standing off 4 mm it is 0.1998 mm thick, 17.98; 18.30 cannot be."""
    assert "contradict" not in cautions(units, diameter_now="17.98 mm", stand_off="4 mm")
    said = cautions(units, diameter_now="18.30 mm", stand_off="4 mm")
    assert "contradict" in said and ("0.200 mm" in said or "0.20 mm" in said) is (units == "mm")
    assert "contradict" not in cautions(units, diameter_now="18.30 mm")
