"""The lathe from above, read back from the picture alone: does it show what must be done at the machine?

The swing expected of each case is the turner's rule (common practice): small end to the tailstock with the
tool on the operator's side, the slide goes anticlockwise; either mirrored, the other way.
"""

from __future__ import annotations

from itertools import product
from math import atan2, degrees, dist, isclose, radians

import pytest

from calc.drawings.lathe_above import lathe_from_above
from calc.setting.plan import ENDS, SIDES, plan_view
from drawings.reading import HOSTILE, Read, Words, along, assert_sound, centre, corners, distance, inside

CASES = list(product(ENDS, SIDES, SIDES))
HEIGHT = "2.4967 mm · 0.09830 in"
every_case = pytest.mark.parametrize(("small_end", "cut_side", "bar_side"), CASES)


def drawn(small_end: str, cut_side: str, bar_side: str, true: float = 1.43, text: str = HEIGHT) -> Read:
    plan = plan_view(radians(true), small_end, cut_side, bar_side, 100.0)
    return assert_sound(lathe_from_above(plan, text))


def slide_slope(read: Read) -> float:
    """Rise to the right of the slide, as seen, in degrees; from its longest side."""
    points = read.corners("slide")
    sides = zip(points, points[1:] + points[:1], strict=True)
    start, end = max(sides, key=lambda side: dist(*side))
    left, right = sorted((start, end))
    return degrees(atan2(left[1] - right[1], right[0] - left[0]))


@every_case
def test_the_swing_is_drawn_and_said(small_end: str, cut_side: str, bar_side: str) -> None:
    read = drawn(small_end, cut_side, bar_side)
    anticlockwise = (small_end == "tailstock") == (cut_side == "operator")
    slope = slide_slope(read)
    assert 8 <= abs(slope) <= 14
    assert (slope > 0) == anticlockwise
    texts = [each.text for each in read.words()]
    assert ("anticlockwise" in texts) == anticlockwise
    assert ("clockwise" in texts) != anticlockwise
    assert "angle drawn larger than true" in texts
    # The arrow at the slide's left end: anticlockwise goes down from the dashed line, as the slide does.
    path = read.part("swing").attrib["d"].replace("M", "").replace("A", " ").split()
    (_, start_y), (_, end_y) = (tuple(map(float, path[index].split(","))) for index in (0, -1))
    assert (end_y > start_y) == anticlockwise


@every_case
def test_everything_stands_on_its_side(small_end: str, cut_side: str, bar_side: str) -> None:
    read = drawn(small_end, cut_side, bar_side)
    axis_y = read.corners("axis")[0][1]
    slide, bar, tool, work = (read.corners(name) for name in ("slide", "bar", "tool", "work"))
    operator_is_down = 1 if cut_side == "operator" else -1
    assert all((y - axis_y) * operator_is_down > 0 for _, y in slide + tool + bar)
    below = distance_sign(centre(bar), slide)
    assert (below > 0) == (bar_side == "operator")
    # The tip touches the work's side, from without, on the side cut.
    tip = min(tool, key=lambda point: abs(point[1] - axis_y))
    assert distance(tip, work) < 0.1
    # The work is slender at its small end, and its side is parallel to the slide.
    taper = sorted(point for point in work if (point[1] - axis_y) * operator_is_down > 0)
    lengths = [(dist(one, other), one, other) for one, other in zip(taper, taper[1:], strict=False)]
    _, left, right = max(lengths)
    assert (abs(left[1] - axis_y) > abs(right[1] - axis_y)) == (small_end == "tailstock")
    assert isclose(degrees(atan2(left[1] - right[1], right[0] - left[0])), slide_slope(read), abs_tol=0.05)
    # Headstock left, tailstock right, the operator below all.
    headstock, tailstock = centre(read.corners("headstock")), centre(read.corners("tailstock"))
    assert headstock[0] < centre(work)[0] < tailstock[0]
    words = [each for each in read.words() if each.text in ENDS]
    assert sorted(each.text for each in words if not within(each, bar)) == ["headstock", "tailstock"]
    for each in words:
        if within(each, bar):  # the names of the two pins
            assert (each.left < centre(bar)[0]) == (each.text == "headstock")
        else:
            assert each.right < 90 if each.text == "headstock" else each.left > 250
    (operator,) = (each for each in read.words() if each.text == "operator stands here")
    assert all(y < operator.top for _, y in slide + bar + work)


def within(words: Words, polygon: list[tuple[float, float]]) -> bool:
    return inside(((words.left + words.right) / 2, (words.top + words.bottom) / 2), polygon)


def distance_sign(point: tuple[float, float], slide: list[tuple[float, float]]) -> float:
    """How far below the slide's middle line the point lies, at its own place along the lathe."""
    left, right = sorted(slide)[:2], sorted(slide)[2:]
    (x1, y1), (x2, y2) = centre(left), centre(right)
    return point[1] - (y1 + (point[0] - x1) / (x2 - x1) * (y2 - y1))


