"""What the setting stage says of a taper that is set: line, figures, cautions, steps and picture."""

from __future__ import annotations

import math
from dataclasses import replace

from calc.doubt.percent import percent
from calc.doubt.task import Task
from calc.drawer import ROUND
from calc.drawings.at_setting import sweep_picture, swing_picture
from calc.drawings.lathe_above import lathe_from_above
from calc.drawings.ways import way_picture
from calc.quantities import plus_minus_micrometres, shown_length
from calc.setting.bar import ID as BAR
from calc.setting.way import Answer
from calc.sheet import Caution, Figure, Stage, Step, folded
from calc.stages.common.form import LENGTH_UNIT, Form
from calc.stages.common.read_once import length
from calc.stages.common.steps import both_systems
from calc.stages.setting.advice import ADVICE, advice_figure
from calc.stages.setting.bench import WORK_LENGTH, Bench
from calc.stages.setting.compare import WAYS_FIGURE, Compared, ways_figure
from calc.stages.setting.error_words import (
    BUDGET,
    budget_figure,
    chance_figures,
    error_figure,
    off_words,
)
from calc.stages.setting.facts import ID, SettingFacts, SetUp
from calc.stages.setting.stack_words import stack_drawing, stack_figures
from calc.stages.setting.worth import sensitivities

TITLE = "Setting the angle"
NO_GRADE = (
    "The grades of ISO 1947 are laid down for tapers over 6 mm (0.24 in) and up to 630 mm (24.8 in) long:"
    " enter the limit as a length on diameter, such as 0.01 mm or 0.0004 in, for the chance."
)
FLUTELESS = ("dowel", "pin", "roller", "ball", "rod", "plug", "wire")
"""A round piece so called is no drill."""
CLEARLY = 0.01
"""Part of the length between centres by which entered and planned differ by more than a measure would."""
NO_LENGTH = "Enter the taper's length: a grade, and the chance with it, is so much over a length."


def in_words(form: Form, bench: Bench, facts: SettingFacts, made: SetUp) -> Stage:
    """The whole stage for a taper that can be set this way."""
    task, answer, search, outcome = made.task, made.answer, made.search, made.outcome
    system = form.system
    figures = list(answer.figures)
    cautions = [*answer.cautions, *facts.drawer.cautions, *_allowed_for(bench, task, facts)]
    cautions += _other_than_planned(form, task)
    shorter = bench.run_cut_short(task.cone)
    if shorter is not None:
        run = shown_length(shorter)[system]
        cautions.append(
            Caution("note", f"The indicator cannot run further than {run} there: that is what counts here.")
        )
    if search is not None:
        found, notes = stack_figures(search, made.goal, system)
        figures += found
        cautions += [Caution("note", each) for each in notes]
    if outcome is not None:
        figures += _outcome_figures(bench, made, system)
        if made.goal.limit is None:
            cautions.append(Caution("note", NO_GRADE if task.cone.length else NO_LENGTH))
    figures += sensitivities(bench.way, task, search.slope if search else None, answer.division_turns)
    here = Compared.of(bench.way, answer, outcome.angle, outcome.budget) if outcome else None
    figures.append(folded(WAYS_FIGURE, lambda: ways_figure(form, bench, task, here, facts.taught)))
    return Stage(
        ID,
        TITLE,
        _line(made, system),
        form.fields,
        figures,
        _steps(bench, made),
        cautions,
        lambda: _picture(bench, made),
    )


def _other_than_planned(form: Form, task: Task) -> list[Caution]:
    """Work entered as clearly longer or shorter between centres than its blank is planned: one is not so."""
    told = task.lengths.get(WORK_LENGTH)
    planned = next((each.default for each in form.fields if each.id == WORK_LENGTH), "")
    if told is None or not planned or not form.given(WORK_LENGTH):
        return []
    blank = length(planned, LENGTH_UNIT[form.system]).value
    if abs(told - blank) <= CLEARLY * told:
        return []
    entered, long = (shown_length(each, 0.5)[form.system] for each in (told, blank))
    return [
        Caution(
            "care",
            f"{entered} between centres are entered and the blank is planned {long} long, faced: the set-over"
            " goes by what is entered.",
            "The taper is out by as much of itself as the length is: measure the piece as it is carried.",
        )
    ]


def _allowed_for(bench: Bench, task: Task, facts: SettingFacts) -> list[Caution]:
    """What proved cuts have taught, where the number to set allows for it."""
    turned = bench.task(task.cone, task.small_end).aim - task.aim
    if facts.taught is None or not turned:
        return []
    count = facts.taught.count(task)
    cuts = "one proved cut" if count == 1 else f"{count} proved cuts"
    way = "too steep" if turned > 0.0 else "too shallow"
    amount = f"{math.degrees(abs(turned)) * 3600:.0f}″"
    return [
        Caution(
            "note",
            f"Set-ups here come out {amount} {way}, from {cuts}: allowed for in what is to be set.",
            "Leave it out under proving, or forget the cuts it comes from.",
            "learned",
        )
    ]


def _outcome_figures(bench: Bench, made: SetUp, system: str) -> list[Figure]:
    """How far out it is likely to come, the chances, what would help, and what makes it up."""
    outcome = made.outcome
    if outcome is None:
        return []
    return [
        error_figure(made.task, outcome, made.goal),
        *chance_figures(made.task, outcome, made.goal, bench),
        folded(ADVICE, lambda: advice_figure(bench, made, outcome, system)),
        folded(BUDGET, lambda: budget_figure(made.task, outcome, bench)),
    ]


