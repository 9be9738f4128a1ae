"""After one visit the page works with the network gone: the server is killed, not merely told to be quiet."""

from __future__ import annotations

import json
import urllib.error
import urllib.request

import pytest
from playwright.sync_api import BrowserContext, Page

from in_browser import DIST, ROOT, START_WORKER, Served, built, wait_until_stored

pytestmark = pytest.mark.stored

DEMO = ROOT / "web" / "src" / "generated" / "demo.json"


def _answer(page: Page, request: str) -> str:
    page.evaluate(START_WORKER)
    return str(page.evaluate("(request) => self.askCore(request)", request))


def test_an_answer_comes_after_the_server_was_killed(phone: BrowserContext, served: Served) -> None:
    address = served.address
    page = phone.new_page()
    page.goto(address)
    wait_until_stored(page)
    request = DEMO.read_text("utf-8")
    before = _answer(page, request)
    shown_before = _settled_text(page)

    served.kill()
    with pytest.raises(urllib.error.URLError):
        urllib.request.urlopen(address, timeout=5)

    page.reload()
    assert _answer(page, request) == before
    assert json.loads(before)["stages"]
    # What the page itself shows is back too, to the letter.
    assert _settled_text(page) == shown_before

    # A second visit, in a page of its own, by an address with a job in it and by one that no file answers to.
    other = phone.new_page()
    other.goto(address + "kept/link")
    assert "Conewright" in other.title()


def _settled_text(page: Page) -> str:
    """The stages as the page shows them once they stand still."""
    page.wait_for_function(
        """() => {
          const now = document.querySelector('main')?.innerText ?? '';
          self.still = now.length > 100 && now === self.lastText ? (self.still ?? 0) + 1 : 0;
          self.lastText = now;
          return self.still >= 4;
        }""",
        polling=400,
        timeout=20_000,
    )
    return str(page.evaluate("document.querySelector('main').innerText"))


def test_every_file_of_the_build_is_stored(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    page.goto(served.address)
    wait_until_stored(page)
    stored = page.evaluate(
        """async () => {
          const found = [];
          for (const name of (await caches.keys()).filter((one) => one !== 'conewright-snapshot'))
            for (const { url } of await (await caches.open(name)).keys())
              found.push(new URL(url).pathname.slice(1));
          return found;
        }"""
    )
    files = {
        file.relative_to(DIST).as_posix()
        for file in DIST.rglob("*")
        if file.is_file() and file.suffix not in (".br", ".gz") and file.name != "service_worker.js"
        # The core in parts is for those who have an older one.
        if file.parent.name != "parts"
    }
    assert set(stored) == files
    assert built("pyodide.asm.wasm") in files
