"""Lines for the drawer and records of proved cuts, thrown together: read, or refused with a way out."""

from __future__ import annotations

import math
import os
import random
from typing import Any

from calc.demo import demo_request
from calc.drawer.line import read_line
from calc.gauging import record
from calc.job import work
from calc.quantities import Unreadable, read_count, read_length
from calc.tables import drill_size
from fuzz.texts import spoilt_copy, text

COUNT = 50_000 if os.environ.get("CONEWRIGHT_DEEP") else 900
WORDS = ("drill", "leaf", "x2", "2 off", "±", "0.002 mm", "pin", "block", "thou", "4.2", "4.187", "#7", "1/8")
ODD: tuple[Any, ...] = (None, True, 0, -1, 1e308, 10**400, "", "x", [], {}, [1], {"a": 1}, math.nan, math.inf)


def _line(chance: random.Random) -> str:
    count = chance.randint(1, 5)
    parts = [chance.choice(WORDS) if chance.random() < 0.6 else text(chance) for _ in range(count)]
    return chance.choice((" ", " ", "; ", "")).join(parts)


def test_lines_become_pieces_or_are_refused() -> None:
    chance = random.Random("lines")
    told, read = [], 0
    for _ in range(COUNT):
        line, unit = _line(chance), chance.choice(("mm", "in"))
        try:
            piece = read_line(line, unit, drill_size)
        except Unreadable as refused:
            if not refused.message or not (refused.way_out or refused.offers):
                told.append((line, "no words or no way out"))
            if not 0 <= refused.start <= refused.end <= len(refused.text):
                told.append((line, f"span {refused.start}..{refused.end} of {len(refused.text)}"))
            for offer in refused.offers:
                try:
                    read_line(offer, unit, drill_size)
                except Unreadable as again:
                    told.append((line, f"offers {offer!r}, which is refused: {again.message}"))
            continue
        read += 1
        # What goes into the drawer is read there again, whatever the page's units are.
        for key in ("size", "measured", "give"):
            if piece[key]:
                for system in ("mm", "in"):
                    value = read_length(piece[key], system, drill_size).value
                    if not math.isfinite(value):
                        told.append((line, f"{key} {piece[key]!r} is {value}"))
        read_count(piece["count"] or "1", 0, 99)
    assert told[:5] == []
    assert read > COUNT // 10, "enough of them must be pieces"


def test_records_are_read_whole_or_refused() -> None:
    """A record that was read holds numbers alone, and written out again it reads as the same."""
    chance = random.Random("records")
    answer: Any = work(demo_request())
    whole = answer["record"]
    read = 0
    for _ in range(COUNT):
        spoilt = spoilt_copy(chance, whole, ODD)
        try:
            found = record.read(spoilt)
        except record.NoRecord:
            continue
        read += 1
        numbers = [found.value, found.standard, found.turn, *found.believed, *found.parts.values()]
        for site in found.seen:
            numbers += [site.value, site.noise, *site.parts.values()]
        assert all(math.isfinite(number) for number in numbers), spoilt
        assert record.read(record.plain(found)) == found, spoilt
    assert COUNT // 10 < read < COUNT
