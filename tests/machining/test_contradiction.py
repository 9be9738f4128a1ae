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


@pytest.mark.parametrize("rate", [0.05, 0.3])
@pytest.mark.parametrize("sign", [-1.0, 1.0])
def test_what_a_rule_and_a_micrometer_may_be_out_by_is_granted_and_no_more(rate: float, sign: float) -> None:
    """0.2 mm of stand-off and 0.02 mm of diameter (common practice), by hand, on radius."""
    for share, granted in ((0.98, True), (1.02, False)):
        away = sign * share * (0.02 + 0.2 * rate) / 2.0
        assert (disagreement(1.0, 1.0 + away, rate) == 0.0) is granted


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
