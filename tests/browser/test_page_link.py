"""The whole job in the address: both ways, damaged, and with every awkward character."""

from __future__ import annotations

import re

from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import beside, entry, go_to, open_stage

READABLE = (
    "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100mm"
    "&piece=4.2+drill|round|4.2mm|4.187mm|0.002mm|1"
)


def _open(page: Page, served: Served, hash_text: str) -> None:
    page.goto(served.address + hash_text)
    open_stage(page, "setting")


def test_a_readable_link_opens_the_job_it_tells(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, READABLE)
    expect(entry(page, "setting.bar_centres")).to_have_value("100mm")
    expect(page.locator(".band-title")).to_contain_text("Morse 2")
    expect(page.locator(".demo, .troubles")).to_have_count(0)
    go_to(page, "Drawer")
    row = page.locator(".piece-row")
    expect(row).to_contain_text("4.2 drill")
    expect(row).to_contain_text("4.187mm")


def test_the_address_follows_what_is_typed_and_opens_the_same_job_elsewhere(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    _open(page, served, READABLE)
    entry(page, "setting.bar_centres").fill("4.2mm + 6thou")
    page.wait_for_url("**setting.bar_centres=4.2mm+%2B+6thou**")
    assert "piece=4.2+drill|round|4.2mm|4.187mm|0.002mm|1" in page.url
    other = phone.new_page()
    other.goto(page.url)
    open_stage(other, "setting")
    expect(entry(other, "setting.bar_centres")).to_have_value("4.2mm + 6thou")


AWKWARD = {
    "setting.bar_centres": "a|b & c=d + 50%",
    "drawer.0.name": "back\\slash \\| and || and a last \\",
    "drawer.0.size": "#7 drill? 3/8\" 4' ½ 1°26′ µm",
    "drawer.0.measured": "%41 %zz",
    "drawer.0.give": "汉字 🛠 é",
    "drawer.0.count": "<b>&amp;</b>",
}

DRAWER = [name for name in AWKWARD if name.startswith("drawer.")]


def test_awkward_text_survives_the_address(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, READABLE)
    entry(page, "setting.bar_centres").fill(AWKWARD["setting.bar_centres"])
    go_to(page, "Drawer")
    page.locator(".piece-open").tap()
    for name in DRAWER:
        entry(page, name).fill(AWKWARD[name])
    page.wait_for_url(re.compile("amp"))
    other = phone.new_page()
    other.goto(page.url)
    open_stage(other, "setting")
    expect(entry(other, "setting.bar_centres")).to_have_value(AWKWARD["setting.bar_centres"])
    go_to(other, "Drawer")
    other.locator(".piece-open").tap()
    for name in DRAWER:
        expect(entry(other, name)).to_have_value(AWKWARD[name])
    expect(other.locator(".troubles")).to_have_count(0)


def test_a_link_whose_bars_were_escaped_on_the_way_still_opens(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, READABLE.replace("|", "%7C"))
    go_to(page, "Drawer")
    expect(page.locator(".piece-row")).to_contain_text("4.187mm")
    expect(page.locator(".troubles")).to_have_count(0)


def test_a_damaged_link_opens_what_can_be_read_and_says_what_could_not(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    _open(
        page,
        served,
        "#units=furlong&taper.series=Morse&taper.size=2&setting.bar_centres=100mm&rubbish&taper.form=%E0%A4"
        "&taper.size=3&piece=4.2+drill|round&odd.one=7",
    )
    expect(page.locator(".band-title")).to_contain_text("Morse 2")
    expect(entry(page, "setting.bar_centres")).to_have_value("100mm")
    troubles = page.locator(".troubles")
    for words in (
        "furlong",
        "rubbish",
        "taper.form=%E0%A4",
        "“taper.size” is there twice",
        "2 parts instead of 6",
        "format",
    ):
        expect(troubles).to_contain_text(words)
    expect(troubles.locator("li")).to_have_count(6)
    # What the core does not know it says itself; left out, it is gone from the address too.
    expect(page.locator(".problems")).to_contain_text("odd.one")
    page.get_by_role("button", name="Leave it out").tap()
    expect(page.locator(".problems")).to_have_count(0)
    page.wait_for_url(lambda url: "odd.one" not in url)


def test_a_link_that_is_nothing_but_noise_harms_nothing(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.goto(served.address + "#%%%&&&===&|||&__proto__=x&constructor=y&piece=&piece=%")
    expect(page.locator(".troubles")).to_be_visible()
    expect(page.locator(".stage-head").first).to_be_visible()
    assert faults == []


def test_a_link_broken_in_thousands_of_places_is_told_in_a_few_lines(
    phone: BrowserContext, served: Served
) -> None:
    page = phone.new_page()
    broken = "&".join(f"part{place}%" for place in range(14_000))
    _open(page, served, f"{READABLE}&{broken}&{'long' * 5000}%")
    troubles = page.locator(".troubles")
    expect(troubles.locator("li").first).to_contain_text("part0%")
    expect(troubles.locator("li").last).to_contain_text("more like these")
    assert len(troubles.inner_text()) < 3000
    expect(entry(page, "setting.bar_centres")).to_have_value("100mm")


def test_a_pasted_link_and_the_way_back_both_load(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, READABLE)
    page.evaluate("location.hash = '#format=1&units=mm&setting.bar_centres=127mm'")
    open_stage(page, "setting")
    expect(entry(page, "setting.bar_centres")).to_have_value("127mm")
    # Back: first from the stage to the card of this job, then to the job before.
    page.go_back()
    page.go_back()
    open_stage(page, "setting")
    expect(entry(page, "setting.bar_centres")).to_have_value("100mm")
    expect(beside(page, "setting.bar_centres").locator(".fault")).to_have_count(0)


def test_the_last_job_is_there_again_without_its_address(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, READABLE)
    entry(page, "setting.bar_centres").fill("87.5 mm")
    page.wait_for_url("**87.5**")
    page.close()
    again = phone.new_page()
    again.goto(served.address)
    open_stage(again, "setting")
    expect(entry(again, "setting.bar_centres")).to_have_value("87.5 mm")
    expect(again.locator(".demo")).to_have_count(0)


def test_a_link_opened_over_another_job_does_not_lose_that_one(phone: BrowserContext, served: Served) -> None:
    page = phone.new_page()
    _open(page, served, READABLE.replace("100mm", "87.5mm"))
    page.close()
    other = phone.new_page()
    _open(other, served, READABLE)
    expect(entry(other, "setting.bar_centres")).to_have_value("100mm")
    # It rose unasked: for a moment a finger on its way to something else must not land on it.
    takes_touch = """bar => [100, 700].map(at => {
        const [rising] = bar.getAnimations();
        rising.pause();
        rising.currentTime = at;
        const answer = getComputedStyle(bar).pointerEvents;
        rising.play();
        return answer;
    })"""
    bar = other.locator(".undo")
    bar.evaluate("bar => { bar.style.animation = 'none'; void bar.offsetWidth; bar.style.animation = ''; }")
    assert bar.evaluate(takes_touch) == ["none", "none"]
    expect(bar).to_have_css("pointer-events", "auto")
    other.get_by_role("button", name="Undo").tap()
    open_stage(other, "setting")
    expect(entry(other, "setting.bar_centres")).to_have_value("87.5mm")
    other.go_back()
    other.go_back()
    open_stage(other, "setting")
    expect(entry(other, "setting.bar_centres")).to_have_value("100mm")
