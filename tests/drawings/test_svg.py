"""The small marks: numbers, safe text, fitting, and arrows that turn the way they say."""

from __future__ import annotations

from math import pi
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drawings import svg
from drawings.reading import HOSTILE, SPACE, assert_sound


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.0, "0"),
        (-0.0, "0"),
        (-0.001, "0"),
        (1.0, "1"),
        (10.0, "10"),
        (1.25, "1.25"),
        (-3.5, "-3.5"),
        (2 / 3, "0.67"),
    ],
)
def test_numbers_are_short(value: float, text: str) -> None:
    assert svg.number(value) == text


@settings(max_examples=50)
@given(st.text())
def test_any_text_survives_a_reader_of_xml(text: str) -> None:
    picture = svg.Picture()
    picture.text((0, 20), text)
    root = ElementTree.fromstring(picture.finished(30, f"t{text}", f"d{text}"))
    assert root[0].text == svg.plain(f"t{text}")
    shown = [element.text for element in root.iter(f"{SPACE}text")]
    assert shown == ([svg.plain(text)] if svg.plain(text) else [])


@settings(max_examples=50)
@given(st.text(alphabet=st.characters(codec="utf-8")), st.floats(min_value=20.0, max_value=300.0))
def test_fitted_text_fits_and_says_when_it_is_cut(text: str, width: float) -> None:
    cut = svg.fitted(text, width)
    assert svg.text_width(cut) <= width
    whole = svg.plain(text)
    assert cut == whole or (cut.endswith("…") and whole.startswith(cut[:-1]))


@pytest.mark.parametrize("text", HOSTILE)
def test_escaped_text_closes_nothing(text: str) -> None:
    safe = svg.escape(text)
    assert not set(safe) & set("<>\"'")


def test_letters_are_kept_that_people_use() -> None:
    assert svg.plain("Bohrer Ø 4,2 – ½″ ±\u00a00.002 µm 🔩") == "Bohrer Ø 4,2 – ½″ ± 0.002 µm 🔩"


def test_the_tail_is_kept_whole() -> None:
    label = svg.fitted_with_tail("a very long name of a piece", "4.187 mm", 150.0)
    assert label.endswith("… 4.187 mm") and svg.text_width(label) <= 150.0
    assert svg.fitted_with_tail("", "4.187 mm", 150.0) == "4.187 mm"
    assert svg.fitted_with_tail("pin", "", 150.0) == "pin"


@pytest.mark.parametrize("turn", [pi / 2, -pi / 2])
def test_a_turning_arrow_points_the_way_it_turns(turn: float) -> None:
    """From the right of the centre a quarter turn anticlockwise ends above it, with the head flying left."""
    picture = svg.Picture()
    picture.turning_arrow((100, 100), 40, 0.0, turn)
    root = assert_sound(picture.finished(200, "t", "d")).root
    (head,) = root.iter(f"{SPACE}polygon")
    (tip_x, tip_y), *back = [tuple(map(float, pair.split(","))) for pair in head.attrib["points"].split()]
    assert abs(tip_x - 100) < 0.01
    assert abs(tip_y - (60 if turn > 0 else 140)) < 0.01
    assert all(x > tip_x for x, _ in back)
    (arc,) = root.iter(f"{SPACE}path")
    # SVG 1.1, 8.3.8: the sweep flag is 1 for the direction of growing angles, clockwise as seen.
    assert arc.attrib["d"].split()[-2] == ("0" if turn > 0 else "1")
