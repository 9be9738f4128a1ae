"""The vocabulary in which every room asks and answers. It imports nothing.

A sheet is a list of stages; a stage asks through fields, answers through
figures, steps, cautions and one drawing. The page and the terminal render
whatever stands here and know no stage by name, so a new stage or figure
needs Python only. Texts for a person are given in both unit systems where
they hold a measure: ``{"mm": ..., "inch": ...}``.

`as_plain` turns any of these into dicts and lists fit for JSON.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, fields, is_dataclass, replace

Both = Mapping[str, str]
"""The same measure in words, once in each system: keys ``mm`` and ``inch``."""

NOTHING_SHOWN: Both = {"mm": "", "inch": ""}


def same(text: str) -> Both:
    """The text that reads alike in both systems."""
    return {"mm": text, "inch": text}


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with one entry: said beside its field, with a way out.

    `start` and `end` span the faulty part of `text`, the entry as typed;
    `offers` are texts that would be accepted in its place.
    """

    message: str
    text: str = ""
    start: int = 0
    end: int = 0
    way_out: str = ""
    offers: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to pick: the value an entry holds and the words shown for it."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class Field:
    """What a stage asks: `kind` is length, angle, rate, choice, several, count, text, pieces or
    rows.

    `unit` is what a bare number means here; `default` is used when the entry
    is empty; `rows` holds one list of fields for each row (kinds pieces and rows).
    Of kind several the value is any number of the choices' values, with commas
    between. Of kind pieces the choices are sets, to be added by the request's `add`;
    of kind rows what a new row may be.
    Fields of one `group` belong in one folded place under that name. `belongs` says whose answer it is:
    the "job" in hand; the "shop" (bars, drawer, lathe), which stays from job to job; or the "part" in hand:
    what was measured while it was made is not true of the next one.
    """

    id: str
    label: str
    kind: str
    value: str = ""
    default: str = ""
    unit: str = ""
    choices: Sequence[Choice] = ()
    help: str = ""
    read: str = ""
    wrong: Fault | None = None
    rows: Sequence[Sequence[Field]] = ()
    group: str = ""
    belongs: str = "job"


@dataclass(frozen=True, slots=True)
class Working:
    """One line of working: the formula, then the formula with its numbers in."""

    formula: str
    numbers: Both
    note: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a figure's table; `best` marks the recommended one."""

    cells: Sequence[Both]
    best: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Several answers side by side; no rows yet where the figure says `later`."""

    columns: Sequence[str]
    rows: Sequence[Row]


@dataclass(frozen=True, slots=True)
class Figure:
    """What a stage found.

    `value` is in `unit` (``mm``, ``rad`` or ``1``), a text for a choice, a list
    for a stack, None where it cannot be known; `plus_minus` is the expanded
    uncertainty (two standard uncertainties, about 95 %) in the same unit.
    `later` names the rows of a table that takes long to work out, one key a row:
    they are asked for some at a time by the request's `later`.
    """

    id: str
    label: str
    value: object
    unit: str = ""
    plus_minus: float | None = None
    shown: Both = field(default_factory=lambda: NOTHING_SHOWN)
    plus_minus_shown: Both = field(default_factory=lambda: NOTHING_SHOWN)
    working: Sequence[Working] = ()
    source: str = ""
    lead: bool = False
    table: Table | None = None
    drawing: str = ""
    later: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Folded(Figure):
    """The place of a figure that is costly and stands folded: `make` works it out when nothing else waits.

    It answers the figure, of the same id, or None where there is none after all. What stands on a sheet is
    never this but what it made (`unfolded`).
    """

    make: Callable[[], Figure | None] = lambda: None


Drawing = str | Callable[[], str]
"""SVG, "" where there is none; or what draws it when nothing else waits."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning with its reason; `level` is danger, care or note.

    `id` names the hazard ("stopped", "swarf"), so that steps can point to it and two stages say it once; ""
    while it has no name.
    """

    level: str
    text: str
    reason: str = ""
    id: str = ""


PHASES = ("align", "saw", "ends", "rough", "flats", "set", "cut", "prove", "finish", "part", "keep")
"""The parts of a job in the order of doing; a step stands in one of them."""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do at the machine.

    `phase` is one of `PHASES`. `cautions` are ids of the cautions to be heeded now, `asks` ids of the entries
    to be filled in now, `shows` ids of the figures wanted now. `drawing` is SVG, "" where none helps.
    `order` is its place within the phase, among the steps of all stages: the smaller comes first, and of two
    alike the one whose stage comes first. `renews` are entries as they are for the next cut: with the step
    what was seen of the last one is remembered and put away. Empty for all steps but the one that cuts again.
    """

    id: str
    phase: str
    text: Both
    cautions: Sequence[str] = ()
    asks: Sequence[str] = ()
    shows: Sequence[str] = ()
    drawing: str = ""
    order: int = 50
    renews: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Stage:
    """One step of the job."""

    id: str
    title: str
    line: str
    fields: Sequence[Field] = ()
    figures: Sequence[Figure] = ()
    steps: Sequence[Step] = ()
    cautions: Sequence[Caution] = ()
    drawing: Drawing = ""


def folded(name: str, make: Callable[[], Figure | None]) -> Folded:
    """The place of the figure of this id."""
    return Folded(name, "", None, make=make)


def unfolded(stage: Stage) -> Stage:
    """The stage with all that was left for later worked out."""
    made = [each.make() if isinstance(each, Folded) else each for each in stage.figures]
    drawing = stage.drawing if isinstance(stage.drawing, str) else stage.drawing()
    return replace(stage, figures=[each for each in made if each is not None], drawing=drawing)


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong that stands beside no field: an unknown entry, a damaged request."""

    id: str
    message: str
    way_out: str = ""


NOTHING = 1e-12
"""Below this a number is the rounding of others [mm, rad or plain]."""
_PLACES = 12
_SMALL = 1e-3
"""Ten digits of a number below this go on past NOTHING."""
_AS_IS = frozenset((str, int, bool, type(None)))
_NAMES: dict[type, tuple[str, ...]] = {}
"""Names of the parts of each kind met so far: asking a dataclass anew for each part is slow."""


def _number(value: float) -> float:
    """Ten significant digits: more than any result supports, and alike whichever library did the sines.

    What is left where two alike were taken from each other is nothing: no length or angle is so small, and no
    number is told finer than that.
    """
    if abs(value) >= _SMALL or value != value:
        return float(f"{value:.10g}")
    return round(value, _PLACES) if abs(value) >= NOTHING else 0.0


def as_plain(thing: object) -> object:
    """Dicts, lists, texts and numbers, fit for JSON, from any part of a sheet."""
    kind = type(thing)
    if kind in _AS_IS:
        return thing
    names = _NAMES.get(kind)
    if names is not None:
        plain: dict[str, object] = {}
        for name in names:
            part = getattr(thing, name)
            plain[name] = part if type(part) in _AS_IS else as_plain(part)
        return plain
    if isinstance(thing, float):
        return _number(thing)
    if isinstance(thing, (list, tuple)):
        return [part if type(part) in _AS_IS else as_plain(part) for part in thing]
    if isinstance(thing, (dict, Mapping)):
        return {str(key): part if type(part) in _AS_IS else as_plain(part) for key, part in thing.items()}
    if is_dataclass(kind):
        _NAMES[kind] = tuple(part.name for part in fields(kind))
        return as_plain(thing)
    return thing
