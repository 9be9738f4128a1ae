"""The lathe seen from above: which way the top slide swings and which roller of the sine bar takes the stack.

Everything follows from vectors in one plan; there is no table of cases.

Axes, as the operator sees the lathe from above with the headstock on the left: x runs along the work's
axis towards the tailstock, y runs away from the operator. The work's axis is y = 0. Angles grow
anticlockwise as seen from above.

How the sine bar is used: it lies beside the top slide with its two rollers ("pins" in the names here) towards
the top slide's side face. One roller touches the face direct, the other through the stack. Bar and top slide
ride on the carriage together. The top slide is swung until the bar's working face lies parallel to the work's
axis: an indicator that stands on bed, headstock or tailstock bears on it while the carriage takes it past;
one that rode on the carriage would read alike at any angle. The roller that stands further from the face is
therefore the one that takes the stack.

Source: plane geometry; the stack itself is the sine-bar relation H = C · sin(half angle).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, isfinite, pi, sin

Point = tuple[float, float]

ENDS = ("tailstock", "headstock")
SIDES = ("operator", "far")


@dataclass(frozen=True, slots=True)
class PlanView:
    """The slide, the bar and the stack in plan, with the slide's pivot at the origin.

    Lengths are [mm], angles [rad]; points and directions are (x, y) in the axes of this module.

    `half_angle`, `small_end`, `cut_side`, `bar_side`, `bar_centres`, `roller_diameter`, `slide_width` are
    what was asked. `surface_direction` runs along the surface that is cut, towards the tailstock, and is the
    slide's own direction. `slide_angle` is its angle to the axis, anticlockwise positive. `swing` is
    "anticlockwise", "clockwise", or "none" for a cylinder. `stack_pin` is "headstock", "tailstock", or
    "none". `face_point` is a point of the side face that the bar lies against and `face_normal` points from
    that face to the bar. A gap is the clear distance square to the face between a pin and the face.
    """

    half_angle: float
    small_end: str
    cut_side: str
    bar_side: str
    bar_centres: float
    roller_diameter: float
    slide_width: float
    surface_direction: Point
    slide_angle: float
    swing: str
    stack_pin: str
    face_point: Point
    face_normal: Point
    headstock_pin: Point
    tailstock_pin: Point
    headstock_gap: float
    tailstock_gap: float

    @property
    def stack_height(self) -> float:
        """The larger gap [mm], which the stack fills: C · sin(half angle) for equal rollers."""
        return max(self.headstock_gap, self.tailstock_gap)

    def pin(self, end: str) -> Point:
        """The centre [mm] of the pin nearer to `end`, "headstock" or "tailstock"."""
        return self.headstock_pin if _one_of(end, ENDS, "pin") == "headstock" else self.tailstock_pin

    def gap(self, end: str) -> float:
        """The gap [mm] at the pin nearer to `end`, "headstock" or "tailstock"."""
        return self.headstock_gap if _one_of(end, ENDS, "pin") == "headstock" else self.tailstock_gap

    def foot(self, end: str) -> Point:
        """The point [mm] of the slide's face square below the pin nearer to `end`."""
        x, y = self.pin(end)
        normal = self.face_normal
        off_face = _dot((x - self.face_point[0], y - self.face_point[1]), normal)
        return (x - off_face * normal[0], y - off_face * normal[1])


def plan_view(
    half_angle: float,
    small_end: str,
    cut_side: str,
    bar_side: str,
    bar_centres: float,
    roller_diameter: float = 20.0,
    slide_width: float = 60.0,
) -> PlanView:
    """Lay out slide, bar and stack for one taper.

    `half_angle` [rad], from 0 to less than a right angle. `small_end` is the end of the lathe that the
    small end of the taper points to, "tailstock" or "headstock". `cut_side` is the side of the work's axis
    on which the tool cuts, "operator" or "far"; for boring it is the side the tip is on, so plug and socket
    need no difference here. `bar_side` is the side of the slide on which the bar lies, "operator" or "far".
    `bar_centres` [mm], between the roller centres; `roller_diameter` [mm], both alike; `slide_width` [mm]
    places the face only and changes neither swing, pin nor gap.

    Raises ValueError for a length or angle outside those limits and for any other word.
    """
    if not (isfinite(half_angle) and 0.0 <= half_angle < pi / 2):
        raise ValueError("the half angle must lie between 0 and less than 90 degrees")
    for length, name in (
        (bar_centres, "distance between roller centres"),
        (roller_diameter, "roller diameter"),
        (slide_width, "width of the slide"),
    ):
        if not (isfinite(length) and length > 0.0):
            raise ValueError(f"the {name} must be more than nothing")
    towards_small_end = 1.0 if _one_of(small_end, ENDS, "small end") == "tailstock" else -1.0
    cut = 1.0 if _one_of(cut_side, SIDES, "cut side") == "far" else -1.0
    bar = 1.0 if _one_of(bar_side, SIDES, "bar side") == "far" else -1.0

    # Walking to the small end the cut surface closes on the axis, so it runs along this vector; turned
    # end for end where needed so that it points to the tailstock, because a slide has no front or back.
    to_small_end = (towards_small_end * cos(half_angle), -cut * sin(half_angle))
    along = (to_small_end[0] * towards_small_end, to_small_end[1] * towards_small_end)
    slide_angle = atan2(along[1], along[0])
    turn = along[1]  # cross product of the axis (1, 0) with the slide: positive is anticlockwise

    # Square to the slide, on the side the bar lies on.
    normal = (-along[1] * bar, along[0] * bar)
    face_point = (normal[0] * slide_width / 2, normal[1] * slide_width / 2)

    # The bar is parallel to the axis, so its pins stand at half its length either way along x. How far each
    # stands off the face, beyond the bar's middle, decides which one touches.
    headstock_off = _dot((-bar_centres / 2, 0.0), normal)
    tailstock_off = _dot((bar_centres / 2, 0.0), normal)
    nearest = min(headstock_off, tailstock_off)
    middle_off = slide_width / 2 + roller_diameter / 2 - nearest
    middle = (normal[0] * middle_off, normal[1] * middle_off)

    lean = _dot((1.0, 0.0), normal)  # positive: the tailstock pin stands further off than the other
    return PlanView(
        half_angle=half_angle,
        small_end=small_end,
        cut_side=cut_side,
        bar_side=bar_side,
        bar_centres=bar_centres,
        roller_diameter=roller_diameter,
        slide_width=slide_width,
        surface_direction=along,
        slide_angle=slide_angle,
        swing="anticlockwise" if turn > 0 else "clockwise" if turn < 0 else "none",
        stack_pin="tailstock" if lean > 0 else "headstock" if lean < 0 else "none",
        face_point=face_point,
        face_normal=normal,
        headstock_pin=(middle[0] - bar_centres / 2, middle[1]),
        tailstock_pin=(middle[0] + bar_centres / 2, middle[1]),
        headstock_gap=headstock_off - nearest,
        tailstock_gap=tailstock_off - nearest,
    )


def _dot(first: Point, second: Point) -> float:
    return first[0] * second[0] + first[1] * second[1]


def _one_of(word: str, words: tuple[str, ...], name: str) -> str:
    if word not in words:
        raise ValueError(f"the {name} must be one of: {', '.join(words)}")
    return word
