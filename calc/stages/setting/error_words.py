"""How far out the taper is likely to be, from what, and the chance that the first cut is within tolerance."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from calc.cone import Cone
from calc.doubt.budget import EXPANSION_SOURCE, HEIGHT, WARMTH, Budget, hollow
from calc.doubt.doubts import DOUBTS, PIECE, SEATING
from calc.doubt.goal import DEAD_ON, Goal, blue_limit
from calc.doubt.percent import percent
from calc.doubt.task import CUSTOMARY_LENGTH, Task
from calc.drawer import Stack
from calc.quantities import (
    plus_minus_length,
    plus_minus_micrometres,
    shown_angle,
    shown_length,
    shown_micrometres,
)
from calc.sheet import Both, Figure, Row, Table, Working, same
from calc.stages.setting.bench import Bench
from calc.stages.setting.facts import Outcome

BUDGET = "setting.budget"
FIRST_ORDER = "First order, each doubt rectangular and independent (GUM: JCGM 100); tool height exactly"
TRUE_SPREAD = (
    "The true spread of the sum of rectangular doubts, by the Fourier series of its characteristic function;"
    " limits of grades: ISO 1947"
)
BEARS = {
    "external": "Too steep: this shank bears at its large end in a true socket; too shallow: at its small.",
    "internal": "Too steep: this socket bears at its small end on a true shank; too shallow: at its large.",
}
NOT_COUNTED = "Not counted: deflection of the work, wear of the tool, and how the taper is measured."


def off_words(error: float, doubt: float | None = None) -> Both:
    """An error on diameter [mm] without a bare sign: "1 µm too shallow"; doubt: its ± [mm]."""
    said = shown_micrometres(abs(error), doubt)
    way = "too steep" if error > 0.0 else "too shallow"
    return {
        each: f"{text.lstrip('+')} {way}" if text.strip("+0. µmtenhsi") else text
        for each, text in said.items()
    }


def high_words(error: float, doubt: float | None = None) -> Both:
    """A stack's error [mm] without a bare sign: "0.7 µm low"."""
    said = shown_micrometres(abs(error), doubt)
    way = "high" if error > 0.0 else "low"
    return {
        each: f"{text.lstrip('+')} {way}" if text.strip("+0. µmtenhsi") else text
        for each, text in said.items()
    }


def over(cone: Cone, length: float) -> Both:
    """Over which length the error is told, in words."""
    words = shown_length(length)
    return same("over its length") if cone.length else {each: f"over {words[each]}" for each in words}


def error_figure(task: Task, outcome: Outcome, goal: Goal) -> Figure:
    """How far out the taper comes, on diameter over its length."""
    made, cone = outcome.budget, task.cone
    shown, spread = off_words(made.bias, made.expanded), plus_minus_micrometres(made.expanded)
    angle, meant, length = (
        shown_angle(outcome.angle.value),
        shown_angle(cone.half_angle),
        shown_length(made.length),
    )
    line = {
        each: f"{angle[each]} got, {meant[each]} wanted, over {length[each]}: {shown[each]}"
        for each in ("mm", "inch")
    }
    note = BEARS[task.form]
    rows = [Working("2 × length × (tan(angle got) − tan(angle wanted))", line, note)]
    mean = hollow(cone, task.length, task.doubts.get(HEIGHT, 0.0))[0]
    biases = [("the aim", goal.aim), ("the tool's height, on average", mean)]
    told = [(words, value) for words, value in biases if value]
    if told:
        parts = {
            each: ", ".join(f"{words} {off_words(value)[each]}" for words, value in told)
            for each in ("mm", "inch")
        }
        rows.append(Working("of which", parts))
    if not cone.large_diameter:
        rows.append(
            Working("Without the taper's diameters tool height and warmth are not counted", same("–"))
        )
    return Figure(
        "setting.error_on_diameter",
        f"Taper error on diameter, {over(cone, made.length)['mm']}"
        + (", with a piece just so high" if outcome.supposed else ""),
        made.bias,
        "mm",
        made.expanded,
        shown,
        spread,
        rows,
        f"{FIRST_ORDER}. {NOT_COUNTED}",
    )


def chance_figures(task: Task, outcome: Outcome, goal: Goal, bench: Bench) -> list[Figure]:
    """The chance that the first cut is right; that blue shows all along; that the large end bears first."""
    found: list[Figure] = []
    if goal.limit is not None:
        words = limit_words(task, goal, bench)
        line = {
            each: f"{words[each]}; expected {off_words(outcome.budget.bias)[each]},"
            f" {plus_minus_micrometres(outcome.budget.expanded)[each]}"
            for each in ("mm", "inch")
        }
        note = (
            "" if bench.wanted.aim == DEAD_ON else "The limits stay about the taper; the aim lies beside it."
        )
        chance = outcome.budget.chance(-goal.limit, goal.limit)
        found.append(
            _chance(
                "setting.chance", "Chance: within tolerance at the first cut", chance, line, note, lead=False
            )
        )
    if goal.film is not None:
        most = blue_limit(task.cone, goal.film)
        line = {each: f"within ± {shown_micrometres(most)[each].lstrip('+')}" for each in ("mm", "inch")}
        note = "A film bridges a gap up to its own thickness: twice that on diameter, over the cosine."
        chance = outcome.budget.chance(-most, most)
        found.append(
            _chance(
                "setting.chance_blue", "Chance of contact all along (engineer's blue)", chance, line, note
            )
        )
    if bench.wanted.aim != DEAD_ON:
        far = 1e3
        chance = (
            outcome.budget.chance(0.0, far) if bench.lies == "external" else outcome.budget.chance(-far, 0.0)
        )
        side = "above" if bench.lies == "external" else "below"
        found.append(
            _chance(
                "setting.chance_large_end",
                "Chance that the large end bears first",
                chance,
                same(f"error {side} zero: too {'steep' if side == 'above' else 'shallow'}"),
            )
        )
    return found


