/**
 * The worker: starts Python and answers requests with the core's own function. Everything comes from this site's
 * runtime/ folder: the runtime as published, its library trimmed and as bytecode, the core likewise.
 */
import { ANEW, type FromWorker, type ToWorker, type Work } from "./messages";
import { HERE } from "./one_file";
import type { Options, Runtime } from "./runtime";
import { clearOthers, keepSnapshot, keptSnapshot, MAKER, snapshotWasOff, unpacked } from "./snapshot";

/** The one fact that the runtime wants of a package index: which build it is. Filled in by the site build. */
declare const RUNTIME_INFO: Record<string, string>;

/** Whether the runtime is a part of this program, as in the page that is one file. Filled in by the site build. */
declare const IN_ONE_FILE: boolean;

/** Where the finder in the library (builder/inside/finder.py) looks for the rest of the library and for the core. */
const PLACE = "/lib/";
const LIBRARY = "library.bin";
const CORE = "core.bin";
const RUNTIME = IN_ONE_FILE ? HERE : new URL("../runtime/", self.location.href).href;

/** Name -> name with the hash of the content in it, as the file lies in runtime/. Filled in by the site build. */
declare const RUNTIME_FILES: Readonly<Record<string, string>>;

/** A name that holds a hash is good for ever, unless a wrong answer was remembered under it. */
const CACHE = self.name === ANEW ? "reload" : "default";

function addressOf(name: string): string {
  return RUNTIME + (RUNTIME_FILES[name] ?? name);
}

type Core = (request: string) => string;

/** Answers one request for the sheet after another, in parts (calc/sitting). */
interface Sitting {
  ask(request: string, look: string): string;
  /** The next part; empty where there is nothing to hand out yet; undefined at the end. */
  more(): string | undefined;
  readonly whole: boolean;
  destroy(): void;
}

let core: Core | undefined;
let newSitting: (() => Sitting) | undefined;
let sitting: Sitting | undefined;
let turn = 0;
let failed = false;
const waiting: Work[] = [];

function tell(message: FromWorker): void {
  self.postMessage(message);
}

function fail(fault: unknown): void {
  failed = true;
  tell({ kind: "failed", reason: fault instanceof Error ? fault.message : String(fault) });
}

/** The step that is under way, told anew as long as bytes come in. */
let step = "Fetching Python";

/** So often a slow line is heard of [ms]. */
const BEAT = 1000;

const MODULE = "pyodide.asm.wasm";
const FIRST_LIBRARY = "python_stdlib.zip";

/**
 * A snapshot that was made on this device, if there is one. It is made only where all files are: then nothing comes over a
 * line, and no bytes need counting.
 */
const kept = IN_ONE_FILE || self.name === ANEW || self.name === MAKER ? Promise.resolve(undefined) : keptSnapshot();

/** The runtime's module, compiled from its first bytes on while the programs around it are still read. */
let compiled: Promise<WebAssembly.Module> | undefined;

/** As it comes in; under another type, as some servers tell, a browser takes it only whole. */
async function compile(response: Response): Promise<WebAssembly.Module> {
  if (response.headers.get("Content-Type") === "application/wasm") return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}

/** Every fetch tells that it goes on: a slow line is waited for, a dead one is not. */
function tellOfBytes(): void {
  const plain = self.fetch.bind(self);
  let library: Promise<Response> | undefined;
  let last = 0;
  const beat = (): void => {
    if (core !== undefined || Date.now() - last < BEAT) return;
    last = Date.now();
    tell({ kind: "loading", step });
  };
  const counted = async (response: Response): Promise<Response> => {
    if ((await kept) || !response.body || core !== undefined) return response;
    // A copy is counted: only the answer as it came lets a browser keep the program that it makes of it.
    void response
      .clone()
      .body?.pipeTo(new WritableStream({ write: beat }))
      .catch(() => undefined);
    return response;
  };
  self.fetch = async (...given) => {
    const url = String(given[0]);
    // It is on its way into `compiled`, which is what the runtime gets in the end.
    if (url === RUNTIME + MODULE) return new Response();
    // The runtime asks by the names that its files have as published.
    const [asked, ...how] = given;
    const coming = url === RUNTIME + FIRST_LIBRARY ? library : undefined;
    if (coming) library = undefined;
    return counted(await (coming ?? plain(url.startsWith(RUNTIME) ? addressOf(url.slice(RUNTIME.length)) : asked, ...how)));
  };
  // What the runtime fetches one after another is on its way from the first.
  compiled = plain(addressOf(MODULE), { cache: CACHE }).then(counted).then(compile);
  compiled.catch(() => undefined); // reported where it is awaited
  library = plain(addressOf(FIRST_LIBRARY), { cache: CACHE });
  library.catch(() => undefined);
}

