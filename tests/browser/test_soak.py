"""A long day at one page: typing, keeping, printing, offline and back; memory flat, all kept right."""

from __future__ import annotations

import os
import random
import time

import pytest
from playwright.sync_api import BrowserContext, expect

from in_browser import Served
from page_parts import go_to
from person.hand import Hand
from person.rounds import delete, keep

MINUTES = float(os.environ.get("CONEWRIGHT_SOAK", "60"))
GROWTH = 1.25
"""So much more may be in use at the end than a quarter of the way in: what grows steadily grows past it."""


def _used(hand: Hand) -> float:
    """What the page's own objects take, after a sweep of what nobody holds any more [bytes]."""
    wire = hand.wire()
    wire.send("HeapProfiler.collectGarbage")
    used = wire.send("Runtime.getHeapUsage")
    wire.detach()
    return float(used["usedSize"])


def _core(hand: Hand) -> float:
    """What the browser counts of the page and its workers together, the runtime's memory included [bytes]."""
    told = hand.page.evaluate(
        """() => Promise.race([
            new Promise((late) => setTimeout(() => late(null), 20000)),
            performance.measureUserAgentSpecificMemory?.().then(({ bytes }) => bytes, () => null) ?? null,
        ])"""
    )
    return float(told or 0.0)


@pytest.mark.deep
@pytest.mark.stored
def test_a_long_day_leaves_memory_flat_and_everything_kept_right(
    phone: BrowserContext, served: Served
) -> None:
    hand = Hand(phone, served.address, random.Random(5), answered=True)
    expect(hand.page.get_by_text("works without a network").first).to_be_visible(timeout=240_000)
    end = time.monotonic() + MINUTES * 60.0
    marks: list[tuple[float, float]] = []
    rounds = 0
    while time.monotonic() < end:
        rounds += 1
        hand.type_length()
        hand.page.wait_for_timeout(200)
        if rounds % 3 == 0:
            keep(hand)
        if rounds % 7 == 0:
            delete(hand)
        if rounds % 5 == 0:
            phone.set_offline(rounds % 10 == 0)
        if rounds % 6 == 0:
            go_to(hand.page, "Card")
            hand.page.emulate_media(media="print")
            expect(hand.page.locator("body")).to_contain_text("Morse 2")
            hand.page.emulate_media(media="screen")
        if rounds % 10 == 0:
            hand.check()
            marks.append((_used(hand), _core(hand)))
    phone.set_offline(False)
    assert len(marks) >= 4, f"only {rounds} rounds: give it more minutes (CONEWRIGHT_SOAK)"
    for of in (0, 1):
        series = [mark[of] for mark in marks]
        early, late = series[len(series) // 4], series[-1]
        assert late <= early * GROWTH + 1e6, [f"{each / 1e6:.1f} MB" for each in series]
    print(f"{rounds} rounds; page and core in use: {[f'{a / 1e6:.1f}, {b / 1e6:.1f} MB' for a, b in marks]}")
    hand.audit()
