"""First stage: which taper, and which way it lies in the lathe."""

from __future__ import annotations

from dataclasses import replace

from calc.doubt.asks import Ask
from calc.quantities import shown_angle
from calc.sheet import Caution, Figure, Stage, Step, same
from calc.stages.common.form import Form
from calc.stages.common.job_facts import Job
from calc.stages.common.shop import MEND
from calc.stages.taper.choice import (
    MEASURES,
    OWN,
    PART,
    UNKNOWN,
    UNKNOWN_ASKS,
    UNKNOWN_LABEL,
    ConeFound,
    from_memory,
    own,
    standard,
)
from calc.stages.taper.facts import ID, TaperFacts
from calc.stages.taper.figures import drawing, figures
from calc.stages.taper.holding import figure as holding_figure
from calc.tables import ALL_SERIES

__all__ = ["ID", "IDS", "SHOP", "how_it_lies", "sheet", "work"]

TITLE = "Taper"
IDS = tuple(
    f"taper.{name}" for name in ("series", "size", "form", "small_end", *MEASURES, *PART, *UNKNOWN_ASKS)
)
SHOP = ("taper.diameter_give", "taper.length_give", "taper.rate_give", "taper.stand_off_give")
SERIES_CHOICES = (
    *((each.value, each.label) for each in ALL_SERIES),
    (OWN, "Other taper, by its dimensions"),
    (UNKNOWN, UNKNOWN_LABEL),
)
OWN_NAME = "Own taper"
FORM = Ask(
    "taper.form",
    "It is",
    "choice",
    same("external"),
    choices=(("external", "external (shank, plug)"), ("internal", "internal (socket, sleeve)")),
)
MEASURED_FORM = replace(FORM, label="What was measured is")
SMALL_END = Ask(
    "taper.small_end",
    "Small end towards",
    "choice",
    same("tailstock"),
    "As it stands in the lathe while you cut it.",
    choices=(("tailstock", "tailstock"), ("headstock", "headstock")),
)
SOCKETS_SMALL_END = replace(
    SMALL_END,
    default=same("headstock"),
    help="As it stands in the lathe while you cut it. Where nothing is picked, a socket is taken as bored"
    " from its wide mouth, small end towards the headstock. Earlier versions took the tailstock:"
    " in an old set-up check the swing.",
)
"""A socket is bored from its wide mouth, so its small end lies deepest, towards the headstock; until that was
the default, set-ups were kept that name no end, and a person who opens one has to be told."""


def how_it_lies(form: Form) -> str | None:
    """Asks whether the taper is "external" or "internal"; None where the entry is wrong."""
    return form.pick(FORM)


def work(job: Job) -> TaperFacts:
    """Ask for the taper, and find its cone."""
    form = job.form(ID)
    measured = any(form.given(f"taper.{name}") for name in MEASURES if name != "length")
    usual = OWN if measured and not form.given("taper.size") else ALL_SERIES[0].value
    series = form.pick(Ask("taper.series", "Taper", "choice", same(usual), choices=SERIES_CHOICES))
    found, unknown, lies = ConeFound(), None, None
    if series == OWN:
        found = own(form)
    elif series == UNKNOWN:
        from calc.stages.taper.unknown import find  # read when wanted, for a quick start

        measured_form = form.pick(MEASURED_FORM)
        unknown = find(form, measured_form == "internal")
        found = unknown.cone
        lies = (
            {"external": "internal", "internal": "external"}[measured_form]
            if (unknown.mate and measured_form)
            else measured_form
        )
    elif series is not None:
        found = standard(form, series)
    if series != UNKNOWN:
        lies = how_it_lies(form)
    small_end = form.pick(SMALL_END if lies != "internal" else SOCKETS_SMALL_END)
    name = found.standard.name if found.standard else OWN_NAME
    if unknown is not None and unknown.picked and found.standard is None:
        name = "Mate of what was measured" if unknown.mate else "Taper as measured"
    known = found.standard if found.cone is not None else None
    return TaperFacts(found.cone, name, lies, small_end, known, found.wanted, unknown)


def sheet(job: Job) -> Stage:
    """The taper with all its measures."""
    form, facts = job.form(ID), job.found(TaperFacts)
    named: list[Figure] = []
    steps: list[Step] = []
    cautions: list[Caution] = []
    if facts.unknown is not None:
        from calc.stages.taper.measuring import easy_way
        from calc.stages.taper.unknown import cautions as doubts
        from calc.stages.taper.unknown import figures as candidates

        internal = facts.unknown.internal
        named, cautions = candidates(facts.unknown), doubts(facts.unknown, job.system)
        steps = easy_way(internal)
    cone = facts.cone
    if cone is None:
        line = MEND if form.wrong else f"Not known yet: {facts.wanted or 'choose a taper'}."
        return Stage(ID, TITLE, line, form.fields, named, steps, cautions)
    if facts.standard is not None and facts.unknown is None:
        cautions = from_memory(facts.standard)
    cautions = [*cautions, *_unusual(facts)]
    place = "internal" if facts.form == "internal" else "external"
    held = holding_figure(cone)
    return Stage(
        ID,
        TITLE,
        f"{facts.name}, {place}: half angle {shown_angle(cone.half_angle)[job.system]}",
        form.fields,
        [*named, *figures(cone, facts.standard), *([held] if held else [])],
        steps,
        cautions,
        drawing(cone, job.system, facts.small_end or "tailstock", facts.lies),
    )


def _unusual(facts: TaperFacts) -> list[Caution]:
    """A word where the taper lies the way it seldom does."""
    if facts.form == "internal" and facts.small_end == "tailstock":
        text = "A socket with its small end towards the tailstock is bored through its narrow end."
        return [
            Caution("care", text, "Usual is the wide mouth towards the tailstock: then choose headstock.")
        ]
    if facts.form == "external" and facts.small_end == "headstock":
        text = "A shank with its small end towards the headstock leaves the tool little room there."
        return [Caution("note", text, "Usual is the small end towards the tailstock, on its centre.")]
    return []
