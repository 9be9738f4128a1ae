"""Figures of speed and cuts: spindle speed, hand feed, cuts in order, time, finish."""

from __future__ import annotations

from calc.machining.speeds import surface_speed, turns_a_minute
from calc.machining.tool import crest_height
from calc.sheet import Both, Figure, Row, Table, Working, same
from calc.stages.cutting.facts import Cutting
from calc.stages.cutting.words import SYSTEMS, along, length, small
from calc.tables.speeds import TOOLS, published_speeds

RULE = "F. D. Jones, Turning and Boring (about 1914), cutting speeds"
GEOMETRY = "Geometry"
MOST_ROWS = 14


def speed_text(metres: float) -> dict[str, str]:
    """A surface speed [m/min] in both systems."""
    return {"mm": f"{metres:.0f} m/min", "inch": f"{metres / 0.3048:.0f} ft/min"}


def turns_text(turns: float) -> str:
    """A spindle speed as it is read from a plate."""
    return f"{turns:.0f} r/min (rpm)"


def figures(job: Cutting) -> list[Figure]:
    """The figures of this sort that the job needs and what is known allows."""
    return [each for each in (_turns(job), _handle(job), _cuts(job), _time(job), _finish(job)) if each]


def _turns(job: Cutting) -> Figure | None:
    if job.diameter is None or job.limit is None:
        return None
    across = length(job.diameter)
    low, spread = speed_text(job.speed.lowest), _range(job.speed.lowest, job.speed.highest)
    fast = job.told.speeds.at_or_below(turns_a_minute(job.speed.highest, job.diameter))
    working = [
        Working(
            "n = cutting speed / (π · largest diameter)",
            {system: f"{low[system]} / (π × {across[system]}) = {job.limit:.1f} r/min" for system in SYSTEMS},
            f"Nearest at or below on this lathe's list ({job.told.speeds.text()}).",
        )
    ]
    if job.turns is None:
        shown = f"none: the slowest, {job.told.speeds.slowest} r/min, is too fast"
        return Figure(
            "cutting.rpm", "Spindle speed", None, "1", None, same(shown), working=working, source=RULE
        )
    runs = speed_text(surface_speed(job.turns, job.diameter))
    note = f"If it cuts well there and holds still, up to {fast} r/min." if fast != job.turns else ""
    at_work = {
        system: f"π × {across[system]} × {job.turns} = {runs[system]}; to start from: {spread[system]}"
        for system in SYSTEMS
    }
    working.append(Working("cutting (surface) speed then", at_work, note))
    source = f"{RULE}. Speeds: {job.speed.found.words()}"
    return Figure(
        "cutting.rpm",
        "Spindle speed",
        job.turns,
        "1",
        shown=same(turns_text(job.turns)),
        working=working,
        source=source,
        lead=True,
        table=_published(job),
    )


def _published(job: Cutting) -> Table:
    """What is published for this material and tool, beside the range that was started from."""
    found = [(each, False) for each in published_speeds(job.told.material, job.told.tool)]
    rows = [
        Row([same(each.printed), same(each.cut), _range(each.lowest, each.highest)], best)
        for each, best in [(job.speed, True), *found]
    ]
    return Table(
        ["Material", f"{dict(TOOLS)[job.told.tool].capitalize()}, cut", "Cutting (surface) speed"], rows
    )


def _range(low: float, high: float) -> Both:
    first, last = speed_text(low), speed_text(high)
    if low == high:
        return first
    return {system: f"{first[system].split()[0]} to {last[system]}" for system in SYSTEMS}


