"""A socket's rough bore: how far to open it before the taper, and what the table tells of bore and slot."""

from __future__ import annotations

from collections.abc import Mapping

from calc.machining.fits import zone
from calc.quantities import shown_length
from calc.sheet import Both, Figure, Stage, Working
from calc.stages.form import Form
from calc.stages.shop import CHUCK_KEY, MANUAL, from_memory, limits, line, rough
from calc.stages.taper import Chosen
from calc.tables import Datum
from calc.tables.shanks import shank

ALLOWANCE = "blank.rough_allowance"
BORE_GRADE = "H11"
FROM_TABLE = (
    ("socket_length", "Socket, depth at least"),
    ("slot_edge", "Slot for the drift, from the face"),
    ("slot_width", "Slot, width"),
    ("slot_length", "Slot, length"),
)


def answer(form: Form, chosen: Chosen, stage_id: str, title: str) -> Stage:
    """Ask what stays in the bore, and answer for bore and slot."""
    allowance = form.length(
        ALLOWANCE,
        "Left in the bore's diameter",
        default={"mm": "0.5 mm", "inch": "0.02 in"},
        least=0.0,
        most=20.0,
        help="Under the taper's small end, for the boring bar to true. Common practice, no source.",
    )
    if form.wrong or allowance is None:
        return Stage(stage_id, title, "Something in the entries needs mending.", form.fields)
    found = shank(chosen.standard.series, chosen.standard.size) if chosen.standard else None
    data = found.data if found else {}
    name = chosen.name
    figures = _from_table(data)
    cautions = [CHUCK_KEY, *from_memory([data[key] for key, _ in FROM_TABLE if key in data], name), MANUAL]
    small = chosen.cone.small_diameter if chosen.cone else None
    if small is None or small <= allowance:
        wanted = "Waiting for the taper's diameters."
        return Stage(stage_id, title, wanted, form.fields, figures, (), cautions)
    through = data["socket_bore"].value if "socket_bore" in data else small
    pilot = min(small, through) - allowance
    system = form.system
    bore = rough(pilot)[system]
    steps = [f"Drill no larger than {bore}, as deep as the taper and its run-out."]
    steps.append("Bore it true before the taper: a drilled hole wanders, and the taper would follow it.")
    if "socket_bore" in data:
        steps.append(f"Bore behind the taper to {_bore(data['socket_bore'])[system]}.")
    return Stage(
        stage_id,
        title,
        f"Drill no larger than {bore}, then bore true",
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
