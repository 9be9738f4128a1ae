"""What the stage of the blank says: its line, figures and picture."""

from __future__ import annotations

from calc.drawings.blank import BlankView, blank_picture
from calc.machining.blank import DRAWBAR, TANG
from calc.machining.stock import bar_sizes, smallest_enough
from calc.quantities import shown_length
from calc.sheet import Both, Figure, Row, Stage, Table, Working, same
from calc.stages.blank.facts import END_LABELS, ID, TITLE, Bar, End, Planned
from calc.stages.blank.steps import Around, cautions, pilot, steps
from calc.stages.common.form import Form
from calc.stages.common.shop import PRACTICE, line, long, origins, rough
from calc.stages.taper.facts import TaperFacts

RULE = "Lengths added along the axis; the allowances as entered"


def in_words(form: Form, taper: TaperFacts, end: End, planned: Planned, around: Around) -> Stage:
    """The whole stage."""
    system = form.system
    bar = planned.bar
    cut, shank = long(planned.plan.length)[system], planned.plan.roughs[0]
    turned = f"rough the shank to {rough(shank.diameter)[system]} for {long(shank.length)[system]}"
    if bar is None:
        needed = rough(planned.plan.stock_least)[system]
        answer = f"No bar stock here is thick enough: it must be at least {needed}; {turned}"
    else:
        answer = f"{bar.name} bar stock, {cut} long; {turned}"
    return Stage(
        ID,
        TITLE,
        answer,
        form.fields,
        _figures(taper, end, planned, system),
        steps(taper, end, planned, around),
        cautions(taper, end, planned, system),
        _drawing(taper, end, planned, system),
    )


def _named(bar: Bar) -> Both:
    """A bar by its own name in its own system, and in the other as near as it is read."""
    shown = rough(bar.diameter)
    own = "inch" if bar.name.endswith("in") else "mm"
    return {**shown, own: bar.name}


def _figures(taper: TaperFacts, end: End, planned: Planned, system: str) -> list[Figure]:
    made, part, leave = planned.plan, planned.part, planned.leave
    needed, largest = rough(made.stock_least), rough(made.stock_least - leave.clean_up)
    found = [
        Figure(
            "blank.diameter",
            "Bar stock, diameter",
            planned.bar.diameter if planned.bar else None,
            "mm",
            shown=_named(planned.bar) if planned.bar else same("none thick enough"),
            working=[
                Working(
                    "largest diameter to turn + clean-up allowance",
                    line("{a} + {b} = {c}", a=largest, b=rough(leave.clean_up), c=needed),
                    "The thinnest that holds this, of your bar stock or else of the customary sizes.",
                )
            ],
            source=f"{PRACTICE}: customary bar sizes",
            lead=True,
            table=_bars(planned, system),
        ),
        Figure(
            "blank.length",
            "Saw to length",
            made.length,
            "mm",
            shown=long(made.length),
            working=[
                Working(
                    "finished length + 2 × facing allowance + chucking allowance",
                    line(
                        "{a} + 2 × {b} + {c} = {d}",
                        a=long(made.finished_length),
                        b=long(leave.facing),
                        c=long(leave.holding),
                        d=long(made.length),
                    ),
                )
            ],
            source=RULE,
        ),
        Figure(
            "blank.rough_diameter",
            "Rough the shank to",
            made.roughs[0].diameter,
            "mm",
            shown=rough(made.roughs[0].diameter),
            working=[
                Working(
                    "large end of the shank + finishing allowance",
                    line(
                        "{a} + {b} = {c}",
                        a=shown_length(part.large_end),
                        b=rough(leave.rough),
                        c=rough(made.roughs[0].diameter),
                    ),
                    "A cylinder: the taper is cut from it once the angle is set.",
                )
            ],
            source=f"{PRACTICE}: the allowance",
        ),
        Figure(
            "blank.rough_length",
            "for a length of",
            made.roughs[0].length,
            "mm",
            shown=long(made.roughs[0].length),
            working=[
                Working(
                    "shank + one facing allowance",
                    line(
                        "{a} + {b} = {c}",
                        a=long(part.length),
                        b=long(leave.facing),
                        c=long(made.roughs[0].length),
                    ),
                )
            ],
            source=RULE,
        ),
        _finished(taper, end, planned),
    ]
    return found if end.kind == DRAWBAR else [*found, _centre(planned)]  # fmt: skip


