"""The first screen of a kept set-up, against a plain page of the same screen without any calculation."""

from __future__ import annotations

import json
import re
import shutil
import statistics
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path

from playwright.sync_api import Browser, Page

from builder.places import DIST, WORK

ROUNDS = 9
JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100mm"
# From navigation to the frame with the number in it.
_SEEN = """new MutationObserver((_, watch) => {
  if (!document.querySelector('.band[data-lead]')) return;
  watch.disconnect();
  requestAnimationFrame(() => setTimeout(() => { self.seen = performance.now(); }));
}).observe(document, { subtree: true, childList: true, attributes: true });"""
_KEPT = """async () => {
  const of = (store) => new Promise((done, failed) => {
    const asked = store.getAllKeys();
    asked.onsuccess = () => done(asked.result);
    asked.onerror = failed;
  });
  for (let tries = 0; tries < 300; tries++) {
    const opened = await new Promise((done, failed) => {
      const opening = indexedDB.open('keyval-store');
      opening.onsuccess = () => done(opening.result);
      opening.onerror = failed;
    });
    const keys = await of(opened.transaction('keyval').objectStore('keyval'));
    opened.close();
    if (keys.some((key) => String(key).startsWith('sheet-'))) return true;
    await new Promise((done) => setTimeout(done, 100));
  }
  return false;
}"""
Serving = Callable[[Path], AbstractContextManager[str]]


def _write_plain(screen: str) -> Path:
    """A page that puts the same screen up by a script of its own, with the page's own style."""
    folder = WORK / "bench" / "plain"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    page = (DIST / "index.html").read_text("utf-8")
    found = re.search(r'href="([^"]+\.css)"', page)
    assert found, "the page has no style"
    shutil.copyfile(DIST / found[1], folder / "style.css")
    (folder / "plain.js").write_text(
        f"document.getElementById('app').innerHTML = {json.dumps(screen)};", "utf-8"
    )
    (folder / "index.html").write_text(
        '<!doctype html><html lang="en"><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        '<link rel="stylesheet" href="style.css"><script type="module" src="plain.js"></script>'
        '<div id="app"></div></html>',
        "utf-8",
    )
    return folder


def _seen(page: Page) -> float:
    page.reload()
    page.wait_for_function("() => self.seen !== undefined", timeout=60_000)
    seen: float = page.evaluate("self.seen")
    page.wait_for_timeout(500)
    return seen


def first_screens(browser: Browser, serving: Serving) -> dict[str, float]:
    """Medians [ms] from navigation to the frame with the number: of our page, and of the plain one."""
    times: dict[str, list[float]] = {"ours": [], "plain": []}
    with serving(DIST) as address:
        context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
        ours = context.new_page()
        ours.add_init_script(_SEEN)
        ours.goto(address + JOB)
        ours.evaluate("navigator.serviceWorker.ready.then(() => true)")
        if not ours.evaluate(_KEPT):
            raise RuntimeError("the page kept no sheet of its last answer")
        screen = ours.evaluate("document.getElementById('app').innerHTML")
        with serving(_write_plain(screen)) as plain_address:
            plain = context.new_page()
            plain.add_init_script(_SEEN)
            plain.goto(plain_address)
            for _ in range(ROUNDS):
                times["ours"].append(_seen(ours))
                times["plain"].append(_seen(plain))
        context.close()
    return {name: statistics.median(each) for name, each in times.items()}
