"""The built site in a real browser: a server that can be killed, and a phone."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, sync_playwright

from in_browser import DIST, START_WORKER, Served


@pytest.fixture
def served() -> Iterator[Served]:
    """A server of its own for one test; `served.address`, `served.kill()`."""
    if not (DIST / "index.html").is_file():
        pytest.fail(
            "dist/ is missing: run `python3 build.py site`, or the tests through `python3 build.py test`"
        )
    server = Served()
    yield server
    server.kill()


CHEAPER = [
    "--js-flags=--no-wasm-tier-up --no-wasm-dynamic-tiering",
    "--disable-gpu",
    "--disable-gpu-compositing",
]
"""Every test begins with nothing compiled: in the seconds it takes, compiling once more for speed and a
picture drawn by an imitated graphics card cost more than they bring, a fifth of the time of all. The deep
run, which compares the digits, does without these words."""


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for all tests."""
    path = os.environ.get("CONEWRIGHT_CHROMIUM", "/usr/bin/chromium")
    with sync_playwright() as tool:
        launched = tool.chromium.launch(
            executable_path=path or None,
            args=[
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                *([] if os.environ.get("CONEWRIGHT_DEEP") else CHEAPER),
            ],
        )
        yield launched
        launched.close()


def _is_ours(address: str) -> bool:
    """Whether what is asked for lies on this machine: a test's own server, or no server at all."""
    parts = urlsplit(address)
    return parts.scheme in ("data", "blob", "about", "file") or parts.hostname in ("localhost", "127.0.0.1")


@pytest.fixture
def new_phone(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Callable[..., BrowserContext]]:
    """Makes phones: 360 x 740, touch, nothing stored. Words given are Playwright's own for a context.

    Only a test marked `stored` has the service worker: to fetch, look through and store every file costs as
    much as to start Python.
    """
    stored = request.node.get_closest_marker("stored") is not None
    made: list[BrowserContext] = []
    strangers: list[str] = []

    def watch(request: Request) -> None:
        if not _is_ours(request.url):
            strangers.append(request.url)

    def make(**words: object) -> BrowserContext:
        settings: dict[str, object] = {
            "viewport": {"width": 360, "height": 740},
            "device_scale_factor": 2,
            "has_touch": True,
            "is_mobile": True,
            "service_workers": "allow" if stored else "block",
            **words,
        }
        made.append(browser.new_context(**settings))  # type: ignore[arg-type]
        # Pages, workers and service workers alike: nothing of a test may ask anything of anybody else.
        made[-1].on("request", watch)
        return made[-1]

    yield make
    for context in made:
        context.close()
    assert not strangers, f"another address was asked: {strangers}"


@pytest.fixture
def phone(new_phone: Callable[..., BrowserContext]) -> BrowserContext:
    """One phone."""
    return new_phone()


@pytest.fixture
def opened(phone: BrowserContext, served: Served) -> Iterator[Page]:
    """The page open on a phone; errors in its console, or of its scripts, fail the test at its end."""
    page = phone.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.on("console", lambda told: faults.append(told.text) if told.type == "error" else None)
    page.goto(served.address)
    yield page
    assert not faults, f"the browser's console tells of faults: {faults}"


@pytest.fixture
def core_in_browser(opened: Page) -> Callable[[list[str]], list[str]]:
    """Answers request texts with the built core in the browser's Python."""
    opened.evaluate(START_WORKER)

    def answers(requests: list[str]) -> list[str]:
        told: list[str] = opened.evaluate(
            "(asked) => Promise.all(asked.map((one) => self.askCore(one)))",
            requests,
        )
        return told

    return answers
