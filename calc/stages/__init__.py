"""The stages of the job in order: one folder each, one line each in the list below."""

from __future__ import annotations

from calc.sheet import Stage, unfolded
from calc.stages import blank, chart, cutting, finishing, proving, setting, taper
from calc.stages.common.job_facts import Begun, Job, JobStage, Sent, begin_of
from calc.stages.glance import glance
from calc.stages.route import job_cautions, placed, route, settled

__all__ = [
    "STAGES",
    "STAGES_ASK",
    "Begun",
    "Job",
    "JobStage",
    "Sent",
    "begin_of",
    "glance",
    "job_cautions",
    "placed",
    "route",
    "run_stages",
    "settled",
]

STAGES: tuple[JobStage, ...] = (
    taper,
    setting,
    blank,
    cutting,
    proving,
    finishing,
    chart,
)

STAGES_ASK = frozenset(name for stage in STAGES for name in stage.IDS)
"""Every entry some stage may ask for."""


def run_stages(job: Job) -> list[Stage]:
    """All stages of this job: first every one's work, in order, then what each has to say."""
    for stage in STAGES:
        job.open(stage.ID, stage.SHOP)
        begin = begin_of(stage)
        if begin is not None:
            job.keep(begin(job))
        job.keep(stage.work(job))
    return settled([unfolded(stage.sheet(job)) for stage in STAGES])
