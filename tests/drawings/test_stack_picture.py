"""The stack to scale, read back from the picture."""

from __future__ import annotations

from itertools import combinations, pairwise
from math import isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drawings.stack import stack_picture
from drawings.reading import HOSTILE, Point, Read, assert_sound, corners

HEIGHT = "2.4967 mm · 0.09830 in"
Pieces = list[tuple[str, str, float, str]]

VARIANTS: list[Pieces] = [
    [("2.5 drill", "round", 2.4967, "2.4967 mm")],
    [("2.0 drill", "round", 1.987, "1.987 mm"), ("20 thou leaf", "leaf", 0.508, "0.508 mm")],
    [("block", "flat", 10.0, "10 mm"), ("block", "flat", 5.0, "5 mm"), ("pin", "round", 4.2, "4.2 mm")],
    [("leaf", "leaf", 0.04, "0.04 mm"), ("block", "flat", 1.5, "1.5 mm"), ("leaf", "leaf", 0.05, "0.05 mm")],
    [("leaf", "leaf", 0.1 * step, f"{0.1 * step:.1f} mm") for step in range(1, 9)],
    [("block", "flat", 50.0, "50 mm"), ("leaf", "leaf", 0.02, "0.02 mm")],
]


def spans(read: Read) -> list[tuple[float, float]]:
    """Top and bottom of each drawn piece, outlines included."""
    found = []
    for element in read.parts("piece"):
        edge = float(element.attrib["stroke-width"]) / 2
        heights = [y for _, y in corners(element)]
        found.append((min(heights) - edge, max(heights) + edge))
    return found