/** The core that this page was built with: another one, as an upload stopped half-way leaves, must not answer for it. */
declare const CORE_INTEGRITY: string;

async function fetched(name: string, integrity?: string): Promise<Uint8Array> {
  const told: RequestInit = integrity ? { cache: "no-cache", integrity } : { cache: CACHE };
  const response = await fetch(addressOf(name), told).catch(() => {
    throw new Error(`${name} did not come, or is not the one that belongs to this page`);
  });
  if (!response.ok) throw new Error(`${name} could not be fetched (${response.status})`);
  return new Uint8Array(await response.arrayBuffer());
}

/** The runtime's two programs, both on their way at once. */
async function runtime(): Promise<Runtime> {
  const programs = ["pyodide.mjs", "pyodide.asm.mjs"].map(async (name) => {
    // What the browser imports it takes from what it remembers.
    if (CACHE === "reload") await fetch(addressOf(name), { cache: CACHE });
    return import(addressOf(name)) as Promise<unknown>;
  });
  const [front, back] = (await Promise.all(programs)) as [Pick<Runtime, "loadPyodide">, { default: unknown }];
  return { loadPyodide: front.loadPyodide, createPyodideModule: back.default };
}

type Python = Awaited<ReturnType<Runtime["loadPyodide"]>>;

/** What the runtime takes, those of its words that it does not tell of included. */
type Words = Options & { _makeSnapshot?: boolean; _loadSnapshot?: Promise<Uint8Array> };

/** Python with library and core, or as the snapshot holds it. */
async function python(more: Words): Promise<Python> {
  const files = more._loadSnapshot ? null : Promise.all([fetched(LIBRARY), fetched(CORE, CORE_INTEGRITY)]);
  files?.catch(() => undefined); // reported where it is awaited
  const { loadPyodide, createPyodideModule } = await (IN_ONE_FILE ? import("./runtime_here") : runtime());
  const told: Words & { createPyodideModule: unknown } = {
    createPyodideModule,
    indexURL: RUNTIME,
    packageBaseUrl: RUNTIME,
    lockFileContents: JSON.stringify({ info: RUNTIME_INFO, packages: {} }),
    fsInit: async (system) => {
      if (files) {
        const [library, core] = await files;
        system.writeFile(PLACE + LIBRARY, library, { canOwn: true });
        system.writeFile(PLACE + CORE, core, { canOwn: true });
      }
      step = "Starting Python";
      tell({ kind: "loading", step });
    },
    ...more,
  };
  const made = await loadPyodide(told);
  // The runtime would hold a second copy of the memory for ever.
  const { config } = (made as unknown as { _api: { config: { _loadSnapshot?: unknown } } })._api;
  config._loadSnapshot = null;
  return made;
}

interface Begun {
  core: Core;
  newSitting: () => Sitting;
}

function begun(from: Python): Begun {
  return {
    core: (from.pyimport("calc.job") as { work_text: Core }).work_text,
    newSitting: (from.pyimport("calc.sitting") as { Sitting: () => Sitting }).Sitting,
  };
}

/** As a snapshot holds it; null where there is none, or it is off in any way. */
async function fromSnapshot(): Promise<(Begun & { python: Python }) | null> {
  const there = await kept;
  if (!there) return null;
  try {
    const taken = unpacked(there);
    taken.catch(() => undefined); // reported where it is awaited
    const made = await python({ _loadSnapshot: taken });
    return { python: made, ...begun(made) };
  } catch {
    await snapshotWasOff();
    return null;
  }
}

async function plain(): Promise<Begun & { python: Python }> {
  const made = await python({});
  tell({ kind: "loading", step: "Starting the calculator" });
  const parts = begun(made);
  (made.pyimport("sitecustomize") as { started(): void }).started();
  return { python: made, ...parts };
}

async function start(): Promise<void> {
  tellOfBytes();
  tell({ kind: "loading", step });
  const taken = await fromSnapshot();
  const all = taken ?? (await plain());
  core = all.core;
  newSitting = all.newSitting;
  tell({
    kind: "ready",
    python: RUNTIME_INFO["python"] ?? "",
    milliseconds: Math.round(performance.now()),
    memory: (all.python as unknown as { _module: { HEAPU8: Uint8Array } })._module.HEAPU8.byteLength,
    snapshot: taken !== null,
  });
  for (const message of waiting.splice(0)) answer(message);
  if (taken) void clearOthers();
}

