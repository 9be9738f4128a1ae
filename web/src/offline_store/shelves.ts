import { renewed } from "./renewed";
import { type BuildFile, fetchWhole } from "./whole";

/** Where the files of one build lie on this device. */
export interface Shelves {
  /** How many files of the build are not here. */
  missing(): Promise<number>;
  /** Fetch what is missing; what is here stays. Returns how many are missing still. */
  fill(): Promise<number>;
  /** Fetch one file that should be here and is not, and keep it. */
  mend(file: BuildFile): Promise<Response>;
}

/** Files fetched at once: a slow line carries each of a few better than all together. */
const LANES = 4;

export function createShelves(files: readonly BuildFile[], cacheName: string, keyOf: (url: string) => string): Shelves {
  let filling: Promise<number> | null = null;
  const coming = new Map<string, Promise<Response>>();

  const absent = async (): Promise<readonly BuildFile[]> => {
    const cache = await caches.open(cacheName);
    const here = await Promise.all(files.map(({ url }) => cache.match(keyOf(url))));
    return files.filter((_, at) => here[at] === undefined);
  };

  const mendBy = (url?: string): Promise<Response> => {
    const file = files.find((each) => each.url === url);
    return file ? mend(file) : Promise.reject(new Error(`${url} is not a file of this build`));
  };

  const bring = async (file: BuildFile): Promise<Response> => {
    const cache = await caches.open(cacheName);
    const response = await renewed(file, cache, keyOf, () => mendBy(file.parts)).catch(() => fetchWhole(file));
    await cache.put(keyOf(file.url), response.clone());
    return response;
  };

  /** Whoever wants a file that is on its way already waits for it. */
  const mend = async (file: BuildFile): Promise<Response> => {
    const way = coming.get(file.url) ?? bring(file).finally(() => coming.delete(file.url));
    coming.set(file.url, way);
    return (await way).clone();
  };

  const fillOnce = async (): Promise<number> => {
    const wanted = [...(await absent())];
    let failed = 0;
    const lane = async (): Promise<void> => {
      for (let file = wanted.shift(); file; file = wanted.shift()) {
        // One that fails stops no other: the next visit has the less to fetch.
        await mend(file).catch(() => failed++);
      }
    };
    await Promise.all(Array.from({ length: LANES }, lane));
    return failed;
  };

  return {
    mend,
    missing: async () => (await absent()).length,
    fill: () => (filling ??= fillOnce().finally(() => (filling = null))),
  };
}
