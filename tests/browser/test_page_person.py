"""The page by touch alone at 360 x 740: taps and screenfuls are counted and may not grow."""

from __future__ import annotations

import math
import re

import pytest
from playwright.sync_api import Locator, Page, expect

from page_parts import beside, entry, go_to

SCREEN = 740

PIECES = (
    "4.2 drill 4.187",
    "#39 .0995",
    "3/32 drill .0934",
    "2.2 drill 2.194",
    "2.5 drill 2.489",
    "3 mm dowel pin 3.004",
    "leaf 0.05 0.051",
    "leaf 0.10 0.100",
    "leaf 0.30 0.302",
    "6 thou leaf",
    "1-1/2 thou leaf x2",
    "1.00 mm block 1.0000",
)


class Person:
    """Counts what a hand does: taps, lines typed, and how far the page had to be scrolled, in screenfuls."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = 0
        self.lines = 0
        self.scrolled = 0.0

    def see(self, part: Locator) -> None:
        """Bring a part into sight between the bar above and the actions below, by scrolling if need be."""
        expect(part).to_be_visible()
        box = part.bounding_box()
        assert box is not None
        held = self.page.evaluate("""() => {
            const band = document.querySelector(".band"), foot = document.querySelector(".foot");
            const home = band.classList.contains("home");
            return [home ? 0 : band.getBoundingClientRect().bottom, foot.getBoundingClientRect().top];
        }""")
        if part.evaluate("one => one.closest('.band, .foot, .undo') !== null"):
            return
        down = max(0.0, box["y"] + box["height"] - held[1]) or min(0.0, box["y"] - held[0])
        if abs(down) > 1:
            self.scrolled += abs(down) / SCREEN
            self.page.evaluate(f"scrollBy({{ top: {down}, behavior: 'instant' }})")

    def tap(self, part: Locator) -> None:
        self.see(part)
        part.tap()
        self.taps += 1

    def type_line(self, text: str) -> None:
        self.page.keyboard.type(text)
        self.page.keyboard.press("Enter")
        self.lines += 1

    def choose(self, name: str, value: str) -> None:
        """Pick one of many: a tap on the field, another on a row of the list it opens."""
        self.tap(entry(self.page, name))
        row = self.page.locator(f".option[data-value='{value}']")
        # No part of the list has to be moved for it.
        expect(row).to_be_in_viewport(ratio=1)
        row.tap()
        self.taps += 1
        expect(self.page.locator("dialog")).to_have_count(0)

    def button(self, name: str, exact: bool = True) -> Locator:
        return self.page.get_by_role("button", name=name, exact=exact)


@pytest.fixture
def person(opened: Page) -> Person:
    expect(opened.locator(".band-number")).to_be_enabled(timeout=60_000)
    return Person(opened)


def _mine(person: Person) -> None:
    person.tap(person.button("Start mine"))
    # The number of the job before is not this one's.
    expect(person.page.locator(".band")).to_contain_text("New job")
    expect(person.page.locator(".band .number")).to_have_count(0)
    person.tap(person.button("Morse 3"))
    person.tap(person.button("4 in sine bar"))


NUMBER = ".band[data-lead='setting.stack_height'] .number"


def test_a_taper_and_a_bar_give_the_height(person: Person) -> None:
    _mine(person)
    # Morse 3 is 1:19.922 on diameter (ISO 296); 4 in is 101.6 mm: 101.6 sin(atan(1 / 2 / 19.922)).
    expect(person.page.locator(NUMBER)).to_have_text("2.5491")
    person.see(person.page.locator(NUMBER))
    assert person.taps <= 5
    assert person.scrolled == 0


def test_twelve_mixed_pieces_and_back_at_the_stack(person: Person) -> None:
    _mine(person)
    person.tap(person.button("Drawer"))
    person.tap(entry_line(person.page))
    for line in PIECES:
        person.type_line(line)
        expect(person.page.locator(".piece-row")).to_have_count(person.lines)
    person.tap(person.button("Card"))
    stack = person.page.locator(".glance-stack")
    expect(stack).to_contain_text(re.compile("drill|leaf|block|dowel"))
    person.see(stack)
    assert person.taps <= 8
    assert person.lines <= 12
    assert person.scrolled <= 2


def test_an_unknown_socket_measured_named_and_its_mate_set_up_and_kept(person: Person) -> None:
    page = person.page
    person.tap(person.button("Start mine"))
    person.tap(person.button("A socket"))
    person.tap(person.button("4 in sine bar"))
    expect(entry(page, "taper.large_diameter")).to_be_focused()
    page.keyboard.type("23.8")
    for typed in ("20.5", "65"):
        person.tap(page.locator(".keypad").get_by_role("button", name="Next"))
        page.keyboard.type(typed)
    expect(page.locator("[data-field='taper.go_on'] .read")).to_contain_text("looks like Morse 3")
    person.choose("taper.go_on", "mate")
    # By plane geometry: 3.3 mm on diameter over 65 mm, and 4 in between the rollers.
    height = 101.6 * math.sin(math.atan(3.3 / 2 / 65))
    expect(page.locator(NUMBER)).to_have_text(f"{height:.4f}")
    expect(page.locator(".band-title")).to_contain_text("Mate of what was measured, external")
    person.see(page.locator(NUMBER))
    person.tap(person.button("Keep"))
    person.tap(person.button("Keep it"))
    expect(page.locator(".kept-name")).to_contain_text("Mate of what was measured")
    assert person.taps <= 9
    assert person.scrolled <= 1


def entry_line(page: Page) -> Locator:
    return page.locator("#line-entry")


def test_a_bore_with_its_small_end_to_the_headstock(person: Person) -> None:
    person.tap(person.button("Change"))
    person.tap(beside(person.page, "taper.form").locator(".segment").nth(1))
    small = beside(person.page, "taper.small_end")
    if small.locator("input:checked").get_attribute("value") != "headstock":
        person.tap(small.locator(".segment").nth(1))
    number = person.page.locator(".band-number .number")
    person.see(number)
    expect(person.page.locator(".band-title")).to_contain_text("internal")
    assert person.taps <= 3
    assert person.scrolled == 0


def _step_in_hand(page: Page, name: str) -> Locator:
    """Follow the steps up to this one, as if all before it were done."""
    go_to(page, "Steps")
    step = page.locator(f".lathe li[data-step='{name}']")
    for _ in range(60):
        if step.count() and "in-hand" in str(step.get_attribute("class")):
            break
        page.locator(".dock .strong").tap()
    expect(step).to_have_class(re.compile("in-hand"))
    # What is in hand is in sight, without a search.
    expect(step.locator(".step-text")).to_be_in_viewport(ratio=1)
    return step


def _opened_at(person: Person, name: str) -> Locator:
    """The job as opened again at the machine, on its card, this step being the next: back to it by touch."""
    _step_in_hand(person.page, name)
    go_to(person.page, "Card")
    person.page.reload()
    expect(person.page.locator(".band.home .number")).to_be_visible()
    person.tap(person.button("Steps"))
    step = person.page.locator(f".lathe li[data-step='{name}']")
    expect(step.locator(".step-text")).to_be_in_viewport(ratio=1)
    return step


def test_the_first_flat_measured_gives_the_second_ones_depth(person: Person) -> None:
    _opened_at(person, "finishing.across_first")
    person.tap(entry(person.page, "finishing.across_now"))
    person.page.keyboard.type("9.95")
    # The number in force is the second flat's depth as soon as the first is measured, keys up or not.
    second = person.page.locator(".band[data-lead='finishing.second_flat'] .number")
    expect(second).to_have_text(re.compile(r"\d\.\d\d"))
    person.see(second)
    assert person.taps <= 2
    assert person.scrolled == 0


def test_a_reading_in_inches_is_typed_from_its_point_on(person: Person) -> None:
    """The first key is a point and no number yet: the field stays in the hand, and what is around it too."""
    page = person.page
    page.locator(".units-button").tap()
    _opened_at(person, "finishing.across_first")
    field = entry(page, "finishing.across_now")
    person.tap(field)
    for key in (".", "3", "8", "9"):
        name = "point" if key == "." else key
        page.locator(".keypad").get_by_role("button", name=name, exact=True).tap()
        expect(field).to_be_focused()
    expect(field).to_have_value(".389")
    # 13.5 mm less 0.389 in is 0.142 in, as deep as the first.
    expect(page.locator(".band[data-lead='finishing.second_flat'] .number")).to_have_text("0.142")
    expect(page.locator(".band-number .band-unit")).to_have_text("in")
    page.locator(".keypad").get_by_role("button", name="Hide").tap()
    # Five places of an inch leave the unit its place beside them, and the one danger in sight.
    go_to(page, "Card")
    number, unit = (page.locator(f".band.home .{part}").bounding_box() for part in ("number", "band-unit"))
    assert number and unit and unit["x"] > number["x"] + number["width"] - 1
    expect(page.locator(".glance .caution.danger")).to_be_in_viewport(ratio=1)


def test_blue_read_gives_the_next_stack(person: Person) -> None:
    page = person.page
    step = _opened_at(person, "proving.enter")
    person.tap(step.get_by_role("button", name=re.compile("blue", re.IGNORECASE)))
    person.tap(step.locator(".segment", has_text="at the large end"))
    person.tap(step.get_by_role("button", name="half", exact=True))
    # The number in force is what to change, with the pieces of the next stack under it.
    number = page.locator(".band[data-lead^='proving.'] .number")
    person.see(number)
    expect(page.locator(".band-words")).to_contain_text(re.compile("drill|leaf|block"))
    assert person.taps <= 4
    assert person.scrolled == 0
    # The card too leads with the change, until it is made: nobody is to tap the slide twice.
    change = number.inner_text()
    go_to(page, "Card")
    expect(page.locator(".band.home[data-lead^='proving.'] .number")).to_have_text(change)
    # However far the steps were scrolled, the card begins at its top.
    page.wait_for_function("scrollY === 0", timeout=5_000)
    words = page.locator(".band-words")
    expect(words).not_to_contain_text("Done")
    go_to(page, "Steps")
    page.locator(".dock .strong").tap()
    expect(page.locator(".lathe li[data-step='proving.right']")).to_have_class(re.compile("in-hand"))
    page.locator(".dock .strong").tap()
    go_to(page, "Card")
    expect(words).to_contain_text("Done")
    # Cut again: the next proof begins anew, what was seen is remembered and no longer in the job.
    go_to(page, "Steps")
    again = page.locator(".lathe li[data-step='proving.again']")
    expect(again).to_have_class(re.compile("in-hand"))
    page.locator(".dock .strong").tap()
    expect(page.locator(".lathe li[data-step='proving.contact_1']")).to_have_class(re.compile("in-hand"))
    expect(page.locator(".gate")).to_be_visible()
    page.wait_for_url(lambda url: "seen=" not in url)
    assert "proving.since=tapped" in page.url
    page.get_by_role("button", name="Undo").tap()
    expect(again).to_have_class(re.compile("in-hand"))
    page.wait_for_url(lambda url: "seen=" in url and "proving.since" not in url)
    # One at a time, each begins with its words, however far the one before was scrolled.
    page.locator(".dock").get_by_role("button", name="One", exact=True).tap()
    page.locator(".dock .strong").tap()
    expect(page.locator(".one[data-step='proving.contact_1'] .step-text")).to_be_in_viewport(ratio=1)
    page.wait_for_function(
        """() => {
            scrollTo(0, document.documentElement.scrollHeight);
            const [head, bar] = [".one h2", ".band"].map((one) => document.querySelector(one));
            return head.getBoundingClientRect().bottom < bar.getBoundingClientRect().bottom;
        }""",
        polling=100,
        timeout=10_000,
    )
    page.locator(".dock .strong").tap()
    expect(page.locator(".one[data-step='proving.contact_2'] .step-text")).to_be_in_viewport(ratio=1)


def test_a_set_up_is_kept_and_taken_up_again(person: Person) -> None:
    _mine(person)
    before = person.taps
    person.tap(person.button("Keep"))
    person.tap(person.button("Keep it"))
    assert person.taps - before <= 2
    expect(person.page.locator(".kept-name")).to_have_count(1)
    go_to(person.page, "Card")
    person.page.evaluate("location.hash = '#format=1&units=mm'")
    expect(person.page.locator(".band-number.wanted")).to_be_visible()
    # An empty page offers what is kept.
    person.tap(person.page.locator(".band-number.wanted"))
    before = person.taps
    person.tap(person.page.locator(".start").get_by_role("button", name=re.compile("Morse 3")).last)
    expect(person.page.locator(NUMBER)).to_have_text("2.5491")
    assert person.taps - before <= 1


def test_ticks_survive_a_reload_and_fall_where_the_step_says_something_else(person: Person) -> None:
    page = person.page
    go_to(page, "Steps")
    for row in page.locator(".tick").all():
        box = row.bounding_box()
        assert box is not None and box["width"] >= 56 and box["height"] >= 56
    first = page.locator(".lathe li").first
    name = first.get_attribute("data-step")
    page.locator(".dock .strong").tap()
    expect(page.locator(f"[data-step='{name}'] input")).to_be_checked()
    page.reload()
    expect(page.locator(f"[data-step='{name}'] input")).to_be_checked()
    go_to(page, "Card")
    go_to(page, "Change")
    page.locator(".change-stage[data-stage='blank'] .change-head").tap()
    entry(page, "blank.head_length").fill("40 mm")
    go_to(page, "Card")
    go_to(page, "Steps")
    expect(page.locator(f"[data-step='{name}']")).to_contain_text("Says something else")
    expect(page.locator(f"[data-step='{name}'] input")).not_to_be_checked()


def test_no_step_after_the_proof_is_shown_before_it_was_seen(person: Person) -> None:
    page = person.page
    go_to(page, "Steps")
    shown = page.locator(".lathe li").count()
    expect(page.locator(".gate")).to_be_visible()
    last = page.locator(".lathe li").last
    assert last.get_attribute("data-step") == "proving.enter"
    last.locator("input").check(force=True)
    expect(page.locator(".gate")).to_have_count(0)
    assert page.locator(".lathe li").count() > shown
    page.locator(".lathe [data-step='proving.enter'] input").uncheck(force=True)
    page.get_by_role("button", name="Go on without proving").tap()
    assert page.locator(".lathe li").count() > shown


def test_the_keys_write_what_a_phone_cannot_and_next_goes_on(person: Person) -> None:
    page = person.page
    go_to(page, "Change")
    field = entry(page, "taper.length")
    field.tap()
    keys = page.locator(".keypad")
    expect(keys).to_be_visible()
    expect(field).to_have_attribute("inputmode", "none")
    for key in ("2", "1", "fraction bar", "2", "in, inch"):
        keys.get_by_role("button", name=key, exact=True).tap()
    expect(field).to_have_value("21/2 in")
    keys.get_by_role("button", name="delete").tap()
    expect(field).to_be_focused()
    keys.get_by_role("button", name="Hide").tap()
    expect(keys).to_have_count(0)
    expect(page.locator(".dock")).to_be_visible()


def test_a_fault_is_said_once_the_typing_pauses(person: Person) -> None:
    page = person.page
    go_to(page, "Change")
    page.evaluate("""() => {
        self.alerts = 0;
        new MutationObserver((changes) => {
            for (const { addedNodes } of changes) for (const node of addedNodes) {
                if (node.nodeType !== 1) continue;
                if (node.matches("[role=alert]") || node.querySelector("[role=alert]")) self.alerts++;
            }
        }).observe(document.body, { childList: true, subtree: true });
    }""")
    entry(page, "taper.length").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("4.2mm drill and", delay=80)
    expect(page.locator("[data-field='taper.length'] .fault")).to_be_visible()
    assert page.evaluate("self.alerts") == 1


def test_a_word_of_the_trade_opens_where_it_stands(person: Person) -> None:
    page = person.page
    go_to(page, "Steps")
    text = page.locator(".in-hand .worded button")
    expect(text.locator(".term").first).to_be_visible()
    text.tap()
    expect(page.locator(".in-hand .glossary")).to_contain_text("to hold it by")
    assert page.locator(".term").count() == page.locator(".in-hand .glossary dt").count()
    text.tap()
    expect(page.locator(".in-hand .glossary")).to_have_count(0)


def test_a_word_on_saving_is_said_once_enough_is_kept_and_can_be_put_off(person: Person) -> None:
    page = person.page
    go_to(page, "Keep")
    nudge = page.locator(".nudge")
    for name in ("one", "two", "three"):
        expect(nudge).to_have_count(0)
        page.locator("#keep-name").fill(name)
        person.button("Keep it").tap()
        expect(page.locator(".kept-name").first).to_have_text(name)
    expect(nudge).to_contain_text("3 set-ups")
    nudge.get_by_role("button", name="Later").tap()
    expect(nudge).to_have_count(0)
    page.reload()
    expect(page.locator(".kept-name")).to_have_count(3)
    expect(nudge).to_have_count(0)


def test_undo_and_redo_of_an_entry(person: Person) -> None:
    page = person.page
    go_to(page, "Change")
    field = entry(page, "taper.length")
    field.fill("50 mm")
    page.get_by_role("button", name="Undo", exact=True).tap()
    expect(field).to_have_value("")
    page.get_by_role("button", name="Redo").tap()
    expect(field).to_have_value("50 mm")


def test_back_closes_what_is_open_and_keeps_what_was_typed(person: Person) -> None:
    page = person.page
    go_to(page, "Change")
    entry(page, "taper.length").fill("50 mm")
    page.wait_for_url("**taper.length=50+mm**")
    # The keys first, and what was typed stays; then the place.
    expect(page.locator(".keypad")).to_be_visible()
    page.go_back()
    expect(page.locator(".keypad")).to_have_count(0)
    expect(page.locator(".page")).to_have_attribute("data-place", "change")
    expect(entry(page, "taper.length")).to_have_value("50 mm")
    page.go_back()
    expect(page.locator(".page")).to_have_attribute("data-place", "card")
    page.wait_for_url("**taper.length=50+mm**")
    go_to(page, "Change")
    expect(entry(page, "taper.length")).to_have_value("50 mm")
