"""The pictures of the ways of setting, read back from the pictures alone.

Expected: the turner's rule for the swing (common practice), and that what touches in the shop touches here.
"""

from __future__ import annotations

import math
from itertools import product
from math import atan2, degrees, dist

import pytest

from calc.drawings.ways import way_picture
from calc.setting.plan import ENDS, SIDES
from drawings.reading import Point, Read, along, assert_sound, centre, corners, distance, inside
from setting.told import BY_ID, task_for

CASES = list(product(ENDS, SIDES))
every_case = pytest.mark.parametrize(("small_end", "cut_side"), CASES)
TOLD: list[tuple[str, dict[str, float | str]]] = [
    ("one_dial", {}),
    ("one_dial", {"plunger": "slide"}),
    ("two_dials", {}),
    ("two_dials", {"travel_along": "axis"}),
    ("two_dials", {"travel_along": "carriage"}),
    ("master", {}),
    ("master", {"master_lies": "headstock"}),
    ("master", {"master_rate": 0.051}),
    ("set_over", {}),
    ("attachment", {}),
    ("attachment", {"attachment_scale": "degrees"}),
    ("collars", {}),
    ("graduations", {}),
    ("graduations", {"zero": "across"}),
    ("plate", {}),
    ("plate", {"plate_angle": "half"}),
    ("plate", {"plate_from": "upright"}),
]


def drawn(
    name: str,
    told: dict[str, float | str] | None = None,
    small_end: str = "tailstock",
    cut_side: str = "operator",
    half_angle: float = 0.025,
    system: str = "mm",
    form: str = "external",
) -> Read:
    way = BY_ID[name]
    task = task_for(way, half_angle, told, small_end=small_end, cut_side=cut_side, system=system, form=form)
    return assert_sound(way_picture(name, task, way.set_up(task)))


def longest(points: list[Point]) -> tuple[Point, Point]:
    """The ends of the longest side, the left one first."""
    sides = zip(points, points[1:] + points[:1], strict=True)
    start, end = max(sides, key=lambda side: dist(*side))
    return (start, end) if start[0] < end[0] else (end, start)


def slope(points: list[Point]) -> float:
    """Rise to the right, as seen, in degrees."""
    left, right = longest(points)
    return degrees(atan2(left[1] - right[1], right[0] - left[0]))


@every_case
@pytest.mark.parametrize(("name", "told"), TOLD, ids=lambda each: str(each))
@pytest.mark.parametrize("system", ["mm", "inch"])
def test_sound(name: str, told: dict[str, float | str], small_end: str, cut_side: str, system: str) -> None:
    for half_angle in (0.0, 0.0001, 0.025, 0.14):
        if name == "plate" and told.get("plate_from") == "upright":
            half_angle += 0.5
        if "master_rate" in told and half_angle != 0.025:
            continue
        read = drawn(name, told, small_end, cut_side, half_angle, system)
        words = [each.text for each in read.words()]
        if name != "plate":
            assert "operator here" in words
        assert any("drawn" in each or "scale" in each or "cylinder" in each for each in words)


OWN = {
    "headstock": "headstock",
    "slide": "top slide",
    "test-bar": "test bar",
    "master": "master",
    "guide": "guide bar",
}


@every_case
@pytest.mark.parametrize(("name", "told"), TOLD, ids=lambda each: str(each))
@pytest.mark.parametrize("form", ["external", "internal"])
def test_no_word_covers_a_part(
    name: str, told: dict[str, float | str], form: str, small_end: str, cut_side: str
) -> None:
    """Each word stands clear of every body and arrow but the one that it names."""
    if form == "internal" and name == "set_over":
        return
    half_angle = 0.5 if told.get("plate_from") == "upright" else 0.025
    read = drawn(name, told, small_end, cut_side, half_angle, form=form)
    for part in ("slide", "work", "test-bar", "master", "headstock", "tailstock", "guide", "tool", "post"):
        for element in read.parts(part):
            outline = along(corners(element))
            for each in read.words():
                box = [(each.left, each.top), (each.right, each.top), (each.right, each.bottom)]
                box.append((each.left, each.bottom))
                over = any(inside(point, box) for point in outline)
                within = inside(centre(box), corners(element))
                assert each.text == OWN.get(part) or not (over or within), (each, part)


