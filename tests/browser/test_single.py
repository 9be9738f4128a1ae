"""The page as one file, opened from a disk without a server: the same figures, and the person's work kept."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from door import figure, job
from in_browser import ROOT
from page_parts import go_to, open_menu

BUILT = ROOT / "single" / "conewright.html"
ENTRIES = {"taper.series": "Morse", "taper.size": "3", "setting.bar_centres": "127mm"}
JOB = "#format=1&units=mm&" + "&".join(f"{name}={text}" for name, text in ENTRIES.items())


@pytest.fixture
def file(tmp_path: Path) -> Iterator[Path]:
    """A copy of the file where a person might have put it."""
    if not BUILT.is_file():
        pytest.fail("single/ is missing: run `python3 build.py single`, or the tests through build.py test")
    copy = tmp_path / "Für die Werkbank #1" / "my lathe.html"
    copy.parent.mkdir()
    copy.hardlink_to(BUILT)
    yield copy


def _shown_by_the_core() -> str:
    sheet = job(ENTRIES)
    return str(figure(sheet, sheet["glance"]["lead"])["shown"]["mm"])


def test_the_file_answers_as_the_core_does_and_asks_nobody(phone: BrowserContext, file: Path) -> None:
    page = phone.new_page()
    faults: list[str] = []
    asked: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.on("console", lambda told: faults.append(told.text) if told.type == "error" else None)
    phone.on("request", lambda request: asked.append(request.url.partition(":")[0]))
    page.goto(file.as_uri() + JOB)
    expect(page.locator(".band-number .number")).to_have_text(_shown_by_the_core().split()[0])

    # What has no sense for a file is not offered, and it says why.
    expect(page.locator(".status")).to_contain_text("in this one file")
    assert page.locator(".install").count() == 0
    go_to(page, "Keep")
    expect(page.locator(".share")).to_contain_text("opens on this device alone")
    assert page.get_by_role("button", name="Show a code").count() == 0
    _keep(page, "spindle sleeve")

    # Kept by the browser, and in the file of everything.
    page.reload()
    go_to(page, "Keep")
    expect(page.locator(".kept-name")).to_have_text(["spindle sleeve"])
    with page.expect_download() as coming:
        page.get_by_role("button", name="Save the file").tap()
    saved = json.loads(Path(coming.value.path()).read_text("utf-8"))
    assert [each["name"] for each in saved["kept"]] == ["spindle sleeve"]
    open_menu(page)
    expect(page.locator("#menu")).to_contain_text("does not renew itself")
    assert set(asked) <= {"file", "blob", "data"} and "blob" in asked
    assert not faults, faults


def _keep(page: Page, name: str) -> None:
    page.locator("#keep-name").fill(name)
    page.get_by_role("button", name="Keep it").tap()
    expect(page.locator(".kept-name", has_text=name)).to_be_visible()


def test_a_copy_cut_short_says_so_at_once(phone: BrowserContext, file: Path) -> None:
    page = phone.new_page()
    whole = file.read_bytes()
    for part in (0.3, 0.98):
        short = file.with_name(f"{part}.html")
        short.write_bytes(whole[: int(len(whole) * part)])
        page.goto(short.as_uri())
        expect(page.locator("#app")).to_contain_text("this file is not whole", timeout=3000)
