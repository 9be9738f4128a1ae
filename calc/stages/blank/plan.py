"""What is asked for the blank, and its plan: which bar, how long, what to rough it to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from calc.doubt.asks import Ask
from calc.machining.blank import DRAWBAR, PLAIN, TANG, Finished, Leave, finished, plan
from calc.machining.pipe import pipe_finished, turned
from calc.machining.stock import bar_sizes, centre_hole, smallest_enough
from calc.quantities import shown_length
from calc.sheet import same
from calc.stages.blank.facts import END_LABELS, Bar, BlankFacts, End, Planned
from calc.stages.common.form import Form
from calc.stages.common.sizes import SizeRead, sizes
from calc.stages.taper.facts import TaperFacts
from calc.tables.pipes import PipeEnd, pipe_end
from calc.tables.shanks import shank

MOST = 5000.0  # [mm]
PRACTICE = "Common practice, no source."
BORE_ALLOWANCE = Ask(
    "blank.rough_allowance",
    "Boring allowance, on diameter",
    "length",
    {"mm": "0.5 mm", "inch": "0.02 in"},
    "Left under the taper's small end, for the boring bar to true. Common practice, no source.",
    most=20.0,
)


def shank_blank(form: Form, taper: TaperFacts, spigot: float | None) -> BlankFacts:
    """Ask what is left on and what bars there are, and plan the blank of a shank.

    spigot: the largest the spigot may be [mm], which the head must hold; None where none is wanted.
    """
    end = _ask_end(form, taper)
    told = _ask(form, spigot)
    if form.wrong or end is None or told is None or taper.cone is None:
        return BlankFacts(end)
    length = taper.standard.data.get("length") if taper.standard else None
    leave, head, owned = told
    pipe = _pipe(taper)
    crests = None
    if pipe is not None:
        part = pipe_finished(taper.cone, pipe)
        crests = turned(taper.cone, pipe, internal=False)
        leave = replace(leave, rough=0.0)  # the pipe's outside is the thread's end: nothing is left on it
    else:
        part = finished(taper.cone, end.kind, end.shank, length.value if length else None)
    if part is None:
        return BlankFacts(end)
    return BlankFacts(end, _planned(form, end, part, leave, head, owned), pipe=crests)


def socket_blank(form: Form, taper: TaperFacts) -> BlankFacts:
    """Ask what stays in the bore."""
    pipe = _pipe(taper)
    crests = turned(taper.cone, pipe, internal=True) if pipe and taper.cone else None
    return BlankFacts(bore_allowance=form.number(BORE_ALLOWANCE), pipe=crests)


def _pipe(taper: TaperFacts) -> PipeEnd | None:
    """The pipe of a taper pipe thread; None for any other taper."""
    return pipe_end(taper.standard.series, taper.standard.size) if taper.standard else None


def _ask_end(form: Form, taper: TaperFacts) -> End | None:
    """Which end; None where the entry is wrong."""
    found = shank(taper.standard.series, taper.standard.size) if taper.standard else None
    data = found.data if found else {}
    usual = TANG if "tang_thickness" in data else DRAWBAR if "drawbar_length" in data else PLAIN
    kind = form.pick(
        Ask(
            "blank.end",
            "Small end of the shank",
            "choice",
            same(usual),
            choices=tuple(END_LABELS.items()),
            help=""
            if found
            else "No table here gives a tang or a thread for this taper; their measures are yours.",
        )
    )
    return End(kind, found) if kind else None


def _ask(form: Form, spigot: float | None) -> tuple[Leave, tuple[float, float] | None, list[SizeRead]] | None:
    """Head, bars and allowances; None where something is missing."""
    usual = {"mm": "0 mm", "inch": "0 in"}
    if spigot is not None:
        usual = {"mm": "30 mm", "inch": "1.25 in"}
    head_length = form.number(
        Ask(
            "blank.head_length",
            "Length beyond the taper's large end",
            "length",
            usual,
            least=0.0,
            most=MOST,
            help="Head, collar and spigot together; 0 for a bare shank.",
        )
    )
    head = None
    if head_length:
        diameter = form.number(
            Ask(
                "blank.head_diameter",
                "Largest diameter there",
                "length",
                shown_length(spigot) if spigot is not None else {},
                least=0.1,
                most=MOST,
                help="" if spigot is None else "Empty: as thick as the spigot.",
            )
        )
        if diameter is None and not form.wrong:
            form.refuse("blank.head_diameter", "The head has a length but no diameter", "Enter its diameter.")
        head = (head_length, max(diameter or 0.0, spigot or 0.0))
    owned = sizes(
        form,
        "blank.stock",
        "Bar stock you have",
        least=0.5,
        most=1000.0,
        help="With semicolons between, such as 20 mm; 1 in. Empty: customary sizes.",
    )
    form.group = "Allowances"
    found = [
        form.number(
            Ask(f"blank.{name}", label, "length", {"mm": mm, "inch": inch}, least=0.0, most=most, help=help)
        )
        for name, label, mm, inch, most, help in ALLOWANCES
    ]
    form.group = ""
    if head_length is None or form.wrong:
        return None
    facing, holding, allowance, clean_up = (each or 0.0 for each in found)
    return Leave(allowance, facing, holding, clean_up), head, owned


ALLOWANCES = (
    ("facing", "Facing allowance, each end", "1 mm", "0.04 in", 50.0, PRACTICE),
    ("holding", "Chucking allowance", "25 mm", "1 in", 500.0, "Sawn off at the end; a carrier grips it too."),
    ("rough_allowance", "Finishing allowance, on diameter", "0.3 mm", "0.012 in", 20.0, PRACTICE),
    ("clean_up", "Clean-up allowance (skin), on diameter", "1 mm", "0.04 in", 20.0, "More for black bar."),
)  # fmt: skip


def _planned(
    form: Form,
    end: End,
    part: Finished,
    leave: Leave,
    head: tuple[float, float] | None,
    owned: Sequence[SizeRead],
) -> Planned:
    made = plan(part, head[0] if head else 0.0, head[1] if head else None, leave)
    tang = end.shank.data.get("tang_thickness") if end.shank and end.kind == TANG else None
    at_end = part.end_diameter if part.end_diameter is not None else part.cone_small
    return Planned(
        part,
        made,
        _bar(form.system, made.stock_least, owned),
        centre_hole(at_end, tang.value if tang else None),
        leave,
        head,
    )


def _bar(system: str, needed: float, owned: Sequence[SizeRead]) -> Bar | None:
    """The thinnest bar that will do: of those the person has, else of the customary ones in this system."""
    if owned:
        best = smallest_enough([each.value for each in owned], needed)
        return next((Bar(each.text, each.value, True) for each in owned if each.value == best), None)
    customary = bar_sizes(system)
    best = smallest_enough([each.value for each in customary], needed)
    return next(
        (Bar(f"{each.text} {each.unit}", each.value, False) for each in customary if each.value == best), None
    )
