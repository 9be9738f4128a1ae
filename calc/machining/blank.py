"""The blank of a shank: its finished lengths and diameters, and what to rough it to.

Lengths [mm] run along the axis from the small end (the tang's end, the drawbar end) to the end of the head.
Morse and Metric shanks take theirs from the table of shanks; for other cones the shank is the cone alone, and
what no table tells is left to the person.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.cone import Cone
from calc.tables.published import Datum
from calc.tables.shanks import Shank

TANG, DRAWBAR, PLAIN = "tang", "drawbar", "plain"
ENDS = (TANG, DRAWBAR, PLAIN)

_SAME = 1e-6
_OWN_GAUGE = 0.05
"""A large diameter further [mm] from the table's gauge diameter was given by the person, and counts."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """One stretch of the finished part: its length and the diameter at either end [mm]."""

    name: str
    length: float
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class Finished:
    """The finished shank.

    end: tang, drawbar or plain. length: overall, from the end to the large end of the shank.
    large_end: diameter there. gauge_from_end: from the end to the gauge plane. gauge: diameter there.
    cone_end: where the cone begins, from the end. cone_small: diameter there.
    end_diameter: diameter of the end (tang, or end for the drawbar), None where no table tells it.
    end_length: how far that diameter reaches, 0 where there is none apart from the cone.
    used: the data the lengths come from. shorter: by how much the person's taper is shorter than the table's.
    reach: how long the cone is where it ends before the shank does, on a cylinder of large_end; else None.
    """

    end: str
    length: float
    large_end: float
    gauge_from_end: float
    gauge: float
    cone_end: float
    cone_small: float
    end_diameter: float | None
    end_length: float
    used: Sequence[Datum]
    shorter: float
    reach: float | None = None

    @property
    def cone_length(self) -> float:
        """How long the cone is [mm]."""
        return self.reach if self.reach is not None else self.length - self.cone_end

    @property
    def cone(self) -> Cone:
        """The cone that is really turned: from its small end past the gauge plane to the shoulder or head."""
        length, rise = self.cone_length, self.large_end - self.cone_small
        return Cone(rise / length, self.large_end, self.cone_small, length)

    def parts(self) -> list[Stretch]:
        """End, taper, from the small end on."""
        found = []
        if self.end_length > 0.0 and self.end_diameter is not None:
            name = "tang" if self.end == TANG else "end"
            found.append(Stretch(name, self.end_length, self.end_diameter, self.end_diameter))
        found.append(Stretch("taper", self.cone_length, self.cone_small, self.large_end))
        beyond = self.length - self.cone_end - self.cone_length
        if beyond > _SAME:
            found.append(Stretch("outside", beyond, self.large_end, self.large_end))
        return found


def finished(cone: Cone, end: str, shank: Shank | None, table_length: float | None) -> Finished | None:
    """The finished shank of a cone with this end; None where the cone's diameters or length are not known.

    table_length: the taper's length by its own table [mm], to tell by how much this part is shorter.
    """
    if cone.large_diameter is None or cone.length is None:
        return None
    shorter = table_length - cone.length if table_length is not None else 0.0
    shorter = 0.0 if abs(shorter) < _SAME else shorter
    data = shank.data if shank else {}
    found = _tang(data) if end == TANG else None
    if found is None:
        found = _drawbar(data) if "drawbar_length" in data else _cone_alone(data, table_length or cone.length)
    gauge = data["gauge_diameter"].value if "gauge_diameter" in data else cone.large_diameter
    if abs(gauge - cone.large_diameter) > _OWN_GAUGE:
        gauge = cone.large_diameter
    length = found.overall - shorter
    from_end = length - found.setback
    small = gauge - (from_end - found.end_length) * cone.rate
    if from_end <= found.end_length or small <= 0.0:
        return None
    large_end = gauge + found.setback * cone.rate
    diameter = min(found.end_diameter, small) if found.end_diameter is not None else None
    used = [data[name] for name in found.names]
    return Finished(
        end,
        length,
        large_end,
        from_end,
        gauge,
        found.end_length,
        small,
        diameter,
        found.end_length,
        used,
        shorter,
    )


@dataclass(frozen=True, slots=True)
class _Lengths:
    """What a table tells of one end [mm]."""

    overall: float
    setback: float
    end_diameter: float | None
    end_length: float
    names: tuple[str, ...]


def _tang(data: Mapping[str, Datum]) -> _Lengths | None:
    """With tang, None where the table tells none.

    The tang's diameter is taken to reach as far as its flats (metric) or as far as the cone does not (inch):
    the tables give the diameter, not its length.
    """
    if "tang_overall_length" not in data or "tang_diameter" not in data:
        return None
    overall, diameter = data["tang_overall_length"].value, data["tang_diameter"].value
    if "setback" in data:
        names = ("tang_overall_length", "setback", "tang_diameter", "tang_flat_length")
        return _Lengths(overall, data["setback"].value, diameter, data["tang_flat_length"].value, names)
    depth = data["shank_depth"].value
    names = ("tang_overall_length", "shank_depth", "plug_depth", "tang_diameter")
    return _Lengths(overall, overall - depth, diameter, depth - data["plug_depth"].value, names)


def _drawbar(data: Mapping[str, Datum]) -> _Lengths:
    """For a drawbar; a plain end has the same lengths."""
    names = ("drawbar_length", "setback")
    return _Lengths(data["drawbar_length"].value, data["setback"].value, None, 0.0, names)


def _cone_alone(data: Mapping[str, Datum], length: float) -> _Lengths:
    """The cone and, where the table tells it, what stands out beyond the gauge plane."""
    if "shank_depth" not in data:
        return _Lengths(length, 0.0, None, 0.0, ())
    setback = data["tang_overall_length"].value - data["shank_depth"].value
    return _Lengths(length + setback, setback, None, 0.0, ("tang_overall_length", "shank_depth"))


@dataclass(frozen=True, slots=True)
class Leave:
    """What to leave on and add [mm]: on the diameter, at each face, to hold by, and off the bar's skin."""

    rough: float
    facing: float
    holding: float
    clean_up: float


@dataclass(frozen=True, slots=True)
class Rough:
    """One step of roughing: turn to this diameter for this length from the faced small end [mm]."""

    name: str
    diameter: float
    length: float
    finished: float
    """What it is finished to, the larger end of it."""


@dataclass(frozen=True, slots=True)
class Plan:
    """The blank [mm].

    stock_least: the bar must be at least this thick. length: to cut off. finished_length: of the part, head
    and all. roughs: in the order of turning, the largest first.
    """

    stock_least: float
    length: float
    finished_length: float
    roughs: Sequence[Rough]


def plan(part: Finished, head_length: float, head_diameter: float | None, leave: Leave) -> Plan:
    """The blank of a part whose head, so long and thick [mm], follows the large end of the shank.

    The shank is roughed as a cylinder to its large end and what is to be left on, over its length and one
    facing.
    """
    roughs = [Rough("shank", part.large_end + leave.rough, part.length + leave.facing, part.large_end)]
    if part.end_length > 0.0 and part.end_diameter is not None:
        roughs.append(Rough(part.end, part.end_diameter, part.end_length, part.end_diameter))
    largest = roughs[0].diameter
    if head_length > 0.0 and head_diameter is not None:
        largest = max(largest, head_diameter)
    total = part.length + head_length
    length = total + 2.0 * leave.facing + leave.holding
    return Plan(largest + leave.clean_up, length, total, roughs)
