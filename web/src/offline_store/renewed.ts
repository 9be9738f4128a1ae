import { type BuildFile, integrityOf, readAll } from "./whole";

/** Of what a file is made, in its order (builder/parts.py): the hash in each part's name, and its length. */
interface Parts {
  /** The address of the whole. */
  readonly of: string;
  readonly parts: readonly (readonly [hash: string, length: number])[];
}

/** Parts fetched at once. */
const LANES = 4;
/** Where more of the file than this share is new, the whole is fetched: in one piece it packs better. */
const MOST_NEW = 0.4;
const HASH = /-[0-9a-f]{12}(?=\.[a-z]+$)/;

const pathOf = (address: string): string => new URL(address, self.location.href).pathname;
const nameOf = (address: string): string => pathOf(address).replace(HASH, "");

/**
 * The file put together from that of another build on this device and from the parts that are new. Fails where there is
 * none, where the whole is the shorter way, and where what came is not what was built: then the whole is to be fetched.
 */
export async function renewed(
  file: BuildFile,
  cache: Cache,
  keyOf: (url: string) => string,
  fetchList: () => Promise<Response>,
): Promise<Response> {
  if (file.parts === undefined) throw new Error(`${file.url} is not to be had in parts`);
  const held = await partsHeld(cache, [file.url, file.parts], keyOf);
  if (held.size === 0) throw new Error(`no other build of ${file.url} is on this device`);
  const listed = (await cache.match(keyOf(file.parts))) ?? (await fetchList());
  const { parts } = (await listed.json()) as Parts;
  const wanted = new Map(parts.filter(([hash]) => !held.has(hash)));
  const sum = (lengths: Iterable<number>): number => [...lengths].reduce((all, each) => all + each, 0);
  if (sum(wanted.values()) > MOST_NEW * sum(parts.map(([, length]) => length))) {
    throw new Error(`most of ${file.url} is new`);
  }
  const left = [...wanted];
  const lane = async (): Promise<void> => {
    for (let next = left.shift(); next; next = left.shift()) {
      const [hash, length] = next;
      const place = new URL(`parts/part-${hash}.bin`, new URL(file.url, self.location.href));
      const { content } = await readAll(place, "default");
      if (content.size !== length) throw new Error(`a part of ${file.url} is not what was built`);
      held.set(hash, content);
    }
  };
  await Promise.all(Array.from({ length: LANES }, lane));
  const whole = new Blob(parts.map(([hash]) => held.get(hash) ?? ""));
  if ((await integrityOf(whole)) !== file.integrity) throw new Error(`${file.url} put together is not what was built`);
  return new Response(whole, { headers: { "Content-Type": "application/octet-stream" } });
}

/** Every part that other builds of the file left on this device, by its hash. */
async function partsHeld(
  cache: Cache,
  [file, list]: readonly [file: string, list: string],
  keyOf: (url: string) => string,
): Promise<Map<string, Blob>> {
  const held = new Map<string, Blob>();
  const others = (await cache.keys()).filter(({ url }) => url !== keyOf(file) && url !== keyOf(list));
  for (const key of others.filter(({ url }) => nameOf(url) === nameOf(list))) {
    const { of, parts } = (await (await cache.match(key))?.json()) as Parts;
    const its = others.find(({ url }) => pathOf(url) === pathOf(of));
    const content = its && (await (await cache.match(its))?.blob());
    let begin = 0;
    for (const [hash, length] of content ? parts : []) held.set(hash, content!.slice(begin, (begin += length)));
  }
  return held;
}
