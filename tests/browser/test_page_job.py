"""The page with the real core: the demonstration, entries good and bad, units, the first screen."""

from __future__ import annotations

import math
import re
from urllib.parse import unquote_plus

from playwright.sync_api import Page, expect

from page_parts import beside, choose_units, entry, go_to, open_stage

# Morse 2 tapers 1:20.020 on diameter; the bar sets the half angle, so its sine counts.
STACK_MM = 100 * math.sin(math.atan(1 / 20.020 / 2))


def _lead(page: Page) -> float:
    shown = page.locator(".band[data-lead='setting.stack_height'] .number").inner_text()
    return float(shown.replace("\N{MINUS SIGN}", "-"))


def test_the_demonstration_answers_and_says_that_it_is_invented(opened: Page) -> None:
    expect(opened.locator(".band[data-lead='setting.stack_height']")).to_contain_text("mm")
    assert math.isclose(_lead(opened), STACK_MM, abs_tol=0.001)
    expect(opened.locator(".demo")).to_contain_text("every figure invented")
    opened.locator(".demo button").tap()
    opened.get_by_role("button", name="Morse 3").tap()
    opened.get_by_role("button", name="4 in sine bar").tap()
    expect(opened.locator(".band-title")).to_contain_text("Morse 3")
    expect(opened.locator(".demo")).to_have_count(0)
    opened.get_by_role("button", name="Undo").tap()
    expect(opened.locator(".demo")).to_be_visible()
    expect(opened.locator(".band[data-lead='setting.stack_height'] .number")).to_have_text(f"{STACK_MM:.4f}")
    # Who goes on has seen the offer: it does not lie over the steps.
    opened.locator(".demo button").tap()
    opened.get_by_role("button", name="Morse 3").tap()
    expect(opened.get_by_role("button", name="Undo")).to_be_visible()
    go_to(opened, "Steps")
    expect(opened.locator(".in-hand .step-text")).to_be_visible()
    expect(opened.get_by_role("button", name="Undo")).to_have_count(0)


def test_the_first_screen_shows_taper_lead_figure_and_stack_in_words_and_drawn(opened: Page) -> None:
    lead = opened.locator(".band[data-lead='setting.stack_height'] .number")
    expect(lead).to_be_visible()
    parts = {
        "taper": opened.locator(".band-title"),
        "lead": lead,
        "roller and swing": opened.locator(".band-words"),
        "stack in words": opened.locator(".glance-stack"),
        "picture": opened.locator(".glance svg"),
        "first row": opened.locator(".glance-row").first,
        "second row": opened.locator(".glance-row").last,
        "danger": opened.locator(".glance .danger"),
    }
    dock = opened.locator(".dock").bounding_box()
    assert dock is not None and dock["y"] + dock["height"] <= 740
    for name, part in parts.items():
        box = part.bounding_box()
        assert box is not None, name
        assert box["y"] >= 0, name
        assert box["y"] + box["height"] <= dock["y"], f"{name} ends at {box['y'] + box['height']} px"
    expect(parts["taper"]).to_contain_text("Morse 2")
    assert float(lead.evaluate("one => parseFloat(getComputedStyle(one).fontSize)")) >= 56
    assert "tabular-nums" in lead.evaluate("one => getComputedStyle(one).fontVariantNumeric")


def test_a_mixed_entry_is_read_as_one_types_without_losing_focus(opened: Page) -> None:
    open_stage(opened, "setting")
    bar = entry(opened, "setting.bar_centres")
    bar.fill("")
    bar.press_sequentially("4.2mm + 6thou")
    # 4.2 + 6 x 0.0254 = 4.3524, exactly.
    expect(beside(opened, "setting.bar_centres")).to_contain_text("4.3524 mm")
    expect(bar).to_be_focused()
    expect(bar).to_have_value("4.2mm + 6thou")
    bar.press("Home")
    bar.press_sequentially("1")
    expect(beside(opened, "setting.bar_centres")).to_contain_text("14.3524 mm")
    assert bar.evaluate("one => one.selectionStart") == 1


def test_a_bad_entry_is_answered_beside_its_field_and_the_rest_stays(opened: Page) -> None:
    open_stage(opened, "taper")
    half_angle = opened.locator("[data-figure='taper.half_angle'] .value").inner_text()
    open_stage(opened, "setting")
    bar = entry(opened, "setting.bar_centres")
    bar.fill("4.2mm drill and")
    fault = beside(opened, "setting.bar_centres").locator(".fault")
    expect(fault).to_be_visible()
    assert len(fault.inner_text()) > 10
    expect(bar).to_have_attribute("aria-invalid", "true")
    described = str(bar.get_attribute("aria-describedby")).split()
    assert any(opened.locator(f"[id='{name}']").inner_text() in fault.inner_text() for name in described)
    expect(bar).to_have_value("4.2mm drill and")
    open_stage(opened, "taper")
    expect(opened.locator("[data-figure='taper.half_angle'] .value")).to_have_text(half_angle)
    go_to(opened, "Card")
    expect(opened.locator("[data-stage='setting'] .mark-fault")).to_contain_text("1 answer to look at")
    # The number's place leads to what is wrong.
    opened.locator(".band-number.wanted").tap()
    expect(bar).to_be_focused()
    bar.fill("100 mm")
    expect(fault).to_have_count(0)
    expect(opened.locator(".band[data-lead='setting.stack_height'] .number")).to_be_visible()