def _handle(job: Cutting) -> Figure | None:
    if job.handle is None or job.told.lead is None:
        return None
    feed, lead = length(job.told.feed), length(job.told.lead)
    rate = f"{job.handle:.3g}" if job.count else f"{job.handle:.0f}"
    pace = "faster than a hand can wind"
    if job.count:
        pace = f"{job.count.words} every {job.count.seconds:.1f} s"
    said = f"{rate} turns a minute: {pace}"
    return Figure(
        "cutting.handle_rate",
        "Wind the top slide's handle (crank) at",
        job.handle,
        "1",
        shown=same(said),
        working=[
            Working(
                "feed × spindle speed / travel per turn of the handle",
                {
                    system: f"{feed[system]} × {job.turns} / {lead[system]} = {rate} turns a minute"
                    for system in SYSTEMS
                },
                f"{job.told.lead / job.told.feed:.1f} revolutions of the work to one turn of the handle.",
            )
        ],
        source=RULE,
    )


def _cuts(job: Cutting) -> Figure | None:
    if not job.cuts:
        return None
    rough = sum(not cut.finishing for cut in job.cuts)
    fine = len(job.cuts) - rough
    words = f"{rough} to rough, {fine} to finish" if rough else f"{fine} to finish"
    total = length(job.most or 0.0)
    dial = "diameter" if job.told.dial_on_diameter else "radius"
    rows, gone, left_out = [], 0.0, len(job.cuts) > MOST_ROWS
    for number, cut in enumerate(job.cuts, start=1):
        gone += cut.depth
        if left_out and MOST_ROWS // 2 < number <= len(job.cuts) - MOST_ROWS // 2:
            continue
        kind = "finish" if cut.finishing else "rough"
        cells = [same(f"{number} {kind}"), length(cut.depth), length(job.told.dial(gone))]
        rows.append(Row([*cells, along(cut.reach)]))
    start = (
        "The start is tapered already: each cut runs the whole length."
        if job.begun
        else f"The first cuts meet the metal at the {job.deep_end} only."
    )
    return Figure(
        "cutting.passes",
        "Cuts",
        len(job.cuts),
        "1",
        shown=same(words),
        working=[
            Working(
                "depth in all / depth of cut, rounded up; finishing cuts last",
                {
                    system: f"{total[system]} on radius; no roughing cut above"
                    f" {length(job.told.depth)[system]}, no finishing cut above"
                    f" {length(job.told.finish_depth)[system]}"
                    for system in SYSTEMS
                },
                start + (" The cuts between are left out of the table." if left_out else ""),
            )
        ],
        source=f"{GEOMETRY}; depths: common practice, no source",
        table=Table(["Cut", "Depth of cut, on radius", f"Cross-slide, collar on {dial}", "Cuts along"], rows),
    )


def _time(job: Cutting) -> Figure | None:
    if job.time is None or not job.turns:
        return None
    shown = f"{job.time:.1f} min" if job.time < 10 else f"{job.time:.0f} min"
    feed = length(job.told.feed)
    travelled = along(job.time * job.told.feed * job.turns)
    return Figure(
        "cutting.time",
        "Cutting time",
        job.time,
        "1",
        shown=same(shown),
        working=[
            Working(
                "t = path of all cuts / (feed × spindle speed)",
                {
                    system: f"{travelled[system]} / ({feed[system]} × {job.turns}) = {shown}"
                    for system in SYSTEMS
                },
                "Winding back, measuring and cooling come on top.",
            )
        ],
        source=RULE,
    )


def _finish(job: Cutting) -> Figure | None:
    nose, feed = job.told.nose, job.told.feed
    if nose is None or feed >= 2.0 * nose:
        return None
    height = crest_height(feed, nose)
    numbers = {
        system: f"{length(feed)[system]}² / (8 × {length(nose)[system]}) = {small(height)[system]}"
        for system in SYSTEMS
    }
    note = "Rt, not Ra, and at best: a torn surface is rougher. The peaks wear off as a taper seats."
    return Figure(
        "cutting.finish",
        "Feed marks, theoretical peak to valley",
        height,
        "mm",
        shown=small(height),
        working=[Working("height = feed² / (8 · nose radius)", numbers, note)],
        source=f"{GEOMETRY} of a round nose",
    )