@every_case
def test_the_stack_lies_in_the_gap_at_its_pin(small_end: str, cut_side: str, bar_side: str) -> None:
    read = drawn(small_end, cut_side, bar_side)
    slide, stack = read.corners("slide"), read.corners("stack")
    pins = {end: read.circle(f"{end}-pin") for end in ENDS}
    assert pins["headstock"][0][0] < pins["tailstock"][0][0]
    assert pins["headstock"][0][1] == pins["tailstock"][0][1]  # the bar is level with the axis
    gaps = {end: distance(point, slide) - radius for end, (point, radius) in pins.items()}
    touching, stacked = sorted(gaps, key=lambda end: gaps[end])
    assert isclose(gaps[touching], 0.0, abs_tol=0.05)
    between = dist(pins["headstock"][0], pins["tailstock"][0])
    assert isclose(gaps[stacked] / between, abs(radians(slide_slope(read))), rel_tol=0.02)
    # The pin that the answer names is the one with the gap.
    plan = plan_view(radians(1.43), small_end, cut_side, bar_side, 100.0)
    assert plan.stack_pin == stacked
    assert f"stack at the {stacked} pin" in (read.root[0].text or "")
    # It reaches from the slide's face to the pin and no further, and stands square under the pin.
    pin, radius = pins[stacked]
    on_face = [corner for corner in stack if distance(corner, slide) < 0.05]
    at_pin = [corner for corner in stack if corner not in on_face]
    assert len(on_face) == len(at_pin) == 2
    assert isclose(dist(centre(at_pin), pin), radius, abs_tol=0.05)
    assert isclose(dist(centre(on_face), centre(at_pin)), gaps[stacked], abs_tol=0.05)
    assert not any(inside(point, slide) for point in at_pin)


@every_case
def test_nothing_runs_into_anything(small_end: str, cut_side: str, bar_side: str) -> None:
    read = drawn(small_end, cut_side, bar_side)
    parts = {name: read.corners(name) for name in ("headstock", "work", "tailstock", "slide", "bar")}
    for one, other in (
        ("slide", "work"),
        ("slide", "headstock"),
        ("slide", "tailstock"),
        ("slide", "bar"),
        ("bar", "work"),
        ("bar", "tailstock"),
        ("bar", "headstock"),
    ):
        assert not any(inside(point, parts[other]) for point in along(parts[one])), (one, other)
        assert not any(inside(point, parts[one]) for point in along(parts[other])), (one, other)
    leader = corners(read.part("leader"))
    assert inside(leader[0], read.corners("stack"))
    assert not any(inside(point, parts["bar"]) for point in along(leader, closed=False))
    (label,) = (each for each in read.words() if each.text.startswith("stack goes here"))
    x, y = leader[-1]
    assert min(abs(y - label.top), abs(y - label.bottom)) < 24
    assert label.left - 2 <= x <= label.right + 2
    pin_words = [each for each in read.words() if each.text == "pin"]
    assert len(pin_words) == 2
    for each in pin_words:
        assert within(each, parts["bar"])


@every_case
@pytest.mark.parametrize(
    ("true", "note"),
    [
        (0.001, "larger"),
        (10.99, "larger"),
        (12.5, "drawn true"),
        (30.0, "smaller"),
        (60.0, "smaller"),
    ],
)
def test_the_picture_says_when_the_angle_is_not_true(
    small_end: str, cut_side: str, bar_side: str, true: float, note: str
) -> None:
    read = drawn(small_end, cut_side, bar_side, true)
    (line,) = (each.text for each in read.words() if each.text.startswith("angle drawn"))
    assert note in line
    shown = abs(slide_slope(read))
    unequal = "larger" if shown > true else "smaller"
    as_drawn = "drawn true" if isclose(shown, true, abs_tol=0.008) else unequal
    assert as_drawn == note


@every_case
def test_a_cylinder_has_no_stack_and_no_swing(small_end: str, cut_side: str, bar_side: str) -> None:
    read = drawn(small_end, cut_side, bar_side, 0.0)
    assert slide_slope(read) == 0.0
    assert not read.parts("stack") and not read.parts("swing") and not read.parts("leader")
    texts = [each.text for each in read.words()]
    assert "no swing" in texts
    assert not any("stack" in text for text in texts)


@pytest.mark.parametrize("text", ["", "0.1003 in", *HOSTILE])
def test_any_height_text_is_safe_and_fits(text: str) -> None:
    for small_end, cut_side, bar_side in CASES:
        read = drawn(small_end, cut_side, bar_side, text=text)
        assert any(each.text.startswith("stack goes here") for each in read.words())


def test_a_short_height_is_whole_in_the_picture() -> None:
    for case in CASES:
        texts = " ".join(each.text for each in drawn(*case).words())
        assert HEIGHT in texts
        texts = " ".join(each.text for each in drawn(*case, text="0.1003 in").words())
        assert "stack goes here: 0.1003 in" in texts


def test_a_bore_is_said_to_swing_alike() -> None:
    plan = plan_view(0.025, "headstock", "operator", "far", 100.0)
    read = assert_sound(lathe_from_above(plan, HEIGHT, form="internal"))
    assert any("bore" in each.text for each in read.words())
    assert not any("bore" in each.text for each in assert_sound(lathe_from_above(plan, HEIGHT)).words())


def test_the_same_case_is_the_same_picture() -> None:
    plan = plan_view(0.025, "headstock", "far", "far", 100.0)
    assert lathe_from_above(plan, HEIGHT) == lathe_from_above(plan, HEIGHT)
