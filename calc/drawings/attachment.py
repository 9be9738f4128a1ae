"""The taper attachment from above: the guide bar behind the bed, and the tool that it leads."""

from __future__ import annotations

from math import cos, pi, sin, tan

from calc.drawings import svg
from calc.drawings.lathe_layout import angle_note, drawn_angle
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture
from calc.setting.plan import PlanView, plan_view

AXIS_Y, GUIDE_Y, GUIDE_X, HALF_LENGTH = 168.0, 62.0, 170.0, 112.0
LEFT, RIGHT, LARGE, BODY, ROW, TOOL_X = 92.0, 200.0, 32.0, 40.0, 18.0, 150.0


def attachment_picture(plan: PlanView, lines: list[str]) -> str:
    """The guide bar swung behind the bed, the work, and the tool on the side that is cut."""
    turned = plan_view(drawn_angle(plan.half_angle), plan.small_end, plan.cut_side, "operator", 100.0)
    angle = turned.slide_angle
    picture = Picture()
    picture.box(-4, AXIS_Y - BODY, 34, AXIS_Y + BODY, TINT, role="headstock")
    picture.box(34, AXIS_Y - 32, 60, AXIS_Y + 32, PAPER, width=HEAVY)
    picture.box(298, AXIS_Y - 24, WIDTH + 4, AXIS_Y + 24, TINT, role="tailstock")
    picture.box(226, AXIS_Y - 8, 298, AXIS_Y + 8, PAPER)
    picture.shape([(226, AXIS_Y - 8), (226, AXIS_Y + 8), (206, AXIS_Y)], PAPER)
    _link(picture, turned, angle)
    _work(picture, turned)
    _guide(picture, angle, plan.swing)
    _tool(picture, turned)
    picture.text((4, AXIS_Y + BODY + 16), "headstock")
    picture.text((WIDTH - 4, AXIS_Y + BODY + 16), "tailstock", "end")
    bottom = AXIS_Y + BODY + 2 * ROW + 10
    rows = ["operator stands here", *lines, angle_note(plan.half_angle)]
    for index, line in enumerate(rows):
        at = (WIDTH / 2, bottom + index * ROW)
        picture.text(at, svg.fitted(line, WIDTH - 8), "middle", bold=index == 0)
    swung = "not swung" if plan.swing == "none" else f"swung {plan.swing}"
    return picture.finished(
        bottom + (len(rows) - 1) * ROW + 8,
        f"Taper attachment: guide bar {swung}",
        f"The lathe from above, headstock on the left, operator below. The guide bar behind the bed is"
        f" {swung} and lies along the flank that is cut. {'; '.join(rows[1:])}.",
    )


def _guide(picture: Picture, angle: float, swing: str) -> None:
    """The guide bar about its pivot, where it lay, its shoe, and the arrow."""
    pivot = (GUIDE_X, GUIDE_Y)
    picture.line(
        [(GUIDE_X - HALF_LENGTH - 16, GUIDE_Y), (GUIDE_X + HALF_LENGTH + 16, GUIDE_Y)],
        SOFT,
        FIRM,
        "5 5",
        role="unswung",
    )
    c, s = cos(angle), sin(angle)

    def at(along: float, off: float) -> tuple[float, float]:
        return (GUIDE_X + along * c - off * s, GUIDE_Y - along * s - off * c)

    corners = [at(-HALF_LENGTH, 8), at(HALF_LENGTH, 8), at(HALF_LENGTH, -8), at(-HALF_LENGTH, -8)]
    picture.shape(corners, TINT, width=HEAVY, role="guide")
    picture.circle(pivot, 5, PAPER, SOFT, FINE, role="pivot")
    shoe = (TOOL_X - GUIDE_X) / c
    picture.shape(
        [at(shoe - 11, 11), at(shoe + 11, 11), at(shoe + 11, -11), at(shoe - 11, -11)],
        PAPER,
        width=HEAVY,
        role="shoe",
    )
    picture.text((GUIDE_X + 26, 15), "guide bar", "start")
    picture.line([(GUIDE_X + 52, 20), at(52, 6)], SOFT, FINE)
    if swing == "none":
        picture.text((6, 15), "no swing", colour=MARK, bold=True)
        return
    picture.turning_arrow(pivot, HALF_LENGTH + 10, pi, angle, role="swing")
    picture.text((6, 15), swing, colour=MARK, bold=True)


def _work(picture: Picture, turned: PlanView) -> None:
    left, right = _radius(turned, LEFT), _radius(turned, RIGHT)
    profile = [
        (60.0, 14.0),
        (LEFT - 10, 14.0),
        (LEFT - 10, left),
        (LEFT, left),
        (RIGHT, right),
        (RIGHT + 8, right),
    ]
    points = [(x, AXIS_Y - radius) for x, radius in profile]
    points += [(x, AXIS_Y + radius) for x, radius in reversed(profile)]
    picture.shape(points, TINT, width=HEAVY, role="work")
    picture.line([(0, AXIS_Y), (WIDTH, AXIS_Y)], SOFT, FINE, "14 4 3 4", role="axis")


def _radius(turned: PlanView, x: float) -> float:
    from_large = x - LEFT if turned.small_end == "tailstock" else RIGHT - x
    return LARGE - from_large * tan(abs(turned.slide_angle))


def _link(picture: Picture, turned: PlanView, angle: float) -> None:
    """From the guide's shoe to the tool; under the work where the tool is on the operator's side."""
    shoe_y = GUIDE_Y - (TOOL_X - GUIDE_X) * tan(angle)
    end = AXIS_Y + 62 if turned.cut_side == "operator" else AXIS_Y - _radius(turned, TOOL_X) - 22
    picture.line([(TOOL_X, shoe_y), (TOOL_X, end)], SOFT, 9, role="link")


def _tool(picture: Picture, turned: PlanView) -> None:
    down = 1.0 if turned.cut_side == "operator" else -1.0
    tip = AXIS_Y + down * _radius(turned, TOOL_X)
    picture.box(TOOL_X - 6, tip + down * 11, TOOL_X + 6, tip + down * 28, PAPER)
    picture.shape(
        [(TOOL_X - 6, tip + down * 11), (TOOL_X + 6, tip + down * 11), (TOOL_X, tip)], INK, role="tool"
    )
    picture.text((TOOL_X + 14, tip + down * 22 + 5), "tool")
