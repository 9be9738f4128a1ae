// Runs the browser's own Python under Node: traces which library modules the core needs for a set of requests, and packs
// those modules and the core as bytecode. One JSON text on standard input:
//   {pyodide: folder, core: {path: file}, inside: file, requests: [text], out: folder}
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, dirname } from "node:path";
import { pathToFileURL } from "node:url";

// The fault alone: Node would print the runtime's one long line of script beside it.
process.on("uncaughtException", (fault) => {
  console.error(String(fault?.message ?? fault), String(fault?.stack ?? "").slice(-1500));
  process.exit(1);
});

const job = JSON.parse(readFileSync(0, "utf8"));
const { loadPyodide } = await import(pathToFileURL(join(job.pyodide, "pyodide.mjs")).href);
const CORE_ZIP = "/lib/core.zip";
const SOURCES = "/core";

// The same start as the worker's (web/src/worker/worker.ts), but with the whole library and the core as sources.
const python = await loadPyodide({
  indexURL: job.pyodide + "/",
  lockFileContents: { info: JSON.parse(readFileSync(join(job.pyodide, "pyodide-lock.json"))).info, packages: {} },
  env: { PYTHONPATH: SOURCES },
  fsInit: async (files) => {
    for (const [path, file] of Object.entries(job.core)) {
      files.mkdirTree(dirname(`${SOURCES}/${path}`));
      files.writeFile(`${SOURCES}/${path}`, readFileSync(file));
    }
  },
});

const work = python.pyimport("calc.job").work_text;
const unanswered = [];
for (const request of job.requests) {
  try {
    work(request);
  } catch (fault) {
    unanswered.push(`${String(fault.message).trim().split("\n").at(-1)} for ${request.slice(0, 300)}`);
  }
}
// One fault in the core must not keep the page from being built (the tests are what refuses it); all of them must.
if (unanswered.length === job.requests.length) throw new Error(unanswered[0]);
try {
  // A fault is put into words by library modules of its own; they must be on board when one happens.
  python.pyimport("calc.no_such_module");
} catch (fault) {
  if (!String(fault).includes("no_such_module")) throw fault;
}

// The list is taken before this file's own needs (zipfile and others) are imported.
const prefix = `/lib/python${python.runPython("import sys; f'{sys.version_info[0]}{sys.version_info[1]}'")}.zip/`;
const kept = python
  .runPython(
    `sorted({m.__spec__.origin[${prefix.length}:] for m in list(sys.modules.values())
      if getattr(getattr(m, "__spec__", None), "origin", None) and str(m.__spec__.origin).startswith("${prefix}")})`,
  )
  .toJs();

python.FS.writeFile(`${SOURCES}/inside_runtime.py`, readFileSync(job.inside));
const inside = python.pyimport("inside_runtime");
const bytes = (proxy) => proxy.toJs();
mkdirSync(job.out, { recursive: true });
python.FS.unlink(`${SOURCES}/inside_runtime.py`);
writeFileSync(join(job.out, "python_stdlib.zip"), bytes(inside.packed_library(python.toPy(kept))));
writeFileSync(join(job.out, "core.zip"), bytes(inside.packed_core(SOURCES, CORE_ZIP)));
writeFileSync(join(job.out, "modules.json"), JSON.stringify(kept, null, 1) + "\n");
console.log(JSON.stringify({ python: python.runPython("sys.version.split()[0]"), modules: kept.length, unanswered }));
