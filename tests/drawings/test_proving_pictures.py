"""The pictures of proving, read back: where blue shows, and which way a correction goes."""

from __future__ import annotations

from itertools import product

import pytest

from calc.cone import Cone
from calc.drawings.blue import blue_picture
from calc.drawings.correction import correction_picture
from calc.gauging.way import Part
from calc.setting.plan import ENDS, SIDES
from drawings.reading import HOSTILE, along, assert_sound, centre, corners, inside


@pytest.mark.parametrize("form", ["external", "internal"])
@pytest.mark.parametrize("error", [-1e-3, -1e-5, 0.0, 1e-5, 1e-3])
@pytest.mark.parametrize("words", ["for a taper 13″ too steep", *HOSTILE])
def test_blue_is_sound(form: str, error: float, words: str) -> None:
    read = assert_sound(blue_picture(Part(Cone(0.05, 17.78, 14.58, 64.0), form), error, words))
    assert len(read.parts("taper")) == 2
    for each in read.words():
        for part in read.parts("taper"):
            box = [(each.left, each.top), (each.right, each.top), (each.right, each.bottom)]
            box.append((each.left, each.bottom))
            assert not any(inside(point, box) for point in along(corners(part))), each
            assert not inside(centre(box), corners(part)), each


@pytest.mark.parametrize(("small_end", "cut_side"), list(product(ENDS, SIDES)))
@pytest.mark.parametrize("way", ["clockwise", "anticlockwise", "none"])
@pytest.mark.parametrize("reading", ["", "0.012 mm"])
def test_a_correction_is_sound(small_end: str, cut_side: str, way: str, reading: str) -> None:
    read = assert_sound(correction_picture(0.025, small_end, cut_side, way, reading))
    # The word for the turn stands clear of its arrow.
    for part in read.parts("correction"):
        (x1, y1), (x2, y2) = [
            tuple(map(float, pair.split(",")))
            for pair in part.attrib["d"].replace("M", "").replace("A", " ").split()
            if "," in pair
        ]
        (word,) = [each for each in read.words() if each.text == f"turn {way}"]
        assert max(x1, x2) + 10 < word.left or max(y1, y2) + 9 < word.top or min(y1, y2) - 9 > word.bottom
    assert bool(read.parts("correction")) == (way != "none")
    assert bool(read.parts("dial")) == bool(reading)
