"""Finishing what is not taper: the tang's flats, the drawbar's thread, the spigot and its fit."""

from __future__ import annotations

from dataclasses import replace

from calc.machining.blank import DRAWBAR, TANG
from calc.setting import set_over
from calc.sheet import Caution, Stage
from calc.stages.blank.facts import BlankFacts, End
from calc.stages.common.job_facts import Job
from calc.stages.common.sheet_part import SheetPart
from calc.stages.common.shop import MEND
from calc.stages.common.spigot import ask_spigot
from calc.stages.finishing.facts import ID, FinishingFacts
from calc.stages.finishing.spigot import Held, spigot_part
from calc.stages.finishing.tang import ask_tang, tang_part
from calc.stages.finishing.thread import ask_thread, thread_part
from calc.stages.setting.facts import SettingFacts
from calc.stages.taper.facts import TaperFacts

__all__ = ["ID", "IDS", "SHOP", "sheet", "work"]

TITLE = "Finishing"
IDS = tuple(
    f"finishing.{name}"
    for name in (
        "thickness",
        "diameter_now",
        "across_now",
        "tang_now",
        "thread",
        "spigot",
        "fit",
        "spigot_now",
    )
)
SHOP = ()


def work(job: Job) -> FinishingFacts:
    """Ask only what this end and this job need."""
    form, end = job.form(ID), job.found(BlankFacts).end
    tang = ask_tang(form, end) if end is not None and end.kind == TANG else None
    thread = ask_thread(form, end) if end is not None and end.kind == DRAWBAR else None
    spigot = ask_spigot(form) if job.found(TaperFacts).form != "internal" else None
    return FinishingFacts(tang, thread, spigot)


def sheet(job: Job) -> Stage:
    """Flats, thread and spigot, each where it is wanted."""
    form, end, wanted = job.form(ID), job.found(BlankFacts).end, job.found(FinishingFacts)
    if form.wrong:
        return Stage(ID, TITLE, MEND, form.fields)
    name = job.found(TaperFacts).name
    parts: list[SheetPart] = []
    if wanted.tang is not None:
        parts.append(tang_part(wanted.tang, name, form.system))
    if wanted.thread is not None and end is not None:
        parts.append(thread_part(wanted.thread, end, name, form.system))
    if wanted.spigot is not None:
        parts.append(spigot_part(wanted.spigot, _held(job), form.system))
    cautions: list[Caution] = []
    for each in parts:
        cautions += [caution for caution in each.cautions if caution not in cautions]
    drawn = [each for each in parts if each.drawing]
    for each in drawn[1:]:  # the stage shows one picture; a second stands beside its part's first figure
        each.figures[0] = replace(each.figures[0], drawing=each.drawing)
    internal = job.found(TaperFacts).form == "internal"
    line = "; ".join(each.line for each in parts if each.line) or _nothing(end, internal)
    return Stage(
        ID,
        TITLE,
        line[0].upper() + line[1:],
        form.fields,
        [figure for each in parts for figure in each.figures],
        [step for each in parts for step in each.steps],
        cautions,
        drawn[0].drawing if drawn else "",
    )


def _held(job: Job) -> Held:
    """How the work is held while its spigot is turned."""
    bench, blank = job.found(SettingFacts).bench, job.found(BlankFacts)
    return Held(
        bench is not None and bench.way.ID == set_over.ID,
        blank.planned is not None and blank.planned.leave.holding > 0.0,
        blank.end is not None and blank.end.kind == DRAWBAR,
        blank.end is not None and blank.end.shank is not None,
    )


def _nothing(end: End | None, internal: bool) -> str:
    if internal:
        return "Nothing to finish beyond the bore."
    if end is not None and end.kind == TANG:
        return "Enter the tang's thickness: no table here gives it."
    if end is not None and end.kind == DRAWBAR:
        return "No table here gives a thread for this taper: take that of your drawbar."
    return "Nothing to finish beyond the taper; enter a spigot if there is one."
