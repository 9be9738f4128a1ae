/**
 * Stands before the worker's program in the page that is one file, and answers out of the file what the runtime fetches.
 * The packed parts come from the page as the first message.
 */
import { type FileParts, HERE } from "./one_file";

let take: (parts: FileParts) => void;
const taken = new Promise<FileParts>((resolve) => (take = resolve));

async function unpacked(packed: string, type: string): Promise<Response> {
  if (!("DecompressionStream" in self)) throw new Error("this browser is too old to unpack what the file holds");
  const letters = atob(packed);
  const bytes = new Uint8Array(letters.length);
  for (let at = 0; at < letters.length; at++) bytes[at] = letters.charCodeAt(at);
  // Not the stream of a Blob: that one some engines read slowly.
  const plain = (new Response(bytes).body as ReadableStream<BufferSource>).pipeThrough(new DecompressionStream("gzip"));
  return new Response(plain, { headers: { "Content-Type": type } });
}

self.fetch = async (asked) => {
  const name = String(asked).startsWith(HERE) ? String(asked).slice(HERE.length) : "";
  const packed = (await taken)[name];
  if (packed === undefined) throw new TypeError(`${String(asked)} is no part of this file`);
  return unpacked(packed, name.endsWith(".wasm") ? "application/wasm" : "application/octet-stream");
};

// The runtime asks whether scripts can be taken in this way, and starts only where they cannot.
Object.assign(self, { importScripts: undefined });

self.addEventListener(
  "message",
  (event) => {
    // The program that follows has no use for it.
    event.stopImmediatePropagation();
    take((event as MessageEvent<FileParts>).data);
  },
  { once: true },
);
