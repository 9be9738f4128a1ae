"""Rounds of a person's work, with all that can go wrong under it; each tells the model what must be there."""

from __future__ import annotations

import json
import os
import signal
from collections.abc import Callable

from playwright.sync_api import Error, expect

from page_parts import go_to
from person.hand import MINE, Hand, length_in
from person.model import SetUp

REFUSING = "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError') }"
# What a full store does: the writing begins, and nothing of it is there afterwards.
FULL = """() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...told) {
        const asked = put.apply(this, told);
        this.transaction.abort();
        return asked;
    };
    Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError") };
}"""
ACTS: dict[str, Callable[[Hand], None]] = {}


def act(take: Callable[[Hand], None]) -> Callable[[Hand], None]:
    ACTS[take.__name__] = take
    return take


def _any(hand: Hand) -> str | None:
    return hand.chance.choice(hand.model.kept).name if hand.model.kept else None


@act
def edit(hand: Hand) -> None:
    hand.type_length()


@act
def edit_and_reload_at_once(hand: Hand) -> None:
    hand.type_length()
    hand.page.reload()
    hand.ready()


@act
def edit_and_leave_at_once(hand: Hand) -> None:
    hand.type_length()
    hand.again()


@act
def keep(hand: Hand) -> None:
    if len(hand.model.kept) > 9:
        return delete(hand)
    hand.type_length()
    hand.keep()


@act
def keep_and_leave_at_once(hand: Hand) -> None:
    """Broken off in the middle of a save: there wholly, or not at all."""
    hand.type_length()
    name = f"set-up {hand.model.number()}"
    hand.open_list()
    hand.page.locator("#keep-name").fill(name)
    hand.page.get_by_role("button", name="Keep it").evaluate("(button) => button.click()")
    hand.again()
    there = hand.kept_really()
    with_it = [SetUp(name, hand.model.length), *hand.model.kept]
    assert there in (hand.model.kept, with_it), hand.model.told()
    hand.model.kept = there


@act
def rename(hand: Hand) -> None:
    name = _any(hand)
    if name is None:
        return
    new = f"renamed {hand.model.number()}"
    hand.act(name, "Rename")
    hand.page.locator(".rename-form input").fill(new)
    hand.page.get_by_role("button", name="Save the name").tap()
    expect(hand.page.locator(".kept-name").get_by_text(new, exact=True)).to_be_visible()
    at = hand.model.place(name)
    hand.model.kept[at] = SetUp(new, hand.model.kept[at].length)


@act
def delete(hand: Hand) -> None:
    name = _any(hand)
    if name is None:
        return
    hand.act(name, "Delete")
    expect(hand.page.locator(".kept-name").get_by_text(name, exact=True)).to_have_count(0)
    del hand.model.kept[hand.model.place(name)]


@act
def delete_and_undo(hand: Hand) -> None:
    name = _any(hand)
    if name is None:
        return
    hand.act(name, "Delete")
    expect(hand.page.locator(".kept-name").get_by_text(name, exact=True)).to_have_count(0)
    hand.page.get_by_role("button", name="Undo", exact=True).tap()
    expect(hand.page.locator(".kept-name").get_by_text(name, exact=True)).to_be_visible()


@act
def put_in_its_place(hand: Hand) -> None:
    name = _any(hand)
    if name is None:
        return
    hand.type_length()
    hand.act(name, "Put this job in its place")
    expect(hand.page.get_by_text(f"{name} holds this job now").first).to_be_visible()
    hand.model.kept[hand.model.place(name)] = SetUp(name, hand.model.length)


@act
def move_up(hand: Hand) -> None:
    name = _any(hand)
    if name is None:
        return
    hand.act(name, "Move up")
    at = hand.model.place(name)
    if at > 0:
        kept = hand.model.kept
        kept[at - 1], kept[at] = kept[at], kept[at - 1]


