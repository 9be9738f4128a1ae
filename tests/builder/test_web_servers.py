"""The configurations for servers in docs/ serve the page as it must be served, below an address of a site.

Each is tried where its server is on the machine (Debian: nginx-light with libnginx-mod-http-brotli-static,
apache2, caddy); a test that is skipped says that it was not tried.
"""

from __future__ import annotations

import gzip
import os
import re
import shutil
import socket
import subprocess
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from email.message import Message
from pathlib import Path

import pytest

from own_builder import ROOT, server

DOCS = ROOT / "docs"
BROTLI = Path("/usr/lib/nginx/modules/ngx_http_brotli_static_module.so")
MODULES = Path("/usr/lib/apache2/modules")
HASH = "-0123456789ab."
FILES = {
    "index.html": "text/html",
    "service_worker.js": "text/javascript",
    f"app/main{HASH}js": "text/javascript",
    f"app/style{HASH}css": "text/css",
    "manifest.webmanifest": "application/manifest+json",
    "icon.svg": "image/svg+xml",
    f"runtime/pyodide{HASH}mjs": "text/javascript",
    f"runtime/pyodide.asm{HASH}wasm": "application/wasm",
    f"runtime/python_stdlib{HASH}zip": "application/zip",
}
WASM = f"runtime/pyodide.asm{HASH}wasm"
READY = b"what lies ready beside the file"
SAFE = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
}


def policy() -> str:
    """The page's own policy, and what only a header may say: that no other page frames it."""
    page = (ROOT / "web" / "index.html").read_text("utf-8")
    found = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]+)"', page)
    return f"{found[0]}; frame-ancestors 'none'"


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


def _nginx(nginx: str, folder: Path, port: int) -> list[str]:
    told = (DOCS / "nginx.conf").read_text("utf-8").replace("/srv/conewright/dist/", f"{folder}/dist/")
    if not BROTLI.is_file():
        told = told.replace("brotli_static on;", "")
    module = f"load_module {BROTLI};\n" if BROTLI.is_file() else ""
    (folder / "nginx.conf").write_text(
        f"{module}pid {folder}/pid; error_log {folder}/errors; daemon off; worker_processes 1;\n"
        "events {}\n"
        f"http {{ access_log off; client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxy;\n"
        f"fastcgi_temp_path {folder}/fast; uwsgi_temp_path {folder}/uwsgi; scgi_temp_path {folder}/scgi;\n"
        f"server {{ listen 127.0.0.1:{port};\n{told}\n}} }}\n"
    )
    return [nginx, "-c", str(folder / "nginx.conf")]


def _apache(apache: str, folder: Path, port: int) -> list[str]:
    shutil.copyfile(DOCS / "apache.htaccess", folder / "dist" / ".htaccess")
    (folder / "nothing").mkdir()
    modules = ("mpm_event", "authz_core", "mime", "dir", "alias", "headers", "rewrite", "deflate", "filter")
    lines = [f"LoadModule {each}_module {MODULES}/mod_{each}.so" for each in modules]
    lines += [
        f"Listen 127.0.0.1:{port}", "ServerName localhost",
        f"PidFile {folder}/pid", f"ErrorLog {folder}/errors",
        "User www-data", "Group www-data", f"DocumentRoot {folder}/nothing", f"DefaultRuntimeDir {folder}",
        "TypesConfig /etc/mime.types", "AddType application/x-gzip .gz", "AddLanguage br .br",
        "AddOutputFilterByType DEFLATE text/html text/css text/javascript application/wasm",
        f"Alias /conewright/ {folder}/dist/",
        f"<Directory {folder}/dist>\nAllowOverride All\nRequire all granted\n</Directory>",
    ]  # fmt: skip
    (folder / "apache.conf").write_text("\n".join(lines) + "\n")
    return [apache, "-f", str(folder / "apache.conf"), "-D", "FOREGROUND"]


def _caddy(caddy: str, folder: Path, port: int) -> list[str]:
    told = (DOCS / "Caddyfile").read_text("utf-8").replace("/srv/conewright/dist", f"{folder}/dist")
    (folder / "Caddyfile").write_text(
        f"{{\nadmin off\nauto_https off\n}}\nhttp://127.0.0.1:{port} {{\n{told}\n}}\n"
    )
    return [caddy, "run", "--config", str(folder / "Caddyfile"), "--adapter", "caddyfile"]


