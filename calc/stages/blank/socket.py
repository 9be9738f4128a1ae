"""A socket's rough bore: how far to open it before the taper, and what the table tells of bore and slot."""

from __future__ import annotations

from collections.abc import Mapping

from calc.machining.fits import zone
from calc.quantities import shown_length
from calc.sheet import Both, Figure, Stage, Step, Working, same
from calc.stages.blank.facts import ID, MEND, TITLE, BlankFacts
from calc.stages.common.form import Form
from calc.stages.common.shop import CHUCK_KEY, MANUAL, from_memory, limits, line, rough
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
    small = taper.cone.small_diameter if taper.cone else None
    if small is None or small <= allowance:
        wanted = "Waiting for the taper's diameters."
        return Stage(ID, TITLE, wanted, form.fields, figures, (), cautions)
    through = data["socket_bore"].value if "socket_bore" in data else small
    pilot = min(small, through) - allowance
    bore = rough(pilot)
    said = line("Drill no larger than {a}, as deep as the taper and its run-out.", a=bore)
    steps = [
        Step("blank.drill", "rough", said, shows=("blank.pilot",)),
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
        f"Drill no larger than {bore[form.system]}, then bore true",
        form.fields,
        [_pilot(min(small, through), allowance, pilot), *figures],
        steps,
        cautions,
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
        source="Common practice, no source: what stays in",
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
            working = [Working("as the table prints it", printed, datum.note)]
            found.append(
                Figure(f"blank.{key}", label, datum.value, "mm", shown=shown, working=working,
                       source=datum.origin())
            )  # fmt: skip
    return found
