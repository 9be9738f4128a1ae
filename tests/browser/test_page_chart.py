"""Tables worked out later: typing goes first, what is out of date says so; and the chart of the real core."""

from __future__ import annotations

import math
import re
import time
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from in_browser import Served
from page_parts import (
    beside,
    entry,
    go_to,
    open_stage,
    serve_worker,
    sheet_of_a_chart,
    worker_that_works_later,
)


@pytest.fixture
def page(new_phone: Callable[..., BrowserContext]) -> Iterator[Page]:
    # Without a service worker, so that the worker's program can be swapped on its way.
    page = new_phone(service_workers="block").new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    yield page
    assert not faults


def _open(page: Page, served: Served, program: str) -> None:
    serve_worker(page, program)
    page.goto(served.address + "#format=1&units=mm&notches.knife=3mm")
    open_stage(page, "notches")


def test_rows_come_some_at_a_time_with_progress_and_a_stop(page: Page, served: Served) -> None:
    _open(page, served, worker_that_works_later(sheet_of_a_chart(12), milliseconds=600))
    expect(page.locator("[data-figure='notches.chart'] td")).to_have_count(0)
    page.get_by_role("button", name="Work out 12 rows").tap()
    expect(page.locator(".later-going")).to_contain_text("0 of 12")
    expect(page.locator(".later-going")).to_contain_text("5 of 12")
    page.get_by_role("button", name="Stop").tap()
    # A slow finger finds some more there.
    expect(page.locator(".later")).to_contain_text(re.compile(r"Stopped at \d+ of 12"))
    stopped = re.findall(r"Stopped at (\d+) of 12", page.locator(".later").inner_text())
    rows = int(stopped[0])
    assert 5 <= rows < 12
    page.wait_for_timeout(1000)
    # What was under way when it was stopped is not wanted any more.
    expect(page.locator(".later tbody tr")).to_have_count(rows)
    page.get_by_role("button", name=f"Work out the other {12 - rows} row").tap()
    expect(page.locator(".later")).to_contain_text("12 rows worked out")
    names = [f"notch {place}" for place in range(1, 13)]
    expect(page.locator(".later tbody td:first-child")).to_have_text(names)


def test_typing_never_waits_behind_a_chart_and_the_rows_of_before_say_so(page: Page, served: Served) -> None:
    # All 200 rows would take forty times 0.3 s.
    _open(page, served, worker_that_works_later(sheet_of_a_chart(200), milliseconds=300))
    page.get_by_role("button", name="Work out 200 rows").tap()
    expect(page.locator(".later-going")).to_contain_text(re.compile("^(5|10) of 200"))
    begun = time.monotonic()
    entry(page, "notches.knife").fill("4mm")
    expect(page.locator(".stage-line")).to_have_text(re.compile("later sheet$"))
    assert time.monotonic() - begun < 2
    calls = page.locator(".stage-line").inner_text()
    expect(page.locator(".later")).to_contain_text("The job has changed")
    expect(page.get_by_role("button", name="Print this table")).to_have_count(0)
    # One call may have been under way; none was sent after the entry.
    page.wait_for_timeout(800)
    entry(page, "notches.knife").fill("5mm")
    expect(page.locator(".stage-line")).to_have_text(f"{calls} sheet")

    page.get_by_role("button", name="Work out again").tap()
    expect(page.locator(".later-going")).to_contain_text("5 of 200")
    expect(page.locator(".later")).not_to_contain_text("The job has changed")
    assert set(page.locator(".later tbody td:nth-child(2)").all_inner_texts()) == {"5mm"}


def test_rows_count_again_when_the_job_is_as_it_was(page: Page, served: Served) -> None:
    _open(page, served, worker_that_works_later(sheet_of_a_chart(3), milliseconds=1))
    page.get_by_role("button", name="Work out 3 rows").tap()
    expect(page.locator(".later")).to_contain_text("3 rows worked out")
    entry(page, "notches.knife").fill("4mm")
    expect(page.locator(".later")).to_contain_text("The job has changed")
    entry(page, "notches.knife").fill("3mm")
    expect(page.locator(".later")).to_contain_text("3 rows worked out")


def test_a_chart_that_breaks_off_says_so_and_goes_on_where_it_was(page: Page, served: Served) -> None:
    sheet = sheet_of_a_chart(8)
    _open(page, served, worker_that_works_later(sheet, milliseconds=1, breaks_on="notch 7"))
    page.get_by_role("button", name="Work out 8 rows").tap()
    expect(page.locator(".later")).to_contain_text("broke off at 5 of 8")
    expect(page.locator(".later tbody tr")).to_have_count(5)
    expect(page.get_by_role("button", name="Work out the other 3 rows")).to_be_visible()


def test_a_batch_that_hangs_is_cut_off_and_the_page_lives_on(page: Page, served: Served) -> None:
    page.clock.install()
    _open(page, served, worker_that_works_later(sheet_of_a_chart(8), milliseconds=10**9))
    page.clock.run_for(1000)
    page.get_by_role("button", name="Work out 8 rows").tap()
    page.clock.run_for(10_500)
    expect(page.locator(".later")).to_contain_text("broke off at 0 of 8")
    expect(entry(page, "notches.knife")).to_have_value("3mm")
    entry(page, "notches.knife").fill("4mm")
    page.clock.run_for(500)
    # The fresh worker has answered one question and no other.
    expect(page.locator(".stage-line")).to_have_text("sheet")


