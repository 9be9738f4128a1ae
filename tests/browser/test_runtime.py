"""The core in the browser's Python, on the trimmed library as bytecode: digit for digit as CPython."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, Page

from calc.job import work, work_text
from generated_requests import BAD, NOT_REQUESTS, generated, known_fields
from in_browser import Served, built

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
Answers = Callable[[list[str]], list[str]]


def _place(ours: str, theirs: str) -> str:
    at = next(
        (i for i, (a, b) in enumerate(zip(ours, theirs, strict=False)) if a != b), min(len(ours), len(theirs))
    )
    begin, end = max(0, at - 200), at + 60
    return f"at {at}:\n CPython {ours[begin:end]!r}\n browser {theirs[begin:end]!r}"


def _assert_same(requests: list[str], core_in_browser: Answers) -> None:
    answers = core_in_browser(requests)
    assert len(answers) == len(requests)
    for request, answer in zip(requests, answers, strict=True):
        here = work_text(request)
        assert here == answer, f"for {request[:1500]}\n{_place(here, answer)}"
        assert json.loads(answer)["format"] == 1


def test_two_hundred_generated_requests_are_answered_with_the_same_text(core_in_browser: Answers) -> None:
    # A seed of its own: the trimming was traced with another, so what is answered here was not seen there.
    requests = generated(work, 200, seed=20)
    assert len(set(requests)) > 190
    _assert_same(requests, core_in_browser)


def test_every_kept_request_is_answered_with_the_same_text(core_in_browser: Answers) -> None:
    kept = [file.read_text("utf-8") for file in sorted(CORPUS.iterdir()) if file.suffix in (".json", ".txt")]
    assert kept
    _assert_same(kept, core_in_browser)


def test_every_choice_and_every_bad_text_in_every_field_runs_on_the_trimmed_library(
    core_in_browser: Answers,
) -> None:
    fields = known_fields(work)
    kinds = {field["kind"] for field in fields.values()}
    assert {"length", "choice"} <= kinds
    requests = list(NOT_REQUESTS)
    for name, field in fields.items():
        requests += [_asking(name, choice["value"]) for choice in field["choices"]]
    # One field of each kind meets every bad text; all fields at once meet each bad text.
    for kind in sorted(kinds):
        name = next(name for name, field in fields.items() if field["kind"] == kind)
        requests += [_asking(name, text) for text in BAD]
    requests += [json.dumps({"format": 1, "entries": dict.fromkeys(fields, text)}) for text in BAD]
    _assert_same(requests, core_in_browser)


def _asking(name: str, text: str) -> str:
    return json.dumps({"format": 1, "units": "mm", "entries": {name: text}, "drawer": [], "history": []})


def test_nothing_is_fetched_from_elsewhere_and_nothing_is_missing(
    phone: BrowserContext, served: Served
) -> None:
    page: Page = phone.new_page()
    asked: list[str] = []
    lacking: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("response", lambda response: lacking.append(response.url) if response.status >= 400 else None)
    address = served.address
    page.goto(address)
    page.wait_for_load_state("networkidle")
    assert any(url.endswith(built("pyodide.asm.wasm")) for url in asked)
    home = urlsplit(address).netloc
    assert [
        url for url in asked if urlsplit(url).netloc not in (home, "") and urlsplit(url).scheme != "data"
    ] == []
    assert lacking == []


def test_the_runtime_starts_within_its_memory(opened: Page, core_in_browser: Answers) -> None:
    core_in_browser(["{}"])
    ready = opened.evaluate("self.told.find((message) => message.kind === 'ready')")
    # The aim for the heap after start is 60 MB; Python's version is the one that the pinned runtime carries.
    assert 0 < ready["memory"] < 60e6
    assert ready["python"].startswith("3.14")
    assert ready["milliseconds"] > 0
