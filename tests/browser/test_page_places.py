"""Every screen of the page in turn, all unfolded: axe-core finds nothing, thumbs and eyes have their room."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, ViewportSize, expect

from in_browser import ROOT, Served
from page_parts import beside, entry, every_place, go_to, open_stage

AXE = ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js"

TARGETS = """() => ["button", "select", ".segment", ".tick", "textarea",
        "input:not([type=radio], [type=checkbox])"]
    .flatMap((kind) => [...document.querySelectorAll(kind)])
    .map((one) => ({ box: one.getBoundingClientRect(), name: (one.textContent || one.id).slice(0, 40),
        held: one.closest(".foot, .band, .undo") !== null }))
    .filter(({ box }) => box.width > 0)
    .map(({ box: { x, y, width, height }, name, held }) => ({ name, held, x, y, width, height }))"""




# The bar says whole what the job is, and breaks no word.
TITLE = """() => {
    const title = document.querySelector(".band-title"), text = document.createRange();
    const word = Math.max(...title.textContent.split(" ").map((one) => {
        const at = title.textContent.indexOf(one);
        text.setStart(title.firstChild, at);
        text.setEnd(title.firstChild, at + one.length);
        return text.getClientRects().length;
    }));
    return title.scrollHeight <= title.clientHeight + 1 && word === 1;
}"""


def _violations(page: Page, *rules: str) -> list[str]:
    """What axe-core finds by these rules, or by all that it has."""
    if page.evaluate("!('axe' in self)"):
        page.evaluate(AXE.read_text("utf-8"))
    found = page.evaluate(
        "async (rules) => (await axe.run(rules.length ? { runOnly: rules } : {})).violations", list(rules)
    )
    return [f"{each['id']}: {node['html'][:150]}" for each in found for node in each["nodes"]]


def _assert_no_way_sideways(page: Page, place: str) -> None:
    width = page.evaluate("innerWidth")
    assert page.evaluate("document.documentElement.scrollWidth") <= width, (place, width)
    inner = page.evaluate("(one => one.scrollWidth - one.clientWidth)(document.querySelector('main'))")
    assert inner <= 0, (place, width)


def _assert_room_for_thumbs(page: Page, place: str) -> int:
    """Targets of 48 px and apart; returns how many there were."""
    targets = page.evaluate(TARGETS)
    for target in targets:
        assert target["width"] >= 48, (place, target)
        assert target["height"] >= 48, (place, target)
    for at, one in enumerate(targets):
        for other in targets[at + 1 :]:
            # What is held at the screen's edge has the rest of the page scroll under it.
            if one["held"] != other["held"]:
                continue
            across = max(one["x"], other["x"]) - min(one["x"] + one["width"], other["x"] + other["width"])
            down = max(one["y"], other["y"]) - min(one["y"] + one["height"], other["y"] + other["height"])
            apart = 0 if _rows(one, other) else 7.5
            assert max(across, down) >= apart - 0.1, (place, one, other)
    return len(targets)


def _rows(one: dict[str, float], other: dict[str, float]) -> bool:
    """Rows of a list with a rule between: a finger meets one of the two, and either is harmless."""
    return min(one["height"], other["height"]) >= 56 and abs(one["x"] - other["x"]) < 1


def _sized(page: Page, text: str) -> None:
    page.evaluate("(text) => document.documentElement.style.setProperty('font-size', text)", text)


def test_every_place_of_a_phone(new_phone: Callable[..., BrowserContext], served: Served) -> None:
    phone: ViewportSize = {"width": 360, "height": 740}
    # Not as a phone: a phone would make a page that is too wide smaller, where it is to be caught.
    page = new_phone(viewport=phone, is_mobile=False, color_scheme="light").new_page()
    page.goto(served.address)
    seen = 0
    for place in every_place(page):
        seen += _assert_room_for_thumbs(page, place)
        assert _violations(page) == [], place
        # In the dark nothing is other than the colours.
        page.emulate_media(color_scheme="dark")
        assert _violations(page, "color-contrast") == [], place
        page.emulate_media(color_scheme="light")
        for width, text in ((320, "100%"), (768, "100%"), (360, "200%"), (320, "200%")):
            page.set_viewport_size({"width": width, "height": 740})
            _sized(page, text)
            _assert_no_way_sideways(page, place)
            assert page.evaluate(TITLE), (place, width, text)
        page.set_viewport_size(phone)
        _sized(page, "100%")
    assert seen > 150
    # With a fault, and a link of which some was left out.
    open_stage(page, "setting")
    go_to(page, "Change")
    entry(page, "taper.length").fill("4.2mm drill and")
    expect(beside(page, "taper.length").locator(".fault")).to_be_visible()
    assert _violations(page) == []
    page.evaluate("location.hash = '#format=1&units=furlong&odd.one=7&taper.series=Morse&taper.size=2'")
    expect(page.locator(".troubles")).to_be_visible()
    expect(page.locator(".problems")).to_be_visible()
    assert _violations(page) == []


@pytest.mark.deep
def test_every_place_of_a_wide_screen(new_phone: Callable[..., BrowserContext], served: Served) -> None:
    wide: ViewportSize = {"width": 1200, "height": 740}
    page = new_phone(viewport=wide, is_mobile=False, color_scheme="dark").new_page()
    page.goto(served.address)
    for place in every_place(page):
        _assert_no_way_sideways(page, place)
        assert _violations(page) == [], place


def test_axe_finds_nothing_while_the_keys_are_up(opened: Page) -> None:
    go_to(opened, "Change")
    entry(opened, "taper.length").tap()
    expect(opened.locator(".keypad")).to_be_visible()
    assert _violations(opened) == []
    # The check can fail: a picture without words is found.
    opened.evaluate("document.querySelector('main').append(document.createElement('img'))")
    assert any(found.startswith("image-alt") for found in _violations(opened))
