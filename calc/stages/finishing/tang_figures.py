"""The tang's figures: depth, reading after the first flat, limits, the second flat, the verdict on a slip."""

from __future__ import annotations

from dataclasses import dataclass

from calc.machining.flats import (
    Second,
    across_flat_and_round,
    aimed,
    flat_depth,
    flat_width,
    run_out,
    second_flat,
)
from calc.quantities import shown_length
from calc.sheet import Figure, Working
from calc.stages.common.shop import between, fine, line, rough
from calc.tables import Datum

GEOMETRY = "Plane geometry of two flats on a cylinder"


@dataclass(frozen=True, slots=True)
class TangWanted:
    """The tang to be milled [mm]: thickness and the least it may be, the diameter now, and what was measured.

    data: the table's, by name; empty where no table tells them.
    """

    thickness: float
    least: float
    diameter: float
    across: float | None
    now: float | None
    data: dict[str, Datum]

    @property
    def aim(self) -> float:
        """The thickness to mill to [mm]."""
        return aimed(self.thickness, self.least)

    @property
    def depth(self) -> float:
        """Depth to mill each flat to [mm]."""
        return flat_depth(self.diameter, self.aim)

    @property
    def shallowest(self) -> float:
        """The least depth of each flat [mm], at which the tang is as thick as it may be."""
        return flat_depth(self.diameter, self.thickness)

    @property
    def second(self) -> Second | None:
        """What the second flat wants, the first being measured; None before that."""
        if self.across is None:
            return None
        return second_flat(self.diameter, self.across, self.thickness, self.least)


def used(wanted: TangWanted) -> list[Datum]:
    names = ("tang_thickness", "tang_thickness_below", "tang_flat_length", "tang_cutter_radius")
    return [wanted.data[name] for name in names if name in wanted.data]


def _source(wanted: TangWanted, name: str) -> str:
    return (
        wanted.data[name].origin()
        if name in wanted.data
        else "As entered; limits h13 after ISO 286, as in ISO 296"
    )


def figures(wanted: TangWanted) -> list[Figure]:
    depth, thick = wanted.depth, wanted.thickness
    across, wide = across_flat_and_round(wanted.diameter, depth), flat_width(wanted.diameter, depth)
    now, limits = shown_length(wanted.diameter), between(fine(wanted.least), fine(thick))
    found = [
        Figure(
            "finishing.flat_aim",
            "Depth of each flat",
            depth,
            "mm",
            shown=rough(depth),
            working=[
                Working(
                    "(diameter now − middle of the thickness's limits) / 2",
                    line("({a} − {b}) / 2 = {c}", a=now, b=fine(wanted.aim), c=fine(depth)),
                    "Touch the diameter with the cutter, zero the collar there, go in by this. From there"
                    " a slip either way is still inside the limits.",
                )
            ],
            source=f"{GEOMETRY}; the middle: common practice, no source",
            lead=wanted.across is None and wanted.now is None,
        ),
        Figure(
            "finishing.flat_depth",
            "Depth of each flat, at least",
            wanted.shallowest,
            "mm",
            shown=rough(wanted.shallowest),
            working=[
                Working(
                    "(diameter now − max. thickness) / 2",
                    line(
                        "({a} − {b}) / 2 = {c}",
                        a=now,
                        b=shown_length(thick),
                        c=shown_length(wanted.shallowest),
                    ),
                    "No less, or the tang is too thick for its slot.",
                )
            ],
            source=GEOMETRY,
        ),
        Figure(
            "finishing.across_first",
            "After the first flat, flat to opposite side",
            across,
            "mm",
            shown=fine(across),
            working=[
                Working(
                    "diameter now − depth", line("{a} − {b} = {c}", a=now, b=fine(depth), c=fine(across))
                )
            ],
            source=GEOMETRY,
        ),
        Figure(
            "finishing.tang_thickness",
            "Tang thickness, max.",
            thick,
            "mm",
            shown=fine(thick),
            working=[
                Working(
                    "tolerance h13: upper deviation 0",
                    line(
                        "{a}, {b} to {c}",
                        a=shown_length(thick),
                        b=shown_length(wanted.least),
                        c=shown_length(thick),
                    ),
                )
            ],
            source=_source(wanted, "tang_thickness"),
        ),
        Figure(
            "finishing.tang_limits",
            "Tang thickness, min. to max.",
            [wanted.least, thick],
            "mm",
            shown=limits,
            working=[Working("thickness and its lower limit deviation", limits)],
            source=_source(wanted, "tang_thickness_below"),
        ),
        Figure(
            "finishing.flat_width",
            "Width of each flat",
            wide,
            "mm",
            shown=rough(wide),
            working=[
                Working(
                    "2 √(depth × (diameter − depth))",
                    line("{a} wide on {b}, {c} deep", a=rough(wide), b=now, c=rough(depth)),
                    "A check with a calliper where no micrometer gets in.",
                )
            ],
            source=GEOMETRY,
        ),
    ]
    return [*found, *_from_table(wanted), *_second(wanted), *_verdict(wanted)]