@act
def open_kept(hand: Hand) -> None:
    name = _any(hand)
    if name is None:
        return
    hand.open_list()
    hand.page.locator(".kept-name").get_by_text(name, exact=True).tap()
    expect(hand.page.locator(".page")).to_have_attribute("data-place", "card")
    hand.model.length = hand.model.kept[hand.model.place(name)].length


@act
def crash(hand: Hand) -> None:
    """The page's process is gone, as when a phone wants its memory back."""
    hand.type_length()
    browser = hand.phone.browser
    assert browser is not None
    told = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")
    with hand.page.expect_event("crash", timeout=20_000):
        for one in told["processInfo"]:
            if one["type"] == "renderer":
                os.kill(one["id"], signal.SIGKILL)
    for left in (2, 1, 0):
        try:
            return hand.again()
        except Error:
            # The browser had one of those in reserve, and gave it to the new page.
            if not left:
                raise


@act
def two_tabs(hand: Hand) -> None:
    """Both keep: neither writes over what the other kept."""
    if len(hand.model.kept) > 8:
        return delete(hand)
    first = hand.page
    hand.page = hand.phone.new_page()
    hand.page.goto(hand.address)
    hand.ready()
    assert hand.typed() == hand.model.length, hand.model.told()
    keep(hand)
    mine = hand.model.length
    second, hand.page = hand.page, first
    # This tab's own job is as it was before the other one's.
    hand.model.length = hand.typed()
    keep(hand)
    second.bring_to_front()
    hand.page = second
    hand.model.length = mine
    # It looks again when the person comes back to its list.
    go_to(second, "Change")
    hand.check()
    second.close()
    hand.page = first
    hand.model.length = hand.typed()
    hand.type_length()


@act
def storage_full(hand: Hand) -> None:
    """The page says so, and what was there stays."""
    hand.page.evaluate(FULL)
    hand.begin_keeping(f"set-up {hand.model.number()}")
    expect(hand.page.locator(".kept .fault")).to_contain_text("refuses to store")
    hand.page.reload()
    hand.ready()


@act
def storage_refused(hand: Hand) -> None:
    """A page without a store: the job is in the address, and nothing kept is touched."""
    other = hand.phone.new_page()
    other.add_init_script(REFUSING)
    other.goto(f"{hand.address}{MINE}&taper.length=1999+mm")
    hand.ready(other)
    go_to(other, "Keep")
    other.locator("#keep-name").fill("nowhere")
    other.get_by_role("button", name="Keep it").tap()
    expect(other.locator(".kept .fault")).to_contain_text("refuses to store")
    assert length_in(other.url) == "1999 mm"
    other.close()
    # What was opened last is what the next page begins with, as with a store: now it is this page's again.
    hand.type_length()


@act
def storage_cleared(hand: Hand) -> None:
    """Under the open page: it notices, and gives everything back."""
    hand.open_list()
    wire = hand.wire()
    origin = hand.address.rstrip("/")
    wire.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": "indexeddb,local_storage"})
    go_to(hand.page, "Change")
    hand.open_list()
    if hand.model.kept or hand.model.pieces:
        expect(hand.page.locator(".lost")).to_contain_text("was cleared")
        hand.page.get_by_role("button", name="Put them back").tap()
        expect(hand.page.locator(".lost")).to_have_count(0)
    elif hand.page.get_by_role("button", name="Put them back").count():
        hand.page.get_by_role("button", name="Put them back").tap()
    hand.type_length()


@act
def clock_set_back(hand: Hand) -> None:
    """By minutes or months, and now and then forward; then the work goes on, and the page is left at once."""
    shift = hand.chance.choice((-200 * 86400, -3600, -60, 0, 3600, 400 * 86400)) * 1000
    hand.page.evaluate(f"document.cookie = 'shift={shift}; max-age=999999'")
    hand.type_length()
    hand.model.said.append(f"clock {shift} ms")
    if hand.chance.random() < 0.5:
        hand.page.wait_for_url(f"**taper.length={hand.model.length.replace(' ', '+')}**")
    hand.again()


