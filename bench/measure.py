"""`build.py bench`: speed, size and memory, against the aims and the stock runtime in the same run."""

from __future__ import annotations

import json
import os
import shutil
import sys
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from bench.plot import svg
from bench.update import by_room, fetched_at_first, sent
from builder import compressed, runtime, site
from builder.machine import Node, browser_tool_env, ensure_browser, ensure_node, ensure_packages, ensure_venv
from builder.places import DIST, PYODIDE, ROOT, WEB, WORK, need_whole
from builder.say import run, say, step

AIM_RATIO = {"cold": 0.30, "warm": 0.22}
AIM_FIRST = 1.5
AIM_LEAD = {0.5: 30.0, 0.95: 50.0}
AIM_WHOLE = 100.0
AIM_ANSWER = 20e3
AIM_SEARCH = 17.0
AIM_BYTES = 3.9e6
AIM_UPDATE = 150e3
AIM_MEMORY = 40e6

_PAGE = '<!doctype html><meta charset="utf-8"><script type="module" src="harness.js"></script>'
_HARNESS = """const worker = new Worker('./app/worker.js', { type: 'module' });
worker.onmessage = ({ data }) => {
  if (data.kind === 'ready') self.memory = data.memory;
  if (data.kind === 'answer') self.answered = performance.now();
};
worker.postMessage({ kind: 'work', id: 1, request: %s });
"""
_FINDS_CORE = """import sys
sys.path.append("/lib/core.bin")
def started(): pass
"""


def _prepare(node: Node) -> None:
    """The two folders to compare: the same worker and core, on our runtime and on the stock one."""
    base = WORK / "bench"
    shutil.rmtree(base, ignore_errors=True)
    demo = (WEB / "src" / "generated" / "demo.json").read_text("utf-8")
    for kind in ("ours", "stock"):
        folder = base / kind
        (folder / "runtime").mkdir(parents=True)
        (folder / "index.html").write_text(_PAGE)
        (folder / "harness.js").write_text(_HARNESS % json.dumps(demo))
        files = runtime.RUNTIME.iterdir() if kind == "ours" else PYODIDE.glob("py*.[mwz]*")
        for file in files:
            if file.suffix in (".mjs", ".wasm", ".zip", ".bin"):
                shutil.copyfile(file, folder / "runtime" / file.name)
    published = base / "stock" / "runtime"
    with zipfile.ZipFile(published / "core.bin", "w", zipfile.ZIP_DEFLATED) as core:
        for name, source in runtime.core_files().items():
            core.write(source, name)
    # The library as published, and with it a line that finds the core, which is a zip here.
    with zipfile.ZipFile(published / "python_stdlib.zip", "a", zipfile.ZIP_DEFLATED) as library:
        library.writestr("sitecustomize.py", _FINDS_CORE)
    (published / "library.bin").write_bytes(b"")
    for kind in ("ours", "stock"):
        # The worker takes no core but the one it was built with; the stock runtime's holds sources.
        core_file = base / kind / "runtime" / "core.bin"
        filled_in = {**site.fixed({}), "CORE_INTEGRITY": site.integrity_of(core_file.read_bytes())}
        site.bundle(node, "src/worker/worker.ts", base / kind / "app" / "worker.js", filled_in)
        compressed.write(node, base / kind)
    info = json.loads((PYODIDE / "pyodide-lock.json").read_text("utf-8"))["info"]
    (base / "info.json").write_text(json.dumps(info))


def wire_bytes(folder: Path) -> int:
    """Bytes that a first visit fetches, with brotli where it is ready."""
    return sum(map(sent, fetched_at_first(folder)))


class Report:
    """Prints each line with its verdict and remembers what fell short."""

    def __init__(self) -> None:
        self.short: list[str] = []

    def line(self, name: str, value: float, aim: float, text: str) -> None:
        """One measure against its aim."""
        say(f"  {name:<58} {text:<26} {'meets the aim' if value <= aim else 'FALLS SHORT'}")
        if value > aim:
            self.short.append(f"{name}: {text}")


