"""axe-core finds nothing: daylight, dark, narrow, wide, everything open, faults shown, paper aside."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import ROOT, Served
from page_parts import beside, entry, every_place, go_to, open_stage

AXE = ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js"


def _violations(page: Page) -> list[str]:
    page.evaluate(AXE.read_text("utf-8"))
    found = page.evaluate("async () => (await axe.run()).violations")
    return [f"{each['id']}: {node['html'][:150]}" for each in found for node in each["nodes"]]


@pytest.mark.parametrize(("scheme", "width"), [("light", 360), ("dark", 360), ("light", 320), ("dark", 1200)])
def test_axe_finds_nothing(
    new_phone: Callable[..., BrowserContext], served: Served, scheme: str, width: int
) -> None:
    context = new_phone(color_scheme=scheme, viewport={"width": width, "height": 740}, is_mobile=False)
    page = context.new_page()
    page.goto(served.address)
    for place in every_place(page):
        assert _violations(page) == [], place
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


def test_axe_finds_nothing_while_the_keys_are_up(opened: Page) -> None:
    go_to(opened, "Change")
    entry(opened, "taper.length").tap()
    expect(opened.locator(".keypad")).to_be_visible()
    assert _violations(opened) == []


def test_axe_finds_a_fault_that_is_there(opened: Page) -> None:
    """The check can fail: a picture without words is found."""
    expect(opened.locator(".stage-head").first).to_be_visible()
    opened.evaluate("document.querySelector('main').append(document.createElement('img'))")
    assert any(found.startswith("image-alt") for found in _violations(opened))
