"""Turns a minute for a surface speed, and the lathe's own list of speeds.

    n = 1000 v / (pi d)      n [1/min], v [m/min], d [mm]

On a taper d is its largest diameter. Source: F. D. Jones, Turning and Boring (about 1914), cutting speeds.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, pi

from calc.quantities import Unreadable

SLOWEST, FASTEST = 1, 20000
"""Turns a minute [1/min] outside which no lathe's speed lies."""
MOST_SPEEDS = 60
LONGEST = 1000
COUNT_TEXT = "70, 125, 200"
_ROUND_OFF = 1e-9


def turns_a_minute(surface_speed: float, diameter: float) -> float:
    """Turns a minute [1/min] for a surface speed [m/min] on `diameter` [mm], above 0."""
    return 1000.0 * surface_speed / (pi * diameter)


def surface_speed(turns: float, diameter: float) -> float:
    """Surface speed [m/min] at `turns` a minute [1/min] on `diameter` [mm]."""
    return pi * diameter * turns / 1000.0


@dataclass(frozen=True, slots=True)
class SpeedList:
    """The speeds a lathe has [1/min]: spans from lowest to highest; a single speed is a span of one."""

    spans: tuple[tuple[int, int], ...]

    @property
    def slowest(self) -> int:
        """The slowest of all [1/min]."""
        return self.spans[0][0]

    def at_or_below(self, turns: float) -> int | None:
        """The nearest speed at or below `turns` [1/min]; None where all are above."""
        most = floor(turns + _ROUND_OFF)
        below = [min(high, most) for low, high in self.spans if low <= most]
        return max(below) if below else None

    def text(self) -> str:
        """The list as it would be typed."""
        return ", ".join(str(low) if low == high else f"{low}-{high}" for low, high in self.spans)


def read_speeds(text: str) -> SpeedList:
    """Reads whole numbers with commas, semicolons or blanks between, and "50-2000" for speed without steps.

    Raises Unreadable with the place and a way out for anything else.
    """
    if len(text) > LONGEST:
        raise Unreadable(text, LONGEST, len(text), "this list is too long", "Type the speeds alone.")
    spans: list[tuple[int, int]] = []
    for start, part in _parts(text):
        end = start + len(part)
        numbers = part.split("-")
        if len(numbers) > 2 or not all(number.isdecimal() and number.isascii() for number in numbers):
            raise Unreadable(
                text,
                start,
                end,
                f"“{part[:40]}” is not a speed",
                "Type whole r/min (rpm) with commas between, or from-to for a lathe without steps.",
                (COUNT_TEXT, "50-2000"),
            )
        low, high = (int(numbers[0][:9]), int(numbers[-1][:9]))
        if not SLOWEST <= low <= high <= FASTEST:
            raise Unreadable(
                text,
                start,
                end,
                f"“{part[:40]}” is out of range or runs backwards",
                f"A speed lies between {SLOWEST} and {FASTEST} r/min (rpm), the lower one first.",
                (COUNT_TEXT,),
            )
        spans.append((low, high))
    if not spans:
        raise Unreadable(text, 0, len(text), "there is no speed here", "Type one at least.", (COUNT_TEXT,))
    if len(spans) > MOST_SPEEDS:
        message, way_out = f"{len(spans)} speeds are too many", f"Type at most {MOST_SPEEDS}."
        raise Unreadable(text, 0, len(text), message, way_out, (COUNT_TEXT,))
    return SpeedList(tuple(sorted(set(spans))))


def _parts(text: str) -> list[tuple[int, str]]:
    """The parts between separators, each with its place; a dash holds its two numbers together."""
    plain = "".join({"–": "-", "—": "-", "−": "-"}.get(each, each) for each in text)
    parts: list[tuple[int, str]] = []
    place = 0
    while place < len(plain):
        if plain[place] in ",;" or plain[place].isspace():
            place += 1
            continue
        end = place
        while end < len(plain) and plain[end] not in ",;" and not plain[end].isspace():
            end += 1
        parts.append((place, plain[place:end]))
        place = end
    return parts
