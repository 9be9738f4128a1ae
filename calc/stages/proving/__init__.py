"""Proving the taper: what was seen of it, what that says of the angle, and what is best done."""

from __future__ import annotations

from dataclasses import replace

from calc.drawings.blue import blue_picture
from calc.drawings.correction import correction_picture
from calc.gauging.judge import CHANGE
from calc.gauging.left import metal, metal_now
from calc.gauging.record import plain
from calc.sheet import Stage
from calc.stages.common.job_facts import Job
from calc.stages.common.metal import metal_for
from calc.stages.common.taught import taught_by
from calc.stages.cutting.facts import CuttingFacts
from calc.stages.proving.asks import IDS, SHOP, ask
from calc.stages.proving.change_figures import turned
from calc.stages.proving.facts import ID, Proved, ProvingFacts
from calc.stages.proving.figures import figures
from calc.stages.proving.find import expected_of, part_of, prove, steady_now
from calc.stages.proving.plain_figures import plain_figures
from calc.stages.proving.rows import read_rows
from calc.stages.proving.said import read_off, signed
from calc.stages.proving.steps import steps
from calc.stages.proving.words import cautions, line
from calc.stages.setting.facts import SettingFacts
from calc.stages.taper.facts import TaperFacts

__all__ = ["ID", "IDS", "SHOP", "sheet", "work"]

TITLE = "Proving the taper"
MEND = "Check the entries marked below."


def work(job: Job) -> ProvingFacts:
    """Read the observations and work out what follows from them for the taper as it is set."""
    form, setting = job.form(ID), job.found(SettingFacts)
    bench, task, set_up = setting.bench, setting.task, setting.set_up
    pieces = bench.pieces if bench else ()
    taught = setting.taught or taught_by(job.sent.history.read, job.sent.entries, pieces)
    part = part_of(task, 0.0) if task is not None else None
    entries = ask(form, bool(taught.records))
    if part is not None and entries is not None:
        part = replace(part, gauge_give=entries.gauge_give)
    rows = read_rows(job.sent.observations, part)
    form.put(rows.field)
    if entries is None or part is None or task is None or bench is None:
        return ProvingFacts(entries, rows, taught, part)
    goal = bench.goal(task.cone)
    previous = taught.previous(task, bench.way.ID)
    expected = expected_of(set_up, part, taught)
    proved = prove(bench, task, set_up, goal, rows, entries, taught, previous)
    believed = proved.believed if proved and proved.record else None
    before = metal_for(set_up, job.quiet()) or metal(
        part, expected.mean, expected.standard, entries.last_cut
    )
    left = metal_now(part, believed, entries.last_cut) if believed is not None else before
    limit = goal.limit / part.on_diameter if goal.limit is not None else None
    height = bench.doubts.get("setting.tool_height")
    questions = plain_figures(part, goal, entries, job.sent.observations.rows, pieces, height)
    allowed = (
        taught.allowed and task.learned is not None and task.aim != bench.task(task.cone, task.small_end).aim
    )
    steady = steady_now(set_up, taught, task)
    if proved is not None and proved.record is not None:
        job.record = plain(proved.record)
    return ProvingFacts(
        entries,
        rows,
        taught,
        part,
        metal=left,
        metal_before=before,
        steady=steady,
        allowed_for=allowed,
        count=taught.count(task),
        plain=questions,
        limit=limit,
        proved=proved,
        previous=previous,
    )


def sheet(job: Job) -> Stage:
    """What was seen and what follows, and how to prove."""
    form, facts, taper = job.form(ID), job.found(ProvingFacts), job.found(TaperFacts)
    if facts.entries is None:
        return Stage(ID, TITLE, MEND, form.fields)
    if facts.part is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields)
    internal = taper.form == "internal"
    found = [*figures(facts, internal, job.system), *facts.plain]
    pictures = _pictures(facts, job.system)
    return Stage(
        ID,
        TITLE,
        line(facts, job.system),
        form.fields,
        found,
        steps(facts, pictures[1], job.found(CuttingFacts).cut),
        cautions(facts, job.system),
        pictures[0],
    )


def _pictures(facts: ProvingFacts, system: str) -> tuple[str, str]:
    """Where the blue will show for the error found; which way the correction goes, from above."""
    proved = facts.proved
    if proved is None or proved.believed is None or proved.record is None:
        return _at_the_limit(facts), ""
    part, error = proved.part, proved.believed.mean
    blue = blue_picture(part, error, signed(error))
    task, turn = proved.task, proved.tap.turn if proved.tap else task_turn(proved)
    if proved.verdict is not None and proved.verdict.decision != CHANGE:
        return blue, ""
    if proved.tap is not None and proved.tap.what != "slide":
        return blue, ""
    by_tap = proved.tap is not None and (proved.verdict is None or proved.verdict.best.id == "tap")
    reading = read_off(abs(proved.tap.reading))[system] if proved.tap and by_tap else ""
    way = turned(proved, turn)
    return blue, correction_picture(task.half_angle, task.small_end, task.cut_side, way, reading, task.form)


def _at_the_limit(facts: ProvingFacts) -> str:
    """Before anything was seen: what blue would show on a taper that is too steep by all that it may be."""
    part, limit = facts.part, facts.limit
    if part is None or limit is None or part.cone.rate <= 0.0:
        return ""
    return blue_picture(part, limit, f"at the limit, {signed(limit)}")


def task_turn(proved: Proved) -> float:
    """How far the half angle is to turn [rad] where no tap says so."""
    return -proved.believed.mean if proved.believed is not None else 0.0
