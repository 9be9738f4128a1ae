/**
 * Begins the worker of the page that is one file: takes the packed parts from the page, answers with them what the runtime
 * fetches, and runs the worker's own program, which is one of them.
 */
import type { FromWorker } from "./messages";
import { type FileParts, HERE, PROGRAM } from "./one_file";

function unpacked(packed: string, type: string): Response {
  const letters = atob(packed);
  const bytes = new Uint8Array(letters.length);
  for (let at = 0; at < letters.length; at++) bytes[at] = letters.charCodeAt(at);
  // Not the stream of a Blob: that one some engines read slowly.
  const plain = (new Response(bytes).body as ReadableStream<BufferSource>).pipeThrough(new DecompressionStream("gzip"));
  return new Response(plain, { headers: { "Content-Type": type } });
}

async function begin(parts: FileParts): Promise<void> {
  if (!("DecompressionStream" in self)) throw new Error("this browser is too old to unpack what the file holds");
  self.fetch = async (asked) => {
    const name = String(asked).startsWith(HERE) ? String(asked).slice(HERE.length) : "";
    const packed = parts[name];
    if (packed === undefined) throw new TypeError(`${String(asked)} is no part of this file`);
    return unpacked(packed, name.endsWith(".wasm") ? "application/wasm" : "application/octet-stream");
  };
  const program = await unpacked(parts[PROGRAM] ?? "", "text/javascript").blob();
  const run = importScripts;
  // The runtime asks whether scripts can be taken in this way, and starts only where they cannot.
  Object.assign(self, { importScripts: undefined });
  run.call(self, URL.createObjectURL(program));
}

self.addEventListener(
  "message",
  (event) =>
    void begin((event as MessageEvent<FileParts>).data).catch((fault: unknown) =>
      self.postMessage({ kind: "failed", reason: fault instanceof Error ? fault.message : String(fault) } satisfies FromWorker),
    ),
  { once: true },
);
