"""A server as networks have them: it answers with a sign-in page, a fault, half a file, or nothing."""

from __future__ import annotations

import base64
import hashlib
import re
import threading
import time
from collections.abc import Mapping
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

TYPES = {
    ".html": "text/html",
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    ".css": "text/css",
    ".wasm": "application/wasm",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
}
PARTS = "runtime/parts/"
SIGN_IN = b"<!doctype html><title>Guest network</title><h1>Sign in to go on</h1>"
BLANK = b"<!doctype html><title>Nothing here</title>"
LIES = ("sign-in", "fault", "half", "broken off", "gone")
"""Each a way to answer wrongly: a page with 200, 500, half the content as if it were all, a line cut, 404."""


def site_of(folder: Path) -> dict[str, bytes]:
    """Every file of the built site that a device stores, and what lists them, without what is compressed."""
    return {name: content for name, content in _all_of(folder).items() if not name.startswith(PARTS)}


def parts_of(folder: Path) -> dict[str, bytes]:
    """The parts in which the core lies there once more, for those who have most of it."""
    return {name: content for name, content in _all_of(folder).items() if name.startswith(PARTS)}


def _all_of(folder: Path) -> dict[str, bytes]:
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in sorted(folder.rglob("*"))
        if file.is_file() and file.suffix not in (".br", ".gz")
    }


def with_other(site: Mapping[str, bytes], name: str, content: bytes) -> dict[str, bytes]:
    """The site with one file of other content, and a service worker that knows its hash: a newer build."""
    digest = hashlib.sha256(content)
    integrity = base64.b64encode(digest.digest()).decode()
    worker, count = re.subn(
        rf'(url:"{re.escape(name)}",revision:")[^"]*(",integrity:")[^"]*"',
        rf'\g<1>sha256-{digest.hexdigest()[:20]}\g<2>sha256-{integrity}"',
        site["service_worker.js"].decode(),
    )
    assert count == 1, f"the service worker's list names {name} otherwise than this test thinks"
    return {**site, name: content, "service_worker.js": worker.encode()}


SLOW = 14.0
"""Seconds over which a file marked "slow" trickles in; one marked "stalled" stops half-way for longer."""
LATE = 1.2
"""Seconds before a file marked "late" comes, whole."""


class LyingServer:
    """Serves `site`; `lies` maps a file to the way in which it is answered wrongly just now."""

    def __init__(self, site: Mapping[str, bytes]) -> None:
        self.site = dict(site)
        self.lies: dict[str, str] = {}
        self.asked: list[str] = []
        owner = self

        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def do_GET(self) -> None:
                owner.answer(self)

            def log_message(self, format: str, *args: Any) -> None:
                pass

        class Listening(ThreadingHTTPServer):
            # A page and its service worker ask for all files at once: a short queue would lie unasked.
            request_queue_size = 64

        self._server = Listening(("127.0.0.1", 0), Handler)
        self._server.daemon_threads = True
        self._thread = threading.Thread(target=self._server.serve_forever, daemon=True)
        self._thread.start()
        self.address = f"http://localhost:{self._server.server_port}/"

    def answer(self, to: BaseHTTPRequestHandler) -> None:
        """Answer one request, truly or not."""
        name = to.path.split("?")[0].lstrip("/") or "index.html"
        self.asked.append(name)
        lie = self.lies.get(name) or self.lies.get("*") or ""
        content = BLANK if name == "blank" else self.site.get(name)
        kind = TYPES.get(Path(name).suffix, "application/octet-stream")
        status = 200
        if lie == "late":
            time.sleep(LATE)
        if lie == "sign-in":
            content, kind = SIGN_IN, "text/html"
        elif lie == "fault":
            status, content, kind = 500, b"out of order", "text/plain"
        elif lie == "gone" or content is None:
            status, content, kind = 404, b"not here", "text/plain"
        elif lie == "half":
            content = content[: len(content) // 2]
        to.send_response(status)
        to.send_header("Content-Type", "text/html" if name == "blank" else kind)
        to.send_header("Content-Length", str(len(content)))
        if status == 200 and re.search(r"-[0-9a-f]{12}\.", name):
            # As docs/ has servers send what holds its hash in its name: a lie is then remembered, too.
            to.send_header("Cache-Control", "public, max-age=31536000, immutable")
        to.end_headers()
        try:
            if lie == "slow":
                pieces = 40
                size = len(content) // pieces + 1
                for at in range(0, len(content), size):
                    to.wfile.write(content[at : at + size])
                    to.wfile.flush()
                    time.sleep(SLOW / pieces)
            elif lie == "stalled":
                to.wfile.write(content[: len(content) // 2])
                to.wfile.flush()
                time.sleep(2 * SLOW)
            elif lie == "broken off":
                to.wfile.write(content[: len(content) // 2])
                to.close_connection = True
            else:
                to.wfile.write(content)
        except OSError:
            to.close_connection = True

    def end(self) -> None:
        """Stop answering."""
        self._server.shutdown()
        self._server.server_close()
