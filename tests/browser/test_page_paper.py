"""One table on paper by itself: rendered as PDF and looked at, as text and as a picture."""

from __future__ import annotations

import re
import shutil
import struct
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from calc.job import work
from in_browser import Served
from page_parts import Sheet, both, go_to, open_stage, serve_worker, sheet_of_a_chart, worker_that_answers
from route.jobs import a_job

COLUMNS = (
    "Taper",
    "Half angle",
    "Taper on diameter, 1:x",
    "Taper on diameter, in/ft",
    "Stack for this sine bar, mm",
    "Stack for this sine bar, in",
    "Best stack from this drawer",
    "Taper error on diameter",
    "over",
    "±",
    "From memory",
)
STACK = "1.00 block + 0.6 drill + leaf 0.30 + 6 thou leaf + 1-1/2 thou leaf"
MARGIN_MM = 6

needs_poppler = pytest.mark.skipif(
    shutil.which("pdftotext") is None or shutil.which("pdftoppm") is None,
    reason="pdftotext and pdftoppm (poppler-utils) are not on this machine",
)


@pytest.fixture
def page(new_phone: Callable[..., BrowserContext]) -> Iterator[Page]:
    page = new_phone(service_workers="block").new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    yield page
    assert not faults


def _sheet(rows: int) -> Sheet:
    """A wall chart as wide as they get: long names, five pieces in each stack."""
    sheet = sheet_of_a_chart(0)
    sheet["stages"][0]["line"] = "Notches for the longest knife"
    figure = sheet["stages"][0]["figures"][0]
    figure["later"] = []
    cells = ("1.1959° (1°11'45\")", "1:23.952", "0.50100", "2.0870", "0.08217", STACK)
    last = ("-1 µm", "107.9500 mm", "± 13 µm", "taper and length")
    figure["table"] = {
        "columns": COLUMNS,
        "rows": [
            {"cells": [both(each) for each in (f"Long & Narrow {row} depth 5-15/16", *cells, *last)]}
            for row in range(1, rows + 1)
        ],
    }
    return sheet


def _print(page: Page, served: Served, rows: int, paper: str, into: Path) -> bytes:
    serve_worker(page, worker_that_answers(_sheet(rows)))
    # The browser's own printing would stand in the way of ours where a machine is quick to begin it.
    page.add_init_script("window.print = () => undefined")
    page.goto(served.address + "#format=1&units=mm&invented=yes")
    open_stage(page, "notches")
    page.get_by_role("button", name="Print this table").tap()
    expect(page.locator(".paper")).to_have_count(1)
    into.write_bytes(page.pdf(format=paper))
    return into.read_bytes()


