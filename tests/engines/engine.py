"""A browser engine as the tests of this folder use it, whatever drives it; and finding what it needs."""

from __future__ import annotations

import base64
import glob
import json
import os
import shutil
import time
from pathlib import Path
from typing import Any, Protocol

NEEDS = {
    "chromium": ("chromium",),
    "firefox": ("firefox-esr",),
    "webkit": ("webkit2gtk-driver", "xvfb"),
}
"""The Debian packages that carry each engine and what drives it."""

_BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
_MINI = ("/usr/lib*/*/webkit2gtk-4.*/MiniBrowser", "/usr/lib*/webkit2gtk-4.*/MiniBrowser")


def path_of(engine: str) -> str:
    """Where the engine's own program lies; "" where any part of it is missing."""
    if engine == "chromium":
        named = os.environ.get("CONEWRIGHT_CHROMIUM")
        return named or next(filter(None, map(shutil.which, _BROWSERS)), "")
    if engine == "firefox":
        return shutil.which("firefox-esr") or shutil.which("firefox") or ""
    if not shutil.which("WebKitWebDriver") or not shutil.which("Xvfb"):
        return ""
    return next((found for place in _MINI for found in sorted(glob.glob(place), reverse=True)), "")


def missing(engine: str) -> str:
    """Why tests in this engine cannot run here and what to type; "" where they can."""
    if path_of(engine):
        return ""
    line = f"apt-get install -y --no-install-recommends {' '.join(NEEDS[engine])}"
    return f"{engine} is not on this machine, so nothing was tested in it. To have it: {line}"


class Fault(AssertionError):
    """What was asked of the page raised there, or gave no answer in its time."""


class Driven(Protocol):
    """What each engine must be able to do by itself; `Engine` makes the rest of it."""

    def go(self, address: str) -> None:
        """Open an address in the one page there is, or turn to another after `#`."""

    def reload(self) -> None:
        """Load what stands there anew."""

    def run(self, promise: str) -> str:
        """What the expression's promise gives: always kept, always with a text."""

    def touch(self, x: float, y: float) -> None:
        """A tap at this place of what is seen [CSS px]."""

    def keys(self, text: str) -> None:
        """Text from the keyboard to what has the focus."""

    def picture(self) -> str:
        """What is seen, as PNG in base64."""

    def end(self) -> None:
        """End it and all that it started."""


class Engine:
    """One page of 360 by 740 in an engine, with nothing stored before."""

    def __init__(self, name: str, driven: Driven) -> None:
        self.name, self._driven = name, driven
        self.end, self.keys = driven.end, driven.keys

    def open(self, address: str) -> None:
        """Open an address and wait until the page stands there."""
        self._driven.go(address)
        self.wait("document.querySelector('.page') !== null")

    def reload(self) -> None:
        """Load the page anew and wait until it stands there."""
        self.evaluate("self.before = true")
        self._driven.reload()
        self.wait("self.before === undefined && document.querySelector('.page') !== null")

    def evaluate(self, expression: str, seconds: float = 20) -> Any:
        """The value of an expression in the page, a promise's once kept; Fault where it raises or is late."""
        limit = f"setTimeout(() => no(new Error('no answer in time')), {seconds * 1000})"
        late = f"new Promise((_, no) => {limit})"
        told = self._driven.run(
            f"Promise.race([Promise.resolve().then(() => ({expression})), {late}]).then("
            "(value) => JSON.stringify({ value: value ?? null }),"
            "(fault) => JSON.stringify({ fault: String(fault) }))"
        )
        found = json.loads(told)
        if "fault" in found:
            raise Fault(f"{self.name}: {found['fault']} for {expression[:300]}")
        return found["value"]

    def wait(self, expression: str, seconds: float = 90) -> None:
        """Wait until the expression holds in whatever page stands there then."""
        until = time.monotonic() + seconds
        fault = ""
        while True:
            try:
                if self.evaluate(expression) is True:
                    return
            except Fault as one:  # the page may be on its way to another
                fault = str(one)
            if time.monotonic() > until:
                seen = self.text()[:1500]
                raise Fault(f"{self.name}: not within {seconds} s: {expression}\n{fault}\n{seen}")
            time.sleep(0.05)

    def text(self, part: str = "body") -> str:
        """The words of a part as they are seen; "" where it is not there."""
        return str(self.evaluate(f"document.querySelector({json.dumps(part)})?.innerText ?? ''"))

    def tap(self, part: str) -> None:
        """Tap in the middle of a part, an expression for an element; it must be seen and not covered."""
        place = (
            f"(async () => {{ const find = () => {part};"
            " const frames = () => new Promise((done) =>"
            " requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 50))));"
            " const middle = (one) => { const box = one.getBoundingClientRect();"
            " return [box.x + box.width / 2, box.y + box.height / 2]; };"
            " const free = (one) => { const top = document.elementFromPoint(...middle(one));"
            " return top !== null && (one.contains(top) || top.contains(one)); };"
            " const one = find(); if (!one || one.disabled) return null;"
            " if (!free(one)) one.scrollIntoView({ block: 'center', behavior: 'instant' });"
            " const before = middle(one); await frames(); if (find() !== one || !free(one)) return null;"
            " const now = middle(one); return String(now) === String(before) ? now : null; })()"
        )
        until = time.monotonic() + 90
        while (found := self.evaluate(place)) is None:
            assert time.monotonic() < until, f"{self.name}: cannot be tapped: {part}\n{self.text()[:1500]}"
            time.sleep(0.05)
        self._driven.touch(*found)

    def shown(self, folder: Path, name: str) -> bytes:
        """A picture of what is seen, also laid into the folder."""
        picture = base64.b64decode(self._driven.picture())
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{name}-{self.name}.png").write_bytes(picture)
        return picture


def part(selector: str, words: str = "") -> str:
    """An expression for the first element of a selector, of those that hold these words."""
    return (
        f"[...document.querySelectorAll({json.dumps(selector)})].find((one) => "
        f"(one.ariaLabel ?? one.textContent).includes({json.dumps(words)}))"
    )


def button(words: str) -> str:
    """An expression for the button of exactly this name that is seen."""
    return (
        "[...document.querySelectorAll('button')].find((one) => one.offsetParent !== null && "
        f"(one.ariaLabel ?? one.textContent).trim() === {json.dumps(words)})"
    )
