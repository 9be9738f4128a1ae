"""Firefox over WebDriver BiDi, which it speaks by itself (https://www.w3.org/TR/webdriver-bidi/)."""

from __future__ import annotations

import json
import subprocess
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from engines.engine import path_of
from web_socket import WebSocket

# A fresh profile that asks nobody anything on its own, and has a finger instead of a mouse.
QUIET: Mapping[str, bool | int | str] = {
    "app.normandy.enabled": False,
    "app.update.auto": False,
    "browser.aboutwelcome.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "browser.safebrowsing.phishing.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "dom.disable_open_during_load": False,
    "dom.w3c_touch_events.enabled": 1,
    "extensions.update.enabled": False,
    "focusmanager.testmode": True,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "data:,#remote-settings-dummy/v1",
    "toolkit.telemetry.enabled": False,
    "ui.allPointerCapabilities": 1,
    "ui.primaryPointerCapabilities": 1,
    "ui.useOverlayScrollbars": 1,
}


class Firefox:
    """Its one page, touched as a phone is."""

    def __init__(self, profile: Path, **settings: bool | int | str) -> None:
        """`settings` are the browser's own, by their names in about:config with __ for each dot."""
        wanted = {**QUIET, **{name.replace("__", "."): value for name, value in settings.items()}}
        profile.mkdir(parents=True, exist_ok=True)
        lines = [f"user_pref({json.dumps(name)}, {json.dumps(value)});" for name, value in wanted.items()]
        (profile / "user.js").write_text("\n".join(lines), "utf-8")
        words = ["--headless", "--no-remote", "--remote-debugging-port=0", "--profile", str(profile)]
        self._process = subprocess.Popen(
            [path_of("firefox"), *words],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        try:
            self._begin(profile / "WebDriverBiDiServer.json")
        except BaseException:
            self._process.kill()
            raise

    def _begin(self, told: Path) -> None:
        until = time.monotonic() + 60
        while not told.is_file() or not told.read_text("utf-8").rstrip().endswith("}"):
            assert time.monotonic() < until, "Firefox did not start"
            time.sleep(0.1)
        self._socket = WebSocket(json.loads(told.read_text("utf-8"))["ws_port"], "/session", patience=90)
        self._last = 0
        self.told: list[dict[str, Any]] = []
        """What its console said, the newest last."""
        self.ask("session.new", {"capabilities": {}})
        self.ask("session.subscribe", {"events": ["log.entryAdded"]})
        # The window it begins with has no focus that its page would hear of; one that is opened has.
        self._page = self.ask("browsingContext.create", {"type": "window"})["context"]
        size = {"viewport": {"width": 360, "height": 740}, "devicePixelRatio": 2}
        self.ask("browsingContext.setViewport", {"context": self._page, **size})
        self.ask("browsingContext.activate", {"context": self._page})

    def ask(self, method: str, words: Mapping[str, Any]) -> dict[str, Any]:
        """One command; events that come in between are noted."""
        self._last += 1
        self._socket.send(json.dumps({"id": self._last, "method": method, "params": words}))
        while True:
            told = json.loads(self._socket.receive())
            if told["type"] == "event":
                self.told.append(told["params"])
            elif told["id"] == self._last:
                assert told["type"] == "success", (method, told)
                return dict(told["result"])

    def before(self, script: str) -> None:
        """Run a script in every page before its own."""
        self.ask("script.addPreloadScript", {"functionDeclaration": f"() => {{ {script} }}"})

    def go(self, address: str) -> None:
        """Open an address."""
        self.ask("browsingContext.navigate", {"context": self._page, "url": address, "wait": "interactive"})

    def reload(self) -> None:
        """Load it anew."""
        self.ask("browsingContext.reload", {"context": self._page, "wait": "interactive"})

    def run(self, promise: str) -> str:
        """What the promise gives."""
        where = {"target": {"context": self._page}, "awaitPromise": True, "userActivation": True}
        try:
            told = self.ask("script.evaluate", {"expression": promise, **where})
        except AssertionError as gone:  # the page went to another meanwhile: asked again by whoever waits
            return json.dumps({"fault": str(gone)})
        return str(told["result"]["value"]) if told["type"] == "success" else json.dumps({"fault": str(told)})

    def touch(self, x: float, y: float) -> None:
        """A tap."""
        finger = [
            {"type": "pointerMove", "x": round(x), "y": round(y)},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]
        source = {"type": "pointer", "id": "finger", "parameters": {"pointerType": "touch"}}
        self.ask(
            "input.performActions", {"context": self._page, "actions": [{**source, "actions": finger}]}
        )

    def keys(self, text: str) -> None:
        """Text, a key each."""
        strokes = [{"type": kind, "value": key} for key in text for kind in ("keyDown", "keyUp")]
        source = {"type": "key", "id": "keyboard", "actions": strokes}
        self.ask("input.performActions", {"context": self._page, "actions": [source]})

    def picture(self) -> str:
        """What is seen."""
        return str(self.ask("browsingContext.captureScreenshot", {"context": self._page})["data"])

    def end(self) -> None:
        """End it."""
        self._socket.end()
        self._process.terminate()
        try:
            self._process.wait(timeout=20)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
