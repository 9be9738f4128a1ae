"""The spigot's fit: where hole and spigot may lie about the nominal size, far larger than true."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc.drawings import svg
from calc.drawings.dimensions import ROW
from calc.drawings.svg import FINE, HEAVY, INK, MARK, PAPER, SOFT, TINT, WIDTH, Picture

TALL, TOP, LEAST = 120.0, 30.0, 3.0
HOLE_X, SPIGOT_X, BROAD = 52.0, 192.0, 96.0


@dataclass(frozen=True, slots=True)
class FitView:
    """Deviations from nominal [µm], lower and upper, of hole and spigot; the spigot's now, or None."""

    hole: tuple[float, float]
    spigot: tuple[float, float]
    now: float | None = None


def fit_picture(view: FitView, words: Mapping[str, str]) -> str:
    """The two zones about the line of the nominal size, as SVG text.

    words: nominal, hole, spigot (what they are called), hole_limits, spigot_limits, clearance, kind,
    now; missing ones are left out. A `now` beyond the zones is drawn at the picture's edge.
    """
    ends = [0.0, *view.hole, *view.spigot]
    high, low = max(ends), min(ends)
    scale = TALL / max(high - low, 1e-6)
    picture = Picture()

    def y(deviation: float) -> float:
        return TOP + (high - deviation) * scale

    picture.line([(8, y(0.0)), (WIDTH - 8, y(0.0))], INK, FINE, "12 4 3 4", role="nominal")
    for x, (lower, upper), fill, role in (
        (HOLE_X, view.hole, PAPER, "hole"),
        (SPIGOT_X, view.spigot, TINT, "spigot"),
    ):
        middle, half = (y(lower) + y(upper)) / 2, max(abs(y(lower) - y(upper)), LEAST) / 2
        picture.box(x, middle - half, x + BROAD, middle + half, fill, width=HEAVY, role=role)
        name = words.get(role, "")
        picture.text((x + BROAD / 2, 16), svg.fitted(name, BROAD + 40), "middle", bold=True)
    if view.now is not None:
        level = min(max(y(view.now), TOP - 6), TOP + TALL + 6)
        picture.line([(SPIGOT_X - 18, level), (SPIGOT_X + BROAD + 18, level)], MARK, HEAVY, role="now")
    bottom = TOP + TALL + 10
    rows = [
        ("nominal size, dashed", words.get("nominal", "")),
        ("hole", words.get("hole_limits", "")),
        ("spigot", words.get("spigot_limits", "")),
        (words.get("kind", "clearance"), words.get("clearance", "")),
        ("spigot now", words.get("now", "")),
    ]
    told = [(what, text) for what, text in rows if text]
    height = bottom
    for what, text in told:
        height += ROW
        picture.text((12, height), svg.fitted_with_tail(what, text, WIDTH - 20), "start", INK)
    height += ROW
    picture.text((WIDTH / 2, height), "heights enlarged, to one scale", "middle", SOFT if not told else INK)
    said = "; ".join(f"{what} {text}" for what, text in told)
    return picture.finished(
        height + 8,
        "The spigot's fit: hole and spigot about the nominal size",
        f"Two bars about the line of the nominal size, the hole's on the left. {said}. Heights enlarged.",
    )
