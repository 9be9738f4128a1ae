"""What is entered of the setting apart from the taper: the way, what it is known to, limits, aim, drawer."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from calc.cone import Cone
from calc.doubt.asks import Ask
from calc.doubt.doubts import COMMON, DOUBTS
from calc.doubt.goal import Goal, Wanted, goal_for
from calc.doubt.task import Task
from calc.drawer import Piece
from calc.setting import WAYS
from calc.setting.way import Way
from calc.sheet import Both, same
from calc.stages.common.form import Form
from calc.stages.setting.goal_asks import ask_goal

KNOWN_TO = "Uncertainties and known errors"
SPANS = {each.over.id: each.over for each in DOUBTS.values() if each.over}
KNOWN = {each.known.id: each.known for each in DOUBTS.values() if each.known}
"""What is known to be out, each with its sign, by id."""
SWEEP = "setting.sweep_length"
OF_A_LATHE = ("setting.tool_height",)
"""What a way that sets no lathe does not ask of COMMON."""
WORK_LENGTH, CENTRE_DEPTH = "setting.work_length", "setting.centre_depth"
BY_JOB = frozenset((WORK_LENGTH, CENTRE_DEPTH))
Usual = Callable[[], Mapping[str, Both]]
"""Defaults that the job itself gives, by entry of BY_JOB: asked for where a way wants one, as few do."""
CUT_SIDE = Ask(
    "setting.cut_side",
    "Tool cuts",
    "choice",
    same("operator"),
    "The side of the work the tool is on; for boring, the side its tip is on.",
    choices=(("operator", "operator's side"), ("far", "far side")),
)


@dataclass(frozen=True, slots=True)
class Bench:
    """Enough to set any taper the same way.

    lengths, choices: what the way asked, by id. doubts: half-widths [mm, rad or K]. pieces: the drawer.
    wanted: limits, aim and film. said: the ids of doubts and lengths that the person entered; the others are
    defaults. lies: "external" or "internal". usual: defaults that the job gives.
    """

    way: Way
    cut_side: str
    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    doubts: Mapping[str, float]
    pieces: tuple[Piece, ...]
    wanted: Wanted = Wanted()
    said: frozenset[str] = frozenset()
    lies: str = "external"
    system: str = "mm"
    usual: Usual = dict

    @property
    def seating(self) -> float:
        """The ± of each joint in a stack [mm]."""
        return self.doubts.get("setting.seating", 0.0)

    def goal(self, cone: Cone) -> Goal:
        """Limits and aim for this cone."""
        return goal_for(cone, self.wanted, self.lies)

    def task(self, cone: Cone, small_end: str) -> Task:
        """The task of setting this cone here."""
        aim = self.goal(cone).aim_angle
        told = (self._within(cone), self.choices, self.doubts)
        return Task(cone, small_end, self.cut_side, *told, aim, self.lies, self.system)

    def _within(self, cone: Cone) -> Mapping[str, float]:
        """The lengths, an indicator's run no longer than what it runs along."""
        run, longest = self.lengths.get(SWEEP), self._longest_run(cone)
        if run is None or longest is None or run <= longest:
            return self.lengths
        return {**self.lengths, SWEEP: longest}

    def _longest_run(self, cone: Cone) -> float | None:
        """What the indicator runs along [mm]: the sine bar, or the taper itself; None where neither bounds
        it."""
        along = [self.lengths.get("setting.bar_centres")]
        if self.way.ID in ("master", "plate"):
            along.append(cone.length)
        return min((each for each in along if each is not None), default=None)

    def run_cut_short(self, cone: Cone) -> float | None:
        """How far the indicator can run [mm] where more was entered; None where that is possible."""
        run, longest = self.lengths.get(SWEEP), self._longest_run(cone)
        too_long = run is not None and longest is not None and run > longest + 1e-9
        return longest if too_long and SWEEP in self.said else None


@dataclass(frozen=True, slots=True)
class WayEntries:
    """What a way needs told, read: lengths, angles and rates; choices; half-widths of its doubts."""

    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    doubts: Mapping[str, float]


def ask_bench(form: Form, lies: str, usual: Usual = dict) -> Bench | None:
    """Ask for the way, what it needs and what counts as right; None where something needs mending.

    lies: "external" or "internal". usual: defaults that the job gives. The drawer's pieces are not on the
    bench yet.
    """
    picked, cut_side = form.pick(_way_ask()), form.pick(CUT_SIDE)
    way = next((way for way in WAYS if picked == way.ID), None)
    told = ask_way(form, way, usual) if way else None
    wanted = ask_goal(form)
    if way is None or cut_side is None or told is None or wanted is None:
        return None
    said = frozenset(name for name in (*DOUBTS, *SPANS, *KNOWN) if form.given(name))
    read = (told.lengths, told.choices, told.doubts)
    return Bench(way, cut_side, *read, (), wanted, said, lies, form.system, usual)


def doubts_of(way: Way) -> Sequence[str]:
    """Ids of all that this way leaves in doubt, by itself and by the cut."""
    common = COMMON if way.CUTS_BY else [name for name in COMMON if name not in OF_A_LATHE]
    return tuple(dict.fromkeys((*way.FEELS, *common)))


def ask_way(form: Form, way: Way, usual: Usual = dict) -> WayEntries | None:
    """Ask for all that this way needs; None where something is missing or cannot be read."""
    lengths: dict[str, float] = {}
    choices: dict[str, str] = {}
    doubts: dict[str, float] = {}
    own = usual() if any(ask.id in BY_JOB for ask in way.ASKS) else {}
    wrong = False
    for ask in way.ASKS:
        entry = form.ask(replace(ask, default=own[ask.id]) if ask.id in own else ask)
        wrong = wrong or entry.wrong
        if entry.picked:
            choices[ask.id] = entry.picked
        elif entry.value is not None:
            lengths[ask.id] = entry.value
    form.group = KNOWN_TO
    asked = {ask.id for ask in way.ASKS}
    for name in doubts_of(way):
        entry = form.ask(_ask_of(name))
        wrong = wrong or entry.wrong
        if entry.value is not None:
            doubts[name] = entry.value
        for beside in (DOUBTS[name].known, DOUBTS[name].over):
            if beside is None or beside.id in asked:
                continue
            asked.add(beside.id)
            measure = form.ask(beside)
            wrong = wrong or measure.wrong
            if measure.value is not None:
                lengths[beside.id] = measure.value
    form.group = ""
    return None if wrong else WayEntries(lengths, choices, doubts)


def _way_ask() -> Ask:
    listed = tuple((way.ID, way.LABEL) for way in WAYS)
    return Ask("setting.way", "Method", "choice", same(WAYS[0].ID), choices=listed)


@cache
def _ask_of(name: str) -> Ask:
    """A doubt as it is asked."""
    doubt = DOUBTS[name]
    return Ask(name, doubt.asked, doubt.kind, doubt.default, doubt.help, most=doubt.most, unit=doubt.unit)
