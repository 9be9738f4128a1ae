"""Which taper is this? By Bayes: every standard taper, and "none of these", given what was measured.

Prior, before anything is measured: `NONE` for "none of these"; the rest shared alike by all series, and
within a series alike by all its sizes. We have no count of what lies about in shops, so nothing better can be
stated.
The likelihoods are those of `likelihood.py`, with the assumptions of `hypotheses.py`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.identify.differences import misfit, needs, same_cone
from calc.identify.evidence import Evidence, rate_seen
from calc.identify.hypotheses import Known, known, priors
from calc.identify.likelihood import likelihood, likelihood_of_none
from calc.identify.next_measurement import Next, best_next
from calc.identify.words import Ranking, full_name, said
from calc.tables import Taper

NONE = 0.1
"""The prior of "none of these": one old taper in ten. Our assumption, no source."""
WORTH_NAMING = 0.005
MOST_NAMED = 12
ENOUGH = 0.5
"""From this probability on the rest of the job may go on with one taper (and what is the same cone)."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A standard taper, its full name, its probability (0 to 1), and what it would need to fit, in words."""

    taper: Taper
    name: str
    probability: float
    needs: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Identification:
    """The answer.

    candidates: most probable first; where none fits, the nearest, with probability 0.
    none_of_these: probability that the part is no standard taper of the tables.
    leader: with what the rest of the job may go on, None where nothing is sure enough.
    surely: the probability of the first candidate and of whatever is the same cone under another name.
    next_measurement: the one that would best tell them apart, None where none would help.
    words: the answer in plain words, in both unit systems.
    """

    candidates: tuple[Candidate, ...]
    none_of_these: float
    leader: Taper | None
    surely: float
    next_measurement: Next | None
    words: tuple[Mapping[str, str], ...]


def identify(evidence: Evidence, tapers: Sequence[Taper]) -> Identification:
    """Rank `tapers` and "none of these" by what was measured; their probabilities add up to 1.

    Raises ValueError where no taper is offered.
    """
    if not tapers:
        raise ValueError("there is no taper to compare with")
    hypotheses = [known(taper) for taper in tapers]
    seen = rate_seen(evidence)
    weights = [
        prior * likelihood(each, evidence, seen)
        for prior, each in zip(priors(hypotheses, NONE), hypotheses, strict=True)
    ]
    nothing = NONE * likelihood_of_none(evidence, seen)
    whole = sum(weights) + nothing
    ranked = sorted(
        ((weight / whole, index) for index, weight in enumerate(weights) if weight > 0.0),
        key=lambda item: (-item[0], item[1]),
    )
    leaders = [(hypotheses[index], share) for share, index in ranked[:MOST_NAMED] if share >= WORTH_NAMING]
    none = nothing / whole
    surely = _surely(hypotheses, ranked)
    leader = leaders[0][0].taper if leaders and surely >= ENOUGH else None
    following = best_next(evidence, seen, leaders, none)
    by_series: dict[str, float] = {}
    for share, index in ranked:
        series = hypotheses[index].taper.series
        by_series[series] = by_series.get(series, 0.0) + share
    nearest = _nearest(evidence, hypotheses) if none >= ENOUGH or not leaders else None
    listed = leaders or ([(nearest, 0.0)] if nearest else [])
    return Identification(
        tuple(Candidate(each.taper, full_name(each), share, needs(each, evidence)) for each, share in listed),
        none,
        leader,
        surely,
        following,
        said(Ranking(evidence, leaders, none, surely, nearest, following, by_series)),
    )


def _surely(hypotheses: Sequence[Known], ranked: Sequence[tuple[float, int]]) -> float:
    """The probability of the first together with all that are the same cone as it."""
    if not ranked:
        return 0.0
    first = hypotheses[ranked[0][1]]
    return sum(share for share, index in ranked if same_cone(first, hypotheses[index]))


def _nearest(evidence: Evidence, hypotheses: Sequence[Known]) -> Known:
    """The one that misses by least."""
    sized = [each for each in hypotheses if not each.size_missing]
    return min(sized or hypotheses, key=lambda each: misfit(each, evidence))
