"""The lathe from above without a bar: work on the axis, slide swung beside it, words for both.

Laid out by the geometry that answers (calc.setting.plan). Places are (x, d): x along the lathe to the right,
d the distance from the axis on the side that is cut; a mirror turns them into the picture, so that the
operator always stands below.
"""

from __future__ import annotations

from math import cos, pi, sin, tan

from calc.drawings.bodies import BODY, Ground, axis, bore, indicator, last_row, solid, stocks, swing_words
from calc.drawings.lathe_layout import angle_note, drawn_angle
from calc.drawings.svg import FINE, FIRM, HEAVY, INK, PAPER, SOFT, TINT, WIDTH, Picture, Point
from calc.setting.plan import PlanView, plan_view

PIVOT_X, PIVOT_D = 204.0, 92.0
LEFT, RIGHT, HALF = 122.0, 92.0, 13.0
POST_X, POST = 124.0, 15.0
DEPTH, ROW = 148.0, 18.0
WORK_LEFT, WORK_RIGHT, BAR_RADIUS = 84.0, 186.0, 15.0
LARGE = 30.0


class Above:
    """One picture of the lathe from above, for a plan."""

    def __init__(self, plan: PlanView, form: str = "external", spare: float = 0.0) -> None:
        """`spare`: room beyond the headstock on the side away from the tool, for what stands there."""
        self.spare = spare
        self.bored = form == "internal"
        self.true = plan.half_angle
        self.plan: PlanView = plan_view(
            drawn_angle(plan.half_angle), plan.small_end, plan.cut_side, "operator", 100.0
        )
        self.out = 1.0 if plan.cut_side == "far" else -1.0
        self.axis_y = BODY + 4 + spare if self.out < 0 else DEPTH + 8.0
        self.lean = self.out * self.plan.slide_angle
        """Angle of the slide in (x, d): above 0 where it leaves the axis towards the tailstock."""
        self.picture = Picture()
        self.ground = Ground(self.picture, self.axis_y, self.out)

    def at(self, x: float, d: float) -> Point:
        """The point of the picture for (x, d)."""
        return self.ground.at(x, d)

    def along(self, step: float, off: float = 0.0) -> Point:
        """(x, d) on the slide: `step` from the pivot to the tailstock's side, `off` its middle, outwards."""
        c, s = cos(self.lean), sin(self.lean)
        return (PIVOT_X + step * c - off * s, PIVOT_D + step * s + off * c)

    def slide_d(self, x: float) -> float:
        """d of the slide's middle at x."""
        return PIVOT_D + (x - PIVOT_X) * tan(self.lean)

    def stocks(self, tailstock: bool = True) -> None:
        """Headstock, chuck, tailstock with its centre (none before a bore), axis, and their words."""
        stocks(self.ground, tailstock, 0.0 if self.bored else 196.0)
        axis(self.ground)

    def radius(self, x: float) -> float:
        """Radius of the drawn cone at x."""
        from_large = x - WORK_LEFT if self.plan.small_end == "tailstock" else WORK_RIGHT - x
        return LARGE - from_large * tan(abs(self.lean))

    def cone(self, small_end: str = "", role: str = "work") -> None:
        """A cone on the axis; `small_end` where it lies otherwise than the work."""
        turned = bool(small_end) and small_end != self.plan.small_end
        left, right = self.radius(WORK_LEFT), self.radius(WORK_RIGHT)
        if turned:
            left, right = right, left
        if self.bored and role == "work":
            bore(self.ground, (WORK_LEFT, left - 5), (WORK_RIGHT, right - 5), LARGE + 4)
            return
        solid(
            self.ground,
            [
                (58, 14),
                (WORK_LEFT - 8, 14),
                (WORK_LEFT - 8, left),
                (WORK_LEFT, left),
                (WORK_RIGHT, right),
                (WORK_RIGHT + 10, right),
            ],
            role,
        )

    def bar(self) -> None:
        """A parallel test bar on the axis."""
        solid(self.ground, [(58, BAR_RADIUS), (WORK_RIGHT + 10, BAR_RADIUS)], "test-bar")

    def slide(self, post: bool = True) -> None:
        """The slide about its pivot, its handle to the right, the tool post on it."""
        picture = self.picture
        pivot = self.at(PIVOT_X, PIVOT_D)
        picture.line([pivot, (pivot[0] - LEFT - 16, pivot[1])], SOFT, FIRM, "5 5", role="unswung")
        handle = [self.at(*self.along(RIGHT)), self.at(*self.along(RIGHT + 13))]
        picture.line(handle, INK, 4)
        x, y = handle[1]
        picture.line([(x, y - 9), (x, y + 9)], INK, 5)
        corners = [self.along(-LEFT, HALF), self.along(RIGHT, HALF), self.along(RIGHT, -HALF)]
        corners.append(self.along(-LEFT, -HALF))
        picture.shape([self.at(*corner) for corner in corners], PAPER, width=HEAVY, role="slide")
        picture.circle(pivot, 5, PAPER, SOFT, FINE, role="pivot")
        picture.text_along(self.at(*self.along(50)), "top slide", self.plan.slide_angle)
        if post:
            d = self.slide_d(POST_X)
            first, second = self.at(POST_X - POST, d - POST), self.at(POST_X + POST, d + POST)
            picture.box(first[0], first[1], second[0], second[1], TINT, width=HEAVY, role="post")
            picture.circle(self.at(POST_X, d), 4, PAPER, INK, FIRM)

    def swing(self) -> None:
        """The arrow from where the slide lay, and the word for it."""
        plan = self.plan
        swing_words(self.picture, plan.swing, self.at(0, DEPTH - 8)[1])
        if plan.swing != "none":
            pivot = self.at(PIVOT_X, PIVOT_D)
            self.picture.turning_arrow(pivot, LEFT + 10, pi, plan.slide_angle, role="swing")

    def tool(self, x: float, radius: float) -> None:
        """A tool from the post to the work at x."""
        d = self.slide_d(POST_X)
        box = (self.at(x - 5, d), self.at(x + 5, radius + 11))
        self.picture.box(box[0][0], box[0][1], box[1][0], box[1][1], PAPER)
        tip = [self.at(x - 5, radius + 11), self.at(x + 5, radius + 11), self.at(x, radius)]
        self.picture.shape(tip, INK, role="tool")

    def dial(self, centre: Point, touches: Point, role: str = "dial") -> None:
        """An indicator at `centre` whose plunger bears at `touches`; both (x, d)."""
        indicator(self.ground, centre, touches, role)

    def bottom(self) -> float:
        """Where the words below may begin."""
        if self.out > 0:
            return self.axis_y + BODY + self.spare + ROW + 2
        return self.axis_y + DEPTH + ROW + (14.0 if self.plan.swing == "anticlockwise" else 0.0)

    def finished(self, lines: list[str], title: str, description: str, note: str = "") -> str:
        """Words below, and the whole as SVG text; the operator stands below."""
        first = self.bottom()
        note = note or angle_note(self.true)
        for index, line in enumerate(lines):
            self.picture.text((WIDTH / 2, first + index * ROW), line, "middle")
        last_row(self.picture, first + len(lines) * ROW, note)
        return self.picture.finished(first + len(lines) * ROW + 7, title, f"{description} {note}.")


def place(plan: PlanView) -> str:
    """How the lathe lies in the picture, in words."""
    sides = {"operator": "operator's", "far": "far"}
    return (
        f"The lathe from above, headstock on the left, operator below. The small end points to the"
        f" {plan.small_end}, the tool cuts the {sides[plan.cut_side]} side."
    )
