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


def drawn(
    small_end: str,
    cut_side: str,
    bar_side: str,
    true: float = 1.43,
    text: str = HEIGHT,
    form: str = "external",
) -> Read:
    plan = plan_view(radians(true), small_end, cut_side, bar_side, 100.0)
    return assert_sound(lathe_from_above(plan, text, form))


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
    assert ("(counterclockwise)" in texts) == anticlockwise
    assert "angle drawn larger" in texts
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
    assert sorted(each.text for each in words) == ["headstock", "tailstock"]
    for each in words:
        assert each.right < 90 if each.text == "headstock" else each.left > 250
    for name, part in (("sine bar", bar), ("top slide", slide)):
        (word,) = [each for each in read.words() if each.text == name]
        assert within(word, part)
    (operator,) = (each for each in read.words() if each.text == "operator here")
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
    assert f"stack under the {stacked} roller" in (read.root[0].text or "")
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
    (label,) = (each for each in read.words() if each.text == f"stack {HEIGHT}")
    x, y = leader[-1]
    assert min(abs(y - label.top), abs(y - label.bottom)) < 24
    assert label.left - 2 <= x <= label.right + 2
    # No word but a part's own name lies on a part, and the leader runs through no word.
    for each in read.words():
        for name, part in parts.items():
            own = {"bar": "sine bar", "slide": "top slide", "headstock": "headstock"}.get(name)
            corners_of = [(each.left, each.top), (each.right, each.top), (each.left, each.bottom)]
            corners_of += [(each.right, each.bottom), centre(corners_of)]
            assert each.text == own or not any(inside(corner, part) for corner in corners_of), (each, name)
        if each is not label:
            box = [
                (each.left, each.top),
                (each.right, each.top),
                (each.right, each.bottom),
                (each.left, each.bottom),
            ]
            assert not any(inside(point, box) for point in along(leader, closed=False)), each


every_form = pytest.mark.parametrize("form", ["external", "internal"])


@every_case
@every_form
def test_the_indicator_bears_on_the_working_face(
    small_end: str, cut_side: str, bar_side: str, form: str
) -> None:
    """On the sine bar's side away from the slide, and on nothing that rides on the carriage."""
    read = drawn(small_end, cut_side, bar_side, form=form)
    bar, slide = read.corners("bar"), read.corners("slide")
    (body, point) = corners(read.part("dial-plunger"))
    assert distance(point, bar) < 0.05
    assert (point[1] - centre(bar)[1]) * (centre(slide)[1] - centre(bar)[1]) < 0
    assert body[0] == pytest.approx(point[0]) and not inside(body, bar) and not inside(body, slide)
    middle, radius = read.circle("dial")
    for part in ("bar", "slide", "work", "tailstock", "headstock"):
        assert distance(middle, read.corners(part)) > radius, part
    words = [each for each in read.words() if each.text in ("indicator", "on the bed")]
    assert len(words) == 2 and all(each.left > middle[0] + radius for each in words)


@every_case
def test_a_bore_is_cut_through_with_the_boring_bar_in_it(
    small_end: str, cut_side: str, bar_side: str
) -> None:
    read = drawn(small_end, cut_side, bar_side, form="internal")
    axis_y = read.corners("axis")[0][1]
    down = 1 if cut_side == "operator" else -1
    walls = [corners(each) for each in read.parts("wall")]
    (wall,) = [each for each in walls if (centre(each)[1] - axis_y) * down > 0]
    (other,) = [each for each in walls if each is not wall]
    bar, tool = read.corners("boring-bar"), read.corners("tool")
    tip = max(tool, key=lambda point: (point[1] - axis_y) * down)
    assert distance(tip, wall) < 0.1
    assert not any(inside(point, each) for each in (wall, other) for point in along(bar))
    # The wall at the tip lies along the top slide, and the bore is narrow at its small end.
    steps = [
        (one, two)
        for one, two in zip(wall, wall[1:], strict=False)
        if min(one[0], two[0]) < tip[0] < max(one[0], two[0]) and distance(tip, [one, two]) < 0.1
    ]
    ((left, right),) = [tuple(sorted(step)) for step in steps]
    assert isclose(degrees(atan2(left[1] - right[1], right[0] - left[0])), slide_slope(read), abs_tol=0.05)
    assert (abs(left[1] - axis_y) > abs(right[1] - axis_y)) == (small_end == "tailstock")
    # The bar goes in by the open end, away from the headstock, from a post clear of the work.
    assert max(x for x, _ in bar) > max(x for x, _ in wall) > min(x for x, _ in bar)
    assert min(x for x, _ in read.corners("post")) > max(x for x, _ in wall)


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
@every_form
def test_any_height_text_is_safe_and_fits(text: str, form: str) -> None:
    for small_end, cut_side, bar_side in CASES:
        read = drawn(small_end, cut_side, bar_side, text=text, form=form)
        assert any(each.text.startswith("stack") for each in read.words())


def test_a_short_height_is_whole_in_the_picture() -> None:
    for case in CASES:
        assert f"stack {HEIGHT}" in [each.text for each in drawn(*case).words()]


def test_the_same_case_is_the_same_picture() -> None:
    plan = plan_view(0.025, "headstock", "far", "far", 100.0)
    assert lathe_from_above(plan, HEIGHT) == lathe_from_above(plan, HEIGHT)
