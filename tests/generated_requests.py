"""Requests made by a seeded generator: what a person might send, and what only a broken link or a bug would.

The entry ids and choices are asked from the core itself (an empty request answers with its fields), so a new
stage is covered without a change here. `python generated_requests.py COUNT SEED` prints a JSON list of texts.
"""

from __future__ import annotations

import json
import random
import sys
from typing import Any

LENGTHS = (
    "100 mm",
    "4in",
    "4.2mm + 6thou",
    "1-3/8",
    '1 3/8"',
    "34,9",
    "1562.5 tenths",
    ".6in",
    "4.2+.152",
    "25",
    "0",
    "63.5",
    "5 in",
    "200mm",
    "17.78",
    "0.7 in",
    "12 ± 0.01 mm",
    "1e3",
    "−3",
    "3/8",
    "#7 drill",
)
ANGLES = ("1.4377", "1°26'16\"", "1d26m16s", "1° 26′ 16″", "30 deg", "0", "90", "89.999")
RATES = ("1:20", "1:19.922", "1 in 20", "0.602 in/ft", "5%", "0.05", "1:0", "7/24")
COUNTS = ("1", "2", "3", "0", "1000", "1.5")
BAD = (
    "",
    "   ",
    "4.2mm drill and",
    "1,234.5",
    "1.234,5",
    "nan",
    "inf",
    "1e999",
    "9" * 400,
    "-",
    "mm",
    "1//2",
    "1/0",
    "\u0000",
    "\U0001f529",
    "\ud800",
    "<svg onload=x>",
    "1\n2",
    "٣ mm",
    "½ in",
    "1 ½",
    "%",
    "'; --",
    "None",
)
NOT_REQUESTS = (
    "",
    "null",
    "[]",
    "7",
    '"text"',
    "{",
    "{}",
    '{"format": 2}',
    '{"format": 1, "entries": []}',
    "\ufeff{}",
    '{"format": 1, "drawer": {}}',
    '{"format": 1, "drawer": [null, 3, "x", [], {}]}',
    "[" * 3000,
    '{"format": 1, "entries": {"taper.size": {"a": [1]}}}',
    '{"format": 1, "units": 7, "history": 3}',
    '{"format": 1, "entries": {"": "1", "no.such.entry": "2"}}',
    "NaN",
    '{"format": NaN}',
    "1" * 5000,
)
SIZES = (
    "4.2mm",
    "1/8in",
    "2",
    "0.4995 in",
    "20thou",
    "0.05mm",
    "1.1",
    '3/16"',
    "6",
    "10 mm",
    "0.002in",
    "#7 drill",
)


def known_fields(work: Any) -> dict[str, dict[str, Any]]:
    """Every field that the core asks for, found by walking the choices two deep."""
    known: dict[str, dict[str, Any]] = {}
    waiting: list[dict[str, str]] = [{}]
    asked = 0
    while waiting and asked < 150:
        entries = waiting.pop(0)
        asked += 1
        answer = work({"format": 1, "units": "mm", "entries": entries, "drawer": [], "history": []})
        for stage in answer["stages"]:
            for field in stage["fields"]:
                if field["id"] in known or field["kind"] in ("pieces", "rows"):
                    continue
                known[field["id"]] = field
                if len(entries) < 2:
                    waiting += [{**entries, field["id"]: choice["value"]} for choice in field["choices"]]
    return known


def _typed(chance: random.Random, field: dict[str, Any]) -> str:
    if chance.random() < 0.12:
        return chance.choice(BAD)
    if field["choices"]:
        return str(chance.choice(field["choices"])["value"])
    if chance.random() < 0.25:
        return str(field["default"])
    kinds = {"length": LENGTHS, "angle": ANGLES, "rate": RATES, "count": COUNTS}
    return chance.choice(kinds.get(field["kind"], LENGTHS))


def _piece(chance: random.Random) -> dict[str, Any]:
    piece: dict[str, Any] = {
        "name": chance.choice(("drill", "leaf", "block", "pin <&>", "")),
        "shape": chance.choice(("round", "flat", "leaf", "leaf", "flat", "cube")),
        "size": chance.choice(SIZES if chance.random() < 0.9 else BAD),
        "measured": chance.choice(("", "", "4.187mm", "0.1251in", *BAD)),
        "give": chance.choice(("", "", "0.002mm", "1 tenth", "x")),
        "count": chance.choice((1, 1, 1, 2, "3", 0, -1, 2.5, "many", None)),
    }
    for key in chance.sample(sorted(piece), chance.choice((0, 0, 0, 1, 2))):
        del piece[key]
    return piece


SEEN = {
    "end": ("large", "small", "both", "middle", "all", "x"),
    "share": ("40 %", "0.4", "1/3", "100%", "-1"),
    "film": ("2 µm", "0.1 thou", "0.002", "0"),
    "diameter_1": LENGTHS,
    "diameter_2": LENGTHS,
    "difference": LENGTHS,
    "apart": LENGTHS,
    "over_1": LENGTHS,
    "over_2": LENGTHS,
    "height_1": LENGTHS,
    "height_2": LENGTHS,
    "roller": LENGTHS,
    "ball_1": LENGTHS,
    "ball_2": LENGTHS,
    "depth_1": LENGTHS,
    "depth_2": LENGTHS,
    "stand_off": LENGTHS,
    "run": ("0.01", "2 thou", "0", "-0.02mm"),
    "run_length": LENGTHS,
    "give": ("0.002", "0.1 thou", "", "5"),
}
WAYS_SEEN = ("contact", "two_diameters", "rollers", "balls", "stand_off", "indicator_run", "rocking", "guess")


def _seen(chance: random.Random) -> dict[str, str]:
    """A row of what was seen of the cut: mostly what its way asks, now and then what nobody would write."""
    row = {"way": chance.choice(WAYS_SEEN)}
    for key in chance.sample(sorted(SEEN), chance.randint(0, 9)):
        row[key] = chance.choice(SEEN[key] if chance.random() < 0.9 else BAD)
    return row


def generated(work: Any, count: int, seed: int) -> list[str]:
    """`count` request texts; the same seed and the same core give the same texts."""
    chance = random.Random(seed)
    fields = sorted(known_fields(work).values(), key=lambda field: str(field["id"]))
    texts = list(NOT_REQUESTS)
    while len(texts) < count:
        asked = chance.sample(fields, chance.randint(0, min(len(fields), 14)))
        request = {
            "format": 1,
            "units": chance.choice(("mm", "inch")),
            "entries": {field["id"]: _typed(chance, field) for field in asked},
            "drawer": [_piece(chance) for _ in range(chance.choice((0, 1, 2, 6, 12)))],
            "observations": [_seen(chance) for _ in range(chance.choice((0, 0, 0, 1, 2)))],
            "history": [],
        }
        texts.append(json.dumps(request, ensure_ascii=chance.random() < 0.5))
    # A lone surrogate cannot cross to the browser as text: it travels as an escape, as a link would carry it.
    return [
        text if text.isascii() else json.dumps(json.loads(text)) if "\ud800" in text else text
        for text in texts[:count]
    ]


if __name__ == "__main__":
    sys.path.insert(0, "")
    from calc.job import work as answer

    print(json.dumps(generated(answer, int(sys.argv[1]), int(sys.argv[2]))))
