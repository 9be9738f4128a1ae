"""First stage: which taper, and which way it lies in the lathe."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.cone import Cone
from calc.quantities import shown_angle
from calc.sheet import Caution, Figure, Stage
from calc.stages.form import Form
from calc.stages.holding import figure as holding_figure
from calc.stages.taper_choice import (
    MEASURES,
    OWN,
    UNKNOWN,
    UNKNOWN_ASKS,
    UNKNOWN_LABEL,
    Found,
    own,
    standard,
)
from calc.stages.taper_figures import drawing, figures
from calc.tables import ALL_SERIES, Taper

ID = "taper"
TITLE = "Taper"
ENDS = (("tailstock", "tailstock"), ("headstock", "headstock"))
FORMS = (("external", "outside (shank, plug)"), ("internal", "inside (socket, sleeve)"))
IDS = tuple(f"taper.{name}" for name in ("series", "size", "form", "small_end", *MEASURES, *UNKNOWN_ASKS))
MEND = "Something in the entries needs mending."


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the taper stage hands on: the cone where it is known, its name, how it lies and its standard."""

    cone: Cone | None
    name: str
    form: str | None
    small_end: str | None
    standard: Taper | None = None


def answer(form: Form) -> tuple[Stage, Chosen]:
    """Ask for the taper and show all its measures."""
    measured = any(form.given(f"taper.{name}") for name in MEASURES if name != "length")
    series = form.choice(
        "taper.series",
        "Taper",
        [
            *((each.value, each.label) for each in ALL_SERIES),
            (OWN, "My own measures"),
            (UNKNOWN, UNKNOWN_LABEL),
        ],
        default=OWN if measured and not form.given("taper.size") else ALL_SERIES[0].value,
    )
    found = Found()
    named: Sequence[Figure] = ()
    steps: Sequence[str] = ()
    if series == OWN:
        found = own(form)
    elif series == UNKNOWN:
        found, named, steps = _unknown(form)
    elif series is not None:
        found = standard(form, series)
    lies = form.choice("taper.form", "It is", FORMS, default="external")
    small_end = form.choice(
        "taper.small_end",
        "Small end towards",
        ENDS,
        default="tailstock",
        help="As it stands in the lathe while you cut it.",
    )
    name = found.standard.name if found.standard else "Own taper"
    cone = found.cone
    cautions = [Caution(*each) for each in found.cautions]
    if cone is None:
        line = MEND if form.wrong else f"Not known yet: {found.wanted or 'pick a taper'}."
        return Stage(ID, TITLE, line, form.fields, named, steps, cautions), Chosen(
            None, name, lies, small_end
        )
    place = "inside" if lies == "internal" else "outside"
    line = f"{name}, {place}: half angle {shown_angle(cone.half_angle)[form.system]}"
    picture = drawing(cone, form.system, small_end or "tailstock", lies or "external")
    stage = Stage(
        ID,
        TITLE,
        line,
        form.fields,
        [*named, *figures(cone, found.standard), *_holding(cone)],
        steps,
        cautions,
        picture,
    )
    return stage, Chosen(cone, name, lies, small_end, found.standard)


def _holding(cone: Cone) -> list[Figure]:
    held = holding_figure(cone)
    return [held] if held else []


def _unknown(form: Form) -> tuple[Found, Sequence[Figure], Sequence[str]]:
    """What the measures of an unknown taper say it is; read when wanted, for a quick start."""
    from calc.stages.identify import answer as identified

    answered = identified(form)
    return answered.found, answered.figures, answered.steps
