"""Whatever a network answers in place of a file, only the build itself is kept, and it heals by itself."""

from __future__ import annotations

import base64
import hashlib
import os
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, expect

from in_browser import DIST, built, wait_until_stored
from lying_server import LIES, TYPES, LyingServer, site_of, with_other
from page_parts import open_stage

pytestmark = pytest.mark.stored

QUICK = ("sign-in", "half")
JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100mm"

# What lies in the stores, by its name and with the hash of its content.
HASH = """async (content) => [...new Uint8Array(await crypto.subtle.digest('SHA-256', content))]
    .map((one) => one.toString(16).padStart(2, '0')).join('')"""
STORED = """async () => {
  const hash = HASH;
  const found = {};
  for (const name of await caches.keys()) {
    if (name === 'conewright-snapshot') continue;
    const cache = await caches.open(name);
    for (const key of await cache.keys()) {
      const name = new URL(key.url).pathname.slice(1);
      (found[name] ??= []).push(await hash(await (await cache.match(key)).arrayBuffer()));
    }
  }
  return found;
}""".replace("HASH", HASH)
SERVED = f"async (name) => ({HASH})(await (await fetch('/' + name)).arrayBuffer())"

# Register, and wait until the newest worker has come to rest: "activated", "installed" or "redundant".
REGISTER = """async () => {
  const made = await navigator.serviceWorker.register('/service_worker.js').catch(() => null);
  if (!made) return 'refused';
  await made.update().catch(() => null);
  const worker = made.installing ?? made.waiting ?? made.active;
  for (let tries = 0; tries < 600; tries++) {
    if (worker === null || worker.state === 'redundant') return 'redundant';
    if (worker.state === 'activated' || worker.state === 'installed') return worker.state;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  return worker.state;
}"""

# Take a file out of the stores, but for what lies under the revision to be kept, if one is told.
FORGET = """async ([name, keep]) => {
  for (const key of await caches.keys()) {
    const cache = await caches.open(key);
    for (const one of await cache.keys()) {
      const named = new URL(one.url).pathname.slice(1) === name;
      if (named && !(keep && one.url.includes(keep))) await cache.delete(one);
    }
  }
}"""

UNREGISTER = """async () => {
  for (const one of await navigator.serviceWorker.getRegistrations()) await one.unregister();
}"""


@pytest.fixture
def liar() -> Iterator[LyingServer]:
    if not (DIST / "index.html").is_file():
        pytest.fail("dist/ is missing: run the tests through `python3 build.py test`")
    made = LyingServer(site_of(DIST))
    yield made
    made.end()


def _hashes(site: dict[str, bytes]) -> dict[str, str]:
    return {name: hashlib.sha256(content).hexdigest() for name, content in site.items()}


def _integrity(content: bytes) -> bytes:
    return b"sha256-" + base64.b64encode(hashlib.sha256(content).digest())


def _pairs(names: list[str]) -> list[tuple[str, str]]:
    """As many files as there are lies, each with another one; every lie for every file in the deep run."""
    if os.environ.get("CONEWRIGHT_DEEP"):
        return [(name, lie) for name in names for lie in LIES]
    first = [name for name in names if name.endswith((".html", ".zip", ".wasm"))]
    return list(zip([*first, *(name for name in names if name not in first)], LIES, strict=False))


def test_at_the_first_visit_nothing_but_the_build_is_stored(phone: BrowserContext, liar: LyingServer) -> None:
    page = phone.new_page()
    page.goto(liar.address + "blank")
    true = _hashes(liar.site)
    names = [name for name in liar.site if name != "service_worker.js"]
    for name, lie in _pairs(names):
        page.evaluate(FORGET, [name, ""])
        liar.lies = {name: lie}
        assert page.evaluate(REGISTER) in ("redundant", "refused"), (name, lie)
        stored = page.evaluate(STORED)
        assert name not in stored, (name, lie)
        assert all(true[each] == digest for each, found in stored.items() for digest in found), (name, lie)
        # The next visit, by an honest line: only what was missing is fetched.
        liar.lies, liar.asked = {}, []
        assert page.evaluate(REGISTER) == "activated", (name, lie)
        assert [each for each in liar.asked if each in names] == [name], "more was fetched than was missing"
        assert page.evaluate(STORED) == {each: [true[each]] for each in names}
        page.evaluate(UNREGISTER)
        page.goto("about:blank")  # a worker goes only with the last page that it serves
        page.goto(liar.address + "blank")


def test_the_list_of_files_itself_may_be_a_lie(phone: BrowserContext, liar: LyingServer) -> None:
    page = phone.new_page()
    page.goto(liar.address + "blank")
    for lie in LIES:
        liar.lies = {"service_worker.js": lie}
        assert page.evaluate(REGISTER) in ("refused", "redundant"), lie
    liar.lies = {}
    assert page.evaluate(REGISTER) == "activated"