@act
def a_link_pasted_and_back(hand: Hand) -> None:
    hand.type_length()
    hand.page.evaluate(f"location.hash = '{MINE}&taper.length=1998+mm'")
    expect(hand.page.get_by_role("button", name="Undo", exact=True).first).to_be_visible()
    assert hand.typed() == "1998 mm"
    hand.page.evaluate(f"location.hash = '{MINE}&taper.length={hand.model.length.replace(' ', '+')}'")
    expect(hand.page.locator(".page")).to_have_attribute("data-place", "card")


@act
def a_piece(hand: Hand) -> None:
    """Into the drawer, by a line."""
    if len(hand.model.pieces) > 12:
        return edit(hand)
    line = f"{0.5 + hand.model.number() / 100:.2f} drill"
    go_to(hand.page, "Drawer")
    # A number in force: pieces come through the core, which has to have started.
    expect(hand.page.locator(".band-number")).to_be_enabled(timeout=60_000)
    hand.page.locator("#line-entry").fill(line)
    hand.page.locator("#line-entry").press("Enter")
    rows = hand.page.locator(".piece-row")
    expect(rows, hand.model.told()).to_have_count(len(hand.model.pieces) + 1)
    hand.model.pieces.append(str(hand.page.locator(".piece-name").last.inner_text()).split("\n")[0])


def _file(hand: Hand, content: str) -> None:
    hand.open_list()
    files = [{"name": "kept.json", "mimeType": "application/json", "buffer": content.encode()}]
    hand.page.locator(".file-in input").set_input_files(files)  # type: ignore[arg-type]


def _set_ups(hand: Hand) -> list[dict[str, object]]:
    found = []
    for _ in range(hand.chance.randint(1, 2)):
        number = hand.model.number()
        text = f"{MINE[1:]}&taper.length={number + 2000}+mm"
        found.append({"format": 1, "id": f"file-{number}", "name": f"filed {number}", "hash": text,
                      "kept_at": "2025-01-01T00:00:00.000Z"})  # fmt: skip
    return found


@act
def file_stopped_half_way(hand: Hand) -> None:
    """All of the file or nothing of it; taken in once more, all of it."""
    if len(hand.model.kept) > 8:
        return delete(hand)
    records = _set_ups(hand)
    came = [SetUp(str(one["name"]), length_in(str(one["hash"]))) for one in records]
    shop = {"entries": {}, "drawer": [], "history": []}
    content = json.dumps({"conewright": 1, "kept": records, "shop": shop})
    _file(hand, content)
    hand.again()
    there = hand.kept_really()
    assert there in (hand.model.kept, [*hand.model.kept, *came]), hand.model.told()
    _file(hand, content)
    expect(hand.page.locator(".said").last).to_contain_text("Came in:")
    hand.model.kept = [*hand.model.kept, *came]


@act
def file_that_is_none(hand: Hand) -> None:
    """Damaged, foreign, or of a newer format: told, and nothing is changed."""
    whole = json.dumps({"conewright": 1, "kept": _set_ups(hand), "shop": None})
    content = hand.chance.choice((
        "", "null", "[]", "{}", whole[: hand.chance.randrange(1, len(whole) - 1)], whole.replace("1", "2", 1),
        '{"conewright": 1, "kept": 7, "shop": 3}', '{"conewright": 1, "kept": [{"format": 9}], "shop": []}',
        '{"conewright": 1, "shop": {"entries": 5, "drawer": [null, 3], "history": "x"}}', "\x00\x01PNG",
    ))  # fmt: skip
    hand.model.said.append(f"file {content[:60]!r}")
    _file(hand, content)
    expect(hand.page.locator(".said").last).not_to_be_empty()


def take(hand: Hand, names: list[str]) -> None:
    """So many rounds, each with its check."""
    for name in names:
        hand.model.said.append(name)
        ACTS[name](hand)
        hand.check()

