"""The lathe from above: the top slide swung, the sine bar level with the axis, the stack in its gap.

The picture is laid out by the same geometry that answers, so a picture cannot say one roller and the figure
another. Headstock on the left, operator below. Where the drawn angle is not the true one, it says so.
"""

from __future__ import annotations

from math import pi

from calc.drawings import svg
from calc.drawings.bodies import (
    BODY,
    Ground,
    axis,
    bore,
    boring_bar,
    indicator,
    last_row,
    solid,
    stocks,
    swing_words,
)
from calc.drawings.lathe_layout import (
    BAR_LENGTH,
    BAR_X,
    BORE_LEFT,
    BORE_OUTSIDE,
    BORE_RIGHT,
    DIAL,
    PIVOT_X,
    POST,
    ROLLER,
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
    from collections.abc import Callable, Sequence

    Placer = Callable[[Point], Point]

LABEL_X = 249.0
"""Where the top slide's name stands: right of its pivot."""


def lathe_from_above(
    plan: PlanView, height_text: str = "", form: str = "external", pieces: Sequence[float] = ()
) -> str:
    """The lathe from above for `plan`, as SVG text.

    `height_text` is the stack's height ready to read, or empty. `form`, "external" or "internal": a bore is
    cut through, with the boring bar in it. `pieces`: their sizes [mm] from the roller to the slide; the stack
    is drawn as so many, in their proportion.
    """
    layout = lay_out(plan, form)
    picture = Picture()
    stack_lines = _stack_lines(layout, height_text) if layout.stack else []
    rows = len(stack_lines)
    if layout.outward < 0:
        axis_y = BODY + 4
        rows_from = axis_y + layout.depth + ROW - 2
        words_from = rows_from + rows * ROW + 2
    else:
        rows_from = ROW - 4
        axis_y = rows_from + max(rows - 1, 0) * ROW + 16 + layout.depth
        words_from = axis_y + BODY + ROW + 2

    def at(point: Point) -> Point:
        return (point[0], axis_y - point[1])

    ground = Ground(picture, axis_y, layout.outward)
    _draw_lathe(ground, plan, form)
    draw_slide(picture, layout, at)
    draw_bar(picture, layout, at, pieces)
    if form == "internal":
        _draw_boring(ground, layout)
    else:
        _draw_tool(picture, layout, at)
    draw_indicator(ground, layout)
    swing_words(picture, layout.shape.swing, at((0, layout.outward * layout.swing_depth))[1])
    if layout.shape.swing != "none":
        turn = layout.shape.slide_angle
        picture.turning_arrow(at(layout.pivot), SLIDE_LEFT + 10, pi, turn, role="swing")
    if stack_lines:
        _write_stack(picture, layout, at, stack_lines, rows_from)
    last_row(picture, words_from, angle_note(plan.half_angle))
    return picture.finished(words_from + 7, *_in_words(plan, height_text, form))


def _draw_lathe(ground: Ground, plan: PlanView, form: str) -> None:
    """Headstock, chuck, work, tailstock and their words; the words stand clear of the slide."""
    stocks(ground)
    picture, axis_y = ground.picture, ground.axis_y
    if form == "internal":
        left, right = radius_at(plan, BORE_LEFT, form), radius_at(plan, BORE_RIGHT, form)
        bore(ground, (BORE_LEFT, left), (BORE_RIGHT, right), BORE_OUTSIDE)
        grip = BORE_OUTSIDE
    else:
        left, right = radius_at(plan, TAPER_LEFT), radius_at(plan, TAPER_RIGHT)
        grip = min(left, 24.0)
    for side in (-1, 1):
        picture.box(58, axis_y + side * grip, 72, axis_y + side * (42 if form == "internal" else 34), PAPER)
    if form == "external":
        neck, step = grip, TAPER_LEFT - 8
        profile = [(58.0, neck), (step, neck), (step, left), (TAPER_LEFT, left), (TAPER_RIGHT, right)]
        solid(ground, [*profile, (TAPER_RIGHT + 12, right)])
    axis(ground)


def draw_slide(picture: Picture, layout: Layout, at: Placer) -> None:
    """The top slide, where it lay, its handle and its name."""
    pivot, shape = at(layout.pivot), layout.shape
    picture.line([pivot, (pivot[0] - SLIDE_LEFT - 18, pivot[1])], SOFT, FIRM, "5 5", role="unswung")
    picture.line([at(point) for point in layout.handle], INK, 4)
    x, y = at(layout.handle[1])
    picture.line([(x, y - 9), (x, y + 9)], INK, 5)
    picture.shape([at(point) for point in layout.slide], PAPER, width=HEAVY, role="slide")
    picture.circle(pivot, 5, PAPER, SOFT, FINE, role="pivot")
    along = shape.surface_direction
    middle = at(off(layout.pivot, along, (LABEL_X - PIVOT_X) / along[0]))
    picture.text_along(middle, "top slide", shape.slide_angle)


def draw_bar(picture: Picture, layout: Layout, at: Placer, pieces: Sequence[float] = ()) -> None:
    """The sine bar, its rollers and the stack, of `pieces` where these are known."""
    left, right = BAR_X - BAR_LENGTH / 2, BAR_X + BAR_LENGTH / 2
    near, far = at((0, layout.bar_near))[1], at((0, layout.bar_far))[1]
    picture.box(left, near, right, far, TINT, width=HEAVY, role="bar")
    if layout.stack:
        picture.shape([at(corner) for corner in layout.stack], MARK, MARK, FINE, role="stack")
        for joint in joints(layout.stack, pieces):
            picture.line([at(point) for point in joint], PAPER, FINE, role="joint")
    for end, centre in layout.pins:
        picture.circle(at(centre), ROLLER, PAPER, INK, HEAVY, role=f"{end}-pin")
    # The rollers reach a little into the bar: its name keeps to the other edge.
    picture.text(
        (BAR_X, (near + far) / 2 + (7 if near < far else 2)), "sine bar", "middle", bold=True, halo=TINT
    )


def joints(stack: Sequence[Point], pieces: Sequence[float]) -> list[tuple[Point, Point]]:
    """Where one piece ends and the next begins: lines across the stack, given by its corners.

    stack: both corners on the slide's face, then both at the roller. pieces: sizes [mm] from the roller to
    the slide; the thinnest are drawn thicker, or they could not be told apart.
    """
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = stack
    least = 0.5 * max(pieces, default=0.0) / max(len(pieces), 1)
    shares = [max(size, least) for size in reversed(pieces)]
    done, found = 0.0, []
    for share in shares[:-1]:
        done += share / sum(shares)
        found.append(
            (
                (x1 + (x4 - x1) * done, y1 + (y4 - y1) * done),
                (x2 + (x3 - x2) * done, y2 + (y3 - y2) * done),
            )
        )
    return found


def _draw_tool(picture: Picture, layout: Layout, at: Placer) -> None:
    post, tip = at(layout.post), at(layout.tip)
    away = 1.0 if post[1] > tip[1] else -1.0
    picture.box(TOOL_X - 6, post[1], TOOL_X + 6, tip[1] + away * 12, PAPER)
    picture.shape([(TOOL_X - 6, tip[1] + away * 12), (TOOL_X + 6, tip[1] + away * 12), tip], INK, role="tool")
    _draw_post(picture, post)
    if layout.bar_outward:
        # Slide and work run side by side to the right of the tool: half way between them.
        picture.text((TOOL_X + 11, at(layout.beside_tool)[1] + 5), "tool")
    else:
        picture.text((TOOL_X - 11, tip[1] + away * 22 + 5), "tool", "end")


def _draw_boring(ground: Ground, layout: Layout) -> None:
    """The boring bar in the bore, and its name across the axis, where nothing else stands."""
    picture, out = ground.picture, layout.outward
    post, tip = layout.post, layout.tip
    boring_bar(ground, (post[0], out * post[1]), (tip[0], out * tip[1]))
    _draw_post(picture, ground.at(post[0], out * post[1]))
    word = ground.at(post[0] + 4, -19)
    picture.line([(word[0] + 2, word[1] - out * -6), ground.at(post[0] + 2, out * tip[1] - 11)], SOFT, FINE)
    picture.text((word[0], word[1] + 5), "boring bar")


def _draw_post(picture: Picture, post: Point) -> None:
    x, y = post
    picture.box(x - POST, y - POST, x + POST, y + POST, TINT, width=HEAVY, role="post")
    picture.circle(post, 4, PAPER, INK, FIRM)


def draw_indicator(ground: Ground, layout: Layout) -> None:
    """The indicator that proves the sine bar parallel: on the bed, its plunger on the working face."""
    out = layout.outward
    x, y = layout.dial
    indicator(ground, (x, out * y), (x, out * layout.bar_far), radius=DIAL)
    _, middle = ground.at(x, out * y)
    for row, word in enumerate(("indicator", "on the bed")):
        ground.picture.text((x + 16, middle - 3 + row * 15), word)


def _stack_lines(layout: Layout, height_text: str) -> list[str]:
    """What the line leads to: the stack, and how high it is."""
    return [svg.fitted(f"stack {svg.plain(height_text)}".strip(), WIDTH - 16, bold=True)]


def _write_stack(picture: Picture, layout: Layout, at: Placer, lines: list[str], first_row: float) -> None:
    """The words for the stack, and a line that leads from them to the gap without crossing the sine bar."""
    corners = [at(corner) for corner in layout.stack]
    x = sum(corner[0] for corner in corners) / 4
    y = sum(corner[1] for corner in corners) / 4
    below = layout.outward < 0
    last_row = first_row + (len(lines) - 1) * ROW
    end_y = first_row - 13 if below else last_row + 5
    if layout.bar_outward:
        # The wedge between slide and bar opens on the stack's side: leave by there, round the bar's end.
        step = 1 if layout.shape.stack_pin == "tailstock" else -1
        turn_x = BAR_X + step * (BAR_LENGTH / 2 + 7)
        leader = [(x, y), (turn_x, y), (turn_x, end_y)]
    else:
        turn_x = x
        leader = [(x, y), (x, end_y)]
    picture.line(leader, MARK, FIRM, role="leader")
    picture.circle((x, y), 3, PAPER, MARK, FIRM)
    on_right = turn_x > WIDTH / 2
    widths = [svg.text_width(line, bold=True) for line in lines]
    edge = min(turn_x + 40, WIDTH - 6) if on_right else max(turn_x - 40, 6)
    for index, (line, width) in enumerate(zip(lines, widths, strict=True)):
        row = first_row + index * ROW
        if on_right:
            picture.text((max(edge, width + 6), row), line, "end", MARK, bold=True)
        else:
            picture.text((min(edge, WIDTH - 6 - width), row), line, "start", MARK, bold=True)


def _in_words(plan: PlanView, height_text: str, form: str) -> tuple[str, str]:
    """Title and description: what the picture shows, for whoever cannot see it."""
    sides = {"operator": "operator's", "far": "far"}
    cut = "a boring bar cuts" if form == "internal" else "the tool cuts"
    work = "bore" if form == "internal" else "work"
    place = (
        f"Headstock on the left, operator below. The small end points to the {plan.small_end}, "
        f"{cut} the {sides[plan.cut_side]} side of the {work}, and the sine bar lies on the "
        f"{sides[plan.bar_side]} side of the top slide (compound), parallel to the work's axis. An indicator "
        f"that stands on the bed bears on the sine bar's working face, the one away from the top slide."
    )
    if plan.swing == "none":
        return "The lathe from above: no swing, no stack", f"{place} This is {angle_note(0.0)}."
    height = f", {svg.fitted(height_text, 400)}" if svg.plain(height_text) else ""
    return (
        f"The lathe from above: swing the top slide {plan.swing}, stack under the {plan.stack_pin} roller",
        f"{place} The top slide is swung {plan.swing}. The stack{height} goes between it and the "
        f"{plan.stack_pin} roller; the other roller touches it direct. "
        f"In the picture: {angle_note(plan.half_angle)}.",
    )
