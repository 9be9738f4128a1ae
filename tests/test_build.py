"""The build's own promises: the wheel is what is tested, what is shipped is whole, pins stay pinned."""

from __future__ import annotations

import ast
import base64
import gzip
import hashlib
import http.client
import json
import marshal
import os
import re
import shutil
import subprocess
import sys
import threading
import tomllib
from collections.abc import Iterator
from pathlib import Path

import brotli
import pytest

import calc
from in_browser import DIST, ROOT, built

BUILT = bool(os.environ.get("CONEWRIGHT_BUILT"))
WHEEL = Path(str(calc.__file__)).parent
STORED_NOT = {".br", ".gz"}


def _build(*words: str, **env: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, ROOT / "build.py", *words],
        capture_output=True, text=True, stdin=subprocess.DEVNULL, timeout=60, env={**os.environ, **env},
    )  # fmt: skip


@pytest.mark.skipif(not BUILT, reason="run through build.py test, which installs the wheel")
def test_the_core_under_test_is_the_built_wheel_and_it_is_whole() -> None:
    assert "site-packages" in WHEEL.parts
    for kind in ("*.py", "*.csv"):
        sources = {file.relative_to(ROOT / "calc") for file in (ROOT / "calc").rglob(kind)}
        assert sources == {file.relative_to(WHEEL) for file in WHEEL.rglob(kind)}
        for name in sources:
            assert (WHEEL / name).read_bytes() == (ROOT / "calc" / name).read_bytes(), name


def test_the_core_imports_nothing_but_the_standard_library() -> None:
    for file in (ROOT / "calc").rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom):
                names = [] if node.level else [str(node.module)]
            for name in names:
                top = name.split(".")[0]
                assert top == "calc" or top in sys.stdlib_module_names, f"{file} imports {name}"


def test_the_builder_imports_nothing_but_the_standard_library() -> None:
    for file in [ROOT / "build.py", *(ROOT / "builder").glob("*.py")]:
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Import | ast.ImportFrom):
                name = node.module if isinstance(node, ast.ImportFrom) else node.names[0].name
                top = str(name).split(".")[0]
                assert top in ("builder", "bench") or top in sys.stdlib_module_names, f"{file} imports {name}"


def test_every_dependency_is_pinned_and_no_lock_names_an_address() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["dependencies"] == []
    pins = [line for extra in project["optional-dependencies"].values() for line in extra]
    pinned = re.compile(r"[A-Za-z0-9_-]+==[0-9.]+(; python_version (<|>=) '3\.\d+')?")
    assert pins and all(pinned.fullmatch(line) for line in pins)
    package = json.loads((ROOT / "web" / "package.json").read_text("utf-8"))
    for version in (package["dependencies"] | package["devDependencies"]).values():
        assert re.fullmatch(r"[0-9]+\.[0-9]+\.[0-9]+", version)
    lock = (ROOT / "web" / "package-lock.json").read_text("utf-8")
    assert "resolved" not in lock and "://" not in re.sub(r'"url": "[^"]*"', "", lock)
    assert json.loads(lock)["packages"][""]["dependencies"] == package["dependencies"]


def _built_files() -> list[Path]:
    return [file for file in DIST.rglob("*") if file.is_file() and file.suffix not in STORED_NOT]


def _stored_files() -> list[Path]:
    return [
        file
        for file in _built_files()
        if file.name != "service_worker.js" and file.parent != DIST / "runtime" / "parts"
    ]


def test_the_service_worker_lists_every_file_with_its_own_hash() -> None:
    told = re.findall(
        r'url:"([^"]+)",revision:"sha256-([0-9a-f]{20})",integrity:"sha256-([^"]+)"',
        (DIST / "service_worker.js").read_text("utf-8"),
    )
    listed = {name: (revision, base64.b64decode(integrity)) for name, revision, integrity in told}
    files = {file.relative_to(DIST).as_posix(): file for file in _stored_files()}
    assert set(listed) == set(files)
    for name, file in files.items():
        digest = hashlib.sha256(file.read_bytes())
        assert listed[name] == (digest.hexdigest()[:20], digest.digest())