def test_at_an_update_the_old_build_goes_on_until_the_new_one_is_whole(
    phone: BrowserContext, liar: LyingServer
) -> None:
    page = phone.new_page()
    page.goto(liar.address + "blank")
    assert page.evaluate(REGISTER) == "activated"
    old = dict(liar.site)
    names = [name for name in old if name != "service_worker.js"]
    for number, (name, lie) in enumerate(_pairs(names)):
        liar.site = with_other(old, name, old[name] + f"\n{number}".encode())
        liar.lies = {name: lie}
        assert page.evaluate(REGISTER) in ("redundant", "activated"), (name, lie)
        assert page.evaluate(STORED) == {each: [_hashes(old)[each]] for each in names}
        served = page.evaluate(SERVED, name)
        assert served == hashlib.sha256(old[name]).hexdigest(), "the old build answers with the old file"
        liar.lies, liar.asked = {}, []
        assert page.evaluate(REGISTER) == "installed", (name, lie)
        assert {each for each in liar.asked if each in names} == {name}, "what stayed was fetched again"
        stored = page.evaluate(STORED)
        assert sorted(stored[name]) == sorted([_hashes(old)[name], _hashes(liar.site)[name]])
        # Back to the old build for the next file: the new worker goes, with what it stored.
        page.evaluate(FORGET, [name, f"sha256-{_hashes(old)[name][:20]}"])
        liar.site = dict(old)
        assert page.evaluate(REGISTER) in ("installed", "activated")


def test_what_a_build_stored_under_plain_names_goes_with_it(phone: BrowserContext, liar: LyingServer) -> None:
    """Before names held hashes: main.js at the root, and one name for every build's core."""
    page = phone.new_page()
    page.goto(liar.address + "blank")
    new = dict(liar.site)
    plain = {name: re.sub(r"^app/|-[0-9a-f]{12}(?=\.)", "", name) for name in new}
    told = new["service_worker.js"].decode()
    for name, before in plain.items():
        told = told.replace(f'"{name}"', f'"{before}"')
    old = {plain[name]: content for name, content in new.items()}
    liar.site = {**old, "service_worker.js": told.encode()}
    assert {"main.js", "runtime/core.bin"} <= set(liar.site)
    assert page.evaluate(REGISTER) == "activated"
    liar.site, liar.asked = dict(new), []
    assert page.evaluate(REGISTER) == "installed"
    names = {name for name in new if name != "service_worker.js"}
    assert set(liar.asked) & names == {name for name in names if plain[name] != name}
    # A worker goes only with the last page that it serves; then the new one clears up.
    page.evaluate(UNREGISTER)
    page.goto("about:blank")
    page.goto(liar.address + "blank")
    assert page.evaluate(REGISTER) == "activated"
    assert page.evaluate(STORED) == {name: [_hashes(new)[name]] for name in names}


def test_a_file_lost_from_the_store_is_fetched_again_at_the_next_visit(
    phone: BrowserContext, liar: LyingServer
) -> None:
    page = phone.new_page()
    page.goto(liar.address + JOB)
    wait_until_stored(page)
    for name in ("icon-512.png", "index.html", built("main.js"), built("style.css")):
        # The line lies until the next visit, so that what is lost is not fetched again at once.
        liar.lies = {"*": "sign-in"}
        page.evaluate(FORGET, [name, ""])
        assert name not in page.evaluate(STORED)
        page.goto("about:blank")
        liar.lies = {}
        page.goto(liar.address + JOB)
        wait_until_stored(page)
        assert page.evaluate(STORED)[name] == [_hashes(liar.site)[name]]
    expect(page.locator(".band-title")).to_contain_text("Morse 2")


def test_a_page_lost_from_the_store_behind_a_sign_in_says_so_and_heals_without_a_hand(
    phone: BrowserContext, liar: LyingServer
) -> None:
    page = phone.new_page()
    page.goto(liar.address + JOB)
    wait_until_stored(page)
    page.reload()
    liar.lies = {"*": "sign-in"}
    page.evaluate(FORGET, ["index.html", ""])
    page.goto("about:blank")
    page.goto(liar.address + JOB)
    words = page.locator("body")
    expect(words).to_contain_text("What you have kept stays as it is")
    assert "clear" in words.inner_text() and "Guest network" not in words.inner_text()
    liar.lies = {}
    # It asks again by itself.
    expect(page.locator(".band-title")).to_contain_text("Morse 2", timeout=30_000)
    # The same job; in which order its entries stand depends on what the shop already knew.
    assert sorted(page.evaluate("location.hash")[1:].split("&")) == sorted(JOB[1:].split("&"))
    wait_until_stored(page)