def _steps(bench: Bench, made: SetUp) -> list[Step]:
    """The way's own steps, in both systems."""

    def steps_in(system: str) -> list[Step]:
        task = replace(made.task, system=system)
        return bench.way.steps(task, made.answer, _stack_words(made, system))

    pictures = _step_pictures(bench, made)
    return [replace(step, drawing=pictures.get(step.id, "")) for step in both_systems(steps_in)]


KEY_STEP = {
    "one_dial": "indicator",
    "two_dials": "along",
    "master": "indicator",
    "set_over": "over",
    "attachment": "guide",
    "graduations": "swing",
    "collars": "collars",
    "plate": "sweep",
}
"""The step of each way that the way's own picture shows; the sine bar's steps have smaller ones."""


def _step_pictures(bench: Bench, made: SetUp) -> dict[str, str]:
    """Small pictures by the id of the step that they help."""
    plan, search = made.answer.plan, made.search
    if bench.way.ID in KEY_STEP:
        key = f"{ID}.{KEY_STEP[bench.way.ID]}"
        drawn = {key: way_picture(bench.way.ID, made.task, made.answer)}
        if plan is not None and plan.swing != "none" and bench.way.CUTS_BY != "carriage":
            drawn.setdefault(f"{ID}.swing", swing_picture(plan))
        return drawn
    if plan is None or plan.swing == "none" or bench.way.CUTS_BY == "carriage":
        return {}
    found = {f"{ID}.swing": swing_picture(plan)}
    if bench.way.ID == BAR:
        found[f"{ID}.sweep"] = sweep_picture(plan)
    if bench.way.ID == BAR and search is not None and search.fits:
        found[f"{ID}.stack"] = stack_drawing(search.fits[0].stack, search.wanted, made.task.system)
    return found


def _stack_words(made: SetUp, system: str) -> str:
    """The stack as a step names it, how a round piece lies in it, and a full stop."""
    if made.search is None:
        return ""
    if not made.search.words:
        height = shown_length(made.search.wanted.height.value)[system]
        return f"a stack of {height} (none found in the drawer yet)."
    rounds = [piece.name for piece in made.search.fits[0].stack.pieces if piece.shape == ROUND]
    if not rounds:
        return f"{made.search.words}."
    plain = any(word in rounds[0].casefold() for word in FLUTELESS)
    shank = "" if plain else ", by its plain shank, never its flutes"
    return f"{made.search.words}. The round piece lies across the roller{shank}: so it cannot roll."


def _to_set(answer: Answer, lead: str, system: str) -> list[str]:
    """What is set on the lathe for the exact number that leads: on whole divisions, and over what travel."""
    shown = {each.id: each.shown[system] for each in answer.figures}
    for name in ("attachment", "degrees", "set_over", "dial", "cross"):
        told = shown.get(f"setting.{name}_whole")
        if told is not None:
            travel = shown.get("setting.travel_whole") if name in ("dial", "cross") else None
            told = f"{told} over {travel}" if travel else told
            return [] if lead.endswith(f" {told}") else [f"to set {told}"]
    return []


def _picture(bench: Bench, made: SetUp) -> str:
    drawing = way_picture(bench.way.ID, made.task, made.answer)
    if made.answer.plan is None or drawing:
        return drawing
    stack = made.answer.stack
    height = shown_length(stack.height.value)[made.task.system] if stack else ""
    fits = made.search.fits if made.search else ()
    pieces = [piece.size_mm for piece in reversed(fits[0].stack.building_order())] if fits else []
    return lathe_from_above(made.answer.plan, height, made.task.form, pieces)


def _line(made: SetUp, system: str) -> str:
    answer, outcome, limit = made.answer, made.outcome, made.goal.limit
    words = {each.id: each.value for each in answer.figures if isinstance(each.value, str)}
    swing = words.get("setting.swing", "")
    if swing == "none":
        return "No swing: the top slide runs parallel to the axis."
    line = _lead(answer, swing, words.get("setting.pin", ""), system)
    if made.search is not None:
        none = made.search.lack.line[system] if made.search.lack else "no stack from this drawer yet"
        line += f": {made.search.words}" if made.search.words else f"; {none}"
    if outcome is None:
        return line
    likely = outcome.budget
    error = off_words(likely.bias, likely.expanded)[system]
    error = error if " too " in error else "as wanted"
    supposed = "with a piece just so high " if outcome.supposed else ""
    line += f"; {supposed}taper {error}, {plus_minus_micrometres(likely.expanded)[system]} on diameter"
    if limit is None:
        return line
    return f"{line}; {percent(likely.chance(-limit, limit))} within tolerance at the first cut"


def _lead(answer: Answer, swing: str, pin: str, system: str) -> str:
    """The numbers that matter most, in words."""
    leads = [each for each in answer.figures if each.lead and not isinstance(each.value, str)]
    said = [each.shown[system] for each in leads]
    if answer.stack is None:
        said = [f"{each.label}: {text}" for each, text in zip(leads, said, strict=True)]
        said += _to_set(answer, said[0] if said else "", system)
    elif pin:
        said[-1:] = [f"{said[-1]} under the {pin} roller"] if said else []
    if swing and not any("swung" in each or "swing" in each for each in said):
        said.append(f"top slide {swing}")
    return ", ".join(said)
