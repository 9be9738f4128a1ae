"""Puts the site together in dist/: page, worker, runtime, and the service worker with its list of files."""

from __future__ import annotations

import base64
import hashlib
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

from builder import compressed, parts, runtime
from builder.machine import Node, ensure_node, ensure_packages
from builder.places import (
    CORE,
    CORPUS,
    DIST,
    NODE_MODULES,
    PYODIDE,
    ROOT,
    WEB,
    alone,
    aside,
    files_below,
    is_done,
    key_of,
    mark_done,
    need_whole,
)
from builder.say import Stop, run, say, step

_EMPTY_JOB = '{"format": 1, "units": "mm", "entries": {}, "drawer": [], "history": []}\n'
_PAGE = "index.html"
_LOOK = ("style.css", "src/style.css")
_MAIN = ("main.js", "src/main.tsx")
_PROGRAMS = {"worker.js": "src/worker/worker.ts", "qr.js": "src/keep/qr.ts"}
"""What the page asks for by itself, when it comes to it."""

_FOR_BUILDS = ("modules.json", "core_lengths.json")
"""What the runtime's folder holds for whoever builds, and no page asks for."""

APP = "app"
"""The folder of the page's programs; like those of runtime/ their names hold the hash of their content."""

def write_demo() -> None:
    """The demo job as the core tells it, for the page to start with."""
    target = WEB / "src" / "generated" / "demo.json"
    told = subprocess.run(
        [sys.executable, "-X", "utf8", "-m", "calc", "--demo"],
        cwd=CORE.parent,
        capture_output=True,
        stdin=subprocess.DEVNULL,
        text=True,
        encoding="utf-8",
    )
    try:
        demo = (
            json.dumps(json.loads(told.stdout), ensure_ascii=False, indent=1) + "\n"
            if told.returncode == 0
            else ""
        )
    except ValueError:
        demo = ""
    if not demo:
        say("  the core told no demo job (python3 -m calc --demo); the page will start empty")
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(demo or _EMPTY_JOB, "utf-8")


def fixed(runtime_files: dict[str, str], *, one_file: bool = False) -> dict[str, object]:
    """What the build fills in for the page's programs, by its name there; the runtime's files as they lie."""
    return {
        "RUNTIME_INFO": json.loads((PYODIDE / "pyodide-lock.json").read_text("utf-8"))["info"],
        "RUNTIME_FILES": runtime_files,
        "CORE_INTEGRITY": integrity_of((runtime.RUNTIME / "core.bin").read_bytes()),
        "IN_ONE_FILE": one_file,
        "PROGRAMS": {},
    }


def hashed(file: Path) -> Path:
    """The file under a name that holds the hash of its content: one name never has two contents."""
    digest = hashlib.sha256(file.read_bytes()).hexdigest()[: parts.HASH_LETTERS]
    return file.rename(file.with_name(f"{file.stem}-{digest}{file.suffix}"))


def bundle(node: Node, source: str, target: Path, fixed: dict[str, object]) -> None:
    """One program or style of the page from its sources.

    Raises Stop where it does not build.
    """
    defines = [f"--define:{name}={json.dumps(value)}" for name, value in fixed.items()]
    run(
        [
            node.node,
            NODE_MODULES / "esbuild" / "bin" / "esbuild",
            source,
            f"--outfile={target}",
            "--bundle",
            "--minify",
            # One function from the first letter to the last: half of a file that was cut short is no program.
            "--format=iife",
            "--target=es2022",
            "--jsx=automatic",
            "--jsx-import-source=preact",
            "--charset=utf8",
            "--log-level=warning",
            # The runtime as a part of another program has no address; under Node it would import these.
            "--log-override:empty-import-meta=silent",
            "--external:node:*",
            "--external:ws",
            '--define:process.env.NODE_ENV="production"',
            *defines,
        ],
        cwd=WEB,
        way_out=f"web/{source} does not build; the lines above say where.",
    )


def _check_page(site: Path) -> None:
    page = (site / "index.html").read_text("utf-8")
    for name in re.findall(r'\b(?:src|href)="([^"#:]+)"', page):
        if not (site / name).is_file():
            raise Stop(f"web/index.html asks for {name}, which is not part of the site.")


def stored_files(site: Path, in_parts: dict[str, str]) -> list[dict[str, str]]:
    """Address and hash of every file of the site: the service worker stores none that has not the hash.

    in_parts: the list of its parts, for each file that is to be had in parts too. The parts are not stored.

    What was stored before hashes were looked at lies under other revisions, and is fetched anew.
    """
    found = []
    for file in files_below(site):
        if file.name == "service_worker.js" or file.suffix in (".br", ".gz"):
            continue
        if file.parent.name == parts.FOLDER:
            continue
        content, url = file.read_bytes(), file.relative_to(site).as_posix()
        found.append(
            {
                "url": url,
                "revision": f"sha256-{hashlib.sha256(content).hexdigest()[:20]}",
                "integrity": integrity_of(content),
                **({"parts": in_parts[url]} if url in in_parts else {}),
            }
        )
    return found


def integrity_of(content: bytes) -> str:
    """The hash of a file as a browser wants it told (Subresource Integrity)."""
    return f"sha256-{base64.b64encode(hashlib.sha256(content).digest()).decode()}"


def _assemble(node: Node, into: Path) -> None:
    shutil.copytree(runtime.build(node), into / "runtime", ignore=shutil.ignore_patterns(*_FOR_BUILDS))
    if (WEB / "static").is_dir():
        shutil.copytree(WEB / "static", into, dirs_exist_ok=True)
    shutil.copyfile(ROOT / "NOTICES", into / "NOTICES.txt")
    write_demo()
    runtime_files = {file.name: hashed(file).name for file in files_below(into / "runtime")}
    filled_in = fixed(runtime_files)
    core = f"runtime/{runtime_files['core.bin']}"
    lengths = json.loads((runtime.RUNTIME / "core_lengths.json").read_text("utf-8"))
    in_parts = {core: hashed(parts.write(into / core, lengths, core)).relative_to(into).as_posix()}

    def program(name: str, source: str, **more: object) -> str:
        bundle(node, source, into / APP / name, {**filled_in, **more})
        return f"{APP}/{hashed(into / APP / name).name}"

    programs = {name: program(name, source) for name, source in _PROGRAMS.items()}
    page = (WEB / _PAGE).read_text("utf-8")
    for name, address in {
        _LOOK[0]: program(*_LOOK),
        _MAIN[0]: program(*_MAIN, PROGRAMS=programs),
    }.items():
        integrity = integrity_of((into / address).read_bytes())
        page = page.replace(f'"{APP}/{name}"', f'"{address}" integrity="{integrity}"')
    (into / _PAGE).write_text(page, "utf-8")
    _check_page(into)
    bundle(node, "src/service_worker.ts", into / "service_worker.js", {"FILES": stored_files(into, in_parts)})
    compressed.write(node, into)


def build() -> None:
    """Write dist/, unless what is there was made from just these files.

    Raises Stop with a way out when something is missing or does not build.
    """
    parts = [WEB, CORE, CORPUS, ROOT / "builder", ROOT / "NOTICES", ROOT / "tests" / "generated_requests.py"]
    need_whole()
    with alone():
        key = key_of(parts)
        if is_done("site", key, DIST):
            return
        node = ensure_node()
        ensure_packages(node)
        with step("building the site"), aside("site", DIST) as fresh:
            _assemble(node, fresh)
            if key_of(parts) != key:
                raise Stop("Files of the project were changed while the site was made. Try again.")
        mark_done("site", key, DIST)
