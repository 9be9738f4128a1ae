"""The started Python kept on the device: taken up by this build alone, and done without where it is off."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from calc.job import work_text
from in_browser import START_WORKER, Served, wait_until_stored

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
TEXTS = [file.read_text("utf-8") for file in sorted(CORPUS.iterdir()) if file.suffix in (".json", ".txt")]

# What the worker tells that is to make one: "kept", or "failed" with a reason.
MAKE = """async () => {
  const main = await (await fetch(document.querySelector('script[type=module]').src)).text();
  const program = main.match(/app\\/worker-[0-9a-f]+\\.js/)[0];
  return new Promise((resolve) => {
    const worker = new Worker(program, { type: 'module', name: 'snapshot' });
    const limit = setTimeout(() => resolve('nothing for a minute'), 60000);
    worker.onmessage = ({ data }) => {
      if (data.kind === 'loading') return;
      clearTimeout(limit);
      worker.terminate();
      resolve(data.kind);
    };
  });
}"""
# What is kept, through CHANGE(cache, key) for each.
EACH = """async () => {
  const cache = await caches.open('conewright-snapshot');
  const names = [];
  for (const key of await cache.keys()) {
    await (CHANGE)(cache, key);
    names.push(key.url);
  }
  return names;
}"""
NOTHING = "async () => undefined"
CORRUPT = """async (cache, key) => {
  if (key.url.endsWith('-off')) return;
  const bytes = new Uint8Array(await (await cache.match(key)).arrayBuffer());
  bytes[bytes.length >> 1] ^= 1;
  await cache.put(key, new Response(bytes));
}"""
OF_ANOTHER = """async (cache, key) => {
  await cache.put(key.url.replace('core-', 'another-'), await cache.match(key));
  await cache.delete(key);
}"""


def _kept(page: Page, change: str = NOTHING) -> list[str]:
    names: list[str] = page.evaluate(EACH.replace("CHANGE", change))
    return [name for name in names if not name.endswith("-off")]


def _start(page: Page) -> bool:
    """Start a worker of the test's own; whether it took up a snapshot."""
    page.evaluate(START_WORKER)
    return bool(page.evaluate("self.told.find((message) => message.kind === 'ready').snapshot"))


def _assert_answers(page: Page, texts: list[str]) -> None:
    asking = "(asked) => Promise.all(asked.map((one) => self.askCore(one)))"
    assert page.evaluate(asking, texts) == [work_text(text) for text in texts]


@pytest.fixture
def page(new_phone: Callable[..., BrowserContext], served: Served) -> Page:
    """A page that makes none by itself: it does so only where everything lies on the device."""
    made = new_phone(service_workers="block").new_page()
    made.goto(served.address)
    return made


def test_it_is_made_and_taken_up_and_done_without_once_it_is_corrupt(page: Page) -> None:
    assert page.evaluate(MAKE) == "kept"
    assert len(_kept(page)) == 1
    assert _start(page) is True
    _assert_answers(page, TEXTS[:3])
    _kept(page, CORRUPT)
    assert _start(page) is False
    _assert_answers(page, TEXTS[:1])
    assert _kept(page) == []


@pytest.mark.deep
def test_every_kept_request_is_answered_alike_from_it(page: Page) -> None:
    assert page.evaluate(MAKE) == "kept"
    assert _start(page) is True
    _assert_answers(page, TEXTS)


@pytest.mark.deep
def test_it_is_made_again_and_one_of_another_build_is_never_taken_up_and_goes(page: Page) -> None:
    assert page.evaluate(MAKE) == "kept"
    (mine,) = _kept(page, OF_ANOTHER)
    assert _start(page) is False
    assert page.evaluate(MAKE) == "kept"
    assert _kept(page) == [mine]
    # Off once, it is made again; off twice, this device goes without.
    for again in (True, False):
        _kept(page, CORRUPT)
        assert _start(page) is False
        assert page.evaluate(MAKE) == "kept"
        assert (_kept(page) == [mine]) is again


@pytest.mark.deep
def test_where_there_is_no_room_nothing_happens(page: Page) -> None:
    session = page.context.new_cdp_session(page)
    origin = page.evaluate("location.origin")
    session.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": 100_000})
    assert page.evaluate(MAKE) == "failed"
    assert _kept(page) == []
    assert _start(page) is False
    _assert_answers(page, TEXTS[:1])


LEFT_ALONE = 90_000
"""The page waits ten seconds; then a small machine that does more than this starts a Python [ms]."""

# Whether a snapshot comes to be kept within so long; never waits for anything without an end.
COMES = """(limit) => new Promise((resolve) => {
  const end = performance.now() + limit;
  const look = async () => {
    const cache = await caches.has('conewright-snapshot') && await caches.open('conewright-snapshot');
    if (cache && (await cache.keys()).some(({ url }) => !url.endsWith('-off'))) resolve(true);
    else if (performance.now() > end) resolve(false);
    else setTimeout(look, 250);
  };
  void look();
})"""
LISTEN = """self.heard = [];
const told = Object.getOwnPropertyDescriptor(Worker.prototype, 'onmessage');
Object.defineProperty(Worker.prototype, 'onmessage', { set(hear) {
  told.set.call(this, (event) => {
    self.heard.push(event.data);
    hear(event);
  });
} });
"""


@pytest.mark.deep
@pytest.mark.stored
def test_a_page_left_alone_has_it_made_and_the_next_start_takes_it_up(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    page.add_init_script(LISTEN)
    page.goto(served.address)
    wait_until_stored(page)
    assert page.evaluate(COMES, LEFT_ALONE) is True
    page.reload()
    page.wait_for_function(
        "() => self.heard.some(({ kind, more }) => kind === 'answer' && !more)", timeout=60_000
    )
    ready = json.loads(page.evaluate("JSON.stringify(self.heard.find(({ kind }) => kind === 'ready'))"))
    assert ready["snapshot"] is True
    expect(page.locator(".band-number")).to_be_enabled()
