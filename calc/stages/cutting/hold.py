"""Figures of what holds still: length over thickness of work or boring bar, and the tool's height."""

from __future__ import annotations

from math import tan

from calc.doubt.hollow import flatter_by
from calc.machining import stiffness
from calc.machining.bites import CLEAR
from calc.machining.boring import FINISHING, ROUGHING
from calc.machining.tool import HEIGHTS, height_for
from calc.sheet import Both, Figure, Row, Table, Working
from calc.stages.cutting.facts import Cutting
from calc.stages.cutting.words import SYSTEMS, along, floored, length, numbers, small

TENTH = 0.0025
"""What a taper may well be out by for tool height alone [mm on diameter]: 0.0001 in, nearly."""
PRACTICE = "Common practice, no source"
PUSH = {"mm": "50 N", "inch": "11 lbf (50 N)"}
LIGHT = 50.0
"""A light finishing cut's push [N], to tell a spring by (common practice, no source)."""


def figures(job: Cutting) -> list[Figure]:
    """The figures of this sort that the job needs and what is known allows."""
    return [each for each in (_overhang(job), *_boring(job), _tool_height(job)) if each]


def _boring(job: Cutting) -> list[Figure]:
    """The thickest bar that goes in, and the cuts that the bar taken allows."""
    bar = job.boring
    if bar is None:
        return []
    bore = job.told.start or job.whole.small_diameter or 0.0
    taken = "this bar" if bar.told else "such a bar"
    return [
        Figure(
            "cutting.boring_bar_most",
            "Boring bar, largest that goes in",
            bar.largest,
            "mm",
            shown=along(bar.largest),
            working=[
                Working(
                    "three quarters of the narrowest bore",
                    numbers("0.75 × {bore} = {most}", bore=bore, most=bar.largest),
                    "The rest is for the tip and the swarf. The shorter its overhang, the better.",
                )
            ],
            source=PRACTICE,
        ),
        Figure(
            "cutting.boring_cuts",
            "Depth of cut its overhang allows",
            bar.rough,
            "mm",
            shown=numbers(
                "{rough} roughing, {fine} finishing, on radius",
                rough=floored(bar.rough),
                fine=floored(bar.fine),
            ),
            working=[
                Working(
                    "depth = spring let pass / (spring for each newton · push for each mm of depth)",
                    numbers(
                        f"{taken}: {{bar}} thick, out by {{out}}; springs of {{rough}} and {{fine}} pass",
                        bar=bar.bar,
                        out=bar.overhang,
                        rough=ROUGHING,
                        fine=FINISHING,
                    ),
                    "The push is from memory: begin lighter, and end with a spring pass (no infeed).",
                )
            ],
            source=f"Beam held at one end; forces from memory, what is let pass: {PRACTICE.lower()}",
        ),
    ]


def _overhang(job: Cutting) -> Figure | None:
    """Length over diameter of what sticks out, and the room beside the jaws."""
    long, thin, thick = job.whole.length, job.whole.small_diameter, job.whole.large_diameter
    if long is None or not thin or not thick:
        return None
    practice = PRACTICE
    if job.internal:
        if job.boring is None:
            return None
        bar = job.boring.bar
        ratio = (long + 2 * CLEAR) / bar
        parts = numbers("({length} + {clear}) / {bar}", length=long, clear=2 * CLEAR, bar=bar)
        label, note = (
            "Boring bar, length to diameter (L:D)",
            "Up to 4 for a bar of steel, 6 for one of carbide.",
        )
    elif job.told.overhang is None:
        return None
    else:
        ratio = job.told.overhang / thin
        parts = numbers("{out} / {small}", out=job.told.overhang, small=thin)
        label = "Work, length to diameter (L:D)"
        note = "Up to 3 with its end free, 10 on a centre; by the small diameter."
        room = length(job.told.overhang - long)[job.system]
        note += f" Room between taper and jaws: {room}, less what else stands there."
        if not job.told.on_centre:
            note += _spring_words(job, long, thin, thick)
    shown = {system: f"{ratio:.1f}" for system in SYSTEMS}
    said = {system: f"{text} = {ratio:.1f}" for system, text in parts.items()}
    working = [Working("length / diameter", said, note)]
    return Figure("cutting.overhang", label, ratio, "1", shown=shown, working=working, source=practice)


def _spring_words(job: Cutting, long: float, thin: float, thick: float) -> str:
    modulus = stiffness.MODULUS.get(job.told.material, stiffness.STEEL)
    free, held = (thin, thick) if job.small_end == "tailstock" else (thick, thin)
    pushed = stiffness.spring(LIGHT, long, free, held, modulus)
    spring = small(pushed)[job.system]
    push = PUSH[job.system]
    return f" A push of {push} at its free end springs the taper by {spring} (modulus from memory)."


def flatter(job: Cutting, height: float) -> float | None:
    """How much too shallow [mm on diameter] a tool off centre by `height` [mm] makes it; None beyond."""
    thick, long = job.cone.large_diameter, job.cone.length
    if not thick or not long:
        return None
    try:
        return -flatter_by(height, tan(job.cone.half_angle), long, thick, "small")
    except ValueError:
        return None


def _tool_height(job: Cutting) -> Figure | None:
    thin = job.cone.small_diameter
    if not thin or job.cone.rate <= 0.0 or flatter(job, 0.0) is None:
        return None
    allowed = height_for(lambda height: flatter(job, height) or 0.0, TENTH, 0.499 * thin)
    told = job.tool_height
    shape = "the bore's middle stands proud" if job.internal else "hollow in the middle"
    others = [height for height in HEIGHTS if abs(height - told) > 0.1 * height]
    rows = [
        Row([_whose(job, height, height == told), small(flatter(job, height) or 0.0)])
        for height in sorted([*others, told])
        if height > 0.0 and flatter(job, height) is not None
    ]
    return Figure(
        "cutting.tool_height",
        "Tool at centre height to within",
        allowed,
        "mm",
        shown=length(round(allowed, 2)),
        working=[
            Working(
                "r(z) = √((x + z · tan(half angle))² + height²)",
                {
                    system: f"too shallow by {small(TENTH)[system]} on diameter"
                    f" at {length(round(allowed, 2))[system]}"
                    for system in SYSTEMS
                },
                f"Above or below alike: {shape} and too shallow, with the size set right at the small end.",
            )
        ],
        source="J. Rose, Modern Machine-Shop Practice, that it must stand at centre height; geometry",
        table=Table(["Tool off by", "Taper too shallow by, on diameter"], rows),
    )


def _whose(job: Cutting, height: float, own: bool) -> Both:
    word = ", as entered" if job.height_entered else ", default"
    return {system: text + (word if own else "") for system, text in length(height).items()}