/**
 * Nobody's job, answered before the memory is kept: what any answer needs is there then, found once and for all. A made-up
 * one of every part, so that no part is left cold.
 */
const ANY = JSON.stringify({
  format: 1,
  units: "mm",
  entries: {
    "taper.series": "Jarno",
    "taper.size": "5",
    "setting.bar_centres": "127 mm",
    "blank.stock": "22 mm",
    "blank.head_length": "20 mm",
    "cutting.material": "brass",
    "cutting.tool": "carbide",
    "cutting.speeds": "50, 100, 200, 400",
    "cutting.slide_travel": "70 mm",
    "finishing.spigot": "12 mm",
    "finishing.fit": "H8/f7",
  },
  drawer: [
    { name: "3.3 drill", shape: "round", size: "3.3 mm", measured: "3.29 mm", give: "", count: "1" },
    { name: "", shape: "leaf", size: "0.3 mm", measured: "", give: "", count: "2" },
    { name: "", shape: "flat", size: "2 mm", measured: "", give: "", count: "1" },
  ],
  history: [],
});

/** Python comes to know its ways the better the more often it goes them: so often, alone and in a sitting. */
const WARMINGS = 4;

function warm({ core, newSitting }: Begun): void {
  for (let time = 0; time < WARMINGS; time++) {
    core(ANY);
    const sitting = newSitting();
    sitting.ask(ANY, "");
    while (!sitting.whole) sitting.more();
    sitting.destroy();
  }
}

async function makeSnapshot(): Promise<void> {
  tellOfBytes();
  await keepSnapshot(async () => {
    const made = await python({ _makeSnapshot: true });
    warm(begun(made));
    (made.pyimport("gc") as { collect(): void }).collect();
    const finder = made.pyimport("sitecustomize") as { hold(): void; started(): void };
    finder.hold();
    finder.started();
    return (made as unknown as { makeMemorySnapshot(): Uint8Array }).makeMemorySnapshot();
  });
  tell({ kind: "kept" });
}

function answer(message: Work): void {
  if (failed) return;
  if (core === undefined) {
    waiting.push(message);
    return;
  }
  try {
    if (message.look === undefined) tell({ kind: "answer", id: message.id, response: core(message.request) });
    else begin(message, message.look);
  } catch (fault) {
    fail(fault);
  }
}

function begin({ id, request, anew }: Work, look: string): void {
  if (anew) {
    sitting?.destroy();
    sitting = undefined;
  }
  sitting ??= newSitting?.();
  turn = id;
  hand(id, sitting?.ask(request, look));
}

/** A page that is not to be seen draws nothing: so long the next part waits for it at most [ms]. */
const DRAWN_WITHIN = 200;

let held: ReturnType<typeof setTimeout> | undefined;

/**
 * Tell a part, and see to the next one: once this one is drawn, so that a small machine does not work at both. Whatever
 * has come meanwhile goes before it.
 */
function hand(id: number, response: string | undefined): void {
  const more = response !== undefined && sitting !== undefined && !sitting.whole;
  if (response && sitting) tell({ kind: "answer", id, response, more });
  clearTimeout(held);
  if (more && response) held = setTimeout(() => goOn(id), DRAWN_WITHIN);
  else if (more) rest.port2.postMessage(id);
}

function goOn(id: number): void {
  if (failed || id !== turn) return;
  try {
    hand(id, sitting?.more());
  } catch (fault) {
    fail(fault);
  }
}

const rest = new MessageChannel();
rest.port1.onmessage = ({ data: id }: MessageEvent<number>) => goOn(id);

self.addEventListener("message", ({ data }: MessageEvent<ToWorker>) => (data.kind === "drawn" ? goOn(data.id) : answer(data)));
// The runtime notes a program that does not start and waits on for ever; the person is to hear of it.
WebAssembly.instantiateStreaming = async (_nothing, imports) => {
  try {
    if (!compiled) throw new Error("the runtime asked for its program too early");
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  } catch (fault) {
    fail(fault);
    throw fault;
  }
};
if (!IN_ONE_FILE && self.name === MAKER) makeSnapshot().catch(fail);
else start().catch(fail);
