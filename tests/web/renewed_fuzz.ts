// A file put together from an older build's and from new parts is the newer one to the byte, or nothing is.
import { renewed } from "../../web/src/offline_store/renewed";
import { chance } from "./chance";

const [count, seed] = process.argv.slice(2).map(Number) as [number, number];
const random = chance(seed);
const upTo = (end: number): number => Math.floor(random() * end);

const SITE = "https://shed.example/conewright/";
Object.assign(globalThis, { self: { location: { href: `${SITE}service_worker.js` } } });

const digest = async (content: Uint8Array): Promise<Uint8Array> =>
  new Uint8Array(await crypto.subtle.digest("SHA-256", content as BufferSource));
const hex = async (content: Uint8Array): Promise<string> => Buffer.from(await digest(content)).toString("hex").slice(0, 12);

interface Build {
  url: string;
  list: string;
  integrity: string;
  whole: Uint8Array;
  told: string;
  parts: Map<string, Uint8Array>;
}

async function build(parts: Uint8Array[]): Promise<Build> {
  const whole = new Uint8Array(Buffer.concat(parts));
  const url = `runtime/core-${await hex(whole)}.bin`;
  const named = await Promise.all(parts.map(async (part) => [await hex(part), part] as const));
  const told = JSON.stringify({ of: url, parts: named.map(([hash, part]) => [hash, part.length]) });
  const list = `runtime/core-parts-${await hex(Buffer.from(told))}.json`;
  const integrity = `sha256-${Buffer.from(await digest(whole)).toString("base64")}`;
  return { url, list, integrity, whole, told, parts: new Map(named) };
}

const part = (): Uint8Array => Uint8Array.from({ length: 1 + upTo(40) }, () => upTo(256));
const faults: string[] = [];
let made = 0;
let refused = 0;
for (let round = 0; round < count; round++) {
  const before = Array.from({ length: 1 + upTo(12) }, part);
  // Some parts change, go, come, change places, or stand twice.
  const after = before.flatMap((each) => {
    const act = upTo(16);
    return act === 0 ? [] : act === 1 ? [part()] : act === 2 ? [each, part()] : act === 3 ? [each, each] : [each];
  });
  if (upTo(4) === 0) after.reverse();
  const [old, fresh] = await Promise.all([build(before), build(after.length > 0 ? after : [part()])]);
  if (old.url === fresh.url) continue;
  const keyOf = (url: string): string => `${SITE}${url}?__WB_REVISION__=${url.length}`;
  const here = new Map<string, Uint8Array | string>([[keyOf(old.url), old.whole], [keyOf(old.list), old.told]]);
  const damage = upTo(6);
  if (damage === 0) here.delete(keyOf(old.url));
  if (damage === 1) here.set(keyOf(old.url), old.whole.map((byte, at) => (at === upTo(old.whole.length) ? byte ^ 1 : byte)));
  const lie = damage === 2;
  const cache = {
    keys: async () => [...here.keys()].map((url) => ({ url })),
    match: async (key: string | { url: string }) => {
      const content = here.get(typeof key === "string" ? key : key.url);
      return content === undefined ? undefined : new Response(content as BodyInit);
    },
  } as unknown as Cache;
  const asked: string[] = [];
  globalThis.fetch = (async (address: URL) => {
    const name = /part-([0-9a-f]{12})\.bin$/.exec(String(address))?.[1] ?? "";
    asked.push(name);
    const content = fresh.parts.get(name);
    if (content === undefined || !String(address).startsWith(`${SITE}runtime/parts/`)) return new Response("", { status: 404 });
    return new Response((lie ? content.map((byte) => byte ^ 255) : content) as BodyInit);
  }) as typeof fetch;
  const file = { url: fresh.url, revision: "", integrity: fresh.integrity, parts: fresh.list };
  const got = await renewed(file, cache, keyOf, async () => new Response(fresh.told)).catch(() => null);
  if (got === null) {
    refused++;
    // Only where something was off, or where most of it is new, is the whole to be fetched.
    const isNew = [...fresh.parts].filter(([hash]) => !old.parts.has(hash)).reduce((all, [, each]) => all + each.length, 0);
    if (damage > 2 && isNew <= 0.4 * fresh.whole.length) faults.push(`round ${round}: refused though all was well`);
  } else {
    made++;
    const content = Buffer.from(await got.arrayBuffer());
    if (!content.equals(Buffer.from(fresh.whole))) faults.push(`round ${round}: not the newer file`);
    if (asked.some((name) => old.parts.has(name))) faults.push(`round ${round}: what was here was fetched`);
    if (new Set(asked).size !== asked.length) faults.push(`round ${round}: fetched twice`);
  }
}
if (made < count / 4 || refused < count / 20) faults.push(`only ${made} put together, ${refused} refused`);
console.log(JSON.stringify(faults.slice(0, 5)));