@pytest.mark.parametrize("name", ["main.js", "worker.js", "service_worker.js"])
def test_no_program_cut_short_is_still_a_program(name: str) -> None:
    """As an upload stopped half-way leaves it: a browser must refuse it, not run what is there of it."""
    node = shutil.which("node")
    if node is None:
        pytest.skip("needs Node on the machine to read programs with")
    file = name if name == "service_worker.js" else built(name)
    whole = (DIST / file).read_text("utf-8").rstrip()
    check = "const {Script}=require('vm');let n=0;for(const t of JSON.parse(require('fs').readFileSync(0)))"
    check += "try{new Script(t);n++}catch{};console.log(n)"
    cuts = [whole[: len(whole) * part // 60] for part in range(1, 60)] + [whole.removesuffix(";")[:-1]]
    for texts, programs in ((cuts, 0), ([whole], 1)):
        done = subprocess.run([node, "-e", check], input=json.dumps(texts), capture_output=True, text=True)
        assert int(done.stdout) == programs, done.stderr


def test_what_is_compressed_unpacks_to_the_file_beside_it() -> None:
    packed = [file for file in DIST.rglob("*") if file.suffix in STORED_NOT]
    wanted = [DIST / built(name) for name in ("pyodide.asm.wasm", "python_stdlib.zip", "main.js")]
    assert {f"{file}{ending}" for file in wanted for ending in STORED_NOT} <= {str(file) for file in packed}
    for file in packed:
        unpack = brotli.decompress if file.suffix == ".br" else gzip.decompress
        assert unpack(file.read_bytes()) == file.with_suffix("").read_bytes(), file


def test_the_page_and_its_updates_fit_the_wire() -> None:
    sizes = {}
    for file in (*_stored_files(), DIST / "service_worker.js"):
        packed = file.with_name(file.name + ".br")
        sizes[file] = (packed if packed.is_file() else file).stat().st_size
    assert 3e6 < sum(sizes.values()) < 3.9e6
    # A newer page on the same runtime and core: its programs, its look, and the two files that name them.
    told = (DIST / "index.html", DIST / "service_worker.js")
    assert sum(size for file, size in sizes.items() if file.parent.name == "app" or file in told) < 100e3


def test_the_packed_core_is_bytecode_and_data_and_nothing_else() -> None:
    packed = (DIST / built("core.bin")).read_bytes()
    begin = 4 + int.from_bytes(packed[:4], "little")
    # The index holds nothing but texts and numbers, which every Python marshals alike.
    index = marshal.loads(packed[4:begin])
    files = [file.relative_to(ROOT) for file in (ROOT / "calc").rglob("*.py")]
    wanted = {".".join(file.with_suffix("").parts).removesuffix(".__init__") for file in files}
    wanted |= {file.relative_to(ROOT).as_posix() for file in (ROOT / "calc").rglob("*.csv")}
    # What written-out data classes share is the builder's own module.
    assert set(index) == wanted - {"calc.__main__"} | {"calc.records"}
    ends = [end for _, _, end in index.values()]
    assert max(ends) == len(packed) - begin


def test_the_parts_of_the_core_make_the_core_and_are_named_by_their_content() -> None:
    core = DIST / built("core.bin")
    told = json.loads((DIST / built("core-parts.json")).read_text("utf-8"))
    assert told["of"] == core.relative_to(DIST).as_posix()
    parts = []
    for digest, length in told["parts"]:
        parts.append((DIST / "runtime" / "parts" / f"part-{digest}.bin").read_bytes())
        assert len(parts[-1]) == length and hashlib.sha256(parts[-1]).hexdigest().startswith(digest)
    assert b"".join(parts) == core.read_bytes()
    # A module a part, so that a change in one leaves all others as they are.
    assert len(parts) > 200 and max(map(len, parts[1:])) < len(core.read_bytes()) / 20
    listed = f'url:"{told["of"]}",' + r'revision:"[^"]+",integrity:"[^"]+",parts:"' + built("core-parts.json")
    assert re.search(listed, (DIST / "service_worker.js").read_text("utf-8"))


@pytest.fixture
def server() -> Iterator[http.client.HTTPConnection]:
    """A connection to the site's own server."""
    sys.path.insert(0, str(ROOT))
    try:
        from builder import server as module
    finally:
        sys.path.remove(str(ROOT))
    made = module.make(DIST, 0, "127.0.0.1")
    thread = threading.Thread(target=made.serve_forever, daemon=True)
    thread.start()
    connection = http.client.HTTPConnection("127.0.0.1", made.server_port, timeout=10)
    yield connection
    connection.close()
    made.shutdown()
    made.server_close()
    thread.join()


def _get(
    connection: http.client.HTTPConnection, path: str, **headers: str
) -> tuple[http.client.HTTPResponse, bytes]:
    connection.request(
        "GET", path, headers={name.replace("_", "-"): value for name, value in headers.items()}
    )
    response = connection.getresponse()
    return response, response.read()


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/", "text/html; charset=utf-8"),
        ("main.js", "text/javascript"),
        ("pyodide.mjs", "text/javascript"),
        ("pyodide.asm.wasm", "application/wasm"),
        ("/manifest.webmanifest", "application/manifest+json"),
        ("python_stdlib.zip", "application/zip"),
    ],
)
def test_the_server_names_the_type_and_sends_what_is_accepted(
    server: http.client.HTTPConnection, path: str, kind: str
) -> None:
    hashed = not path.startswith("/")
    if hashed:
        path = f"/{built(path)}"
    plain, content = _get(server, path)
    assert (plain.status, plain.headers["Content-Type"], plain.headers["Content-Encoding"]) == (
        200,
        kind,
        None,
    )
    kept = "public, max-age=31536000, immutable" if hashed else "no-cache"
    assert plain.headers["Cache-Control"] == kept
    for coding, unpack in (("br", brotli.decompress), ("gzip", gzip.decompress)):
        packed, body = _get(server, path, Accept_Encoding=f"{coding};q=1.0, zstd")
        assert (packed.headers["Content-Encoding"], packed.headers["Content-Type"]) == (coding, kind)
        assert unpack(body) == content
        again, nothing = _get(server, path, Accept_Encoding=coding, If_None_Match=str(packed.headers["ETag"]))
        assert (again.status, nothing) == (304, b"")


