"""The configuration for nginx in docs/ serves the page as it must be served, below an address of a site."""

from __future__ import annotations

import gzip
import shutil
import socket
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from email.message import Message
from pathlib import Path

import pytest

DOCS = Path(__file__).parents[2] / "docs"
BROTLI = Path("/usr/lib/nginx/modules/ngx_http_brotli_static_module.so")
FILES = {
    "index.html": "text/html",
    "main.js": "text/javascript",
    "style.css": "text/css",
    "manifest.webmanifest": "application/manifest+json",
    "icon.svg": "image/svg+xml",
    "runtime/pyodide.mjs": "text/javascript",
    "runtime/pyodide.asm.wasm": "application/wasm",
    "runtime/python_stdlib.zip": "application/zip",
}
READY = b"what lies ready beside the file"


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where nginx serves a made-up dist/ with the configuration of docs/."""
    nginx = shutil.which("nginx")
    if nginx is None:
        pytest.skip("There is no nginx on this machine: what docs/nginx.conf says was not tried.")
    folder = tmp_path_factory.mktemp("nginx")
    for name in FILES:
        file = folder / "dist" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(name.encode())
        file.with_name(f"{file.name}.gz").write_bytes(gzip.compress(READY))
        file.with_name(f"{file.name}.br").write_bytes(READY)
    told = (DOCS / "nginx.conf").read_text("utf-8").replace("/srv/conewright/dist/", f"{folder}/dist/")
    if not BROTLI.is_file():
        told = told.replace("brotli_static on;", "")
    port = free_port()
    module = f"load_module {BROTLI};\n" if BROTLI.is_file() else ""
    (folder / "nginx.conf").write_text(
        f"{module}pid {folder}/pid; error_log {folder}/errors; daemon off; worker_processes 1;\n"
        "events {}\n"
        f"http {{ access_log off; client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxy;\n"
        f"fastcgi_temp_path {folder}/fast; uwsgi_temp_path {folder}/uwsgi; scgi_temp_path {folder}/scgi;\n"
        f"server {{ listen 127.0.0.1:{port};\n{told}\n}} }}\n"
    )
    # Its own workers run under another account, which must be able to read what the tests made.
    for each in (folder, *folder.parents[:2]):
        each.chmod(0o755)
    process = subprocess.Popen([nginx, "-c", str(folder / "nginx.conf")], stderr=subprocess.DEVNULL)
    for _ in range(100):
        try:
            socket.create_connection(("127.0.0.1", port), timeout=1).close()
            break
        except OSError:
            assert process.poll() is None, (folder / "errors").read_text("utf-8")
            time.sleep(0.05)
    yield f"http://127.0.0.1:{port}/conewright/"
    process.terminate()
    process.wait(timeout=10)


def fetched(address: str, encodings: str = "") -> tuple[int, Message, bytes]:
    request = urllib.request.Request(address, headers={"Accept-Encoding": encodings})
    try:
        with urllib.request.urlopen(request, timeout=10) as told:
            return told.status, told.headers, told.read()
    except urllib.error.HTTPError as told:
        return told.code, told.headers, told.read()


@pytest.mark.parametrize("name", FILES)
def test_each_file_comes_with_its_type_and_is_asked_for_anew(address: str, name: str) -> None:
    status, headers, content = fetched(address + name)
    assert (status, content) == (200, name.encode())
    assert headers["Content-Type"].partition(";")[0] == FILES[name]
    assert headers["Cache-Control"] == "no-cache"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Content-Encoding"] is None
    assert headers["ETag"] or headers["Last-Modified"]


def test_what_lies_ready_is_sent_as_it_is(address: str) -> None:
    status, headers, content = fetched(address + "runtime/pyodide.asm.wasm", "gzip")
    assert (status, headers["Content-Encoding"], gzip.decompress(content)) == (200, "gzip", READY)
    assert headers["Content-Type"] == "application/wasm"
    if BROTLI.is_file():
        _, headers, content = fetched(address + "runtime/pyodide.asm.wasm", "gzip, deflate, br")
        assert (headers["Content-Encoding"], content) == ("br", READY)


def test_the_folder_is_the_page_and_what_is_missing_is_missing(address: str) -> None:
    assert fetched(address)[2] == b"index.html"
    assert fetched(address + "runtime/nothing.mjs")[0] == 404
    assert fetched(address + "runtime/")[0] in (403, 404)
