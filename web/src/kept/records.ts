/** One kept set-up, as it lies in the browser's storage. Format 1 must open for ever. */
export interface Kept {
  readonly format: 1;
  readonly id: string;
  readonly name: string;
  readonly hash: string;
  readonly kept_at: string;
}

export interface Shelf {
  readonly records: readonly Kept[];
  /** Records that this version cannot read; they are carried along untouched. */
  readonly foreign: readonly unknown[];
}

function isKept(raw: unknown): raw is Kept {
  if (typeof raw !== "object" || raw === null) return false;
  const record = raw as Record<string, unknown>;
  return record["format"] === 1 && ["id", "name", "hash", "kept_at"].every((key) => typeof record[key] === "string");
}

export function readShelf(raw: unknown): Shelf {
  if (!Array.isArray(raw)) return { records: [], foreign: raw === undefined ? [] : [raw] };
  return { records: raw.filter(isKept), foreign: raw.filter((one) => !isKept(one)) };
}

export function makeKept(name: string, hash: string, now: Date): Kept {
  const id = `${now.getTime().toString(36)}-${Math.random().toString(36).slice(2, 8)}`;
  return { format: 1, id, name, hash, kept_at: now.toISOString() };
}
