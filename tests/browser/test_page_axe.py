"""axe-core finds nothing: daylight, dark, narrow, wide, everything open, faults shown, paper aside."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import ROOT, Served
from page_parts import beside, entry, open_menu, open_stage

AXE = ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js"


def _violations(page: Page) -> list[str]:
    page.evaluate(AXE.read_text("utf-8"))
    found = page.evaluate("async () => (await axe.run()).violations")
    return [f"{each['id']}: {node['html'][:150]}" for each in found for node in each["nodes"]]


def _everything_open(page: Page) -> None:
    expect(page.locator(".stage-head").first).to_be_visible()
    for stage in page.locator(".stage").all():
        open_stage(page, str(stage.get_attribute("data-stage")))
    page.get_by_role("button", name=re.compile("^Show [0-9]+ pieces")).tap()
    page.locator(".piece-row").nth(2).tap()
    page.locator(".several-head").first.tap()
    page.get_by_role("button", name=re.compile("^Work out [0-9]+ rows$")).tap()
    expect(page.locator(".later")).to_contain_text("rows worked out", timeout=20_000)
    for figure in page.locator(".figure-row").all():
        figure.tap()
    page.get_by_role("button", name="Add a piece").first.tap()
    page.get_by_role("button", name="Remove this piece").tap()
    open_menu(page)
    page.locator("#keep-name").fill("mine")
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept-name")).to_have_text("mine")


@pytest.mark.parametrize(("scheme", "width"), [("light", 360), ("dark", 360), ("light", 320), ("dark", 1200)])
def test_axe_finds_nothing(
    new_phone: Callable[..., BrowserContext], served: Served, scheme: str, width: int
) -> None:
    context = new_phone(color_scheme=scheme, viewport={"width": width, "height": 740}, is_mobile=False)
    page = context.new_page()
    page.goto(served.address)
    expect(page.locator(".stage-head").first).to_be_visible()
    assert _violations(page) == []
    _everything_open(page)
    assert _violations(page) == []
    # With a fault, rows that are out of date, and a link of which some was left out.
    entry(page, "setting.bar_centres").fill("4.2mm drill and")
    expect(beside(page, "setting.bar_centres").locator(".fault")).to_be_visible()
    assert _violations(page) == []
    page.evaluate("location.hash = '#format=1&units=furlong&odd.one=7&taper.series=Morse&taper.size=2'")
    expect(page.locator(".troubles")).to_be_visible()
    expect(page.locator(".problems")).to_be_visible()
    expect(page.locator(".later")).to_contain_text("The job has changed")
    assert _violations(page) == []


def test_axe_finds_a_fault_that_is_there(opened: Page) -> None:
    """The check can fail: a picture without words is found."""
    expect(opened.locator(".stage-head").first).to_be_visible()
    opened.evaluate("document.querySelector('main').append(document.createElement('img'))")
    assert any(found.startswith("image-alt") for found in _violations(opened))
