"""Invented jobs of every kind for whose sake a route is made: shank, socket, between centres, inch shop."""

from __future__ import annotations

import random
from functools import cache
from typing import Any

from calc.job import work

WAYS = ("bar", "one_dial", "two_dials", "master", "set_over", "attachment", "collars", "graduations")
TAPERS = (
    ("Morse", "1"),
    ("Morse", "2"),
    ("Morse", "3"),
    ("Morse", "4"),
    ("Jarno", "6"),
    ("B", "B16"),
    ("7/24", "30"),
    ("R8", "R8"),
)
OWN = (
    ("30 mm", "25 mm", "60 mm"),
    ("1.25 in", "1 in", "4 in"),
    ("22 mm", "20 mm", "40 mm"),
    ("18 mm", "6 mm", "30 mm"),
)
DRAWER = (
    ("4.2 drill", "round", "4.2 mm", "4.187 mm"),
    ("#39 drill", "round", "#39 drill", "0.0995 in"),
    ("2.5 drill", "round", "2.5 mm", "2.489 mm"),
    ("2.2 drill", "round", "2.2 mm", "2.194 mm"),
    ("1.0 drill", "round", "1 mm", "0.992 mm"),
    ("6 thou leaf", "leaf", "6 thou", "6 thou"),
    ("leaf 0.30", "leaf", "0.3 mm", "0.302 mm"),
    ("leaf 0.05", "leaf", "0.05 mm", "0.051 mm"),
    ("2.00 block", "flat", "2 mm", "2.0001 mm"),
)


def a_job(seed: int) -> dict[str, Any]:
    """One request; the seed decides taper, form, end, way, side, support and units."""
    chance = random.Random(seed)
    entries: dict[str, str] = {"setting.way": WAYS[seed % len(WAYS)]}
    form = "internal" if chance.random() < 0.3 and entries["setting.way"] != "set_over" else "external"
    entries["taper.form"] = form
    if chance.random() < 0.7:
        entries["taper.series"], entries["taper.size"] = chance.choice(TAPERS)
    else:
        large, small, length = chance.choice(OWN)
        entries |= {
            "taper.series": "own",
            "taper.large_diameter": large,
            "taper.small_diameter": small,
            "taper.length": length,
        }
    if chance.random() < 0.4:
        entries["taper.small_end"] = chance.choice(("tailstock", "headstock"))
    if chance.random() < 0.3:
        entries["setting.cut_side"] = "far"
    if chance.random() < 0.4:
        entries["cutting.slide_travel"] = chance.choice(("45 mm", "3 in", "120 mm"))
    if form == "external" and chance.random() < 0.6:
        entries["finishing.spigot"] = chance.choice(("16 mm", "5/8 in"))
    if chance.random() < 0.5:
        entries["cutting.material"] = "mild steel"
    rows = [dict(zip(("name", "shape", "size", "measured"), row, strict=True)) for row in DRAWER]
    units = chance.choice(("mm", "inch"))
    return {"format": 1, "units": units, "entries": entries, "drawer": rows}


@cache
def sheet(seed: int) -> dict[str, Any]:
    """The answer to the job of this seed, worked out once."""
    answer: dict[str, Any] = work(a_job(seed))
    return answer
