"""What the lathe has taught: what is known of the steady doubts, from proved cuts.

A steady doubt (a bar's centres, a slide's side, a piece's size) is the same at every set-up. Each proved cut
is a measurement of their sum as they enter that cut,

    seen − expected = Σ part × z + noise,

z being each doubt in its own standard uncertainties, and the noise what is new each time. So the belief in
all z together is kept as a mean and a root of their covariances, z = mean + root · w with w independent of
each other, and each cut is taken in by the square-root form of the Kalman filter, which never loses a
covariance to rounding.

Source: J. E. Potter's square-root measurement update, as given in textbooks on Kalman filtering (from
memory); it is checked against the direct solution."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from calc.estimate import Estimate


@dataclass(frozen=True, slots=True)
class Lesson:
    """One proved cut: what was seen less what was expected [rad], and what it is made of.

    parts: by steady doubt, its signed standard contribution [rad]. noise: standard uncertainty of all that is
    new each time, the reading's own included [rad].
    """

    value: float
    parts: Mapping[str, float]
    noise: float


@dataclass(slots=True)
class Belief:
    """What is known of the steady doubts `keys`, in their standard uncertainties: mean and root."""

    keys: list[str] = field(default_factory=list)
    mean: list[float] = field(default_factory=list)
    root: list[list[float]] = field(default_factory=list)
    count: int = 0

    def learn(self, lesson: Lesson) -> None:
        """Take in one proved cut. The order of lessons does not matter."""
        for key in lesson.parts:
            if key not in self.keys:
                self.keys.append(key)
                self.mean.append(0.0)
                for row in self.root:
                    row.append(0.0)
                self.root.append([0.0] * len(self.mean))
                self.root[-1][-1] = 1.0
        self.count += 1
        places = [(k, lesson.parts[key]) for k, key in enumerate(self.keys) if lesson.parts.get(key)]
        root = self.root
        along = [0.0] * len(self.keys)
        for k, part in places:
            along = [at + part * each for at, each in zip(along, root[k], strict=True)]
        noise = max(lesson.noise, 1e-9) ** 2
        total = sum([each * each for each in along]) + noise
        surprise = lesson.value - sum([part * self.mean[k] for k, part in places])
        shorter = 1.0 / (1.0 + math.sqrt(noise / total))
        for k, row in enumerate(root):
            gain = sum([each * at for each, at in zip(row, along, strict=True)]) / total
            if gain:
                self.mean[k] += gain * surprise
                scaled = gain * shorter
                root[k] = [each - scaled * at for each, at in zip(row, along, strict=True)]

    def with_more(self, lessons: Sequence[Lesson]) -> Belief:
        """The same with these cuts taken in as well; this one stays as it is."""
        more = Belief(list(self.keys), list(self.mean), [list(row) for row in self.root], self.count)
        for lesson in lessons:
            more.learn(lesson)
        return more

    def steady(self, parts: Mapping[str, float]) -> Estimate:
        """The sum of these steady doubts [rad] as it is believed to be; `parts` hold their contributions."""
        value = math.fsum(
            part * self.mean[k] for k, key in enumerate(self.keys) if (part := parts.get(key, 0.0))
        )
        return Estimate(value, self._spread(parts))

    def taken_in(self, estimate: Estimate) -> Estimate:
        """An estimate [rad] with what is known of its steady doubts put in; the others stay as they are."""
        steady = self.steady(estimate.parts)
        others = {key: part for key, part in estimate.parts.items() if key not in self.keys}
        return Estimate(estimate.value + steady.value, {**others, **steady.parts})

    def known_by(self, estimate: Estimate, name: Callable[[str], str]) -> Estimate:
        """The same under today's keys alone: each steady part is scaled alike, so that their sum is right.

        name: what a key is called here; two pieces of the same name are one piece.
        """
        parts: dict[str, float] = {}
        for key, part in estimate.parts.items():
            if name(key) in self.keys:
                parts[name(key)] = parts.get(name(key), 0.0) + part
        before = math.hypot(*parts.values())
        if not before:
            return estimate
        steady = self.steady(parts)
        scale = steady.standard / before
        scaled = {key: part * scale if name(key) in parts else part for key, part in estimate.parts.items()}
        return Estimate(estimate.value + steady.value, scaled, estimate.shapes)

    def _spread(self, parts: Mapping[str, float]) -> dict[str, float]:
        places = [(k, parts[key]) for k, key in enumerate(self.keys) if parts.get(key)]
        return {
            key: math.fsum(part * self.root[k][j] for k, part in places) for j, key in enumerate(self.keys)
        }


def believe(lessons: Sequence[Lesson]) -> Belief:
    """What these cuts together teach."""
    belief = Belief()
    for lesson in lessons:
        belief.learn(lesson)
    return belief
