"""What is measured in a real browser; runs in the private environment and prints one JSON object.

    python -m bench.browser CHROMIUM

The folders .build/bench/ours and .build/bench/stock hold the same worker, harness and core; they differ in
the runtime alone.
"""

from __future__ import annotations

import json
import os
import statistics
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, sync_playwright

from bench.first import first_screens
from builder import server
from builder.places import DIST, WORK

ROUNDS = 9
PRESSES = 60
KEPT = (20, 100, 250, 500)
_QUOTA_GROUP = Path("/sys/fs/cgroup/cpu/conewright-bench")
_PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """A server for the folder, in a thread."""
    made = server.make(folder, 0, "127.0.0.1")
    thread = threading.Thread(target=made.serve_forever, daemon=True)
    thread.start()
    yield f"http://localhost:{made.server_port}/"
    made.shutdown()
    made.server_close()


@contextmanager
def half_a_core(browser: Callable[[], Browser]) -> Iterator[tuple[Browser, bool]]:
    """A browser whose processes, all together, have half a core; with it, whether the system let us.

    What drives it, which no phone has, goes on the rest: it is started before, and processes that a browser
    starts stay in its group.
    """
    group = _QUOTA_GROUP
    try:
        group.mkdir(exist_ok=True)
        (group / "cpu.cfs_period_us").write_text("20000")
        (group / "cpu.cfs_quota_us").write_text("10000")
        limited = True
    except OSError:
        limited = False
    made = browser()
    try:
        if limited:
            for process in _browser_processes():
                with suppress(OSError):  # one that has ended meanwhile
                    (group / "cgroup.procs").write_text(process)
        yield made, limited
    finally:
        made.close()


def _browser_processes() -> list[str]:
    """Ids of what Playwright has started below this process, but for its own driver."""
    told = {each.parent.name: each.read_text().rsplit(")", 1)[1].split()[1] for each in _stats()}
    below, found = {str(os.getpid())}, []
    while fresh := [each for each, parent in told.items() if parent in below and each not in below]:
        below |= set(fresh)
        found += [each for each in fresh if "chrom" in (Path("/proc") / each / "comm").read_text()]
    return found


def _stats() -> Iterator[Path]:
    for each in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            each.read_text()
            yield each


def _launch(path: str) -> dict[str, Any]:
    """How Chromium is started: without the traffic it would make by itself."""
    quiet = ("no-first-run", "disable-background-networking", "disable-component-update", "disable-sync")
    return {"executable_path": path or None, "args": [f"--{word}" for word in quiet]}


def _first_answer(context: BrowserContext, address: str) -> dict[str, Any]:
    page = context.new_page()
    page.goto(address)
    page.wait_for_function("self.answered !== undefined", timeout=60_000)
    told: dict[str, Any] = page.evaluate("({ answered: self.answered, memory: self.memory })")
    page.wait_for_timeout(1500)  # compiled code is put by a moment after it ran
    page.close()
    return told


def _have_snapshot_made(context: BrowserContext, address: str) -> None:
    """What the page has done once it is long left alone."""
    page = context.new_page()
    page.goto(address + "app/worker.js")
    made = page.evaluate(
        """() => new Promise((done) => {
          const maker = new Worker('/app/worker.js', { type: 'module', name: 'snapshot' });
          maker.onmessage = ({ data }) => data.kind === 'loading' || done(data.kind);
          maker.onerror = ({ message }) => done(message || 'its program could not be loaded');
          setTimeout(() => done('nothing came of it for a minute'), 60000);
        })"""
    )
    if made != "kept":
        raise RuntimeError(f"no snapshot was made: {made}")
    page.wait_for_timeout(1500)
    page.close()