@pytest.mark.parametrize(
    "path", ["/no.such", "/../build.py", "/%2e%2e/build.py", "/runtime/", "/runtime", "//etc/passwd"]
)
def test_the_server_gives_nothing_but_files_of_the_site(
    server: http.client.HTTPConnection, path: str
) -> None:
    response, body = _get(server, path)
    assert response.status == 404 and b"def " not in body


def test_an_unknown_command_and_a_taken_port_are_answered_in_words() -> None:
    wrong = _build("sreve")
    assert wrong.returncode != 0 and "sreve" in wrong.stderr and "Traceback" not in wrong.stderr
    extra = _build("site", "--fast")
    assert extra.returncode != 0 and "not understood: --fast" in extra.stderr


def test_a_machine_without_the_means_is_told_the_line_to_type() -> None:
    # A PATH with nothing on it and a Python that cannot make environments: what a bare machine is like. The
    # person is not root here, so the system's package manager is not ours to start.
    told = subprocess.run(
        [sys.executable, "-c", _BARE, str(ROOT)], capture_output=True, text=True, stdin=subprocess.DEVNULL,
        env={"PATH": str(Path("/nonexistent"))}, timeout=60,
    )  # fmt: skip
    assert told.returncode == 1, told.stderr
    assert "sudo apt-get install -y --no-install-recommends python3-venv" in told.stdout


_BARE = """
import sys
sys.path.insert(0, sys.argv[1])
import shutil, subprocess, tempfile
from pathlib import Path
from builder import commands, machine, places, site
machine._is_root = lambda: False
shutil.which = lambda name, **_: "/usr/bin/apt-get" if name == "apt-get" else None
true_run = subprocess.run
def run(command, **words):
    if "import ensurepip, venv" in command:
        return subprocess.CompletedProcess(command, 1)
    return true_run(command, **words)
subprocess.run = run
machine.VENV = Path(tempfile.mkdtemp()) / "venv"
places.mark_done = lambda *_: None
site.is_done = lambda *_: False
sys.exit(commands.main(["site"]))
"""


def test_the_floors_are_kept_by_a_check_that_can_fail(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "calc", tmp_path / "calc", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copyfile(ROOT / "pyproject.toml", tmp_path / "pyproject.toml")
    linter = Path(sys.executable).parent / "lint-imports"

    def kept() -> bool:
        words = [linter, "--no-cache"]
        env = {"PATH": os.environ["PATH"]}
        told = subprocess.run(words, cwd=tmp_path, capture_output=True, text=True, env=env)
        assert "Contracts:" in told.stdout, told.stdout + told.stderr
        return told.returncode == 0

    assert kept()
    for lower, upper in (("cone", "stages"), ("tables/loader", "setting"), ("setting/bar", "drawer")):
        file = tmp_path / "calc" / f"{lower}.py"
        before = file.read_text("utf-8")
        file.write_text(before + f"\n\nimport calc.{upper}  # noqa\n", "utf-8")
        assert not kept(), f"calc.{lower} may import calc.{upper}"
        file.write_text(before, "utf-8")
