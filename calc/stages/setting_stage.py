"""The setting stage by the names that a stage bears."""

from __future__ import annotations

from calc.sheet import Stage
from calc.stages import setting
from calc.stages.common.job_facts import Job
from calc.stages.setting_facts import SettingFacts
from calc.stages.taper.facts import TaperFacts

ID, IDS, SHOP = setting.ID, setting.IDS, ()


def work(job: Job) -> SettingFacts:
    """Ask for the way, the bar and the drawer."""
    bench, drawer = setting.ask(job.form(ID), list(job.sent.drawer), job.sent.add)
    job.rows["drawer"] = drawer.normalised
    return SettingFacts(drawer, bench)


def sheet(job: Job) -> Stage:
    """Height, stack, pin, swing and error."""
    facts = job.found(SettingFacts)
    return setting.answer(job.form(ID), facts.bench, facts.drawer, job.found(TaperFacts))
