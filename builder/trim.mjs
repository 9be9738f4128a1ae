// Runs the browser's own Python under Node: traces which library modules the core needs for a set of requests, and packs
// those modules and the core as bytecode. One JSON text on standard input:
//   {pyodide: folder, library: zip, core: {path: file}, instead: {path: file} of the core as it is packed,
//    inside: folder, requests: [text], out: folder}
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
const SOURCES = "/core";
const TRACING = "/tracing";

// The same start as the worker's (web/src/worker/worker.ts), but with the whole library and the core as sources.
const python = await loadPyodide({
  indexURL: job.pyodide + "/",
  stdLibURL: job.library,
  lockFileContents: { info: JSON.parse(readFileSync(join(job.pyodide, "pyodide-lock.json"))).info, packages: {} },
  env: { PYTHONPATH: `${TRACING}:${SOURCES}` },
  fsInit: async (files) => {
    // Where the finder comes in, later on: what was imported before must lie where the runtime looks by itself.
    files.mkdirTree(TRACING);
    files.writeFile(`${TRACING}/sitecustomize.py`, "import sys\nbefore = set(sys.modules)\n");
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
const [early, kept] = python
  .runPython(
    `import sitecustomize
places = {name: m.__spec__.origin[${prefix.length}:] for name, m in list(sys.modules.items())
          if str(getattr(getattr(m, "__spec__", None), "origin", None)).startswith("${prefix}")}
early = {place for name, place in places.items() if name in sitecustomize.before}
[sorted(early), sorted(set(places.values()) - early)]`,
  )
  .toJs();

python.FS.writeFile(`${TRACING}/packing.py`, readFileSync(join(job.inside, "packing.py")));
const inside = python.pyimport("packing");
const bytes = (proxy) => proxy.toJs();
const write = (name, proxy) => writeFileSync(join(job.out, name), bytes(proxy));
mkdirSync(job.out, { recursive: true });
for (const [path, file] of Object.entries(job.instead)) python.FS.writeFile(`${SOURCES}/${path}`, readFileSync(file));
const first = inside.library_files(python.toPy(early));
first.set("sitecustomize.py", python.toPy(new Uint8Array(readFileSync(join(job.inside, "finder.py")))).tobytes());
write("python_stdlib.zip", inside.zipped(first));
write("library.bin", inside.packed(inside.library_files(python.toPy(kept)), "/lib/library.bin"));
const core = inside.packed(inside.core_files(SOURCES), "/lib/core.bin");
write("core.bin", core);
writeFileSync(join(job.out, "core_lengths.json"), JSON.stringify(inside.lengths(core).toJs()) + "\n");
writeFileSync(join(job.out, "modules.json"), JSON.stringify({ early, kept }, null, 1) + "\n");
const version = python.runPython("sys.version.split()[0]");
console.log(JSON.stringify({ python: version, modules: early.length + kept.length, unanswered }));
