"""The page as one file that a browser opens from a disk, without a server: `build.py single`."""

from __future__ import annotations

import base64
import shutil
from pathlib import Path

from builder import compressed, runtime, site
from builder.machine import Node, ensure_node
from builder.places import DIST, ROOT, WEB, WORK, alone, aside, files_below, is_done, key_of, mark_done
from builder.say import Stop, step

SINGLE = ROOT / "single"
NAME = "conewright.html"

_POLICY = (
    "default-src 'none'; script-src {scripts} 'wasm-unsafe-eval' blob:; worker-src blob:;"
    " style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"
)


def _part(name: str, text: str) -> str:
    return f'    <script type="text/plain" data-part="{name}">{text}</script>\n'


def _letters(packed: bytes) -> str:
    return base64.b64encode(packed).decode()


def _inside(text: str) -> str:
    """A program that is to stand in the page: nothing in it may look like the end of its element."""
    if "</script" in text.lower() or "<!--" in text:
        raise Stop("A program of the page holds what ends a script in HTML; it cannot stand in one file.")
    return text


def _assemble(node: Node, work: Path) -> str:
    programs = {
        "first.js": "src/first_of_file.ts",
        "main.js": "src/main.tsx",
        "boot.js": "src/worker/boot.ts",
        "worker.js": "src/worker/worker.ts",
        "style.css": "src/style.css",
    }
    site.write_demo()
    for name, source in programs.items():
        site.bundle(node, source, work / name, site.fixed({}, one_file=True))
    told = {name: (work / name).read_text("utf-8").strip() for name in programs}
    first, program = _inside(told["first.js"]), _inside(told["main.js"])
    parts = "".join(_part(name, _inside(told[name])) for name in ("boot.js", "worker.js"))
    for file in files_below(runtime.RUNTIME):
        # The runtime's programs are a part of the worker's; what was traced stays at home.
        if file.suffix not in (".mjs", ".json"):
            parts += _part(file.name, _letters(compressed.ready(file).with_suffix(".gz").read_bytes()))
    if "</style" in told["style.css"].lower():
        raise Stop("The style of the page holds what ends a style in HTML; it cannot stand in one file.")
    hashes = " ".join(f"'{site.integrity_of(each.encode())}'" for each in (first, program))
    icon = base64.b64encode((WEB / "static" / "icon.svg").read_bytes()).decode()
    page = (WEB / "one_file.html").read_text("utf-8")
    for name, text in {
        "policy": _POLICY.format(scripts=hashes),
        "first": first,
        "icon": f"data:image/svg+xml;base64,{icon}",
        "style": told["style.css"],
        "parts": parts.rstrip("\n"),
        "program": program,
    }.items():
        before, _, after = page.partition("{{" + name + "}}")
        page = before + text + after
    return page


def build() -> Path:
    """Write the file, unless what is there was made from just these files; returns where it lies.

    Raises Stop with a way out when something is missing or does not build.
    """
    site.build()
    with alone():
        key = key_of([DIST, WEB, Path(__file__), Path(site.__file__)])
        if not is_done("single", key, SINGLE):
            node = ensure_node()
            with step("putting everything into one file"), aside("single", SINGLE) as fresh:
                work = WORK / "single-parts"
                work.mkdir()
                (fresh / NAME).write_text(_assemble(node, work), "utf-8")
                shutil.rmtree(work)
            mark_done("single", key, SINGLE)
    return SINGLE / NAME
