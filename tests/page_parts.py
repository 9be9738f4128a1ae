"""What the tests of the page share: finding its parts, and a worker made up for the test."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from playwright.sync_api import Locator, Page, Route, expect

Sheet = dict[str, Any]

# Starting Python in the browser takes a second or two; on a small machine that does more than this, many.
expect.set_options(timeout=20_000)


def entry(page: Page, name: str) -> Locator:
    """The input or list for the entry of this id."""
    return page.locator(f"[id='field-{name}']")


def choose(page: Page, name: str, value: str) -> None:
    """Pick one of many for the entry of this id: one touch opens the list, one picks."""
    entry(page, name).click()
    page.locator(f"dialog.choices .option[data-value='{value}']").click()
    expect(page.locator("dialog")).to_have_count(0)


def beside(page: Page, name: str) -> Locator:
    """The whole field of this id: label, input and the words beneath."""
    return page.locator(f"[data-field='{name}']")


def hide_keys(page: Page) -> None:
    """Put the page's own keys away, where they are up."""
    if page.locator(".keypad").count():
        page.locator(".keypad").get_by_role("button", name="Hide").tap()
        expect(page.locator(".keypad")).to_have_count(0)


def go_to(page: Page, place: str) -> None:
    """Tap one of the large actions: Card, Steps, Change, Drawer, Keep; nothing where the page is there."""
    name = {"Card": "card", "Steps": "lathe", "Change": "change", "Drawer": "shop", "Keep": "kept"}[place]
    if page.locator(f".page[data-place='{name}']").count() == 0:
        hide_keys(page)
        page.locator(".dock").get_by_role("button", name=place, exact=True).click()


def wait_until_still(page: Page) -> None:
    """Wait until what the page shows has not changed for half a second: answers come in parts."""
    page.evaluate("self.stillFor = 0")
    page.wait_for_function(
        """() => {
          const now = document.documentElement.scrollHeight + document.body.innerText;
          self.stillFor = now === self.lastSeen ? self.stillFor + 1 : 0;
          self.lastSeen = now;
          return self.stillFor >= 5;
        }""",
        polling=100,
        timeout=20_000,
    )


def open_stage(page: Page, name: str) -> None:
    """Open a stage from its line on the card; waits until the core has answered."""
    if page.locator(f".stage[data-stage='{name}']").count() == 0:
        if page.locator(".side .stage-lines").count() == 0:
            expect(page.locator(".band-number")).to_be_enabled()
            go_to(page, "Card")
        page.locator(f".stage-lines [data-stage='{name}'] .stage-head").click()
        expect(page.locator(f".stage[data-stage='{name}']")).to_be_visible()


def open_menu(page: Page) -> None:
    """Go to what the page says of itself."""
    if page.locator("#menu").count() == 0:
        page.locator(".menu-button").click()


def choose_units(page: Page, label: str) -> None:
    """Choose one of the two unit systems, and go back to where the page was."""
    place = str(page.locator(".page").get_attribute("data-place"))
    if place == "card":
        if page.locator(".units-button").inner_text() != label:
            page.locator(".units-button").click()
        return
    open_menu(page)
    page.locator(".menu .segment").filter(has=page.get_by_text(label, exact=True)).click()


def unfold(page: Page, kind: str) -> None:
    """Open all folded things of a kind, one after another."""
    folded = page.locator(f"{kind}[aria-expanded='false']")
    for _ in range(folded.count()):
        folded.first.click()


