"""How many cuts it takes to a taper, how deep each, and how far along the work each one reaches.

Measured on radius. From a parallel start the slide, set to the taper, meets the metal first where most of it
is to go: at the small end outside, at the mouth in a bore. A cut that still has `left` to go everywhere runs
from there for (most - left) / tan(half angle) along the axis, until it has the whole length. From a start
that is tapered already every cut runs the whole length.

Geometry of two straight lines; no table is behind it. How deep to cut is the shop's choice.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, cos, floor, tan

_ROUND_OFF = 1e-9
ENOUGH_TO_PROVE = 0.5
"""Share of the taper's length from which a proof says something: common practice, no source."""
LAST_SHARE = 0.75
"""A last finishing cut at least so much of the others counts as alike: common practice, no source."""
MOST_CUTS = 2000
"""More cuts than this are not listed: the depth told is not for this job."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut [mm]: how deep it is, what is then left, both on radius; how far it reaches along the axis."""

    finishing: bool
    depth: float
    left: float
    reach: float


class TooManyCuts(ValueError):
    """The depth of a cut is so small that it would take more than MOST_CUTS."""


def plan_cuts(
    most: float,
    half_angle: float,
    length: float,
    rough: float,
    finish: float,
    finishing_cuts: int,
    parallel: bool,
    keep: float = 0.0,
    step: float = 0.0,
) -> tuple[Cut, ...]:
    """The cuts in order.

    most: the most to come off [mm on radius], where it is deepest. half_angle [rad], length along the axis
    [mm].
    rough, finish: depth of such a cut [mm on radius], above 0; no cut is deeper. The last roughing cut takes
    what the full ones leave; where that is less than a finishing cut, roughing cuts share alike.
    finishing_cuts: how many fine ones come last. parallel: the start is parallel, else tapered already. keep:
    what roughing must leave for proving [mm on radius]. step: what a collar is read to [mm on radius];
    roughing then ends on a whole one, and what is odd stays for the last cut, which goes by what is measured.
    0 for none.

    Nothing to come off gives no cuts. Raises TooManyCuts.
    """
    if most <= _ROUND_OFF:
        return ()
    allowance = min(most, max(finish * finishing_cuts, keep))
    if step > 0.0 and most - allowance > _ROUND_OFF:
        allowance = _left_at_a_whole(step, most, allowance, max(keep, LAST_SHARE * finish))
    last = _finish(allowance, finish) if step > 0.0 else _shares(allowance, finish)
    depths, fine = [*_rough(most - allowance, rough, finish, step), *last], len(last)
    cuts: list[Cut] = []
    left = most
    for index, depth in enumerate(depths):
        left = max(0.0, left - depth) if index < len(depths) - 1 else 0.0
        reach = _reach(most - left, half_angle, length) if parallel else length
        cuts.append(Cut(index >= len(depths) - fine, depth, left, reach))
    return tuple(cuts)


def proved_after(cuts: tuple[Cut, ...], keep: float) -> int | None:
    """After how many cuts to prove: the last at which `keep` [mm on radius] is still on, along the whole
    taper.

    Where only the last cuts run the whole length, as in a bore that begins at its small diameter: the last
    that leaves so much and runs at least half of it. None where there is none.
    """
    longest = max((cut.reach for cut in cuts), default=0.0)
    leave = [(count, cut) for count, cut in enumerate(cuts, 1) if cut.left >= keep - _ROUND_OFF]
    whole = [count for count, cut in leave if cut.reach >= longest]
    most = [count for count, cut in leave if cut.reach >= ENOUGH_TO_PROVE * longest]
    fit = whole or most
    return fit[-1] if fit else None


def _shares(depth: float, most: float) -> list[float]:
    """`depth` in as few equal shares as none is above `most`."""
    if depth <= _ROUND_OFF:
        return []
    count = ceil(depth / most - _ROUND_OFF)
    if count > MOST_CUTS:
        raise TooManyCuts
    return [depth / count] * count


def _rough(depth: float, most: float, least: float, step: float = 0.0) -> list[float]:
    """`depth` in full cuts of `most` and what is left, or in equal ones where that is below `least`.

    With a `step` equal ones are whole steps too, all but the last, where that leaves the last enough.
    """
    shares = _shares(depth, most)
    if not shares:
        return []
    rest = depth - most * (len(shares) - 1)
    if rest >= least:
        return [*[most] * (len(shares) - 1), rest]
    if step > 0.0:
        each = ceil(shares[0] / step - _ROUND_OFF) * step
        rest = depth - each * (len(shares) - 1)
        if each <= most and rest >= min(least, shares[0]):
            return [*[each] * (len(shares) - 1), rest]
    return shares


def _left_at_a_whole(step: float, most: float, allowance: float, least: float) -> float:
    """What is left of `most` once the depth roughed is a whole number of steps: a little under `allowance`,
    where that is still `least`, else a little over."""
    depth = most - allowance
    deeper = ceil(depth / step - _ROUND_OFF) * step
    if most - deeper >= least - _ROUND_OFF:
        return most - deeper
    return most - floor(depth / step + _ROUND_OFF) * step


def _finish(depth: float, most: float) -> list[float]:
    """`depth` in full cuts of `most`, the last with what is left; in equal ones where that is far less."""
    shares = _shares(depth, most)
    rest = depth - most * (len(shares) - 1)
    return [*[most] * (len(shares) - 1), rest] if shares and rest >= LAST_SHARE * most else shares


def _reach(removed: float, half_angle: float, length: float) -> float:
    """How far along the axis [mm] a cut runs that is `removed` [mm on radius] below the parallel start."""
    slope = tan(half_angle)
    return length if slope * length <= removed else removed / slope


def path(cuts: tuple[Cut, ...], half_angle: float, beyond: float) -> float:
    """How far the tool travels under feed along the flank in all cuts [mm], with `beyond` [mm] at each."""
    return sum(cut.reach / cos(half_angle) + beyond for cut in cuts)
