"""What is told of the setting apart from the taper: the way, what it is known to, limits, aim, drawer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from calc.cone import Cone
from calc.doubt.doubts import COMMON, DOUBTS
from calc.doubt.goal import CUSTOMARY_GRADE, DEAD_ON, LARGE_END, Goal, Wanted, goal_for
from calc.doubt.task import Task
from calc.drawer import Piece
from calc.quantities import Reading, Unreadable, read_length
from calc.setting import WAYS
from calc.setting.way import Way
from calc.stages.form import LENGTH_UNIT, Form
from calc.stages.pieces import DrawerRead, read_pieces
from calc.tables.at import grades

SIDES = (("operator", "operator's side"), ("far", "far side"))
AIMS = (
    (DEAD_ON, "dead on"),
    (LARGE_END, "a hair so that the large end bears first"),
)
KNOWN_TO = "What each is known to"
RIGHT = "What counts as right"
SPANS = {each.over.id: each.over for each in DOUBTS.values() if each.over}
IDS = (
    "setting.way",
    "setting.cut_side",
    "setting.grade",
    "setting.aim",
    "setting.film",
    *dict.fromkeys(ask.id for way in WAYS for ask in way.ASKS),
    *DOUBTS,
    *SPANS,
)
LARGEST_LIMIT = 1.0


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


def ask(form: Form, drawer: list[object], add: Sequence[str] = ()) -> tuple[Bench | None, DrawerRead]:
    """Ask for the way, the bar and the drawer; None for the bench where something needs mending.

    add: keys of the sets to put into the drawer.
    """
    picked = form.choice("setting.way", "Set by", [(way.ID, way.LABEL) for way in WAYS], default=WAYS[0].ID)
    cut_side = form.choice(
        "setting.cut_side",
        "Tool cuts",
        SIDES,
        default="operator",
        help="The side of the work the tool is on; for boring, the side its tip is on.",
    )
    way = next((way for way in WAYS if picked == way.ID), None)
    told = Told.of(form, way)
    form.group = RIGHT
    wanted = _wanted(form)
    form.group = ""
    read = read_pieces(drawer, form.system, add)
    form.fields.append(read.field)
    if way is None or cut_side is None or told is None or wanted is None:
        return None, read
    return bench_for(form, way, cut_side, told, wanted, read.pieces), read


def bench_for(
    form: Form, way: Way, cut_side: str, told: Told, wanted: Wanted, pieces: tuple[Piece, ...]
) -> Bench:
    """The bench of what was told."""
    said = frozenset(name for name in (*DOUBTS, *SPANS) if form.given(name))
    lies = "internal" if form.entries.get("taper.form", "").strip().casefold() == "internal" else "external"
    return Bench(
        way, cut_side, told.lengths, told.choices, told.doubts, pieces, wanted, said, lies, form.system
    )


@dataclass(frozen=True, slots=True)
class Told:
    """What a way needs told, read: lengths, angles and rates; choices; half-widths of its doubts."""

    lengths: Mapping[str, float]
    choices: Mapping[str, str]
    doubts: Mapping[str, float]

    @staticmethod
    def of(form: Form, way: Way | None) -> Told | None:
        """Ask for all that this way needs; None where something is missing or cannot be read."""
        if way is None:
            return None
        lengths: dict[str, float | None] = {}
        choices: dict[str, str | None] = {}
        empty = 0
        for each in way.ASKS:
            if each.kind == "choice":
                choices[each.id] = form.choice(
                    each.id, each.label, each.choices, default=each.default["mm"], help=each.help
                )
                continue
            default = each.default or None
            if each.kind == "angle":
                lengths[each.id] = form.angle(
                    each.id, each.label, default=default, help=each.help, least=each.least, most=each.most
                )
            elif each.kind == "rate":
                lengths[each.id] = form.rate(
                    each.id, each.label, default=default, help=each.help, most=each.most
                )
            else:
                lengths[each.id] = form.length(
                    each.id, each.label, default=default, help=each.help, least=each.least, most=each.most
                )
            if default is None and not form.given(each.id):
                empty += 1
        form.group = KNOWN_TO
        doubts = _known_to(form, way, lengths)
        form.group = ""
        known = {name: value for name, value in lengths.items() if value is not None}
        picked = {name: value for name, value in choices.items() if value is not None}
        halves = {name: value for name, value in doubts.items() if value is not None}
        whole = len(known) + empty == len(lengths) and len(picked) == len(choices)
        return Told(known, picked, halves) if whole and len(halves) == len(doubts) else None


def _known_to(form: Form, way: Way, lengths: dict[str, float | None]) -> dict[str, float | None]:
    """What each thing is known to; the lengths these are told over join the other lengths."""
    doubts: dict[str, float | None] = {}
    for name in (*way.FEELS, *COMMON):
        doubt = DOUBTS[name]
        label, default, help = doubt.asked, doubt.default, doubt.help
        if doubt.kind == "count":
            doubts[name] = form.count(name, label, default, doubt.unit, help, int(doubt.most))
        elif doubt.kind == "angle":
            doubts[name] = form.angle(name, label, default=default, help=help, least=0.0, most=doubt.most)
        else:
            doubts[name] = form.length(name, label, default=default, help=help, least=0.0, most=doubt.most)
        over = doubt.over
        if over is not None and over.id not in lengths:
            lengths[over.id] = form.length(
                over.id, over.label, default=over.default, help=over.help, least=over.least, most=over.most
            )
    return doubts


def _wanted(form: Form) -> Wanted | None:
    """Limits, aim and film of blue."""
    value = form.measure(
        "setting.grade",
        "First cut is right within",
        "text",
        {"mm": CUSTOMARY_GRADE, "inch": CUSTOMARY_GRADE},
        f"A grade of ISO 1947, {grades()[0]} to {grades()[-1]}, laid half to either side; or how far out on"
        " diameter over the taper's length it may be either way, such as 0.01 mm or 4 tenths. AT7 is the"
        " coarse grade for Morse shanks, AT6 the usual one to order (from memory).",
        lambda text: read_limit(text, LENGTH_UNIT[form.system]),
    )
    aim = form.choice(
        "setting.aim",
        "Aim",
        AIMS,
        default=DEAD_ON,
        help="Dead on has the best chance of being within the limits. Shanks are often cut a hair steep, so"
        " that the large end bears first and the shank cannot rock (common practice, no source): then the aim"
        " is a quarter of the limits' whole width beside the taper, half-way to the limit. In a socket it is"
        " flat.",
    )
    film = form.length(
        "setting.film",
        "Film of blue",
        help="Thickness of the marking blue: then the chance of blue all along is told too.",
        least=0.0001,
        most=0.1,
    )
    if value is None or aim is None or (film is None and form.fields[-1].wrong):
        return None
    grade = form.understood["setting.grade"]
    return Wanted(grade, 0.0, aim, film) if grade in grades() else Wanted("", value, aim, film)


def read_limit(text: str, unit: str) -> Reading:
    """A grade ("AT7", its number as value) or a half-width on diameter [mm]; raises Unreadable."""
    known = grades()
    plain = "".join(text.split()).upper()
    if plain in known:
        return Reading(Fraction(plain[2:]), float(plain[2:]), plain)
    if plain.startswith("AT"):
        raise Unreadable(
            text,
            0,
            len(text),
            f"There is no grade {plain[:8]}",
            f"Grades run from {known[0]} to {known[-1]}.",
            (CUSTOMARY_GRADE, "AT6"),
        )
    bare = text.strip().removeprefix("±").removeprefix("+-").removeprefix("+/-")
    reading = read_length(bare, unit)
    if not 0.0 < reading.value <= LARGEST_LIMIT:
        raise Unreadable(
            text,
            0,
            len(text),
            f"{reading.understood} cannot be a limit here",
            "More than nothing and at most 1 mm on diameter, or a grade such as AT7.",
            (CUSTOMARY_GRADE, "0.01 mm"),
        )
    return reading