def test_a_page_lost_from_the_store_of_an_old_build_lets_the_new_one_in(
    phone: BrowserContext, liar: LyingServer
) -> None:
    page = phone.new_page()
    page.goto(liar.address + JOB)
    wait_until_stored(page)
    page.reload()
    # The newer build lies there first: a page that starts looks what is not stored, and fetches it.
    newer = liar.site["index.html"].replace(b"<title>", b"<title>Newer ")
    liar.site = with_other(liar.site, "index.html", newer)
    page.evaluate(FORGET, ["index.html", ""])
    page.goto("about:blank")
    page.goto(liar.address + JOB)
    expect(page).to_have_title(re.compile("^Newer"), timeout=40_000)
    expect(page.locator(".band-title")).to_contain_text("Morse 2")


@pytest.mark.parametrize(
    "lie", [*QUICK, *(pytest.param(each, marks=pytest.mark.deep) for each in LIES if each not in QUICK)]
)
def test_a_program_that_did_not_arrive_is_said_and_comes_at_the_next_visit(
    phone: BrowserContext, liar: LyingServer, lie: str
) -> None:
    page = phone.new_page()
    liar.lies = {built("main.js"): lie}
    page.goto(liar.address + JOB)
    expect(page.locator("#app")).to_contain_text("could not start")
    assert "what you have kept stays" in page.locator("#app").inner_text()
    liar.lies = {}
    page.reload()
    expect(page.locator(".band-title")).to_contain_text("Morse 2")


@pytest.mark.parametrize(
    "name",
    [
        pytest.param("worker.js", marks=pytest.mark.deep),
        pytest.param("core.bin", marks=pytest.mark.deep),
        "pyodide.asm.wasm",
    ],
)
def test_a_calculator_that_did_not_arrive_is_said_and_can_be_tried_again(
    phone: BrowserContext, liar: LyingServer, name: str
) -> None:
    page = phone.new_page()
    liar.lies = {built(name): "sign-in"}
    page.goto(liar.address + JOB)
    expect(page.locator(".status")).to_contain_text("did not start")
    liar.lies = {}
    page.get_by_role("button", name="Try again").tap()
    open_stage(page, "setting")
    expect(page.locator(".band-title")).to_contain_text("Morse 2")


def test_a_server_that_tells_another_type_for_the_program_starts_it_all_the_same(
    phone: BrowserContext, liar: LyingServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(TYPES, ".wasm", "application/octet-stream")
    page = phone.new_page()
    page.goto(liar.address + JOB)
    expect(page.locator(".band-number .number")).to_have_text("2.4967")


# A minute of silence, made eight seconds so that the check need not wait a minute.
IMPATIENT = """{ const wait = self.setTimeout;
  self.setTimeout = (act, pause, ...rest) => wait(act, pause === 60000 ? 8000 : pause, ...rest); }"""


@pytest.mark.deep
def test_a_slow_line_is_waited_for_and_a_dead_one_is_not(phone: BrowserContext, liar: LyingServer) -> None:
    page = phone.new_page()
    page.add_init_script(IMPATIENT)
    # The device's own store would fetch the same file beside the page: here only the page is looked at.
    liar.lies = {built("pyodide.asm.wasm"): "slow", "service_worker.js": "gone"}
    page.goto(liar.address + JOB)
    expect(page.locator(".band-number .number")).to_have_text("2.4967", timeout=40_000)
    page.goto("about:blank")
    liar.lies = {built("pyodide.asm.wasm"): "stalled", "service_worker.js": "gone"}
    page.goto(liar.address + JOB)
    expect(page.locator(".status")).to_contain_text("nothing came of it for a minute", timeout=20_000)


def test_an_old_core_never_answers_for_a_new_page(phone: BrowserContext, liar: LyingServer) -> None:
    """An upload stopped half-way: the page is new, its core is not. It rather does not calculate."""
    page = phone.new_page()
    core, worker = built("core.bin"), built("worker.js")
    liar.site = {**with_other(liar.site, core, liar.site[core] + b"\0"), core: liar.site[core]}
    # The page's own worker tells which core it was built with; the upload brings the new one last.
    changed = liar.site[worker].replace(_integrity(liar.site[core]), _integrity(liar.site[core] + b"\0"))
    assert changed != liar.site[worker]
    liar.site = {**liar.site, worker: changed}
    page.goto(liar.address + JOB)
    expect(page.locator(".status")).to_contain_text("did not start")
    assert page.locator(".band[data-lead]").count() == 0
    page.goto(liar.address + "blank")
    assert page.evaluate(REGISTER) in ("redundant", "refused")
    assert core not in page.evaluate(STORED)
