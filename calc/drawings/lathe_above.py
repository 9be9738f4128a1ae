"""The lathe from above: the slide swung, the bar level with the axis, the stack in its gap.

The picture is laid out by the same geometry that answers, so a picture cannot say one pin and the figure
another. Headstock on the left, operator below. Where the drawn angle is not the true one, it says so.
"""

from __future__ import annotations

from math import pi

from calc.drawings import svg
from calc.drawings.lathe_layout import (
    BAR_LENGTH,
    BAR_X,
    BODY,
    PIN,
    PIVOT_X,
    POST,
    ROW,
    SLIDE_LEFT,
    TAPER_LEFT,
    TAPER_RIGHT,
    TOOL_X,
    Layout,
    angle_note,
    lay_out,
    off,
    radius_at,
)
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point
from calc.setting.plan import PlanView

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable

    Placer = Callable[[Point], Point]


def lathe_from_above(plan: PlanView, height_text: str = "", form: str = "external") -> str:
    """The lathe from above for `plan`, as SVG text.

    `height_text` is the stack's height ready to read, or empty. `form`, "external" or "internal": a bore is
    shown as a plug, and the picture says that it swings alike.
    """
    layout = lay_out(plan)
    picture = Picture()
    height_lines = _stack_lines(height_text) if layout.stack else []
    rows = len(height_lines)
    if layout.outward < 0:
        axis_y = ROW + BODY
        rows_from = axis_y + layout.depth + ROW
        words_from = rows_from + rows * ROW + 6
    else:
        rows_from = ROW - 4
        axis_y = rows_from + max(rows - 1, 0) * ROW + 16 + layout.depth
        words_from = axis_y + BODY + 2 * ROW + 4

    def at(point: Point) -> Point:
        return (point[0], axis_y - point[1])

    _draw_lathe(picture, layout, plan, axis_y)
    _draw_slide(picture, layout, at)
    _draw_bar(picture, layout, at)
    _draw_tool(picture, layout, at)
    _write_swing(picture, layout, at)
    if height_lines:
        _write_stack(picture, layout, at, height_lines, rows_from)

    words = ["operator stands here", angle_note(plan.half_angle)]
    if form == "internal":
        words.append("a bore swings the same way")
    picture.text((WIDTH / 2, words_from), words[0], "middle", INK, bold=True)
    for index, line in enumerate(words[1:], start=1):
        picture.text((WIDTH / 2, words_from + index * ROW), line, "middle", INK)
    height = words_from + (len(words) - 1) * ROW + 8
    return picture.finished(height, *_in_words(plan, height_text))


def _draw_lathe(picture: Picture, layout: Layout, plan: PlanView, axis_y: float) -> None:
    """Headstock, chuck, work, tailstock and their words; the words stand clear of the slide."""
    left, right = radius_at(plan, TAPER_LEFT), radius_at(plan, TAPER_RIGHT)
    picture.box(-4, axis_y - BODY, 34, axis_y + BODY, TINT, role="headstock")
    picture.box(34, axis_y - 36, 58, axis_y + 36, PAPER, width=HEAVY)
    for side in (-1, 1):
        picture.box(58, axis_y + side * min(left, 24.0), 72, axis_y + side * 34, PAPER)
    picture.box(298, axis_y - 25, WIDTH + 4, axis_y + 25, TINT, role="tailstock")
    picture.box(208, axis_y - 8, 298, axis_y + 8, PAPER)
    picture.shape([(208, axis_y - 8), (208, axis_y + 8), (186, axis_y)], PAPER)
    neck = min(left, 24.0)
    outline = [
        (58.0, neck),
        (TAPER_LEFT - 8, neck),
        (TAPER_LEFT - 8, left),
        (TAPER_LEFT, left),
        (TAPER_RIGHT, right),
        (TAPER_RIGHT + 12, right),
    ]
    lower = [(x, axis_y + radius) for x, radius in reversed(outline)]
    picture.shape([(x, axis_y - radius) for x, radius in outline] + lower, TINT, width=HEAVY, role="work")
    picture.line([(0, axis_y), (WIDTH, axis_y)], SOFT, FINE, "14 4 3 4", role="axis")
    words_y = axis_y - BODY - 6 if layout.outward < 0 else axis_y + BODY + 16
    picture.text((4, words_y), "headstock")
    picture.text((WIDTH - 4, words_y), "tailstock", "end")


def _draw_slide(picture: Picture, layout: Layout, at: Placer) -> None:
    pivot, shape = at(layout.pivot), layout.shape
    picture.line([pivot, (pivot[0] - SLIDE_LEFT - 18, pivot[1])], SOFT, FIRM, "5 5", role="unswung")
    picture.line([at(point) for point in layout.handle], INK, 4)
    x, y = at(layout.handle[1])
    picture.line([(x, y - 9), (x, y + 9)], INK, 5)
    picture.shape([at(point) for point in layout.slide], PAPER, width=HEAVY, role="slide")
    picture.circle(pivot, 7, PAPER, SOFT, FINE)
    for across, up in ((10, 0), (0, 10)):
        picture.line([(pivot[0] - across, pivot[1] - up), (pivot[0] + across, pivot[1] + up)], SOFT, FINE)
    # A level word on a swung slide: set on the centreline half way along the bar.
    along = shape.surface_direction
    middle = off(layout.pivot, along, (BAR_X - PIVOT_X) / along[0])
    x, y = at(middle)
    picture.text((x, y + 5), "slide", "middle")


