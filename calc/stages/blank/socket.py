"""A socket's rough bore: how far to open it before the taper, and what the table tells of bore and slot."""

from __future__ import annotations

from collections.abc import Mapping

from calc.machining.fits import zone
from calc.machining.socket import RUN_OUT, Drill, socket_depth, socket_drill
from calc.quantities import shown_length
from calc.sheet import Both, Figure, Stage, Step, Working, same
from calc.stages.blank.facts import ID, MEND, TITLE, BlankFacts
from calc.stages.common.form import Form
from calc.stages.common.shop import CHUCK_KEY, MANUAL, PRACTICE, from_memory, limits, line, long, rough
from calc.stages.taper.facts import TaperFacts
from calc.tables import Datum
from calc.tables.shanks import shank

BORE_GRADE = "H11"
FROM_TABLE = (
    ("socket_length", "Socket, depth at least"),
    ("slot_edge", "Slot for the drift, from the face"),
    ("slot_width", "Slot, width"),
    ("slot_length", "Slot, length"),
)


def sheet(form: Form, taper: TaperFacts, blank: BlankFacts) -> Stage:
    """Bore and slot, in words."""
    allowance = blank.bore_allowance
    if form.wrong or allowance is None:
        return Stage(ID, TITLE, MEND, form.fields)
    found = shank(taper.standard.series, taper.standard.size) if taper.standard else None
    data = found.data if found else {}
    figures = _from_table(data)
    doubtful = from_memory([data[key] for key, _ in FROM_TABLE if key in data], taper.name)
    cautions = [CHUCK_KEY, *doubtful, MANUAL]
    cone = blank.pipe or taper.cone
    small = cone.small_diameter if cone else None
    if small is None or small <= allowance:
        wanted = "Waiting for the taper's diameters."
        return Stage(ID, TITLE, wanted, form.fields, figures, (), cautions)
    through = data["socket_bore"].value if "socket_bore" in data else small
    pilot = min(small, through) - allowance
    bore = rough(pilot)
    drill, deep = socket_drill(pilot), _depth(taper, data)
    named = {each: drill[each].text if each in drill else bore[each] for each in bore}
    figures = [*([_drill(drill, pilot)] if drill else []), *([deep] if deep else []), *figures]
    far = deep.shown if deep else same("as deep as the taper and its run-out")
    said = line("Drill {a}, {b} deep at its full diameter, not at its point.", a=named, b=far)
    if deep is None:
        said = line("Drill {a}, {b}.", a=named, b=far)
    steps = [
        Step("blank.drill", "rough", said, shows=("blank.drill_size", "blank.drill_depth", "blank.pilot")),
        Step(
            "blank.bore_true",
            "rough",
            same("Bore it true before the taper: a drilled hole wanders, and the taper would follow it."),
        ),
    ]
    if "socket_bore" in data:
        said = line("Bore behind the taper to {a}.", a=_bore(data["socket_bore"]))
        steps.append(Step("blank.bore_behind", "rough", said, shows=("blank.socket_bore",)))
    return Stage(
        ID,
        TITLE,
        f"Drill {named[form.system]}{_deep(deep, form.system)}, then bore true",
        form.fields,
        [_pilot(min(small, through), allowance, pilot), *figures],
        steps,
        cautions,
    )


def _deep(depth: Figure | None, system: str) -> str:
    return f", {depth.shown[system]} deep" if depth else ""


def _drill(drill: Mapping[str, Drill], pilot: float) -> Figure:
    """The customary drill, in the person's own system of sizes."""
    shown = {each: found.text for each, found in drill.items()}
    return Figure(
        "blank.drill_size",
        "Drill",
        drill["mm"].diameter,
        "mm",
        shown=shown,
        working=[Working("the largest customary drill that is no larger", rough(pilot))],
        source=f"{PRACTICE}: customary drill sizes",
    )


def _depth(taper: TaperFacts, data: Mapping[str, Datum]) -> Figure | None:
    """How deep to drill; None where no length tells it."""
    length = taper.cone.length if taper.cone else None
    told = data.get("socket_length")
    if length is None:
        return None
    depth = socket_depth(length, told.value if told else None)
    sum_of = line("{a} + {b} = {c}", a=long(length), b=long(RUN_OUT), c=long(length + RUN_OUT))
    parts = [Working("taper + run-out for the boring bar and chips", sum_of)]
    if told is not None:
        parts.append(Working("and at least what the table asks", long(told.value), told.note))
    return Figure(
        "blank.drill_depth",
        "Drill, depth",
        depth,
        "mm",
        shown=long(depth),
        working=parts,
        source=f"{PRACTICE}: run-out. A bore right through needs none of it.",
    )


def _pilot(small: float, allowance: float, pilot: float) -> Figure:
    return Figure(
        "blank.pilot",
        "Drill, no larger than",
        pilot,
        "mm",
        shown=rough(pilot),
        working=[
            Working(
                "narrowest bore − what stays in it",
                line("{a} − {b} = {c}", a=shown_length(small), b=rough(allowance), c=rough(pilot)),
            )
        ],
        source=f"{PRACTICE}: what stays in",
        lead=True,
    )


def _bore(datum: Datum) -> Both:
    return limits(*zone(BORE_GRADE, datum.value).limits(datum.value))


def _from_table(known: Mapping[str, Datum]) -> list[Figure]:
    found = []
    if "socket_bore" in known:
        datum = known["socket_bore"]
        working = [Working(f"as the table prints it, {BORE_GRADE}", _bore(datum), datum.note)]
        found.append(
            Figure("blank.socket_bore", "Bore behind the taper", datum.value, "mm", shown=_bore(datum),
                   working=working, source=datum.origin())
        )  # fmt: skip
    for key, label in FROM_TABLE:
        if key in known:
            datum = known[key]
            shown = shown_length(datum.value)
            printed = line(f"{datum.text} {datum.unit} = {{a}}", a=shown)
            working = [Working("as printed in the table", printed, datum.note)]
            found.append(
                Figure(f"blank.{key}", label, datum.value, "mm", shown=shown, working=working,
                       source=datum.origin())
            )  # fmt: skip
    return found
