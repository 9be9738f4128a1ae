"""An unknown taper: its measures, asked; the standard tapers they fit, and what to cut then, answered."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.cone import Cone, solve
from calc.doubt.asks import Ask
from calc.doubt.percent import percent
from calc.identify.evidence import Evidence, rate_seen
from calc.identify.identify import Identification, identify
from calc.quantities import shown_length, shown_rate
from calc.sheet import Both, Caution, Figure, Row, Table, Working, same
from calc.stages.common.form import Form
from calc.stages.taper.choice import UNKNOWN_ASKS, ConeFound
from calc.stages.taper.unknown_asks import ask
from calc.tables import Taper, all_tapers

IDS = tuple(f"taper.{name}" for name in UNKNOWN_ASKS)
"""The entries asked here beyond those that the taper stage asks anyway."""

TABLE, MEASURED, MATE = "table", "measured", "mate"
METHOD = (
    "Bayes' rule. Before measuring, all series alike, all sizes of a series alike, and one part in ten of no"
    " standard. Rates as made within 0.002 in/ft or half of AT8 (ISO 1947), one in twenty within three times"
    " that; the taper anywhere between its ends, and these within a tenth of its length: our assumptions."
)


@dataclass(frozen=True, slots=True)
class Unknown:
    """What the measures say it is, and the cone that the rest of the job goes on with.

    internal: a socket was measured. picked: the person chose what to go on with. mate: what is to be cut goes
    together with what was measured: a shank for a socket, a socket for a shank.
    """

    cone: ConeFound
    evidence: Evidence | None = None
    identified: Identification | None = None
    internal: bool = False
    picked: bool = False
    mate: bool = False


def find(form: Form, internal: bool = False) -> Unknown:
    """Ask, identify, and decide with what the rest of the job goes on."""
    asked = ask(form, internal)
    if asked.evidence is None:
        return Unknown(ConeFound(wanted=asked.wanted), internal=internal)
    found = identify(asked.evidence, all_tapers())
    standard = found.leader or (found.candidates[0].taper if found.candidates else None)
    measured = _as_measured(asked.evidence)
    road, picked = _ask_road(form, found, measured is not None)
    if picked and measured is not None:
        measured = _to_its_ends(measured, asked.evidence)
    if road == TABLE and standard is not None:
        cone = ConeFound(_by_table(standard), standard)
    else:
        cone = ConeFound(measured, wanted="" if measured else found.words[0][form.system].rstrip("."))
    return Unknown(cone, asked.evidence, found, internal, picked, road == MATE)


def _ask_road(form: Form, found: Identification, measured: bool) -> tuple[str, bool]:
    """With what to go on, and whether that was chosen; "" where nothing can be chosen."""
    roads = []
    if found.candidates:
        roads.append((TABLE, f"{found.candidates[0].name}, as its table has it"))
    if measured:
        roads.append((MEASURED, "what was measured, its own angle kept"))
        roads.append((MATE, "the mate of what was measured, its own angle kept"))
    if not roads:
        return "", False
    usual = TABLE if found.leader is not None else MEASURED if measured else ""
    help = "A worn socket is best fitted by its own angle; a new part by the table."
    road = form.ask(Ask("taper.go_on", "Cut", "choice", same(usual), help, choices=roads))
    if form.fields[-1].wrong is None and found.candidates:
        # What it is said to be stands where the person decides by it.
        form.fields[-1] = replace(form.fields[-1], read=f"looks like {_short(found)[form.system]}")
    return road.picked or usual, road.typed and bool(road.picked)


def figures(unknown: Unknown) -> list[Figure]:
    """The candidates, where there was enough to find them by."""
    if unknown.evidence is None or unknown.identified is None:
        return []
    return [figure(unknown.evidence, unknown.identified)]


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


def _by_table(standard: Taper) -> Cone:
    """The cone of a standard taper, as far as its table gives it."""
    values = {name: datum.value for name, datum in standard.data.items()}
    names = ("rate", "large_diameter", "length")
    return solve({name: values[name] for name in names if name in values})


def cautions(unknown: Unknown, system: str) -> list[Caution]:
    """How sure it is, and with what the rest of the job goes on."""
    found = unknown.identified
    if found is None:
        return []
    notes = [Caution("note", words[system]) for words in found.words]
    if unknown.cone.standard is not None:
        name = found.candidates[0].name
        other = ""
        if not unknown.picked and unknown.evidence is not None and _as_measured(unknown.evidence) is not None:
            other = (
                "A worn taper is fitted by its own angle: under Cut choose what was measured, or its mate."
            )
        words = f"The rest of the job goes on with {name}, its sizes from the table."
        notes.append(Caution("note", words, other))
    elif unknown.cone.cone is not None and unknown.picked:
        whose = "the mate of what was measured" if unknown.mate else "the taper as measured"
        reason = "Its angle is no better known than your measures: prove it against the part itself."
        notes.append(Caution("note", f"The rest of the job goes on with {whose}.", reason))
    elif unknown.cone.cone is not None:
        reason = "No standard taper is likely enough, so none is taken for granted."
        notes.append(Caution("care", "The rest of the job goes on with the taper as measured.", reason))
    return notes


def _as_measured(evidence: Evidence) -> Cone | None:
    two = evidence.diameters
    if two is None:
        return Cone(evidence.rate.value) if evidence.rate is not None else None
    return solve(
        {"large_diameter": two.large.value, "small_diameter": two.small.value, "length": two.apart.value}
    )


def _to_its_ends(cone: Cone, evidence: Evidence) -> Cone:
    """The measured cone out to its large end, and as long as the whole taper, where these were measured."""
    large, small, length = cone.large_diameter, cone.small_diameter, cone.length
    end, whole = evidence.end_diameter, evidence.length
    if large is None or small is None or length is None or cone.rate <= 0.0:
        return cone
    if end is None or end.value <= large:
        return cone
    length = (end.value - small) / cone.rate
    if whole is not None and length < whole.value < end.value / cone.rate:
        length = whole.value
    return Cone(cone.rate, end.value, end.value - cone.rate * length, length)
