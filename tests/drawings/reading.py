"""Reads a picture back from its SVG text, knowing nothing of how it was drawn."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from itertools import combinations
from math import cos, hypot, radians, sin
from xml.etree import ElementTree

SPACE = "{http://www.w3.org/2000/svg}"
Point = tuple[float, float]

HOSTILE = (
    "<script>alert(1)</script>",
    "\"' onload='x' & &amp; ]]> <!-- <![CDATA[",
    "🔩" * 40,
    "n" * 500,
    "a\x00b\x1bc\ud800d\ufffe\u202ee\u200b",
    "two\nlines\tand tabs",
    "</text></svg>",
)


@dataclass(frozen=True)
class Words:
    """One line of text and the box that it takes, at 0.6 em a letter, 0.66 in bold, wide ones twice."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    size: float


class Read:
    """A picture's size, words and named parts."""

    def __init__(self, svg: str) -> None:
        self.root = ElementTree.fromstring(svg)
        left, top, self.width, self.height = map(float, self.root.attrib["viewBox"].split())
        assert (left, top) == (0, 0)
        for group in self.root.iter(f"{SPACE}g"):
            # What a group says counts for each member that says nothing else.
            for member in group:
                for name, value in group.attrib.items():
                    member.attrib.setdefault(name, value)

    def words(self) -> list[Words]:
        found = []
        for element in self.root.iter(f"{SPACE}text"):
            text, size = element.text or "", float(element.attrib["font-size"])
            columns = sum(2 if unicodedata.east_asian_width(letter) in "WF" else 1 for letter in text)
            width = columns * (0.66 if "font-weight" in element.attrib else 0.6) * size
            x, y = float(element.attrib["x"]), float(element.attrib["y"])
            left = x - {"start": 0.0, "middle": width / 2, "end": width}[element.attrib["text-anchor"]]
            box = [(left, y - 0.75 * size), (left + width, y + 0.2 * size)]
            turn = element.attrib.get("transform", "").removeprefix("rotate(").removesuffix(")").split()
            if turn:
                # The upright box around a line that lies along a swung part.
                angle, (px, py) = radians(float(turn[0])), (float(turn[1]), float(turn[2]))
                (x1, y1), (x2, y2) = box
                box = [
                    (
                        px + (bx - px) * cos(angle) - (by - py) * sin(angle),
                        py + (bx - px) * sin(angle) + (by - py) * cos(angle),
                    )
                    for bx, by in ((x1, y1), (x2, y1), (x2, y2), (x1, y2))
                ]
            xs, ys = [at[0] for at in box], [at[1] for at in box]
            found.append(Words(text, min(xs), min(ys), max(xs), max(ys), size))
        return found

    def parts(self, name: str) -> list[ElementTree.Element]:
        return [element for element in self.root.iter() if element.attrib.get("class") == name]

    def part(self, name: str) -> ElementTree.Element:
        (only,) = self.parts(name)
        return only

    def corners(self, name: str) -> list[Point]:
        return corners(self.part(name))

    def circle(self, name: str) -> tuple[Point, float]:
        attributes = self.part(name).attrib
        return (float(attributes["cx"]), float(attributes["cy"])), float(attributes["r"])


def corners(element: ElementTree.Element) -> list[Point]:
    """Corners of a polygon, a line or a rectangle."""
    attributes = element.attrib
    if "points" in attributes:
        pairs = [pair.split(",") for pair in attributes["points"].split()]
        return [(float(x), float(y)) for x, y in pairs]
    left, top = float(attributes["x"]), float(attributes["y"])
    right, bottom = left + float(attributes["width"]), top + float(attributes["height"])
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def assert_sound(svg: str) -> Read:
    """What holds for every picture: safe, self-contained, named, and readable on a narrow screen."""
    read = Read(svg)
    assert read.root.tag == f"{SPACE}svg"
    assert read.root.attrib["role"] == "img"
    assert read.root.attrib["width"] == "100%"
    assert (read.root[0].tag, read.root[1].tag) == (f"{SPACE}title", f"{SPACE}desc")
    assert (read.root[0].text or "").strip() and (read.root[1].text or "").strip()
    for element in read.root.iter():
        assert element.tag.removeprefix(SPACE) in {
            "svg",
            "g",
            "title",
            "desc",
            "text",
            "rect",
            "circle",
            "polygon",
            "polyline",
            "path",
        }
        assert not {"id", "href", "style"} & set(element.attrib)
        assert not [name for name in element.attrib if name.startswith("on")]
        for paint in ("fill", "stroke"):
            assert element.attrib.get(paint, "none") == "none" or element.attrib[paint].startswith("var(--")
    for each in read.words():
        assert each.size * 320 / read.width >= 12.0, each
        assert each.left >= 0 and each.right <= read.width, each
        assert each.top >= 0 and each.bottom <= read.height, each
    for one, other in combinations(read.words(), 2):
        apart = (
            one.right <= other.left
            or other.right <= one.left
            or one.bottom <= other.top
            or other.bottom <= one.top
        )
        assert apart, (one, other)
    return read


def inside(point: Point, polygon: list[Point]) -> bool:
    """Whether the point lies in the polygon, by counting crossings."""
    x, y = point
    odd = False
    for (x1, y1), (x2, y2) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            odd = not odd
    return odd


def along(points: list[Point], closed: bool = True) -> list[Point]:
    """Points a little apart along a line or an outline."""
    ends = points[1:] + points[:1] if closed else points[1:]
    found = []
    for (x1, y1), (x2, y2) in zip(points, ends, strict=False):
        steps = max(2, int(hypot(x2 - x1, y2 - y1)))
        found += [(x1 + (x2 - x1) * k / steps, y1 + (y2 - y1) * k / steps) for k in range(steps + 1)]
    return found


def distance(point: Point, polygon: list[Point]) -> float:
    """From a point to the nearest point of an outline, measured by walking along its sides."""
    best = float("inf")
    for (x1, y1), (x2, y2) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        length = hypot(x2 - x1, y2 - y1)
        if length == 0.0:
            continue
        share = ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / length**2
        share = min(1.0, max(0.0, share))
        best = min(best, hypot(point[0] - x1 - share * (x2 - x1), point[1] - y1 - share * (y2 - y1)))
    return best


def centre(points: list[Point]) -> Point:
    """The mean of the points."""
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
