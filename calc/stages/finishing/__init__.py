"""Finishing what is not taper: the tang's flats, the drawbar's thread, the spigot and its fit."""

from __future__ import annotations

from dataclasses import replace

from calc.machining.blank import DRAWBAR, TANG
from calc.sheet import Caution, Stage
from calc.stages.blank.facts import BlankFacts, End
from calc.stages.common.job_facts import Job
from calc.stages.common.sheet_part import SheetPart
from calc.stages.common.spigot import ask_spigot
from calc.stages.finishing.facts import ID, FinishingFacts
from calc.stages.finishing.spigot import spigot_part
from calc.stages.finishing.tang import ask_tang, tang_part
from calc.stages.finishing.thread import ask_thread, thread_part
from calc.stages.taper.facts import TaperFacts

__all__ = ["ID", "IDS", "SHOP", "sheet", "work"]

TITLE = "Finishing"
MEND = "Something in the entries needs mending."
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
        parts.append(spigot_part(wanted.spigot, form.system))
    cautions: list[Caution] = []
    for each in parts:
        cautions += [caution for caution in each.cautions if caution not in cautions]
    drawn = [each for each in parts if each.drawing]
    for each in drawn[1:]:  # the stage shows one picture; a second stands beside its part's first figure
        each.figures[0] = replace(each.figures[0], drawing=each.drawing)
    line = "; ".join(each.line for each in parts if each.line) or _nothing(end)
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


def _nothing(end: End | None) -> str:
    if end is not None and end.kind == TANG:
        return "Give the tang's thickness: no table here tells it."
    if end is not None and end.kind == DRAWBAR:
        return "No table here tells a thread for this taper: take the one your drawbar has."
    return "Nothing to finish beyond the taper; a spigot may be asked for."