def _report(found: dict[str, Any], here: list[dict[str, Any]]) -> Report:
    report = Report()
    times, memory = found["starts"]["times"], found["starts"]["memory"]
    say("\nStart to first answer, against the stock runtime serving the same core (medians)")
    for visit in ("cold", "warm"):
        ours, stock = times[f"ours {visit}"], times[f"stock {visit}"]
        ratio = ours / stock
        text = f"{ratio:.2f} (aim {AIM_RATIO[visit]:.2f}; {ours:.0f} of {stock:.0f} ms)"
        report.line(f"{visit} start", ratio, AIM_RATIO[visit], text)
    ours, stock = times["ours snapshot"], times["stock warm"]
    text = f"{ours / stock:.2f} (aim {AIM_RATIO['warm']:.2f}; {ours:.0f} of {stock:.0f} ms)"
    report.line("warm start from the snapshot made on the device", ours / stock, AIM_RATIO["warm"], text)
    ours, plain = found["first"]["ours"], found["first"]["plain"]
    text = f"{ours / plain:.2f} (aim {AIM_FIRST:.1f}; {ours:.0f} of {plain:.0f} ms)"
    report.line("first screen of a kept set-up, against a plain page", ours / plain, AIM_FIRST, text)
    say("\nKey press to new figures on screen")
    presses = found["presses"]
    where = "half a core" if found["half_core"] else "full cores"
    if not found["half_core"]:
        say("  half a core could not be had on this system; measured on full cores")
    for share, aim in AIM_LEAD.items():
        _press(report, f"to the lead figure, on {where}", presses["lead"], share, aim)
    _press(report, f"to the last change on the page, on {where}", presses["whole"], 0.95, AIM_WHOLE)
    if presses["bytes"]:
        counted = ("first bytes", "open bytes", "bytes")
        first, stage, all_parts = (_share(presses[name], 0.5) for name in counted)
        told = f"the lead {first / 1e3:.1f}, with what comes later {all_parts / 1e3:.1f}"
        text = f"{stage / 1e3:.1f} kB (aim {AIM_ANSWER / 1e3:.0f}; {told})"
        report.line("bytes of an answer up to the open stage, median", stage, AIM_ANSWER, text)
    say("\nStack search by pieces and depth (median, longest of the trials)")
    for native, browser in zip(here, found["searches"], strict=True):
        name = f"{native['pieces']} pieces, {native['depth']} deep, in the browser"
        ratio = browser["median"] / max(native["median"], 1e-3)
        proved = "" if browser["proved"] else ", not all proved"
        against = f"{ratio:.1f} x CPython's {native['median']:.1f}{proved}"
        text = f"{browser['median']:.1f}, {browser['longest']:.1f} ms ({against})"
        aimed = native["pieces"] == 150 and native["depth"] == 5
        if aimed:
            report.line(name, browser["median"], AIM_SEARCH, text)
        else:
            say(f"  {name:<58} {text}")
    say("\nSize and memory")
    total, stock_total = wire_bytes(DIST), wire_bytes(WORK / "bench" / "stock")
    text = f"{total / 1e6:.2f} MB (aim {AIM_BYTES / 1e6:.1f}; {total / stock_total:.2f} x stock)"
    report.line("over the wire with brotli, the whole site", total, AIM_BYTES, text)
    rooms = by_room(DIST)
    cost = sorted(rooms.values())
    dearest = max(rooms, key=lambda room: rooms[room])
    middle = cost[len(cost) // 2] / 1e3
    text = f"{cost[-1] / 1e3:.0f} kB (aim {AIM_UPDATE / 1e3:.0f}; {dearest}; the middle one {middle:.0f})"
    report.line("an update: all of the page, the core's dearest room", cost[-1], AIM_UPDATE, text)
    heap, share = memory["ours"], memory["ours"] / memory["stock"]
    text = f"{heap / 1e6:.1f} MB (aim {AIM_MEMORY / 1e6:.0f}; {share:.2f} x stock)"
    report.line("the runtime's heap after the first start", heap, AIM_MEMORY, text)
    return report


def _grown(found: Mapping[str, Any]) -> None:
    """Print how each thing grows, and plot it to a file."""
    say("\nHow it grows, by number [ms] (in CPython; kept set-ups in the browser)")
    for title, lines in found.items():
        say(f"  {title}")
        for line in lines:
            points = "  ".join(f"{count}: {ms:.{0 if ms >= 10 else 1}f}" for count, ms in line["points"])
            note = f"  ({line['note']})" if line["note"] else ""
            say(f"    {line['name']:<14} {points}{note}")
    file = WORK / "bench" / "growth.svg"
    file.write_text(svg(found), "utf-8")
    say(f"  plotted to {file.relative_to(ROOT)}")


def _share(values: list[float], share: float) -> float:
    """The value below which this share of them lies; they are sorted."""
    return values[min(len(values) - 1, int(share * len(values)))]


def _press(report: Report, name: str, times: list[float], share: float, aim: float) -> None:
    if not times:
        report.short.append(f"key press {name}: nothing changed on screen")
        return
    value, words = _share(times, share), "median" if share == 0.5 else f"{share:.0%} of {len(times)} within"
    report.line(f"{name}, {words}", value, aim, f"{value:.0f} ms (aim {aim:.0f})")


def run_all() -> int:
    """Measure and print; what falls short is named, and is a finding rather than a failure."""
    need_whole()
    python = ensure_venv("test")
    node = ensure_node()
    ensure_packages(node)
    chromium = ensure_browser(python, node)
    site.build()
    _prepare(node)
    with step("timing the stack search in CPython"):
        here = json.loads(run([sys.executable, "-m", "bench.search"], cwd=ROOT, way_out="Does the core run?"))
    with step("timing how it grows in CPython"):
        told = run([sys.executable, "-m", "bench.growth"], cwd=ROOT, way_out="Does the core run?")
        grown: dict[str, Any] = json.loads(told)
    with step("measuring in the browser (a minute or two)"):
        command: list[str | Path] = [python, "-m", "bench.browser", chromium]
        told = run(command, cwd=ROOT, env=browser_tool_env(node), way_out="Does the page work at all?")
    with step("cutting in a simulated shop (a minute or two)"):
        shop = run(
            [python, "-m", "shop.report", "45", "6"],
            cwd=ROOT / "tests",
            env={**os.environ, "PYTHONPATH": os.pathsep.join((str(ROOT / "tests"), str(ROOT)))},
            way_out="Do the tests of the simulated shop pass?",
        )
    found = json.loads(told.strip().splitlines()[-1])
    report = _report(found, here)
    _grown({**grown, "Kept set-ups": found["kept"]})
    say(shop)
    say("\nNothing falls short." if not report.short else "\nWhat falls short:")
    for each in report.short:
        say(f"  {each}")
    return 0
