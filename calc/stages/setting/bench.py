"""What is told of the setting apart from the taper: the way, what it is known to, limits, aim, drawer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.cone import Cone
from calc.doubt.asks import Ask
from calc.doubt.doubts import COMMON, DOUBTS
from calc.doubt.goal import Goal, Wanted, goal_for
from calc.doubt.task import Task
from calc.drawer import Piece
from calc.setting import WAYS
from calc.setting.way import Way
from calc.sheet import same
from calc.stages.common.form import Form
from calc.stages.setting.goal_asks import ask_goal

KNOWN_TO = "What each is known to"
SPANS = {each.over.id: each.over for each in DOUBTS.values() if each.over}
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
    wanted: limits, aim and film. said: the ids of doubts and lengths that the person told; the others are
    defaults. lies: "external" or "internal".
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
        told = (self.lengths, self.choices, self.doubts)
        return Task(cone, small_end, self.cut_side, *told, aim, self.lies, self.system)


@dataclass(frozen=True, slots=True)
class WayEntries:
    """What a way needs told, read: lengths, angles and rates; choices; half-widths of its doubts."""

    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    doubts: Mapping[str, float]


def ask_bench(form: Form, lies: str) -> Bench | None:
    """Ask for the way, what it needs and what counts as right; None where something needs mending.

    lies: "external" or "internal". The drawer's pieces are not on the bench yet.
    """
    picked, cut_side = form.pick(_way_ask()), form.pick(CUT_SIDE)
    way = next((way for way in WAYS if picked == way.ID), None)
    told = ask_way(form, way) if way else None
    wanted = ask_goal(form)
    if way is None or cut_side is None or told is None or wanted is None:
        return None
    said = frozenset(name for name in (*DOUBTS, *SPANS) if form.given(name))
    return Bench(way, cut_side, told.lengths, told.choices, told.doubts, (), wanted, said, lies, form.system)


def ask_way(form: Form, way: Way) -> WayEntries | None:
    """Ask for all that this way needs; None where something is missing or cannot be read."""
    lengths: dict[str, float] = {}
    choices: dict[str, str] = {}
    doubts: dict[str, float] = {}
    wrong = False
    for ask in way.ASKS:
        entry = form.ask(ask)
        wrong = wrong or entry.wrong
        if entry.picked:
            choices[ask.id] = entry.picked
        elif entry.value is not None:
            lengths[ask.id] = entry.value
    form.group = KNOWN_TO
    asked = {ask.id for ask in way.ASKS}
    for name in (*way.FEELS, *COMMON):
        entry = form.ask(_ask_of(name))
        wrong = wrong or entry.wrong
        if entry.value is not None:
            doubts[name] = entry.value
        over = DOUBTS[name].over
        if over is not None and over.id not in asked:
            asked.add(over.id)
            span = form.ask(over)
            wrong = wrong or span.wrong
            if span.value is not None:
                lengths[over.id] = span.value
    form.group = ""
    return None if wrong else WayEntries(lengths, choices, doubts)


def _way_ask() -> Ask:
    listed = tuple((way.ID, way.LABEL) for way in WAYS)
    return Ask("setting.way", "Set by", "choice", same(WAYS[0].ID), choices=listed)


@cache
def _ask_of(name: str) -> Ask:
    """A doubt as it is asked."""
    doubt = DOUBTS[name]
    return Ask(name, doubt.asked, doubt.kind, doubt.default, doubt.help, most=doubt.most, unit=doubt.unit)
