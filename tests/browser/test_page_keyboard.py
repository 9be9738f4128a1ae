"""The whole job by keyboard alone, and what a screen reader finds: names, roles, and the answer said once."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import beside, entry, wait_until_still

MOST_STOPS = 90
HAND = """() => {
    const one = document.activeElement;
    if (!one || one === document.body) return null;
    // What a box draws around itself stands for a box that is itself not seen.
    const boxes = [one, one.nextElementSibling, one.closest("label")].filter(Boolean);
    const drawn = boxes.map((each) => getComputedStyle(each))
        .some(({ outlineStyle: kind, outlineWidth }) => kind !== "none" && parseFloat(outlineWidth) >= 2);
    const box = one.getBoundingClientRect();
    const name = one.getAttribute("aria-label") || one.labels?.[0]?.innerText || one.textContent || one.id;
    return { name: name.trim(), drawn, at: one.tagName + "#" + one.id, x: box.x, y: box.y + box.height / 2 };
}"""


def _tab_to(page: Page, name: str) -> None:
    """Press Tab until what is named so has the focus; on the way every stop is drawn, and on the screen."""
    passed = []
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        hand = page.evaluate(HAND)
        # The screen itself has the focus while it is new; it is not stopped at.
        if hand is None or hand["at"].startswith("MAIN#"):
            continue
        passed.append(hand["name"])
        assert hand["drawn"], hand
        in_sight = "(bottom) => { const { y, height } = document.activeElement.getBoundingClientRect();"
        in_sight += " return y + height / 2 >= -1 && y + height / 2 <= bottom + 1; }"
        for _ in range(40):
            if page.evaluate(in_sight, page.viewport_size["height"]):  # type: ignore[index]
                break
            page.wait_for_timeout(50)
        else:
            raise AssertionError(f"out of sight: {hand}")
        if hand["name"].startswith(name):
            return
    raise AssertionError(f"{name} is not reached by Tab: {passed}")


def _press(page: Page, name: str) -> None:
    _tab_to(page, name)
    page.keyboard.press("Enter")


def test_the_whole_job_by_keyboard_alone(new_phone: Callable[..., BrowserContext], served: Served) -> None:
    page = new_phone(has_touch=False, is_mobile=False).new_page()
    page.goto(served.address)
    number = page.locator(".band[data-lead='setting.stack_height'] .number")
    expect(number).to_be_visible(timeout=60_000)
    # No trap: round through the page and out of it again.
    stops = set()
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        hand = page.evaluate(HAND)
        if hand is None or (hand["at"], hand["name"]) in stops:
            break
        stops.add((hand["at"], hand["name"]))
    else:
        raise AssertionError("the focus does not come round")
    assert len(stops) > 10
    _press(page, "Start mine")
    # Another screen: the focus stands at its beginning, not at the page's.
    expect(page.locator("main")).to_be_focused()
    _press(page, "Morse 3")
    _press(page, "4 in sine bar")
    wait_until_still(page)
    expect(number).to_have_text("2.5491")
    # The picture comes after the number, and with an empty drawer it is one and no button any more.
    expect(page.locator(".glance svg")).to_contain_text("2.5491")
    _press(page, "Change")
    _tab_to(page, "Length of taper on this part")
    page.keyboard.type("60mm")
    page.keyboard.press("Enter")
    expect(entry(page, "taper.length")).not_to_be_focused()
    page.keyboard.press("Escape")
    expect(entry(page, "taper.length")).to_have_value("60mm")
    # What comes of the new length may push down what a hand that is quicker has just reached.
    wait_until_still(page)
    _press(page, "Card")
    _press(page, "Steps")
    expect(page.locator(".in-hand .step-text")).to_be_in_viewport(ratio=1)
    _tab_to(page, "Done: ")
    page.keyboard.press("Space")
    expect(page.locator(".lathe-tools p")).to_contain_text("1 of")
    expect(page.locator(".in-hand .step-text")).to_be_in_viewport(ratio=1)
    _press(page, "Card")
    _press(page, "Keep")
    _tab_to(page, "Name for this set-up")
    page.keyboard.type("By keys")
    page.keyboard.press("Enter")
    expect(page.locator(".kept-name")).to_have_text("By keys")


def test_a_screen_reader_finds_its_way_and_hears_the_answer_once(opened: Page) -> None:
    expect(opened.locator(".glance")).to_be_visible(timeout=60_000)
    tree = opened.locator("body").aria_snapshot()
    marks = ("banner:", 'heading "Conewright" [level=1]', "main:", 'navigation "Go to":')
    for said in (*marks, 'region "Job card":'):
        assert said in tree, said
    assert 'button "Stack height. How it comes about: 2.4967 mm' in tree
    opened.locator(".dock").get_by_role("button", name="Change").click()
    opened.evaluate("""() => {
        self.heard = [];
        const said = document.querySelector(".band [role=status]");
        new MutationObserver(() => said.textContent && self.heard.push(said.textContent)).observe(
            said, { childList: true, characterData: true, subtree: true });
    }""")
    size = entry(opened, "taper.size")
    for key in "345":
        # Quicker than the answer is said: the list opens at what is chosen, and a letter finds the next.
        size.press("ArrowDown")
        expect(opened.locator(".option:focus")).to_have_count(1)
        opened.keyboard.press(key)
        opened.keyboard.press("Enter")
    expect(size).to_be_focused()
    tree = beside(opened, "taper.size").aria_snapshot()
    assert 'button "Size 5"' in tree, tree
    # Morse 5 is 1:19.002 on diameter (ISO 296); the bar is of 100 mm: 100 sin(atan(1 / 2 / 19.002)).
    expect(opened.locator(".band [role=status]")).to_have_text("Stack height: 2.6304 mm")
    assert len(opened.evaluate("self.heard")) == 1
    unnamed = """() => [...document.querySelectorAll("main button, main input")].filter((one) =>
        !(one.getAttribute("aria-label") || one.textContent.trim() || one.labels?.length)).length"""
    assert opened.evaluate(unnamed) == 0