def starts(tool: Any, path: str) -> dict[str, Any]:
    """From navigation to the first answer [ms], medians; both kinds take turns so that noise meets both.

    Each round is a browser with a profile of its own on disk: what it keeps of the first visit, compiled
    code included, is what a phone would keep.
    """
    times: dict[str, list[float]] = {}
    memory: dict[str, int] = {}
    with serving(WORK / "bench" / "ours") as ours, serving(WORK / "bench" / "stock") as stock:
        for _ in range(ROUNDS):
            for kind, address in (("ours", ours), ("stock", stock)):
                with tempfile.TemporaryDirectory(prefix="profile-", dir=WORK / "bench") as profile:
                    context = tool.chromium.launch_persistent_context(profile, **_launch(path))
                    for visit in ("cold", "warm"):
                        told = _first_answer(context, address)
                        times.setdefault(f"{kind} {visit}", []).append(told["answered"])
                        memory[kind] = told["memory"]
                    if kind == "ours":
                        _have_snapshot_made(context, address)
                        told = _first_answer(context, address)
                        times.setdefault("ours snapshot", []).append(told["answered"])
                    context.close()
    medians = {name: statistics.median(each) for name, each in times.items()}
    return {"times": medians, "memory": memory}


_WATCH = """() => {
  // From the key to the frame that shows a change: the first in the band with the lead, the last anywhere.
  self.presses = [];
  let press = null;
  const at = (name) => {
    const mine = press;
    if (mine) requestAnimationFrame(() => setTimeout(() => { mine[name] = performance.now() - mine.from; }));
  };
  document.addEventListener('input', (event) => {
    press = { from: event.timeStamp };
    self.presses.push(press);
  }, true);
  new MutationObserver(() => { if (press && !press.leads) { press.leads = true; at('lead'); } })
    .observe(document.querySelector('.band'), { subtree: true, childList: true, characterData: true });
  new MutationObserver(() => at('whole'))
    .observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
}"""
_COUNT = """
self.bytes = [];
const told = Object.getOwnPropertyDescriptor(Worker.prototype, 'onmessage');
Object.defineProperty(Worker.prototype, 'onmessage', { set(heard) {
  told.set.call(this, (event) => {
    if (event.data.response) self.bytes.push(event.data.response.length);
    heard(event);
  });
} });
"""


def key_presses(browser: Browser, entry: str) -> dict[str, list[float]]:
    """Of the presses of a key in the built page with the demo job: see `_WATCH`; bytes are of all parts.

    Sorted: from the key to the lead's frame and to the last change's frame [ms], bytes of the first part of
    an answer, of the two that hold the lead and the open stage, and of all.
    """
    found: dict[str, list[float]] = {"lead": [], "whole": []}
    found |= {"first bytes": [], "open bytes": [], "bytes": []}
    with serving(DIST) as address:
        context = browser.new_context(**_PHONE)  # type: ignore[arg-type]
        page = context.new_page()
        page.add_init_script(_COUNT)
        page.goto(address)
        page.wait_for_selector(".band[data-lead]", state="attached", timeout=60_000)
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        page.locator(".dock").get_by_role("button", name="Drawer", exact=True).click()
        page.locator(".shop .segment").nth(1).click()
        box = page.locator(f"[id='field-{entry}']").first
        box.fill("100.1")
        page.wait_for_timeout(2000)
        page.evaluate(_WATCH)
        box.press("End")
        page.evaluate("self.bytes.splice(0)")
        for number in range(PRESSES):
            page.keyboard.press("Backspace" if number % 2 else str(1 + number % 9))
            page.wait_for_timeout(500)
            parts = page.evaluate("self.bytes.splice(0)")
            page.wait_for_timeout(100)  # what was asked just now is no part of the next press
            if parts:
                found["first bytes"].append(parts[0])
                found["open bytes"].append(sum(parts[:2]))
                found["bytes"].append(sum(parts))
        for press in page.evaluate("self.presses"):
            for name in ("lead", "whole"):
                if name in press:
                    found[name].append(press[name])
        context.close()
    return {name: sorted(each) for name, each in found.items()}


