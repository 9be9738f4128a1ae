"""Proved cuts, as the core handed them out: checked at the door, the good ones handed back unchanged."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from calc.sheet import Problem

if TYPE_CHECKING:
    from calc.gauging.record import Record

ID = "history"
MOST = 500
LARGEST = 20_000
"""Characters of JSON text that one record may have: ten times what a long one has."""
MOST_NAMED = 5
DAMAGED, NEWER = "damaged", "newer"


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
        read = _read_once(_as_text(record))
        if read == NEWER:
            newer.append(place)
        elif isinstance(read, str):
            damaged.append(place)
        else:
            found.append(read)
            good.append(record)
    if damaged:
        message = f"Not readable, and left aside: proved {_named(damaged)}."
        problems.append(Problem(ID, message, "The others are used. Forget it, or open the cuts from a file."))
    if newer:
        message = f"Made by a newer Conewright, and left aside: proved {_named(newer)}."
        problems.append(Problem(ID, message, "The others are used; they count again after an update."))
    return History(good, found, problems)


def _as_text(record: object) -> str:
    """A record's JSON text, "" for what is none or too large for one."""
    if not isinstance(record, dict):
        return ""
    try:
        text = json.dumps(record, allow_nan=False)
    except (ValueError, TypeError, RecursionError):
        return ""
    return text if len(text) <= LARGEST else ""


@lru_cache(maxsize=MOST)
def _read_once(text: str) -> Record | str:
    """The record, or why not. Between two key presses the history stays the same."""
    from calc.gauging.record import FORMAT, NoRecord, read  # wanted only where there are records

    record = json.loads(text) if text else None
    made = record.get("format") if isinstance(record, dict) else None
    if isinstance(made, int) and not isinstance(made, bool) and made > FORMAT:
        return NEWER
    try:
        return read(record)
    except NoRecord:
        return DAMAGED


def _named(places: list[int]) -> str:
    shown = ", ".join(str(place) for place in places[:MOST_NAMED])
    more = f" and {len(places) - MOST_NAMED} more" if len(places) > MOST_NAMED else ""
    return f"cut {shown}{more}" if len(places) == 1 else f"cuts {shown}{more}"
