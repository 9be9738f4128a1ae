"""Indicators that set the slide: one along a test bar, two together, or sweeping a master."""

from __future__ import annotations

from math import cos, sin, tan

from calc.drawings import svg
from calc.drawings.above import BAR_RADIUS, DEPTH, HALF, POST, POST_X, Above, place
from calc.drawings.bodies import axis, both_ways
from calc.drawings.svg import SOFT, WIDTH, Point
from calc.setting.plan import PlanView


def dial_on_bar(plan: PlanView, lines: list[str], plunger: str = "axis", second: str = "") -> str:
    """An indicator in the tool post on a parallel test bar.

    plunger: square to the "axis" or to the "slide". second: where a second indicator reads the travel, along
    the "slide" or the "axis"; "" for none. lines: words below.
    """
    scene = Above(plan)
    scene.stocks()
    scene.bar()
    scene.slide()
    scene.swing()
    centre, touches = _from_post(scene, BAR_RADIUS, plunger)
    scene.dial(centre, touches)
    _name(scene, centre, True, "indicator" if not second else "across")
    scene.picture.text((190, scene.axis_y + 5), "test bar", "end", halo=svg.TINT)
    if second:
        _second(scene, second)
    lies = {"axis": "square to the lathe's axis", "slide": "square to the top slide"}[plunger]
    said = f"An indicator on the tool post bears on a parallel test bar, its plunger {lies}. {_swung(plan)}"
    if second:
        said += (
            f" A second indicator reads the travel along the {'top slide' if second == 'slide' else 'axis'}."
        )
    return scene.finished(lines, "Indicator along a test bar", f"{place(plan)} {said} {_said(lines)}")


def dial_on_slide(plan: PlanView, lines: list[str], form: str = "external") -> str:
    """A fixed indicator on the slide's side, the carriage moved past it."""
    scene = Above(plan, form)
    scene.stocks()
    scene.cone()
    axis(scene.ground)
    scene.slide(post=False)
    scene.swing()
    # On the slide's inner side, where it stands further from the work.
    left = scene.lean < 0.0
    touches = scene.along(-70.0 if left else 30.0, -HALF)
    centre = (touches[0], touches[1] - 25.0)
    scene.dial(centre, touches)
    _name(scene, centre, left, "indicator", "on the bed")
    y = scene.at(0, DEPTH - 8)[1]
    both_ways(scene.picture, (270, y), (326, y))
    scene.picture.text((262, y + 5), "carriage", "end")
    said = (
        "An indicator that stands on the bed bears square to the axis on the top slide's side, and the"
        f" carriage is wound past it. {_swung(plan)}"
    )
    return scene.finished(lines, "Indicator on the top slide's side", f"{place(plan)} {said} {_said(lines)}")


def dial_on_master(plan: PlanView, lines: list[str], master_small_end: str, sweep_side: str) -> str:
    """An indicator sweeping a master; where the side swept is not the side cut, it reaches over."""
    over = sweep_side != plan.cut_side
    scene = Above(plan, spare=20.0 if over else 0.0)
    scene.stocks()
    scene.cone(master_small_end, "master")
    scene.slide()
    scene.swing()
    if over:
        d = scene.slide_d(POST_X) - POST
        touches = (POST_X, -_master_radius(scene, master_small_end))
        centre = (POST_X, touches[1] - 24)
        post = scene.at(POST_X, d)
        arm = [post, scene.at(POST_X - 12, d - 8), scene.at(POST_X - 12, centre[1]), scene.at(*centre)]
        scene.picture.line(arm, SOFT, svg.FIRM, "5 4", role="arm")
        scene.dial(centre, touches)
    else:
        centre, touches = _from_post(scene, scene.radius(POST_X), "axis")
        scene.dial(centre, touches)
    _name(scene, centre, not over, "indicator")
    scene.picture.text((WIDTH / 2 - 4, scene.axis_y + 5), "master", "middle", halo=svg.TINT)
    said = f"An indicator on the tool post sweeps the {sweep_side} side of a master. {_swung(plan)}"
    return scene.finished(lines, "Sweeping a master", f"{place(plan)} {said} {_said(lines)}")


def _master_radius(scene: Above, small_end: str) -> float:
    same = small_end == scene.plan.small_end
    return scene.radius(POST_X if same else 84.0 + 186.0 - POST_X)


def _from_post(scene: Above, radius: float, plunger: str) -> tuple[Point, Point]:
    """Centre and point of an indicator that stands before the tool post."""
    d = scene.slide_d(POST_X) - POST - 13.0
    centre = (POST_X, d)
    if plunger == "axis":
        return centre, (POST_X, radius)
    # Square to the slide: the plunger leans with it.
    down = (d - radius) / cos(scene.lean)
    return centre, (POST_X + down * sin(scene.lean), radius)


def _second(scene: Above, along: str) -> None:
    """A second indicator against the tool post, along the "slide" or along the "axis"."""
    lean = scene.lean if along == "slide" else 0.0
    d = scene.slide_d(POST_X)
    touches = (POST_X + POST, d + POST * tan(lean))
    centre = (touches[0] + 25.0 * cos(lean), touches[1] + 25.0 * sin(lean))
    scene.dial(centre, touches, "second")
    x, y = scene.at(156.0, scene.slide_d(centre[0]) + HALF + 17.0)
    scene.picture.text((x, y + 5), "along")


def _name(scene: Above, centre: Point, left: bool, *words: str) -> None:
    """What an indicator is called, and where it stands, beside it."""
    nearer = 3.0 if left and scene.lean > 0.0 else 0.0  # clear of the slide, which comes in on that side
    x, y = scene.at(centre[0] - 14 if left else centre[0] + 16, centre[1] - nearer)
    for row, word in enumerate(words):
        at = (x, y + 5 + 15 * (row - (len(words) - 1) / 2))
        scene.picture.text(at, word, "end" if left else "start")


def _swung(plan: PlanView) -> str:
    return "The top slide is not swung." if plan.swing == "none" else f"The top slide is swung {plan.swing}."


def _said(lines: list[str]) -> str:
    return "; ".join(lines) + "." if lines else ""
