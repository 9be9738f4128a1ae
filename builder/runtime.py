"""The browser's Python as shipped: the runtime as published, its library trimmed to what the core uses."""

from __future__ import annotations

import json
import shutil
import sys
import zipfile
from pathlib import Path

from builder.bare import bare
from builder.machine import Node
from builder.places import CORE, CORPUS, PYODIDE, ROOT, WORK, aside, files_below, is_done, key_of, mark_done
from builder.say import run, say, step
from builder.written_out import HELPERS, written_out

RUNTIME = WORK / "runtime"
_AS_PUBLISHED = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
_HERE = Path(__file__).parent
INSIDE = _HERE / "inside"
_LATER = ("inspect", "traceback")
# Modules of the runtime's library that others of ours stand for: it asks little of them, and they bring much.
_INSTEAD = {
    "asyncio/__init__.py": "asyncio_left_out.py",
    "pyodide/__init__.py": "pyodide_alone.py",
    "pyodide/_package_loader.py": "no_packages.py",
    "pyodide/code.py": "evaluation_names.py",
    "_pyodide/__init__.py": "runtime_begin.py",
    "_pyodide/_base.py": "evaluation.py",
    "_pyodide/docstring.py": "short_docs.py",
    "_pyodide/jsbind.py": "plain_calls.py",
    **{f"{name}.py": f"{name}_later.py" for name in _LATER},
}
_GENERATOR = ROOT / "tests" / "generated_requests.py"
_TRACED_REQUESTS = 300


def core_files() -> dict[str, str]:
    """Path inside the package's parent folder -> file, of everything of the core that goes to the browser."""
    return {
        file.relative_to(CORE.parent).as_posix(): str(file)
        for file in files_below(CORE)
        if file.name != "__main__.py" and file.suffix in (".py", ".csv")
    }


def written_files(into: Path) -> dict[str, str]:
    """The same as `core_files`, its data classes written out and its annotations left out: modules are put
    below `into`."""
    files = core_files()
    for path, file in list(files.items()):
        if not path.endswith(".py"):
            continue
        made = into / path
        made.parent.mkdir(parents=True, exist_ok=True)
        made.write_text(bare(written_out(Path(file).read_text("utf-8"), path)), "utf-8")
        files[path] = str(made)
    files[f"{HELPERS.replace('.', '/')}.py"] = str(INSIDE / "records.py")
    return files


def _leaner_library(into: Path) -> None:
    """The library as published, with what stands for parts of it."""
    ours = {path: INSIDE / name for path, name in _INSTEAD.items()}
    with zipfile.ZipFile(PYODIDE / "python_stdlib.zip") as whole, zipfile.ZipFile(into, "w") as leaner:
        for each in whole.infolist():
            content = ours[each.filename].read_bytes() if each.filename in ours else whole.read(each)
            leaner.writestr(each.filename, content)
        for name in _LATER:
            leaner.writestr(f"{name}_whole.py", whole.read(f"{name}.py"))


def corpus() -> list[str]:
    """The requests that the library is traced with: those kept in tests/corpus and generated ones."""
    texts = [file.read_text("utf-8") for file in files_below(CORPUS) if file.suffix in (".json", ".txt")]
    told = run(
        [sys.executable, "-X", "utf8", _GENERATOR, str(_TRACED_REQUESTS), "1"],
        cwd=CORE.parent,
        way_out="The requests to trace with could not be generated (tests/generated_requests.py).",
    )
    generated: list[str] = json.loads(told)
    return texts + generated


def build(node: Node) -> Path:
    """The folder runtime/ of the site, made anew where the core, the requests or the runtime changed."""
    key = key_of(
        [
            CORE,
            CORPUS,
            _GENERATOR,
            _HERE / "trim.mjs",
            INSIDE,
            _HERE / "runtime.py",
            _HERE / "bare.py",
            _HERE / "written_out.py",
            PYODIDE / "package.json",
        ]
    )
    if is_done("runtime", key, RUNTIME):
        return RUNTIME
    with step("packing Python for the browser"), aside("runtime", RUNTIME) as fresh:
        shutil.rmtree(WORK / "runtime-core", ignore_errors=True)
        files = written_files(WORK / "runtime-core")
        library = WORK / "runtime-library.zip"
        _leaner_library(library)
        job = {
            "pyodide": str(PYODIDE),
            "library": str(library),
            "core": files,
            "instead": {"calc/tables/loader.py": str(INSIDE / "tables.py")},
            "inside": str(INSIDE),
            "requests": corpus(),
            "out": str(fresh),
        }
        told = run(
            [node.node, _HERE / "trim.mjs"],
            given=json.dumps(job),
            way_out="The core did not run in the browser's Python; the lines above say where.",
        )
        unanswered: list[str] = json.loads(told.strip().splitlines()[-1])["unanswered"]
        if unanswered:
            say(f"  the core raised on {len(unanswered)} requests, which is a fault in it: {unanswered[0]}")
        for name in _AS_PUBLISHED:
            shutil.copyfile(PYODIDE / name, fresh / name)
    mark_done("runtime", key, RUNTIME)
    return RUNTIME