def crosses(first: tuple[Point, Point], second: tuple[Point, Point]) -> bool:
    def turn(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    (a, b), (c, d) = first, second
    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


@pytest.mark.parametrize("pieces", VARIANTS)
def test_pieces_are_to_one_scale_and_fill_the_gap(pieces: Pieces) -> None:
    read = assert_sound(stack_picture(pieces, HEIGHT, "0.0017 mm too low"))
    drawn = spans(read)
    assert len(drawn) == len(pieces)
    for (_, bottom), (top, _) in pairwise(drawn):
        assert isclose(bottom, top, abs_tol=0.05)
    heights = [bottom - top for top, bottom in drawn]
    scale = max(heights) / max(size for _, _, size, _ in pieces)
    thick = [(height, size) for height, (_, _, size, _) in zip(heights, pieces, strict=True) if height > 2.05]
    for height, size in thick:
        assert isclose(height, size * scale, rel_tol=0.01, abs_tol=0.05)
    assert min(heights) >= 1.95
    thickened = any(h > size * scale + 0.1 for h, (_, _, size, _) in zip(heights, pieces, strict=True))
    assert any("drawn thicker than true" in each.text for each in read.words()) == thickened
    # From the roller to the top slide's face, and the dimension says the same.
    face = read.corners("face")[0][1]
    assert isclose(drawn[-1][1], face, abs_tol=0.05)
    ends = sorted(y for _, y in read.corners("dimension"))
    assert isclose(ends[0], drawn[0][0], abs_tol=0.05) and isclose(ends[1], face, abs_tol=0.05)


@pytest.mark.parametrize("pieces", VARIANTS)
def test_shapes_are_told_apart(pieces: Pieces) -> None:
    read = assert_sound(stack_picture(pieces, HEIGHT))
    for element, (_, shape, _, _) in zip(read.parts("piece"), pieces, strict=True):
        assert ("rx" in element.attrib) == (shape == "round")
        if shape != "round":
            assert ("--mark" in element.attrib["stroke"]) == (shape == "leaf")


def test_a_drill_lies_across_the_roller_by_its_shank() -> None:
    """Its axis runs along the top slide, and the roller, in the middle, bears clear of the flutes."""
    read = assert_sound(stack_picture(VARIANTS[1], HEIGHT))
    (left, level), (right, other) = corners(read.part("round-axis"))
    assert level == other and right - left > 30
    (x, _), (_, foot) = corners(read.part("shank"))
    middle = sum(x for x, _ in corners(read.part("face"))) / 2
    assert x < middle - 10 and foot > level
    words = [each.text for each in read.words()]
    assert "drill lies across, on its plain shank" in words
    # A dowel has no flutes and is not called a drill; blocks and leaves do not lie across anything.
    dowel = assert_sound(stack_picture([("dowel", "round", 4.2, "4.2 mm")], HEIGHT))
    assert not dowel.parts("shank") and dowel.parts("round-axis")
    assert not any("drill" in each.text for each in dowel.words())
    flat = assert_sound(stack_picture(VARIANTS[3], HEIGHT))
    assert not any("across" in each.text for each in flat.words()) and not flat.parts("round-axis")


@pytest.mark.parametrize("pieces", VARIANTS)
def test_each_label_stands_by_its_piece_in_order(pieces: Pieces) -> None:
    read = assert_sound(stack_picture(pieces, HEIGHT))
    labels = [each for each in read.words() if each.left > 150 and each.top < read.corners("face")[0][1] + 60]
    labels = [each for each in labels if each.text != HEIGHT]
    assert [each.text for each in labels] == [f"{name} {size}" for name, _, _, size in pieces]
    leaders = [corners(element) for element in read.parts("leader")]
    for label, leader, (top, bottom) in zip(labels, leaders, spans(read), strict=True):
        assert top - 0.05 <= leader[0][1] <= bottom + 0.05
        assert label.top <= leader[-1][1] <= label.bottom
    for one, other in combinations(leaders, 2):
        assert not any(crosses(first, second) for first in pairwise(one) for second in pairwise(other))


@pytest.mark.parametrize("pieces", VARIANTS[:4])
def test_it_fits_the_first_screen_of_a_phone(pieces: Pieces) -> None:
    read = assert_sound(stack_picture(pieces, HEIGHT, "0.0017 mm too low"))
    assert read.height * 340 / read.width <= 172


def test_no_pieces_means_the_roller_touches() -> None:
    read = assert_sound(stack_picture([], "0 mm"))
    assert not read.parts("piece") and not read.parts("dimension")
    assert any("no stack" in each.text for each in read.words())


@pytest.mark.parametrize("name", HOSTILE)
def test_any_text_is_safe_and_the_size_stays_whole(name: str) -> None:
    read = assert_sound(stack_picture([(name, "round", 2.0, "2.000 mm")] * 2, name, name))
    labels = [each.text for each in read.words() if each.text.endswith(" 2.000 mm")]
    assert len(labels) == 2
    if len(name) > 40:
        assert all("…" in label for label in labels)


def test_a_figure_too_long_is_cut_rather_than_run_over() -> None:
    assert_sound(stack_picture([("n", "flat", 1.0, "9" * 500)], "9" * 500, "9" * 500))


@settings(max_examples=40)
@given(
    st.lists(
        st.tuples(
            st.text(max_size=30),
            st.sampled_from(["round", "flat", "leaf"]),
            st.floats(min_value=1e-3, max_value=300.0),
            st.text(max_size=12),
        ),
        max_size=8,
    )
)
def test_any_stack_can_be_drawn(pieces: Pieces) -> None:
    read = assert_sound(stack_picture(pieces, HEIGHT))
    drawn = spans(read)
    assert all(bottom > top for top, bottom in drawn)
    if drawn:
        assert sum(bottom - top for top, bottom in drawn) <= 82.0 + 2.0 * len(drawn)


@pytest.mark.parametrize(
    "piece",
    [
        ("x", "square", 1.0, ""),
        ("x", "flat", 0.0, ""),
        ("x", "flat", -1.0, ""),
        ("x", "leaf", float("nan"), ""),
        ("x", "round", float("inf"), ""),
    ],
)
def test_what_cannot_be_drawn_is_refused(piece: tuple[str, str, float, str]) -> None:
    with pytest.raises(ValueError, match="piece"):
        stack_picture([piece], HEIGHT)
