"""Finishing what is not taper: the tang's flats, the drawbar's thread, the spigot and its fit."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.machining.blank import DRAWBAR, TANG
from calc.sheet import Caution, Stage
from calc.stages.blank import End
from calc.stages.finishing_spigot import SpigotWanted, ask_spigot, spigot_said
from calc.stages.finishing_tang import ask_tang, tang_said
from calc.stages.finishing_thread import ask_thread, thread_said
from calc.stages.form import Form
from calc.stages.said import Said
from calc.stages.tang_figures import TangWanted
from calc.stages.taper import Chosen

ID = "finishing"
TITLE = "Finishing"
MEND = "Something in the entries needs mending."
IDS = tuple(
    f"finishing.{name}"
    for name in (
        "thickness",
        "diameter_now",
        "across_now",
        "tang_now",
        "thread",
        "spigot",
        "fit",
        "spigot_now",
    )
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be finished, as far as the entries tell."""

    tang: TangWanted | None
    thread: str | None
    spigot: SpigotWanted | None

    @property
    def spigot_most(self) -> float | None:
        """The largest the spigot may be [mm], for the blank; None where none is wanted."""
        return self.spigot.limits[1] if self.spigot else None


def ask(form: Form, chosen: Chosen, end: End | None) -> Wanted:
    """Ask only what this end and this job need."""
    tang = ask_tang(form, end) if end is not None and end.kind == TANG else None
    thread = ask_thread(form, end) if end is not None and end.kind == DRAWBAR else None
    spigot = ask_spigot(form) if chosen.form != "internal" else None
    return Wanted(tang, thread, spigot)


def answer(form: Form, chosen: Chosen, end: End | None, wanted: Wanted) -> Stage:
    """Flats, thread and spigot, each where it is wanted."""
    if form.wrong:
        return Stage(ID, TITLE, MEND, form.fields)
    parts: list[Said] = []
    if wanted.tang is not None:
        parts.append(tang_said(wanted.tang, chosen.name, form.system))
    if wanted.thread is not None and end is not None:
        parts.append(thread_said(wanted.thread, end, chosen.name, form.system))
    if wanted.spigot is not None:
        parts.append(spigot_said(wanted.spigot, form.system))
    cautions: list[Caution] = []
    for each in parts:
        cautions += [caution for caution in each.cautions if caution not in cautions]
    drawn = [each for each in parts if each.drawing]
    for each in drawn[1:]:  # the stage shows one picture; a second stands beside its part's first figure
        each.figures[0] = replace(each.figures[0], drawing=each.drawing)
    line = "; ".join(each.line for each in parts if each.line) or _nothing(end)
    return Stage(
        ID,
        TITLE,
        line[0].upper() + line[1:],
        form.fields,
        [figure for each in parts for figure in each.figures],
        [step for each in parts for step in each.steps],
        cautions,
        drawn[0].drawing if drawn else "",
    )


def _nothing(end: End | None) -> str:
    if end is not None and end.kind == TANG:
        return "Give the tang's thickness: no table here tells it."
    if end is not None and end.kind == DRAWBAR:
        return "No table here tells a thread for this taper: take the one your drawbar has."
    return "Nothing to finish beyond the taper; a spigot may be asked for."
