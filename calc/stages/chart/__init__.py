"""The wall chart: every taper of the chosen series for this bar and this drawer.

A line of the chart goes the way of the setting stage, from the table's cone through the bar to the search of
the drawer, so that the two cannot differ. A search takes its time, so the table's rows are worked out later,
some at a time, by `rows`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.cone import Cone
from calc.doubt.task import CUSTOMARY_LENGTH
from calc.quantities import (
    plus_minus_length,
    plus_minus_micrometres,
    shown_angle,
    shown_length,
    shown_rate,
)
from calc.setting import bar
from calc.setting.common import turned_words
from calc.sheet import Both, Figure, Row, Stage, Table, Working, same
from calc.stages.common.form import Form
from calc.stages.common.job_facts import Job
from calc.stages.common.several import several
from calc.stages.common.shop import MEND
from calc.stages.setting.bench import KNOWN, Bench
from calc.stages.setting.error_words import off_words
from calc.stages.setting.facts import SettingFacts, set_up
from calc.stages.taper.choice import NO_LENGTH, standard
from calc.tables import ALL_SERIES, Taper, find_taper, sizes

ID = "chart"
TITLE = "Wall chart"
SERIES_ASKED = "chart.series"
IDS = (SERIES_ASKED,)
SHOP = ()
FIGURE = "chart.tapers"
COLUMNS = (
    "Taper",
    "Half angle",
    "Taper on diameter, 1:x",
    "Taper on diameter, in/ft",
    "Stack for this sine bar, mm",
    "Stack for this sine bar, in",
    "Best stack from this drawer",
    "Taper error on diameter",
    "over",
    "±",
    "From memory",
)
SOURCE = "The tables of tapers; the source of each datum stands beside it in the stage Taper"
SIDES = "for the sides of the bar and of the tool as in Setting"
NONE = "–"
USELESS = 0.05
"""The nearest stack is none where it leaves so much of the taper: common practice, no source."""
BAR_ONLY = "The chart is for a sine bar beside the top slide (compound): pick that method of setting for it."


@dataclass(frozen=True, slots=True)
class ChartFacts:
    """The series on the chart."""

    series: Sequence[str]


def work(job: Job) -> ChartFacts:
    """Ask which series go on the chart; its rows are worked out later."""
    chosen = several(
        job.form(ID),
        SERIES_ASKED,
        "Series on the chart",
        [(each.value, each.label) for each in ALL_SERIES],
        default=(ALL_SERIES[0].value,),
        help="Any number of them, with commas between. Each taper has the length given in its table.",
    )
    return ChartFacts(chosen)


def sheet(job: Job) -> Stage:
    """The chart's tapers by name, whose rows come later."""
    form, bench, chosen = job.form(ID), job.found(SettingFacts).bench, job.found(ChartFacts).series
    refused = refusal(bench)
    if bench is None or refused or not chosen:
        return Stage(ID, TITLE, refused or MEND, form.fields)
    names = [taper.name for series in chosen for taper in _tapers(series)]
    many = "1 taper" if len(names) == 1 else f"{len(names)} tapers"
    figure = Figure(
        FIGURE,
        "Tapers on the chart",
        len(names),
        "1",
        shown=same(many),
        working=[Working("each as in Setting: H = C × sin(half angle)", _told(bench))],
        source=SOURCE,
        table=Table(COLUMNS, []),
        later=names,
    )
    found = [figure, *_swings(bench, names)]
    centres = _bar(bench)[form.system]
    drawer = "this drawer" if bench.pieces else "an empty drawer: heights only"
    return Stage(ID, TITLE, f"{many} for the sine bar of {centres} and {drawer}", form.fields, found)


def _swings(bench: Bench, names: Sequence[str]) -> list[Figure]:
    """Which way the top slide is swung and which roller takes the stack, by the end that is the small one."""
    taper = _named(names[0]) if names else None
    if taper is None:
        return []
    cone = standard(Form({"taper.size": taper.size}, "mm"), taper.series).cone
    if cone is None:
        return []
    rows = []
    for end in ("tailstock", "headstock"):
        task = bench.task(cone, end)
        plan = None if bench.way.refusal(task) else bench.way.set_up(task).plan
        if plan is not None and plan.swing != "none":
            cells = (f"to the {end}", turned_words(plan.swing), plan.stack_pin)
            rows.append(Row([same(cell) for cell in cells]))
    if not rows:
        return []
    table = Table(("Small end", "swing the top slide (compound)", "stack under the roller at the"), rows)
    figure = Figure(
        "chart.swing",
        "Swing and roller",
        len(rows),
        "1",
        shown=same(SIDES),
        working=[Working("for either small end as in Setting: swing and roller", _told(bench))],
        source="geometry of the set-up, seen from above",
        table=table,
    )
    return [figure]


