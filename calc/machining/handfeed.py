"""Feeding the slide by hand: how fast to turn its handle, the count to keep, and the time it takes.

    turns of the handle a minute = feed x turns of the work a minute / travel a turn of the handle
    time [min] = path / (feed x turns of the work a minute)

Source: F. D. Jones, Turning and Boring (about 1914), cutting speeds and feeds.
"""

from __future__ import annotations

from dataclasses import dataclass

BRISK = 60.0
"""Turns of the handle a minute above which a hand does not keep an even pace (common practice, no source)."""
LONGEST_COUNT = 4.0
"""Seconds between two marks above which one loses the count (common practice, no source)."""
SHARES = ((1, "one turn"), (2, "half a turn"), (4, "a quarter turn"), (10, "a tenth of a turn"))


@dataclass(frozen=True, slots=True)
class Count:
    """A count to keep: so much of a turn of the handle (in words, and as a share) every `seconds` [s]."""

    words: str
    share: int
    seconds: float


def handle_rate(feed: float, turns: float, lead: float) -> float:
    """Turns of the handle a minute [1/min].

    feed: wanted travel a turn of the work [mm]; turns of the work [1/min]; lead: travel a turn of the handle
    [mm], above 0.
    """
    return feed * turns / lead


def count_to_keep(rate: float) -> Count | None:
    """The largest share of a turn that comes round within LONGEST_COUNT, at `rate` [1/min] above 0.

    None above BRISK: there is no count that a hand could keep.
    """
    if rate > BRISK:
        return None
    counts = [Count(words, share, 60.0 / (rate * share)) for share, words in SHARES]
    return next((each for each in counts if each.seconds <= LONGEST_COUNT), counts[-1])


def minutes(path: float, feed: float, turns: float) -> float:
    """Time under feed [min] for a path [mm] at a feed [mm a turn] and turns of the work a minute [1/min]."""
    return path / (feed * turns)
