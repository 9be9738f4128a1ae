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

/** Every fetch tells that it goes on: a slow line is waited for, a dead one is not. */
function tellOfBytes(): void {
  const plain = self.fetch.bind(self);
  const early = new Map<string, Promise<Response>>();
  let last = 0;
  const beat = (): void => {
    if (core !== undefined || Date.now() - last < BEAT) return;
    last = Date.now();
    tell({ kind: "loading", step });
  };
  self.fetch = async (...given) => {
    const url = String(given[0]);
    // The runtime asks by the names that its files have as published.
    const [asked, ...how] = given;
    const response = await (early.get(url) ?? plain(url.startsWith(RUNTIME) ? addressOf(url.slice(RUNTIME.length)) : asked, ...how));
    early.delete(url);
    if (!response.body || core !== undefined) return response;
    // A copy is counted: only the answer as it came lets a browser keep the program that it makes of it.
    void response
      .clone()
      .body?.pipeTo(new WritableStream({ write: beat }))
      .catch(() => undefined);
    return response;
  };
  // What the runtime fetches one after another is on its way from the first.
  for (const name of ["pyodide.asm.wasm", "python_stdlib.zip"]) {
    const coming = plain(addressOf(name), { cache: CACHE });
    coming.catch(() => undefined); // reported where it is awaited
    early.set(RUNTIME + name, coming);
  }
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
  const kept = IN_ONE_FILE || self.name === ANEW ? undefined : await keptSnapshot();
  if (!kept) return null;
  try {
    const taken = unpacked(kept);
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

/** Answered once before the memory is kept, so that what an answer needs is there. Nobody's job. */
const ANY = '{"format":1,"units":"mm","entries":{"taper.series":"Morse","taper.size":"2"},"drawer":[],"history":[]}';

async function makeSnapshot(): Promise<void> {
  tellOfBytes();
  await keepSnapshot(async () => {
    const made = await python({ _makeSnapshot: true });
    begun(made).core(ANY);
    (made.pyimport("gc") as { collect(): void }).collect();
    (made.pyimport("sitecustomize") as { started(): void }).started();
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
const instantiate = WebAssembly.instantiateStreaming;
WebAssembly.instantiateStreaming = async (...given) => {
  try {
    return await instantiate.apply(WebAssembly, given);
  } catch (fault) {
    fail(fault);
    throw fault;
  }
};
if (!IN_ONE_FILE && self.name === MAKER) makeSnapshot().catch(fail);
else start().catch(fail);
