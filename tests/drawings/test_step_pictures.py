"""The small pictures that steps carry, read back: swing, sweep, centre height, flats."""

from __future__ import annotations

from itertools import product
from math import radians

import pytest

from calc.drawings.at_bench import (
    across_flat_picture,
    centre_height_picture,
    first_flat_picture,
    second_flat_picture,
)
from calc.drawings.at_setting import sweep_picture, swing_picture
from calc.setting.plan import ENDS, SIDES, plan_view
from drawings.reading import HOSTILE, Read, along, assert_sound, centre, corners, distance, inside

CASES = list(product(ENDS, SIDES, SIDES))
MOST = 4096
"""A step's picture may be so many bytes."""


def sound(svg: str) -> Read:
    assert len(svg.encode()) < MOST
    read = assert_sound(svg)
    for part in ("slide", "bar", "end", "cutter", "square", "tailstock"):
        for element in read.parts(part):
            for each in read.words():
                box = [(each.left, each.top), (each.right, each.top), (each.right, each.bottom)]
                box.append((each.left, each.bottom))
                own = each.text.startswith({"slide": "top slide", "bar": "sine bar"}.get(part, "-"))
                over = inside(centre(box), corners(element))
                over = over or any(inside(point, box) for point in along(corners(element)))
                assert own or not over, (each, part)
    return read


@pytest.mark.parametrize(("small_end", "cut_side", "bar_side"), CASES)
@pytest.mark.parametrize("true", [0.0, 1.43, 30.0])
def test_the_swing(small_end: str, cut_side: str, bar_side: str, true: float) -> None:
    """The turner's rule (common practice): small end to the tailstock, cut by the operator: anticlockwise."""
    read = sound(swing_picture(plan_view(radians(true), small_end, cut_side, bar_side, 100.0)))
    texts = [each.text for each in read.words()]
    anticlockwise = (small_end == "tailstock") == (cut_side == "operator")
    assert ("anticlockwise" in texts) == (anticlockwise and true > 0)
    assert ("clockwise" in texts) == (not anticlockwise and true > 0)
    assert any(each.startswith("top slide (compound)") for each in texts)
    # The slide lies on the side that is cut, its left end towards the operator where it went anticlockwise.
    slide, axis_y = sorted(read.corners("slide")), read.corners("axis")[0][1]
    assert (centre(slide)[1] > axis_y) == (cut_side == "operator")
    left, right = centre(slide[:2])[1], centre(slide[2:])[1]
    assert (left > right) == (anticlockwise and true > 0) and (left == right) == (true == 0)


@pytest.mark.parametrize(("small_end", "cut_side", "bar_side"), CASES)
def test_the_sweep(small_end: str, cut_side: str, bar_side: str) -> None:
    """The indicator bears on the sine bar's face away from the slide, and the carriage is what is wound."""
    plan = plan_view(radians(1.43), small_end, cut_side, bar_side, 100.0)
    read = sound(sweep_picture(plan))
    bar, slide = read.corners("bar"), read.corners("slide")
    _, point = corners(read.part("dial-plunger"))
    assert distance(point, bar) < 0.05
    assert (point[1] - centre(bar)[1]) * (centre(slide)[1] - centre(bar)[1]) < 0
    assert (centre(bar)[1] > centre(slide)[1]) == (bar_side == "operator")
    texts = [each.text for each in read.words()]
    assert {"wind the carriage", "indicator", "on the bed"} <= set(texts) and read.parts("travel")
    stack = read.corners("stack")
    pin, radius = read.circle(f"{plan.stack_pin}-pin")
    assert distance(pin, stack) == pytest.approx(radius, abs=0.1)


def test_the_tip_is_level_with_the_centre() -> None:
    read = sound(centre_height_picture())
    axis_y = read.corners("axis")[0][1]
    assert min(y for _, y in read.corners("tool")) == axis_y
    point = min(read.corners("centre"))
    assert point[1] == axis_y and point[0] > max(x for x, _ in read.corners("tool"))


@pytest.mark.parametrize("share", [0.0, 0.01, 0.06, 0.267, 0.44, 0.9])
@pytest.mark.parametrize("text", ["3.60 mm", "0.1417 in", *HOSTILE])
def test_flats(share: float, text: str) -> None:
    first = sound(first_flat_picture(share, text, text))
    sound(first_flat_picture(share, text))
    across, second = sound(across_flat_picture(share, text)), sound(second_flat_picture(share, text))
    (middle, _), radius = across.circle("round")
    flat = max(x for x, _ in first.corners("end"))
    assert min(x for x, _ in first.corners("cutter")) == pytest.approx(flat, abs=0.02)
    ends = sorted(x for x, _ in across.corners("measure"))
    assert ends == pytest.approx([middle - radius, flat], abs=0.02)
    if 0.05 < share < 0.45:
        assert (middle + radius - flat) / (2 * radius) == pytest.approx(share, abs=0.001)
    true = any(each.text == "seen from the end, to scale" for each in first.words())
    assert true == (0.05 <= share <= 0.45)
    # The square stands on the first flat, and the second lies as far from the middle, on the other side.
    upright = max(x for x, _ in second.corners("square"))
    assert upright == pytest.approx(min(x for x, _ in second.corners("end")), abs=0.02)
    assert corners(second.part("second"))[0][0] - middle == pytest.approx(middle - upright, abs=0.02)
