"""The stage of cutting the taper: how fast, how deep, does the slide reach, how much is left."""

from __future__ import annotations

from dataclasses import replace

from calc.cone import Cone
from calc.drawings.at_bench import boring_height_picture, centre_height_picture
from calc.drawings.bites import travel_picture
from calc.quantities import shown_length
from calc.setting import WAYS, set_over
from calc.sheet import Stage, Step
from calc.stages.blank.facts import BlankFacts
from calc.stages.common.job_facts import Job
from calc.stages.common.metal import metal_for
from calc.stages.common.shop import MEND
from calc.stages.common.steps import both_systems
from calc.stages.cutting import hold, slide, speed
from calc.stages.cutting.asks import IDS, ask
from calc.stages.cutting.cautions import cautions
from calc.stages.cutting.facts import ID, Cutting, CuttingFacts, Lies, wanted_travel, work_out
from calc.stages.cutting.speed import turns_text
from calc.stages.cutting.steps import steps
from calc.stages.cutting.words import length, wanted_along
from calc.stages.setting.facts import SettingFacts
from calc.stages.taper.facts import TaperFacts

__all__ = ["ID", "IDS", "SHOP", "sheet", "work"]

TITLE = "Cutting"
SHOP = (
    "cutting.boring_bar",
    "cutting.dial_reads",
    "cutting.slide_division",
    "cutting.slide_lead",
    "cutting.slide_travel",
    "cutting.speeds",
)
NOT_BY_SLIDE = tuple(way.ID for way in WAYS if way.CUTS_BY == "carriage")
"""Ways of setting in which the carriage's own feed cuts the taper."""
USUAL_HEIGHT = 0.1


def work(job: Job) -> CuttingFacts:
    """Ask for tool, lathe and progress, and work out the cutting of the taper as it is set."""
    taper, setting = job.found(TaperFacts), job.found(SettingFacts)
    bench = setting.bench
    by_slide = bench is None or bench.way.ID not in NOT_BY_SLIDE
    internal = taper.form == "internal"
    small_end = taper.small_end or "tailstock"
    blank = job.found(BlankFacts)
    cone = blank.pipe or taper.cone
    whole = (None if internal else blank.cone) or cone
    start = None if internal else blank.start_diameter
    told = ask(job.form(ID), cone, whole, internal, by_slide, small_end == "tailstock", start)
    if told is None or cone is None:
        return CuttingFacts(told is not None)
    height = bench.doubts.get("setting.tool_height", USUAL_HEIGHT) if bench else USUAL_HEIGHT
    lies = Lies(internal, by_slide, small_end)
    metal = metal_for(setting.set_up, job.quiet())
    cut = work_out(cone, whole or cone, lies, told, height, job.system, metal)
    for name, usual, taken in (
        ("cutting.depth", told.depth, cut.told.depth),
        ("cutting.finish_depth", told.finish_depth, cut.told.finish_depth),
    ):
        # A slender boring bar holds the usual depth back: that is what the field has to say.
        if taken != usual:
            job.form(ID).instead(name, shown_length(taken)[job.system])
    carried = bench is not None and bench.way.ID == set_over.ID
    entered = job.form(ID).given("setting.tool_height")
    return CuttingFacts(True, replace(cut, height_entered=entered, between_centres=carried))


def sheet(job: Job) -> Stage:
    """Speed, cuts, what is to go, and what to beware of."""
    form, facts = job.form(ID), job.found(CuttingFacts)
    cut = facts.cut
    if not facts.told:
        return Stage(ID, TITLE, MEND, form.fields)
    if cut is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields)
    return Stage(
        ID,
        TITLE,
        _line(cut),
        form.fields,
        [*speed.figures(cut), *slide.figures(cut), *hold.figures(cut)],
        _pictured(both_systems(lambda system: steps(replace(cut, system=system))), job, cut),
        cautions(cut),
        _picture(cut),
    )


def _pictured(found: list[Step], job: Job, cut: Cutting) -> list[Step]:
    """The steps, centre height with its picture; none for a turning tool on the far side."""
    bench = job.found(SettingFacts).bench
    side = bench.cut_side if bench is not None else "operator"
    if side == "far" and not cut.internal:
        return found
    drawing = boring_height_picture(side) if cut.internal else centre_height_picture()
    return [replace(each, drawing=drawing) if each.id == f"{ID}.tool_height" else each for each in found]


def _line(job: Cutting) -> str:
    """The answer in one line: what is to go once begun, and the speed."""
    parts = []
    if job.to_go is not None:
        both = length(2 * abs(job.to_go))[job.system]
        parts.append(f"{both} on diameter to go" if job.to_go >= 0.0 else f"over-cut by {both} on diameter")
    if job.turns is not None:
        parts.append(turns_text(job.turns))
    elif job.limit is not None:
        parts.append("no spindle speed slow enough")
    if job.handle is not None and job.count is not None:
        parts.append(f"handle {job.count.words} every {job.count.seconds:.1f} s")
    if job.bites is not None and len(job.bites.spans) > 1:
        parts.append(f"{len(job.bites.spans)} sections")
    if not parts:
        return "Waiting for the taper's diameters."
    line = "; ".join(parts)
    return line[0].upper() + line[1:]


def _picture(job: Cutting) -> str:
    cone: Cone = job.whole
    wanted = wanted_travel(job)
    if not job.by_slide or not job.flank or wanted is None or cone.large_diameter is None:
        return ""
    travel = job.told.travel
    words = f"top slide travel {length(travel)[job.system]}" if travel is not None else ""
    return travel_picture(
        job.flank,
        job.bites.spans if job.bites else ((-1.0, job.flank + 1.0),),
        travel if job.bites else None,
        length(job.flank)[job.system],
        words or f"travel wanted {wanted_along(wanted)[job.system]}",
        job.small_end,
        "internal" if job.internal else "external",
        cone.half_angle,
        job.told.on_centre,
    )
