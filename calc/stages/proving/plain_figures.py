"""Plain questions beside the proving: the grade as an angle, the hollow, targets, a sine bar, a stack for a
height.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.goal import Goal
from calc.drawer import Limits, Piece, find_stacks
from calc.gauging import balls, rollers
from calc.gauging.left import expansion_stand_off
from calc.gauging.plain import sine_angle
from calc.gauging.shape import middle
from calc.gauging.way import EXTERNAL, INTERNAL, Part
from calc.quantities import shown_angle, shown_length, shown_micrometres
from calc.sheet import Figure, Row, Table, Working, same
from calc.stages.common.observations import Observation
from calc.stages.proving.facts import ProvingEntries

STEEL = 11.5e-6
STEEL_SOURCE = "Carbon steel, 11.5 µm per metre and kelvin, as two published tables agree"
SINE_SOURCE = "US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C: sine = height / centres"


def plain_figures(
    part: Part,
    goal: Goal,
    entries: ProvingEntries,
    rows: Sequence[Observation],
    pieces: Sequence[Piece],
    tool_height: float | None,
) -> list[Figure]:
    """Those that can be answered."""
    found: list[Figure] = []
    if goal.limit is not None:
        found.append(_grade(part, goal.limit))
    if tool_height:
        found += _hollow(part, tool_height)
    found += _targets(part, rows)
    if entries.warmer:
        found += _warm(part, entries.warmer)
    if entries.sine_height is not None and entries.sine_height < part.bar_centres:
        found.append(_sine(entries.sine_height, part.bar_centres))
    if entries.plain_height:
        found.append(_stack(entries.plain_height, pieces))
    return found


def _grade(part: Part, limit: float) -> Figure:
    angle = limit / part.on_diameter
    numbers = {
        key: f"± {shown_micrometres(limit)[key]} / {shown_length(part.on_diameter)[key]}"
        for key in ("mm", "inch")
    }
    return Figure(
        "proving.grade_angle",
        "Half angle may be out by, either way",
        angle,
        "rad",
        shown=shown_angle(angle, angle / 20),
        working=[Working("limit on diameter / what a radian of half angle is on diameter", numbers)],
        source="Half of a grade's zone on the included angle is a quarter of it on the half angle (ISO 1947)",
    )


def _hollow(part: Part, height: float) -> list[Figure]:
    cone = part.cone
    if cone.large_diameter is None or cone.rate <= 0.0:
        return []
    try:
        off = middle(height, 0.5 * cone.rate, part.length, cone.large_diameter)
    except ValueError:
        return []
    word = "small" if part.form == EXTERNAL else "small (proud)"
    numbers = {key: f"tool off centre by {shown_length(height)[key]}" for key in ("mm", "inch")}
    return [
        Figure(
            "proving.hollow",
            f"Middle diameter too {word}, with the tool that far off centre",
            -off,
            "mm",
            shown={key: text.lstrip("+-") for key, text in shown_micrometres(off, 0.0001).items()},
            working=[Working("r(z) = √((x + z tan(half angle))² + height²)", numbers)],
            source="Geometry: a tool off centre height turns a hyperboloid",
        )
    ]


def _targets(part: Part, rows: Sequence[Observation]) -> list[Figure]:
    """What the wanted taper measures over these rollers or to these balls."""
    lines: list[Row] = []
    first: float | None = None
    for row in rows:
        told = {key: entry.value for key, entry in row.entries.items() if entry.value is not None}
        way = row.way.ID if row.way else ""
        if way == "rollers" and part.form == EXTERNAL and "roller" in told:
            for key in ("height_1", "height_2"):
                if key not in told and key == "height_2":
                    continue
                high = told.get(key, 0.0)
                for small in (True, False):
                    over = rollers.target(part, told["roller"], high, small)
                    if over is not None:
                        first = over if first is None else first
                        words = {
                            each: (
                                f"over rollers of {shown_length(told['roller'])[each]} on"
                                f" {shown_length(high)[each]}, standing on the"
                                f" {'small' if small else 'large'} end"
                            )
                            for each in ("mm", "inch")
                        }
                        lines.append(Row([words, shown_length(over, 0.001)]))
        if way == "balls" and part.form == INTERNAL:
            for key in ("ball_1", "ball_2"):
                top = balls.target(part, told[key]) if key in told else None
                if top is not None:
                    first = top if first is None else first
                    words = {
                        each: f"face to the top of a ball of {shown_length(told[key])[each]}"
                        for each in ("mm", "inch")
                    }
                    lines.append(Row([words, shown_length(top, 0.01)]))
    if not lines or first is None:
        return []
    return [
        Figure(
            "proving.targets",
            "What the taper wanted would measure",
            first,
            "mm",
            shown=lines[0].cells[1],
            working=[Working("exact geometry of rollers and balls on a cone", lines[0].cells[0])],
            source=f"{rollers.SOURCE}; {balls.SOURCE}",
            table=Table(["Measure", "For this taper"], lines),
        )
    ]


def _warm(part: Part, kelvin: float) -> list[Figure]:
    cone = part.cone
    if cone.large_diameter is None or cone.rate <= 0.0:
        return []
    off = expansion_stand_off(cone.large_diameter, kelvin, STEEL, cone.rate)
    word = "further off" if part.form == EXTERNAL else "further in"
    return [
        Figure(
            "proving.warm_stand_off",
            f"Warm by {kelvin:.0f} K, the gauge stands {word} by",
            off,
            "mm",
            shown=shown_length(off, 0.01),
            working=[
                Working(
                    "diameter × expansion × warmth / taper",
                    {
                        key: f"{shown_length(cone.large_diameter)[key]} × 11.5 × 10⁻⁶ × {kelvin:.0f} K"
                        for key in ("mm", "inch")
                    },
                )
            ],
            source=STEEL_SOURCE,
        )
    ]


def _sine(height: float, centres: float) -> Figure:
    angle = sine_angle(height, centres)
    numbers = {
        key: f"asin({shown_length(height)[key]} / {shown_length(centres)[key]})" for key in ("mm", "inch")
    }
    return Figure(
        "proving.sine_angle",
        "The sine bar then stands at",
        angle,
        "rad",
        shown=shown_angle(angle),
        working=[Working("angle = asin(height / centre distance)", numbers)],
        source=SINE_SOURCE,
    )


def _stack(height: float, pieces: Sequence[Piece]) -> Figure:
    found = find_stacks(tuple(pieces), round(height * 1e6), Limits())
    best = found.best
    words = best.words() if best else "none from this drawer"
    off = best.error_mm if best else math.nan
    numbers = shown_length(best.height_mm, 0.0001) if best else same("")
    return Figure(
        "proving.plain_stack",
        "A stack for that height",
        [{"name": piece.name, "size": piece.size_mm, "place": piece.place} for piece in best.pieces]
        if best
        else [],
        shown={
            key: f"{words}: {shown_micrometres(off)[key]} off" if best else words for key in ("mm", "inch")
        },
        working=[Working("sum of the pieces", numbers)],
        source="The whole drawer searched for the nearest sums",
    )