def every_place(page: Page) -> Iterator[str]:
    """Every screen of the page in turn, with all unfolded that can be; the name of each."""
    expect(page.locator(".band-number")).to_be_enabled(timeout=60_000)
    go_to(page, "Card")
    yield "card"
    names = [str(line.get_attribute("data-stage")) for line in page.locator(".stage-lines li").all()]
    for name in dict.fromkeys(names):
        open_stage(page, name)
        unfold(page, ".stage .group-head")
        unfold(page, ".figure-row")
        yield name
    go_to(page, "Card")
    go_to(page, "Steps")
    yield "steps, a list"
    page.locator(".dock").get_by_role("button", name="One", exact=True).click()
    yield "steps, one"
    page.locator(".dock").get_by_role("button", name="List", exact=True).click()
    go_to(page, "Card")
    go_to(page, "Change")
    unfold(page, ".change-head")
    unfold(page, ".group-head")
    yield "change"
    go_to(page, "Drawer")
    page.locator(".piece-open").nth(2).click()
    expect(page.locator(".piece-editor input").first).to_be_visible()
    yield "drawer"
    for part in ("Bars, lathe", "Learned"):
        page.locator(".shop > .segments .segment", has_text=part).click()
        yield part
    go_to(page, "Keep")
    page.get_by_role("button", name="Show a code").click()
    expect(page.locator(".code")).to_be_visible()
    yield "keep"
    open_menu(page)
    yield "more"
    page.get_by_role("button", name="New job").click()
    yield "start"
    go_to(page, "Card")


def both(text: str) -> dict[str, str]:
    """A measure that reads alike in both systems."""
    return {"mm": text, "inch": text}


def made_up_sheet() -> Sheet:
    """A response with a stage, a kind of field and figures that no core has."""
    return {
        "format": 1,
        "units": "mm",
        "stages": [
            {
                "id": "whittling",
                "title": "Whittling",
                "line": "Whittle to 7 notches",
                "fields": [
                    {
                        "id": "whittling.notch",
                        "label": "Notch",
                        "kind": "length",
                        "unit": "mm",
                        "default": "3 mm",
                    },
                    {"id": "whittling.mood", "label": "Mood", "kind": "weather", "help": "Any word will do."},
                    {
                        "id": "whittling.wood",
                        "label": "Wood",
                        "kind": "choice",
                        "choices": [
                            {"value": word, "label": word.title()} for word in ("ash", "elm", "fir", "yew")
                        ],
                    },
                ],
                "figures": [
                    {
                        "id": "whittling.depth",
                        "label": "Depth",
                        "value": 7.25,
                        "unit": "mm",
                        "shown": {"mm": "7.25 mm", "inch": "0.285 in"},
                        "plus_minus_shown": {"mm": "± 0.01 mm", "inch": "± 0.0004 in"},
                        "working": [
                            {"formula": "d = 2 a", "numbers": both("7.25 = 2 · 3.625"), "note": "by hand"}
                        ],
                        "source": "made up for this test",
                        "lead": True,
                    },
                    {
                        "id": "whittling.plan",
                        "label": "Plan",
                        "value": ["a", "b"],
                        "shown": both("a on b"),
                        "lead": True,
                        "drawing": (
                            '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 10" onload="bad()">'
                            "<title>Plan</title><script>bad()</script>"
                            '<foreignObject><div xmlns="http://www.w3.org/1999/xhtml">bad</div></foreignObject>'
                            '<rect id="whittling-r" width="40" height="10" onclick="bad()"/></svg>'
                        ),
                        "table": {
                            "columns": [f"Column {place}" for place in range(9)],
                            "rows": [
                                {
                                    "cells": [both(f"cell {row}.{place}") for place in range(9)],
                                    "best": row == 0,
                                }
                                for row in range(3)
                            ],
                        },
                    },
                    {"id": "whittling.luck", "label": "Luck", "value": None, "shown": both("")},
                ],
                "steps": [
                    {"id": "whittling.sit", "phase": "set", "text": both("Sit down.")},
                    {"id": "whittling.whittle", "phase": "cut", "text": both("Whittle.")},
                ],
                "cautions": [
                    {"level": "note", "text": "Chips fly.", "reason": ""},
                    {"level": "danger", "text": "The knife is sharp.", "reason": "It has been honed."},
                ],
                "drawing": "",
            }
        ],
        "problems": [{"id": "", "message": "No bench was named.", "way_out": "Name one."}],
        "entries": {},
        "drawer": [],
    }


