"""The page with a worker made up for the test: stages it has never heard of, and a worker that gets stuck."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import entry, go_to, made_up_sheet, open_stage, serve_worker, worker_that_answers


@pytest.fixture
def page(new_phone: Callable[..., BrowserContext]) -> Iterator[Page]:
    # Without a service worker, so that the worker's program can be swapped on its way.
    page = new_phone(service_workers="block").new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    yield page
    assert not faults


def test_a_stage_that_the_page_has_never_heard_of_is_shown_whole(page: Page, served: Served) -> None:
    serve_worker(page, worker_that_answers(made_up_sheet()))
    page.goto(served.address + "#format=1&units=mm")
    line = page.locator(".stage-lines [data-stage='whittling']")
    expect(line).to_contain_text("Whittle to 7 notches")
    expect(page.locator(".band[data-lead='whittling.depth']")).to_contain_text("7.25")
    expect(page.locator(".problems")).to_contain_text("No bench was named. Name one.")
    expect(page.locator(".glance")).to_contain_text("Danger: The knife is sharp.")

    go_to(page, "Steps")
    expect(page.locator(".step-text")).to_have_text(["Sit down.", "Whittle."])
    open_stage(page, "whittling")
    stage = page.locator(".stage[data-stage='whittling']")
    expect(entry(page, "whittling.notch")).to_have_attribute("placeholder", "3")
    entry(page, "whittling.notch").focus()
    expect(page.locator(".hint")).to_contain_text("if left empty: 3 mm")
    expect(entry(page, "whittling.mood")).to_have_attribute("type", "text")
    woods = stage.locator("[data-field='whittling.wood'] .segment")
    expect(woods).to_have_text(["Ash", "Elm", "Fir", "Yew"])
    expect(stage.locator(".caution").first).to_contain_text("Danger: The knife is sharp.")
    expect(stage.locator("[data-figure='whittling.luck']")).to_contain_text("not known yet")
    expect(stage.locator("td")).to_have_count(27)

    depth = stage.locator("[data-figure='whittling.depth']")
    expect(depth.locator(".working")).to_have_count(0)
    depth.locator("button").tap()
    for words in ("d = 2 a", "7.25 = 2 · 3.625", "by hand", "made up for this test"):
        expect(depth.locator(".working")).to_contain_text(words)


def test_a_drawing_is_shown_without_anything_that_could_run(page: Page, served: Served) -> None:
    serve_worker(page, worker_that_answers(made_up_sheet()))
    page.goto(served.address)
    open_stage(page, "whittling")
    # In its stage and on the card for paper: the same drawing twice, and no id twice.
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    drawings = page.locator(".picture svg")
    expect(drawings).to_have_count(2)
    assert (
        page.locator(".picture script, .picture foreignObject, .picture [onload], .picture [onclick]").count()
        == 0
    )
    names = [found.get_attribute("id") for found in page.locator(".picture rect").all()]
    assert len(set(names)) == 2


def test_a_wide_table_stands_as_cards_on_a_phone_and_scrolls_in_its_own_box_elsewhere(
    page: Page, served: Served
) -> None:
    serve_worker(page, worker_that_answers(made_up_sheet()))
    page.goto(served.address)
    open_stage(page, "whittling")
    fits = "box => box.scrollWidth <= box.clientWidth"
    assert page.locator(".table-box").evaluate(fits)
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    name = page.locator(".table-box td[data-label='Column 3']").first
    assert "Column 3" in name.evaluate("cell => getComputedStyle(cell, '::before').content")
    page.set_viewport_size({"width": 640, "height": 740})
    assert not page.locator(".table-box").evaluate(fits)
    assert page.evaluate("document.documentElement.scrollWidth") == 640


def test_a_stuck_worker_is_cut_off_and_started_again_with_nothing_lost(page: Page, served: Served) -> None:
    starts = serve_worker(page, worker_that_answers(made_up_sheet(), hangs_on="forever"))
    page.clock.install()
    page.goto(served.address + "#format=1&units=mm&whittling.mood=calm")
    open_stage(page, "whittling")
    entry(page, "whittling.notch").fill("forever")
    page.clock.run_for(500)
    assert len(starts) == 1
    page.clock.run_for(10_000)

    status = page.locator(".status")
    expect(status).to_contain_text("cut off")
    expect(status).to_contain_text("Your job is kept")
    expect(status.get_by_role("button", name="Try again")).to_be_visible()
    for _ in range(50):
        if len(starts) > 1:
            break
        page.wait_for_timeout(100)
    assert len(starts) == 2, "the stuck worker is to be followed by one fresh one"
    expect(entry(page, "whittling.notch")).to_have_value("forever")
    expect(entry(page, "whittling.mood")).to_have_value("calm")
    assert "whittling.notch=forever" in page.url
    assert "whittling.mood=calm" in page.url

    entry(page, "whittling.notch").fill("5 mm")
    expect(status).not_to_contain_text("cut off")
    expect(entry(page, "whittling.notch")).to_have_value("5 mm")


def test_a_worker_that_cannot_start_is_told_in_words_and_tried_again(page: Page, served: Served) -> None:
    serve_worker(page, 'postMessage({ kind: "failed", reason: "the shed is dark" });')
    page.goto(served.address + "#format=1&units=mm&whittling.mood=calm")
    status = page.locator(".status")
    expect(status).to_contain_text("the shed is dark")
    expect(status).to_contain_text("Your job is kept")
    page.unroute("**/app/worker-*.js")
    serve_worker(page, worker_that_answers(made_up_sheet()))
    status.get_by_role("button", name="Try again").tap()
    expect(page.locator("[data-stage='whittling']")).to_be_visible()
    expect(status).not_to_contain_text("the shed is dark")
    open_stage(page, "whittling")
    expect(entry(page, "whittling.mood")).to_have_value("calm")


def test_a_worker_that_never_gets_ready_is_given_up_after_a_minute(page: Page, served: Served) -> None:
    serve_worker(page, 'postMessage({ kind: "loading", step: "counting sheep" });')
    page.clock.install()
    page.goto(served.address)
    status = page.locator(".status")
    expect(status).to_contain_text("counting sheep")
    page.clock.run_for(59_000)
    expect(status).to_contain_text("counting sheep")
    page.clock.run_for(2_000)
    expect(status).to_contain_text("nothing came of it for a minute")
    expect(status.get_by_role("button", name="Try again")).to_be_visible()
