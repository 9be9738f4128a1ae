import { get, set } from "idb-keyval";

/** The job that was on the page last, as the text after "#". */
const KEY = "last";

export function keepLast(hash: string): void {
  // A browser that refuses storage still has the job in its address; the kept list says so in words.
  set(KEY, { format: 1, hash }).catch(() => undefined);
}

export async function readLast(): Promise<string> {
  try {
    const record: unknown = await get(KEY);
    const hash = (record as { hash?: unknown } | undefined)?.hash;
    return typeof hash === "string" ? hash : "";
  } catch {
    return "";
  }
}
