"""Second stage: how to swing the slide, with what, and how far out that leaves the taper."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.cone import Cone, error_on_diameter
from calc.drawer import Found, Limits, Piece, Stack, find_stacks
from calc.drawings.lathe_above import lathe_from_above
from calc.drawings.stack import stack_picture
from calc.estimate import Estimate, limits, through
from calc.quantities import plus_minus_length, show_micrometres, shown_angle, shown_length
from calc.setting import WAYS
from calc.setting.way import Answer, Result, StackWanted, Task, Way
from calc.sheet import NOTHING_SHOWN, Both, Caution, Figure, Row, Stage, Table, Working, same
from calc.stages.form import Form
from calc.stages.pieces import drawer_field
from calc.stages.taper import Chosen

ID = "setting"
TITLE = "Setting the slide"
SIDES = (("operator", "operator's side"), ("far", "far side"))
IDS = ("setting.way", "setting.cut_side", "setting.seating", *(ask.id for way in WAYS for ask in way.ASKS))

TOLD_APART = 0.0005
"""Errors nearer together than this [mm on diameter] cannot be told apart in a shop: a fifth of a tenth."""
CUSTOMARY_LENGTH = 100.0
"""Length [mm] over which the taper's error is told where the part's own is not known."""
SEATING = {"mm": "0.001 mm", "inch": "0.00004 in"}


@dataclass(frozen=True, slots=True)
class _Fit:
    """A stack and what it does to the taper."""

    stack: Stack
    error: Estimate  # on diameter over the taper's length [mm]
    height: Estimate  # [mm]


def answer(form: Form, chosen: Chosen, drawer: list[object]) -> tuple[Stage, list[dict[str, str]]]:
    """Ask for the way, the bar and the drawer; answer with height, stack, pin, swing and error."""
    names = [(way.ID, way.LABEL) for way in WAYS]
    told = form.choice("setting.way", "Set by", names, default=WAYS[0].ID)
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
    field, pieces, normalised = drawer_field(drawer, form.system)
    form.fields.append(field)
    if (
        way is None
        or cut_side is None
        or None in lengths.values()
        or None in choices.values()
        or seating is None
    ):
        return Stage(ID, TITLE, "Something in the entries needs mending.", form.fields), normalised
    if chosen.cone is None or chosen.small_end is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields), normalised
    task = Task(
        chosen.cone,
        chosen.small_end,
        cut_side,
        {k: v for k, v in lengths.items() if v is not None},
        {k: v for k, v in choices.items() if v is not None},
    )
    refused = way.refusal(task)
    if refused:
        return Stage(ID, TITLE, refused, form.fields, cautions=[Caution("care", refused)]), normalised
    return _answered(form, way, task, pieces, seating), normalised


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


def _answered(form: Form, way: Way, task: Task, pieces: Sequence[Piece], seating: float) -> Stage:
    answered = way.set_up(task)
    system = form.system
    figures = [_figure(each) for each in answered.results]
    drawing, steps, line = "", [], f"Swing {answered.plan.swing}" if answered.plan else ""
    cautions = [Caution(*each) for each in answered.cautions]
    stack_words = "as high as said above"
    if answered.stack is not None:
        found = _search(task.cone, answered.stack, pieces, seating)
        fits = [_fit(task.cone, answered.stack, stack, seating) for stack in found.stacks]
        figures += _stack_figures(task.cone, answered.stack, fits, found, system)
        cautions += [Caution("note", each) for each in found.notes(system)]
        if fits:
            stack_words = fits[0].stack.words()
        line = _line(answered, fits, system)
    if answered.plan is not None:
        height = shown_length(answered.stack.height.value)[system] if answered.stack else ""
        drawing = lathe_from_above(answered.plan, height)
        steps = way.steps(task, answered, stack_words)
    return Stage(ID, TITLE, line, form.fields, figures, steps, cautions, drawing)


def _search(cone: Cone, wanted: StackWanted, pieces: Sequence[Piece], seating: float) -> Found:
    """The best stacks for this part; half a micrometre on its diameter decides what counts as equal."""
    length = cone.length or CUSTOMARY_LENGTH
    high = wanted.height.value
    slope = (
        error_on_diameter(cone.half_angle, wanted.angle_from_height(Estimate(high * 1.000001)).value, length)
        / (high * 0.000001)
        if high > 0
        else 1.0
    )
    told_apart = max(1, round(TOLD_APART / slope * 1e6))
    return find_stacks(
        list(pieces),
        round(high * 1e6),
        Limits(seating_nm=seating / math.sqrt(3.0) * 1e6, told_apart_nm=told_apart),
    )


def _fit(cone: Cone, wanted: StackWanted, stack: Stack, seating: float) -> _Fit:
    """What this stack leaves on the work, every doubt carried along."""
    height = Estimate(0.0)
    for number, piece in enumerate(stack.pieces):
        height = height + Estimate(piece.size_mm, {f"piece {piece.place}.{number}": piece.standard_nm / 1e6})
    for joint in range(stack.interfaces):
        height = height + limits(0.0, seating, f"seating {joint}")
    angle = wanted.angle_from_height(height)
    length = cone.length or CUSTOMARY_LENGTH
    error = through(lambda a: error_on_diameter(cone.half_angle, a, length), angle)
    return _Fit(stack, error, height)


def _figure(result: Result) -> Figure:
    """A way's result as the sheet shows it."""
    working = [Working(each.formula, each.numbers, each.note) for each in result.working]
    if isinstance(result.value, str):
        return Figure(
            result.id,
            result.label,
            result.value,
            "",
            shown=same(_said(result.value)),
            working=working,
            source=result.source,
            lead=result.lead,
        )
    value, doubt = result.value.value, result.value.expanded
    shown: Both = shown_angle(value, doubt) if result.unit == "rad" else shown_length(value, doubt)
    return Figure(
        result.id,
        result.label,
        value,
        result.unit,
        doubt,
        shown,
        plus_minus_length(doubt) if result.unit == "mm" and doubt else NOTHING_SHOWN,
        working,
        result.source,
        result.lead,
    )


