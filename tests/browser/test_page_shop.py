"""My shop: the drawer stays from job to job, and nothing that is opened takes its place unasked."""

from __future__ import annotations

import json
import re
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import go_to

MINE = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100+mm"
LINK = f"{MINE}&piece=9.9+drill|round|9.9mm|9.87mm|0.002mm|1"


def _ready(page: Page) -> None:
    expect(page.locator(".band-number")).to_be_enabled(timeout=60_000)


def _with_pieces(phone: BrowserContext, served: Served, *lines: str) -> Page:
    page = phone.new_page()
    page.goto(served.address + MINE)
    _ready(page)
    go_to(page, "Drawer")
    for count, line in enumerate(lines, 1):
        page.locator("#line-entry").fill(line)
        page.locator("#line-entry").press("Enter")
        expect(page.locator(".piece-row")).to_have_count(count)
    go_to(page, "Card")
    return page


def _names(page: Page) -> list[str]:
    go_to(page, "Drawer")
    return [str(each).split("\n")[0] for each in page.locator(".piece-name").all_inner_texts()]


def test_the_drawer_is_there_for_a_new_job_and_after_a_reload(phone: BrowserContext, served: Served) -> None:
    page = _with_pieces(phone, served, "4.2 drill 4.187", "leaf 6 thou")
    page.wait_for_timeout(600)
    assert "piece=" not in page.url
    page.reload()
    _ready(page)
    assert _names(page) == ["4.2 drill", "leaf 6 thou"]
    page.locator(".menu-button").tap()
    page.get_by_role("button", name="New job").tap()
    page.get_by_role("button", name="Morse 3").tap()
    # The bar is the shop's too: it is not asked for again.
    expect(page.locator(".band-title")).to_contain_text("Morse 3")
    assert _names(page) == ["4.2 drill", "leaf 6 thou"]


def test_a_piece_is_safe_before_all_is_worked_out(phone: BrowserContext, served: Served) -> None:
    """The browser may be ended by force at any moment: what the row shows is written down at once."""
    page = phone.new_page()
    page.add_init_script(
        "self.jotted = []; const set = Storage.prototype.setItem;"
        "Storage.prototype.setItem = function (key, text) {"
        "  if (key === 'conewright-shop') self.jotted.push(text); set.call(this, key, text); }"
    )
    page.goto(served.address + MINE)
    _ready(page)
    go_to(page, "Drawer")
    page.locator("#line-entry").fill("4.2 drill 4.187")
    page.locator("#line-entry").press("Enter")
    expect(page.locator(".piece-row")).to_have_count(1)
    page.wait_for_function("self.jotted.some((text) => text.includes('4.187'))", timeout=20_000)


def test_a_page_without_a_store_takes_nothing_from_one_that_has_it(
    phone: BrowserContext, served: Served
) -> None:
    """Beside it in another tab, and after it: its own piece comes to the others, and none goes."""
    page = _with_pieces(phone, served, "4.2 drill 4.187")
    page.wait_for_timeout(600)
    blind = phone.new_page()
    blind.add_init_script("IDBFactory.prototype.open = () => { throw new DOMException('no') }")
    blind.goto(served.address + MINE)
    _ready(blind)
    assert _names(blind) == []
    blind.locator("#line-entry").fill("leaf 6 thou")
    blind.locator("#line-entry").press("Enter")
    expect(blind.locator(".piece-row")).to_have_count(1)
    blind.wait_for_timeout(600)
    blind.close()
    assert _names(page) == ["4.2 drill"]
    page.close()
    page = phone.new_page()
    page.goto(served.address)
    _ready(page)
    assert _names(page) == ["4.2 drill", "leaf 6 thou"]


def test_a_link_with_pieces_leaves_the_drawer_alone_until_it_is_told(
    phone: BrowserContext, served: Served
) -> None:
    page = _with_pieces(phone, served, "4.2 drill 4.187", "leaf 6 thou")
    page.wait_for_timeout(600)
    page.evaluate(f"location.hash = '{LINK}'")
    expect(page.locator(".notice")).to_contain_text("your drawer is as it was")
    assert _names(page) == ["9.9 drill"]
    page.get_by_role("button", name="Leave them aside").tap()
    expect(page.locator(".piece-row")).to_have_count(2)
    assert _names(page) == ["4.2 drill", "leaf 6 thou"]
    page.evaluate(f"location.hash = '{LINK}&taper.length=50mm'")
    expect(page.locator(".notice")).to_contain_text("your drawer is as it was")
    go_to(page, "Drawer")
    page.get_by_role("button", name="Add it to my drawer").tap()
    expect(page.locator(".piece-row")).to_have_count(3)
    assert _names(page) == ["4.2 drill", "leaf 6 thou", "9.9 drill"]


