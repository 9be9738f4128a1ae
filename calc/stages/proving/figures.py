"""What the proving stage found, as figures: the error, the verdict, the next setting, what is left."""

from __future__ import annotations

from collections.abc import Mapping

from calc.doubt.percent import percent
from calc.gauging import WAYS
from calc.gauging.contradictions import says
from calc.gauging.evidence import Believed
from calc.gauging.judge import CHANGE, DONE, LEAVE, Verdict
from calc.gauging.way import Bearing, Bell
from calc.quantities import (
    plus_minus_angle,
    plus_minus_micrometres,
    shown_angle,
    shown_length,
    shown_micrometres,
)
from calc.sheet import Both, Figure, Row, Table, Working, same
from calc.stages.proving.change_figures import change_figures
from calc.stages.proving.facts import Proved, ProvingFacts
from calc.stages.proving.left_figures import left_figures, standing_figures
from calc.stages.proving.said import BAYES, GEOMETRY, SYSTEMS, seconds, sided, signed
from calc.stages.proving.stand_off_card import CARD, stand_off_card

LABELS: Mapping[int | str, str] = {way.ID: way.LABEL for way in WAYS}
DECISIONS = {
    DONE: "Right: leave the angle alone and go on to size",
    LEAVE: "Leave it alone: changing it would more likely make it worse",
    CHANGE: "Change it",
}


def figures(facts: ProvingFacts, internal: bool, system: str) -> list[Figure]:
    """Everything found, what matters most first."""
    found: list[Figure] = []
    proved = facts.proved
    if proved is not None and proved.believed is not None:
        found += _verdict(proved)
        found += change_figures(proved, system)
        found += _error(proved, proved.believed)
        found += left_figures(proved, internal)
    if facts.part is not None:
        found += standing_figures(facts)
        cone = facts.part.cone
        if cone.rate > 0.0 and not any(each.id == CARD for each in found):
            found.append(stand_off_card(cone))
    return found


def _error(proved: Proved, believed: Believed) -> list[Figure]:
    part, spread = proved.part, believed.expanded
    if proved.record is None:
        return []
    across = believed.mean * part.on_diameter
    wide = spread * part.on_diameter
    angle = Figure(
        "proving.angle_error",
        "Half angle out by",
        believed.mean,
        "rad",
        spread,
        sided(believed.mean, shown_angle(abs(believed.mean), spread)),
        plus_minus_angle(spread),
        [_weights_working(proved, believed)],
        BAYES,
        table=_weights(proved, believed),
    )
    diameter = Figure(
        "proving.error_on_diameter",
        "Taper out by, on diameter over its length",
        across,
        "mm",
        wide,
        sided(across, shown_micrometres(abs(across), wide)),
        plus_minus_micrometres(wide),
        [
            Working(
                "2 × length × error / cos²(half angle)",
                sided(across, shown_micrometres(abs(across), wide)),
            )
        ],
        GEOMETRY,
    )
    return [angle, diameter]


def _weights_working(proved: Proved, believed: Believed) -> Working:
    expected = proved.expected
    said = {
        key: (
            f"expected {signed(expected.mean)} ± {seconds(2 * expected.standard)}, believed"
            f" {signed(believed.mean)} ± {seconds(believed.expanded)}"
        )
        for key in SYSTEMS
    }
    return Working("expected × seen", said, "Above 0 is too steep.")


def _weights(proved: Proved, believed: Believed) -> Table:
    rows = []
    order = sorted(believed.weights.items(), key=lambda each: (-each[1], each[0]))
    seen = {one.row.number: one for one in proved.seen}
    for number, weight in order:
        if number < 0:
            label, says = "What the setting led one to expect", signed(proved.expected.mean)
        else:
            one = seen[number]
            label = f"{number + 1}. {LABELS[one.row.way]}"
            says = _says(one.angle)
        rows.append(Row([same(label), same(says), same(percent(weight))]))
    return Table(["Seen", "Says by itself", "Weight"], rows)


def _says(angle: Bell | Bearing | None) -> str:
    if angle is None:
        return "nothing of the angle"
    if isinstance(angle, Bell):
        return f"{signed(angle.value)} ± {seconds(2 * angle.standard)}"
    likeliest = says(angle)
    return f"{signed(likeliest)}, about" if likeliest else "near right, either way"


def _verdict(proved: Proved) -> list[Figure]:
    verdict, believed, limit = proved.verdict, proved.believed, proved.limit
    if verdict is None or believed is None or limit is None:
        return []
    across = limit * proved.part.on_diameter
    within = {
        key: f"within ± {shown_micrometres(across)[key].removeprefix('+')} on diameter" for key in SYSTEMS
    }
    found = [
        Figure(
            "proving.decision",
            "What to do about the angle",
            verdict.decision,
            shown=same(DECISIONS[verdict.decision]),
            working=[
                Working(
                    "the chance to be right, left alone and changed",
                    same(f"{percent(verdict.now)} left alone, {percent(verdict.best.chance)} changed"),
                    "A change must add 2 % to be worth touching the setting; from 95 % on"
                    " there is nothing to do.",
                )
            ],
            source=BAYES,
            lead=verdict.decision != CHANGE,
            table=_options(verdict),
        ),
        _chance("proving.inside_grade", "Taper as cut is right", verdict.now, within),
        _chance("proving.chance_now", "Chance to be right, left alone", verdict.now, within),
        _chance("proving.chance_changed", "Chance to be right, changed", verdict.best.chance, within),
    ]
    if proved.film:
        touch = proved.film / proved.part.slant
        words = {key: f"blue all along a film of {shown_length(proved.film)[key]}" for key in SYSTEMS}
        found.append(
            _chance("proving.full_contact", "Chance of full contact", believed.chance(-touch, touch), words)
        )
    return found


OPTIONS = {
    "tap": "Tap it, the turn read by an indicator",
    "stack": "Set it up anew on the next stack",
    "anew": "Set it up anew by the new numbers",
}


def _options(verdict: Verdict) -> Table:
    """Leaving it and each change, side by side."""
    rows = [Row([same("Leave it alone"), same(percent(verdict.now))], best=verdict.decision != CHANGE)]
    for each in verdict.changes:
        best = verdict.decision == CHANGE and each is verdict.best
        rows.append(Row([same(OPTIONS[each.id]), same(percent(each.chance))], best=best))
    return Table(["What to do", "Chance to be right"], rows)


def _chance(name: str, label: str, chance: float, within: Both) -> Figure:
    return Figure(
        name,
        label,
        chance,
        "1",
        shown=same(percent(chance)),
        working=[Working("share of what is believed", within)],
        source=BAYES,
    )
