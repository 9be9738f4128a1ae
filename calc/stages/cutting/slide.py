"""Figures of the slides: what is to go and how to feed it, fine infeed, travel and sections."""

from __future__ import annotations

from calc.machining import infeed
from calc.machining.bites import CLEAR, OVERLAP
from calc.quantities import shown_angle
from calc.sheet import Figure, Row, Table, Working, same
from calc.stages.cutting.facts import Cutting, wanted_travel
from calc.stages.cutting.words import SYSTEMS, along, length, numbers, small, wanted_along

GEOMETRY = "Geometry of the right triangle at the half angle"
SEEN = 0.01
"""A difference of lengths that is worth a word [mm]."""


def figures(job: Cutting) -> list[Figure]:
    """The figures of this sort that the job needs and what is known allows."""
    found = [*_to_go(job), _division(job), _travel(job), _bites(job)]
    return [each for each in found if each]


def _to_go(job: Cutting) -> list[Figure]:
    """Depth still to go, by the cross-slide and by the slide."""
    if job.to_go is None:
        return []
    depth, angle = job.to_go, job.cone.half_angle
    across = numbers("{depth} on radius, {both} on diameter", depth=depth, both=2 * depth)
    if job.told.dial_on_diameter:
        across = numbers("{depth}; its collar shows {both}", depth=depth, both=2 * depth)
    if job.told.stand_off is not None:
        rate = f"{job.cone.rate:.6g}"
        said = numbers("{off} × " + rate + " / 2 = {depth}", off=job.told.stand_off, depth=depth)
        working = Working("depth = stand-off × taper / 2", said, _against_diameter(job))
    else:
        wanted, now = job.cone.large_diameter or 0.0, job.told.now or 0.0
        first, second = (wanted, now) if job.internal else (now, wanted)
        said = numbers("({first} − {second}) / 2 = {depth}", first=first, second=second, depth=depth)
        gap = length(infeed.stand_off(depth, job.cone.rate))[job.system]
        note = f"A gauge would stand off by {gap}." if depth > 0 else ""
        working = Working("depth = difference of diameters / 2", said, note)
    if depth < 0.0:
        over = numbers("over-cut by {over} on diameter: nothing left to take off", over=-2 * depth)
    found = [
        Figure(
            "cutting.cross_slide_to_go",
            "Infeed left, by the cross-slide",
            depth,
            "mm",
            shown=across if depth >= 0.0 else over,
            working=[working],
            source=GEOMETRY,
            lead=True,
        )
    ]
    if job.by_slide and depth > 0.0:
        found.append(_slide_to_go(job, depth, angle))
    return found


def _slide_to_go(job: Cutting, depth: float, angle: float) -> Figure:
    advance, back = infeed.slide_advance(depth, angle), infeed.along_bed(depth, angle)
    towards, other = ("large", "small") if job.internal else ("small", "large")
    said = numbers(
        "{depth} / sin(" + shown_angle(angle)["mm"] + ") = {advance}; the carriage back by {back}",
        depth=depth,
        advance=advance,
        back=back,
    )
    return Figure(
        "cutting.slide_to_go",
        "The same, by the top slide (compound)",
        advance,
        "mm",
        shown=numbers(
            f"{{advance}} to the {towards} end, then the carriage {{back}} to the {other} end",
            advance=advance,
            back=back,
        ),
        working=[
            Working(
                "top slide = depth / sin(half angle); carriage = depth / tan(half angle)",
                said,
                "Without the carriage the tool only runs along the taper and takes nothing off.",
            )
        ],
        source=GEOMETRY,
    )


def _against_diameter(job: Cutting) -> str:
    """What the diameter says beside the gauge, where both were told."""
    if job.told.now is None or job.cone.large_diameter is None or job.to_go is None:
        return ""
    other = infeed.depth_from_diameter(job.told.now, job.cone.large_diameter, job.internal)
    by_diameter = length(other)[job.system]
    return (
        f"By the diameter entered it would be {by_diameter}; the gauge, which feels the whole taper, counts."
    )


