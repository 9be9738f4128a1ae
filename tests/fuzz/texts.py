"""Texts nobody would type and texts that somebody will, by a seeded generator."""

from __future__ import annotations

import json
import random
from collections.abc import Sequence
from typing import Any

MEASURES = (
    "4.2mm + 6thou", "1-3/8", '1 3/8"', "34,9", "1562.5 tenths", "0.1562in", ".6in", "4.2+.152", "#7 drill",
    "1°26'16\"", "1d26m16s", "1.4377", "1:19.922", "1 in 20", "0.602 in/ft", "5%", "12 ± 0.01 mm", "7/24",
    "100, 200, 400", "1,234.5", "2'6\"", "1/2 + 3/16 in",
    "25.4 mm - 1 in", "-0.002in", "30 deg", "0.3 um", "Z drill",
)  # fmt: skip
PIECES = (
    "0", "1", "9", "12", "007", "1e3", "1e999", "9" * 60, ".", ",", "'", '"', "°", "′", "″",
    "/", "-", "+", "−", "±", "%",
    ":", "#", " ", "\t", "\n", "mm", "in", "inch", "thou", "tenths", "tenth",
    "um", "µm", "m", "cm", "deg", "drill", "ft",
    "in/ft", "in 20", "½", "⅜", "¾", "²", "٣", "五",
    "\u00a0", "\u200b", "\u202e", "\ufeff", "\x00", "\ud800",
    "nan", "inf", "None", "e", "E", "x", "(", ")", "*", "=", "<", ">",
    "&", "|", "\\", "é", "🔩", "and", "1_000",
)  # fmt: skip


def text(chance: random.Random) -> str:
    """One text: a measure as it is, a measure spoilt, or pieces thrown together."""
    kind = chance.random()
    if kind < 0.15:
        return chance.choice(MEASURES)
    if kind < 0.55:
        letters = list(chance.choice(MEASURES))
        for _ in range(chance.randint(1, 3)):
            at = chance.randrange(len(letters) + 1)
            letters[at : at + chance.randint(0, 2)] = chance.choice(PIECES)
        return "".join(letters)
    return "".join(chance.choice(PIECES) for _ in range(chance.choice((1, 2, 3, 4, 5, 6, 8, 12, 40))))


def spoilt_copy(chance: random.Random, whole: Any, odd: Sequence[Any], least: int = 0) -> Any:
    """A copy of data as JSON has it, in `least` to three of its places something odd or any text."""
    spoilt = json.loads(json.dumps(whole))
    for _ in range(chance.randint(least, 3)):
        place: Any = spoilt
        while isinstance(place, dict | list) and place:
            key = chance.choice(list(place) if isinstance(place, dict) else range(len(place)))
            if not isinstance(place[key], dict | list) or not place[key] or chance.random() < 0.3:
                place[key] = chance.choice((*odd, text(chance)))
                break
            place = place[key]
    return spoilt
