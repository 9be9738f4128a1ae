"""Second stage: how to swing the slide, with what, and how far out that leaves the taper."""

from __future__ import annotations

from calc.doubt.budget import budget
from calc.doubt.percent import percent
from calc.doubt.task import Task
from calc.drawings.lathe_above import lathe_from_above
from calc.drawings.ways import way_picture
from calc.quantities import (
    plus_minus_micrometres,
    shown_length,
    shown_micrometres,
)
from calc.setting.way import Answer
from calc.sheet import Caution, Stage, Step, same
from calc.stages.advice import advice_figure
from calc.stages.bench import IDS, SIDES, Bench, ask
from calc.stages.budget import Got, budget_figure, chance_figures, error_figure
from calc.stages.compare import Compared, ways_figure
from calc.stages.form import Form
from calc.stages.pieces import DrawerRead
from calc.stages.stack import StackFound, just_so, on_diameter_per_height, stack_for
from calc.stages.taper import Chosen
from calc.stages.worth import sensitivities

__all__ = ["IDS", "MEND", "SIDES", "Bench", "answer", "ask"]

ID = "setting"
TITLE = "Setting the slide"
MEND = "Something in the entries needs mending."


def answer(form: Form, bench: Bench | None, read: DrawerRead, chosen: Chosen) -> Stage:
    """What was asked, with height, stack, pin, swing and error for the taper chosen."""
    if bench is None:
        return Stage(ID, TITLE, MEND, form.fields, cautions=read.cautions)
    if chosen.cone is None or chosen.small_end is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields, cautions=read.cautions)
    task = bench.task(chosen.cone, chosen.small_end)
    refused = bench.way.refusal(task)
    if refused:
        cautions = [Caution("care", refused), *read.cautions]
        figures = [ways_figure(form, bench, task)]
        return Stage(ID, TITLE, refused, form.fields, figures, cautions=cautions)
    return _answered(form, bench, task, read, chosen.form or "external")


def _answered(form: Form, bench: Bench, task: Task, read: DrawerRead, lies: str) -> Stage:
    answered = bench.way.set_up(task)
    system = form.system
    goal = bench.goal(task.cone)
    figures = list(answered.figures)
    cautions = [*answered.cautions, *read.cautions]
    found, per_height, got = None, None, None
    if answered.stack is not None:
        found = stack_for(task, answered.stack, bench.pieces, goal, system)
        figures += found.figures
        cautions += [Caution("note", each) for each in found.notes]
        per_height = on_diameter_per_height(task, answered.stack)
        if found.fits:
            best = found.fits[0]
            got = Got(best.angle, best.budget, best.stack)
        elif not found.figures or not bench.pieces:
            exact = just_so(task, answered.stack)
            got = Got(exact, budget(task, exact), None, answered.stack.height.value > 0.0)
    elif answered.angle is not None:
        got = Got(answered.angle, budget(task, answered.angle))
    if got is not None:
        figures.append(error_figure(task, got, goal))
        figures += chance_figures(task, got, goal, bench)
        advised = advice_figure(task, got, goal, bench, found, system)
        figures += [advised] if advised else []
        figures.append(budget_figure(task, got, bench))
        if goal.limit is None:
            cautions.append(Caution("note", NO_GRADE))
    figures += sensitivities(bench.way, task, per_height, got.angle if got else None)
    here = Compared.of(bench.way, answered, got.angle, got.budget) if got else None
    figures.append(ways_figure(form, bench, task, here))
    drawing = way_picture(bench.way.ID, task, answered)
    if answered.plan is not None and not drawing:
        height = shown_length(answered.stack.height.value)[system] if answered.stack else ""
        drawing = lathe_from_above(answered.plan, height, lies)
    words = found.words if found and found.words else "as high as said above"
    said = bench.way.steps(task, answered, words)
    steps = [Step(f"setting.{bench.way.ID}_{place}", "set", same(each)) for place, each in enumerate(said, 1)]
    line = _line(answered, found, got, goal.limit, system)
    return Stage(ID, TITLE, line, form.fields, figures, steps, cautions, drawing)


NO_GRADE = (
    "The grades of ISO 1947 are laid down for tapers over 6 and up to 630 mm long: give the limit as a"
    " length on diameter, such as 0.01 mm, to be told the chance."
)


def _line(
    answered: Answer, found: StackFound | None, got: Got | None, limit: float | None, system: str
) -> str:
    words = {each.id: each.value for each in answered.figures if isinstance(each.value, str)}
    swing = words.get("setting.swing", "")
    if swing == "none":
        return "No swing: the slide runs parallel to the axis."
    line = _lead(answered, swing, words.get("setting.pin", ""), system)
    if found is not None:
        line += f": {found.words}" if found.words else "; no stack from this drawer yet"
    if got is None:
        return line
    made = got.budget
    error = shown_micrometres(made.bias, made.expanded)[system]
    supposed = "with a piece just so high " if got.supposed else ""
    line += f"; {supposed}out by {error} {plus_minus_micrometres(made.expanded)[system]} on diameter"
    return line if limit is None else f"{line}, {percent(made.chance(-limit, limit))} right first time"


def _lead(answered: Answer, swing: str, pin: str, system: str) -> str:
    """The numbers that matter most, in words."""
    leads = [each for each in answered.figures if each.lead and not isinstance(each.value, str)]
    said = [each.shown[system] for each in leads]
    if answered.stack is None:
        said = [f"{each.label}: {text}" for each, text in zip(leads, said, strict=True)]
    elif pin:
        said[-1:] = [f"{said[-1]} under the {pin} pin"] if said else []
    if swing and not any("swung" in each or "swing" in each for each in said):
        said.append(f"slide {swing}")
    return ", ".join(said)
