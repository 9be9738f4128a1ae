"""Second stage: how to swing the slide, with what, and how far out that leaves the taper."""

from __future__ import annotations

from calc.drawings.lathe_above import lathe_from_above
from calc.quantities import plus_minus_angle, plus_minus_length, shown_angle, shown_length
from calc.setting import WAYS
from calc.setting.way import Answer, Result, Task, Way
from calc.sheet import Both, Caution, Figure, Stage, Working, same
from calc.stages.form import Form
from calc.stages.pieces import DrawerRead, read_pieces
from calc.stages.stack import StackFound, stack_for
from calc.stages.taper import Chosen

ID = "setting"
TITLE = "Setting the slide"
SIDES = (("operator", "operator's side"), ("far", "far side"))
IDS = ("setting.way", "setting.cut_side", "setting.seating", *(ask.id for way in WAYS for ask in way.ASKS))
SEATING = {"mm": "0.001 mm", "inch": "0.00004 in"}
MEND = "Something in the entries needs mending."


def answer(form: Form, chosen: Chosen, drawer: list[object]) -> tuple[Stage, list[dict[str, str]]]:
    """Ask for the way, the bar and the drawer; answer with height, stack, pin, swing and error."""
    told = form.choice("setting.way", "Set by", [(way.ID, way.LABEL) for way in WAYS], default=WAYS[0].ID)
    cut_side = form.choice(
        "setting.cut_side",
        "Tool cuts",
        SIDES,
        default="operator",
        help="The side of the work the tool is on; for boring, the side its tip is on.",
    )
    way = next((way for way in WAYS if told == way.ID), None)
    lengths, choices = _ask(form, way)
    seating = form.length(
        "setting.seating",
        "Each joint in a stack seats to ±",
        default=SEATING,
        least=0.0,
        most=1.0,
        help="Wiped and pressed together. Common practice, no source.",
    )
    read = read_pieces(drawer, form.system)
    form.fields.append(read.field)
    missing = None in lengths.values() or None in choices.values()
    if way is None or cut_side is None or missing or seating is None:
        return Stage(ID, TITLE, MEND, form.fields, cautions=read.cautions), read.normalised
    if chosen.cone is None or chosen.small_end is None:
        return Stage(
            ID, TITLE, "Waiting for the taper.", form.fields, cautions=read.cautions
        ), read.normalised
    known = {name: value for name, value in lengths.items() if value is not None}
    picked = {name: value for name, value in choices.items() if value is not None}
    task = Task(chosen.cone, chosen.small_end, cut_side, known, picked)
    refused = way.refusal(task)
    if refused:
        cautions = [Caution("care", refused), *read.cautions]
        return Stage(ID, TITLE, refused, form.fields, cautions=cautions), read.normalised
    return _answered(form, way, task, read, seating, chosen.form or "external"), read.normalised


def _ask(form: Form, way: Way | None) -> tuple[dict[str, float | None], dict[str, str | None]]:
    """What the way needs told."""
    lengths: dict[str, float | None] = {}
    choices: dict[str, str | None] = {}
    for ask in way.ASKS if way else ():
        if ask.kind == "choice":
            choices[ask.id] = form.choice(
                ask.id, ask.label, ask.choices, default=ask.default["mm"], help=ask.help
            )
        else:
            lengths[ask.id] = form.length(
                ask.id, ask.label, default=ask.default, help=ask.help, least=ask.least, most=ask.most
            )
    return lengths, choices


def _answered(form: Form, way: Way, task: Task, read: DrawerRead, seating: float, lies: str) -> Stage:
    answered = way.set_up(task)
    system = form.system
    figures = [_figure(each) for each in answered.results]
    cautions = [Caution(*each) for each in answered.cautions] + read.cautions
    found = None
    if answered.stack is not None:
        found = stack_for(task.cone, answered.stack, read.pieces, seating, system)
        figures += found.figures
        cautions += [Caution("note", each) for each in found.notes]
    drawing = ""
    if answered.plan is not None:
        height = shown_length(answered.stack.height.value)[system] if answered.stack else ""
        drawing = lathe_from_above(answered.plan, height, lies)
    words = found.words if found and found.words else "as high as said above"
    steps = way.steps(task, answered, words)
    return Stage(ID, TITLE, _line(answered, found, system), form.fields, figures, steps, cautions, drawing)


def _figure(result: Result) -> Figure:
    """A way's result as the sheet shows it."""
    working = [Working(each.formula, each.numbers, each.note) for each in result.working]
    if isinstance(result.value, str):
        return Figure(
            result.id,
            result.label,
            result.value,
            shown=same(_said(result.value)),
            working=working,
            source=result.source,
            lead=result.lead,
        )
    value, doubt = result.value.value, result.value.expanded
    angle = result.unit == "rad"
    shown: Both = shown_angle(value, doubt) if angle else shown_length(value, doubt)
    spread: Both = plus_minus_angle(doubt) if angle else plus_minus_length(doubt)
    return Figure(
        result.id, result.label, value, result.unit, doubt, shown, spread, working, result.source, result.lead
    )


def _said(word: str) -> str:
    return {"headstock": "the headstock pin", "tailstock": "the tailstock pin"}.get(word, word)


def _line(answered: Answer, found: StackFound | None, system: str) -> str:
    words = {each.id: each.value for each in answered.results if isinstance(each.value, str)}
    swing = words.get("setting.swing", "")
    if swing == "none":
        return "No swing: the slide runs parallel to the axis."
    if answered.stack is None or found is None:
        return f"Slide {swing}"
    height = shown_length(answered.stack.height.value, answered.stack.height.expanded)[system]
    line = f"{height} under the {words.get('setting.pin', '')} pin, slide {swing}"
    if not found.words:
        return f"{line}; no stack from this drawer yet"
    return f"{line}: {found.words}; {found.out_by}"