def _bars(planned: Planned, system: str) -> Table:
    """The customary bars that would do, in both systems, the chosen one marked."""
    rows = []
    for each in ("mm", "inch"):
        customary = bar_sizes(each)
        best = smallest_enough([size.value for size in customary], planned.plan.stock_least)
        for size in customary:
            if size.value == best:
                name = f"{size.text} {size.unit}"
                chosen = planned.bar is not None and not planned.bar.owned and each == system
                rows.append(Row([same(name), rough(size.value - planned.part.large_end)], chosen))
    return Table(
        ("Customary bar stock that would do", "to come off its diameter down to the large end"), rows
    )


def _finished(taper: TaperFacts, end: End, planned: Planned) -> Figure:
    """Finished lengths and diameters, each from where it comes."""
    part = planned.part
    cells: list[tuple[str, Both]] = [("shank, end to large end", long(part.length))]
    if part.length != part.gauge_from_end:
        cells.append(("end to gauge plane", long(part.gauge_from_end)))
        cells.append(("diameter at the gauge plane", shown_length(part.gauge)))
    cells.append(("diameter at the large end", shown_length(part.large_end)))
    if part.end_diameter is not None and part.end_length:
        cells.append((f"{END_LABELS[end.kind]}, diameter at most", shown_length(part.end_diameter)))
        cells.append((f"{END_LABELS[end.kind]}, length of its diameter", long(part.end_length)))
    cells.append(("diameter at the cone's small end", shown_length(part.cone_small)))
    if planned.head:
        cells.append(("head, length", long(planned.head[0])))
        cells.append(("head, diameter", shown_length(planned.head[1])))
    source = origins(part.used) or "The taper as entered; no table here gives more of this end"
    working = Working(
        "diameter anywhere = gauge diameter − distance × taper",
        line(
            "{a} + {b} × taper = {c}",
            a=shown_length(part.gauge),
            b=long(part.length - part.gauge_from_end),
            c=shown_length(part.large_end),
        ),
        "Lengths of a shank in the table are the most it may have.",
    )  # fmt: skip
    return Figure(
        "blank.finished_length",
        "Finished shank",
        part.length,
        "mm",
        shown=long(part.length),
        working=[working],
        source=source,
        table=Table(("Finished", "measure"), [Row([same(name), shown]) for name, shown in cells]),
    )


def _centre(planned: Planned) -> Figure:
    hole = planned.centre
    shown = line("{a} pilot, {b} countersink", a=pilot(hole), b=rough(hole.mouth.value))
    return Figure(
        "blank.centre_hole",
        "Centre hole, form A",
        hole.drill.value,
        "mm",
        shown=shown,
        working=[
            Working(
                "countersink at most 0.4 of the end's diameter, and 0.8 of a tang's thickness",
                shown,
                "So that flats leave its cone whole. An inch centre drill near this size does as well.",
            )
        ],
        source=f"{PRACTICE}: which size; ISO 866, form A, from memory: its measures",
    )


def _drawing(taper: TaperFacts, end: End, planned: Planned, system: str) -> str:
    made, part, leave = planned.plan, planned.part, planned.leave
    turned = (
        (part.end_length, part.end_diameter) if part.end_length and part.end_diameter is not None else None
    )
    view = BlankView(
        planned.bar.diameter if planned.bar else made.stock_least,
        leave.facing,
        leave.holding,
        planned.head,
        part.length,
        made.roughs[0].diameter,
        turned,
        part.large_end,
        part.cone_small,
        0.0 if end.kind == DRAWBAR else planned.centre.mouth.value,
    )
    words = {
        "stock": planned.bar.name if planned.bar else f"at least {rough(made.stock_least)[system]}",
        "length": long(made.length)[system],
        "rough": rough(made.roughs[0].diameter)[system],
        "rough_length": long(made.roughs[0].length)[system],
        "shank": long(part.length)[system],
        "large": shown_length(part.large_end)[system],
        "small": shown_length(part.cone_small)[system],
        "centre": "" if end.kind == DRAWBAR else f"{pilot(planned.centre)[system]} pilot",
    }
    if turned:
        words |= {"end": f"{shown_length(turned[1])[system]} at most", "end_length": long(turned[0])[system]}
    if planned.head:
        words |= {"head": shown_length(planned.head[1])[system], "head_length": long(planned.head[0])[system]}
    return blank_picture(view, words, taper.small_end or "tailstock", "tang" if end.kind == TANG else "end")
