"""Second stage: how to swing the slide, with what, and how far out that leaves the taper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.cone import Cone
from calc.drawer import Piece
from calc.drawings.lathe_above import lathe_from_above
from calc.quantities import plus_minus_angle, plus_minus_length, shown_angle, shown_length
from calc.setting import WAYS
from calc.setting.doubts import COMMON, DOUBTS
from calc.setting.way import Answer, Result, Task, Way
from calc.sheet import Both, Caution, Figure, Stage, Working, same
from calc.stages.form import Form
from calc.stages.pieces import DrawerRead, read_pieces
from calc.stages.stack import StackFound, stack_for
from calc.stages.taper import Chosen

ID = "setting"
TITLE = "Setting the slide"
SIDES = (("operator", "operator's side"), ("far", "far side"))
IDS = (
    "setting.way",
    "setting.cut_side",
    *dict.fromkeys(ask.id for way in WAYS for ask in way.ASKS),
    *DOUBTS,
    *(each.over.id for each in DOUBTS.values() if each.over),
)
MEND = "Something in the entries needs mending."


@dataclass(frozen=True, slots=True)
class Bench:
    """All that was told of the setting apart from the taper: enough to set any taper the same way.

    lengths, choices: what the way asked, by id. doubts: half-widths [mm, rad or K]. pieces: the drawer.
    """

    way: Way
    cut_side: str
    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    doubts: Mapping[str, float]
    pieces: tuple[Piece, ...]

    @property
    def seating(self) -> float:
        """The ± of each joint in a stack [mm]."""
        return self.doubts.get("setting.seating", 0.0)

    def task(self, cone: Cone, small_end: str) -> Task:
        """The task of setting this cone here."""
        return Task(cone, small_end, self.cut_side, self.lengths, self.choices, self.doubts)


def ask(form: Form, drawer: list[object], add: Sequence[str] = ()) -> tuple[Bench | None, DrawerRead]:
    """Ask for the way, the bar and the drawer; None for the bench where something needs mending.

    add: keys of the sets to put into the drawer.
    """
    wanted = form.choice("setting.way", "Set by", [(way.ID, way.LABEL) for way in WAYS], default=WAYS[0].ID)
    cut_side = form.choice(
        "setting.cut_side",
        "Tool cuts",
        SIDES,
        default="operator",
        help="The side of the work the tool is on; for boring, the side its tip is on.",
    )
    way = next((way for way in WAYS if wanted == way.ID), None)
    lengths, choices = _ask(form, way)
    doubts = _known_to(form, way, lengths)
    read = read_pieces(drawer, form.system, add)
    form.fields.append(read.field)
    known = {name: value for name, value in lengths.items() if value is not None}
    picked = {name: value for name, value in choices.items() if value is not None}
    told = {name: value for name, value in doubts.items() if value is not None}
    missing = len(known) < len(lengths) or len(picked) < len(choices) or len(told) < len(doubts)
    if way is None or cut_side is None or missing:
        return None, read
    return Bench(way, cut_side, known, picked, told, read.pieces), read


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


def _known_to(form: Form, way: Way | None, lengths: dict[str, float | None]) -> dict[str, float | None]:
    """What each thing is known to; the lengths these are told over join the other lengths."""
    doubts: dict[str, float | None] = {}
    for name in (*way.FEELS, *COMMON) if way else ():
        doubt = DOUBTS[name]
        if doubt.kind == "count":
            doubts[name] = form.count(
                name, doubt.label, doubt.default, doubt.unit, doubt.help, int(doubt.most)
            )
        elif doubt.kind == "angle":
            doubts[name] = form.angle(
                name, doubt.label, default=doubt.default, help=doubt.help, least=0.0, most=doubt.most
            )
        else:
            doubts[name] = form.length(
                name, doubt.label, default=doubt.default, help=doubt.help, least=0.0, most=doubt.most
            )
        over = doubt.over
        if over is not None and over.id not in lengths:
            lengths[over.id] = form.length(
                over.id, over.label, default=over.default, help=over.help, least=over.least, most=over.most
            )
    return doubts


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
