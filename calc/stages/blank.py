"""From bar to roughed blank: which bar, how long, what to rough it to, and in which order.

The stage asks after the taper; it hands on what cutting and finishing start from.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.machining.blank import DRAWBAR, PLAIN, TANG, Finished, Leave, Plan, finished, plan
from calc.machining.stock import CentreHole, bar_sizes, centre_hole, smallest_enough
from calc.quantities import shown_length
from calc.sheet import Stage
from calc.stages.form import Form
from calc.stages.sizes import Size, sizes
from calc.stages.taper import Chosen
from calc.tables.shanks import Shank, shank

ID = "blank"
TITLE = "Blank"
MEND = "Something in the entries needs mending."
END_LABELS = {TANG: "tang", DRAWBAR: "drawbar thread", PLAIN: "plain"}
IDS = tuple(
    f"blank.{name}"
    for name in (
        "end", "head_length", "head_diameter", "stock", "facing", "holding", "rough_allowance", "clean_up"
    )
)  # fmt: skip
MOST = 5000.0  # [mm]


@dataclass(frozen=True, slots=True)
class End:
    """Which end the shank gets, and what the tables tell of it."""

    kind: str
    shank: Shank | None

    @property
    def told(self) -> bool:
        """Whether the tables tell this end's measures."""
        data = self.shank.data if self.shank else {}
        if self.kind == TANG:
            return "tang_thickness" in data
        return self.kind == PLAIN or bool(self.shank and self.shank.threads)


@dataclass(frozen=True, slots=True)
class Bar:
    """The bar to take: as it is called, its diameter [mm], and whether it is one the person has."""

    name: str
    diameter: float
    owned: bool


@dataclass(frozen=True, slots=True)
class Planned:
    """Finished shank, plan, bar (None where none is thick enough), centre hole, allowances and head [mm]."""

    part: Finished
    plan: Plan
    bar: Bar | None
    centre: CentreHole
    leave: Leave
    head: tuple[float, float] | None


def ask_end(form: Form, chosen: Chosen) -> End | None:
    """Which end; None for a socket, which has none, or where the entry needs mending."""
    if chosen.form == "internal":
        return None
    found = shank(chosen.standard.series, chosen.standard.size) if chosen.standard else None
    data = found.data if found else {}
    usual = TANG if "tang_thickness" in data else DRAWBAR if "drawbar_length" in data else PLAIN
    kind = form.choice(
        "blank.end",
        "Small end of the shank",
        tuple(END_LABELS.items()),
        default=usual,
        help=""
        if found
        else "No table here tells a tang or a thread for this taper; their measures are yours.",
    )
    return End(kind, found) if kind else None


def answer(form: Form, chosen: Chosen, end: End | None, spigot: float | None) -> tuple[Stage, Planned | None]:
    """Ask what is left on and what bars there are, and plan the blank.

    spigot: the largest the spigot may be [mm], which the head must hold; None where none is wanted.
    """
    if chosen.form == "internal":
        from calc.stages.socket import answer as bored

        return bored(form, chosen, ID, TITLE), None
    told = _ask(form, spigot)
    if form.wrong or end is None or told is None:
        return Stage(ID, TITLE, MEND, form.fields), None
    if chosen.cone is None:
        return Stage(ID, TITLE, "Waiting for the taper.", form.fields), None
    length = chosen.standard.data.get("length") if chosen.standard else None
    part = finished(chosen.cone, end.kind, end.shank, length.value if length else None)
    if part is None:
        wanted = "Give the taper's large diameter and a length that leaves room for the end."
        return Stage(ID, TITLE, wanted, form.fields), None
    leave, head, owned = told
    planned = _planned(form, end, part, leave, head, owned)
    from calc.stages.blank_sheet import sheet  # words and picture: read when there is something to say

    return sheet(form, chosen, end, planned), planned


def _ask(form: Form, spigot: float | None) -> tuple[Leave, tuple[float, float] | None, list[Size]] | None:
    """Head, bars and allowances; None where something is missing."""
    usual = {"mm": "0 mm", "inch": "0 in"}
    if spigot is not None:
        usual = {"mm": "30 mm", "inch": "1.25 in"}
    head_length = form.length(
        "blank.head_length",
        "Length beyond the taper's large end",
        default=usual,
        least=0.0,
        most=MOST,
        help="Head, collar and spigot together; 0 for a bare shank.",
    )
    head = None
    if head_length:
        diameter = form.length(
            "blank.head_diameter",
            "Largest diameter there",
            default=shown_length(spigot) if spigot is not None else None,
            least=0.1,
            most=MOST,
            help="" if spigot is None else "Empty: as thick as the spigot.",
        )
        if diameter is None and not form.wrong:
            form.refuse("blank.head_diameter", "The head has a length but no diameter", "Give its diameter.")
        head = (head_length, max(diameter or 0.0, spigot or 0.0))
    owned = sizes(
        form,
        "blank.stock",
        "Bars you have",
        least=0.5,
        most=1000.0,
        help="With semicolons between, such as 20 mm; 1 in. Empty: customary sizes.",
    )
    form.group = "Allowances"
    found = [
        form.length(f"blank.{name}", label, default={"mm": mm, "inch": inch}, least=0.0, most=most, help=help)
        for name, label, mm, inch, most, help in ALLOWANCES
    ]
    form.group = ""
    if head_length is None or form.wrong:
        return None
    facing, holding, allowance, clean_up = (each or 0.0 for each in found)
    return Leave(allowance, facing, holding, clean_up), head, owned


ALLOWANCES = (
    ("facing", "To face off at each end", "1 mm", "0.04 in", 50.0, "Common practice, no source."),
    ("holding", "To hold it by", "25 mm", "1 in", 500.0, "Cut off at the end; 0 between centres."),
    ("rough_allowance", "Left on the diameter", "0.3 mm", "0.012 in", 20.0, "Common practice, no source."),
    ("clean_up", "Off the bar's skin, on diameter", "1 mm", "0.04 in", 20.0, "More for black bar."),
)  # fmt: skip


def _planned(
    form: Form,
    end: End,
    part: Finished,
    leave: Leave,
    head: tuple[float, float] | None,
    owned: Sequence[Size],
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


def _bar(system: str, needed: float, owned: Sequence[Size]) -> Bar | None:
    """The thinnest bar that will do: of those the person has, else of the customary ones in this system."""
    if owned:
        best = smallest_enough([each.value for each in owned], needed)
        return next((Bar(each.text, each.value, True) for each in owned if each.value == best), None)
    customary = bar_sizes(system)
    best = smallest_enough([each.value for each in customary], needed)
    return next(
        (Bar(f"{each.text} {each.unit}", each.value, False) for each in customary if each.value == best), None
    )
