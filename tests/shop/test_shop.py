"""A small simulated shop: Conewright against working by hand and against a policy that knows the shop's
model.

The physics and both other policies know nothing of the core. `build.py bench` runs it large.
"""

from __future__ import annotations

import numpy as np
import pytest

from shop.report import Results, run

SHOPS, JOBS = 12, 5


@pytest.fixture(scope="module")
def results() -> dict[str, Results]:
    return run(SHOPS, JOBS)


def test_it_learns_the_shop(results: dict[str, Results]) -> None:
    ours = results["Conewright"]
    assert ours.after(1) >= 0.8


def test_two_cuts_do_it_and_no_part_is_lost(results: dict[str, Results]) -> None:
    ours, hand = results["Conewright"], results["by hand"]
    assert ours.in_two() >= 0.9 and ours.in_two() > hand.in_two()
    assert ours.lost() == 0.0
    assert ours.cuts() < 1.8


def test_it_comes_near_to_the_best_there_is(results: dict[str, Results]) -> None:
    ours, best = results["Conewright"], results["knowing the model"]
    # sixty jobs tell a share to some six points
    assert ours.after(1) >= best.after(1) - 0.12
    assert ours.in_two() >= best.in_two() - 0.1


def test_what_is_stated_of_a_proved_cut_is_kept(results: dict[str, Results]) -> None:
    stated = results["Conewright"].stated()
    chances, rights = np.array(stated).T
    assert chances.mean() == pytest.approx(rights.mean(), abs=0.07)
    sure = chances >= 0.95
    assert rights[sure].mean() >= 0.9
    assert rights[chances <= 0.1].mean() <= 0.15
