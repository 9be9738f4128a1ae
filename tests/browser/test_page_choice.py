"""One of many: said whole on its button, picked from rows for a thumb, by touch, by keys and by ear."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from in_browser import ROOT
from page_parts import beside, choose, entry, go_to

AXE = ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js"
# What is said is as wide as its button leaves it, and no letter lies outside.
CUT = """() => [...document.querySelectorAll(".choice, .option, .choices-head, .segment span")]
    .filter((one) => {
    const text = document.createRange();
    text.selectNodeContents(one);
    const [inside, said] = [one.getBoundingClientRect(), text.getBoundingClientRect()];
    return said.left < inside.left - 1 || said.right > inside.right + 1
        || one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1;
}).map((one) => one.textContent)"""
# The button as high as two lines and more, where the words want them.
SIZES = ((360, "100%"), (320, "100%"), (360, "200%"), (320, "200%"))
ROWS = "() => [...document.querySelectorAll('.option')].map((one) => one.getBoundingClientRect().height)"


def _closed(page: Page, at: str = "change") -> None:
    expect(page.locator("dialog")).to_have_count(0)
    expect(page.locator(".page")).to_have_attribute("data-place", at)


def test_a_choice_is_said_whole_and_picked_from_rows_for_a_thumb(opened: Page) -> None:
    page = opened
    go_to(page, "Change")
    assert page.locator("select").count() == 0
    series = entry(page, "taper.series")
    expect(series).to_have_text("Morse, metric standard (ISO 296)")
    for width, text in SIZES:
        page.set_viewport_size({"width": width, "height": 740})
        page.evaluate("(text) => document.documentElement.style.setProperty('font-size', text)", text)
        assert page.evaluate(CUT) == [], (width, text)
        series.tap()
        expect(page.locator("dialog .option[aria-selected=true]")).to_be_in_viewport(ratio=1)
        assert page.evaluate(CUT) == [], (width, text)
        assert min(page.evaluate(ROWS)) >= 56
        box = page.locator("dialog").bounding_box()
        assert box is not None and box["x"] >= 0 and box["x"] + box["width"] <= width
        assert box["y"] >= 0 and abs(box["y"] + box["height"] - 740) < 1
        # A step back closes the list, and the person stays where they were.
        page.go_back()
        _closed(page)
    page.evaluate("document.documentElement.style.removeProperty('font-size')")
    choose(page, "taper.series", "Jacobs")
    expect(series).to_have_text("Jacobs, drill chucks")
    page.wait_for_url("**taper.series=Jacobs**")
    # A tap on the page behind it picks nothing.
    series.tap()
    expect(page.locator("dialog")).to_be_visible()
    page.touchscreen.tap(20, 10)
    _closed(page)
    expect(series).to_have_text("Jacobs, drill chucks")


def test_a_choice_by_keys_and_by_ear(opened: Page) -> None:
    page = opened
    go_to(page, "Change")
    way = entry(page, "setting.way")
    expect(way).to_have_attribute("aria-expanded", "false")
    way.press("Enter")
    chosen = page.get_by_role("option", selected=True)
    expect(chosen).to_have_text("Sine bar beside the top slide")
    expect(chosen).to_be_focused()
    assert 'listbox "Method"' in page.locator("dialog").aria_snapshot()
    page.evaluate(AXE.read_text("utf-8"))
    found = page.evaluate("async () => (await axe.run()).violations.map(({ id }) => id)")
    assert found == []
    page.keyboard.press("Escape")
    _closed(page)
    expect(way).to_be_focused()
    # Down and up, the ends, a letter; nothing is picked before Enter.
    way.press("ArrowDown")
    for key, said in (
        ("ArrowDown", "One indicator"),
        ("ArrowUp", "Sine bar beside"),
        ("End", "Sine bar on"),
        ("Home", "Sine bar beside"),
        ("t", "Two indicators"),
        ("t", "Taper turning"),
    ):
        page.keyboard.press(key)
        expect(page.locator(".option:focus")).to_contain_text(said)
        expect(way).to_contain_text("Sine bar beside")
    page.keyboard.press("Enter")
    _closed(page)
    expect(way).to_be_focused()
    expect(way).to_have_text("Taper turning attachment")
    expect(beside(page, "setting.way")).to_be_in_viewport(ratio=1)
