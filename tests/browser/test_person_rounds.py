"""Nothing of the person's is lost: rounds of work with everything going wrong under it, against a model."""

from __future__ import annotations

import os
import random

import pytest
from playwright.sync_api import BrowserContext

from in_browser import Served
from person.hand import Hand
from person.rounds import ACTS, take

ROUNDS = int(os.environ.get("CONEWRIGHT_ROUNDS", "500"))
FEW = ["keep", "clock_set_back", "delete_and_undo"]


def test_a_few_rounds_lose_nothing(phone: BrowserContext, served: Served) -> None:
    take(Hand(phone, served.address, random.Random(3)), FEW)


@pytest.mark.deep
def test_nothing_is_lost_in_hundreds_of_rounds(phone: BrowserContext, served: Served) -> None:
    chance = random.Random(int(os.environ.get("CONEWRIGHT_SEED", "13")))
    hand = Hand(phone, served.address, chance)
    take(hand, [chance.choice(sorted(ACTS)) for _ in range(ROUNDS)])
    hand.audit()