def _draw_bar(picture: Picture, layout: Layout, at: Placer) -> None:
    left, right = BAR_X - BAR_LENGTH / 2, BAR_X + BAR_LENGTH / 2
    near, far = at((0, layout.bar_near))[1], at((0, layout.bar_far))[1]
    picture.box(left, near, right, far, TINT, width=HEAVY, role="bar")
    if layout.stack:
        picture.shape([at(corner) for corner in layout.stack], MARK, MARK, FINE, role="stack")
    for end, centre in layout.pins:
        picture.circle(at(centre), PIN, PAPER, INK, HEAVY, role=f"{end}-pin")
    first = min(near, far) + (19 if near < far else 15)  # the pins reach a little into the bar
    for x, word in ((left + BAR_LENGTH * 0.25, "headstock"), (left + BAR_LENGTH * 0.75, "tailstock")):
        picture.text((x, first), word, "middle", size=13.5, halo=TINT)
        picture.text((x, first + 14), "pin", "middle", size=13.5, halo=TINT)
    picture.text((BAR_X, first + 14), "bar", "middle", bold=True, size=13.5, halo=TINT)


def _draw_tool(picture: Picture, layout: Layout, at: Placer) -> None:
    post, tip = at(layout.post), at(layout.tip)
    away = 1.0 if post[1] > tip[1] else -1.0
    picture.box(TOOL_X - 6, post[1], TOOL_X + 6, tip[1] + away * 12, PAPER)
    picture.shape([(TOOL_X - 6, tip[1] + away * 12), (TOOL_X + 6, tip[1] + away * 12), tip], INK, role="tool")
    picture.box(TOOL_X - POST, post[1] - POST, TOOL_X + POST, post[1] + POST, TINT, width=HEAVY)
    picture.circle(post, 4, PAPER, INK, FIRM)
    if layout.bar_outward:
        # Slide and work run side by side to the right of the tool: half way between them.
        picture.text((TOOL_X + 11, at(layout.beside_tool)[1] + 5), "tool")
    else:
        picture.text((TOOL_X - 11, tip[1] + away * 22 + 5), "tool", "end")


def _write_swing(picture: Picture, layout: Layout, at: Placer) -> None:
    """The arrow from where the slide lay to where it is swung, and the word for it."""
    pivot, swing = at(layout.pivot), layout.shape.swing
    row = at((0, layout.outward * layout.swing_depth))[1]
    if swing == "none":
        picture.text((6, row + 5), "no swing", colour=MARK, bold=True)
        return
    turn = 1.0 if swing == "anticlockwise" else -1.0
    picture.turning_arrow(pivot, SLIDE_LEFT + 10, pi, layout.shape.slide_angle, role="swing")
    picture.turning_arrow((14, row), 7.5, pi / 2 - turn * 0.6, turn * 5.2, width=2.0, size=7)
    picture.text((27, row + 5), swing, colour=MARK, bold=True)


def _stack_lines(height_text: str) -> list[str]:
    """One line where it fits, else two."""
    lead = "stack goes here"
    if not svg.plain(height_text):
        return [lead]
    together = f"{lead}: {svg.plain(height_text)}"
    if svg.text_width(together, bold=True) <= WIDTH - 60:
        return [together]
    return [lead, svg.fitted(height_text, WIDTH - 16)]


def _write_stack(picture: Picture, layout: Layout, at: Placer, lines: list[str], first_row: float) -> None:
    """The words for the stack, and a line that leads from them to the gap without crossing the bar."""
    corners = [at(corner) for corner in layout.stack]
    x = sum(corner[0] for corner in corners) / 4
    y = sum(corner[1] for corner in corners) / 4
    below = layout.outward < 0
    last_row = first_row + (len(lines) - 1) * ROW
    end_y = first_row - 13 if below else last_row + 5
    if layout.bar_outward:
        # The wedge between slide and bar opens on the stack's side: leave by there, round the bar's end.
        step = 1 if layout.shape.stack_pin == "tailstock" else -1
        turn_x = BAR_X + step * (BAR_LENGTH / 2 + 9)
        leader = [(x, y), (turn_x, y), (turn_x, end_y)]
    else:
        turn_x = x
        leader = [(x, y), (x, end_y)]
    picture.line(leader, MARK, FIRM, role="leader")
    picture.circle((x, y), 3, PAPER, MARK, FIRM)
    widest = max(svg.text_width(line, bold=index == 0) for index, line in enumerate(lines))
    on_right = turn_x > WIDTH / 2
    if on_right:
        edge = max(min(turn_x + 40, WIDTH - 6), widest + 8)
    else:
        edge = min(max(turn_x - 40, 6), WIDTH - 8 - widest)
    for index, line in enumerate(lines):
        anchor = "end" if on_right else "start"
        picture.text((edge, first_row + index * ROW), line, anchor, MARK, bold=index == 0)


def _in_words(plan: PlanView, height_text: str) -> tuple[str, str]:
    """Title and description: what the picture shows, for whoever cannot see it."""
    sides = {"operator": "operator's", "far": "far"}
    place = (
        f"Headstock on the left, operator below. The small end points to the {plan.small_end}, "
        f"the tool cuts the {sides[plan.cut_side]} side of the work, and the bar lies on the "
        f"{sides[plan.bar_side]} side of the slide, parallel to the work's axis."
    )
    if plan.swing == "none":
        return "The lathe from above: no swing, no stack", f"{place} This is {angle_note(0.0)}."
    height = f", {svg.fitted(height_text, 400)}" if svg.plain(height_text) else ""
    return (
        f"The lathe from above: swing the slide {plan.swing}, stack at the {plan.stack_pin} pin",
        f"{place} The slide is swung {plan.swing}. The stack{height} goes between the slide and the "
        f"{plan.stack_pin} pin; the other pin touches the slide direct. "
        f"In the picture: {angle_note(plan.half_angle)}.",
    )