def refusal(bench: Bench | None) -> str:
    """Why there is no chart, in a sentence; "" where there is one."""
    if bench is None:
        return MEND
    return "" if bench.way.ID == bar.ID else BAR_ONLY


def rows(bench: Bench, names: Sequence[str], system: str) -> tuple[list[Row], list[str]]:
    """The chart's rows for these tapers, in their order, and the names that no table knows."""
    done: list[Row] = []
    unknown: list[str] = []
    for name in names:
        taper = _named(name)
        if taper is None:
            unknown.append(name)
            continue
        # The stage of the taper, asked for this size and nothing else: the table's own length.
        cone = standard(Form({"taper.size": taper.size}, system), taper.series).cone
        if cone is not None:
            done.append(row(bench, name, cone, _from_memory(taper)))
    return done, unknown


def row(bench: Bench, name: str, cone: Cone, from_memory: str = "") -> Row:
    """One line of the chart: what the setting stage says of this cone."""
    rate = shown_rate(cone.rate)
    told = [
        same(name),
        shown_angle(cone.half_angle),
        same(rate["mm"].partition(" (")[0]),
        same(rate["inch"].removesuffix(" in/ft")),
    ]
    # Which way the taper lies moves the roller; the height only where something is known to be out.
    task = bench.task(cone, "tailstock")
    refused = bench.way.refusal(task)
    search = None if refused else set_up(bench, task).search
    if search is None:
        return Row([*told, same(NONE), same(NONE), same(refused), *[same(NONE)] * 3, same(from_memory)])
    height = shown_length(search.wanted.height.value, search.wanted.height.expanded)
    told += [same(height["mm"].removesuffix(" mm")), same(height["inch"].removesuffix(" in"))]
    made = search.fits[0].budget if search.fits else None
    length = cone.length or CUSTOMARY_LENGTH
    if search.found is None or made is None or abs(made.bias) > USELESS * cone.rate * length:
        return Row([*told, same("none yet"), *[same(NONE)] * 3, same(from_memory)])
    unproved = "" if search.found.complete else " (the search was stopped; there may be a better one)"
    left: list[Both] = [
        same(search.words + unproved),
        off_words(made.bias, made.expanded),
        shown_length(length),
        plus_minus_micrometres(made.expanded),
    ]
    return Row([*told, *left, same(from_memory)])


def _told(bench: Bench) -> Both:
    """The bar, the joints and the drawer that the chart is for."""
    centres = _bar(bench)
    give = plus_minus_length(bench.doubts["setting.bar_give"])
    seating = plus_minus_length(bench.seating)
    pieces = sum(piece.count for piece in bench.pieces)
    known = any(bench.lengths.get(name) for name in KNOWN)
    lies = ("known errors taken off for a small end towards the tailstock",) if known else ()
    return {
        system: ", ".join(
            (
                f"sine bar {centres[system]} {give[system]}".strip(),
                f"each joint {seating[system] or 'exact'}",
                f"{pieces} pieces in the drawer",
                f"errors given over {NO_LENGTH[system]} where a table gives no length",
                *lies,
            )
        )
        for system in ("mm", "inch")
    }


def _bar(bench: Bench) -> Both:
    """The sine bar's length; one of whole hundredths of a millimetre has no more than thou in inches."""
    value = bench.lengths["setting.bar_centres"]
    shown = shown_length(value)
    if abs(value * 100.0 - round(value * 100.0)) < 1e-6 and len(shown["inch"]) > len("0.000 in"):
        return {"mm": shown["mm"], "inch": f"{value / 25.4:.3f} in"}
    return shown


def _tapers(series: str) -> list[Taper]:
    found = (find_taper(series, size) for size in sizes(series))
    return [taper for taper in found if taper is not None]


def _named(name: str) -> Taper | None:
    """The taper of this name; reads only the families whose name it may bear."""
    families = [each.value for each in ALL_SERIES if name.startswith(each.value)]
    return next((taper for series in families for taper in _tapers(series) if taper.name == name), None)


def _from_memory(taper: Taper) -> str:
    """Which of the numbers used here no source was at hand for."""
    words = {"rate": "taper", "length": "length"}
    return " and ".join(words[name] for name in taper.from_memory if name in words)
