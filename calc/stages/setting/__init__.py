"""Second stage: how to set the angle, with what, and how far out that leaves the taper."""

from __future__ import annotations

from dataclasses import replace

from calc.doubt.doubts import DOUBTS
from calc.doubt.task import Task
from calc.setting import WAYS
from calc.sheet import Caution, Stage
from calc.stages.common.job_facts import Job
from calc.stages.common.taught import SINCE, Taught, taught_by
from calc.stages.setting.bench import KNOWN, SPANS, Bench, ask_bench
from calc.stages.setting.between_centres import between_centres
from calc.stages.setting.compare import ways_figure
from calc.stages.setting.facts import ID, SettingBegun, SettingFacts, aim, stacked
from calc.stages.setting.pieces import read_pieces
from calc.stages.setting.words import TITLE, in_words
from calc.stages.taper import how_it_lies
from calc.stages.taper.facts import TaperFacts

__all__ = ["ID", "IDS", "SHOP", "begin", "bench_of", "sheet", "work"]

MEND = "Check the entries marked below."
IDS = (
    "setting.way",
    "setting.cut_side",
    "setting.grade",
    "setting.aim",
    "setting.film",
    *dict.fromkeys(ask.id for way in WAYS for ask in way.ASKS),
    *DOUBTS,
    *SPANS,
    *KNOWN,
)
SHOP = frozenset(
    (
        "drawer",
        *DOUBTS,
        *SPANS,
        *KNOWN,
        "setting.attachment_by",
        "setting.attachment_scale",
        "setting.ball",
        "setting.bar_centres",
        "setting.collar_division",
        "setting.degree_division",
        "setting.division",
        "setting.film",
        "setting.guide_length",
        "setting.pivot_across",
        "setting.pivot_ahead",
        "setting.roller_difference",
        "setting.set_over_most",
        "setting.travel",
        "setting.zero",
    )
)
"""The sine bar, the lathe and its scales, the drawer, and what each thing is known to."""


def begin(job: Job) -> SettingBegun:
    """Ask for the way, the bar and the drawer, and find the number to set."""
    form, taper = job.form(ID), job.found(TaperFacts)
    bench = ask_bench(form, taper.lies, lambda: between_centres(job, taper))
    drawer = read_pieces(job.sent.drawer, job.system, job.sent.add)
    form.put(drawer.field)
    job.rows["drawer"] = drawer.normalised
    if bench is None:
        return SettingBegun(drawer, None)
    bench = replace(bench, pieces=drawer.pieces)
    if taper.cone is None or taper.small_end is None:
        return SettingBegun(drawer, bench)
    task = bench.task(taper.cone, taper.small_end)
    refused = bench.way.refusal(task)
    if refused:
        return SettingBegun(drawer, bench, task, refused)
    taught = taught_by(job.sent.history.read, job.sent.entries, bench.pieces)
    aimed = aim(bench, task, _stands(job, bench, task, taught))
    return SettingBegun(drawer, bench, aimed.task, "", aimed, taught)


def work(job: Job) -> SettingFacts:
    """Look through the drawer for what is to be stacked, and weigh what comes of it."""
    begun = job.found(SettingBegun)
    bench, aimed, taught = begun.bench, begun.aimed, begun.taught
    made = None
    if bench is not None and aimed is not None and taught is not None:
        made = stacked(bench, aimed, _stands(job, bench, aimed.task, taught))
    return SettingFacts(begun.drawer, bench, begun.task, begun.refused, made, taught)


def _stands(job: Job, bench: Bench, task: Task, taught: Taught) -> Taught:
    """What was taught when it was set as it stands."""
    return taught.when_set_up(task, bench.way.ID, job.sent.entries.get(SINCE, "").strip().casefold())


def sheet(job: Job) -> Stage:
    """What was asked, with height, stack, pin, swing and error for the taper chosen."""
    form, facts = job.form(ID), job.found(SettingFacts)
    read = facts.drawer.cautions
    if facts.bench is None:
        return Stage(ID, TITLE, MEND, form.fields, cautions=read)
    if facts.task is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields, cautions=read)
    if facts.set_up is None:
        figures = [ways_figure(form, facts.bench, facts.task)]
        cautions = [Caution("care", facts.refused), *read]
        return Stage(ID, TITLE, facts.refused, form.fields, figures, cautions=cautions)
    return in_words(form, facts.bench, facts, facts.set_up)


def bench_of(job: Job) -> Bench | None:
    """The bench with its drawer, for tapers other than the job's own; nothing is set on it."""
    form = job.quiet()
    bench = ask_bench(form, how_it_lies(form) or "external")
    drawer = read_pieces(job.sent.drawer, job.system)
    return replace(bench, pieces=drawer.pieces) if bench else None
