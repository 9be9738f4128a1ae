"""What fit is wanted, from how a shop says it: a pair of zones, a word, or so much under or over.

A pair ("H7/g6", "g6") is ISO 286. A word ("sliding") is told as the pair it resembles: common practice. So
much under or over ("2 thou under", "0.02 to 0.05 mm under") is a size in its own right, told which usual pair
in an H7 hole its middle comes nearest to.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc.machining.fits import NotListed, Zone, split, zone
from calc.quantities import Unreadable, read_length

WORDS: tuple[tuple[str, str, str], ...] = (
    ("running", "H8/f7", "turns freely with oil"),
    ("sliding", "H7/g6", "slides by hand without shake"),
    ("close", "H7/h6", "goes on by hand, oiled, with no shake that can be felt"),
    ("push", "H7/k6", "goes on with a light tap"),
    ("tight", "H7/n6", "goes on with an arbor press, lightly"),
    ("press", "H7/p6", "stays put; goes on with a press"),
    ("drive", "H7/s6", "is meant to stay for good: press hard or warm the outside"),
)
"""Shop word, the pair it resembles, what it feels like: common practice, no source."""

SAID_ALSO = {
    "free": "running",
    "slide": "sliding",
    "slip": "sliding",
    "locating": "close",
    "size to size": "close",
    "tap": "push",
    "keying": "push",
    "force": "drive",
    "shrink": "drive",
}
GIVE_INCH, GIVE_MM = 0.0005 * 25.4, 0.01
"""Half-width [mm] of the limits about one amount in thou or inches, or in mm: common practice, no source."""
OFFERS = ("H7/g6", "sliding", "push", "press", "2 thou under", "0.02 mm under")
USUAL_SHAFTS = ("e8", "f7", "g6", "h6", "k6", "n6", "p6", "s6")
HOLE = "H7"


class UnclearFit(ValueError):
    """A fit that cannot be told; message and way out are for a person."""

    def __init__(self, message: str, way_out: str, offers: tuple[str, ...] = OFFERS) -> None:
        super().__init__(message)
        self.message = message
        self.way_out = way_out
        self.offers = offers


@dataclass(frozen=True, slots=True)
class Fit:
    """A wanted fit for one nominal size.

    text: as it reads back. lower, upper: deviations of the spigot from the nominal size [µm].
    hole, shaft: the zones of the pair; where it is so much under or over, H7 and the nearest usual shaft.
    exact: True for a pair, False where the pair only resembles. feel: what it is like in the hand, or empty.
    """

    text: str
    lower: float
    upper: float
    hole: Zone
    shaft: Zone
    exact: bool
    feel: str = ""

    def limits(self, nominal: float) -> tuple[float, float]:
        """Least and largest spigot [mm]."""
        return nominal + self.lower / 1000.0, nominal + self.upper / 1000.0

    def clearance(self) -> tuple[float, float]:
        """Least and largest clearance in the hole [µm]; below zero is interference."""
        return self.hole.lower - self.upper, self.hole.upper - self.lower


def read_fit(text: str, nominal: float, unit: str) -> Fit:
    """The fit meant by `text` for a nominal size [mm]; `unit` ("mm" or "in") is what a bare number means.

    Raises UnclearFit.
    """
    plain = " ".join(text.split())
    low = plain.casefold()
    if low.endswith((" under", " over", " undersize", " oversize")):
        return _so_much(low, nominal, unit)
    word = _word(low)
    try:
        if word is not None:
            name, pair, feel = word
            return _pair(pair, nominal, name, feel)
        return _pair(plain, nominal, "", "")
    except NotListed as error:
        raise UnclearFit(error.message, error.way_out) from error


def _word(low: str) -> tuple[str, str, str] | None:
    key = low.removesuffix(" fit").removeprefix("a ").strip()
    key = SAID_ALSO.get(key, key)
    return next((each for each in WORDS if each[0] == key), None)


def _pair(text: str, nominal: float, name: str, feel: str) -> Fit:
    """A pair of zones in either order, or a shaft alone, which then goes with H7."""
    parts = [part.strip() for part in text.replace("/", " ").split()]
    if not 1 <= len(parts) <= 2 or not all(part[-1].isdigit() and part[0].isalpha() for part in parts):
        raise UnclearFit(
            f"“{text[:40]}” is not a fit that is known here",
            "Give a pair such as H7/g6, a word such as sliding or press, or so much under or over.",
        )
    letters = [split(part)[0] for part in parts]
    holes = [part for part, each in zip(parts, letters, strict=True) if each.isupper()]
    shafts = [part for part, each in zip(parts, letters, strict=True) if each.islower()]
    if not shafts:
        raise UnclearFit(
            f"“{text[:40]}” is a hole; the spigot wants a shaft's letter, a small one",
            f"Say what goes into it, for example {holes[0]}/h6.",
            (f"{holes[0]}/h6", f"{holes[0]}/g6"),
        )
    if len(shafts) == 2:
        raise UnclearFit(f"“{text[:40]}” holds two shafts", "A fit pairs a hole with a shaft, such as H7/g6.")
    hole = zone(holes[0] if holes else HOLE, nominal)
    shaft = zone(shafts[0], nominal)
    feel = feel or next((each[2] for each in WORDS if each[1] == f"{hole.name}/{shaft.name}"), "")
    shown = name or f"{hole.name}/{shaft.name}"
    return Fit(shown, shaft.lower, shaft.upper, hole, shaft, not name, feel)


def _so_much(low: str, nominal: float, unit: str) -> Fit:
    """An amount or a range of amounts under or over the nominal size."""
    amounts, _, way = low.rpartition(" ")
    sign = -1.0 if way.startswith("under") else 1.0
    parts = amounts.split(" to ")
    if len(parts) == 2 and parts[0].strip().replace(".", "").replace(",", "").isdigit():
        parts[0] += " " + parts[1].lstrip("0123456789., ")  # "1 to 2 thou": the unit is said once
    try:
        read = [read_length(part, unit) for part in parts]
    except Unreadable as error:
        raise UnclearFit(error.message, error.way_out or "For example 2 thou under.") from error
    least, most = min(each.value for each in read), max(each.value for each in read)
    if least < 0.0 or most > nominal / 10.0:
        raise UnclearFit(
            f"{read[-1].understood} is too much for a fit" if least >= 0.0 else "An amount below 0",
            "Give an amount above 0 and below one tenth of the size.",
        )
    words = " to ".join(each.understood for each in read) + (" under" if sign < 0 else " over")
    if len(read) == 1:
        give = GIVE_INCH if read[0].understood.endswith(("in", "thou", "tenths")) else GIVE_MM
        least, most = least - give, most + give
    ends = sorted((sign * least * 1000.0, sign * most * 1000.0))
    try:
        hole, shafts = zone(HOLE, nominal), [zone(name, nominal) for name in USUAL_SHAFTS]
    except NotListed as error:
        raise UnclearFit(error.message, error.way_out) from error
    middle = sum(ends) / 2.0
    nearest = min(shafts, key=lambda each: abs((each.upper + each.lower) / 2.0 - middle))
    return Fit(words, ends[0], ends[1], hole, nearest, False)
