"""Proved cuts, as the core handed them out: checked at the door, the good ones handed back unchanged."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from calc.sheet import Problem

if TYPE_CHECKING:
    from calc.gauging.record import Record

ID = "history"
MOST = 500
LARGEST = 20_000
"""Characters of JSON text that one record may have: ten times what a long one has."""
MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class History:
    """Records that can be used, the oldest first.

    records: as they were sent. read: the same, read. problems: what was left aside, in words.
    """

    records: list[Mapping[str, object]] = field(default_factory=list)
    read: list[Record] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


def read_history(sent: object) -> History:
    """The records that can be read; never raises, whatever was sent.

    Of more than `MOST` the newest count. One of an unknown format or damaged is named and left aside.
    """
    if sent is None or sent == []:
        return History()
    if not isinstance(sent, list):
        message = "The proved cuts could not be read: they are not a list of records."
        return History(problems=[Problem(ID, message, "The job is worked out without them.")])
    from calc.gauging.record import FORMAT, NoRecord, read  # wanted only where there are records

    good: list[Mapping[str, object]] = []
    found: list[Record] = []
    problems: list[Problem] = []
    damaged: list[int] = []
    newer: list[int] = []
    first = max(0, len(sent) - MOST)
    if first:
        message = f"There are {len(sent)} proved cuts; the newest {MOST} are used."
        problems.append(Problem(ID, message, "Forget the oldest."))
    for place, record in enumerate(sent[first:], first + 1):
        if not isinstance(record, dict) or _too_large(record):
            damaged.append(place)
            continue
        made = record.get("format")
        if isinstance(made, int) and not isinstance(made, bool) and made > FORMAT:
            newer.append(place)
            continue
        try:
            found.append(read(record))
        except NoRecord:
            damaged.append(place)
        else:
            good.append(record)
    if damaged:
        message = f"Not readable, and left aside: proved {_named(damaged)}."
        problems.append(Problem(ID, message, "The others are used. Forget it, or open the cuts from a file."))
    if newer:
        message = f"Made by a newer Conewright, and left aside: proved {_named(newer)}."
        problems.append(Problem(ID, message, "The others are used; they count again after an update."))
    return History(good, found, problems)


def _too_large(record: dict[object, object]) -> bool:
    try:
        return len(json.dumps(record, allow_nan=False)) > LARGEST
    except (ValueError, TypeError, RecursionError):
        return True


def _named(places: list[int]) -> str:
    shown = ", ".join(str(place) for place in places[:MOST_NAMED])
    more = f" and {len(places) - MOST_NAMED} more" if len(places) > MOST_NAMED else ""
    return f"cut {shown}{more}" if len(places) == 1 else f"cuts {shown}{more}"
