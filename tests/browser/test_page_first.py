"""The first screen stands before the core has started: the last answer, marked until it is checked."""

from __future__ import annotations

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import entry, open_stage

JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100mm"
OTHER = JOB.replace("100mm", "101mm")

# The core's worker starts when it is let go, and not before.
HOLD = """
const Real = Worker;
self.Worker = class {
  sent = [];
  constructor(...given) {
    self.letGo = () => {
      this.real = new Real(...given);
      this.real.onmessage = (event) => this.onmessage?.(event);
      this.real.onerror = (event) => this.onerror?.(event);
      for (const message of this.sent) this.real.postMessage(message);
    };
  }
  postMessage(message) { this.real ? this.real.postMessage(message) : this.sent.push(message); }
  terminate() { this.real?.terminate(); }
};
"""
# Every sheet in the page's store goes through CHANGE, and what that returns is put back; how many there are.
STORE = """() => new Promise((done, failed) => {
  const opening = indexedDB.open('keyval-store');
  opening.onerror = failed;
  opening.onsuccess = () => {
    const store = opening.result.transaction('keyval', 'readwrite').objectStore('keyval');
    const asked = store.openCursor();
    let count = 0;
    asked.onsuccess = () => {
      const at = asked.result;
      if (!at) return opening.result.close(), done(count);
      if (String(at.key).startsWith('sheet-')) count++, at.update((CHANGE)(at.value));
      at.continue();
    };
  };
})"""


def _change(change: str) -> str:
    return STORE.replace("CHANGE", change)


def _wait_until_kept(page: Page, count: int = 1) -> None:
    kept = page.evaluate(
        """async () => {
          for (let tries = 0; tries < 300; tries++) {
            if ((await (KEPT)()) >= COUNT) return true;
            await new Promise((resolve) => setTimeout(resolve, 100));
          }
          return false;
        }""".replace("KEPT", _change("(record) => record")).replace("COUNT", str(count))
    )
    assert kept, "no sheet was kept"


def _held(phone: BrowserContext, address: str) -> Page:
    page = phone.new_page()
    page.add_init_script(HOLD)
    page.goto(address)
    return page


def _checked(page: Page, word: str) -> None:
    expect(page.locator(".status")).to_have_attribute("data-checked", word)


def test_the_last_sheet_stands_at_once_and_is_checked(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    page.goto(served.address + JOB)
    lead = ".band-number .number"
    expect(page.locator(".band[data-lead]")).to_be_attached()
    _wait_until_kept(page)
    # An answer that came to stand change by change is none but the one that comes at once.
    number = page.locator(lead).inner_text()
    open_stage(page, "setting")
    entry(page, "setting.bar_centres").fill("126 mm")
    expect(page.locator(lead)).not_to_have_text(number)
    _wait_until_kept(page, 2)
    number = page.locator(lead).inner_text()
    assert any(each.isdigit() for each in number)
    typed = page.url
    assert "126" in typed
    page.close()

    again = _held(phone, typed)
    expect(again.locator(lead)).to_have_text(number)
    _checked(again, "not yet")
    expect(again.locator(".status")).to_contain_text("being checked")
    again.evaluate("letGo()")
    _checked(again, "yes")
    expect(again.locator(lead)).to_have_text(number)
    again.close()

    # Another request has no screen of its own yet, and is not shown this one's.
    other = _held(phone, served.address + OTHER)
    expect(other.locator(".status")).to_contain_text("Getting ready")
    assert other.locator(".band[data-lead]").count() == 0
    other.close()

    # What is typed before the core has started takes the number away, is kept, and is answered.
    typing = _held(phone, served.address + JOB)
    open_stage(typing, "setting")
    entry(typing, "setting.bar_centres").fill("127 mm")
    expect(typing.locator(lead)).to_have_text("—")
    expect(typing.locator(".status")).to_contain_text("Your change is kept")
    typing.evaluate("letGo()")
    _checked(typing, "yes")
    expect(typing.locator(lead)).not_to_have_text("—")
    assert typing.locator(lead).inner_text() != number
    expect(entry(typing, "setting.bar_centres")).to_have_value("127 mm")


@pytest.mark.deep
def test_a_sheet_that_is_not_the_answer_is_corrected_and_another_builds_is_not_shown(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    page.goto(served.address + JOB)
    lead = ".band-title"
    expect(page.locator(".band[data-lead]")).to_be_attached()
    _wait_until_kept(page)
    expect(page.locator(lead)).to_contain_text("Morse 2")
    wrong = "(record) => ({ ...record, sheet: record.sheet.replaceAll('Morse 2', 'Morse 3') })"
    assert page.evaluate(_change(wrong)) == 1
    page.close()

    again = _held(phone, served.address + JOB)
    expect(again.locator(lead)).to_contain_text("Morse 3")
    _checked(again, "not yet")
    again.evaluate("letGo()")
    _checked(again, "corrected")
    expect(again.locator(lead)).to_contain_text("Morse 2")
    expect(again.locator(".status")).to_contain_text("is corrected")
    again.evaluate(_change("(record) => ({ ...record, build: 'another' })"))
    again.close()

    another = _held(phone, served.address + JOB)
    expect(another.locator(".status")).to_contain_text("Getting ready")
    assert another.locator(".band[data-lead]").count() == 0
    another.close()

    # A record that is no sheet is no hindrance.
    later = phone.new_page()
    later.goto(served.address + JOB)
    expect(later.locator(".band[data-lead]")).to_be_attached()
