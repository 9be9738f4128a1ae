"""The graduated base from above: where its zero lies, and where the top slide is to stand."""

from __future__ import annotations

from math import cos, degrees, pi, radians, sin

from calc.drawings import svg
from calc.drawings.bodies import last_row
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point, polar
from calc.setting.plan import PlanView, plan_view

CENTRE: Point = (170.0, 100.0)
RING, LONG, HALF, ROW = 72.0, 40.0, 14.0, 18.0
LEAST, MOST = radians(12.0), radians(78.0)


def scale_picture(plan: PlanView, zero: str, reads: str, lines: list[str]) -> str:
    """The top slide over its scale; `zero`, "axis" or "across"; `reads` what the scale is to read."""
    drawn = 0.0 if plan.half_angle == 0.0 else min(max(plan.half_angle, LEAST), MOST)
    turned = plan_view(drawn, plan.small_end, plan.cut_side, "operator", 100.0)
    angle = turned.slide_angle
    picture = Picture()
    picture.line([(4, CENTRE[1]), (WIDTH - 4, CENTRE[1])], SOFT, FINE, "14 4 3 4", role="axis-direction")
    picture.circle(CENTRE, RING + 6, PAPER, SOFT, FIRM, role="ring")
    _slide(picture, angle)
    _ticks(picture, zero)
    start = 0.0 if zero == "axis" else -pi / 2
    turn = angle - start
    if abs(turn) > 1e-9:
        picture.turning_arrow(CENTRE, RING - 20, start, turn, role="swing")
    picture.text((4, 17), "to headstock")
    picture.text((WIDTH - 4, 17), "to tailstock", "end")
    bottom = CENTRE[1] + RING + 42
    swing = "no swing" if plan.swing == "none" else f"swung {plan.swing}"
    if zero == "across":
        swing = "handle turned towards the tailstock"
    true = (
        "angle drawn true"
        if drawn == plan.half_angle
        else ("angle drawn larger" if drawn > plan.half_angle else "angle drawn smaller")
    )
    swing += " (counterclockwise)" if swing.endswith(" anticlockwise") else ""
    rows = [f"scale reads {reads}", swing, *lines]
    for index, line in enumerate(rows):
        colour = MARK if index == 0 else INK
        at = (WIDTH / 2, bottom + index * ROW)
        picture.text(at, svg.fitted(line, WIDTH - 8, bold=index < 1), "middle", colour, bold=index < 1)
    last_row(picture, bottom + len(rows) * ROW, true)
    zero_lies = "along the axis" if zero == "axis" else "square across the bed"
    return picture.finished(
        bottom + len(rows) * ROW + 7,
        f"Graduated base: the scale reads {reads}",
        f"The top slide from above, headstock to the left, operator below. The scale's zero lies {zero_lies}."
        f" {'; '.join([*rows, true])}.",
    )


def _slide(picture: Picture, angle: float) -> None:
    """The top slide inside the ring, its line on the degrees to the right, where its handle is."""
    c, s = cos(angle), sin(angle)

    def at(along: float, off: float) -> Point:
        return (CENTRE[0] + along * c - off * s, CENTRE[1] - along * s - off * c)

    corners = [at(-LONG, HALF), at(LONG, HALF), at(LONG, -HALF), at(-LONG, -HALF)]
    picture.line([at(LONG, 0), at(RING + 4, 0)], MARK, HEAVY, role="pointer")
    picture.shape(corners, TINT, width=HEAVY, role="slide")
    picture.text_along(CENTRE, "top slide", angle, halo=TINT)


def _ticks(picture: Picture, zero: str) -> None:
    """A mark each ten degrees, numbers each thirty, counting from zero both ways."""
    marks = [(step * pi / 18, 12.0 if step % 3 == 0 else 7.0) for step in range(36)]
    ends = [(polar(CENTRE, RING + 6, at), polar(CENTRE, RING + 6 - long, at)) for at, long in marks]
    picture.strokes(ends, INK, FINE)
    for step, (at, _) in enumerate(marks):
        if step % 3 == 0:
            shown = _counted(at, zero)
            x, y = polar(CENTRE, RING + 18, at)
            picture.text((x, y + 5), str(shown), "middle")


def _counted(at: float, zero: str) -> int:
    """What stands at a mark: the angle from the nearest zero."""
    from_axis = abs((degrees(at) + 90.0) % 180.0 - 90.0)
    return round(from_axis if zero == "axis" else 90.0 - from_axis)
