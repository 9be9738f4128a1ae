"""What have I got here? The measures of an unknown taper, asked; the standard tapers they fit, answered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc.cone import STEEPEST_RATE, Cone, solve
from calc.doubt.asks import Ask
from calc.doubt.percent import percent
from calc.identify.evidence import Evidence, Measured, StandOff, TwoDiameters, rate_seen
from calc.identify.identify import Identification, identify
from calc.quantities import shown_length, shown_rate
from calc.sheet import Both, Caution, Figure, Row, Step, Table, Working, same
from calc.stages.common.form import Form
from calc.stages.taper.choice import MOST, UNKNOWN_ASKS, ConeFound
from calc.tables import ALL_SERIES, Taper, all_tapers, find_taper, sizes

IDS = tuple(f"taper.{name}" for name in UNKNOWN_ASKS)
"""The entries asked here beyond those that the taper stage asks anyway."""

MICROMETER = {"mm": "0.01 mm", "inch": "0.0005 in"}
PARALLELS = {"mm": "0.02 mm", "inch": "0.001 in"}
CALIPER = {"mm": "0.5 mm", "inch": "0.02 in"}
RATE_GIVE = 0.0002
END_GIVE, WHOLE_GIVE = 0.1, 0.5
"""± of a diameter at an edge and of a length by rule [mm]: common practice, no source."""
METHOD = (
    "Bayes' rule. Before measuring, all series alike, all sizes of a series alike, and one part in ten of no"
    " standard. Rates as made within 0.002 in/ft or half of AT8 (ISO 1947), one in twenty within three times"
    " that; the taper anywhere between its ends, and these within a tenth of its length: our assumptions."
)
WANTED = "measure two diameters and their distance, or give a rate or a stand-off"
EASY_WAY = (
    ("stand_up", "Wipe the taper and stand it small end down on a flat plate."),
    (
        "lower",
        "Lay two flat parallels of one height against it, one either side. Rest the micrometer on them,"
        " measure over the taper, and note the diameter: this is the smaller one.",
    ),
    (
        "higher",
        "Do the same on a pair of higher parallels: the larger diameter. The distance between the two is the"
        " difference of the heights.",
    ),
    (
        "anvils",
        "The anvils bear on their upper edge both times, so their thickness does not matter.",
    ),
    (
        "no_parallels",
        "No parallels: scribe two fine marks, measure the diameters at the marks, and give the distance the ±"
        " it deserves. The further apart the two are, the surer the answer.",
    ),
)
"""How to measure it without bench tools; before anything else is done."""


@dataclass(frozen=True, slots=True)
class Measures:
    """What was told: the evidence where there is enough, else what is wanted still."""

    evidence: Evidence | None
    wanted: str = ""


@dataclass(frozen=True, slots=True)
class Unknown:
    """What the measures say it is, and the cone that the rest of the job goes on with."""

    cone: ConeFound
    evidence: Evidence | None = None
    identified: Identification | None = None


def find(form: Form) -> Unknown:
    """Ask, identify, and decide with what the rest of the job goes on."""
    asked = ask(form)
    if asked.evidence is None:
        return Unknown(ConeFound(wanted=asked.wanted))
    found = identify(asked.evidence, all_tapers())
    return Unknown(_goes_on(asked.evidence, found, form.system), asked.evidence, found)


def figures(unknown: Unknown) -> list[Figure]:
    """The candidates, where there was enough to tell them by."""
    if unknown.evidence is None or unknown.identified is None:
        return []
    return [figure(unknown.evidence, unknown.identified)]


def easy_way() -> list[Step]:
    """How to measure the taper, before any metal is cut."""
    return [Step(f"taper.{word}", "align", same(text)) for word, text in EASY_WAY]


def ask(form: Form) -> Measures:
    """The measures, each with its ±; what cannot stand is said beside its field."""
    diameters = _ask_diameters(form)
    rate = _ask_rate(form)
    stand_off, wanted = _ask_stand_off(form)
    end = form.number(
        Ask(
            "taper.end_diameter",
            "Diameter where the taper ends, large end",
            "length",
            least=0.01,
            most=MOST,
            help="If it can be got at: at the shoulder, the collar or the edge. Taken to ± 0.1 mm"
            " (0.004 in).",
        )
    )
    whole = form.number(
        Ask(
            "taper.whole_length",
            "Length of the whole taper",
            "length",
            least=0.1,
            most=MOST,
            help="If it can be seen where it starts and stops. Taken to ± 0.5 mm (0.02 in).",
        )
    )
    if form.wrong:
        return Measures(None)
    if wanted or not (diameters or rate or stand_off or end):
        return Measures(None, wanted or WANTED)
    return Measures(
        Evidence(
            diameters,
            rate,
            stand_off,
            Measured(end, END_GIVE) if end else None,
            Measured(whole, WHOLE_GIVE) if whole else None,
        )
    )


def _ask_diameters(form: Form) -> TwoDiameters | None:
    large = form.number(Ask("taper.large_diameter", "Larger diameter", "length", least=0.1, most=MOST))
    small = form.number(
        Ask(
            "taper.small_diameter",
            "Smaller diameter",
            "length",
            least=0.1,
            most=MOST,
            help="Both anywhere on the taper, well apart.",
        )
    )
    apart = form.number(
        Ask("taper.length", "Distance between them, along the axis", "length", least=0.5, most=MOST)
    )
    give = form.number(
        Ask("taper.diameter_give", "Diameters to ±", "length", MICROMETER, least=0.0, most=10.0)
    )
    off = form.number(Ask("taper.length_give", "Distance to ±", "length", PARALLELS, least=0.0, most=100.0))
    if large is None or small is None or apart is None or give is None or off is None:
        return None
    if small > large:
        form.refuse(
            "taper.small_diameter",
            "This is larger than the larger diameter",
            "Swap the two, or measure again.",
        )
        return None
    if off >= apart:
        form.refuse("taper.length_give", "This is as much as the distance itself", "Give a smaller ±.")
        return None
    return TwoDiameters(Measured(large, give), Measured(small, give), Measured(apart, off))


def _ask_rate(form: Form) -> Measured | None:
    rate = form.number(
        Ask(
            "taper.rate",
            "or taper on diameter",
            "rate",
            most=STEEPEST_RATE,
            help="If it is all you have, or besides. For example 1:20, 0.602 in/ft or 5 %.",
        )
    )
    if rate is None:
        return None
    give = form.number(
        Ask("taper.rate_give", "Taper to ±", "rate", most=1.0, help="Empty: ± 0.02 % (0.0024 in/ft).")
    )
    if rate == 0:
        form.refuse("taper.rate", "A parallel part is no taper", "Give the rate, or leave it empty.")
        return None
    return Measured(rate, RATE_GIVE if give is None else give)


def _ask_stand_off(form: Form) -> tuple[StandOff | None, str]:
    """The stand-off in a known socket, and what is wanted still."""
    proud = form.number(
        Ask(
            "taper.stand_off",
            "or stands out of a known socket by",
            "length",
            least=-1000.0,
            most=1000.0,
            help="From the socket's face to the large end of the taper; minus where it sinks in.",
        )
    )
    if proud is None:
        return None, ""
    give = form.number(
        Ask("taper.stand_off_give", "Stand-off to ±", "length", CALIPER, least=0.0, most=100.0)
    )
    fit = [(each.value, each.label) for each in ALL_SERIES if each.whole]
    series = form.pick(Ask("taper.socket_series", "The socket is", "choice", same(fit[0][0]), choices=fit))
    size = form.pick(
        Ask("taper.socket_size", "of size", "choice", choices=[(each, each) for each in sizes(series or "")])
    )
    socket = find_taper(series, size) if series and size else None
    if socket is None or give is None:
        return None, "pick the socket it was tried in"
    return StandOff(socket, Measured(proud, give)), ""


def figure(evidence: Evidence, found: Identification) -> Figure:
    """The candidates with their probabilities."""
    rows = [
        Row(
            [same(each.name), same(percent(each.probability)), _large_end(each.taper), each.needs],
            each.taper is found.leader,
        )
        for each in found.candidates
    ]
    rows.append(Row([same("None of these"), same(percent(found.none_of_these)), same(""), same("")]))
    return Figure(
        "taper.candidates",
        "Which taper this is",
        [
            {"series": each.taper.series, "size": each.taper.size, "probability": each.probability}
            for each in found.candidates
        ],
        shown=_short(found),
        working=_working(evidence),
        source=METHOD,
        table=Table(["Taper", "Probability", "Large end by the table", "Against what was measured"], rows),
    )


def _short(found: Identification) -> Both:
    """The leader in few words."""
    first = found.candidates[0] if found.candidates else None
    if first is None or found.none_of_these > first.probability:
        return same(f"none of these ({percent(found.none_of_these)})")
    words = f"{first.name} ({percent(first.probability)}"
    if percent(found.surely) != percent(first.probability):
        words += f"; with the same cone under other names {percent(found.surely)}"
    return same(words + ")")


def _large_end(taper: Taper) -> Both:
    datum = taper.data.get("large_diameter")
    return shown_length(datum.value) if datum else same("")


def _working(evidence: Evidence) -> list[Working]:
    lines = []
    seen, two = rate_seen(evidence), evidence.diameters
    if two is not None:
        large, small, apart = (shown_length(each.value) for each in (two.large, two.small, two.apart))
        rate = shown_rate((two.large.value - two.small.value) / two.apart.value, seen.reach if seen else None)
        lines.append(
            Working(
                "taper = (larger − smaller) / distance",
                {
                    system: f"({large[system]} − {small[system]}) / {apart[system]} = {rate[system]}"
                    for system in ("mm", "inch")
                },
            )
        )
    lines.append(
        Working(
            "probability = prior × likelihood / sum over all",
            same("every standard taper of the tables, and none of these"),
            "The likelihood holds rate, diameters and lengths against the table, by what making and measuring"
            " leave open.",
        )
    )
    return lines


def _goes_on(evidence: Evidence, found: Identification, system: str) -> ConeFound:
    """The leader's cone where it is likely enough, else the taper as measured."""
    if found.leader is not None:
        values = {name: datum.value for name, datum in found.leader.data.items()}
        names = ("rate", "large_diameter", "length")
        cone = solve({name: values[name] for name in names if name in values})
        return ConeFound(cone, found.leader)
    measured = _as_measured(evidence)
    return ConeFound(measured, wanted="" if measured else found.words[0][system].rstrip("."))


def cautions(unknown: Unknown, system: str) -> list[Caution]:
    """How sure it is, and with what the rest of the job goes on."""
    found = unknown.identified
    if found is None:
        return []
    notes = [Caution("note", words[system]) for words in found.words]
    if found.leader is not None:
        name = found.candidates[0].name
        notes.append(Caution("note", f"The rest of the job goes on with {name}, its sizes from the table."))
    elif unknown.cone.cone is not None:
        reason = "No standard taper is likely enough, so none is taken for granted."
        notes.append(Caution("care", "The rest of the job goes on with the taper as measured.", reason))
    return notes


def _as_measured(evidence: Evidence) -> Cone | None:
    two = evidence.diameters
    if two is not None:
        measures: Mapping[str, float] = {
            "large_diameter": two.large.value,
            "small_diameter": two.small.value,
            "length": two.apart.value,
        }
        return solve(measures)
    return Cone(evidence.rate.value) if evidence.rate is not None else None
