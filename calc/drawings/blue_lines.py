"""Blue in lines along a taper: how they are drawn, and what it means where they have rubbed."""

from __future__ import annotations

from functools import cache

from calc.drawings.svg import FINE, HEAVY, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point
from calc.gauging.way import EXTERNAL

LEFT, RIGHT, LARGE, SMALL = 20.0, 144.0, 24.0, 13.0
TEXT_X, EACH = 156.0, 66.0
RUBBED = (("large", 0.0, 0.45), ("small", 0.55, 1.0), ("all along", 0.0, 1.0))
"""Which end, and the part of the length from the large end on which the lines are rubbed."""


@cache
def lines_picture() -> str:
    """Three thin lines of blue along a taper, a third of a turn apart, from the side and from the end."""
    picture = Picture()
    middle = 44.0
    _taper(picture, middle)
    for share in (-0.55, 0.55):
        _line(picture, middle, share, 0.0, 1.0, 3.0)
    centre: Point = (214.0, middle)
    picture.circle(centre, LARGE, TINT, width=HEAVY, role="end")
    for x, y in ((0.0, -1.0), (0.866, 0.5), (-0.866, 0.5)):
        picture.circle((centre[0] + LARGE * x, centre[1] + LARGE * y), 3.5, MARK, MARK, FINE, role="line-end")
    picture.text((centre[0] + LARGE + 10, middle - 4), "a third")
    picture.text((centre[0] + LARGE + 10, middle + 14), "of a turn")
    picture.text((WIDTH / 2, middle + 46), "thin, wiped until metal shines through", "middle")
    return picture.finished(
        middle + 54, "Lines of blue", "Three thin lines of blue along the taper, a third of a turn apart."
    )


@cache
def rubbed_picture(form: str) -> str:
    """The lines after the gauge was turned on them: rubbed at the large end, at the small end, all along.

    form: of the work, "external" or "internal"; a bore that rubs a plug's large end is too shallow.
    """
    picture = Picture()
    shank = form == EXTERNAL
    says = {
        "large": "too steep" if shank else "too shallow",
        "small": "too shallow" if shank else "too steep",
        "all along": "right, so far",
    }
    for row, (end, start, stop) in enumerate(RUBBED):
        middle = 34.0 + row * EACH
        _taper(picture, middle)
        for share in (-0.55, 0.0, 0.55):
            _line(picture, middle, share, 0.0, 1.0, 1.4)
            _line(picture, middle, share, start, stop, 6.0)
        where = "rubs all along" if end == "all along" else f"rubs at the {end} end"
        picture.text((TEXT_X, middle - 3), where)
        picture.text((TEXT_X, middle + 15), says[end], colour=MARK, bold=True)
    foot = 34.0 + 2 * EACH + LARGE + 22
    what = "the shank" if shank else "the plug gauge"
    picture.text((WIDTH / 2, foot), f"on {what}: large end left", "middle")
    said = "; ".join(f"rubbed {end}: {says[end]}" for end, _, _ in RUBBED)
    return picture.finished(foot + 8, "Where the blue has rubbed", f"On {what}. {said}.")


def _taper(picture: Picture, middle: float) -> None:
    upper = [(LEFT, middle - LARGE), (RIGHT, middle - SMALL)]
    points = [*upper, (RIGHT, middle + SMALL), (LEFT, middle + LARGE)]
    picture.box(LEFT - 14, middle - 9, LEFT, middle + 9, PAPER)
    picture.shape(points, TINT, width=HEAVY, role="taper")
    picture.line([(LEFT - 20, middle), (RIGHT + 8, middle)], SOFT, FINE, "14 4 3 4", role="axis")


def _line(picture: Picture, middle: float, share: float, start: float, stop: float, thick: float) -> None:
    """Blue along the taper at `share` of its radius, from `start` to `stop` of its length."""
    ends = []
    for along in (max(start, 0.04), min(stop, 0.96)):
        radius = LARGE + (SMALL - LARGE) * along
        ends.append((LEFT + (RIGHT - LEFT) * along, middle + share * radius))
    picture.line(ends, MARK, thick, role="rubbed" if thick > 4 else "blue")
