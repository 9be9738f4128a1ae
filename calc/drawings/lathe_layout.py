"""Where everything stands in the picture of the lathe from above.

The geometry that answers (calc.setting.plan) is run once more at an angle that the eye can see, and then
moved as a whole to where the picture has room. Axes as there: x along the lathe, y away from the operator,
the work's axis at y = 0; units are the picture's.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from calc.setting.plan import PlanView, Point, plan_view

LEAST_DRAWN, MOST_DRAWN = radians(11.0), radians(14.0)
"""Bounds of the drawn angle: less is lost to the eye, more runs out of the picture."""

# Places along the lathe and sizes, in the picture's units.
PIVOT_X, TOOL_X, BAR_X = 206.0, 122.0, 238.0
BORE_POST_X, BORE_TOOL_X, BORE_LEFT, BORE_RIGHT, BORE_OUTSIDE, BORE_RADIUS = (
    140.0,
    92.0,
    66.0,
    120.0,
    33.0,
    27.0,
)
SLIDE_LEFT, SLIDE_RIGHT, SLIDE_WIDTH, HANDLE = 128.0, 98.0, 28.0, 14.0
BAR_CENTRES, BAR_LENGTH, BAR_DEPTH, ROLLER = 108.0, 152.0, 24.0, 8.0
DIAL, PLUNGER, DIAL_X, INNER_DIAL_X = 10.0, 8.0, 200.0, 199.0
TAPER_LEFT, TAPER_RIGHT, LARGE_RADIUS = 84.0, 176.0, 32.0
POST, ROW, SWING_WORD_END = 14.0, 18.0, 144.0


@dataclass(frozen=True, slots=True)
class Layout:
    """Slide, bar, stack, tool and words, each in its place."""

    shape: PlanView  # the geometry at the drawn angle
    outward: float  # +1 when the slide stands on the far side of the work, -1 on the operator's
    bar_outward: bool  # whether the bar lies on the side of the slide that faces away from the work
    pivot: Point
    post: Point
    tip: Point
    slide: tuple[Point, ...]
    handle: tuple[Point, Point]
    bar_near: float  # y of the sine bar's edge at its rollers
    bar_far: float  # y of its working face, which the indicator sweeps
    dial: Point  # the indicator's middle; its plunger goes straight to the working face
    pins: tuple[tuple[str, Point], ...]
    stack: tuple[Point, ...]  # corners, or empty
    beside_tool: Point  # half way between work and slide, to the right of the tool
    swing_depth: float  # how far from the axis the word for the swing stands
    depth: float  # how far from the axis the furthest part or word stands


def drawn_angle(half_angle: float) -> float:
    """The angle [rad] at which the picture shows `half_angle` [rad]."""
    return 0.0 if half_angle == 0.0 else min(max(half_angle, LEAST_DRAWN), MOST_DRAWN)


def angle_note(half_angle: float) -> str:
    """What the picture must say of its angle."""
    drawn = drawn_angle(half_angle)
    if drawn == 0.0:
        return "a cylinder: no angle"
    if drawn == half_angle:
        return "angle drawn true"
    return "angle drawn larger" if drawn > half_angle else "angle drawn smaller"


def lay_out(plan: PlanView, form: str = "external") -> Layout:
    """Lay the picture out for `plan`; `form`, "external" or "internal"."""
    bored = form == "internal"
    post_x, tool_x = (BORE_POST_X, BORE_TOOL_X) if bored else (TOOL_X, TOOL_X)
    shape = plan_view(
        drawn_angle(plan.half_angle),
        plan.small_end,
        plan.cut_side,
        plan.bar_side,
        BAR_CENTRES,
        2 * ROLLER,
        SLIDE_WIDTH,
    )
    outward = 1.0 if plan.cut_side == "far" else -1.0
    towards_bar = 1.0 if plan.bar_side == "far" else -1.0
    along, normal = shape.surface_direction, shape.face_normal

    # Slid along its face the bar keeps its gaps, so it may stand where the picture has room for it.
    middle = (shape.headstock_pin[0] + shape.tailstock_pin[0]) / 2
    slip = (BAR_X - PIVOT_X - middle) / along[0]
    pins = tuple((end, off(shape.pin(end), along, slip)) for end in ("headstock", "tailstock"))
    near = pins[0][1][1] + towards_bar * 2
    far = near + towards_bar * BAR_DEPTH
    half = SLIDE_WIDTH / 2
    ends = [off((0.0, 0.0), along, step) for step in (-SLIDE_LEFT, SLIDE_RIGHT)]
    slide = (
        off(ends[0], normal, half),
        off(ends[1], normal, half),
        off(ends[1], normal, -half),
        off(ends[0], normal, -half),
    )
    handle = (ends[1], off(ends[1], along, HANDLE))
    post = off((0.0, 0.0), along, (post_x - PIVOT_X) / along[0])
    stack: tuple[Point, ...] = ()
    if shape.stack_pin != "none":
        foot = off(shape.foot(shape.stack_pin), along, slip)
        top = off(foot, normal, shape.stack_height)
        stack = tuple(off(end, along, step) for end, step in ((foot, -9), (foot, 9), (top, 9), (top, -9)))

    # The slide stands as near to the work as everything on it, and the indicator, allow.
    radius = radius_at(plan, tool_x, form)
    outward_bar = plan.bar_side == plan.cut_side
    inner = min(outward * y for _, y in (*slide, *handle))
    clear = (BORE_OUTSIDE + 8.0 if bored else 31.0) - inner
    if not outward_bar:
        clear = max(clear, 46.0 - outward * far)
    distance = max(clear, radius + POST + (12.0 if bored else 26.0) - outward * post[1])
    rise = along[1] / along[0]

    def slide_at(x: float) -> float:
        return outward * rise * (x - PIVOT_X) + distance  # distance of the slide's centreline from the axis

    corners = max(outward * slide[0][1], outward * slide[3][1]) + distance
    swing_depth = max(corners, slide_at(post_x) + POST, slide_at(SWING_WORD_END) + half + 1) + 15
    two_rows = shape.swing == "anticlockwise"
    if two_rows and outward > 0:
        swing_depth += 16  # its second row stands below the first, towards the slide
    words = swing_depth + (24 if two_rows and outward < 0 else 8)
    beyond = outward * far + distance + PLUNGER + 2 * DIAL + 3 if outward_bar else 0.0
    furthest = max(outward * y for _, y in (*slide, (0.0, far))) + distance
    towards_dial = PLUNGER + DIAL
    dial_y = far + outward * distance + (1.0 if outward_bar else -1.0) * outward * towards_dial
    beside = TOOL_X + 28
    shift = (PIVOT_X, outward * distance)
    return Layout(
        shape=shape,
        outward=outward,
        bar_outward=outward_bar,
        pivot=shift,
        post=_plus(post, shift),
        tip=(tool_x, outward * radius),
        slide=tuple(_plus(corner, shift) for corner in slide),
        handle=(_plus(handle[0], shift), _plus(handle[1], shift)),
        bar_near=near + shift[1],
        bar_far=far + shift[1],
        dial=(DIAL_X if outward_bar else INNER_DIAL_X, dial_y),
        pins=tuple((end, _plus(pin, shift)) for end, pin in pins),
        stack=tuple(_plus(corner, shift) for corner in stack),
        beside_tool=(beside, outward * (radius_at(plan, beside, form) + slide_at(beside) - half) / 2),
        swing_depth=swing_depth,
        depth=max(furthest, words, beyond),
    )


def radius_at(plan: PlanView, x: float, form: str = "external") -> float:
    """Radius of the drawn taper at `x`; the side that is cut is parallel to the drawn slide."""
    bored = form == "internal"
    left, right, large = (
        (BORE_LEFT, BORE_RIGHT, BORE_RADIUS) if bored else (TAPER_LEFT, TAPER_RIGHT, LARGE_RADIUS)
    )
    from_large = x - left if plan.small_end == "tailstock" else right - x
    return large - from_large * tan(drawn_angle(plan.half_angle))


def off(point: Point, direction: Point, distance: float) -> Point:
    """The point `distance` from `point` along `direction`."""
    return (point[0] + direction[0] * distance, point[1] + direction[1] * distance)


def _plus(point: Point, shift: Point) -> Point:
    return (point[0] + shift[0], point[1] + shift[1])
