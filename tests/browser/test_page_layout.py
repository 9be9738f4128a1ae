"""Room for thumbs and eyes: sideways scrolling, sizes of targets, contrast, the two looks."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import open_menu, open_stage

TARGETS = """() => ["button", "select", "input:not([type=radio])", ".segment", "textarea"]
    .flatMap((kind) => [...document.querySelectorAll(kind)])
    .map((one) => ({ box: one.getBoundingClientRect(), name: (one.textContent || one.id).slice(0, 40) }))
    .filter(({ box }) => box.width > 0)
    .map(({ box, name }) => ({ name, x: box.x, y: box.y + scrollY, width: box.width, height: box.height }))"""


def _everything_open(page: Page) -> None:
    expect(page.locator(".stage-head").first).to_be_visible()
    for stage in page.locator(".stage").all():
        open_stage(page, str(stage.get_attribute("data-stage")))
    page.get_by_role("button", name=re.compile("^Show [0-9]+ pieces")).tap()
    page.locator(".piece-row").nth(2).tap()
    expect(page.locator(".piece-editor")).to_be_visible()
    for figure in page.locator(".figure-row").all():
        figure.tap()
    open_menu(page)


def _widest(page: Page) -> int:
    return int(page.evaluate("document.documentElement.scrollWidth"))


def test_targets_are_large_enough_and_apart(opened: Page) -> None:
    _everything_open(opened)
    targets = opened.evaluate(TARGETS)
    assert len(targets) > 40
    for target in targets:
        assert target["width"] >= 48, target
        assert target["height"] >= 48, target
    for place, one in enumerate(targets):
        for other in targets[place + 1 :]:
            across = max(one["x"], other["x"]) - min(one["x"] + one["width"], other["x"] + other["width"])
            down = max(one["y"], other["y"]) - min(one["y"] + one["height"], other["y"] + other["height"])
            assert max(across, down) > 7.5, (one, other)


@pytest.mark.parametrize(
    ("width", "text"), [(320, "100%"), (360, "200%"), (320, "200%"), (768, "100%"), (1200, "100%")]
)
def test_nothing_makes_the_page_scroll_sideways(
    new_phone: Callable[..., BrowserContext], served: Served, width: int, text: str
) -> None:
    page = new_phone(viewport={"width": width, "height": 740}, is_mobile=False).new_page()
    page.goto(served.address)
    page.add_style_tag(content=f":root {{ font-size: {text} !important }}")
    assert _widest(page) <= width
    _everything_open(page)
    assert _widest(page) <= width


def _luminance(colour: str) -> float:
    parts = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]]
    # WCAG 2.1, relative luminance.
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(one: str, other: str) -> float:
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("look", ["Daylight", "Dark"])
def test_results_stand_out_seven_to_one_in_both_looks(opened: Page, look: str) -> None:
    open_menu(opened)
    opened.locator(".menu .segment", has_text=look).tap()
    open_stage(opened, "setting")
    colours = opened.evaluate(
        """() => [".band-title", ".value .number", ".value .other", ".value .plus-minus", ".stage-line",
                  ".figure-label", ".help", ".status p", ".card-lead .figure-label"].map((part) => {
            const one = document.querySelector(part);
            let behind = one;
            const clear = (box) => getComputedStyle(box).backgroundColor === "rgba(0, 0, 0, 0)";
            while (behind && clear(behind)) behind = behind.parentElement;
            const paper = getComputedStyle(behind ?? document.documentElement).backgroundColor;
            return { part, ink: getComputedStyle(one).color, paper };
        })"""
    )
    for colour in colours:
        assert _contrast(colour["ink"], colour["paper"]) >= 7, colour
    opened.reload()
    assert opened.evaluate("document.documentElement.dataset.look") == look.lower()


def test_the_look_follows_the_device_until_it_is_chosen(
    new_phone: Callable[..., BrowserContext], served: Served
) -> None:
    papers = {}
    for scheme in ("light", "dark"):
        page = new_phone(color_scheme=scheme).new_page()
        page.goto(served.address)
        papers[scheme] = _luminance(
            page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
        )
    assert papers["light"] > 0.9
    assert papers["dark"] < 0.02


def test_the_folded_page_reads_as_a_job_card_and_opens_by_keyboard(opened: Page) -> None:
    heads = opened.locator(".stage-head")
    expect(heads.first).to_be_visible()
    for head in heads.all():
        expect(head).to_have_attribute("aria-expanded", "false")
        assert len(head.locator(".stage-line").inner_text()) > 5
    heads.first.focus()
    heads.first.press("Enter")
    expect(heads.first).to_have_attribute("aria-expanded", "true")
    opened.keyboard.press("Tab")
    assert opened.evaluate("document.activeElement.closest('.stage-body') !== null")


def test_a_plain_http_address_says_that_offline_use_needs_another(
    new_phone: Callable[..., BrowserContext], served: Served
) -> None:
    page = new_phone().new_page()
    # As on a plain http address in the local network: no secure context, no service worker.
    page.add_init_script(
        "delete Navigator.prototype.serviceWorker;"
        "Object.defineProperty(self, 'isSecureContext', { value: false, configurable: true });"
    )
    page.goto(served.address)
    expect(page.locator(".status")).to_contain_text("https or localhost address")


def test_the_page_says_when_it_is_stored(opened: Page) -> None:
    expect(opened.locator(".status")).to_contain_text("works without a network", timeout=20_000)
