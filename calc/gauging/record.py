"""The record of a proved cut: plain data, made here, kept by the page, and read here again for ever.

A record holds what was expected (the error of the half angle with the part of every doubt in it), what was
seen (one bell, and one for blue and feel), and what was then believed. Nothing in it depends on today's
defaults: a later core works everything out anew from the records.

    {"format": 1, "job": {...}, "gear": {key: text}, "since": "afresh",
     "expected": {"value", "standard", "parts": {doubt: [contribution, half-width]}},
     "seen": [{"value", "noise", "parts": {doubt: contribution}}], "believed": {"value", "standard"}, ...}

Angles [rad]. Parts are kept for steady doubts only, each with the half-width it was made with, in the doubt's
own unit [mm, rad or mm per mm], so that a record still speaks when a ± is stated anew."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from calc.gauging.belief import Lesson
from calc.gauging.contact import FILM_SHARED
from calc.gauging.evidence import Believed

FORMAT = 1
AFRESH, TAPPED, UNCHANGED = "afresh", "tapped", "unchanged"
FILM = "proving.film"
"""The steady part of how thick one hand spreads its blue."""
_LARGEST = 1.5


@dataclass(frozen=True, slots=True)
class Site:
    """One bell of what was seen: value [rad], standard uncertainty of what is new each time, steady parts."""

    value: float
    noise: float
    parts: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Record:
    """One proved cut, as read. `units`: half-widths by steady doubt. name: of the job, for the person. stack,
    then: names of the pieces it was set on, and of those it was best set on anew.
    """

    job: Mapping[str, object]
    gear: Mapping[str, str]
    since: str
    value: float
    standard: float
    parts: Mapping[str, float]
    units: Mapping[str, float]
    seen: Sequence[Site]
    believed: tuple[float, float]
    turn: float = 0.0
    surprise: bool = False
    stack: Sequence[str] = ()
    then: Sequence[str] = ()

    def same_job(self, job: Mapping[str, object]) -> bool:
        """Whether it is of this very taper, set the same way."""
        return all(self.job.get(key) == value for key, value in job.items())


def sites(
    believed: Believed, bells_only: tuple[float, float], steady: Iterable[str], film: bool = False
) -> list[Site]:
    """What was seen as bells: the readings' own, and one that says of blue and feel what they changed.

    bells_only: mean and standard uncertainty of what would be believed without blue and feel [rad]. The
    second bell is the one that takes the one belief to the other (moment matching); blue that narrowed
    nothing leaves none."""
    keys = set(steady)
    found: list[Site] = []
    bell = believed.bell
    if bell is not None:
        own = {key: part for key, part in bell.parts.items() if key in keys}
        noise = math.hypot(*(part for key, part in bell.parts.items() if key not in keys))
        found.append(Site(bell.value, noise, own))
    before, after = bells_only[1] ** 2, believed.standard**2
    if after < 0.98 * before:
        precision = 1.0 / after - 1.0 / before
        value = (believed.mean / after - bells_only[0] / before) / precision
        found.append(
            _blue_site(value, math.sqrt(1.0 / precision)) if film else Site(value, math.sqrt(1.0 / precision))
        )
    return found


def _blue_site(value: float, standard: float) -> Site:
    """A bell for blue: what one hand's film is thicker than supposed makes every error it tells too small
    alike.
    """
    shared = math.copysign(min(abs(FILM_SHARED * value), 0.8 * standard), value)
    return Site(value, math.sqrt(standard**2 - shared**2), {FILM: shared})


def plain(record: Record) -> dict[str, object]:
    """The record as data fit for JSON."""
    return {
        "format": FORMAT,
        "job": dict(record.job),
        "gear": dict(record.gear),
        "since": record.since,
        "expected": {
            "value": record.value,
            "standard": record.standard,
            "parts": {key: [part, record.units.get(key, 0.0)] for key, part in record.parts.items()},
        },
        "seen": [{"value": s.value, "noise": s.noise, "parts": dict(s.parts)} for s in record.seen],
        "believed": {"value": record.believed[0], "standard": record.believed[1]},
        "turn": record.turn,
        "surprise": record.surprise,
        "stack": list(record.stack),
        "then": list(record.then),
    }


class NoRecord(ValueError):
    """Not a record of a proved cut, or a damaged one."""


def read(data: object) -> Record:
    """A record from plain data; raises NoRecord for anything that is not one."""
    whole = _mapping(data)
    if whole.get("format") != FORMAT:
        raise NoRecord("a record of another format")
    expected, believed = _mapping(whole.get("expected")), _mapping(whole.get("believed"))
    parts, units = _parts(_mapping(expected.get("parts", {})))
    seen = whole.get("seen")
    if not isinstance(seen, list):
        raise NoRecord("nothing seen")
    since = whole.get("since")
    return Record(
        job={str(key): value for key, value in _mapping(whole.get("job", {})).items()},
        gear={str(key): str(value) for key, value in _mapping(whole.get("gear", {})).items()},
        since=since if isinstance(since, str) and since in (AFRESH, TAPPED, UNCHANGED) else AFRESH,
        value=_number(expected.get("value")),
        standard=_number(expected.get("standard"), 0.0),
        parts=parts,
        units=units,
        seen=[_site(each) for each in seen[:8]],
        believed=(_number(believed.get("value")), _number(believed.get("standard"), 0.0)),
        turn=_number(whole.get("turn", 0.0)),
        surprise=whole.get("surprise") is True,
        stack=_names(whole.get("stack")),
        then=_names(whole.get("then")),
    )


def _mapping(data: object) -> Mapping[object, object]:
    if not isinstance(data, Mapping):
        raise NoRecord("a part of the record is missing")
    return data


def _number(data: object, least: float = -_LARGEST) -> float:
    if isinstance(data, bool) or not isinstance(data, (int, float)) or not least <= data <= _LARGEST:
        raise NoRecord("a number of the record is none, or beyond all bounds")
    return float(data)


def _names(data: object) -> tuple[str, ...]:
    return tuple(str(each)[:120] for each in data[:8]) if isinstance(data, list) else ()


def _parts(data: Mapping[object, object]) -> tuple[dict[str, float], dict[str, float]]:
    parts, units = {}, {}
    for key, pair in list(data.items())[:40]:
        if not isinstance(pair, (list, tuple)) or len(pair) != 2:
            raise NoRecord("a doubt of the record has no half-width")
        parts[str(key)[:120]] = _number(pair[0])
        units[str(key)[:120]] = _number(pair[1], 0.0)
    return parts, units


def _site(data: object) -> Site:
    one = _mapping(data)
    own = _mapping(one.get("parts", {}))
    return Site(
        _number(one.get("value")),
        _number(one.get("noise"), 0.0),
        {str(key)[:120]: _number(part) for key, part in list(own.items())[:40]},
    )


def lessons(
    records: Sequence[Record], gear: Mapping[str, str], units: Mapping[str, float], belongs: Mapping[str, str]
) -> list[Lesson]:
    """What these records teach of today's steady doubts.

    gear: what is in use today, by name ("bar", "slide"). belongs: by doubt, the name of the gear that it is
    of: a doubt of a bar since changed, or of a slide since scraped, is another doubt. units: today's
    half-widths by doubt; a record's contribution is taken as if it had been made with these."""
    found: list[Lesson] = []
    for record in records:
        if record.since != AFRESH or record.surprise or not record.seen:
            continue  # a tapped slide has no expected angle; a chip under a roller teaches nothing steady
        seen = _one(record.seen)
        fresh = record.standard**2 - math.fsum(part * part for part in record.parts.values())
        parts: dict[str, float] = {}
        for key in {*record.parts, *seen.parts}:
            part = record.parts.get(key, 0.0) + seen.parts.get(key, 0.0)
            of = belongs.get(key)
            if of is not None and record.gear.get(of) != gear.get(of):
                parts[f"{key} of {record.gear.get(of, '')}"] = part
                continue
            today, made = units.get(key, 0.0), record.units.get(key, 0.0)
            parts[key] = part * today / made if today > 0.0 and made > 0.0 else part
        noise = math.hypot(seen.noise, math.sqrt(max(0.0, fresh)))
        found.append(Lesson(seen.value - record.value, parts, noise))
    return found


def _one(seen: Sequence[Site]) -> Site:
    """Several bells of one cut in one: what the setting brings anew is in all of them alike, so it counts
    once.
    """
    if len(seen) == 1:
        return seen[0]
    weights = [1.0 / max(each.noise, 1e-9) ** 2 for each in seen]
    total = math.fsum(weights)
    parts: dict[str, float] = {}
    for weight, each in zip(weights, seen, strict=True):
        for key, part in each.parts.items():
            parts[key] = parts.get(key, 0.0) + part * weight / total
    value = math.fsum(w * each.value for w, each in zip(weights, seen, strict=True)) / total
    return Site(value, math.sqrt(1.0 / total), parts)
