"""Of the cases that are given 70 %, 70 % are right: the probabilities mean what they say."""

from __future__ import annotations

import os
import random
from collections.abc import Callable

import pytest

from calc.identify.evidence import Evidence
from calc.identify.identify import identify
from calc.tables import all_tapers
from identify.shop import (
    Part,
    draw,
    end_and_length,
    rate_alone,
    stands_off,
    two_diameters,
    with_its_length,
)

EDGES = (0.0, 0.01, 0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95, 0.99, 1.0)


def calibrate(
    cases: int, seed: int, measure: Callable[[random.Random, Part], Evidence | None], rate_only: bool = False
) -> tuple[list[list[float]], list[list[float]]]:
    """Bins of [count, sum of stated probabilities, times right]: of the first answer and of all listed."""
    dice = random.Random(seed)
    tapers = all_tapers()
    first = [[0.0, 0.0, 0.0] for _ in EDGES[1:]]
    every = [[0.0, 0.0, 0.0] for _ in EDGES[1:]]
    done = 0
    while done < cases:
        part = draw(dice, rate_only)
        evidence = measure(dice, part)
        if evidence is None:
            continue
        done += 1
        found = identify(evidence, tapers)
        stated = [(each.probability, each.taper is part.truth) for each in found.candidates]
        stated.append((found.none_of_these, part.truth is None))
        put(first, *max(stated, key=lambda each: each[0]))
        for probability, right in stated:
            put(every, probability, right)
    return first, every


def put(bins: list[list[float]], probability: float, right: bool) -> None:
    index = max(i for i, edge in enumerate(EDGES[:-1]) if probability >= edge)
    bins[index][0] += 1
    bins[index][1] += probability
    bins[index][2] += right


def printed(title: str, bins: list[list[float]]) -> None:
    print(f"{title}\n{'stated':>14} {'cases':>7} {'mean stated':>12} {'right':>7}")
    for low, high, (count, stated, right) in zip(EDGES, EDGES[1:], bins, strict=False):
        if count:
            print(
                f"{low:6.0%} - {high:5.0%} {count:7.0f} {stated / count:11.1%} {right / count:7.1%}"
                f"   {deviation(count, stated, right):+.1f} standard errors"
            )


def deviation(count: float, stated: float, right: float) -> float:
    """How many standard errors too many are right; half a case is granted for counting whole ones."""
    mean = min(max(stated / count, 1e-4), 1 - 1e-4)
    away = right - stated
    away = away - 0.5 if away > 0.5 else away + 0.5 if away < -0.5 else 0.0
    return float(away / (count * mean * (1 - mean)) ** 0.5)


def agree(title: str, first: list[list[float]], every: list[list[float]]) -> None:
    printed(f"{title}: the first answer", first)
    printed(f"{title}: every answer listed", every)
    for bins in (first, every):
        for low, (count, stated, right) in zip(EDGES, bins, strict=False):
            if count:
                assert abs(deviation(count, stated, right)) < 4, f"from {low:.0%}: {right} of {count}"


WAYS = [
    ("two diameters", two_diameters, False),
    ("two diameters and the length", with_its_length, False),
    ("large end, length and rate", end_and_length, False),
    ("rate alone", rate_alone, True),
    ("stand-off", stands_off, False),
]


@pytest.mark.parametrize(("title", "measure", "rate_only"), WAYS, ids=[way[0] for way in WAYS])
def test_stated_probabilities_come_true(
    title: str, measure: Callable[[random.Random, Part], Evidence | None], rate_only: bool
) -> None:
    agree(title, *calibrate(400, 20250, measure, rate_only))


@pytest.mark.deep
@pytest.mark.skipif(not os.environ.get("CONEWRIGHT_DEEP"), reason="slow sweep: build.py test --deep")
@pytest.mark.parametrize(("title", "measure", "rate_only"), WAYS, ids=[way[0] for way in WAYS])
def test_stated_probabilities_come_true_in_many(
    title: str, measure: Callable[[random.Random, Part], Evidence | None], rate_only: bool
) -> None:
    agree(title, *calibrate(20000, 7, measure, rate_only))