def _said(word: str) -> str:
    return {"headstock": "the headstock pin", "tailstock": "the tailstock pin", "none": "neither"}.get(
        word, word
    )


def _over(cone: Cone) -> Mapping[str, str]:
    words = shown_length(cone.length if cone.length else CUSTOMARY_LENGTH)
    return {
        system: f"over {words[system]}" + ("" if cone.length else " (the part's own length is not known)")
        for system in ("mm", "inch")
    }


def _stack_figures(
    cone: Cone, wanted: StackWanted, fits: Sequence[_Fit], found: Found, system: str
) -> list[Figure]:
    source = "Search of the whole drawer: nearest first, then the smaller ±, then fewer pieces"
    if not fits:
        return [Figure("setting.stack", "Stack from your drawer", [], "", shown=same("none"), source=source)]
    best = fits[0]
    target = shown_length(wanted.height.value)
    high, off = shown_length(best.stack.height_mm), show_micrometres(best.stack.error_mm)
    over = _over(cone)
    error = best.error
    return [
        Figure(
            "setting.stack",
            "Stack from your drawer",
            [
                {"name": piece.name, "shape": piece.shape, "size": piece.size_mm, "place": piece.place}
                for piece in best.stack.pieces
            ],
            "",
            shown=same(best.stack.words()),
            working=[
                Working(
                    "sum of the pieces",
                    {
                        each: " + ".join(shown_length(piece.size_mm)[each] for piece in best.stack.pieces)
                        + f" = {high[each]}"
                        for each in ("mm", "inch")
                    },
                    best.stack.building_words(),
                )
            ],
            source=source,
            table=_table(fits),
            drawing=_picture(best.stack, wanted, system),
        ),
        Figure(
            "setting.stack_error",
            "Stack less the height wanted",
            best.stack.error_mm,
            "mm",
            2.0 * best.stack.standard_mm,
            off,
            plus_minus_length(2.0 * best.stack.standard_mm),
            [
                Working(
                    "built − wanted",
                    {each: f"{high[each]} − {target[each]} = {off[each]}" for each in ("mm", "inch")},
                )
            ],
            "Exact sum in whole nanometres",
        ),
        Figure(
            "setting.error_on_diameter",
            "Taper out by, on diameter",
            error.value,
            "mm",
            error.expanded,
            show_micrometres(error.value, error.expanded),
            plus_minus_length(error.expanded),
            _error_working(cone, best, wanted, over),
            "Counts the bar, the pieces and how they seat (first order, GUM: JCGM 100). Not counted: the sweep"
            " of the bar, the slide's side against its travel, tool height, temperature.",
        ),
    ]


