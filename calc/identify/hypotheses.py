"""What each standard taper would look like on the bench: its cone, how it is made, and where it may end.

The assumptions that decide how sure an answer can be stand here, each with its source:

- **Rate as made.** Anywhere alike within ± `RATE_TOLERANCE` of the printed rate, or within half of the AT8
  zone for its length where that is wider, on the included angle. Source of the first: the rate tolerance
  0.002 in/ft of an engineering reference table of Morse shanks (one source); the table calls it one-sided,
  here it lies to both sides, since shank and socket lie opposite and an old one is worn. Over 63 to 100 mm it
  is half of AT8 nearly. Of the second: ISO 1947 (from memory but for AT4).
- **Worn or careless.** `CARELESS` of them lie within three times that. Our assumption, no source.
- **Ends.** Either end may lie elsewhere than the standard has it, independently: `LARGE_END` and `SMALL_END`
  say how many lie within which part of the length. Most small ends are turned to length; most large ends lie
  within a tenth, since Morse shanks run on beyond the gauge plane by 3 to 10 % of their length (ISO 296, from
  memory). A few lie much further out: the length has a tail. Our assumption.
- **Cut short.** `CUT_SHORT` of all are stubbed at the small end, down to `SHORTEST` of the standard length.
  Our assumption, no source.
- **Length not printed.** `USUAL_LENGTHS` times the printed diameter, up to half more or less: the end away
  from the printed diameter lies within half of that length. Our assumption.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from calc.tables import Taper
from calc.tables.at import angle_tolerance

RATE_TOLERANCE = 0.002 / 12.0
"""Half-width [plain, on diameter] within which ordinary machine tapers are made."""
CARELESS = 0.05
CARELESS_WIDTH = 3.0
ENDS = 0.1
"""Within this part of its length a taper's end lies as a rule."""
LARGE_END = ((ENDS, 0.9), (0.3, 0.1))
SMALL_END = ((0.03, 0.6), (ENDS, 0.3), (0.3, 0.1))
"""Half-widths, as parts of the length, within which an end lies anywhere alike, and how many of all do."""
CUT_SHORT = 0.2
SHORTEST = 0.3
ENDS_UNKNOWN = 0.5
USUAL_LENGTH = 1.5
USUAL_LENGTHS: Mapping[str, float] = {
    "Taper pin": 8.0,
    "Taper pin inch": 8.0,
    "Spindle nose": 0.5,
    "HSK-A": 0.5,
    "ER": 1.0,
    "R8": 0.75,
}
ANY_SIZE = ("Cone", "Bearing bore", "Centre", "5C")
"""Series met in every size, or whose size the tables do not give but whose rate is theirs alone."""
_BLUNT = 0.4
_GRADE = "AT8"
_ORDINARY_LENGTH = 80.0
_ANGLE_LENGTHS = (6.001, 630.0)
"""The lengths [mm] over which grades are given; outside them the nearest is used."""


@dataclass(frozen=True, slots=True)
class Known:
    """One standard taper as it may be met.

    rate [plain]; spread: half-width of the rate as made; large: diameter at the gauge plane [mm] or None;
    length [mm] or None where nothing says it; printed_length: whether the table gives it; ends,
    small_ends: how far the large and the small end lie from where the standard has them as a rule, either way
    [mm]. at_large, at_small: all they do, as (half-width [mm], share of all) of rectangular errors.
    """

    taper: Taper
    rate: float
    spread: float
    large: float | None
    length: float | None
    printed_length: bool
    ends: float
    small_ends: float
    at_large: Sequence[tuple[float, float]]
    at_small: Sequence[tuple[float, float]]

    @property
    def name(self) -> str:
        """As a shop says it."""
        return self.taper.name

    @property
    def size_missing(self) -> bool:
        """True where it has a size of its own that the tables do not give: no diameter can be told."""
        return self.large is None and self.taper.series not in ANY_SIZE

    @property
    def reach(self) -> tuple[float, float] | None:
        """The largest and the smallest diameter it can have at its ends [mm]; None where it has no size."""
        if self.large is None or self.length is None:
            return None
        return self.large + self.rate * self.ends, self.large - self.rate * (self.length + self.small_ends)


def known(taper: Taper) -> Known:
    """The hypothesis that the part is this taper."""
    data = taper.data
    rate = data["rate"].value
    length = data["length"].value if "length" in data else None
    printed = length is not None
    large = data["large_diameter"].value if "large_diameter" in data else None
    small = data["small_diameter"].value if "small_diameter" in data else None
    fixed = large if large is not None else small
    if length is None and fixed is not None:
        length = USUAL_LENGTHS.get(taper.series, USUAL_LENGTH) * fixed
        # A steep one ends well before it comes to a point.
        length = min(length, _BLUNT * fixed / rate)
    if large is None and small is not None and length is not None:
        large = small + rate * length
    whole = length or 0.0
    far = ENDS if printed else ENDS_UNKNOWN
    by_large = "large_diameter" in data
    ends, small_ends = (ENDS, far) if by_large else (far, ENDS)
    unknown = ((far, 1.0),)
    at_large = LARGE_END if printed or by_large else unknown
    at_small = SMALL_END if printed or not by_large else unknown
    return Known(
        taper,
        rate,
        spread_as_made(rate, length),
        large,
        length,
        printed,
        ends * whole,
        small_ends * whole,
        [(half * whole, share) for half, share in at_large],
        [(half * whole, share) for half, share in at_small],
    )


def spread_as_made(rate: float, length: float | None) -> float:
    """Half-width of the rate as made [plain] for a cone of this length [mm], see the head of this file.

    A given ± of the included angle changes the rate 2 tan(angle / 2) by (1 + rate² / 4) as much.
    """
    return max(RATE_TOLERANCE, _half_zone(length or _ORDINARY_LENGTH)) * (1.0 + rate * rate / 4.0)


@cache
def _half_zone(length: float) -> float:
    lowest, highest = _ANGLE_LENGTHS
    found = angle_tolerance(_GRADE, min(max(length, lowest), highest))
    return found.angle / 2.0 if found else 0.0


def priors(hypotheses: Sequence[Known], none_of_these: float) -> list[float]:
    """Before anything is measured: every series alike, every size of a series alike; together the rest."""
    counts: dict[str, int] = {}
    for each in hypotheses:
        counts[each.taper.series] = counts.get(each.taper.series, 0) + 1
    share = (1.0 - none_of_these) / len(counts) if counts else 0.0
    return [share / counts[each.taper.series] for each in hypotheses]