def test_switching_units_keeps_the_meaning_of_the_job(opened: Page) -> None:
    open_stage(opened, "setting")
    bar = entry(opened, "setting.bar_centres")
    bar.fill("100")
    go_to(opened, "Card")
    choose_units(opened, "inch")
    expect(opened.locator(".band[data-lead='setting.stack_height'] .band-unit")).to_contain_text("in")
    assert math.isclose(_lead(opened) * 25.4, STACK_MM, abs_tol=0.002)
    expect(opened.locator(".band[data-lead='setting.stack_height'] .band-other")).to_contain_text("mm")
    choose_units(opened, "mm")
    expect(opened.locator(".band[data-lead='setting.stack_height'] .band-unit")).to_contain_text("mm")
    assert math.isclose(_lead(opened), STACK_MM, abs_tol=0.001)
    open_stage(opened, "setting")
    expect(bar).to_have_value(re.compile("^100 ?mm$"))


def test_switching_units_spells_out_what_nothing_asks_for_just_now(opened: Page) -> None:
    """Another way's numbers, and the ± of what was seen, which nobody typed."""
    job = "format=1&units=mm&taper.series=Morse&taper.size=2&setting.way=bar&setting.collar_division=.05"
    address = opened.url.partition("#")[0]
    # Another page, and not another address of one that may still be starting.
    opened.goto("about:blank")
    opened.goto(f"{address}#{job}&seen=way|stand_off|stand_off|4")
    expect(opened.locator(".band-title")).to_contain_text("Morse 2")
    choose_units(opened, "inch")
    opened.wait_for_url("**units=inch**")
    told = unquote_plus(opened.url)
    assert "setting.collar_division=0.05 mm" in told
    assert "stand_off|4 mm" in told and re.search(r"give\|0\.\d+ mm", told)


def test_an_entry_that_is_not_understood_stays_as_typed_when_the_units_are_switched(opened: Page) -> None:
    open_stage(opened, "setting")
    bar = entry(opened, "setting.bar_centres")
    bar.fill("100 monkeys")
    expect(beside(opened, "setting.bar_centres").locator(".fault")).to_be_visible()
    choose_units(opened, "inch")
    expect(opened.locator(".menu input[value='inch']")).to_be_checked()
    open_stage(opened, "setting")
    expect(bar).to_have_value("100 monkeys")


def test_a_figure_opens_its_working(opened: Page) -> None:
    open_stage(opened, "setting")
    figure = opened.locator("[data-figure='setting.stack_height']")
    figure.locator("button").first.tap()
    expect(figure.locator(".working .formula").first).to_be_visible()
    expect(figure.locator(".working .numbers").first).to_contain_text("100")


def test_the_drawer_takes_a_piece_and_gives_one_back(opened: Page) -> None:
    go_to(opened, "Drawer")
    drawer = opened.locator(".pieces")
    rows = drawer.locator(".piece-row")
    told = re.search("[0-9]+ pieces", drawer.locator(".help").first.inner_text())
    before = rows.count()
    assert told and f"{before} pieces" == told.group() and before > 0
    drawer.get_by_role("button", name="Add a piece").tap()
    expect(rows).to_have_count(before + 1)
    name = entry(opened, f"drawer.{before}.name")
    expect(name).to_be_focused()
    name.fill("odd bit")
    entry(opened, f"drawer.{before}.size").fill("4.2mm + 6thou")
    expect(rows.nth(before)).to_contain_text("odd bit")
    expect(beside(opened, f"drawer.{before}.size")).to_contain_text("4.3524 mm")

    drawer.get_by_role("button", name="Remove this piece").tap()
    expect(rows).to_have_count(before)
    opened.get_by_role("button", name="Undo").tap()
    expect(rows).to_have_count(before + 1)
    expect(rows.nth(before)).to_contain_text("odd bit")


def test_the_field_stays_where_it_is_while_its_text_is_half_typed(opened: Page) -> None:
    open_stage(opened, "setting")
    bar = entry(opened, "setting.bar_centres")
    bar.scroll_into_view_if_needed()
    before = bar.evaluate("one => one.getBoundingClientRect().top + scrollY")
    bar.fill("100 mm + ")
    expect(beside(opened, "setting.bar_centres").locator(".fault")).to_be_visible()
    expect(opened.locator(".band-number.wanted")).to_be_visible()
    during = bar.evaluate("one => one.getBoundingClientRect().top + scrollY")
    assert abs(during - before) < 24
    bar.fill("100 mm + 1")
    expect(opened.locator(".band[data-lead='setting.stack_height'] .number")).to_be_visible()
