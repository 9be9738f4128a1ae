"""The taper attachment from above: the guide bar behind the bed, and the tool that it leads."""

from __future__ import annotations

from math import cos, pi, sin, tan

from calc.drawings import svg
from calc.drawings.bodies import (
    BODY,
    CHUCK,
    Ground,
    axis,
    bore,
    boring_bar,
    headstock,
    last_row,
    swing_words,
)
from calc.drawings.lathe_layout import angle_note, drawn_angle
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, PAPER, SOFT, TINT, WIDTH, Picture
from calc.setting.plan import PlanView, plan_view

AXIS_Y, GUIDE_Y, GUIDE_X, HALF_LENGTH = 160.0, 58.0, 170.0, 112.0
LEFT, RIGHT, LARGE, ROW, TOOL_X = 92.0, 200.0, 32.0, 18.0, 150.0
BORE = (80.0, 132.0)


def attachment_picture(plan: PlanView, lines: list[str], form: str = "external") -> str:
    """The guide bar swung behind the bed, the work or bore, and the tool on the side that is cut."""
    turned = plan_view(drawn_angle(plan.half_angle), plan.small_end, plan.cut_side, "operator", 100.0)
    angle = turned.slide_angle
    picture = Picture()
    out = 1.0 if plan.cut_side == "far" else -1.0
    ground = Ground(picture, AXIS_Y, out)
    bored = form == "internal"
    headstock(picture, AXIS_Y)
    picture.box(34, AXIS_Y - CHUCK, 58, AXIS_Y + CHUCK, PAPER, width=HEAVY)
    picture.box(298, AXIS_Y - 24, WIDTH + 4, AXIS_Y + 24, TINT, role="tailstock")
    if not bored:
        picture.box(226, AXIS_Y - 8, 298, AXIS_Y + 8, PAPER)
        picture.shape([(226, AXIS_Y - 8), (226, AXIS_Y + 8), (206, AXIS_Y)], PAPER)
    _link(picture, turned, angle, bored)
    if bored:
        narrow = LARGE - 6 - (BORE[1] - BORE[0]) * tan(abs(turned.slide_angle))
        ends = (LARGE - 6, narrow)
        left, right = ends if turned.small_end == "tailstock" else ends[::-1]
        bore(ground, (BORE[0], left), (BORE[1], right), LARGE + 4)
        axis(ground)
        tip_x = (BORE[0] + BORE[1]) / 2 + 6
        tip = left + (tip_x - BORE[0]) / (BORE[1] - BORE[0]) * (right - left)
        boring_bar(ground, (TOOL_X + 5, 62.0), (tip_x, tip))
        picture.text(ground.at(TOOL_X + 18, 6.0 if out > 0 else 18.0), "boring bar")
    else:
        _work(picture, turned)
    _guide(picture, angle, plan.swing)
    if not bored:
        _tool(picture, turned)
    picture.text((WIDTH - 4, AXIS_Y + 41), "tailstock", "end")
    # On the operator's side the link reaches past the headstock.
    bottom = AXIS_Y + (BODY + 20 if out > 0 else 82)
    rows = [*lines, angle_note(plan.half_angle)]
    for index, line in enumerate(lines):
        picture.text((WIDTH / 2, bottom + index * ROW), svg.fitted(line, WIDTH - 8), "middle")
    last_row(picture, bottom + len(lines) * ROW, rows[-1])
    swung = "not swung" if plan.swing == "none" else f"swung {plan.swing}"
    return picture.finished(
        bottom + len(lines) * ROW + 7,
        f"Taper attachment: guide bar {swung}",
        f"The lathe from above, headstock on the left, operator below. The guide bar behind the bed is"
        f" {swung} and lies along the {'bore' if bored else 'taper'}'s side that is cut; its"
        f" sliding block leads the tool. {'; '.join(rows)}.",
    )


def _guide(picture: Picture, angle: float, swing: str) -> None:
    """The guide bar about its pivot, where it lay, its sliding block, and the arrow."""
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
        role="block",
    )
    picture.text((GUIDE_X + 26, 13), "guide bar", "start")
    picture.line([(GUIDE_X + 52, 18), at(52, 8)], SOFT, FINE)
    block = at(shoe + 11, -11)
    picture.text((TOOL_X + 40, GUIDE_Y + 44), "sliding block")
    picture.line([(TOOL_X + 38, GUIDE_Y + 38), block], SOFT, FINE)
    swing_words(picture, swing, 12.0)
    if swing != "none":
        picture.turning_arrow(pivot, HALF_LENGTH + 10, pi, angle, role="swing")


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
    picture.line([(34, AXIS_Y), (WIDTH, AXIS_Y)], SOFT, FINE, "14 4 3 4", role="axis")


def _radius(turned: PlanView, x: float) -> float:
    from_large = x - LEFT if turned.small_end == "tailstock" else RIGHT - x
    return LARGE - from_large * tan(abs(turned.slide_angle))


def _link(picture: Picture, turned: PlanView, angle: float, bored: bool) -> None:
    """From the sliding block to the tool; under the work where the tool is on the operator's side."""
    if bored:
        far = AXIS_Y + 62 if turned.cut_side == "operator" else AXIS_Y - 50
        x = TOOL_X + 5
        picture.line([(x, GUIDE_Y - (x - GUIDE_X) * tan(angle)), (x, far)], SOFT, 9, role="link")
        return
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
    # On the far side the sliding block's name stands at the right.
    x, anchor = (TOOL_X + 14, "start") if down > 0 else (TOOL_X - 14, "end")
    picture.text((x, tip + down * 22 + 5), "tool", anchor)
