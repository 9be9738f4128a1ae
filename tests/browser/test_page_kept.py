"""The kept list: keep, open, rename, delete, undo, and what storage of another version holds."""

from __future__ import annotations

from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import entry, go_to, open_stage

JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres={}"


def _keep(page: Page, name: str) -> None:
    go_to(page, "Keep")
    page.locator("#keep-name").fill(name)
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept-name", has_text=name)).to_be_visible()


def test_set_ups_are_kept_opened_renamed_and_deleted_with_undo(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    page.goto(served.address + JOB.format("100mm"))
    _keep(page, "short bar")
    page.evaluate(f"location.hash = '{JOB.format('127mm')}'")
    _keep(page, "five inch bar")
    expect(page.locator(".kept-name")).to_have_text(["five inch bar", "short bar"])

    page.locator(".kept-open", has_text="short bar").tap()
    open_stage(page, "setting")
    expect(entry(page, "setting.bar_centres")).to_have_value("100mm")

    go_to(page, "Keep")
    page.get_by_role("button", name="More: short bar").tap()
    page.get_by_role("button", name="Rename: short bar").tap()
    page.locator(".rename-form input").fill("the short one")
    page.get_by_role("button", name="Save the name").tap()
    expect(page.locator(".kept-name")).to_have_text(["five inch bar", "the short one"])

    page.get_by_role("button", name="More: five inch bar").tap()
    page.get_by_role("button", name="Delete: five inch bar").tap()
    expect(page.locator(".kept-name")).to_have_text(["the short one"])
    page.get_by_role("button", name="Undo").tap()
    expect(page.locator(".kept-name")).to_have_text(["five inch bar", "the short one"])

    again = phone.new_page()
    again.goto(served.address)
    go_to(again, "Keep")
    expect(again.locator(".kept-name")).to_have_text(["five inch bar", "the short one"])
    expect(again.locator(".kept")).to_contain_text("a browser may clear its storage")


def test_records_of_a_newer_version_are_left_as_they_are(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    page.goto(served.address + JOB.format("100mm"))
    _keep(page, "mine")
    page.evaluate(
        """() => new Promise((done, failed) => {
            const opening = indexedDB.open("keyval-store");
            opening.onerror = failed;
            opening.onsuccess = () => {
                const store = opening.result.transaction("keyval", "readwrite").objectStore("keyval");
                store.get("kept").onsuccess = ({ target }) => {
                    store.put([...target.result, { format: 9, something: "else" }], "kept").onsuccess = done;
                };
            };
        }).then(() => null)"""
    )
    page.reload()
    # Until the page has begun anew, the place of before may still stand there.
    expect(page.locator(".band-number")).to_be_enabled()
    go_to(page, "Keep")
    expect(page.locator(".kept")).to_contain_text("1 more were kept by a newer Conewright")
    page.get_by_role("button", name="More: mine").tap()
    page.get_by_role("button", name="Delete: mine").tap()
    expect(page.locator(".kept-name")).to_have_count(0)
    page.reload()
    # Until the page has begun anew, the place of before may still stand there.
    expect(page.locator(".band-number")).to_be_enabled()
    go_to(page, "Keep")
    expect(page.locator(".kept")).to_contain_text("1 more were kept by a newer Conewright")


def test_a_browser_that_stores_nothing_is_told_of_and_the_link_still_holds_the_job(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    page.add_init_script("IDBFactory.prototype.open = () => { throw new Error('no storage') }")
    page.goto(served.address + JOB.format("100mm"))
    go_to(page, "Keep")
    page.locator("#keep-name").fill("mine")
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept .fault")).to_contain_text("refuses to store")
    assert "setting.bar_centres=100mm" in page.url


def test_another_parts_measures_are_put_away_for_the_next_one(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    whole = "finishing.across_now=9.8+mm&seen=way|contact|end|all"
    page.goto(f"{served.address}{JOB.format('100mm')}&{whole}")
    begin = page.locator(".glance").get_by_role("button", name="begin the next part")
    expect(begin).to_be_visible()
    begin.tap()
    expect(begin).to_have_count(0)
    page.wait_for_url(lambda url: "seen=" not in url and "across_now" not in url and "Morse" in url)
    page.get_by_role("button", name="Undo").tap()
    expect(begin).to_be_visible()
    page.wait_for_url(lambda url: "seen=" in url and "across_now" in url)
    # A part that was begun here is no other one's: what is ticked tells it.
    go_to(page, "Steps")
    page.locator(".dock .strong").tap()
    go_to(page, "Card")
    expect(page.locator(".glance-row").first).to_be_visible()
    expect(begin).to_have_count(0)


def test_a_job_taken_up_again_is_the_newest_at_once(phone: BrowserContext, served: Served) -> None:
    """Not once it is changed, nor a moment later: the browser may be ended as soon as it stands there."""
    page = phone.new_page()
    for length in ("61", "62"):
        page.goto("about:blank")
        page.goto(served.address + JOB.format("100mm") + f"&taper.length={length}+mm")
        expect(page.locator(".dock")).to_be_visible()
    go_to(page, "Keep")
    page.locator(".last-open").first.tap()
    newest = "JSON.parse(localStorage.getItem('conewright.journal')).hash.includes('length=61+mm')"
    page.wait_for_function(newest, timeout=20_000)