def test_several_are_ticked_and_written_with_commas(page: Page, served: Served) -> None:
    _open(page, served, worker_that_works_later(sheet_of_a_chart(3), milliseconds=1))
    head = entry(page, "notches.series")
    expect(head).to_have_text("Ash tapers")
    expect(beside(page, "notches.series")).to_contain_text("with nothing ticked: ash")
    head.tap()
    boxes = page.locator(".check input")
    expect(boxes).to_have_count(5)
    expect(boxes.first).to_be_checked()
    page.locator(".check", has_text="Yew").tap()
    page.locator(".check", has_text="Elm").tap()
    expect(head).to_have_text("Ash tapers, Elm tapers, Yew tapers")
    page.wait_for_url("**notches.series=ash,+elm,+yew**")
    page.locator(".check", has_text="Ash").tap()
    page.wait_for_url("**notches.series=elm,+yew**")
    page.get_by_role("button", name="Tick all").tap()
    expect(head).to_have_text("All 5")
    page.get_by_role("button", name="Back to ash").tap()
    expect(head).to_have_text("Ash tapers")
    page.wait_for_url(lambda url: "notches.series" not in url)
    # By keyboard, and what a link brought that is not among the choices can be seen and taken off.
    page.evaluate("location.hash = '#format=1&units=mm&notches.series=Elm%3B%20rowan'")
    # Another job opens on its card.
    open_stage(page, "notches")
    entry(page, "notches.series").tap()
    expect(page.locator(".check", has_text="Elm").locator("input")).to_be_checked()
    odd = page.locator(".check", has_text="rowan (not in the list)").locator("input")
    odd.focus()
    page.keyboard.press("Space")
    expect(page.locator(".check", has_text="rowan")).to_have_count(0)
    page.wait_for_url("**notches.series=elm")


def test_a_set_is_added_to_the_drawer_in_one_tap_and_can_be_taken_back(page: Page, served: Served) -> None:
    _open(page, served, worker_that_works_later(sheet_of_a_chart(3), milliseconds=1))
    go_to(page, "Drawer")
    page.get_by_role("button", name="Add a piece").tap()
    page.get_by_role("button", name="Add a set").tap()
    page.get_by_role("option", name="Wedges").tap()
    rows = page.locator(".piece-row")
    expect(rows).to_have_count(3)
    expect(page.locator(".add-set")).to_contain_text("2 added")
    expect(page.locator(".undo")).to_contain_text("Added: Wedges (2 pieces)")
    page.get_by_role("button", name="Undo").tap()
    expect(rows).to_have_count(1)
    # The drawer is the shop's: the address holds the job, and that as it was.
    assert "wedge" not in page.url and "notches.knife=3mm" in page.url


# The chart of the real core.

# Morse 2 tapers 1:20.020 on diameter (ISO 296); the bar of 100 mm sets the half angle, so its sine counts.
STACK_MM = 100 * math.sin(math.atan(1 / 20.020 / 2))


def test_the_chart_tells_of_a_taper_what_the_setting_stage_tells(opened: Page) -> None:
    open_stage(opened, "chart")
    opened.get_by_role("button", name=re.compile("^Work out [0-9]+ rows$")).tap()
    expect(opened.locator(".later")).to_contain_text("rows worked out", timeout=20_000)
    row = opened.locator(".later tbody tr").filter(has=opened.get_by_text("Morse 2", exact=True))
    cells = row.locator("td").all_inner_texts()
    heights = [float(cell) for cell in cells if re.fullmatch(r"\d\.\d{4}", cell)]
    assert any(math.isclose(height, STACK_MM, abs_tol=0.00006) for height in heights), cells
    go_to(opened, "Card")
    stack = opened.locator(".glance-stack").inner_text()
    assert stack.strip().removeprefix("Stack ") in cells


@pytest.mark.deep
def test_every_taper_of_the_tables_is_worked_out_in_seconds_and_typing_goes_between(opened: Page) -> None:
    open_stage(opened, "chart")
    opened.locator("[id='field-chart.series']").tap()
    opened.get_by_role("button", name="Tick all").tap()
    button = opened.get_by_role("button", name=re.compile("^Work out [0-9]{3} rows$"))
    expect(button).to_be_visible()
    begun = time.monotonic()
    button.tap()
    expect(opened.locator(".later-going")).to_contain_text(re.compile("^[1-9][0-9]* of [0-9]{3}"))
    open_stage(opened, "setting")
    bar = entry(opened, "setting.bar_centres")
    bar.fill("101 mm")
    typed = time.monotonic()
    lead = opened.locator(".band[data-lead='setting.stack_height'] .number")
    expect(lead).to_have_text(f"{STACK_MM * 1.01:.4f}")
    assert time.monotonic() - typed < 2.5
    open_stage(opened, "chart")
    opened.get_by_role("button", name="Work out again").tap()
    expect(opened.locator(".later")).to_contain_text(re.compile("[0-9]{3} rows worked out"), timeout=30_000)
    assert time.monotonic() - begun < 30


def test_a_customary_set_of_the_core_comes_into_the_drawer_unmeasured(opened: Page) -> None:
    go_to(opened, "Drawer")
    drawer = opened.locator(".pieces")
    expect(drawer.locator(".piece-row")).not_to_have_count(0)
    before = drawer.locator(".piece-row").count()
    drawer.locator(".add-set .choice").tap()
    opened.get_by_role("option").first.tap()
    expect(opened.locator(".undo")).to_contain_text("Added: ")
    expect(drawer.locator(".add-set")).to_contain_text("added")
    assert drawer.locator(".piece-row").count() > before
    opened.get_by_role("button", name="Undo").tap()
    expect(drawer.locator(".piece-row")).to_have_count(before)