def _division(job: Cutting) -> Figure | None:
    division, angle = job.told.division, job.cone.half_angle
    if division is None or angle <= 0.0:
        return None
    inward = infeed.inward(division, angle)
    shown = {
        system: f"{small(inward)[system]} on radius, {small(2 * inward)[system]} on diameter"
        for system in SYSTEMS
    }
    return Figure(
        "cutting.fine_division",
        "One division of the top slide's collar moves the tool in by",
        inward,
        "mm",
        shown=shown,
        working=[
            Working(
                "division × sin(half angle)",
                {
                    system: f"{length(division)[system]} × sin({shown_angle(angle)['mm']})"
                    f" = {small(inward)[system]}"
                    for system in SYSTEMS
                },
                "With the carriage locked while it moves, and brought back along the bed after.",
            )
        ],
        source=GEOMETRY,
    )


def _travel(job: Cutting) -> Figure | None:
    wanted = wanted_travel(job)
    if wanted is None or job.flank is None or not job.by_slide or job.whole.length is None or job.bites:
        return None
    return Figure(
        "cutting.travel",
        "Top slide (compound) travel wanted",
        wanted,
        "mm",
        shown=wanted_along(wanted),
        working=[
            Working(
                "along the taper = length / cos(half angle); travel = that + clearance at both ends",
                numbers(
                    "{length} / cos(" + shown_angle(job.whole.half_angle)["mm"] + ") = {flank};"
                    " {flank} + 2 × {clear} = {wanted}",
                    length=job.whole.length,
                    flank=job.flank,
                    clear=CLEAR,
                    wanted=wanted,
                ),
                _past_the_gauge(job),
            )
        ],
        source=f"{GEOMETRY}; clearance: common practice, no source",
    )


def _past_the_gauge(job: Cutting) -> str:
    """Why the cone is longer than the taper's table has it, "" where it is not."""
    more = (job.whole.length or 0.0) - (job.cone.length or 0.0)
    if more < SEEN:
        return ""
    past = along(more)
    return f"The cone is cut {past[job.system]} longer than the table's taper: on to the shoulder."


def _bites(job: Cutting) -> Figure | None:
    if job.bites is None or job.told.travel is None:
        return None
    count, angle = len(job.bites.spans), job.cone.half_angle
    if count == 1:
        spare = job.told.travel - (wanted_travel(job) or 0.0)
        left = along(spare)
        shown = {system: f"enough: {left[system]} spare" for system in SYSTEMS}
        working = Working("travel − travel wanted", numbers("{spare}", spare=spare))
        label = "Top slide (compound) travel"
        return Figure("cutting.bites", label, 1, "1", shown=shown, working=[working], source=GEOMETRY)
    bed, cross = job.bites.along_bed(angle), job.bites.cross_slide(angle)
    rows = [
        Row(
            [
                same(str(index)),
                length(max(0.0, start)),
                length(min(job.flank or end, end)),
            ]
        )
        for index, (start, end) in enumerate(job.bites.spans, start=1)
    ]
    return Figure(
        "cutting.bites",
        "Sections of the taper, each at one place of the carriage",
        count,
        "1",
        shown=numbers(
            f"{count}: for the next the carriage {{bed}} along, the cross-slide {{cross}} on radius",
            bed=bed,
            cross=cross,
        ),
        working=[
            Working(
                "carriage = step · cos(half angle); cross-slide = step · sin(half angle)",
                numbers(
                    f"{count} sections of a travel of {{travel}}, overlapping by {{overlap}}: step {{step}}",
                    travel=job.told.travel,
                    overlap=OVERLAP,
                    step=job.bites.step,
                ),
                "As few as cover the taper, equally long.",
            )
        ],
        source=f"{GEOMETRY}; overlap: common practice, no source",
        table=Table(["Section", "Along the taper, from", "To"], rows),
    )
