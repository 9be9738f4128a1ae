"""Where blue will show for an error of the half angle: as a person sees it on the shank, or on the plug for a
bore.

The bearing end and how far the film reaches come from the same geometry that reads the blue (calc.gauging).
The taper is drawn steeper than it is; the blue's length is to scale along it."""

from __future__ import annotations

from calc.drawings.svg import FINE, FIRM, HEAVY, MARK, PAPER, SOFT, TINT, WIDTH, Picture, Point, fitted
from calc.gauging.blue_reading import THICK, THIN
from calc.gauging.contact import bearing_end, bearing_length
from calc.gauging.way import EXTERNAL, Part

LEFT, RIGHT = 40.0, 300.0
LARGE, SMALL = 40.0, 22.0
MIDDLE = 86.0
FILMS = (("thin film", THIN), ("thick film", THICK))


def blue_picture(part: Part, error: float, words: str) -> str:
    """The taper with blue where a thin and a thick film would rub, for an error of the half angle [rad], as
    SVG.

    A shank is drawn with its large end to the left. A bore cannot be looked into: the plug gauge is drawn,
    which shows the same places."""
    picture = Picture()
    end = bearing_end(error, part)
    what = "the shank" if part.form == EXTERNAL else "the plug gauge"
    picture.text((WIDTH / 2, 15), f"where blue shows on {what}", "middle", bold=True)
    lengths = []
    for row, (name, film) in enumerate(FILMS):
        top = MIDDLE + row * 118.0
        share = bearing_length(error, film, part) / part.slant
        lengths.append((name, share))
        _taper(picture, top, end, share)
        picture.text((LEFT, top - LARGE - 6), f"{name}: {100 * share:.0f} % of the length")
    bottom = MIDDLE + 118.0 + LARGE + 16
    picture.text((LEFT, bottom), "large end")
    picture.text((RIGHT, bottom), "small end", "end")
    picture.text((WIDTH / 2, bottom + 20), fitted(words, WIDTH - 8), "middle")
    picture.text((WIDTH / 2, bottom + 40), "blue's length to scale, taper steeper", "middle")
    where = "all along" if end == "all" else f"from the {end} end"
    said = "; ".join(f"{name} over {100 * share:.0f} %" for name, share in lengths)
    return picture.finished(
        bottom + 48, "Where blue will show", f"Blue shows on {what} {where}: {said} of its length. {words}."
    )


def _taper(picture: Picture, middle: float, end: str, share: float) -> None:
    """One taper on its axis, with blue over a share of its length from the end that bears."""
    outline = _between(middle, LEFT, RIGHT)
    picture.shape(outline, PAPER, width=HEAVY, role="taper")
    long = (RIGHT - LEFT) * share
    start, stop = (RIGHT - long, RIGHT) if end == "small" else (LEFT, LEFT + long)
    picture.shape(_between(middle, start, stop), MARK, MARK, FINE, role=f"blue-{end}")
    for place in range(1, 4):
        # Lines of blue as they were drawn along the gauge, still there where nothing rubbed them.
        x = LEFT + (RIGHT - LEFT) * place / 4.0
        if not start <= x <= stop:
            picture.line([(x, middle - 3), (x, middle + 3)], SOFT, FINE)
    picture.line([(LEFT - 18, middle), (RIGHT + 18, middle)], SOFT, FINE, "14 4 3 4", role="axis")
    picture.box(LEFT - 18, middle - 12, LEFT, middle + 12, TINT, width=FIRM)


def _between(middle: float, start: float, stop: float) -> list[Point]:
    """The part of the taper from one place to another."""
    first, second = (LARGE - (LARGE - SMALL) * (x - LEFT) / (RIGHT - LEFT) for x in (start, stop))
    return [
        (start, middle - first),
        (stop, middle - second),
        (stop, middle + second),
        (start, middle + first),
    ]
