"""A socket: how far to drill and bore before the taper, what follows it, and what its table gives."""

from __future__ import annotations

from collections.abc import Mapping

from calc.drawings.socket_blank import socket_blank_picture
from calc.machining.fits import zone
from calc.machining.socket import RUN_OUT, Drill, socket_depth, socket_drill
from calc.quantities import shown_length
from calc.sheet import Both, Figure, Stage, Step, Working, same
from calc.stages.blank.facts import ID, TITLE, BlankFacts
from calc.stages.common.form import Form
from calc.stages.common.shop import MEND, PRACTICE, between, from_memory, limits, line, long, rough
from calc.stages.taper.facts import TaperFacts
from calc.tables import Datum
from calc.tables.shanks import shank

BORE_GRADE = "H11"
FROM_TABLE = (
    ("socket_length", "Socket depth, min."),
    ("slot_edge", "Drift slot (tang slot), from the face"),
    ("slot_width", "Drift slot, width"),
    ("slot_length", "Drift slot, length"),
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
    cone = blank.pipe or taper.cone
    small = cone.small_diameter if cone else None
    if small is None or small <= allowance:
        wanted = "Waiting for the taper's diameters."
        return Stage(ID, TITLE, wanted, form.fields, figures, (), doubtful)
    through = data["socket_bore"].value if "socket_bore" in data else small
    pilot = min(small, through) - allowance
    bore = rough(pilot)
    drill, deep = socket_drill(pilot), _depth(taper, data)
    named = {each: drill[each].text if each in drill else bore[each] for each in bore}
    figures = [*([_drill(drill, pilot)] if drill else []), *([deep] if deep else []), *figures]
    far = deep.shown if deep else same("as deep as the taper and its relief")
    said = line("Drill {a}, {b} deep at its full diameter, not at its point.", a=named, b=far)
    if deep is None:
        said = line("Drill {a}, {b}.", a=named, b=far)
    steps = [
        *_before(),
        _step("drill", "rough", said, ("swarf",), DRILLED),
        *_bored(data, min(small, through)),
        *_after(data),
    ]
    return Stage(
        ID,
        TITLE,
        f"Drill {named[form.system]}{_deep(deep, form.system)}, then bore true",
        form.fields,
        [_pilot(min(small, through), allowance, pilot), *figures],
        steps,
        doubtful,
        _drawing(taper, drill, deep, named, form.system),
    )


def _drawing(
    taper: TaperFacts, drill: Mapping[str, Drill], deep: Figure | None, named: Both, system: str
) -> str:
    """The drilled blank; "" where drill or depth is not known."""
    cone = taper.cone
    if cone is None or not drill or deep is None or not isinstance(deep.value, float):
        return ""
    if cone.large_diameter is None or cone.small_diameter is None or cone.length is None:
        return ""
    sizes = (cone.large_diameter, cone.small_diameter, cone.length)
    size = drill[system].diameter if system in drill else drill["mm"].diameter
    words = (named[system], deep.shown[system])
    return socket_blank_picture(sizes, (size, deep.value), words, taper.small_end or "headstock")


DRILLED = ("blank.drill_size", "blank.drill_depth", "blank.pilot")


def _step(
    word: str, phase: str, text: Both, cautions: tuple[str, ...] = (), shows: tuple[str, ...] = ()
) -> Step:
    return Step(f"blank.{word}", phase, text, cautions, shows=shows)


def _before() -> list[Step]:
    """Stock, and the mouth end; the outside is the person's own."""
    return [
        _step(
            "cut_off",
            "saw",
            same("Saw off the bar stock as long as the part, with a facing allowance at each end."),
            ("long_bar",),
        ),
        _step(
            "mouth",
            "ends",
            same(
                "Chuck it with little overhang, long work in a fixed steady (steady rest) as well. Face the"
                " end where"
                " the mouth will be and spot it with a centre drill."
            ),
        ),
    ]


def _bored(data: Mapping[str, Datum], narrowest: float) -> list[Step]:
    found = [
        _step(
            "bore_true",
            "rough",
            line(
                "Bore it true before the taper, to no more than {a}, by the carriage: a drilled hole"
                " wanders, and"
                " the taper would follow it. Leave the part in its jaws from here until the taper is done.",
                a=rough(narrowest),
            ),
            ("swarf",),
        )
    ]
    if "socket_bore" in data:
        said = line(
            "Bore the clearance (relief) behind the taper to {a}.",
            a=between(*(rough(each) for each in _limits(data["socket_bore"]))),
        )
        found.append(_step("bore_behind", "rough", said, (), ("blank.socket_bore",)))
    return found


def _after(data: Mapping[str, Datum]) -> list[Step]:
    """What follows the taper: the outside runs on it, and the slot goes through."""
    found = [
        _step(
            "outside",
            "part",
            same(
                "Turn the outside last, the part on a mandrel or arbor that fits the finished taper, between"
                " centres:"
                " so outside and taper run true to each other. Face the far end to length and break the"
                " edges."
            ),
            ("carrier", "centre", "sharp"),
        )
    ]
    if "slot_width" in data and "slot_length" in data:
        edge = data.get("slot_edge")
        text = "Mill the drift slot (tang slot) through: {a} wide, {b} long"
        text += ", {c} from the face." if edge else "."
        text += " Take the burr off inside the bore, where the slot breaks into the taper:"
        text += " it bears before the taper does."
        said = line(
            text,
            a=rough(data["slot_width"].value),
            b=rough(data["slot_length"].value),
            c=rough(edge.value) if edge else same(""),
        )
        shows = ("blank.slot_edge", "blank.slot_width", "blank.slot_length")
        found.append(_step("slot", "part", said, ("milling", "sharp"), shows))
    return found


def _deep(depth: Figure | None, system: str) -> str:
    return f", {depth.shown[system]} deep" if depth else ""


def _drill(drill: Mapping[str, Drill], pilot: float) -> Figure:
    """The customary drill, in the person's own system of sizes."""
    shown = {each: found.text for each, found in drill.items()}
    return Figure(
        "blank.drill_size",
        "Pilot drill to take",
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
    parts = [Working("taper + relief for the boring bar and swarf", sum_of)]
    if told is not None:
        parts.append(Working("and at least what the table gives", long(told.value), told.note))
    return Figure(
        "blank.drill_depth",
        "Pilot drill, depth",
        depth,
        "mm",
        shown=long(depth),
        working=parts,
        source=f"{PRACTICE}: relief. A bore right through needs none of it.",
    )


def _pilot(small: float, allowance: float, pilot: float) -> Figure:
    return Figure(
        "blank.pilot",
        "Pilot drill, no larger than",
        pilot,
        "mm",
        shown=rough(pilot),
        working=[
            Working(
                "narrowest bore − boring allowance",
                line("{a} − {b} = {c}", a=shown_length(small), b=rough(allowance), c=rough(pilot)),
            )
        ],
        source=f"{PRACTICE}: the allowance",
        lead=True,
    )


def _limits(datum: Datum) -> tuple[float, float]:
    return zone(BORE_GRADE, datum.value).limits(datum.value)


def _bore(datum: Datum) -> Both:
    return limits(*_limits(datum))


def _from_table(known: Mapping[str, Datum]) -> list[Figure]:
    found = []
    if "socket_bore" in known:
        datum = known["socket_bore"]
        working = [Working(f"as printed in the table, {BORE_GRADE}", _bore(datum), datum.note)]
        found.append(
            Figure("blank.socket_bore", "Clearance bore (relief) behind the taper", datum.value, "mm",
                   shown=_bore(datum), working=working, source=datum.origin())
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
