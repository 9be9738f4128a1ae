"""A newer version is offered, never forced, and loses no entry; and the address that no file answers to."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import DIST, wait_until_stored
from laid_site import Site, laid
from page_parts import entry, open_stage
from unwatched_browser import Tab, Unwatched

pytestmark = pytest.mark.stored


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    yield from laid(tmp_path)


def _look_for_newer(page: Page) -> None:
    page.evaluate("navigator.serviceWorker.ready.then((here) => here.update()).then(() => null)")


@pytest.fixture
def unwatched(tmp_path: Path) -> Iterator[Unwatched]:
    browser = Unwatched(tmp_path / "profile")
    yield browser
    browser.end()


LOOK = "navigator.serviceWorker.ready.then((here) => here.update()).then(() => true)"
STORED = "document.querySelector('.status')?.textContent.includes('works without a network') ?? false"
OFFERED = "document.querySelector('.update') !== null"
ANSWERED = "document.querySelector('.band-number:enabled') !== null"
NEWER = "document.title.startsWith('Newer') && document.querySelector('.band-number:enabled') !== null"
ENTRY = "document.getElementById('field-setting.bar_centres')?.value"
CHANGE = "document.querySelector('.update button').click()"
JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2"


def _unfold(tab: Tab) -> None:
    line = "document.querySelector(\".stage-lines [data-stage='setting'] .stage-head\")"
    tab.wait(f"{ENTRY} !== undefined || {line} !== null")
    tab.evaluate(f"if ({ENTRY} === undefined) {line}.click()")
    tab.wait(f"{ENTRY} !== undefined")


def _type(tab: Tab, text: str) -> None:
    _unfold(tab)
    tab.evaluate(
        "{ const box = document.getElementById('field-setting.bar_centres');"
        f" box.value = {json.dumps(text)}; box.dispatchEvent(new Event('input', {{ bubbles: true }})); }}"
    )


def _typed(tab: Tab) -> object:
    _unfold(tab)
    return tab.evaluate(ENTRY)


def test_a_newer_version_waits_until_it_is_let_in_and_every_entry_is_kept(
    unwatched: Unwatched, site: Site
) -> None:
    page = unwatched.open(site.address + JOB)
    page.wait(STORED)
    assert page.evaluate(OFFERED) is False
    site.make_newer()
    _type(page, "127 mm")
    page.evaluate(LOOK)
    page.wait(OFFERED)
    assert _typed(page) == "127 mm"
    assert page.evaluate(NEWER) is False

    # Not let in: it is not forced by a reload either, and the offer stands again.
    page.wait("location.hash.includes('127')")
    page.evaluate("self.old = true, location.reload()")
    page.wait("self.old === undefined")
    page.wait(OFFERED)
    assert page.evaluate(NEWER) is False
    assert _typed(page) == "127 mm"

    # The entry is taken over though it was typed in the very moment before.
    _type(page, "4.2mm + 6thou")
    page.evaluate(CHANGE)
    page.wait(NEWER)
    assert _typed(page) == "4.2mm + 6thou"
    assert "Morse 2" in page.evaluate("document.body.innerText")
    page.wait(STORED)
    assert page.evaluate(OFFERED) is False


def test_another_page_that_stands_open_is_not_taken_away_by_the_change(
    unwatched: Unwatched, site: Site
) -> None:
    page = unwatched.open(site.address + JOB)
    page.wait(STORED)
    other = unwatched.open(site.address + JOB)
    site.make_newer()
    page.evaluate(LOOK)
    page.wait(OFFERED)
    _type(other, "half typ")
    page.evaluate(CHANGE)
    page.wait(NEWER)
    assert _typed(other) == "half typ"
    assert other.evaluate(NEWER) is False
    _type(other, "127 mm")
    other.wait(ANSWERED)


@pytest.mark.deep
def test_a_browser_that_will_not_change_over_loses_nothing_and_offers_again(
    phone: BrowserContext, site: Site
) -> None:
    page = phone.new_page()
    page.add_init_script(
        "const send = ServiceWorker.prototype.postMessage;"
        "ServiceWorker.prototype.postMessage = function (message, ...rest) {"
        "  if (message.type !== 'SKIP_WAITING') return send.call(this, message, ...rest);"
        "};"
    )
    page.goto(site.address + "#format=1&units=mm&taper.series=Morse&taper.size=2")
    wait_until_stored(page)
    site.make_newer()
    _look_for_newer(page)
    open_stage(page, "setting")
    with page.expect_event("load", timeout=15_000):
        page.get_by_role("button", name="Change over").tap()
        entry(page, "setting.bar_centres").fill("127 mm")
    expect(page.locator(".update")).to_be_visible()
    open_stage(page, "setting")
    expect(entry(page, "setting.bar_centres")).to_have_value("127 mm")
    # Reloaded once and not for ever.
    page.evaluate("self.same = true")
    page.wait_for_timeout(5000)
    assert page.evaluate("self.same") is True


def test_an_address_that_no_file_answers_to_opens_the_page_with_the_job_in_it(
    phone: BrowserContext, site: Site
) -> None:
    page = phone.new_page()
    page.goto(site.address)
    wait_until_stored(page)
    page.reload()
    page.goto(site.address + "kept/link#format=1&units=mm&taper.series=Morse&taper.size=3")
    expect(page.locator(".band-title")).to_contain_text("Morse 3")
    assert page.url.startswith(site.address + "#")
    # Seen with its stylesheet, not as bare text.
    assert page.locator(".dock").evaluate("one => getComputedStyle(one).borderTopStyle") == "solid"


def test_the_page_has_one_policy_of_what_it_may_load() -> None:
    page = (DIST / "index.html").read_text("utf-8")
    assert page.count("Content-Security-Policy") == 1
    policy = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]+)"', page)[0]
    assert "default-src 'self'" in policy
    assert "http" not in policy
    # The one script that stands in the page itself is let run by its hash (CSP Level 2, hash-source).
    inside = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    hashes = [base64.b64encode(hashlib.sha256(script.encode()).digest()).decode() for script in inside]
    assert re.findall(r"'sha256-([^']+)'", policy) == hashes, "web/index.html: give the policy these hashes"