def worker_that_answers(sheet: Sheet, hangs_on: str = "never asked") -> str:
    """A worker's program: answers with the sheet, and hangs for ever on a request that holds a text."""
    return (
        f"const sheet = {json.dumps(json.dumps(sheet))};"
        "onmessage = ({ data }) => {"
        f"  if (data.request.includes({json.dumps(hangs_on)})) for (;;) ;"
        '  postMessage({ kind: "answer", id: data.id, response: sheet });'
        "};"
        'postMessage({ kind: "loading", step: "made up" });'
        'postMessage({ kind: "ready", python: "none", milliseconds: 1, memory: 1 });'
    )


def serve_worker(page: Page, program: str) -> list[str]:
    """Give the page this program as its worker; returns a list that grows with every start of it."""
    starts: list[str] = []

    def fulfil(route: Route) -> None:
        starts.append(route.request.url)
        route.fulfill(body=program, content_type="text/javascript")

    page.route("**/app/worker-*.js", fulfil)
    return starts


def sheet_of_a_chart(keys: int) -> Sheet:
    """A response with a table to be worked out later, a field of several choices, a set for the drawer."""
    series = [
        {"value": word, "label": f"{word.title()} tapers"} for word in ("ash", "elm", "fir", "oak", "yew")
    ]
    return {
        "format": 1,
        "units": "mm",
        "stages": [
            {
                "id": "notches",
                "title": "Notches",
                "line": f"{keys} notches for this knife",
                "fields": [
                    {
                        "id": "notches.series",
                        "label": "Series",
                        "kind": "several",
                        "default": "ash",
                        "choices": series,
                    },
                    {"id": "notches.knife", "label": "Knife", "kind": "length", "unit": "mm"},
                    {
                        "id": "drawer",
                        "label": "Drawer",
                        "kind": "pieces",
                        "choices": [{"value": "wedges", "label": "Wedges (2 pieces)"}],
                        "rows": [],
                    },
                ],
                "figures": [
                    {
                        "id": "notches.chart",
                        "label": "Chart",
                        "value": keys,
                        "shown": both(f"{keys} notches"),
                        "table": {"columns": ["Notch", "Depth", "Cut with"], "rows": []},
                        "later": [f"notch {place}" for place in range(1, keys + 1)],
                        "source": "made up for this test",
                    }
                ],
            }
        ],
        "problems": [],
        "entries": {},
        "drawer": [],
    }


def worker_that_works_later(sheet: Sheet, milliseconds: int, breaks_on: str = "never asked") -> str:
    """A worker's program that takes its time over each call for later rows, and adds two wedges when asked.

    The line of the first stage tells every call so far in its order: `sheet`, `later`, `add`.
    """
    return (
        f"const sheet = {json.dumps(sheet)}; const calls = [];"
        "onmessage = ({ data }) => {"
        "  const request = JSON.parse(data.request);"
        "  calls.push(request.later ? 'later' : request.add ? 'add' : 'sheet');"
        "  let answer = sheet;"
        "  sheet.stages[0].line = calls.join(' ');"
        "  sheet.drawer = request.drawer;"
        "  if (request.later) {"
        f"    for (const end = Date.now() + {milliseconds}; Date.now() < end; ) ;"
        f"    const broken = request.later.items.includes({json.dumps(breaks_on)});"
        "    const both = (text) => ({ mm: text, inch: text });"
        "    const knife = request.entries['notches.knife'] ?? '';"
        "    const row = (item) => ({ cells: [both(item), both(knife), both('blade')], best: false });"
        "    answer = broken ? {} : { problems: [], rows: request.later.items.map(row) };"
        "  }"
        "  if (request.add) {"
        "    const bare = { shape: 'flat', measured: '', give: '', count: 1 };"
        "    const wedge = (size) => ({ name: `wedge ${size}`, size, ...bare });"
        "    sheet.drawer = [...request.drawer, wedge('1 mm'), wedge('2 mm')];"
        "    sheet.stages[0].fields[2].read = '2 added';"
        "  }"
        '  postMessage({ kind: "answer", id: data.id, response: JSON.stringify(answer) });'
        "};"
        'postMessage({ kind: "ready", python: "none", milliseconds: 1, memory: 1 });'
    )
