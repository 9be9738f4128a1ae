"""Leave it, or change it: the chance that the taper is right either way.

The error's density is moved by what a change is meant to turn, and widened by what the change itself is known
to. Leaving it alone needs no argument but a chance as good; tapping the slide keeps all that was seen and
adds a tap's own ±; setting it up anew keeps only what is steady and lets everything else fall anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.gauging.evidence import Believed

LEAVE, CHANGE, DONE = "leave", "change", "done"
SURE = 0.95
"""Chance of being right from which there is nothing more to do."""
WORTH = 0.02
"""Chance that a change must add before the slide is touched: less is within what the chances are good to."""


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to do: its chance to be within the limits. id: "leave", "tap", "stack" or a way's own."""

    id: str
    chance: float


@dataclass(frozen=True, slots=True)
class Verdict:
    """What is best: `decision` is leave, change or done; the chance now, with the best change, with each."""

    decision: str
    now: float
    best: Option
    changes: Sequence[Option] = ()


def tapped(believed: Believed, low: float, high: float, turn: float, tap: float) -> float:
    """Chance within low to high [rad] after turning the half angle by `turn`, known to a standard `tap`
    [rad].
    """
    return believed.chance(low, high, turn, tap)


def judge(believed: Believed, low: float, high: float, changes: Sequence[Option]) -> Verdict:
    """What to do, the limits of the error being from low to high [rad]."""
    now = believed.chance(low, high)
    best = max(changes, key=lambda option: option.chance, default=Option(LEAVE, now))
    if now >= SURE:
        return Verdict(DONE, now, best, changes)
    return Verdict(CHANGE if best.chance > now + WORTH else LEAVE, now, best, changes)
