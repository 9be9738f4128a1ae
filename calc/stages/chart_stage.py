"""The wall chart by the names that a stage bears."""

from __future__ import annotations

from calc.sheet import Stage
from calc.stages import chart
from calc.stages.common.job_facts import Job
from calc.stages.setting_facts import SettingFacts

ID, IDS, SHOP = chart.ID, chart.IDS, ()


def work(job: Job) -> object:
    """Nothing is found here: its rows are worked out later."""
    return None


def sheet(job: Job) -> Stage:
    """Which series go on the chart."""
    return chart.answer(job.form(ID), job.found(SettingFacts).bench)
