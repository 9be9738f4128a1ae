/**
 * The memory of a Python that has just started, kept on this device: a later start takes it up and imports nothing. It is
 * made here and comes over no network; it holds nothing of the person's. Whatever is off with it, the plain start goes on.
 */

/** Which runtime and which core it is of: the names hold the hash of the content. Filled in by the site build. */
declare const RUNTIME_FILES: Readonly<Record<string, string>>;
declare const IN_ONE_FILE: boolean;

/** The worker of this name makes a snapshot and does nothing else. */
export const MAKER = "snapshot";

const CACHE = "conewright-snapshot";
const PAGE = 4096;
/** Sizes and the hash stand before the rest: whole size, number of pages, then 32 bytes. */
const HEAD = 40;
/** After so many that were off this device goes without. */
const MOST_OFF = 2;

/** The worker of the page that is one file stands below no address, and keeps no snapshot. */
const here = (name: string): string => (IN_ONE_FILE ? name : new URL(`./snapshot/${encodeURIComponent(name)}`, self.location.href).href);
const mine = here(Object.values(RUNTIME_FILES).sort().join(" "));
const off = `${mine}-off`;

/** What is kept for this very build, or undefined. */
export async function keptSnapshot(): Promise<Response | undefined> {
  try {
    if (!("caches" in self) || !(await caches.has(CACHE))) return undefined;
    return await (await caches.open(CACHE)).match(mine);
  } catch {
    return undefined;
  }
}

/** The memory as it was; fails where anything is missing or other than it was written. */
export async function unpacked(kept: Response): Promise<Uint8Array> {
  const packed = new Uint8Array(await kept.arrayBuffer());
  if (packed.length < HEAD) throw new Error("the snapshot is cut short");
  const right = hashOf(packed);
  const [size = 0, count = 0] = new Uint32Array(packed.buffer, 0, 2);
  const begin = HEAD + 4 * count;
  if (packed.length !== begin + PAGE * count) throw new Error("the snapshot is cut short");
  const places = new Uint32Array(packed.buffer, HEAD, count);
  const whole = new Uint8Array(Math.ceil(size / PAGE) * PAGE);
  for (let at = 0; at < count; at++) {
    whole.set(packed.subarray(begin + PAGE * at, begin + PAGE * (at + 1)), PAGE * (places[at] ?? 0));
  }
  const hash = await right;
  if (hash.some((one, at) => one !== packed[8 + at])) throw new Error("the snapshot is not what was written");
  return whole.subarray(0, size);
}

async function hashOf(packed: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  return new Uint8Array(await crypto.subtle.digest("SHA-256", packed.subarray(HEAD)));
}

/** Those pages that hold anything, one after another: two thirds are empty. */
async function packed(whole: Uint8Array): Promise<Uint8Array<ArrayBuffer>> {
  const words = new Uint32Array(whole.buffer, whole.byteOffset, Math.floor(whole.length / 4));
  const places: number[] = [];
  for (let page = 0; page * PAGE < whole.length; page++) {
    const end = Math.min(words.length, ((page + 1) * PAGE) / 4);
    for (let at = (page * PAGE) / 4; at < end; at++) {
      if (words[at] === 0) continue;
      places.push(page);
      break;
    }
  }
  const begin = HEAD + 4 * places.length;
  const made = new Uint8Array(begin + PAGE * places.length);
  new Uint32Array(made.buffer, 0, 2).set([whole.length, places.length]);
  new Uint32Array(made.buffer, HEAD, places.length).set(places);
  places.forEach((page, at) => made.set(whole.subarray(PAGE * page, PAGE * (page + 1)), begin + PAGE * at));
  made.set(await hashOf(made), 8);
  return made;
}

async function timesOff(cache: Cache): Promise<number> {
  return Number((await (await cache.match(off))?.text()) ?? 0) || 0;
}

/** It could not be taken up: it goes, and after a few such this device goes without. */
export async function snapshotWasOff(): Promise<void> {
  try {
    const cache = await caches.open(CACHE);
    await cache.delete(mine);
    await cache.put(off, new Response(String((await timesOff(cache)) + 1)));
  } catch {
    // The next start finds it off again.
  }
}

/** Remove what is kept of other builds. */
export async function clearOthers(): Promise<void> {
  try {
    if (!("caches" in self) || !(await caches.has(CACHE))) return;
    const cache = await caches.open(CACHE);
    for (const { url } of await cache.keys()) if (url !== mine && url !== off) await cache.delete(url);
  } catch {
    // They are never taken up.
  }
}

/** Make one and keep it, unless there is one, or another page is at it. Fails where it cannot be kept. */
export async function keepSnapshot(make: () => Promise<Uint8Array>): Promise<void> {
  await navigator.locks.request(CACHE, { ifAvailable: true }, async (lock) => {
    if (!lock) return;
    await clearOthers();
    const cache = await caches.open(CACHE);
    if ((await cache.match(mine)) || (await timesOff(cache)) >= MOST_OFF) return;
    await cache.put(mine, new Response(await packed(await make())));
  });
}
