"""From the observations to what is believed of the taper, and what is best done about it."""

from __future__ import annotations

import math
from dataclasses import replace

from calc.doubt.budget import budget
from calc.doubt.doubts import is_steady
from calc.doubt.goal import Goal
from calc.doubt.task import Task
from calc.estimate import Estimate
from calc.gauging.contact import Blue
from calc.gauging.contradictions import contradictions, surprising
from calc.gauging.evidence import Believed, Expected, weigh
from calc.gauging.judge import Option, judge
from calc.gauging.left import size
from calc.gauging.record import AFRESH, TAPPED, Record, lessons, sites
from calc.gauging.way import GAUGE, Bell, Part
from calc.setting import set_over
from calc.setting.way import Way
from calc.stages.common.taught import BELONGS, Taught, job_of, units
from calc.stages.proving.anew import set_up_anew
from calc.stages.proving.facts import Proved, ProvingEntries, Tap
from calc.stages.proving.rows import RowsRead
from calc.stages.setting.bench import Bench
from calc.stages.setting.facts import SetUp

SWEEP, PLAY = "setting.sweep_give", "setting.play_give"
READ_TO, MOVES = 0.002, 0.002 / 80.0
"""What an indicator is read to [mm], and what tightening turns the slide [rad], where neither is told."""
UNKNOWN = 0.002
"""Half-width of the half angle [rad] where nothing tells how it was set: a fair reading of a degree scale."""
BEFORE, TAPPED_BY = "proving.before", "proving.tapped"


def part_of(task: Task, gauge_give: float) -> Part:
    """The part that is proved, with what the gauges share with the setting."""
    length = task.lengths.get("setting.axis_length", 100.0)
    return Part(
        task.cone,
        task.form,
        gauge_give,
        task.lengths.get("setting.bar_centres", 100.0),
        task.doubts.get("setting.bar_give", 0.003),
        # The lathe's taper is told on diameter: half of it is the slope of the axis.
        task.doubts.get("setting.axis_give", 0.005) / length / 2.0,
        task.system,
    )


def expected_of(set_up: SetUp | None, part: Part, taught: Taught) -> Expected:
    """What the setting leads one to expect of the half angle's error, learned doubts as bells."""
    outcome = set_up.outcome if set_up else None
    if outcome is None:
        return Expected(0.0, {BEFORE: UNKNOWN / math.sqrt(3.0)})
    made, per = outcome.budget, part.on_diameter
    learned = frozenset(key for key in made.parts if taught.records and is_steady(key))
    parts = {key: value / per for key, value in made.parts.items()}
    return Expected(made.bias / per, parts, made.shapes, learned)


def carried_on(previous: Record, entries: ProvingEntries, tap_standard: float) -> Expected:
    """What is expected where the slide still stands, or was tapped, since the last proved cut of this job."""
    mean, standard = previous.believed
    if entries.since != TAPPED:
        return Expected(mean, {BEFORE: standard}, bells=frozenset((BEFORE,)))
    turn = entries.tap / entries.tap_at if entries.tap is not None else previous.turn
    parts = {BEFORE: standard, TAPPED_BY: tap_standard}
    return Expected(mean + turn, parts, bells=frozenset(parts))


def tap_for(way: Way, task: Task, turn: float, at: float) -> Tap | None:
    """A tap that turns the half angle by `turn` [rad], seen by an indicator `at` [mm] from the pivot.

    Whatever was set, moving it by so much under an indicator keeps all that was seen of it. None for a way
    that sets no lathe, and for a tailstock whose work is of no known length."""
    if not way.CUTS_BY or (way.ID == set_over.ID and "setting.work_length" not in task.lengths):
        return None
    what = "slide" if way.CUTS_BY == "slide" else "guide"
    if way.ID == set_over.ID:
        # The tailstock's centre swings about the headstock's, the work's length away.
        what, at = "tailstock", set_over.between(task) * math.cos(task.half_angle)
    read_to = task.doubts.get(SWEEP, READ_TO) / math.sqrt(3.0) / at
    moves = MOVES / math.sqrt(3.0)
    if PLAY in task.doubts:
        moves = task.slope(PLAY).standard
    return Tap(turn, at, at * turn, math.hypot(read_to, moves), what)


