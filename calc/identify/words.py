"""The answer in plain shop words, in both unit systems."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.doubt.percent import percent
from calc.identify.differences import NOT_TOLD, compare, needs, same_cone
from calc.identify.evidence import Evidence
from calc.identify.hypotheses import Known
from calc.identify.next_measurement import Next
from calc.quantities import shown_length

Both = Mapping[str, str]
_STANDARDS = {
    "Morse": ("Morse", "metric"),
    "Morse inch": ("Morse", "inch"),
    "7/24": ("7/24", "metric"),
    "7/24 inch": ("7/24", "inch"),
}
_PAIRS_SAID = 3
_CLEAR = 0.9
_NAMED = 3
_SERIES_SAID = 6
_WORTH_SAYING = 0.05
_HARDLY = 0.01
_HALF = 0.5
_SYSTEMS = ("mm", "inch")
_ENDS_SHOWN = 0.01
"""Differences of ends [mm] are said to a hundredth."""
_ALMOST_NOTHING = 0.0005
"""Below this difference [mm] two cones are said to be the same without a figure."""


def full_name(each: Known) -> str:
    """Its name; with the standard where the name alone is shared by two."""
    base, standard = _STANDARDS.get(each.taper.series, ("", ""))
    return f"{base} {each.taper.size} ({standard})" if base else each.name


@dataclass(frozen=True, slots=True)
class Ranking:
    """What there is to be said: the leaders with their probabilities, the first of them, and the rest.

    surely: the probability of the first together with its twins. by_series: that of every series in all.
    """

    evidence: Evidence
    leaders: Sequence[tuple[Known, float]]
    none: float
    surely: float
    nearest: Known | None
    following: Next | None
    by_series: Mapping[str, float]

    @property
    def only_rate(self) -> bool:
        """True where nothing was measured that tells the size."""
        told = self.evidence
        return told.diameters is None and told.end_diameter is None and told.stand_off is None


def said(verdict: Ranking) -> tuple[Both, ...]:
    """Sentences in the order of reading; the first alone answers the question."""
    sentences = [_answer(verdict)]
    leaders, following = verdict.leaders, verdict.following
    sizes_open = verdict.only_rate and verdict.surely < _CLEAR
    if leaders and leaders[0][1] > verdict.none and not sizes_open:
        sentences += [
            _about(each, verdict.evidence)
            for each, _ in leaders[1:_NAMED]
            if not same_cone(leaders[0][0], each)
        ]
        sentences += _twins(leaders)
    if following is not None:
        sentences.append(
            {system: f"To be surer, measure next: {following.words[system]}." for system in _SYSTEMS}
        )
    return tuple(sentences)


def _answer(verdict: Ranking) -> Both:
    evidence, leaders, none, surely = verdict.evidence, verdict.leaders, verdict.none, verdict.surely
    if not leaders or none > leaders[0][1] and not (verdict.only_rate and none < _HALF):
        sure = percent(none)
        text = f"None of these fits ({sure})." if none >= _CLEAR else f"Perhaps none of these ({sure})."
        near = verdict.nearest or (leaders[0][0] if leaders else None)
        if near is None:
            return _alike(text)
        wanting = needs(near, evidence)
        return {system: f"{text} The nearest is {full_name(near)}: {wanting[system]}." for system in _SYSTEMS}
    first, share = leaders[0]
    wanting = needs(first, evidence)
    twins = [each for each, _ in leaders if same_cone(first, each)]
    if share >= _CLEAR:
        start = f"This is {full_name(first)} ({percent(share)})"
    elif surely >= _CLEAR:
        start = f"This is {_listed(twins, 'or')}, which are the same cone ({percent(surely)} between them)"
    elif verdict.only_rate:
        return _alike(f"The taper alone does not give the size. It fits {_by_series(verdict.by_series)}.")
    else:
        rest = [f"{full_name(each)} ({percent(part)})" for each, part in leaders[1:_NAMED]]
        rest += [f"none of these ({percent(none)})"] if none >= _WORTH_SAYING else []
        start = f"Most likely {full_name(first)} ({percent(share)})"
        start += f"; then {', '.join(rest)}" if rest else ""
    join = ": " if share >= _CLEAR else f". {full_name(first)}: "
    return {system: f"{start}{join}{wanting[system]}." for system in _SYSTEMS}


def _by_series(shares: Mapping[str, float]) -> str:
    """The series, the most probable first, those hardly possible left out."""
    ordered = sorted(
        (series for series in shares if shares[series] >= _HARDLY), key=lambda each: -shares[each]
    )
    return ", ".join(f"{series} ({percent(shares[series])})" for series in ordered[:_SERIES_SAID])


def _about(each: Known, evidence: Evidence) -> Both:
    wanting = needs(each, evidence)
    return {system: f"{full_name(each)}: {wanting[system]}." for system in _SYSTEMS}


def _twins(leaders: Sequence[tuple[Known, float]]) -> list[Both]:
    """The first against those after it that no measurement of the taper tells from it."""
    first = leaders[0][0]
    same = [each for each, _ in leaders[1:] if same_cone(first, each)]
    sentences = [_same(first, same)] if same else []
    for other, _ in leaders[1 : 1 + _PAIRS_SAID]:
        twins = compare(first, other)
        if other in same or twins is None or twins.on_diameter >= NOT_TOLD:
            continue
        within = _within(twins.on_diameter)
        ends = shown_length(abs(twins.at_large_end), _ENDS_SHOWN)
        larger = "larger" if twins.at_large_end > 0 else "smaller"
        text = (
            f"Where both have the same diameters, {full_name(first)} and {full_name(other)} differ by no more"
            f" than {{}}: only their ends tell them apart. {full_name(other)} is {{}} {larger} at its large"
            " end."
        )
        sentences.append({system: text.format(within[system], ends[system]) for system in _SYSTEMS})
    return sentences


def _same(first: Known, same: Sequence[Known]) -> Both:
    """One sentence for all that are the same cone as the first."""
    apart = max(twins.on_diameter for each in same if (twins := compare(first, each)) is not None)
    within = _within(apart)
    names = _listed([first, *same], "and")
    text = f"{names} describe the same cone within {{}}: no measurement in a shop tells them apart"
    lengths = [each.length for each in (first, *same) if each.length is not None and each.printed_length]
    if lengths and max(lengths) - min(lengths) > 2.0 * first.ends:
        text += ", but by how long they are"
    return {system: text.format(within[system]) + "." for system in _SYSTEMS}


def _within(length: float) -> Both:
    return shown_length(max(length, _ALMOST_NOTHING), _ALMOST_NOTHING)


def _listed(all_of_them: Sequence[Known], between: str) -> str:
    names = [full_name(each) for each in all_of_them]
    return f"{', '.join(names[:-1])} {between} {names[-1]}" if len(names) > 1 else names[0]


def _alike(text: str) -> Both:
    return {system: text for system in _SYSTEMS}