_KEEP = """async (count) => {
  const open = indexedDB.open('keyval-store');
  const store = await new Promise((done, fail) => {
    open.onsuccess = () => done(open.result);
    open.onerror = fail;
  });
  const kept = Array.from({ length: count }, (_, number) => ({
    format: 1, id: `made-up-${number}`, name: `Arbor number ${number}`, kept_at: new Date(0).toISOString(),
    hash: 'format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100mm',
  }));
  const put = store.transaction('keyval', 'readwrite');
  put.objectStore('keyval').put(kept, 'kept');
  await new Promise((done, fail) => { put.oncomplete = done; put.onerror = fail; });
  store.close();
}"""
_TO_FRAME = """() => {
  self.framed = null;
  const from = performance.now();
  new MutationObserver(() => requestAnimationFrame(() => setTimeout(() => {
    self.framed = performance.now() - from;
  }))).observe(document.querySelector('main'), { subtree: true, childList: true, attributes: true });
}"""


def kept_set_ups(browser: Browser) -> list[dict[str, Any]]:
    """With so many kept set-ups: from the tap to the list [ms], from a key in its search to what is found.

    Lines of a plot, as `bench.growth` makes them.
    """
    opened: list[tuple[int, float]] = []
    found: list[tuple[int, float]] = []
    with serving(DIST) as address:
        for count in KEPT:
            context = browser.new_context(**_PHONE)  # type: ignore[arg-type]
            page = context.new_page()
            page.goto(address)
            page.wait_for_selector(".band[data-lead]", state="attached", timeout=60_000)
            page.evaluate(_KEEP, count)
            page.reload()
            page.wait_for_selector(".band[data-lead]", state="attached", timeout=60_000)
            page.evaluate(_TO_FRAME)
            page.locator(".dock").get_by_role("button", name="Keep", exact=True).click()
            page.wait_for_selector(".kept-name")
            page.wait_for_timeout(500)
            opened.append((count, page.evaluate("self.framed")))
            page.evaluate(_TO_FRAME)
            page.locator("#kept-search").press_sequentially("9")
            page.wait_for_timeout(500)
            found.append((count, page.evaluate("self.framed")))
            context.close()
    named = (("list", opened), ("search", found))
    return [{"name": name, "points": points, "note": ""} for name, points in named]


def searches(browser: Browser) -> Any:
    """The stack search in the browser's Python as it is shipped."""
    text = (Path(__file__).parent / "search.py").read_text("utf-8")
    with serving(WORK / "bench" / "ours") as address:
        page = browser.new_page()
        page.goto(address + "harness.js")
        told = page.evaluate(
            """async ([code, info]) => {
              const { loadPyodide } = await import('/runtime/pyodide.mjs');
              const names = ['library.bin', 'core.bin'];
              const got = async (name) => (await fetch('/runtime/' + name)).arrayBuffer();
              const python = await loadPyodide({
                indexURL: '/runtime/', packageBaseUrl: '/runtime/',
                lockFileContents: JSON.stringify({ info, packages: {} }),
                fsInit: async (files) => {
                  for (const name of names) files.writeFile('/lib/' + name, new Uint8Array(await got(name)));
                },
              });
              python.runPython(code);
              return python.runPython('measured()');
            }""",
            [text, json.loads((WORK / "bench" / "info.json").read_text("utf-8"))],
        )
        page.close()
    return json.loads(told)


def main(chromium: str) -> None:
    """Measure everything and print it as JSON."""
    found: dict[str, Any] = {}
    with sync_playwright() as tool:
        found["starts"] = starts(tool, chromium)
        browser = tool.chromium.launch(**_launch(chromium))
        found["searches"] = searches(browser)
        found["kept"] = kept_set_ups(browser)
        found["first"] = first_screens(browser, serving)
        browser.close()
    with (
        sync_playwright() as tool,
        half_a_core(lambda: tool.chromium.launch(**_launch(chromium))) as (
            browser,
            limited,
        ),
    ):
        found["half_core"] = limited
        found["presses"] = key_presses(browser, "setting.bar_centres")
    print(json.dumps(found))


if __name__ == "__main__":
    main(sys.argv[1])