def prove(
    bench: Bench,
    task: Task,
    set_up: SetUp | None,
    goal: Goal,
    rows: RowsRead,
    entries: ProvingEntries,
    taught: Taught,
    previous: Record | None,
) -> Proved | None:
    """All that follows; None where nothing was seen yet."""
    if not rows.seen:
        return None
    part = part_of(task, entries.gauge_give)
    rests_on = previous if entries.since != AFRESH else None
    no_tap = tap_for(bench.way, task, 0.0, entries.tap_at)
    expected = (
        carried_on(rests_on, entries, no_tap.standard if no_tap else MOVES)
        if rests_on is not None
        else expected_of(set_up, part, taught)
    )
    limit = goal.limit / part.on_diameter if goal.limit is not None else None
    against = contradictions(rows.seen)
    if against:
        return Proved(part, task, rows.seen, expected, limit, against, goal.film)
    believed = weigh(expected, rows.seen)
    surprise = surprising(expected, believed)
    angles = any(one.angle is not None for one in rows.seen)
    found = Proved(part, task, rows.seen, expected, limit, (), goal.film, believed, surprise)
    found = replace(found, size=size(rows.seen, part, believed.mean, believed.standard))
    if not angles:
        return found
    turn = goal.aim_angle - believed.mean
    tap = tap_for(bench.way, task, turn, entries.tap_at) if set_up is not None else None
    record = _record(bench, task, set_up, rows, entries, taught, believed, rests_on, surprise)
    anew = None
    if set_up is not None and set_up.outcome is not None:
        fresh = lessons([record], taught.gear(task), units(task, taught.pieces), BELONGS)
        anew = set_up_anew(bench, task, set_up, goal, taught, fresh, part)
    verdict = None
    if limit is not None and goal.limit is not None:
        changes = []
        if tap is not None:
            changes.append(Option("tap", believed.chance(-limit, limit, tap.turn, tap.standard)))
        # After a surprise it is doubtful what setting anew would come to; still better than what is wrong.
        if anew is not None and not (surprise and changes):
            changes.append(
                Option("stack" if anew.stack else "anew", anew.budget.chance(-goal.limit, goal.limit))
            )
        verdict = judge(believed, -limit, limit, changes)
    then = [piece.name for piece in anew.stack.pieces] if anew and anew.stack else ()
    record = replace(record, turn=tap.turn if tap else 0.0, then=then)
    return replace(found, verdict=verdict, tap=tap, anew=anew, record=record)


def _record(
    bench: Bench,
    task: Task,
    set_up: SetUp | None,
    rows: RowsRead,
    entries: ProvingEntries,
    taught: Taught,
    believed: Believed,
    rests_on: Record | None,
    surprise: bool,
) -> Record:
    """The record of this cut: what its own doubts alone led one to expect, and what was seen."""
    bare = replace(task, learned=None)
    parts: dict[str, float] = {}
    value, standard, known = believed.prior.mean, believed.prior.standard, units(task, taught.pieces)
    if rests_on is None and set_up is not None and set_up.outcome is not None:
        made = budget(bare, set_up.outcome.angle)
        per = part_of(task, entries.gauge_give).on_diameter
        value, standard = made.bias / per, made.standard / per
        for key, part in made.parts.items():
            if is_steady(key):
                name = taught.name(key)
                parts[name] = parts.get(name, 0.0) + part / per
    bells = [one for one in rows.seen if isinstance(one.angle, Bell)]
    alone = believed
    if len(bells) < len(rows.seen) and bells:
        alone = weigh(believed.prior, bells)
    without = (alone.mean, alone.standard) if bells else (believed.prior.mean, believed.prior.standard)
    film = any(isinstance(one.angle, Blue) and one.angle.shared > 0.0 for one in rows.seen)
    return Record(
        job=job_of(task, bench.way.ID),
        gear=taught.gear(task),
        since=entries.since if rests_on is not None else AFRESH,
        value=value,
        standard=standard,
        parts=parts,
        units={key: known.get(key, 0.0) for key in parts},
        seen=sites(believed, without, (*parts, GAUGE), film),
        believed=(believed.mean, believed.standard),
        surprise=surprise,
        stack=_set_on(set_up),
    )


def _set_on(set_up: SetUp | None) -> list[str]:
    stack = set_up.outcome.stack if set_up and set_up.outcome else None
    return [piece.name for piece in stack.pieces] if stack else []


def steady_now(set_up: SetUp | None, taught: Taught, task: Task) -> Estimate | None:
    """What the set-ups come out by, as taught [rad]; None where nothing was taught of the doubts in use."""
    if set_up is None or set_up.outcome is None or not taught.records:
        return None
    belief = taught.belief(task)
    parts = {taught.name(key): part for key, part in set_up.outcome.angle.parts.items()}
    met = {key: part for key, part in parts.items() if key in belief.keys}
    return belief.steady(met) if met else None
