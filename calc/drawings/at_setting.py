"""Small pictures for the steps of setting: the swing, and the sine bar swept by an indicator.

From above, operator below, like the large ones, with nothing in them but what the step is about.
"""

from __future__ import annotations

from math import cos, pi, sin

from calc.drawings.bodies import Ground, both_ways, swing_words
from calc.drawings.lathe_above import draw_bar, draw_indicator, draw_slide
from calc.drawings.lathe_layout import angle_note, drawn_angle, lay_out
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point
from calc.setting.plan import PlanView, plan_view

ROW, HALF, LEFT, RIGHT = 18.0, 14.0, 96.0, 148.0
PIVOT_X, BESIDE, TALL = 152.0, 62.0, 50.0
"""Where the pivot stands, how far from the axis, and how far the swung slide reaches either way."""


def swing_picture(plan: PlanView) -> str:
    """Which way the top slide is swung, from where it lies along the axis."""
    turned = plan_view(drawn_angle(plan.half_angle), plan.small_end, plan.cut_side, "operator", 100.0)
    angle, operator = turned.slide_angle, plan.cut_side == "operator"
    picture = Picture()
    axis_y = 26.0 if operator else 20.0 + 2 * TALL + BESIDE - TALL + 6
    pivot: Point = (PIVOT_X, axis_y + (BESIDE if operator else -BESIDE))
    c, s = cos(angle), sin(angle)

    def at(along: float, off: float) -> Point:
        return (pivot[0] + along * c - off * s, pivot[1] - along * s - off * c)

    picture.line([(0, axis_y), (WIDTH, axis_y)], SOFT, FINE, "14 4 3 4", role="axis")
    words = axis_y - 8 if operator else axis_y + 18
    picture.text((4, words), "headstock")
    picture.text((WIDTH / 2, words), "axis", "middle")
    picture.text((WIDTH - 4, words), "tailstock", "end")
    picture.line([(pivot[0] - LEFT - 16, pivot[1]), (pivot[0] + RIGHT, pivot[1])], SOFT, FIRM, "5 5")
    handle = [at(RIGHT, 0), at(RIGHT + 12, 0)]
    picture.line(handle, INK, 4)
    picture.line([(handle[1][0], handle[1][1] - 8), (handle[1][0], handle[1][1] + 8)], INK, 5)
    corners = [at(-LEFT, HALF), at(RIGHT, HALF), at(RIGHT, -HALF), at(-LEFT, -HALF)]
    picture.shape(corners, TINT, width=HEAVY, role="slide")
    picture.circle(at(-24, 0), 5, PAPER, SOFT, FINE)
    picture.text_along(at(66, 0), "top slide (compound)", angle, halo=TINT)
    if plan.swing != "none":
        picture.turning_arrow(pivot, LEFT + 10, pi, angle, role="swing")
    below = pivot[1] + TALL + 16 if operator else axis_y + 38
    swing_words(picture, plan.swing, below)
    picture.text((WIDTH - 4, below + 5), "operator here", "end", bold=True)
    note = below + (40 if plan.swing == "anticlockwise" else 24)
    picture.text((WIDTH / 2, note), angle_note(plan.half_angle), "middle")
    swung = f"is swung {plan.swing}" if plan.swing != "none" else "stays along the axis"
    return picture.finished(
        note + 8,
        f"Swing of the top slide: {plan.swing}",
        f"From above, headstock on the left, operator below: the top slide (compound) {swung}."
        f" {angle_note(plan.half_angle)}.",
    )


def sweep_picture(plan: PlanView) -> str:
    """The indicator on the bed, its plunger on the sine bar's working face, the carriage wound past it."""
    layout = lay_out(plan)
    picture = Picture()
    out = layout.outward
    # Without the work the picture begins just before what stands nearest to the axis.
    near = min(out * y for _, y in (*layout.slide, layout.dial, (0.0, layout.bar_far))) - 22.0
    far = max(out * y for _, y in (*layout.slide, layout.dial, (0.0, layout.bar_far))) + 18.0
    axis_y = 10.0 - near if out < 0 else 10.0 + far

    def at(point: Point) -> Point:
        return (point[0], axis_y - point[1])

    draw_slide(picture, layout, at)
    draw_bar(picture, layout, at)
    draw_indicator(Ground(picture, axis_y, out), layout)
    row = 10.0 + far - near + 8
    both_ways(picture, (212, row - 5), (290, row - 5))
    picture.text((200, row), "wind the carriage", "end", MARK, bold=True)
    picture.text((WIDTH / 2, row + ROW + 2), "tap until both ends read the same", "middle", MARK, bold=True)
    picture.text((WIDTH / 2, row + 2 * ROW + 2), "operator stands here", "middle", bold=True)
    sides = {"operator": "operator's", "far": "far"}
    return picture.finished(
        row + 2 * ROW + 10,
        "Sine bar swept by an indicator on the bed",
        f"From above, headstock on the left, operator below. The sine bar lies on the"
        f" {sides[plan.bar_side]} side of the top slide, the stack under its {layout.shape.stack_pin} roller."
        f" An indicator on the bed bears on its working face; the carriage is wound past it. Not to scale.",
    )