def _chance(name: str, label: str, chance: float, line: Both, note: str = "", lead: bool = False) -> Figure:
    return Figure(
        name,
        label,
        chance,
        "1",
        shown=same(percent(chance)),
        working=[Working("share of the likely errors inside", line, note)],
        source=TRUE_SPREAD,
        lead=lead,
    )


def limit_words(task: Task, goal: Goal, bench: Bench) -> Mapping[str, str]:
    """The limits in words: "AT7: ± 7.9 µm on diameter over its length"."""
    limit = shown_micrometres(goal.limit or 0.0)
    before = f"{bench.wanted.grade}: " if bench.wanted.grade else ""
    return {
        each: f"{before}± {limit[each].lstrip('+')} on diameter {over(task.cone, task.length)[each]}"
        for each in ("mm", "inch")
    }


def budget_figure(task: Task, outcome: Outcome, bench: Bench) -> Figure:
    """Every contribution, the largest first, with where its default came from."""
    made = outcome.budget
    rows: list[Row] = []
    value: list[dict[str, object]] = []
    whole = made.standard**2 or 1.0
    for name, standard in grouped(made):
        label = label_of(name, outcome.stack)
        value.append({"id": name, "label": label, "value": 2.0 * standard})
        known, source = _known(name, outcome.stack, bench)
        rows.append(
            Row(
                [
                    same(label),
                    plus_minus_micrometres(2.0 * standard),
                    same(percent(standard**2 / whole)),
                    known,
                    same(source),
                ]
            )
        )
    spread = plus_minus_micrometres(made.expanded) if rows else same("nothing in doubt")
    return Figure(
        BUDGET,
        f"Error budget, on diameter {over(task.cone, made.length)['mm']}",
        value,
        "mm",
        shown=spread,
        working=[
            Working(
                "root of the sum of squares",
                spread,
                "Each as two standard uncertainties, on diameter over the taper's length.",
            )
        ],
        source=FIRST_ORDER,
        table=Table(["Source of error", "± on diameter", "Share", "Known to", "From"], rows),
    )


def grouped(made: Budget) -> list[tuple[str, float]]:
    """Contributions [mm, standard], the joints of a stack together, the largest first."""
    groups: dict[str, float] = {}
    for name, standard in made.ranked():
        key = SEATING if name.startswith(SEATING) else name
        groups[key] = math.hypot(groups.get(key, 0.0), standard)
    return sorted(groups.items(), key=lambda each: (-each[1], each[0]))


def label_of(name: str, stack: Stack | None) -> str:
    """What a contribution is called."""
    if name.startswith(PIECE):
        return stack.pieces[int(name.split()[1])].name if stack else "piece"
    if name == SEATING and stack:
        return f"seating of {stack.interfaces} joints"
    return DOUBTS[name].name


def _known(name: str, stack: Stack | None, bench: Bench) -> tuple[Both, str]:
    """To what it is known, and whether that was said or is a default, with its source."""
    if name.startswith(PIECE) and stack:
        piece = stack.pieces[int(name.split()[1])]
        known = plus_minus_length(math.sqrt(3.0) * piece.standard_nm / 1e6)
        return (
            known,
            f"your drawer: {piece.shape}, {'measured' if piece.measured else 'as sold, not measured'}",
        )
    doubt = DOUBTS[name]
    value = bench.doubts.get(name, 0.0)
    source = "as entered" if name in bench.said else f"default: {doubt.source}"
    if name == WARMTH and name not in bench.said:
        source += f" {EXPANSION_SOURCE[0].upper()}{EXPANSION_SOURCE[1:]}."
    if doubt.kind == "count":
        return same(f"± {value:.0f} {doubt.unit}"), source
    if doubt.kind == "angle":
        return same(f"± {shown_angle(value)['mm']}"), source
    known = plus_minus_length(value)
    if doubt.over:
        span = shown_length(bench.lengths.get(doubt.over.id, CUSTOMARY_LENGTH))
        return {each: f"{known[each]} over {span[each]}" for each in ("mm", "inch")}, source
    return known, source


def best_of(chances: Sequence[float | None]) -> int | None:
    """The place of the largest chance, None where there is none."""
    known = [(chance, -place) for place, chance in enumerate(chances) if chance is not None]
    return -max(known)[1] if known else None
