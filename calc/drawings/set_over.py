"""Setting the tailstock over, from above: the work askew between centres, its cut side along the bed."""

from __future__ import annotations

from math import cos, pi, radians, sin, tan

from calc.drawings import svg
from calc.drawings.bodies import BODY, headstock, last_row
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point
from calc.setting.plan import PlanView, plan_view

DRAWN = radians(7.0)
LIVE_X, SPAN, RADIUS, ROW = 66.0, 196.0, 26.0, 18.0
TAPER = (0.22, 0.78)
"""Where the taper begins and ends, as parts of the span."""


def set_over_picture(plan: PlanView, amount: str, lines: list[str]) -> str:
    """The work between centres with the tailstock set over by `amount`."""
    turned = plan_view(DRAWN if plan.half_angle else 0.0, plan.small_end, plan.cut_side, "operator", 100.0)
    # The flank is to lie along the bed: the plan is turned back by the flank's angle, the axis with it.
    skew = -turned.slide_angle
    picture = Picture()
    out = 1.0 if plan.cut_side == "far" else -1.0
    # Above the axis stands what is cut there, or the tailstock with its name.
    y = BODY + 2 * ROW + 2 if out > 0 else max(BODY + 4.0, 46.0 + SPAN * sin(skew))
    dead = (LIVE_X + SPAN * cos(skew), y - SPAN * sin(skew))
    headstock(picture, y)
    picture.shape([(34, y - 10), (34, y + 10), (LIVE_X, y)], PAPER)
    picture.box(302, dead[1] - 24, WIDTH + 4, dead[1] + 24, TINT, role="tailstock")
    picture.shape([(302, dead[1] - 10), (302, dead[1] + 10), dead], PAPER)
    picture.line([(34, y), (WIDTH, y)], SOFT, FINE, "14 4 3 4", role="bed-line")
    _work(picture, turned, (LIVE_X, y), skew)
    _carrier(picture, turned, (LIVE_X, y), skew, out)
    picture.line([(LIVE_X, y), dead], SOFT, FINE, "14 4 3 4", role="axis")
    flank = _flank(turned, (LIVE_X, y), skew)
    tip = ((flank[0][0] + flank[1][0]) / 2, (flank[0][1] + flank[1][1]) / 2)
    _tool(picture, tip, out)
    if plan.half_angle:
        _amount(picture, y, dead)
    # Its name stands on the side away from the tool.
    picture.text((WIDTH - 4, dead[1] + (40 if out > 0 else -31)), "tailstock", "end")
    bottom = max(y + (BODY + 20 if out > 0 else BODY + 50), dead[1] + (62 if out > 0 else 44))
    side = "the operator" if dead[1] > y else "the far side"
    moved = [f"tailstock over by {amount}", f"towards {side}"] if plan.half_angle else ["tailstock in line"]
    note = "askew drawn larger" if plan.half_angle else "a cylinder"
    rows = [*moved, *lines]
    for index, line in enumerate(rows):
        at = (WIDTH / 2, bottom + index * ROW)
        colour = MARK if line == moved[0] else INK
        bold = index < 1
        picture.text(at, svg.fitted(line, WIDTH - 8, bold=bold), "middle", colour, bold=bold)
    last_row(picture, bottom + len(rows) * ROW, note)
    return picture.finished(
        bottom + len(rows) * ROW + 7,
        f"Set-over: {' '.join(moved)}",
        f"The lathe from above, headstock on the left, operator below. The work lies askew between centres,"
        f" so that the taper's side that the tool cuts runs along the bed; a carrier drives it."
        f" {'; '.join([*rows, note])}.",
    )


def _profile(turned: PlanView) -> list[tuple[float, float]]:
    """Distance along the work and radius, from the headstock's end."""
    first, last = TAPER[0] * SPAN, TAPER[1] * SPAN
    drop = (last - first) * tan(abs(turned.slide_angle))
    small = RADIUS - drop
    if turned.small_end == "tailstock":
        return [(0.0, RADIUS), (first, RADIUS), (last, small), (SPAN, small)]
    return [(0.0, small), (first, small), (last, RADIUS), (SPAN, RADIUS)]


def _placed(start: Point, skew: float, along: float, off: float) -> Point:
    """A point of the work: `along` it and `off` its axis, away from the operator where above 0."""
    x = along * cos(skew) - off * sin(skew)
    up = along * sin(skew) + off * cos(skew)
    return (start[0] + x, start[1] - up)


def _work(picture: Picture, turned: PlanView, start: Point, skew: float) -> None:
    profile = _profile(turned)
    points = [_placed(start, skew, along, radius) for along, radius in profile]
    points += [_placed(start, skew, along, -radius) for along, radius in reversed(profile)]
    picture.shape(points, TINT, width=HEAVY, role="work")


def _carrier(picture: Picture, turned: PlanView, start: Point, skew: float, out: float) -> None:
    """The carrier on the work's end at the headstock, its name on the side that is cut."""
    radius = _profile(turned)[0][1] + 7.0
    corners = [
        _placed(start, skew, *each) for each in ((7, radius), (17, radius), (17, -radius), (7, -radius))
    ]
    picture.shape(corners, PAPER, width=HEAVY, role="carrier")
    foot = _placed(start, skew, 10, out * radius)
    row = start[1] - out * (BODY + 16)
    picture.line([foot, (foot[0] - 6, row + out * 6)], SOFT, FINE)
    picture.text((4, row + (14 if out < 0 else 0)), "carrier (dog)")


def _flank(turned: PlanView, start: Point, skew: float) -> list[Point]:
    """Both ends of the flank that is cut."""
    out = 1.0 if turned.cut_side == "far" else -1.0
    return [_placed(start, skew, along, out * radius) for along, radius in _profile(turned)[1:3]]


def _tool(picture: Picture, tip: Point, out: float) -> None:
    """The tool on the cut side, and the way it travels."""
    x, y = tip
    back = -out  # down in the picture on the operator's side
    picture.shape([(x - 5, y + back * 11), (x + 5, y + back * 11), (x, y)], INK, role="tool")
    picture.box(x - 5, y + back * 11, x + 5, y + back * 26, PAPER)
    row = y + back * 34
    picture.line([(x - 42, row), (x + 42, row)], MARK, FIRM, role="travel")
    picture.head((x - 46, row), pi, 8, MARK)
    picture.head((x + 46, row), 0.0, 8, MARK)
    picture.text((x + 54, row + 5), "carriage")


def _amount(picture: Picture, y: float, dead: Point) -> None:
    """How far the dead centre stands from the bed's line."""
    x = 290.0
    picture.line([(x, y), (x, dead[1])], MARK, HEAVY, role="set-over")
    picture.head((x, dead[1]), pi / 2 if dead[1] < y else -pi / 2, 8, MARK)
