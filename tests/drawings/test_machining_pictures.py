"""Pictures of the blank, the tang and the spigot's fit, read back from their SVG."""

from __future__ import annotations

from itertools import combinations, pairwise, product
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.drawings import leaders
from calc.drawings.blank import BlankView, blank_picture
from calc.drawings.socket_blank import socket_blank_picture
from calc.drawings.spigot import FitView, fit_picture
from calc.drawings.svg import Picture
from calc.drawings.tang import TangView, tang_picture
from drawings.reading import HOSTILE, Point, Read, along, assert_sound, corners

WORDS = {
    "stock": "26.00 mm",
    "length": "146.0 mm",
    "rough": "24.38 mm",
    "rough_length": "100.0 mm",
    "shank": "99.0 mm",
    "large": "24.076 mm",
    "small": "19.759 mm",
    "end": "18.50 mm at most",
    "end_length": "13.0 mm",
    "head": "24.00 mm",
    "head_length": "20.0 mm",
    "centre": "2.50 mm pilot",
}
MORSE_3 = BlankView(26.0, 1.0, 25.0, (20.0, 24.0), 99.0, 24.4, (13.0, 18.5), 24.08, 19.76, 5.3)


def _box(points: list[tuple[float, float]]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("small_end", ["tailstock", "headstock"])
def test_blank_lies_inside_its_bar(small_end: str) -> None:
    read = assert_sound(blank_picture(MORSE_3, WORDS, small_end, "tang"))
    bar, part = _box(read.corners("bar")), _box(read.corners("finished"))
    assert bar[0] < part[0] < part[2] < bar[2] and bar[1] < part[1] < part[3] < bar[3]
    # The holding end is the one away from the small end.
    assert (bar[2] - part[2] < part[0] - bar[0]) == (small_end == "tailstock")
    # Lengths to scale: 119 of 146 mm; diameters to one scale of their own.
    assert (part[2] - part[0]) / (bar[2] - bar[0]) == pytest.approx(119 / 146, abs=0.001)
    assert (part[3] - part[1]) / (bar[3] - bar[1]) == pytest.approx(24.08 / 26, abs=0.002)
    assert any("diameters drawn larger than true" in each.text for each in read.words())
    # Every measure stands in the picture, with a line to its place: a diameter's ends at its own measure.
    words = read.words()
    assert not any("…" in each.text for each in words)
    assert all(any(word in each.text for each in words) for word in WORDS.values())
    leaders = [corners(each) for each in read.parts("leader")]
    for key in ("stock", "rough", "large", "small", "end", "head"):
        (label,) = [each for each in words if each.text.endswith(WORDS[key]) and "length" not in each.text]
        measure = corners(read.part(f"diameter-{key}"))
        (line,) = [each for each in leaders if each[-1] in measure]
        x, y = line[0]
        assert label.left - 4 <= x <= label.right + 4 and label.top <= y <= label.bottom + 2
        assert not any(
            each.left < x < each.right and each.top < y < each.bottom
            for each in words
            for x, y in along(line, closed=False)[2:]
        )
    assert "shank 99.0 mm" in [each.text for each in words]


@given(st.lists(st.floats(min_value=5.0, max_value=335.0), min_size=1, max_size=6), st.booleans(), st.data())
def test_lines_to_places_cross_neither_each_other_nor_words(
    places: list[float], from_right: bool, data: st.DataObject
) -> None:
    picture = Picture()
    texts = [data.draw(st.text("bar ", min_size=1, max_size=30)) for _ in places]
    foot = leaders.height(len(places)) + 40.0
    leaders.lead(
        picture, 4.0, [((x, foot), text, "1 mm") for x, text in zip(places, texts, strict=True)], from_right
    )
    read = assert_sound(picture.finished(foot + 10, "lines", "to places"))
    lines = [corners(each) for each in read.parts("leader")]
    assert sorted(line[-1][0] for line in lines) == pytest.approx(sorted(places), abs=0.01)
    for one, other in combinations(lines, 2):
        for (a, b), (c, d) in product(pairwise(one), pairwise(other)):
            assert not _cross(a, b, c, d)
    for line in lines:
        for x, y in along(line, closed=False)[3:]:
            assert not any(
                each.left < x < each.right and each.top < y < each.bottom - 1 for each in read.words()
            )


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two stretches run through each other, touching left aside."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    eps = 1e-3
    return (
        side(a, b, c) * side(a, b, d) < -eps
        and side(c, d, a) * side(c, d, b) < -eps
        and min(abs(side(a, b, c)), abs(side(a, b, d)), abs(side(c, d, a)), abs(side(c, d, b))) > eps
    )


lengths = st.floats(min_value=0.0, max_value=300.0)


@given(
    st.floats(min_value=3.0, max_value=250.0),
    lengths,
    lengths,
    st.floats(min_value=5.0, max_value=500.0),
    st.booleans(),
    st.booleans(),
    st.sampled_from(["tailstock", "headstock"]),
)
def test_blank_is_sound_at_any_size(
    stock: float, holding: float, head: float, shank: float, tang: bool, headed: bool, small_end: str
) -> None:
    view = BlankView(
        stock,
        1.0,
        holding,
        (head, stock * 0.9) if headed and head > 0 else None,
        shank,
        stock * 0.93,
        (shank * 0.2, stock * 0.6) if tang else None,
        stock * 0.9,
        stock * 0.7,
        stock * 0.2,
    )
    assert_sound(blank_picture(view, WORDS, small_end))


def test_tang_is_true_to_its_numbers() -> None:
    words = {
        "diameter": "18.50 mm",
        "depth": "5.30 mm",
        "thickness": "7.68 to 7.90 mm",
        "across": "13.20 mm",
        "length": "13.00 mm",
        "radius": "7.00 mm",
    }
    read = assert_sound(tang_picture(TangView(18.5, 7.9, 13.0, 7.0), words))
    texts = [each.text for each in read.words()]
    assert not any("…" in text for text in texts) and not any(len(text) == 1 for text in texts)
    for measure in words.values():
        assert sum(measure in text for text in texts) == 1, measure
    (_, centre_y), radius = read.circle("round")
    scale = 2 * radius / 18.5
    flats = sorted(corners(each)[0][1] for each in read.parts("flat"))
    assert flats[1] - flats[0] == pytest.approx(7.9 * scale, abs=0.05)
    assert (flats[0] + flats[1]) / 2 == pytest.approx(centre_y, abs=0.02)
    for each in read.parts("flat"):  # both ends of each flat lie on the round
        for x, y in corners(each):
            assert hypot(x - read.circle("round")[0][0], y - centre_y) == pytest.approx(radius, abs=0.05)
    depth = corners(read.part("depth"))
    assert abs(depth[1][1] - depth[0][1]) == pytest.approx(5.3 * scale, abs=0.05)
    across = corners(read.part("across"))
    assert across[0][1] == pytest.approx(flats[0], abs=0.05)
    long = corners(read.part("dimension"))
    assert abs(long[1][0] - long[0][0]) == pytest.approx(13.0 * scale, abs=0.05)
    assert any(each.text == "drawn to scale" for each in read.words())


@given(
    st.floats(min_value=1.0, max_value=200.0),
    st.floats(min_value=0.05, max_value=0.98),
    st.floats(min_value=0.1, max_value=5.0),
    st.floats(min_value=0.02, max_value=2.0),
)
def test_tang_is_sound_at_any_size(diameter: float, thick: float, long: float, cutter: float) -> None:
    view = TangView(diameter, diameter * thick, diameter * long, diameter * cutter)
    words = {name: "888.88 mm" for name in ("diameter", "depth", "thickness", "across", "length", "radius")}
    assert_sound(tang_picture(view, words))


def _zones(svg: str) -> tuple[float, tuple[float, float], tuple[float, float]]:
    read = Read(svg)
    line = corners(read.part("nominal"))[0][1]
    hole, spigot = (_box(read.corners(name)) for name in ("hole", "spigot"))
    return line, (hole[1], hole[3]), (spigot[1], spigot[3])


def test_zones_lie_as_their_numbers() -> None:
    """H7/g6 at 25.4 mm: hole 0 to 21, spigot -20 to -7 µm: the spigot below the line."""
    line, hole, spigot = _zones(fit_picture(FitView((0.0, 21.0), (-20.0, -7.0)), {"hole": "hole H7"}))
    scale = (hole[1] - hole[0]) / 21.0
    assert hole[1] == pytest.approx(line, abs=0.02)
    assert (spigot[0] - line) / scale == pytest.approx(7.0, abs=0.05)
    assert (spigot[1] - line) / scale == pytest.approx(20.0, abs=0.05)


@given(
    st.tuples(st.floats(-500, 500), st.floats(0.5, 500)),
    st.tuples(st.floats(-500, 500), st.floats(0.5, 500)),
    st.none() | st.floats(-1e5, 1e5),
)
def test_zones_are_sound(hole: tuple[float, float], spigot: tuple[float, float], now: float | None) -> None:
    view = FitView((hole[0], sum(hole)), (spigot[0], sum(spigot)), now)
    words = {
        "nominal": "25.40 mm",
        "hole": "hole H7",
        "spigot": "spigot g6",
        "hole_limits": "25.400 to 25.421 mm",
        "spigot_limits": "25.380 to 25.393 mm",
        "clearance": "0.007 to 0.041 mm",
        "now": "25.55 mm",
    }
    assert_sound(fit_picture(view, words))


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_stay_words(text: str) -> None:
    assert_sound(blank_picture(MORSE_3, dict.fromkeys(WORDS, text), "tailstock", text))
    assert_sound(tang_picture(TangView(18.5, 7.9, 13.0, 7.0), dict.fromkeys(("depth", "radius"), text)))
    assert_sound(
        fit_picture(FitView((0.0, 21.0), (-20.0, -7.0)), dict.fromkeys(("hole", "now", "nominal"), text))
    )


@pytest.mark.parametrize("small_end", ["tailstock", "headstock"])
def test_a_socket_is_drilled_inside_its_taper(small_end: str) -> None:
    """A Morse 3 sized bore: the hole is narrower than the taper all along, open to the tailstock."""
    svg = socket_blank_picture((23.825, 19.76, 81.0), (18.0, 86.0), ("18 mm", "86.0 mm"), small_end)
    read = assert_sound(svg)
    body, hole = _box(read.corners("body")), _box(read.corners("drilled"))
    assert body[0] < hole[0] and hole[2] == body[2] and body[1] < hole[1] and hole[3] < body[3]
    upper, lower = (corners(each) for each in read.parts("taper"))
    assert all(y < hole[1] for _, y in upper) and all(y > hole[3] for _, y in lower)
    (x1, y1), (x2, y2) = upper
    narrow_right = (y1 > y2) == (x1 > x2)
    assert narrow_right == (small_end == "tailstock")
    (left, _), (right, _) = corners(read.part("dimension"))
    assert (right - left) / abs(x1 - x2) == pytest.approx(86.0 / 81.0, abs=0.001)
    assert (lower[0][1] - upper[0][1]) / (hole[3] - hole[1]) == pytest.approx(
        (19.76 if small_end == "tailstock" else 23.825) / 18.0, abs=0.01
    )
    assert "drill 18 mm, 86.0 mm deep" in [each.text for each in read.words()]


@given(
    st.floats(1.0, 200.0),
    st.floats(0.05, 1.0),
    st.floats(1.0, 600.0),
    st.floats(0.1, 1.2),
    st.floats(0.5, 2.0),
)
def test_a_socket_is_sound_at_any_size(
    large: float, share: float, length: float, drill: float, deep: float
) -> None:
    small = large * share
    for text in ("18 mm", *HOSTILE[:3]):
        sizes = (large, small, length)
        assert_sound(socket_blank_picture(sizes, (small * drill, length * deep), (text, text), "headstock"))
