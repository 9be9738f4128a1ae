/**
 * The worker: starts Python and answers requests with the core's own function. Everything comes from this site's
 * runtime/ folder: the runtime as published, its library trimmed and as bytecode, the core.
 */
import type { loadPyodide as Load } from "pyodide";
import type { FromWorker, ToWorker } from "./messages";

/** The one fact that the runtime wants of a package index: which build it is. Filled in by the site build. */
declare const RUNTIME_INFO: Record<string, string>;

const CORE = "/lib/core.zip";
const RUNTIME = new URL("./runtime/", self.location.href).href;

type Core = (request: string) => string;

let core: Core | undefined;
let failed = false;
const waiting: ToWorker[] = [];

function tell(message: FromWorker): void {
  self.postMessage(message);
}

function fail(fault: unknown): void {
  failed = true;
  tell({ kind: "failed", reason: fault instanceof Error ? fault.message : String(fault) });
}

/** The core that this page was built with: another one, as an upload stopped half-way leaves, must not answer for it. */
declare const CORE_INTEGRITY: string;

async function fetched(name: string, integrity: string): Promise<Uint8Array> {
  const response = await fetch(RUNTIME + name, { cache: "no-cache", integrity }).catch(() => {
    throw new Error(`${name} did not come, or is not the one that belongs to this page`);
  });
  if (!response.ok) throw new Error(`${name} could not be fetched (${response.status})`);
  return new Uint8Array(await response.arrayBuffer());
}

async function start(): Promise<void> {
  tell({ kind: "loading", step: "Fetching Python" });
  const bytes = fetched("core.zip", CORE_INTEGRITY);
  bytes.catch(() => undefined); // reported where it is awaited
  const { loadPyodide } = (await import(RUNTIME + "pyodide.mjs")) as { loadPyodide: typeof Load };
  const python = await loadPyodide({
    indexURL: RUNTIME,
    packageBaseUrl: RUNTIME,
    lockFileContents: JSON.stringify({ info: RUNTIME_INFO, packages: {} }),
    env: { PYTHONPATH: CORE },
    fsInit: async (files) => {
      files.writeFile(CORE, await bytes);
      tell({ kind: "loading", step: "Starting Python" });
    },
  });
  tell({ kind: "loading", step: "Starting the calculator" });
  core = (python.pyimport("calc.job") as { work_text: Core }).work_text;
  tell({
    kind: "ready",
    python: RUNTIME_INFO["python"] ?? "",
    milliseconds: Math.round(performance.now()),
    memory: (python as unknown as { _module: { HEAPU8: Uint8Array } })._module.HEAPU8.byteLength,
  });
  for (const message of waiting.splice(0)) answer(message);
}

function answer(message: ToWorker): void {
  if (failed) return;
  if (core === undefined) {
    waiting.push(message);
    return;
  }
  try {
    tell({ kind: "answer", id: message.id, response: core(message.request) });
  } catch (fault) {
    fail(fault);
  }
}

self.addEventListener("message", (event: MessageEvent<ToWorker>) => answer(event.data));
// The runtime notes a program that does not start and waits on for ever; the person is to hear of it.
const instantiate = WebAssembly.instantiateStreaming;
WebAssembly.instantiateStreaming = async (...given) => {
  try {
    return await instantiate.apply(WebAssembly, given);
  } catch (fault) {
    fail(fault);
    throw fault;
  }
};
start().catch(fail);
