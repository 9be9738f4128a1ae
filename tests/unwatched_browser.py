"""A browser whose service workers nobody watches.

The usual test tool attaches itself to every service worker, and a browser lets no newer version in while an
older one is watched. Here only the page itself is spoken to, over the DevTools protocol.
"""

from __future__ import annotations

import json
import os
import subprocess
import time
from pathlib import Path
from typing import Any

from web_socket import WebSocket


class Unwatched:
    """Chromium in a process of its own, with a profile in the folder given."""

    def __init__(self, profile: Path) -> None:
        path = os.environ.get("CONEWRIGHT_CHROMIUM") or "/usr/bin/chromium"
        words = ["--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-sync"]
        words += ["--disable-background-networking", "--disable-component-update"]
        self._process = subprocess.Popen(
            [path, *words, "--remote-debugging-port=0", f"--user-data-dir={profile}", "about:blank"],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        told = profile / "DevToolsActivePort"
        until = time.monotonic() + 30
        while not told.is_file() or "\n" not in told.read_text():
            assert time.monotonic() < until, "the browser did not start"
            time.sleep(0.1)
        port, place = told.read_text().split("\n")[:2]
        self._socket = WebSocket(int(port), place)
        self._last = 0

    def end(self) -> None:
        """End the browser and wait until it is gone."""
        self._socket.end()
        self._process.terminate()
        self._process.wait(timeout=30)

    def open(self, address: str) -> Tab:
        """A page at this address."""
        target = self.ask("Target.createTarget", {"url": address})["targetId"]
        session = self.ask("Target.attachToTarget", {"targetId": target, "flatten": True})["sessionId"]
        return Tab(self, session)

    def ask(self, method: str, words: dict[str, Any], session: str = "") -> dict[str, Any]:
        """One call of the DevTools protocol; events that come in between are passed over."""
        self._last += 1
        call = {"id": self._last, "method": method, "params": words}
        self._socket.send(json.dumps({**call, "sessionId": session} if session else call))
        while True:
            told = json.loads(self._socket.receive())
            if told.get("id") == self._last:
                assert "error" not in told, (method, told)
                return dict(told["result"])


class Tab:
    """One page of an unwatched browser."""

    def __init__(self, browser: Unwatched, session: str) -> None:
        self._browser, self._session = browser, session

    def ask(self, method: str, words: dict[str, Any]) -> dict[str, Any]:
        """One call of the DevTools protocol that is about this page."""
        return self._browser.ask(method, words, self._session)

    def evaluate(self, expression: str) -> Any:
        """The value of an expression in the page, a promise's once it is kept; None where it raised."""
        words = {"expression": expression, "awaitPromise": True, "returnByValue": True}
        return self.ask("Runtime.evaluate", words)["result"].get("value")

    def wait(self, expression: str, seconds: float = 20) -> None:
        """Wait until the expression holds in whatever page stands there then."""
        until = time.monotonic() + seconds
        while self.evaluate(expression) is not True:
            assert time.monotonic() < until, f"not within {seconds} s: {expression}"
            time.sleep(0.1)