def test_steep_and_flat_are_drawn() -> None:
    for name, half_angle in (("one_dial", 1.0), ("graduations", 1.4), ("collars", 0.78), ("plate", 0.5)):
        drawn(name, half_angle=half_angle)


def test_a_way_without_a_picture() -> None:
    way = BY_ID["bar"]
    task = task_for(way, 0.025, {"bar_centres": 100.0})
    assert way_picture("bar", task, way.set_up(task)) == ""


@every_case
@pytest.mark.parametrize("name", ["one_dial", "two_dials", "master", "collars", "attachment", "graduations"])
def test_the_swing(name: str, small_end: str, cut_side: str) -> None:
    read = drawn(name, {}, small_end, cut_side)
    part = read.corners("guide" if name == "attachment" else "slide")
    anticlockwise = (small_end == "tailstock") == (cut_side == "operator")
    assert 8.0 <= abs(slope(part)) <= 14.0
    assert (slope(part) > 0.0) == anticlockwise
    said = " ".join(each.text for each in read.words())
    assert ("anticlockwise" in said) == anticlockwise
    assert "clockwise" in said


@every_case
@pytest.mark.parametrize("plunger", ["axis", "slide"])
def test_the_dial_touches_the_bar(plunger: str, small_end: str, cut_side: str) -> None:
    read = drawn("one_dial", {"plunger": plunger}, small_end, cut_side)
    (body, point), bar = corners(read.part("dial-plunger")), read.corners("test-bar")
    assert distance(point, bar) < 0.1
    down = 1.0 if cut_side == "operator" else -1.0
    assert (body[1] - point[1]) * down > 10.0
    lean = degrees(atan2(point[0] - body[0], abs(body[1] - point[1])))
    assert abs(lean) < 0.1 if plunger == "axis" else abs(lean) > 8.0
    if plunger == "slide":
        left, right = longest(read.corners("slide"))
        along = (right[0] - left[0], right[1] - left[1])
        across = (point[0] - body[0]) * along[0] + (point[1] - body[1]) * along[1]
        assert abs(across) < 0.05 * dist(left, right) * dist(body, point)


@every_case
@pytest.mark.parametrize("lies", ENDS)
def test_the_side_of_the_master(lies: str, small_end: str, cut_side: str) -> None:
    """The side that the dial touches is parallel to the slide."""
    read = drawn("master", {"master_lies": lies}, small_end, cut_side)
    _, point = corners(read.part("dial-plunger"))
    outline = read.corners("master")
    assert distance(point, outline) < 0.1
    sides = list(zip(outline, outline[1:] + outline[:1], strict=True))
    (touched,) = [side for side in sides if side[0][0] != side[1][0] and distance(point, list(side)) < 0.1]
    left, right = sorted(touched)
    rise = degrees(atan2(left[1] - right[1], right[0] - left[0]))
    assert rise == pytest.approx(slope(read.corners("slide")), abs=0.1)


@every_case
def test_set_over(small_end: str, cut_side: str) -> None:
    """The tailstock goes where it is said to, and the flank under the tool lies along the bed."""
    read = drawn("set_over", {}, small_end, cut_side)
    bed = read.corners("bed-line")[0][1]
    over = read.corners("axis")[1][1] - bed
    towards_operator = (small_end == "tailstock") == (cut_side == "operator")
    assert (over > 5.0) == towards_operator and abs(over) > 5.0
    words = [each.text for each in read.words()]
    assert ("towards the operator" in words) == towards_operator
    assert any(each.startswith("tailstock over by ") for each in words)
    tool = read.corners("tool")
    tip = min(tool, key=lambda point: abs(point[1] - bed))
    work = read.corners("work")
    assert distance(tip, work) < 0.1
    assert all((y - bed) * (1 if cut_side == "operator" else -1) > 0 for _, y in tool)
    sides = zip(work, work[1:] + work[:1], strict=True)
    (flank,) = [side for side in sides if distance(tip, list(side)) < 0.1]
    assert flank[0][1] == pytest.approx(flank[1][1], abs=0.05)


