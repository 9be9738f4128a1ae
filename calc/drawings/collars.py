"""Trial collars: two narrow collars cut in one pass, and the slide with its pivot."""

from __future__ import annotations

from calc.drawings import svg
from calc.drawings.above import PIVOT_D, PIVOT_X, POST_X, Above, place
from calc.drawings.svg import FINE, FIRM, HEAVY, MARK, SOFT, TINT
from calc.setting.plan import PlanView

FIRST, SECOND, WIDE = 96.0, 166.0, 12.0


def collars_picture(plan: PlanView, distance: str, lines: list[str], form: str = "external") -> str:
    """Two collars on the work, the distance between their edges towards the large end, tool, slide, pivot.

    For a bore ("internal") they stand on a trial piece, turned outside, and the picture says so.
    """
    if form == "internal":
        lines = ["a trial piece, turned outside", *lines]
    scene = Above(plan, spare=20.0)
    scene.stocks()
    _work(scene)
    scene.slide()
    scene.swing()
    scene.tool(POST_X, scene.radius(POST_X) + 3.0)
    x, y = scene.at(PIVOT_X, PIVOT_D)
    below = scene.at(PIVOT_X, PIVOT_D + 42.0)
    scene.picture.line([(x, y), below], SOFT, FINE, role="pivot-leader")
    scene.picture.text((below[0], below[1] + (11 if scene.out < 0 else -2)), "pivot", "middle")
    _distance(scene, distance)
    swung = "not swung" if plan.swing == "none" else f"swung {plan.swing}"
    said = f"Two narrow collars on the work, {distance} from edge to like edge; the top slide is {swung}."
    note = f"{'; '.join(lines)}." if lines else ""
    return scene.finished(lines, "Trial collars", f"{place(plan)} {said} {note}")


def _work(scene: Above) -> None:
    """A thin core, and two collars whose tops lie along one cone."""
    core = min(scene.radius(FIRST), scene.radius(SECOND)) - 8.0
    y = scene.axis_y
    scene.picture.box(58, y - core, SECOND + WIDE + 16, y + core, TINT, width=HEAVY, role="core")
    for left in (FIRST, SECOND):
        near, far = scene.radius(left), scene.radius(left + WIDE)
        corners = [(left, y - near), (left + WIDE, y - far), (left + WIDE, y + far), (left, y + near)]
        scene.picture.shape(corners, TINT, width=HEAVY, role="collar")


def _distance(scene: Above, distance: str) -> None:
    """The measure between the like edges, on the side away from the slide."""
    shift = 0.0 if scene.plan.small_end == "tailstock" else WIDE
    left, right = FIRST + shift, SECOND + shift
    y = scene.at(0, -38.0)[1]
    for x in (left, right):
        scene.picture.line([scene.at(x, -scene.radius(x)), (x, scene.at(0, -43.0)[1])], SOFT, FINE)
    scene.picture.line([(left, y), (right, y)], MARK, FIRM, role="distance")
    scene.picture.head((left, y), 3.14159265, 7, MARK)
    scene.picture.head((right, y), 0.0, 7, MARK)
    words = scene.at(0, -48.0)[1] + (0 if scene.out < 0 else 10)
    scene.picture.text(((left + right) / 2, words), svg.fitted(distance, 150), "middle", MARK, bold=True)
