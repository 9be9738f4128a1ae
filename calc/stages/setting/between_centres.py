"""The length of the job's own blank between centres: what the set-over of the tailstock grows with."""

from __future__ import annotations

import math

from calc.quantities import shown_length
from calc.sheet import Both
from calc.stages.blank.facts import BlankFacts
from calc.stages.blank.plan import shank_blank
from calc.stages.common.job_facts import Job
from calc.stages.common.spigot import ask_spigot
from calc.stages.setting.bench import CENTRE_DEPTH, WORK_LENGTH
from calc.stages.taper.facts import TaperFacts

CONE = math.tan(math.radians(30.0))
"""Half the difference of mouth and pilot of a centre hole by the depth of its 60 degree cone."""


def between_centres(job: Job, taper: TaperFacts) -> dict[str, Both]:
    """Defaults for set-over: the blank as it is carried, faced at both ends, and its centre holes' cones.

    What the blank is held by stays on it until it is sawn off last. Nothing where there is no blank yet.
    """
    return _of(_blank(job, taper))


def _blank(job: Job, taper: TaperFacts) -> BlankFacts | None:
    if taper.form == "internal" or taper.cone is None:
        return None
    spigot = ask_spigot(job.quiet())
    return shank_blank(job.quiet(), taper, spigot.limits[1] if spigot else None)


def _of(blank: BlankFacts | None) -> dict[str, Both]:
    planned = blank.planned if blank else None
    if planned is None:
        return {}
    length = planned.plan.length - 2.0 * planned.leave.facing
    depth = 0.5 * (planned.centre.mouth.value - planned.centre.drill.value) / CONE
    return {
        WORK_LENGTH: shown_length(length),
        CENTRE_DEPTH: shown_length(depth, 0.5),
    }