def _from_table(wanted: TangWanted) -> list[Figure]:
    """Length of the flats and the cutter, where the table tells them."""
    found = []
    length, radius = wanted.data.get("tang_flat_length"), wanted.data.get("tang_cutter_radius")
    if length is not None:
        shown = shown_length(length.value)
        printed = line(f"{length.text} {length.unit} = {{a}}", a=shown)
        working = [Working("as printed in the table", printed, length.note)]
        found.append(
            Figure("finishing.flat_length", "Length of the flats", length.value, "mm", shown=shown,
                   working=working, source=length.origin())
        )  # fmt: skip
    if radius is not None:
        run = run_out(radius.value, wanted.depth)
        working = [
            Working(
                "cutter at most 2 × radius; run-out √(depth × (2 radius − depth)), at most the radius",
                line("2 × {a} = {b}; the radius runs out over {c}",
                     a=shown_length(radius.value), b=shown_length(2 * radius.value), c=rough(run)),
                radius.note,
            )
        ]  # fmt: skip
        found.append(
            Figure("finishing.cutter", "Cutter diameter, max.", 2 * radius.value, "mm",
                   shown=rough(2 * radius.value), working=working, source=radius.origin())
        )  # fmt: skip
    return found


def _second(wanted: TangWanted) -> list[Figure]:
    second = wanted.second
    if wanted.across is None or second is None:
        return []
    return [
        Figure(
            "finishing.second_flat",
            "Depth of the second flat",
            second.depth,
            "mm",
            shown=rough(second.depth),
            working=[
                Working(
                    "two equal flats make 2 × reading − diameter",
                    line(
                        "2 × {a} − {b} = {c}",
                        a=shown_length(wanted.across),
                        b=shown_length(wanted.diameter),
                        c=shown_length(second.symmetric),
                    ),
                    _second_note(wanted, second.first_more, second.off_centre),
                )
            ],
            source=GEOMETRY,
            lead=wanted.now is None,
        )
    ]  # fmt: skip


def _second_note(wanted: TangWanted, more: float, off: float) -> str:
    if off > 0.0:
        return "The first flat is too deep for two equal ones: the second is held back to the min. thickness."
    return (
        "Some more comes off the first flat first."
        if more > 1e-9
        else "Two flats of the same depth leave the tang true to the axis."
    )


def _verdict(wanted: TangWanted) -> list[Figure]:
    if wanted.now is None:
        return []
    word = _word(wanted)
    both = {system: judged(wanted, system)[0] for system in ("mm", "inch")}
    limits = between(fine(wanted.least), fine(wanted.thickness))
    return [
        Figure(
            "finishing.tang_verdict",
            "Tang as measured",
            word,
            shown=both,
            working=[
                Working("min. ≤ measured ≤ max.", line("{a} in {b}", a=shown_length(wanted.now), b=limits)),
            ],
            source=_source(wanted, "tang_thickness_below"),
            lead=True,
        )
    ]


_SAME = 1e-9


def _word(wanted: TangWanted) -> str:
    now = wanted.now if wanted.now is not None else wanted.thickness
    if now > wanted.thickness + _SAME:
        return "over"
    return "under" if now < wanted.least - _SAME else "inside"


def judged(wanted: TangWanted, system: str) -> tuple[str, str]:
    """The verdict in words, and what to do about it; the second empty where nothing needs doing."""
    now = wanted.now if wanted.now is not None else wanted.thickness
    said = shown_length(now)[system]
    word = _word(wanted)
    if word == "inside":
        spare = min(now - wanted.least, wanted.thickness - now)
        return f"inside its limits at {said}, {fine(spare)[system]} to spare", ""
    if word == "over":
        over = now - wanted.thickness
        return (
            f"still {fine(over)[system]} over at {said}",
            f"Take {rough((now - wanted.aim) / 2.0)[system]} more off each flat.",
        )
    under = fine(wanted.least - now)[system]
    return (
        f"{under} under its min. at {said}",
        "Metal cannot be put back. The taper drives; the tang keeps it from slipping and meets the drift: for"
        " light work of your own it may stand, marked as thin. To make it right, saw the tang off for a"
        " plain or"
        " drawbar end, or face the end back and mill it again where the shank may be shorter.",
    )
