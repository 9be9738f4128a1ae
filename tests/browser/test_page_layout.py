"""Room for thumbs and eyes: sideways scrolling, sizes of targets, contrast, the two looks."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import go_to, open_menu, open_stage


def test_the_number_stays_above_the_fold_with_text_twice_as_large(
    new_phone: Callable[..., BrowserContext], served: Served
) -> None:
    page = new_phone(is_mobile=False).new_page()
    page.goto(served.address)
    page.add_style_tag(content=":root { font-size: 200% !important }")
    box = page.locator(".band-number .number").bounding_box()
    dock = page.locator(".dock").bounding_box()
    assert box and dock
    assert box["y"] + box["height"] <= dock["y"]


# Whether a step hangs over the screen's edge, and what of its picture's letters is cut or hard to read.
STEPS = """async () => {
    const seen = {};
    for (let turn = 0; turn < 60; turn++) {
        const { step } = document.querySelector(".one").dataset;
        if (step in seen) break;
        const faults = document.documentElement.scrollWidth > innerWidth ? ["wider than the screen"] : [];
        for (const one of document.querySelectorAll(".one .picture svg")) {
            const box = one.getBoundingClientRect();
            for (const text of one.querySelectorAll("text")) {
                const { left, right, top, bottom } = text.getBoundingClientRect();
                const large = parseFloat(getComputedStyle(text).fontSize) * one.getScreenCTM().a;
                const across = left >= box.left - 1 && right <= box.right + 1;
                const down = top >= box.top - 1 && bottom <= box.bottom + 1;
                if (large < 11.99 || !across || !down) faults.push(text.textContent);
            }
        }
        seen[step] = faults;
        document.querySelector(".dock .strong").click();
        for (let wait = 0; wait < 3; wait++) await new Promise((then) => setTimeout(then, 10));
    }
    return seen;
}"""


@pytest.mark.parametrize(("width", "text"), [(360, "200%"), (320, "100%")])
def test_every_step_by_itself_is_whole(
    new_phone: Callable[..., BrowserContext], served: Served, width: int, text: str
) -> None:
    page = new_phone(is_mobile=False, viewport={"width": width, "height": 740}).new_page()
    page.goto(served.address)
    expect(page.locator(".glance .picture svg")).to_be_visible(timeout=60_000)
    page.evaluate("(text) => document.documentElement.style.setProperty('font-size', text)", text)
    go_to(page, "Steps")
    # All of the route is there up to the proof, and the first step is in hand.
    expect(page.locator(".lathe li[data-step='proving.enter']")).to_be_attached()
    page.locator(".dock").get_by_role("button", name="One", exact=True).click()
    expect(page.locator(".one")).to_be_visible()
    seen: dict[str, list[str]] = page.evaluate(STEPS)
    assert len(seen) > 20
    assert {name: faults for name, faults in seen.items() if faults} == {}


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
        """() => [".band-title", ".band-number .number", ".band-unit", ".value .number", ".stage-line",
                  ".figure-label", ".status p", ".field label"].map((part) => {
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


def test_the_card_goes_on_as_a_line_for_every_stage_and_opens_by_keyboard(opened: Page) -> None:
    heads = opened.locator(".stage-head")
    expect(heads.first).to_be_visible()
    for head in heads.all():
        assert len(head.locator(".stage-line").inner_text()) > 5
    heads.first.focus()
    heads.first.press("Enter")
    expect(opened.locator(".stage")).to_be_visible()
    opened.go_back()
    expect(opened.locator(".page")).to_have_attribute("data-place", "card")


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


@pytest.mark.stored
def test_the_page_says_when_it_is_stored(opened: Page) -> None:
    expect(opened.locator(".status")).to_contain_text("works without a network", timeout=20_000)
