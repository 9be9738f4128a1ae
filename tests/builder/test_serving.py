"""Whom the site's own server answers, and for how long it holds a connection."""

from __future__ import annotations

import http.client
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from own_builder import ROOT, say, server

_SERVE = """
import sys
sys.path.insert(0, sys.argv[1])
from pathlib import Path
from builder import server
server.DIST = Path(sys.argv[2])
server.serve(0, network=sys.argv[3] == "network")
"""


@contextmanager
def serving(folder: Path, words: str) -> Iterator[tuple[int, str]]:
    """`serve` in a process of its own: its port, and what it said."""
    process = subprocess.Popen(
        [sys.executable, "-c", _SERVE, ROOT, folder, words], stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    said = ""
    while "Stop with" not in said:
        line = process.stdout.readline()
        assert line, said
        said += line
    yield int(said.split("localhost:")[1].split()[0]), said
    process.kill()
    process.wait()
    process.stdout.close()


@pytest.mark.skipif(sys.platform != "linux", reason="only there has a machine further addresses of its own")
def test_only_this_machine_is_answered_unless_the_network_is_asked_for(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("page")
    for words, answered in (("", False), ("network", True)):
        with serving(tmp_path, words) as (port, said):
            with socket.create_connection(("127.0.0.1", port), timeout=5):
                pass
            # 127.0.0.2 stands for any address that is not the one bound to.
            try:
                socket.create_connection(("127.0.0.2", port), timeout=5).close()
                reached = True
            except ConnectionRefusedError:
                reached = False
            assert reached == answered, said
            assert ("--network" in said) != answered


def test_an_idle_connection_is_closed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "index.html").write_text("page")
    assert server.Handler.timeout is not None and server.Handler.timeout <= 60
    monkeypatch.setattr(server.Handler, "timeout", 0.3)
    made = server.make(tmp_path, 0)
    thread = threading.Thread(target=made.serve_forever, daemon=True)
    thread.start()
    with socket.create_connection(("127.0.0.1", made.server_port), timeout=10) as silent:
        assert silent.recv(1) == b""
    connection = http.client.HTTPConnection("127.0.0.1", made.server_port, timeout=10)
    connection.request("GET", "/")
    assert connection.getresponse().read() == b"page"
    assert connection.sock.recv(1) == b""
    connection.close()
    made.shutdown()
    made.server_close()
    thread.join()


def test_the_policy_that_the_page_states_comes_as_a_header_too(tmp_path: Path) -> None:
    page = ("http-equiv", "Content-Security-Policy"), ("content", "default-src 'self'; script-src 'self'")
    (tmp_path / "index.html").write_text(
        "<meta " + " ".join(f'{name}="{text}"' for name, text in page) + ">", "utf-8"
    )
    (tmp_path / "worker.js").write_text("0")
    made = server.make(tmp_path, 0)
    thread = threading.Thread(target=made.serve_forever, daemon=True)
    thread.start()
    for path in ("/", "/worker.js"):
        connection = http.client.HTTPConnection("127.0.0.1", made.server_port, timeout=10)
        connection.request("GET", path)
        told = connection.getresponse().getheader("Content-Security-Policy")
        assert told == "default-src 'self'; script-src 'self'; frame-ancestors 'none'"
        connection.close()
    made.shutdown()
    made.server_close()
    thread.join()


def test_a_taken_port_is_answered_with_another_to_try(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(say.Stop, match=rf"Port {port} cannot be used .*(?s:.)*--port \d+"):
            server.serve(port)