def _pages(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def _text(pdf: Path, number: int) -> str:
    command = ["pdftotext", "-layout", "-f", str(number), "-l", str(number), str(pdf), "-"]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def _ink(pdf: Path, number: int) -> tuple[tuple[int, int], tuple[int, int, int, int]]:
    """Size of a page and the box of its ink, in pixels at 50 to the inch."""
    command = ["pdftoppm", "-gray", "-r", "50", "-f", str(number), "-l", str(number), str(pdf)]
    raw = subprocess.run(command, capture_output=True, check=True).stdout
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", raw)
    assert head is not None
    width, height = int(head[1]), int(head[2])
    body = raw[head.end() :]
    dark = [place for place, value in enumerate(body[: width * height]) if value < 200]
    across = [place % width for place in dark]
    return (width, height), (min(across), dark[0] // width, max(across), dark[-1] // width)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_forty_rows_go_on_one_sheet(page: Page, served: Served, tmp_path: Path, paper: str) -> None:
    assert _pages(_print(page, served, 40, paper, tmp_path / "chart.pdf")) == 1


@needs_poppler
def test_the_sheet_holds_the_table_with_its_title_and_nothing_else(
    page: Page, served: Served, tmp_path: Path
) -> None:
    pdf = tmp_path / "chart.pdf"
    _print(page, served, 40, "A4", pdf)
    text = _text(pdf, 1)
    for words in ("Notches for the longest knife", "every figure invented", "made up for this test", STACK):
        assert words in text
    names = [int(number) for number in re.findall(r"Long & Narrow (\d+) depth", text)]
    assert names == list(range(1, 41))
    for words in ("Series", "Knife", "Drawer", "Menu", "Print this table", "Conewright"):
        assert words not in text
    # Nothing is cut off at an edge: there is white all round the ink, and the ink fills the width.
    (width, height), (left, top, right, bottom) = _ink(pdf, 1)
    margin = MARGIN_MM / 25.4 * 50
    assert width > height, "eleven columns go on the sheet lengthwise"
    assert left >= margin and right <= width - margin, (left, right, width)
    assert top >= margin and bottom <= height - margin, (top, bottom, height)
    assert right - left > 0.9 * (width - 4 * margin)


@needs_poppler
def test_more_rows_repeat_the_head_on_every_sheet_and_break_none(
    page: Page, served: Served, tmp_path: Path
) -> None:
    pdf = tmp_path / "chart.pdf"
    pages = _pages(_print(page, served, 150, "A4", pdf))
    assert 2 <= pages <= 5
    seen: list[int] = []
    for number in range(1, pages + 1):
        text = _text(pdf, number)
        assert "Best stack from this drawer" in text
        names = [int(found) for found in re.findall(r"Long & Narrow (\d+) depth", text)]
        assert text.count(STACK) == len(names) > 0, "a row is broken over two sheets"
        seen += names
    assert seen == list(range(1, 151))


def test_paper_shows_the_page_again_once_the_person_goes_on(
    page: Page, served: Served, tmp_path: Path
) -> None:
    _print(page, served, 20, "A4", tmp_path / "chart.pdf")
    page.locator(".dock button").first.tap()
    expect(page.locator(".paper")).to_have_count(0)


def test_a_table_worked_out_later_is_not_printed_with_the_card(opened: Page) -> None:
    open_stage(opened, "chart")
    opened.get_by_role("button", name=re.compile("^Work out [0-9]+ rows$")).tap()
    expect(opened.locator(".later")).to_contain_text("rows worked out", timeout=20_000)
    opened.emulate_media(media="print")
    expect(opened.locator(".paper-card")).to_be_visible()
    expect(opened.locator(".later table")).to_be_hidden()
    opened.get_by_role("button", name="Print this table", include_hidden=True).last.dispatch_event("click")
    expect(opened.locator(".paper table")).to_be_visible()
    expect(opened.locator(".paper-card")).to_be_hidden()
    assert opened.locator(".paper tbody tr").count() == opened.locator(".later tbody tr").count()


LONGEST = (26, 99)
"""Of the invented jobs, one of the longest routes in millimetres and one in inches."""


@needs_poppler
@pytest.mark.parametrize("seed", LONGEST)
def test_the_card_with_the_longest_route_is_one_sheet(
    page: Page, served: Served, tmp_path: Path, seed: int
) -> None:
    sheet = work(a_job(seed))
    serve_worker(page, worker_that_answers(sheet))
    page.goto(f"{served.address}#format=1&units={sheet['units']}")
    expect(page.locator(".glance .picture svg")).to_be_visible()
    for paper in ("A4", "Letter"):
        pdf = tmp_path / f"{paper}.pdf"
        pdf.write_bytes(page.pdf(format=paper))
        assert _pages(pdf.read_bytes()) == 1
        text = re.sub(r"\s+", " ", _text(pdf, 1))
        assert "Name" in text and "Notes" in text and text.count("Keep the set-up") == 1
        (width, height), (left, top, right, bottom) = _ink(pdf, 1)
        assert left > 0 and top > 0 and right < width - 1 and bottom < height - 1
        assert bottom - top > 0.75 * height, "the letters could be larger"
    if seed != LONGEST[0]:
        return
    # The same job, to send: as large as a phone shows sharply, all of the route on it.
    go_to(page, "Keep")
    with page.expect_download() as saved:
        page.get_by_role("button", name="As a picture").tap()
    png = saved.value.path().read_bytes()
    assert png[:8] == b"\x89PNG\r\n\x1a\n" and saved.value.suggested_filename.endswith(".png")
    wide, tall = struct.unpack(">II", png[16:24])
    assert wide >= 700 and tall > 3 * wide
    assert len(png) > 100_000, "hardly anything is drawn on it"


def test_the_stand_off_card_is_a_sheet_to_hang(opened: Page, tmp_path: Path) -> None:
    open_stage(opened, "proving")
    card = opened.locator("[data-figure='proving.stand_off_card']")
    card.get_by_role("button", name=re.compile("rows")).tap()
    opened.evaluate("window.print = () => undefined")
    card.get_by_role("button", name="Print this table").tap()
    expect(opened.locator(".paper")).to_have_count(1)
    assert _pages(opened.pdf(format="A4")) == 1
    opened.emulate_media(media="print")
    sheet = opened.locator(".paper")
    assert "Morse 2" in sheet.inner_text() and "Gauge off home" in sheet.inner_text()
    points = sheet.evaluate("(one) => parseFloat(getComputedStyle(one).fontSize) * 0.75")
    assert points >= 13, "read from a step away"


def test_a_picture_on_the_card_keeps_its_letters(page: Page, served: Served) -> None:
    """At 360 px no letter is under 12 px, however little the screen leaves the picture."""
    for seed in (0, 3, 5):
        sheet = work(a_job(seed))
        page.unroute_all()
        serve_worker(page, worker_that_answers(sheet))
        page.goto("about:blank")
        page.goto(f"{served.address}#format=1&units={sheet['units']}&invented=yes")
        expect(page.locator(".glance .picture svg")).to_be_visible()
        least = page.locator(".glance .picture svg").evaluate(
            "(one) => Math.min(...[...one.querySelectorAll('text')].map("
            "(text) => parseFloat(getComputedStyle(text).fontSize) * one.getScreenCTM().a))"
        )
        assert least >= 11.99, (seed, least)
