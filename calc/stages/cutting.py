"""The stage of cutting the taper: how fast, how deep, does the slide reach, how much is left."""

from __future__ import annotations

from calc.cone import Cone
from calc.drawings.bites import travel_picture
from calc.setting import WAYS
from calc.sheet import Stage
from calc.stages import cutting_hold, cutting_slide, cutting_speed
from calc.stages.cutting_asks import IDS, ask
from calc.stages.cutting_job import Job, wanted_travel, work_out
from calc.stages.cutting_speed import turns_text
from calc.stages.cutting_steps import cautions, steps
from calc.stages.cutting_words import length
from calc.stages.form import Form
from calc.stages.taper import Chosen

__all__ = ["IDS", "answer"]

ID = "cutting"
TITLE = "Cutting"
MEND = "Something in the entries needs mending."
NOT_BY_SLIDE = tuple(way.ID for way in WAYS if way.CUTS_BY == "carriage")
"""Ways of setting in which the carriage's own feed cuts the taper."""
USUAL_HEIGHT = 0.1


def answer(
    form: Form, chosen: Chosen, way: str, tool_height: float | None, start_diameter: float | None = None
) -> Stage:
    """Ask for tool, lathe and progress, and answer for the taper chosen.

    way: how the taper is set, empty where that is not known. tool_height: how far off centre height the
    setting takes the tool to be [mm]. start_diameter: what the blank is turned parallel to [mm]; None where
    no blank says so.
    """
    by_slide = way not in NOT_BY_SLIDE
    internal = chosen.form == "internal"
    small_end = chosen.small_end or "tailstock"
    start = None if internal else start_diameter
    told = ask(form, chosen.cone, internal, by_slide, small_end == "tailstock", start)
    if told is None:
        return Stage(ID, TITLE, MEND, form.fields)
    if chosen.cone is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields)
    height = USUAL_HEIGHT if tool_height is None else tool_height
    job = work_out(chosen.cone, internal, by_slide, small_end, told, height, form.system)
    figures = [*cutting_speed.figures(job), *cutting_slide.figures(job), *cutting_hold.figures(job)]
    picture = _picture(job)
    return Stage(ID, TITLE, _line(job), form.fields, figures, steps(job), cautions(job), picture)


def _line(job: Job) -> str:
    """The answer in one line: what is to go once begun, and the speed."""
    parts = []
    if job.to_go is not None:
        both = length(2 * abs(job.to_go))[job.system]
        parts.append(f"{both} on diameter {'to go' if job.to_go >= 0.0 else 'over'}")
    if job.turns is not None:
        parts.append(turns_text(job.turns))
    elif job.limit is not None:
        parts.append("no speed slow enough")
    if job.handle is not None and job.count is not None:
        parts.append(f"handle {job.count.words} every {job.count.seconds:.1f} s")
    if job.bites is not None and len(job.bites.spans) > 1:
        parts.append(f"{len(job.bites.spans)} bites")
    if not parts:
        return "Waiting for the taper's diameters."
    line = "; ".join(parts)
    return line[0].upper() + line[1:]


def _picture(job: Job) -> str:
    cone: Cone = job.cone
    wanted = wanted_travel(job)
    if not job.by_slide or not job.flank or not cone.length or wanted is None or cone.large_diameter is None:
        return ""
    travel = job.told.travel
    words = f"slide travels {length(travel)[job.system]}" if travel is not None else ""
    return travel_picture(
        job.flank,
        job.bites.spans if job.bites else ((-1.0, job.flank + 1.0),),
        travel if job.bites else None,
        length(job.flank)[job.system],
        words or f"travel wanted {length(wanted)[job.system]}",
        job.small_end,
        "internal" if job.internal else "external",
        cone.half_angle,
        job.told.on_centre,
    )
