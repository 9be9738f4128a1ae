"""Which way a correction goes, from above: top slide, the turn, and where an indicator stands."""

from __future__ import annotations

from math import pi

from calc.drawings.above import DEPTH, HALF, LEFT, PIVOT_D, PIVOT_X, RIGHT, Above, place
from calc.drawings.bodies import axis
from calc.drawings.svg import MARK
from calc.setting.plan import plan_view


def correction_picture(
    half_angle: float, small_end: str, cut_side: str, way: str, reading: str, form: str = "external"
) -> str:
    """The lathe from above with the turn that puts the angle right, as SVG.

    half_angle [rad]; way: "clockwise", "anticlockwise" or "none"; reading: how far an indicator against the
    top slide's side must move, in words, "" where none stands there."""
    scene = Above(plan_view(half_angle, small_end, cut_side, "operator", 100.0), form)
    scene.stocks(tailstock=False)
    scene.cone()
    axis(scene.ground)
    scene.slide()
    turn = 1.0 if way == "anticlockwise" else -1.0
    if way != "none":
        # From where the slide's far end stands now.
        start = scene.plan.slide_angle + pi
        scene.picture.turning_arrow(
            scene.at(PIVOT_X, PIVOT_D), LEFT + 10, start, turn * 0.2, role="correction"
        )
    row = scene.at(0, DEPTH - 8)[1]
    scene.picture.text((92, row + 5), f"turn {way}" if way != "none" else "no turn", colour=MARK, bold=True)
    if reading:
        touches = scene.along(RIGHT - 14, HALF)
        scene.dial((touches[0], touches[1] + 20.0), touches)
    lines = ["the turn is drawn far too large"]
    if reading:
        lines.insert(0, f"indicator moves by {reading}")
    said = f"To put the angle right the top slide turns {way}, seen from above."
    more = f" An indicator against its side moves by {reading}." if reading else ""
    return scene.finished(lines, "Which way the correction goes", f"{place(scene.plan)} {said}{more}")
