"""A browser whose service workers nobody watches.

The usual test tool attaches itself to every service worker, and a browser lets no newer version in while an
older one is watched. Here only the page itself is spoken to, over the DevTools protocol.
"""

from __future__ import annotations

import base64
import json
import os
import socket
import subprocess
import time
from pathlib import Path
from typing import Any


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
        self._socket = socket.create_connection(("127.0.0.1", int(port)), timeout=30)
        self._heard = b""
        self._last = 0
        key = base64.b64encode(os.urandom(16)).decode()
        head = (
            f"GET {place} HTTP/1.1",
            f"Host: 127.0.0.1:{port}",
            "Upgrade: websocket",
            "Connection: Upgrade",
            f"Sec-WebSocket-Key: {key}",
            "Sec-WebSocket-Version: 13",
        )
        self._socket.sendall("\r\n".join([*head, "", ""]).encode())
        while b"\r\n\r\n" not in self._heard:
            self._heard += self._socket.recv(65536)
        self._heard = self._heard.split(b"\r\n\r\n", 1)[1]

    def end(self) -> None:
        """End the browser and wait until it is gone."""
        self._socket.close()
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
        self._send(json.dumps({**call, "sessionId": session} if session else call).encode())
        while True:
            told = json.loads(self._message())
            if told.get("id") == self._last:
                assert "error" not in told, (method, told)
                return dict(told["result"])

    def _send(self, text: bytes) -> None:
        # RFC 6455, 5.2: one text frame, masked as a client must; a mask of noughts changes nothing.
        size = len(text)
        length = bytes([0x80 | size]) if size < 126 else b"\xfe" + size.to_bytes(2, "big")
        self._socket.sendall(b"\x81" + length + bytes(4) + text)

    def _take(self, count: int) -> bytes:
        while len(self._heard) < count:
            more = self._socket.recv(65536)
            assert more, "the browser is gone"
            self._heard += more
        taken, self._heard = self._heard[:count], self._heard[count:]
        return taken

    def _message(self) -> bytes:
        text = b""
        while True:
            first, second = self._take(2)
            size = second & 0x7F
            if size > 125:
                size = int.from_bytes(self._take(2 if size == 126 else 8), "big")
            part = self._take(size)
            if first & 0x0F in (0, 1):
                text += part
                if first & 0x80:
                    return text


class Tab:
    """One page of an unwatched browser."""

    def __init__(self, browser: Unwatched, session: str) -> None:
        self._browser, self._session = browser, session

    def evaluate(self, expression: str) -> Any:
        """The value of an expression in the page, a promise's once it is kept; None where it raised."""
        words = {"expression": expression, "awaitPromise": True, "returnByValue": True}
        return self._browser.ask("Runtime.evaluate", words, self._session)["result"].get("value")

    def wait(self, expression: str, seconds: float = 20) -> None:
        """Wait until the expression holds in whatever page stands there then."""
        until = time.monotonic() + seconds
        while self.evaluate(expression) is not True:
            assert time.monotonic() < until, f"not within {seconds} s: {expression}"
            time.sleep(0.1)
