"""What the cutting stage finds, worked out once: figures, steps and picture tell of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import cos

from calc.cone import Cone
from calc.machining import infeed
from calc.machining.bites import CLEAR, OVERLAP, Bites, TravelTooShort, plan_bites, travel_wanted
from calc.machining.boring import THINNEST, Boring, boring
from calc.machining.handfeed import Count, count_to_keep, handle_rate, minutes
from calc.machining.passes import Cut, TooManyCuts, path, plan_cuts, proved_after
from calc.machining.speeds import turns_a_minute
from calc.stages.cutting.asks import CuttingEntries
from calc.tables.speeds import Range, start_speed

ID = "cutting"
COLLAR = {"mm": 0.01, "inch": 0.0254}
"""What a cross-slide's collar is set to [mm on radius], by system: a hundredth of a mm, a thou."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """What was chosen, told and worked out; lengths [mm], angles [rad], None where it cannot be known.

    cone: as it is measured, to its gauge plane. whole: as it is cut, past that to the shoulder or head.
    speed: the surface speeds to start from. diameter: the largest that is cut. limit: turns a minute at the
    low end of `speed`; turns: the lathe's own at or below. to_go: still to come off [mm on radius], below 0
    where too much is off. most: the most that comes off at the deepest place. cuts: how; empty where nothing
    is to come off or not enough is known. too_fine: the cuts told would be too many. bites: None where the
    travel is not told or of no use (too_short says which). flank: length along it. boring: the bar of a bore.
    system: of the notes. metal: to be left for proving [mm on diameter], 0 where that is not known.
    height_entered: the tool's height was entered, not taken as it usually is. between_centres: it is carried
    by a dog there and has no jaws about it.
    """

    cone: Cone
    whole: Cone
    internal: bool
    by_slide: bool
    small_end: str
    told: CuttingEntries
    tool_height: float
    speed: Range
    diameter: float | None
    limit: float | None
    turns: int | None
    handle: float | None
    count: Count | None
    boring: Boring | None
    to_go: float | None
    most: float | None
    cuts: tuple[Cut, ...]
    too_fine: bool
    flank: float | None
    bites: Bites | None
    too_short: bool
    time: float | None
    system: str
    metal: float = 0.0
    height_entered: bool = False
    between_centres: bool = False

    @property
    def proved_after(self) -> int | None:
        """After how many of the cuts the taper is to be proved; None where none leaves metal enough."""
        return proved_after(self.cuts, 0.5 * self.metal) if self.metal and not self.begun else None

    @property
    def begun(self) -> bool:
        """True once a diameter or a gauge says how far the taper has come."""
        return self.to_go is not None

    @property
    def deep_end(self) -> str:
        """Where most is to come off: the end at which cutting begins."""
        return "large end" if self.internal else "small end"

    @property
    def large_end(self) -> str:
        """The tailstock or the headstock: where the large end points."""
        return "headstock" if self.small_end == "tailstock" else "tailstock"


@dataclass(frozen=True, slots=True)
class CuttingFacts:
    """Whether all that was asked could be read (told), and the cutting worked out where the cone is known."""

    told: bool
    cut: Cutting | None = None


@dataclass(frozen=True, slots=True)
class Lies:
    """How the taper lies: inside or outside, cut by winding the slide or not, where its small end points."""

    internal: bool
    by_slide: bool
    small_end: str


def work_out(
    cone: Cone,
    whole: Cone,
    lies: Lies,
    told: CuttingEntries,
    tool_height: float,
    system: str,
    metal: float = 0.0,
) -> Cutting:
    """The cutting of the `whole` cone, which is measured as `cone`, from what is known.

    metal: what roughing must leave for proving [mm on diameter].
    """
    internal, by_slide = lies.internal, lies.by_slide
    bar = _boring(whole, told) if internal else None
    if bar is not None:
        told = _held_back(told, bar, system)
    if not internal:
        whole = _out_of(whole, told.start)
    speed = start_speed(told.material, told.tool)
    known = [each for each in (whole.large_diameter, told.now, None if internal else told.start) if each]
    diameter = max(known) if known else None
    limit = turns_a_minute(speed.lowest, diameter) if diameter else None
    turns = told.speeds.at_or_below(limit) if limit is not None else None
    handle = handle_rate(told.feed, turns, told.lead) if turns and told.lead and by_slide else None
    to_go = _to_go(cone, internal, told)
    most = _most(whole, internal, told, to_go)
    flank = whole.length / cos(whole.half_angle) if whole.length else None
    bites, too_short = None, False
    if by_slide and flank and told.travel is not None:
        try:
            bites = plan_bites(flank, told.travel)
        except TravelTooShort:
            too_short = True
    cuts, too_fine = _cuts(whole, told, most, to_go is None, 0.5 * metal, COLLAR[system])
    time = None
    if cuts and turns:
        beyond = 2 * CLEAR + (len(bites.spans) - 1) * OVERLAP if bites else 2 * CLEAR
        time = minutes(path(cuts, whole.half_angle, beyond), told.feed, turns)
    return Cutting(
        cone=cone,
        whole=whole,
        internal=internal,
        by_slide=by_slide,
        small_end=lies.small_end,
        told=told,
        tool_height=tool_height,
        speed=speed,
        diameter=diameter,
        limit=limit,
        turns=turns,
        handle=handle,
        count=count_to_keep(handle) if handle else None,
        boring=bar,
        to_go=to_go,
        most=most,
        cuts=cuts,
        too_fine=too_fine,
        flank=flank,
        bites=bites,
        too_short=too_short,
        time=time,
        system=system,
        metal=metal,
    )


def wanted_travel(job: Cutting) -> float | None:
    """Travel of the slide [mm] that takes the flank in one bite."""
    return travel_wanted(job.flank) if job.flank else None


def _boring(cone: Cone, told: CuttingEntries) -> Boring | None:
    """The bar for a bore that is at its narrowest when the taper is begun; None where that is not known."""
    bore = told.start or cone.small_diameter
    if not bore or not cone.length:
        return None
    return boring(bore, told.boring_bar, cone.length + 2 * CLEAR, told.feed, told.material)


def _held_back(told: CuttingEntries, bar: Boring, system: str) -> CuttingEntries:
    """Cuts no deeper than the bar allows, where their depth was not told: then it is the person's word."""
    depth = told.depth
    if not told.own_depth and bar.rough < depth:
        step = COLLAR[system]
        depth = max(bar.rough, THINNEST)
        depth = max(step * (depth // step), min(depth, step))
    fine = told.finish_depth if told.own_finish else min(told.finish_depth, max(bar.fine, THINNEST))
    return replace(told, depth=depth, finish_depth=fine)


def _out_of(whole: Cone, start: float | None) -> Cone:
    """What of an outside cone comes out of a cylinder this thick [mm]: a thin one ends it sooner."""
    large, small = whole.large_diameter, whole.small_diameter
    if start is None or large is None or not small or not small < start < large or whole.rate <= 0.0:
        return whole
    return Cone(whole.rate, start, small, (start - small) / whole.rate)


def _to_go(cone: Cone, internal: bool, told: CuttingEntries) -> float | None:
    """Depth still to go [mm on radius]: by the gauge, which feels the whole flank, else by diameter."""
    if told.stand_off is not None:
        return infeed.depth_from_stand_off(told.stand_off, cone.rate)
    if told.now is not None and cone.large_diameter is not None:
        return infeed.depth_from_diameter(told.now, cone.large_diameter, internal)
    return None


def _most(cone: Cone, internal: bool, told: CuttingEntries, to_go: float | None) -> float | None:
    """The most to come off [mm on radius]: everywhere alike once begun, else down to the taper's deep end."""
    if to_go is not None:
        return to_go
    if cone.large_diameter is None or cone.small_diameter is None:
        return None
    if internal:
        return (cone.large_diameter - (told.start or cone.small_diameter)) / 2.0
    return ((told.start or cone.large_diameter) - cone.small_diameter) / 2.0


def _cuts(
    cone: Cone, told: CuttingEntries, most: float | None, parallel: bool, keep: float, step: float
) -> tuple[tuple[Cut, ...], bool]:
    if most is None or cone.length is None:
        return (), False
    try:
        return (
            plan_cuts(
                most,
                cone.half_angle,
                cone.length,
                told.depth,
                told.finish_depth,
                told.finish_cuts,
                parallel,
                keep if parallel else 0.0,
                step,
            ),
            False,
        )
    except TooManyCuts:
        return (), True
