"""A long day at one page: typing, keeping, printing, sleeping, offline and back, newer versions let in;
memory flat, all kept right."""

from __future__ import annotations

import os
import random
import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, expect

from in_browser import wait_until_stored
from laid_site import Site, laid
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


def _sleep(hand: Hand) -> None:
    """The phone lies in a pocket: what was typed in the moment before is there when it is taken out again."""
    hand.type_length()
    wire = hand.wire()
    wire.send("Page.setWebLifecycleState", {"state": "frozen"})
    time.sleep(1.5)
    wire.send("Page.setWebLifecycleState", {"state": "active"})
    wire.detach()
    assert hand.typed() == hand.model.length, hand.model.told()


def _update(hand: Hand, site: Site, versions: int) -> None:
    """A newer version is laid on the server and offered; the page shut and opened again is the newer one."""
    wait_until_stored(hand.page)
    site.make_newer()
    hand.page.evaluate("navigator.serviceWorker.ready.then((here) => here.update()).then(() => null)")
    expect(hand.page.locator(".update")).to_be_visible(timeout=60_000)
    hand.type_length()
    # Let in when no page of the older one is left, which a browser may notice a moment late.
    newer = re.compile("^" + "Newer " * versions + "Conewright")
    for _ in range(5):
        hand.again()
        if newer.match(hand.page.title()):
            break
        time.sleep(1)
    expect(hand.page).to_have_title(newer)
    expect(hand.page.locator(".update")).to_have_count(0)


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    yield from laid(tmp_path)


@pytest.mark.deep
@pytest.mark.stored
def test_a_long_day_leaves_memory_flat_and_everything_kept_right(
    phone: BrowserContext, site: Site
) -> None:
    hand = Hand(phone, site.address, random.Random(5), answered=True)
    expect(hand.page.get_by_text("works without a network").first).to_be_visible(timeout=240_000)
    end = time.monotonic() + MINUTES * 60.0
    marks: list[tuple[float, float]] = []
    rounds = versions = 0
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
        if rounds % 11 == 0:
            _sleep(hand)
        if rounds % 100 == 0:
            phone.set_offline(False)
            versions += 1
            _update(hand, site, versions)
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
    print(f"{rounds} rounds, {versions} newer versions; objects in use, and processes: {held}")
    hand.audit()
