"""A long day at one page: typing, keeping, printing, offline and back; memory flat, all kept right."""

from __future__ import annotations

import os
import random
import time
from pathlib import Path

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


def _resident(hand: Hand) -> float:
    """What the processes of the page and its workers hold, the runtime's memory included [bytes]."""
    browser = hand.phone.browser
    assert browser is not None
    wire = browser.new_browser_cdp_session()
    told = wire.send("SystemInfo.getProcessInfo")["processInfo"]
    wire.detach()
    held = 0
    for each in told:
        memory = Path(f"/proc/{each['id']}/statm")
        if each["type"] == "renderer" and memory.exists():
            held += int(memory.read_text("utf-8").split()[1]) * os.sysconf("SC_PAGE_SIZE")
    return float(held)


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
            marks.append((_used(hand), _resident(hand)))
    phone.set_offline(False)
    assert len(marks) >= 4, f"only {rounds} rounds: give it more minutes (CONEWRIGHT_SOAK)"
    for of in (0, 1):
        series = [mark[of] for mark in marks]
        assert min(series) > 0.0, series
        early, late = series[len(series) // 4], series[-1]
        assert late <= early * GROWTH + 1e6, [f"{each / 1e6:.1f} MB" for each in series]
    held = [f"{used / 1e6:.1f}, {resident / 1e6:.0f} MB" for used, resident in marks]
    print(f"{rounds} rounds; objects in use, and processes: {held}")
    hand.audit()
