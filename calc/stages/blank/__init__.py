"""From bar to roughed blank: which bar, how long, what to rough it to, and in which order."""

from __future__ import annotations

from calc.setting import set_over
from calc.sheet import Stage
from calc.stages.blank.facts import ID, TITLE, BlankFacts
from calc.stages.blank.plan import shank_blank, socket_blank
from calc.stages.blank.steps import Around
from calc.stages.common.job_facts import Job
from calc.stages.common.shop import MEND
from calc.stages.common.spigot import ask_spigot
from calc.stages.finishing.facts import FinishingFacts
from calc.stages.setting.facts import SettingFacts
from calc.stages.taper.facts import TaperFacts

__all__ = ["ID", "IDS", "SHOP", "sheet", "work"]

IDS = tuple(
    f"blank.{name}"
    for name in (
        "end", "head_length", "head_diameter", "stock", "facing", "holding", "rough_allowance", "clean_up"
    )
)  # fmt: skip
SHOP = ("blank.stock",)


def work(job: Job) -> BlankFacts:
    """Ask, and plan the blank around the taper and the spigot that Finishing asks for."""
    taper = job.found(TaperFacts)
    if taper.form == "internal":
        return socket_blank(job.form(ID), taper)
    spigot = ask_spigot(job.quiet())
    return shank_blank(job.form(ID), taper, spigot.limits[1] if spigot else None)


def sheet(job: Job) -> Stage:
    """Bar, lengths, roughing, and the order in which it is done."""
    form, taper, blank = job.form(ID), job.found(TaperFacts), job.found(BlankFacts)
    if taper.form == "internal":
        from calc.stages.blank.socket import sheet as bored

        return bored(form, taper, blank)
    if form.wrong or blank.end is None:
        return Stage(ID, TITLE, MEND, form.fields)
    if taper.cone is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields)
    if blank.planned is None:
        wanted = "Enter the taper's large diameter and a length that leaves room for the end."
        return Stage(ID, TITLE, wanted, form.fields)
    from calc.stages.blank.words import in_words  # read when there is something to say

    return in_words(form, taper, blank.end, blank.planned, _around(job))


def _around(job: Job) -> Around:
    """What setting and finishing make of the blank."""
    bench, spigot = job.found(SettingFacts).bench, job.found(FinishingFacts).spigot
    between = bench is not None and bench.way.ID == set_over.ID
    return Around(between, spigot.limits[1] if spigot else None)
