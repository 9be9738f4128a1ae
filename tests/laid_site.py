"""A copy of the built site that can be changed under its visitors, and a server for it that can be killed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from in_browser import DIST, ROOT
from lying_server import with_other

_SERVE = (
    "import pathlib, sys; sys.path.insert(0, sys.argv[1])\n"
    "from builder import server\n"
    "made = server.make(pathlib.Path(sys.argv[2]), 0, '127.0.0.1')\n"
    "print(made.server_port, flush=True)\n"
    "made.serve_forever()\n"
)


class Site:
    """A copy of the site in a folder below the server's root; a newer version can be laid in its place."""

    def __init__(self, root: Path) -> None:
        self.folder = root / "shed"
        shutil.copytree(DIST, self.folder, copy_function=os.link)
        self._process = subprocess.Popen(
            [sys.executable, "-c", _SERVE, str(ROOT), str(root)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert self._process.stdout is not None
        self.address = f"http://localhost:{int(self._process.stdout.readline())}/shed/"

    def end(self) -> None:
        self._process.kill()
        self._process.wait()
        assert self._process.stdout is not None
        self._process.stdout.close()

    def _write(self, name: str, text: str) -> None:
        for ending in ("", ".br", ".gz"):
            (self.folder / (name + ending)).unlink(missing_ok=True)
        (self.folder / name).write_text(text, "utf-8")

    def make_newer(self) -> None:
        """The page under another title, and a service worker that knows the page to be another."""
        site = {name: (self.folder / name).read_bytes() for name in ("index.html", "service_worker.js")}
        page = site["index.html"].replace(b"<title>", b"<title>Newer ")
        for name, content in with_other(site, "index.html", page).items():
            self._write(name, content.decode())


def laid(root: Path) -> Iterator[Site]:
    """A site for as long as one test lasts."""
    if not (DIST / "index.html").is_file():
        pytest.fail("dist/ is missing: run the tests through `python3 build.py test`")
    made = Site(root)
    yield made
    made.end()
