"""Room for thumbs and eyes: sideways scrolling, sizes of targets, contrast, the two looks."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import every_place, open_menu, open_stage

TARGETS = """() => ["button", "select", ".segment", ".tick", "textarea",
        "input:not([type=radio], [type=checkbox])"]
    .flatMap((kind) => [...document.querySelectorAll(kind)])
    .map((one) => ({ box: one.getBoundingClientRect(), name: (one.textContent || one.id).slice(0, 40),
        held: one.closest(".foot, .band, .undo") !== null }))
    .filter(({ box }) => box.width > 0)
    .map(({ box: { x, y, width, height }, name, held }) => ({ name, held, x, y, width, height }))"""


def _widest(page: Page) -> int:
    return int(page.evaluate("document.documentElement.scrollWidth"))


def test_targets_are_large_enough_and_apart(opened: Page) -> None:
    seen = 0
    for place in every_place(opened):
        targets = opened.evaluate(TARGETS)
        seen += len(targets)
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
    assert seen > 150


def _rows(one: dict[str, float], other: dict[str, float]) -> bool:
    """Rows of a list with a rule between: a finger meets one of the two, and either is harmless."""
    return min(one["height"], other["height"]) >= 56 and abs(one["x"] - other["x"]) < 1


@pytest.mark.parametrize(
    ("width", "text"), [(320, "100%"), (360, "200%"), (320, "200%"), (768, "100%"), (1200, "100%")]
)
def test_nothing_makes_the_page_scroll_sideways(
    new_phone: Callable[..., BrowserContext], served: Served, width: int, text: str
) -> None:
    page = new_phone(viewport={"width": width, "height": 740}, is_mobile=False).new_page()
    page.goto(served.address)
    page.add_style_tag(content=f":root {{ font-size: {text} !important }}")
    for place in every_place(page):
        assert _widest(page) <= width, place
        inner = page.evaluate("(one => one.scrollWidth - one.clientWidth)(document.querySelector('main'))")
        assert inner <= 0, place


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


def test_the_page_says_when_it_is_stored(opened: Page) -> None:
    expect(opened.locator(".status")).to_contain_text("works without a network", timeout=20_000)
