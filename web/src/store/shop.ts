import { get, set } from "idb-keyval";
import { passed } from "./later";
import { within } from "./within";

/** What belongs to the shop and not to one job, as it lies in the browser's storage. Format 1 must open for ever. */
export interface ShopRecord {
  readonly format: 1;
  /** When it was written, to tell which of two copies is the newer [ms]. */
  readonly at: number;
  readonly entries: Readonly<Record<string, string>>;
  readonly drawer: readonly Readonly<Record<string, string>>[];
  readonly history: readonly unknown[];
}

const KEY = "shop";
/** So long the page waits for the store before it begins without [ms]. */
const PATIENCE = 1500;
/** So long a write is waited for [ms]. */
const WRITING = 5000;

/** Whether the store has told what it holds: until then nothing is written over it. */
let told = false;

const isTexts = (raw: unknown): raw is Record<string, string> =>
  typeof raw === "object" && raw !== null && Object.values(raw).every((text) => typeof text === "string");

/** A record that can be read, or null; what is damaged in it is left out and the rest kept. */
export function readRecord(raw: unknown): ShopRecord | null {
  const record = raw as Partial<Record<keyof ShopRecord, unknown>> | null;
  if (typeof record !== "object" || record === null || record.format !== 1) return null;
  const entries = Object.entries(record.entries ?? {}).filter(([, text]) => typeof text === "string");
  if (typeof record.at === "number") passed(record.at);
  return {
    format: 1,
    at: typeof record.at === "number" ? record.at : 0,
    entries: Object.fromEntries(entries) as Record<string, string>,
    drawer: Array.isArray(record.drawer) ? record.drawer.filter(isTexts) : [],
    history: Array.isArray(record.history) ? record.history : [],
  };
}

/** What a page wrote in a hurry. `blind`: by one that the store had told nothing, and that knows only its own. */
interface Hurried extends ShopRecord {
  readonly blind: boolean;
}

function hurried(): Hurried | null {
  try {
    const raw = JSON.parse(localStorage.getItem("conewright-shop") ?? "null") as { readonly blind?: unknown } | null;
    const record = readRecord(raw);
    return record && { ...record, blind: raw?.blind === true };
  } catch {
    return null;
  }
}

/** What the store holds, and beside it what a page typed that could not see it. */
function beside(kept: ShopRecord, typed: ShopRecord): ShopRecord {
  const more = <T>(there: readonly T[], other: readonly T[]): readonly T[] => {
    const texts = new Set(there.map((each) => JSON.stringify(each)));
    return [...there, ...other.filter((each) => !texts.has(JSON.stringify(each)))];
  };
  const entries = { ...typed.entries, ...kept.entries };
  return { ...kept, entries, drawer: more(kept.drawer, typed.drawer), history: more(kept.history, typed.history) };
}

/** For a page that is being left: written before this returns, and taken up at the next start. */
export function saveShopNow(record: ShopRecord): void {
  try {
    localStorage.setItem("conewright-shop", JSON.stringify(told ? record : { ...record, blind: true }));
  } catch {
    // The slower store has all but the last moment.
  }
}

/** Keep it; false where the browser refuses. */
export async function saveShop(record: ShopRecord): Promise<boolean> {
  try {
    if (!told) return false;
    await within(WRITING, () => set(KEY, record));
    const left = hurried();
    if (left && left.at <= record.at) localStorage.removeItem("conewright-shop");
    return true;
  } catch {
    return false;
  }
}

export async function loadShop(): Promise<ShopRecord | null> {
  const left = hurried();
  try {
    const kept = readRecord(await within(PATIENCE, () => get<unknown>(KEY)));
    told = true;
    if (left?.blind && kept) return beside(kept, left);
    return left && left.at > (kept?.at ?? 0) ? left : kept;
  } catch {
    return left;
  }
}
