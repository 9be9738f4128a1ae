"""An update fetches of the core what is new and no more; whatever comes instead, the whole core is there."""

from __future__ import annotations

import gzip
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import DIST, built, wait_until_stored
from lying_server import PARTS, LyingServer, parts_of, site_of
from newer_core import with_newer_core

pytestmark = pytest.mark.stored

JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100mm"
MODULE = "calc.setting.bar"
LOOK = "navigator.serviceWorker.ready.then((here) => here.update()).then(() => null)"
MOST = 150_000
"""Bytes over the wire for an update that leaves the runtime alone."""


@pytest.fixture
def liar() -> Iterator[LyingServer]:
    if not (DIST / "index.html").is_file():
        pytest.fail("dist/ is missing: run the tests through `python3 build.py test`")
    made = LyingServer({**site_of(DIST), **parts_of(DIST)})
    yield made
    made.end()


def _update(page: Page, liar: LyingServer) -> list[str]:
    """Lay a newer core on the server, have it stored, and return what was asked of the runtime's folder."""
    liar.site, liar.asked = with_newer_core(liar.site, MODULE), []
    page.evaluate(LOOK)
    expect(page.locator(".update")).to_be_visible(timeout=60_000)
    return [name for name in liar.asked if name.startswith("runtime/")]


def _works_alone(page: Page, liar: LyingServer) -> None:
    """The newer build, with no server: its core answers."""
    phone = page.context
    page.close()
    fresh = phone.new_page()
    liar.lies, liar.asked = {"*": "gone"}, []
    fresh.goto(liar.address + JOB)
    expect(fresh.locator(".band-number .number")).to_have_text("2.4967", timeout=60_000)
    expect(fresh.locator(".update")).to_have_count(0)
    assert fresh.evaluate(
        "(name) => caches.keys().then((all) => Promise.all(all.map((one) => caches.open(one)"
        ".then((cache) => cache.match(name, {ignoreSearch: true}))))).then((all) => all.some(Boolean))",
        built("core.bin", liar.site),
    )


def _sent(liar: LyingServer, name: str) -> int:
    """Bytes over the wire, as packed as a plain server sends them."""
    ready = Path(DIST / f"{name}.br")
    return ready.stat().st_size if ready.is_file() else len(gzip.compress(liar.site[name]))


def test_a_module_mended_costs_that_module_and_not_the_core(phone: BrowserContext, liar: LyingServer) -> None:
    page = phone.new_page()
    page.goto(liar.address + JOB)
    wait_until_stored(page)
    assert not [name for name in liar.asked if name.startswith(PARTS)], "a first visit takes the core whole"
    asked = _update(page, liar)
    parts = [name for name in asked if name.startswith(PARTS)]
    # The head, which says where each module lies, and the module.
    assert sorted(asked) == sorted([built("core-parts.json", liar.site), *parts]) and len(parts) == 2
    programs = [name for name in liar.site if name.startswith("app/")] + ["index.html", "service_worker.js"]
    assert sum(_sent(liar, name) for name in (*asked, *programs)) < MOST
    _works_alone(page, liar)


@pytest.mark.parametrize("lie", ["sign-in", pytest.param("broken off", marks=pytest.mark.deep)])
def test_a_part_that_is_a_lie_is_not_built_in(phone: BrowserContext, liar: LyingServer, lie: str) -> None:
    page = phone.new_page()
    page.goto(liar.address + JOB)
    wait_until_stored(page)
    newer = with_newer_core(liar.site, MODULE)
    (part,) = [name for name in newer if name.startswith(PARTS) and name not in liar.site][1:]
    liar.lies = {part: lie}
    asked = _update(page, liar)
    assert part in asked and built("core.bin", liar.site) in asked, "the whole core is fetched instead"
    _works_alone(page, liar)


# Looked for, and waited until the newer build is stored or has given up; never without an end.
TRIED = """async (limit) => {
  const here = await navigator.serviceWorker.ready;
  await here.update().catch(() => undefined);
  for (const end = performance.now() + limit; performance.now() < end; ) {
    if (here.waiting) return 'waiting';
    if (!here.installing) return 'given up';
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return 'still at it';
}"""
# The same for a first store, which leaves no service worker behind where it fails.
BEGUN = """async (limit) => {
  const made = await navigator.serviceWorker.register('./service_worker.js');
  for (const end = performance.now() + limit; performance.now() < end; ) {
    if (made.active || made.waiting) return 'stored';
    if (!made.installing) return 'given up';
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return 'still at it';
}"""
LIMIT = 60_000


def _room(page: Page, liar: LyingServer, size: int | None) -> None:
    """How much this address may keep [bytes]; None: as much as the device has."""
    told = {"origin": liar.address.rstrip("/"), **({} if size is None else {"quotaSize": size})}
    page.context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", told)


def test_an_update_broken_off_or_without_room_leaves_the_older_build_and_comes_the_next_time(
    phone: BrowserContext, liar: LyingServer
) -> None:
    page = phone.new_page()
    page.goto(liar.address + JOB)
    wait_until_stored(page)
    older = built("core.bin", liar.site)
    newer = with_newer_core(liar.site, MODULE)
    core = built("core.bin", newer)
    (part,) = [name for name in newer if name.startswith(PARTS) and name not in liar.site][1:]
    # In the middle of its parts, and of the whole that is fetched in their place.
    liar.site, liar.lies = newer, {part: "broken off", core: "broken off"}
    assert page.evaluate(TRIED, LIMIT) == "given up"
    assert {part, core} <= set(liar.asked)
    # The line is back, and the device is full.
    _room(page, liar, 100_000)
    liar.lies, liar.asked = {}, []
    assert page.evaluate(TRIED, LIMIT) == "given up"
    assert part in liar.asked
    expect(page.locator(".update")).to_have_count(0)
    assert page.evaluate("(name) => fetch(name).then((got) => got.ok)", older), "the older build goes on"
    _room(page, liar, None)
    liar.asked = []
    assert page.evaluate(TRIED, LIMIT) == "waiting"
    assert core not in liar.asked, "what was broken off is no reason to fetch the whole"
    _works_alone(page, liar)


def test_without_room_for_the_first_store_the_page_answers_and_says_so_until_there_is_room(
    phone: BrowserContext, liar: LyingServer
) -> None:
    page = phone.new_page()
    page.goto(liar.address + "blank")
    _room(page, liar, 100_000)
    page.goto(liar.address + JOB)
    expect(page.locator(".band-number .number")).to_have_text("2.4967", timeout=60_000)
    assert page.evaluate(BEGUN, LIMIT) == "given up"
    page.locator(".menu-button").tap()
    expect(page.locator("#menu")).to_contain_text("Not stored here yet")
    _room(page, liar, None)
    page.evaluate("dispatchEvent(new Event('online'))")
    wait_until_stored(page)
    expect(page.locator("#menu")).to_contain_text("Stored on this device", timeout=60_000)
