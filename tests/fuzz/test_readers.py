"""Every reader on texts thrown together: a reading that reads again, or a refusal with place and way out."""

from __future__ import annotations

import math
import os
import random
from collections.abc import Callable

import pytest

from calc.machining.speeds import read_speeds
from calc.quantities import Reading, Unreadable, read_angle, read_count, read_length, read_rate
from calc.tables import drill_size
from fuzz.texts import text

COUNT = 150_000 if os.environ.get("CONEWRIGHT_DEEP") else 1_900

READERS: dict[str, Callable[[str], Reading]] = {
    "length mm": lambda typed: read_length(typed, "mm", drill_size),
    "length in": lambda typed: read_length(typed, "in", drill_size),
    "angle": read_angle,
    "rate mm": lambda typed: read_rate(typed, "ratio"),
    "rate in": lambda typed: read_rate(typed, "in/ft"),
    "count": lambda typed: read_count(typed, 0, 1000),
}


def faults(read: Callable[[str], Reading], typed: str) -> list[str]:
    """What is wrong with how the reader took this text."""
    try:
        reading = read(typed)
    except Unreadable as refused:
        found = []
        if not refused.message or not (refused.way_out or refused.offers):
            found.append(f"no words or no way out: {refused.message}")
        if not 0 <= refused.start <= refused.end <= len(refused.text):
            found.append(f"span {refused.start}..{refused.end} of {len(refused.text)}")
        if refused.text.strip() and refused.start == refused.end:
            found.append(f"a span of nothing at {refused.start}: {refused.message}")
        for offer in refused.offers:
            try:
                read(offer)
            except Unreadable as again:
                found.append(f"offers {offer!r}, which is refused: {again.message}")
        return found
    if not math.isfinite(reading.value):
        return [f"read as {reading.value}"]
    try:
        again = read(reading.understood)
    except Unreadable as refused:
        return [f"understood as {reading.understood!r}, which is refused: {refused.message}"]
    return [] if again.exact == reading.exact else [f"{reading.understood!r} reads as another value"]


@pytest.mark.parametrize("name", READERS)
def test_a_reading_reads_again_and_a_refusal_helps(name: str) -> None:
    chance = random.Random(f"readers {name}")
    told = []
    for _ in range(COUNT):
        typed = text(chance)
        told += [(typed, each) for each in faults(READERS[name], typed)]
    assert told[:10] == []


def test_speeds_are_read_or_refused() -> None:
    chance = random.Random("speeds")
    for _ in range(COUNT // 4):
        typed = ", ".join(text(chance) for _ in range(chance.randint(1, 4)))
        try:
            speeds = read_speeds(typed)
        except Unreadable as refused:
            assert refused.message and (refused.way_out or refused.offers), typed
            assert 0 <= refused.start <= refused.end <= len(refused.text), typed
        else:
            assert speeds is not None