def _error_working(cone: Cone, best: _Fit, wanted: StackWanted, over: Mapping[str, str]) -> list[Working]:
    angle = wanted.angle_from_height(Estimate(best.stack.height_mm)).value
    got, meant = shown_angle(angle), shown_angle(cone.half_angle)
    error = show_micrometres(best.error.value, best.error.expanded)
    parts = ", ".join(
        f"{name} {show_micrometres(2.0 * abs(share))['mm']}" for name, share in _shares(best.error)
    )
    steeper = (
        "steep: the large end bears first in a true socket"
        if best.error.value > 0
        else "slow: the small end bears first"
    )
    return [
        Working(
            "2 × length × (tan(angle got) − tan(angle wanted))",
            {
                each: f"{got[each]} got, {meant[each]} wanted, {over[each]}: {error[each]}"
                for each in ("mm", "inch")
            },
            f"Above zero is {steeper}." if best.error.value > 0 else f"Below zero is {steeper}.",
        ),
        Working("± from its parts (two standard uncertainties each)", same(parts)),
    ]


def _shares(error: Estimate) -> list[tuple[str, float]]:
    """Bar, pieces together and seating together: signed standard contributions, the largest first."""
    groups: dict[str, float] = {}
    for name, share in error.parts.items():
        group = name.split()[0]
        groups[group] = math.hypot(groups.get(group, 0.0), share)
    words = {"bar": "bar centres", "piece": "pieces", "seating": "seating"}
    return sorted(
        ((words.get(name, name), share) for name, share in groups.items()), key=lambda each: -abs(each[1])
    )


def _table(fits: Sequence[_Fit]) -> Table:
    rows = [
        Row(
            [
                same(fit.stack.words()),
                shown_length(fit.stack.height_mm),
                show_micrometres(fit.stack.error_mm),
                show_micrometres(fit.error.value, fit.error.expanded),
                plus_minus_length(fit.error.expanded),
            ],
            best=index == 0,
        )
        for index, fit in enumerate(fits)
    ]
    return Table(["Stack", "Height", "Off in stack", "Out on diameter", "±"], rows)


def _picture(stack: Stack, wanted: StackWanted, system: str) -> str:
    pieces = [
        (piece.name, piece.shape, piece.size_mm, shown_length(piece.size_mm)[system])
        for piece in stack.building_order()
    ]
    return stack_picture(
        pieces, shown_length(stack.height_mm)[system], shown_length(wanted.height.value)[system]
    )


def _line(answered: Answer, fits: Sequence[_Fit], system: str) -> str:
    words = {each.id: str(each.value) for each in answered.results if isinstance(each.value, str)}
    height = (
        shown_length(answered.stack.height.value, answered.stack.height.expanded)[system]
        if answered.stack
        else ""
    )
    swing = words.get("setting.swing", "")
    if swing == "none":
        return "No swing: the slide runs parallel to the axis."
    line = f"{height} under the {words.get('setting.pin', '')} pin, slide {swing}"
    if not fits:
        return f"{line}; no stack from this drawer yet"
    error = fits[0].error
    return (
        f"{line}: {fits[0].stack.words()}; out by {show_micrometres(error.value, error.expanded)[system]}"
        f" {plus_minus_length(error.expanded)[system]} on diameter"
    )
