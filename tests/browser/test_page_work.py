"""The person's work: no reload, link, failed read, cleared or silent store takes it away."""

from __future__ import annotations

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import choose_units, entry, go_to, hide_keys, open_menu, open_stage

JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2&taper.length={}"
LENGTH = "taper.length"

# What the store holds under a key; null where it holds nothing.
HELD = """(key) => new Promise((done, failed) => {
  setTimeout(failed, 5000);
  const opening = indexedDB.open("keyval-store");
  opening.onerror = failed;
  opening.onupgradeneeded = () => { opening.transaction.abort(); done(null); };
  opening.onsuccess = () => {
    const { result } = opening;
    if (!result.objectStoreNames.contains("keyval")) return result.close(), done(null);
    const asked = result.transaction("keyval").objectStore("keyval").get(key);
    asked.onsuccess = () => { result.close(); done(asked.result ?? null); };
  };
})"""


def _open(page: Page, served: Served, bar: str) -> None:
    page.goto(served.address + JOB.format(bar))
    open_stage(page, "taper")
    expect(entry(page, LENGTH)).to_have_value(bar)


def _holds(page: Page, text: str) -> None:
    """The job on the page has this text, whatever place the page is at."""
    page.wait_for_url(lambda url: f"{LENGTH}={text.replace(' ', '+')}" in url)
    open_stage(page, "taper")
    expect(entry(page, LENGTH)).to_have_value(text)


def _type_and(page: Page, text: str, then: str) -> None:
    """Type, and do something in the very same moment."""
    page.evaluate(
        """([id, text, then]) => {
          const box = document.getElementById(id);
          box.value = text;
          box.dispatchEvent(new Event("input", { bubbles: true }));
          if (then === "reload") location.reload();
          else if (then === "back") history.go(-2);  // out of the stage, and to the job before
          else location.hash = then;
        }""",
        [f"field-{LENGTH}", text, then],
    )


def _clear_store(page: Page) -> None:
    """What a browser does that clears the site's storage under the open page."""
    origin = page.evaluate("location.origin")
    session = page.context.new_cdp_session(page)
    session.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": "indexeddb,local_storage"})
    session.detach()


def test_a_reload_in_the_moment_of_a_key_loses_nothing(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, "100mm")
    page.wait_for_timeout(500)
    for number, text in enumerate(("101 mm", "87.5|&=%")):
        with page.expect_event("load"):
            _type_and(page, text, "reload")
        open_stage(page, "taper")
        expect(entry(page, LENGTH)).to_have_value(text)
        if number:
            page.wait_for_timeout(450)
            page.reload()
            open_stage(page, "taper")
            expect(entry(page, LENGTH)).to_have_value(text)