def test_a_piece_not_to_hand_goes_into_no_stack(phone: BrowserContext, served: Served) -> None:
    page = _with_pieces(phone, served, "2.5 drill 2.4967")
    expect(page.locator(".glance-stack")).to_contain_text("2.5 drill")
    go_to(page, "Drawer")
    expect(page.locator(".piece-marks")).to_contain_text("in the stack")
    page.locator(".piece-hand").tap()
    expect(page.locator(".piece-hand")).to_have_attribute("aria-pressed", "false")
    go_to(page, "Card")
    expect(page.locator(".glance-stack")).not_to_contain_text("2.5 drill")
    go_to(page, "Drawer")
    page.locator(".piece-hand").tap()
    go_to(page, "Card")
    expect(page.locator(".glance-stack")).to_contain_text("2.5 drill")


def test_many_lines_go_in_by_one_paste_and_what_cannot_be_read_stays(
    phone: BrowserContext, served: Served
) -> None:
    page = _with_pieces(phone, served)
    go_to(page, "Drawer")
    page.locator("#line-entry").evaluate(
        """(field, text) => {
            const data = new DataTransfer();
            data.setData("text", text);
            const words = { clipboardData: data, bubbles: true, cancelable: true };
            field.dispatchEvent(new ClipboardEvent("paste", words));
        }""",
        "4.2 drill 4.187\n7 drill\nleaf 6 thou x2\n",
    )
    expect(page.locator(".piece-row")).to_have_count(2)
    expect(page.locator(".line-entry .fault")).to_contain_text("7 drill")
    page.get_by_role("button", name="Use #7 drill").tap()
    expect(page.locator(".piece-row")).to_have_count(3)
    expect(page.locator(".line-entry .fault")).to_have_count(0)


OLD = """(hash) => new Promise((done, failed) => {
    const opening = indexedDB.open("keyval-store");
    opening.onupgradeneeded = () => opening.result.createObjectStore("keyval");
    opening.onerror = failed;
    opening.onsuccess = () => {
        const store = opening.result.transaction("keyval", "readwrite").objectStore("keyval");
        store.clear();
        store.put({ format: 1, hash }, "last").onsuccess = () => { localStorage.clear(); done(); };
    };
}).then(() => null)"""


def test_the_drawer_of_the_last_job_of_before_becomes_the_shops(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    # Any address that runs no page of ours: the store is written as an earlier version left it.
    page.goto(served.address + "icon.svg")
    page.evaluate(OLD, LINK[1:])
    page.goto(served.address)
    _ready(page)
    expect(page.locator(".demo")).to_have_count(0)
    expect(page.locator(".notice")).to_have_count(0)
    assert _names(page) == ["9.9 drill"]
    page.wait_for_timeout(600)
    assert "piece=" not in page.url


def test_everything_goes_out_in_a_file_and_comes_in_beside_what_is_there(
    phone: BrowserContext, new_phone: object, served: Served, tmp_path: Path
) -> None:
    page = _with_pieces(phone, served, "4.2 drill 4.187", "leaf 6 thou")
    go_to(page, "Keep")
    page.locator("#keep-name").fill("the arbor")
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept-name")).to_have_text(["the arbor"])
    with page.expect_download() as coming:
        page.get_by_role("button", name="Save the file").tap()
    saved = tmp_path / "all.json"
    coming.value.save_as(saved)
    told = json.loads(saved.read_text("utf-8"))
    assert told["conewright"] == 1
    assert [piece["name"] for piece in told["shop"]["drawer"]] == ["4.2 drill", "leaf 6 thou"]
    other = new_phone().new_page()  # type: ignore[operator]
    other.goto(served.address + MINE)
    _ready(other)
    go_to(other, "Keep")
    other.locator(".file-in input").set_input_files(saved)
    expect(other.locator(".said").last).to_contain_text("1 set-ups (0 were here), 2 pieces (0 were here)")
    expect(other.locator(".kept-name")).to_have_text(["the arbor"])
    other.locator(".file-in input").set_input_files(saved)
    expect(other.locator(".said").last).to_contain_text("0 set-ups (1 were here), 0 pieces (2 were here)")
    assert _names(other) == ["4.2 drill", "leaf 6 thou"]
    go_to(other, "Keep")
    (tmp_path / "foreign.json").write_text('{"kept": [1]}')
    other.locator(".file-in input").set_input_files(tmp_path / "foreign.json")
    expect(other.locator(".said").last).to_contain_text("no file of Conewright")


def test_a_short_link_and_a_code_open_the_same_job(phone: BrowserContext, served: Served) -> None:
    page = _with_pieces(phone, served, *[f"{size / 10} drill" for size in range(21, 33)])
    page.evaluate("navigator.clipboard.writeText = (text) => Promise.resolve((self.copied = text))")
    go_to(page, "Keep")
    page.locator(".segment", has_text="and the drawer").tap()
    page.get_by_role("button", name="Copy the link").tap()
    expect(page.locator(".share .said")).to_contain_text("Copied")
    link = str(page.evaluate("self.copied"))
    assert re.search("#z=[A-Za-z0-9_-]+$", link)
    page.get_by_role("button", name="Show a code").tap()
    expect(page.locator(".code")).to_be_visible()
    other = phone.new_page()
    other.goto(link)
    _ready(other)
    expect(other.locator(".band-title")).to_contain_text("Morse 2")
    assert len(_names(other)) == 12
    other.goto("about:blank")
    other.goto(served.address + "#z=notpacked")
    expect(other.locator(".troubles")).to_be_visible()
