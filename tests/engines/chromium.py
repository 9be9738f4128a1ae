"""Chromium over the DevTools protocol."""

from __future__ import annotations

import json
from pathlib import Path

from unwatched_browser import Unwatched


class Chromium:
    """Its one page, touched as a phone is."""

    def __init__(self, profile: Path, blocked: bool = False) -> None:
        """`blocked`, it may keep no site data at all."""
        if blocked:
            settings = profile / "Default" / "Preferences"
            settings.parent.mkdir(parents=True)
            values = {"default_content_setting_values": {"cookies": 2}}
            settings.write_text(json.dumps({"profile": values}), "utf-8")
        self._browser = Unwatched(profile)
        self._page = self._browser.open("about:blank")
        size = {"width": 360, "height": 740, "deviceScaleFactor": 2, "mobile": True}
        self._page.ask("Emulation.setDeviceMetricsOverride", size)
        self._page.ask("Emulation.setTouchEmulationEnabled", {"enabled": True})

    def before(self, script: str) -> None:
        """Run a script in every page before its own."""
        self._page.ask("Page.enable", {})
        self._page.ask("Page.addScriptToEvaluateOnNewDocument", {"source": script})

    def go(self, address: str) -> None:
        """Open an address."""
        self._page.ask("Page.navigate", {"url": address})

    def reload(self) -> None:
        """Load it anew."""
        self._page.ask("Page.reload", {})

    def run(self, promise: str) -> str:
        """What the promise gives."""
        # A page on its way to another has no answer: asked again by whoever waits.
        return str(self._page.evaluate(promise) or '{"fault": "no answer"}')

    def touch(self, x: float, y: float) -> None:
        """A tap."""
        self._page.ask("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
        self._page.ask("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})

    def keys(self, text: str) -> None:
        """Text, a key each."""
        for key in text:
            self._page.ask("Input.dispatchKeyEvent", {"type": "keyDown", "text": key, "key": key})
            self._page.ask("Input.dispatchKeyEvent", {"type": "keyUp", "key": key})

    def picture(self) -> str:
        """What is seen."""
        return str(self._page.ask("Page.captureScreenshot", {"format": "png"})["data"])

    def end(self) -> None:
        """End it."""
        self._browser.end()
