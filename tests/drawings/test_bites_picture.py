"""The slide's travel against the taper, read back from the picture."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drawings.bites import travel_picture
from calc.machining.bites import TravelTooShort, plan_bites
from drawings.reading import HOSTILE, Read, assert_sound, corners

BITES = ((-1.0, 33.0), (31.0, 65.0))


def spans(read: Read) -> list[tuple[float, float]]:
    return [
        (min(x for x, _ in corners(each)), max(x for x, _ in corners(each))) for each in read.parts("bite")
    ]


@pytest.mark.parametrize("form", ["external", "internal"])
@pytest.mark.parametrize("small_end", ["tailstock", "headstock"])
def test_first_bite_where_cutting_begins_and_lengths_to_scale(form: str, small_end: str) -> None:
    read = assert_sound(
        travel_picture(64.0, BITES, 40.0, "64 mm", "slide travels 40 mm", small_end, form, 0.025, False)
    )
    first, second = spans(read)
    from_right = (small_end == "tailstock") == (form == "external")
    assert (first > second) == from_right
    flank = [x for x, _ in read.corners("dimension")]
    scale = (max(flank) - min(flank)) / 64.0
    assert first[1] - first[0] == pytest.approx(34.0 * scale, abs=0.05)
    overlap = min(first[1], second[1]) - max(first[0], second[0])
    assert overlap == pytest.approx(2.0 * scale, abs=0.05)
    # The taper stands over its dimension, thin end where it was said to be.
    taper = sorted(read.corners("taper"))
    assert taper[0][0] == pytest.approx(min(flank), abs=0.05)
    assert taper[-1][0] == pytest.approx(max(flank), abs=0.05)
    left, right = abs(taper[0][1] - taper[1][1]), abs(taper[2][1] - taper[3][1])
    assert (left > right) == (small_end == "tailstock")
    assert any("larger than true" in each.text for each in read.words())


def test_one_bite_shows_what_is_to_spare() -> None:
    read = assert_sound(
        travel_picture(
            40.0, ((-1.0, 41.0),), 63.0, "40 mm", "slide travels 63 mm", "tailstock", "external", 0.5, True
        )
    )
    ((left, right),) = spans(read)
    flank = [x for x, _ in read.corners("dimension")]
    assert (right - left) / (max(flank) - min(flank)) == pytest.approx(63.0 / 40.0, abs=0.01)
    assert read.parts("centre") and any("drawn true" in each.text for each in read.words())


@given(
    st.floats(0.5, 800.0),
    st.floats(5.1, 900.0),
    st.floats(0.0, 1.4),
    st.sampled_from(["tailstock", "headstock"]),
    st.sampled_from(["external", "internal"]),
    st.booleans(),
    st.sampled_from(("64 mm", *HOSTILE)),
)
@settings(max_examples=60)
def test_sound_for_anything(
    flank: float, travel: float, angle: float, small_end: str, form: str, centre: bool, text: str
) -> None:
    try:
        found = plan_bites(flank, travel)
    except TravelTooShort:
        return
    read = assert_sound(
        travel_picture(flank, found.spans, travel, text, text, small_end, form, angle, centre)
    )
    drawn = spans(read)
    assert len(drawn) == min(len(found.spans), 6)
    assert all(-1.0 <= left < right <= read.width for left, right in drawn)
    if len(found.spans) > len(drawn):
        assert any(f"the first 6 of {len(found.spans)} sections" in each.text for each in read.words())
