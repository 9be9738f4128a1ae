"""Lines over numbers as SVG, one frame a plot: enough to see how a thing grows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

WIDE, HIGH, LEFT, FOOT = 420, 240, 52, 34
COLOURS = ("#0b5394", "#b45f06", "#38761d", "#741b47", "#434343")
SCALES = (1, 2, 5)


def _top(most: float) -> float:
    """The end of an axis: 1, 2 or 5 of a power of ten, not below `most`."""
    power = 1.0
    while power * 10 <= most:
        power *= 10
    while power > most > 0:
        power /= 10
    return next((power * each for each in (*SCALES, 10) if power * each >= most), power * 10)


def _frame(title: str, lines: Sequence[Mapping[str, Any]], left: float, top: float) -> list[str]:
    points = [point for line in lines for point in line["points"]]
    across, up = _top(max(x for x, _ in points)), _top(max(y for _, y in points))
    wide, high = WIDE - LEFT - 110, HIGH - FOOT - 30
    marks = [f'<g transform="translate({left} {top})">', f'<text x="{LEFT}" y="16" font-weight="700">']
    marks.append(f"{escape(title)}</text>")
    for share in (0, 0.5, 1):
        y, x = 30 + high * (1 - share), LEFT + wide * share
        marks.append(f'<path d="M{LEFT} {y}h{wide}" stroke="#ccc"/>')
        marks.append(f'<text x="{LEFT - 6}" y="{y + 4}" text-anchor="end">{up * share:g}</text>')
        marks.append(f'<text x="{x}" y="{30 + high + 16}" text-anchor="middle">{across * share:g}</text>')
    marks.append(f'<text x="{LEFT - 6}" y="16" text-anchor="end">ms</text>')
    for place, line in enumerate(lines):
        colour = COLOURS[place % len(COLOURS)]
        path = " ".join(
            f"{LEFT + wide * x / across:.1f},{30 + high * (1 - y / up):.1f}" for x, y in line["points"]
        )
        marks.append(f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="2"/>')
        name = escape(line["name"])
        marks.append(f'<text x="{LEFT + wide + 8}" y="{42 + 16 * place}" fill="{colour}">{name}</text>')
    return [*marks, "</g>"]


def svg(plots: Mapping[str, Sequence[Mapping[str, Any]]]) -> str:
    """All plots under each other, two to a row; each line has a `name` and `points` [(how many, ms)]."""
    marks: list[str] = []
    for place, (title, lines) in enumerate(plots.items()):
        marks += _frame(title, lines, WIDE * (place % 2), HIGH * (place // 2))
    high = HIGH * ((len(plots) + 1) // 2)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {2 * WIDE} {high}" font-size="11"'
        f' font-family="sans-serif"><rect width="{2 * WIDE}" height="{high}" fill="#fff"/>'
        f"{''.join(marks)}</svg>\n"
    )