def test_a_page_closed_in_the_moment_of_a_key_has_it_at_the_next_visit(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    _open(page, served, "100mm")
    entry(page, LENGTH).fill("103 mm")
    page.close()
    again = phone.new_page()
    again.goto(served.address)
    open_stage(again, "taper")
    expect(entry(again, LENGTH)).to_have_value("103 mm")


def test_a_link_pasted_into_the_open_page_can_be_undone_to_the_last_letter(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    _open(page, served, "100mm")
    _type_and(page, "104 mm", JOB.format("200mm"))
    _holds(page, "200mm")
    expect(page.locator(".undo")).to_contain_text("took the place")
    page.get_by_role("button", name="Undo").tap()
    _holds(page, "104 mm")
    # A step back drops nothing either.
    _type_and(page, "105 mm", "back")
    _holds(page, "200mm")
    page.get_by_role("button", name="Undo").tap()
    _holds(page, "105 mm")


def test_the_last_ten_jobs_are_there_each_as_it_was_left(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, "100mm")
    entry(page, LENGTH).fill("99 mm")
    for size in range(201, 213):
        _type_and(page, f"{size - 1}.5 mm", JOB.format(f"{size}mm"))
        _holds(page, f"{size}mm")
    page.wait_for_timeout(600)
    page.reload()
    go_to(page, "Keep")
    lasts = page.locator(".last-open")
    # Ten with the one in hand; what was typed last into each stands in it, and none is there twice.
    expect(lasts).to_have_count(9)
    lasts.first.tap()
    open_stage(page, "taper")
    expect(entry(page, LENGTH)).to_have_value("211.5 mm")
    go_to(page, "Keep")
    expect(page.locator(".last-open")).to_have_count(9)


def test_a_last_job_kept_by_an_earlier_build_opens(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    page.goto(served.address + "NOTICES.txt")
    page.evaluate(
        """(hash) => new Promise((done) => {
          const opening = indexedDB.open("keyval-store");
          opening.onupgradeneeded = () => opening.result.createObjectStore("keyval");
          opening.onsuccess = () => {
            const store = opening.result.transaction("keyval", "readwrite").objectStore("keyval");
            store.put({ format: 1, hash }, "last").onsuccess = () => { opening.result.close(); done(null); };
          };
        })""",
        JOB.format("97mm")[1:],
    )
    page.goto(served.address)
    open_stage(page, "taper")
    expect(entry(page, LENGTH)).to_have_value("97mm")


def test_a_failed_read_of_the_last_job_does_not_write_the_demonstration_over_it(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    _open(page, served, "96mm")
    page.wait_for_timeout(600)
    page.close()
    failing = phone.new_page()
    failing.add_init_script(
        "const get = IDBObjectStore.prototype.get; let fails = 1; localStorage.clear();"
        "IDBObjectStore.prototype.get = function (...key) {"
        "  if (key[0] === 'last' && fails-- > 0) throw new DOMException('busy', 'UnknownError');"
        "  return get.apply(this, key); };"
    )
    failing.goto(served.address)
    expect(failing.locator(".demo")).to_be_visible()
    failing.wait_for_timeout(800)
    assert failing.evaluate(HELD, "last")["hash"] == JOB.format("96mm")[1:]
    failing.close()
    again = phone.new_page()
    again.goto(served.address)
    open_stage(again, "taper")
    expect(entry(again, LENGTH)).to_have_value("96mm")


def test_a_store_cleared_under_the_page_is_noticed_and_the_list_offered_back(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    _open(page, served, "100mm")
    for name in ("one", "two"):
        go_to(page, "Keep")
        page.locator("#keep-name").fill(name)
        page.get_by_role("button", name="Keep it").tap()
        expect(page.locator(".kept-name", has_text=name)).to_be_visible()
    go_to(page, "Card")
    _clear_store(page)
    go_to(page, "Keep")
    notice = page.locator(".lost")
    expect(notice).to_contain_text("cleared")
    expect(notice).to_contain_text("2 set-ups")
    with page.expect_download() as loaded:
        page.get_by_role("link", name="Save them as a file").click()
    text = loaded.value.path().read_text("utf-8")
    assert "one</a>" in text and "two</a>" in text and "taper.length=100mm" in text
    page.get_by_role("button", name="Put them back").tap()
    expect(page.locator(".kept-name")).to_have_text(["two", "one"])
    expect(notice).to_have_count(0)
    page.reload()
    go_to(page, "Keep")
    expect(page.locator(".kept-name")).to_have_text(["two", "one"])


def test_what_is_kept_after_the_store_was_cleared_is_kept_and_the_rest_is_missed(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    _open(page, served, "100mm")
    go_to(page, "Keep")
    page.locator("#keep-name").fill("before")
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept-name")).to_have_text(["before"])
    _clear_store(page)
    page.locator("#keep-name").fill("after")
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept > .said")).to_contain_text("Kept: after")
    assert [one["name"] for one in page.evaluate(HELD, "kept")] == ["after"]
    page.get_by_role("button", name="Put them back").tap()
    expect(page.locator(".kept-name")).to_have_text(["after", "before"])
    assert [one["name"] for one in page.evaluate(HELD, "kept")] == ["after", "before"]


def test_two_taps_keep_once_whatever_the_browser_asks_meanwhile(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    page.add_init_script("navigator.storage.persist = () => new Promise(() => {});")
    _open(page, served, "100mm")
    go_to(page, "Keep")
    page.locator("#keep-name").fill("mine")
    keep = page.get_by_role("button", name="Keep it")
    keep.dblclick()
    expect(page.locator(".kept > .said")).to_contain_text("Kept: mine")
    page.locator("#keep-name").fill("mine")
    keep.tap()
    expect(page.locator(".kept > .said")).to_contain_text("Kept: mine")
    expect(page.locator(".kept-name")).to_have_text(["mine"])
    # The second of two taps, come once the first has emptied the name.
    expect(page.locator("#keep-name")).to_have_value("")
    keep.tap()
    expect(page.locator(".kept-name")).to_have_text(["mine"])
    page.wait_for_timeout(300)
    expect(page.locator(".kept-name")).to_have_text(["mine"])


STORES = {
    # As a browser does whose person blocked the site's data.
    "blocked": """
      for (const name of ["indexedDB", "localStorage", "sessionStorage", "caches"])
        Object.defineProperty(self, name, { get() { throw new DOMException("blocked", "SecurityError"); } });
      Object.defineProperty(Navigator.prototype, "serviceWorker", {
        get() { throw new DOMException("blocked", "SecurityError"); } });
    """,
    # As one does that never answers.
    "silent": "IDBFactory.prototype.open = () => ({ addEventListener() {} });",
    "refusing": "IDBFactory.prototype.open = () => { throw new Error('no'); };",
}


def _works_without(page: Page, served: Served, kind: str) -> None:
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.add_init_script(STORES[kind])
    page.goto(served.address)
    expect(page.locator(".band-title")).to_contain_text("Morse 2")
    page.locator(".demo button").tap()
    expect(page.locator(".demo")).to_have_count(0)
    page.goto(page.url.partition("#")[0] + JOB.format("61mm"))
    open_stage(page, "taper")
    entry(page, LENGTH).fill("127 mm")
    page.wait_for_url("**127**")
    hide_keys(page)
    page.go_back()
    choose_units(page, "inch")
    page.wait_for_url("**units=inch**")
    assert "taper.length=127+mm" in page.url
    go_to(page, "Keep")
    page.locator("#keep-name").fill("mine")
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept .fault")).to_contain_text("Keep the link", timeout=10_000)
    assert "Kept: mine" not in page.locator(".kept").inner_text()
    assert faults == []


def test_with_site_data_blocked_the_page_works_and_says_so(phone: BrowserContext, served: Served) -> None:
    _works_without(phone.new_page(), served, "blocked")


def test_with_a_store_that_never_answers_the_page_works_and_says_so(
    phone: BrowserContext, served: Served
) -> None:
    _works_without(phone.new_page(), served, "silent")


@pytest.mark.deep
def test_with_a_store_that_refuses_the_page_works_and_says_so(phone: BrowserContext, served: Served) -> None:
    _works_without(phone.new_page(), served, "refusing")


@pytest.mark.stored
def test_stored_on_this_device_is_not_said_once_it_is_not(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    page.goto(served.address)
    said = page.locator("#menu")
    open_menu(page)
    expect(said).to_contain_text("Stored on this device")
    go_to(page, "Card")
    expect(page.locator("#menu")).to_have_count(0)
    served.kill()  # or it would be fetched again at once
    page.evaluate("caches.keys().then((keys) => Promise.all(keys.map((key) => caches.delete(key))))")
    open_menu(page)
    expect(said).to_contain_text("Not stored here yet")


def test_the_unit_switch_keeps_what_nobody_typed(phone: BrowserContext, served: Served) -> None:
    """A bar that nobody named is 100 mm in one system, 4 in in the other: the switch must not swap them."""
    page = phone.new_page()
    page.goto(served.address + "#format=1&units=mm&taper.series=Morse&taper.size=2")
    number = page.locator(".band-number .number")
    expect(number).to_have_text("2.4967")
    for label, shown in (("inch", "0.09830"), ("mm", "2.4967")):
        choose_units(page, label)
        page.wait_for_url(f"**units={label}**")
        expect(number).to_have_text(shown)
    assert "setting.bar_centres=100+mm" in page.url
