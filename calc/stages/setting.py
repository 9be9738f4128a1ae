"""Second stage: how to swing the slide, with what, and how far out that leaves the taper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.cone import Cone
from calc.drawer import Piece
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


@dataclass(frozen=True, slots=True)
class Bench:
    """All that was told of the setting apart from the taper: enough to set any taper the same way.

    lengths, choices: what the way asked, by id. seating: the ± of each joint [mm]. pieces: the drawer.
    """

    way: Way
    cut_side: str
    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    seating: float
    pieces: tuple[Piece, ...]

    def task(self, cone: Cone, small_end: str) -> Task:
        """The task of setting this cone here."""
        return Task(cone, small_end, self.cut_side, self.lengths, self.choices)


def ask(form: Form, drawer: list[object], add: Sequence[str] = ()) -> tuple[Bench | None, DrawerRead]:
    """Ask for the way, the bar and the drawer; None for the bench where something needs mending.

    add: keys of the sets to put into the drawer.
    """
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
    read = read_pieces(drawer, form.system, add)
    form.fields.append(read.field)
    known = {name: value for name, value in lengths.items() if value is not None}
    picked = {name: value for name, value in choices.items() if value is not None}
    missing = len(known) < len(lengths) or len(picked) < len(choices)
    if way is None or cut_side is None or missing or seating is None:
        return None, read
    return Bench(way, cut_side, known, picked, seating, read.pieces), read


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
        return Stage(ID, TITLE, refused, form.fields, cautions=cautions)
    return _answered(form, bench, task, read, chosen.form or "external")


def _ask(form: Form, way: Way | None) -> tuple[dict[str, float | None], dict[str, str | None]]:
    """What the way needs told."""
    lengths: dict[str, float | None] = {}
    choices: dict[str, str | None] = {}
    for each in way.ASKS if way else ():
        if each.kind == "choice":
            choices[each.id] = form.choice(
                each.id, each.label, each.choices, default=each.default["mm"], help=each.help
            )
        else:
            lengths[each.id] = form.length(
                each.id, each.label, default=each.default, help=each.help, least=each.least, most=each.most
            )
    return lengths, choices


def _answered(form: Form, bench: Bench, task: Task, read: DrawerRead, lies: str) -> Stage:
    answered = bench.way.set_up(task)
    system = form.system
    figures = [_figure(each) for each in answered.results]
    cautions = [Caution(*each) for each in answered.cautions] + read.cautions
    found = None
    if answered.stack is not None:
        found = stack_for(task.cone, answered.stack, bench.pieces, bench.seating, system)
        figures += found.figures
        cautions += [Caution("note", each) for each in found.notes]
    drawing = ""
    if answered.plan is not None:
        height = shown_length(answered.stack.height.value)[system] if answered.stack else ""
        drawing = lathe_from_above(answered.plan, height, lies)
    words = found.words if found and found.words else "as high as said above"
    steps = bench.way.steps(task, answered, words)
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