SERVERS: dict[str, Callable[[str, Path, int], list[str]]] = {
    "nginx": _nginx,
    "apache2": _apache,
    "caddy": _caddy,
}


@pytest.fixture(scope="module", params=SERVERS)
def address(request: pytest.FixtureRequest) -> Iterator[str]:
    """Where the server serves a made-up dist/ with its configuration of docs/."""
    name: str = request.param
    program = shutil.which(name)
    if program is None:
        pytest.skip(f"There is no {name} on this machine: what docs/ says for it was not tried.")
    # Not below pytest's own folders: a server's workers run under another account, and may not look in there.
    folder = Path(tempfile.mkdtemp(prefix=f"conewright-{name}-"))
    folder.chmod(0o755)
    request.addfinalizer(lambda: shutil.rmtree(folder, ignore_errors=True))
    for each in FILES:
        file = folder / "dist" / each
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(each.encode())
        file.with_name(f"{file.name}.gz").write_bytes(gzip.compress(READY))
        file.with_name(f"{file.name}.br").write_bytes(READY)
    port = free_port()
    words = SERVERS[name](program, folder, port)
    said = folder / "said"
    with said.open("wb") as told:
        # What a server keeps for itself it keeps here.
        env = os.environ | dict.fromkeys(("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"), str(folder))
        process = subprocess.Popen(words, stdout=told, stderr=told, stdin=subprocess.DEVNULL, env=env)
        for _ in range(200):
            try:
                socket.create_connection(("127.0.0.1", port), timeout=1).close()
                break
            except OSError:
                assert process.poll() is None, said.read_text("utf-8")
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


def test_each_file_comes_with_its_type_its_life_and_the_policy(address: str) -> None:
    for name, kind in FILES.items():
        status, headers, content = fetched(address + name)
        assert (status, content) == (200, name.encode()), name
        assert headers["Content-Type"].partition(";")[0] == kind, name
        assert headers["Cache-Control"] == (server.FOR_EVER if HASH in name else "no-cache"), name
        assert headers["Content-Encoding"] is None, name
        assert headers["ETag"] or headers["Last-Modified"], name
        assert headers.get_all("Content-Security-Policy") == [policy()], name
        assert {key: headers[key] for key in SAFE} == SAFE, name


def test_what_lies_ready_is_sent_as_it_is(address: str) -> None:
    for name in (WASM, f"app/main{HASH}js", "index.html"):
        status, headers, content = fetched(address + name, "gzip")
        assert (status, headers["Content-Encoding"], gzip.decompress(content)) == (200, "gzip", READY)
        assert headers["Content-Type"].partition(";")[0] == FILES[name]
        assert headers["Content-Language"] is None
        assert headers["Cache-Control"] == (server.FOR_EVER if HASH in name else "no-cache")
        if "nginx" not in str(headers["Server"]) or BROTLI.is_file():
            _, headers, content = fetched(address + name, "gzip, deflate, br")
            assert (headers["Content-Encoding"], content) == ("br", READY)
            assert headers["Content-Type"].partition(";")[0] == FILES[name]


def test_the_folder_is_the_page_and_what_is_missing_is_not_missing_for_ever(address: str) -> None:
    status, headers, content = fetched(address)
    assert (status, content, headers["Cache-Control"]) == (200, b"index.html", "no-cache")
    for name in (f"runtime/nothing{HASH}mjs", f"app/nothing{HASH}js", "nothing.js"):
        status, headers, _ = fetched(address + name)
        assert status == 404
        assert "max-age" not in str(headers["Cache-Control"])
    assert fetched(address + "runtime/")[0] in (403, 404)


def test_headers_kept_in_a_file_say_the_same() -> None:
    rules: dict[str, dict[str, str]] = {}
    for line in (DOCS / "_headers").read_text("utf-8").splitlines():
        if line.startswith("/"):
            rules[line] = {}
        elif line.startswith("  "):
            name, _, value = line.strip().partition(": ")
            rules[list(rules)[-1]][name] = value
    assert rules["/*"] == {**SAFE, "Content-Security-Policy": policy()}
    hashed = {f"/{folder}/*": {"Cache-Control": server.FOR_EVER} for folder in server.HASHED_FOLDERS}
    assert rules == {"/*": rules["/*"], **hashed}
