"""WebKit over WebDriver (https://www.w3.org/TR/webdriver2/): its own small browser, on a screen made up.

Each session stores for itself alone, in memory.
"""

from __future__ import annotations

import http.client
import json
import os
import socket
import subprocess
import time
from pathlib import Path
from typing import Any

from engines.engine import path_of

# Its buttons would not let the window be as narrow as a phone.
_NARROW = "* { padding: 0; margin: 0; min-width: 0; min-height: 0; border: 0; font-size: 1px }"


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


class WebKit:
    """Its one page, touched by a pointer: it knows no finger here."""

    def __init__(self, profile: Path) -> None:
        self._started: list[subprocess.Popen[bytes]] = []
        self._port = _free_port()
        self._session = ""
        try:
            self._start(profile)
        except BaseException:
            self.end()
            raise

    def _start(self, profile: Path) -> None:
        looks = profile / "gtk-3.0" / "gtk.css"
        looks.parent.mkdir(parents=True)
        looks.write_text(_NARROW, "utf-8")
        told, tells = os.pipe()
        screen = ["Xvfb", "-displayfd", str(tells), "-screen", "0", "1200x900x24", "-nolisten", "tcp"]
        self._process(screen, pass_fds=[tells])
        os.close(tells)
        with os.fdopen(told) as line:
            display = line.readline().strip()
        assert display, "Xvfb did not start"
        home = {name: str(profile) for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME")}
        self._process(
            ["WebKitWebDriver", f"--port={self._port}"], env={**os.environ, **home, "DISPLAY": f":{display}"}
        )
        until = time.monotonic() + 30
        while True:
            try:
                self._call("GET", "/status")
                break
            except OSError:
                assert time.monotonic() < until, "WebKitWebDriver did not start"
                time.sleep(0.05)
        small = {"binary": path_of("webkit"), "args": ["--automation", "--full-screen"]}
        wanted = {"alwaysMatch": {"webkitgtk:browserOptions": small}}
        self._session = f"/session/{self._call('POST', '/session', {'capabilities': wanted})['sessionId']}"
        self._ask("/timeouts", {"script": 80_000, "pageLoad": 60_000})
        self._ask("/window/rect", {"x": 0, "y": 0, "width": 360, "height": 740})

    def _process(self, words: list[str], **more: Any) -> None:
        none = subprocess.DEVNULL
        self._started.append(subprocess.Popen(words, stdin=none, stdout=none, stderr=none, **more))

    def _call(self, method: str, place: str, words: object = None) -> Any:
        line = http.client.HTTPConnection("127.0.0.1", self._port, timeout=90)
        try:
            line.request(method, place, None if words is None else json.dumps(words))
            told = json.loads(line.getresponse().read())["value"]
        finally:
            line.close()
        assert not (isinstance(told, dict) and "error" in told), (place, told)
        return told

    def _ask(self, place: str, words: object) -> Any:
        return self._call("POST", self._session + place, words)

    def go(self, address: str) -> None:
        """Open an address."""
        self._ask("/url", {"url": address})

    def reload(self) -> None:
        """Load it anew."""
        self._ask("/refresh", {})

    def run(self, promise: str) -> str:
        """What the promise gives."""
        try:
            return str(self._ask("/execute/async", {"script": f"({promise}).then(arguments[0])", "args": []}))
        except AssertionError as gone:  # the page went to another meanwhile: asked again by whoever waits
            return json.dumps({"fault": str(gone)})

    def touch(self, x: float, y: float) -> None:
        """A click: what is tapped gets all the events of a pointer but those of a finger."""
        hand = [
            {"type": "pointerMove", "x": round(x), "y": round(y), "duration": 0},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]
        self._ask("/actions", {"actions": [{"type": "pointer", "id": "hand", "actions": hand}]})

    def keys(self, text: str) -> None:
        """Text, a key each."""
        strokes = [{"type": kind, "value": key} for key in text for kind in ("keyDown", "keyUp")]
        self._ask("/actions", {"actions": [{"type": "key", "id": "keyboard", "actions": strokes}]})

    def picture(self) -> str:
        """What is seen."""
        return str(self._call("GET", self._session + "/screenshot"))

    def end(self) -> None:
        """End it, its driver and its screen."""
        try:
            if self._session:
                self._call("DELETE", self._session)
        finally:
            for process in reversed(self._started):
                process.terminate()
                process.wait(timeout=20)
