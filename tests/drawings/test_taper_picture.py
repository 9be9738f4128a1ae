"""The taper with its dimensions, read back from the picture."""

from __future__ import annotations

from math import atan2, degrees, isclose, radians, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drawings.taper import taper_picture
from drawings.reading import HOSTILE, Read, assert_sound

TEXTS = ("17.780 mm · 0.7000 in", "14.533 mm · 0.5722 in", "64.00 mm", "1:20.020", "1.4307°")


def profile(read: Read) -> tuple[float, float, float, float]:
    """Left diameter, right diameter, length and half angle [deg] of the drawn taper."""
    points = sorted(read.corners("taper"))
    left, right = sorted(y for _, y in points[:2]), sorted(y for _, y in points[2:])
    length = points[2][0] - points[0][0]
    first, last = left[1] - left[0], right[1] - right[0]
    return first, last, length, degrees(atan2(abs(first - last) / 2, length))


@pytest.mark.parametrize("form", ["external", "internal"])
@pytest.mark.parametrize("small_end", ["tailstock", "headstock"])
def test_small_end_and_figures_stand_where_they_belong(small_end: str, form: str) -> None:
    read = assert_sound(taper_picture(*TEXTS, small_end, form, (17.78, 14.533, 64.0)))
    left, right, length, angle = profile(read)
    assert (right < left) == (small_end == "tailstock")
    assert isclose((left + right) / 2 / length, (17.78 + 14.533) / 2 / 64.0, rel_tol=0.01)
    assert angle > 1.44 and any("angle larger than true" in each.text for each in read.words())
    place = {each.text: (each.left + each.right) / 2 for each in read.words()}
    for large, small in (("17.780 mm", "14.533 mm"), ("0.7000 in", "0.5722 in")):
        assert (place[large] < place[small]) == (small_end == "tailstock")
    assert place["to headstock"] < place["to tailstock"]
    assert {"64.00 mm", "taper 1:20.020", "half angle 1.4307°"} <= set(place)
    assert len(read.parts("body")) == (form == "internal")
    # The mark for the half angle touches the taper's side and the line parallel to the axis.
    ends = read.part("angle").attrib["d"].replace("M", "").replace("A", " ").split()
    points = [tuple(map(float, ends[index].split(","))) for index in (0, -1)]
    (_, level), (x, on_side) = points
    assert isclose(abs(level - on_side), abs(x - corner_x(read)) * tan(radians(angle)), abs_tol=0.1)


def corner_x(read: Read) -> float:
    """Where the small end stands."""
    points = sorted(read.corners("taper"))
    left, right, _, _ = profile(read)
    return points[0][0] if left < right else points[-1][0]


def test_a_steep_taper_is_true() -> None:
    read = assert_sound(taper_picture("40 mm", "17 mm", "20 mm", "1:0.87", "30°", sizes=(40.0, 17.0, 20.0)))
    left, right, length, angle = profile(read)
    assert isclose(angle, degrees(atan2(11.5, 20.0)), abs_tol=0.05)
    assert isclose(left / length, 2.0, rel_tol=0.01) and isclose(right / length, 0.85, rel_tol=0.01)
    assert any(each.text == "drawn to scale" for each in read.words())


@pytest.mark.parametrize(
    "sizes",
    [
        None,
        (0.0, 0.0, 10.0),
        (10.0, 12.0, 10.0),
        (10.0, 5.0, 0.0),
        (float("nan"), 1.0, 1.0),
        (5.0, -1.0, 2.0),
    ],
)
def test_without_usable_sizes_it_says_so(sizes: tuple[float, float, float] | None) -> None:
    read = assert_sound(taper_picture(*TEXTS, sizes=sizes))
    assert any("not to scale" in each.text for each in read.words())
    left, right, _, _ = profile(read)
    assert left > right


def test_a_slender_one_is_said_to_be_drawn_thicker() -> None:
    read = assert_sound(taper_picture(*TEXTS, sizes=(5.0, 4.9, 300.0)))
    assert any("thicker" in each.text for each in read.words())


@pytest.mark.parametrize("form", ["external", "internal"])
@pytest.mark.parametrize("text", ["", *HOSTILE])
def test_any_text_is_safe_and_fits(text: str, form: str) -> None:
    assert_sound(taper_picture(text, text, text, text, text, "headstock", form))


@settings(max_examples=60)
@given(
    st.floats(min_value=0.1, max_value=500.0),
    st.floats(min_value=0.0, max_value=1.0),
    st.floats(min_value=0.1, max_value=2000.0),
    st.sampled_from(["external", "internal"]),
)
def test_any_proportions_keep_within_the_picture(
    large: float, share: float, length: float, form: str
) -> None:
    read = assert_sound(taper_picture(*TEXTS, form=form, sizes=(large, large * share, length)))
    for part in ("taper", "body"):
        for element in read.parts(part):
            points = read.corners(element.attrib["class"])
            assert all(60 <= x <= read.width - 60 and 36 <= y <= read.height for x, y in points)


def test_other_words_are_refused() -> None:
    with pytest.raises(ValueError, match="small end"):
        taper_picture(*TEXTS, small_end="left")
    with pytest.raises(ValueError, match="form"):
        taper_picture(*TEXTS, form="plug")