@every_case
def test_the_guide_lies_along_the_flank(small_end: str, cut_side: str) -> None:
    read = drawn("attachment", {}, small_end, cut_side)
    work, tool = read.corners("work"), read.corners("tool")
    axis = read.corners("axis")[0][1]
    tip = min(tool, key=lambda point: abs(point[1] - axis))
    (flank,) = [
        side
        for side in zip(work, work[1:] + work[:1], strict=True)
        if abs(side[0][0] - side[1][0]) > 20 and distance(tip, list(side)) < 0.1
    ]
    left, right = sorted(flank)
    rise = degrees(atan2(left[1] - right[1], right[0] - left[0]))
    assert rise == pytest.approx(slope(read.corners("guide")), abs=0.1)
    assert centre(read.corners("guide"))[1] < axis - 60.0


@every_case
def test_the_attachment_bores_along_the_guide(small_end: str, cut_side: str) -> None:
    """The boring bar's tip touches the bore's wall on the side cut, and that wall lies along the guide."""
    read = drawn("attachment", {}, small_end, cut_side, form="internal")
    axis_y, down = read.corners("axis")[0][1], 1.0 if cut_side == "operator" else -1.0
    tip = max(read.corners("tool"), key=lambda point: (point[1] - axis_y) * down)
    (wall,) = [each for each in map(corners, read.parts("wall")) if (centre(each)[1] - axis_y) * down > 0]
    assert distance(tip, wall) < 0.1
    (touched,) = [
        (one, two)
        for one, two in zip(wall, wall[1:], strict=False)
        if distance(tip, [one, two]) < 0.1 and one[0] != two[0]
    ]
    left, right = sorted(touched)
    assert degrees(atan2(left[1] - right[1], right[0] - left[0])) == pytest.approx(
        slope(read.corners("guide")), abs=0.1
    )
    assert not any(inside(point, wall) for point in along(read.corners("boring-bar")))
    assert not read.parts("centre") and "boring bar" in [each.text for each in read.words()]


def test_between_centres_a_carrier_drives() -> None:
    read = drawn("set_over")
    words = {each.text: each for each in read.words()}
    middle = centre(read.corners("carrier"))[0]
    assert read.corners("headstock")[1][0] < middle < 120 and "carrier (dog)" in words


@every_case
def test_collars_lie_on_one_cone(small_end: str, cut_side: str) -> None:
    read = drawn("collars", {}, small_end, cut_side)
    axis = read.corners("axis")[0][1]
    tops = []
    for part in read.parts("collar"):
        points = corners(part)
        left = min(x for x, _ in points)
        right = max(x for x, _ in points)
        tops += [max(y for x, y in points if x == at) - axis for at in (left, right)]
    assert len(tops) == 4
    falls = all(one > other for one, other in zip(tops, tops[1:], strict=False))
    rises = all(one < other for one, other in zip(tops, tops[1:], strict=False))
    assert falls if small_end == "tailstock" else rises
    # The measure runs between like edges, those towards the large end.
    ends = sorted(x for x, _ in read.corners("distance"))
    like = min if small_end == "tailstock" else max
    edges = [like(x for x, _ in corners(part)) for part in read.parts("collar")]
    assert ends == pytest.approx(sorted(edges))


def test_the_taper_on_the_bar_is_level() -> None:
    read = drawn("plate")
    top = sorted(read.corners("taper"), key=lambda point: point[1])[:2]
    assert top[0][1] == pytest.approx(top[1][1], abs=0.01)
    assert 10.0 < slope(read.corners("bar")) < 15.0
    stack, (high, radius) = read.corners("stack"), read.circle("high-roller")
    assert min(y for _, y in stack) == pytest.approx(high[1] + radius, abs=0.01)
    (_, low_y), low_radius = read.circle("low-roller")
    assert max(y for _, y in stack) == pytest.approx(low_y + low_radius, abs=0.01)
    (low_x, _), _ = read.circle("low-roller")
    assert math.hypot(high[0] - low_x, high[1] - low_y) == pytest.approx(186.0, abs=0.1)
