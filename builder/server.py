"""A small web server for dist/: right types, ready-made compression, nothing kept without asking again."""

from __future__ import annotations

import os
import re
import socket
import sys
from functools import lru_cache
from html import unescape
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from io import BytesIO
from pathlib import Path
from typing import Any, BinaryIO

from builder.places import DIST
from builder.say import Stop, say

_TYPES = {
    ".mjs": "text/javascript",
    ".js": "text/javascript",
    ".wasm": "application/wasm",
    ".json": "application/json",
    ".webmanifest": "application/manifest+json",
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".zip": "application/zip",
    ".txt": "text/plain; charset=utf-8",
    ".ico": "image/x-icon",
    ".woff2": "font/woff2",
}
HASHED_FOLDERS = ("app", "runtime")
"""Folders of the site in which the names of files hold the hash of their content."""

FOR_EVER = "public, max-age=31536000, immutable"
_HASHED = re.compile(r"-[0-9a-f]{12}\.[a-z]+$")

IDLE = 30.0
"""A connection on which nothing happens for so long [s] is closed."""

_ENCODINGS = (("br", ".br"), ("gzip", ".gz"))
_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')


@lru_cache(maxsize=8)
def _policy_in(page: Path, changed: int) -> str:
    found = _POLICY.search(page.read_text("utf-8"))
    return f"{unescape(found[1])}; frame-ancestors 'none'" if found else ""


def policy_of(folder: Path) -> str:
    """The policy that the page in this folder states for itself, with what only a header can say; "" where
    there is none."""
    page = folder / "index.html"
    try:
        return _policy_in(page, page.stat().st_mtime_ns)
    except OSError:
        return ""


class Handler(SimpleHTTPRequestHandler):
    """Serves files of one folder, never a listing, and says nothing of each request."""

    protocol_version = "HTTP/1.1"
    timeout = IDLE

    def send_head(self) -> BytesIO | BinaryIO | None:
        """Answer the head of GET and HEAD; returns the open file to send, or None."""
        path = Path(self.translate_path(self.path))
        if path.is_dir():
            path = path / "index.html"
        if not path.is_file():
            self.send_error(HTTPStatus.NOT_FOUND, "No such file here")
            return None
        encoding, sent = self._encoded(path)
        stat = sent.stat()
        tag = f'"{stat.st_size:x}-{stat.st_mtime_ns:x}"'
        if self.headers.get("If-None-Match") == tag:
            self.send_response(HTTPStatus.NOT_MODIFIED)
            self._common(path, tag)
            self.end_headers()
            return None
        file = sent.open("rb")
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", _TYPES.get(path.suffix, "application/octet-stream"))
        self.send_header("Content-Length", str(stat.st_size))
        if encoding:
            self.send_header("Content-Encoding", encoding)
        self._common(path, tag)
        self.end_headers()
        return file

    def _encoded(self, path: Path) -> tuple[str, Path]:
        accepted = [word.split(";")[0].strip() for word in self.headers.get("Accept-Encoding", "").split(",")]
        for name, ending in _ENCODINGS:
            ready = path.with_name(path.name + ending)
            if name in accepted and ready.is_file():
                return name, ready
        return "", path

    def _common(self, path: Path, tag: str) -> None:
        self.send_header("ETag", tag)
        kept = path.parent.name in HASHED_FOLDERS and _HASHED.search(path.name)
        self.send_header("Cache-Control", FOR_EVER if kept else "no-cache")
        self.send_header("Vary", "Accept-Encoding")
        self.send_header("X-Content-Type-Options", "nosniff")
        if policy := policy_of(Path(self.directory)):
            self.send_header("Content-Security-Policy", policy)

    def log_message(self, format: str, *args: Any) -> None:
        """Quiet: the person reads the address, not the traffic."""


class Server(ThreadingHTTPServer):
    """One thread a connection; a browser that goes away is no fault worth a trace."""

    daemon_threads = True
    request_queue_size = 64
    """A page and its service worker ask for all their files at once."""

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Tell only of faults that are ours."""
        if not isinstance(sys.exception(), ConnectionError | TimeoutError):
            super().handle_error(request, client_address)


def make(folder: Path, port: int, host: str = "127.0.0.1") -> Server:
    """A server for the folder, to this machine alone unless told otherwise; port 0 takes a free one."""

    def handler(*words: Any) -> Handler:
        return Handler(*words, directory=os.fspath(folder))

    return Server((host, port), handler)


def _own_address() -> str | None:
    """This machine's address on its local network, if it has one; nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return None
        address = str(probe.getsockname()[0])
    return None if address.startswith("127.") else address


def serve(port: int, *, network: bool = False) -> int:
    """Serve dist/ until stopped by hand, to this machine or to everybody on its network."""
    try:
        server = make(DIST, port, "" if network else "127.0.0.1")
    except OSError as fault:
        raise Stop(
            f"Port {port} cannot be used ({fault.strerror}). Try another:\n\n"
            f"    python3 build.py serve --port {port + 1 if 1024 <= port < 65535 else 8765}\n"
        ) from fault
    say(f"\nConewright is at  http://localhost:{server.server_port}")
    address = _own_address() if network else None
    if not network:
        say("For a phone on the same network:  python3 build.py serve --network")
    elif address:
        say(
            f"On this network:  http://{address}:{server.server_port}"
            "   (works there too, but keeping it for offline use needs https or localhost)"
        )
    say("Stop with Ctrl+C.")
    try:
        server.serve_forever()
    finally:
        server.server_close()
    return 0
