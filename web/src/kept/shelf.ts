import { signal } from "@preact/signals";
import { createStore, promisifyRequest } from "idb-keyval";
import { hasShop, saveAgain } from "../job/shop";
import { Silent, within } from "../store/within";
import { offerUndo } from "../undo/undo";
import { words } from "../words";
import { type Kept, makeKept, readShelf, type Shelf } from "./records";

const KEY = "kept";
/** Stands in the store from the first look on: a store without it, or with another, was cleared meanwhile. */
const MARK = "kept-mark";
const PATIENCE = 5000;

export const shelf = signal<Shelf>({ records: [], foreign: [] });

/** Why nothing can be kept here; empty while keeping works. */
export const refusal = signal("");

/** What was cleared from the store under this page and can be put back; `shop`: that too. */
export interface Gone extends Shelf {
  readonly shop: boolean;
}
const NOTHING: Gone = { records: [], foreign: [], shop: false };
export const lost = signal<Gone>(NOTHING);

type Change = (now: Shelf) => Shelf;

const ofRecords = (next: (records: readonly Kept[]) => readonly Kept[]): Change => (now) => ({ ...now, records: next(now.records) });

let mark = "";
let store: ReturnType<typeof createStore> | undefined;

/** The shelf as the store has it, changed by `next` in the same transaction: another tab may have kept something. */
async function look(next?: Change): Promise<Shelf> {
  store ??= createStore("keyval-store", "keyval");
  return store(next || !mark ? "readwrite" : "readonly", async (place) => {
    const done = promisifyRequest(place.transaction);
    const [raw, found] = await Promise.all([promisifyRequest<unknown>(place.get(KEY)), promisifyRequest<unknown>(place.get(MARK))]);
    const now = readShelf(raw);
    if (mark && found !== mark) missed(now);
    if (typeof found === "string" && found) mark = found;
    else if (next || !mark) {
      mark = crypto.randomUUID?.() ?? String(Math.random());
      place.put(mark, MARK);
    }
    const then = next ? next(now) : now;
    if (next) place.put([...then.records, ...then.foreign], KEY);
    await done;
    return then;
  });
}

/** The store was cleared: what this page still holds of it and the store does not is offered back. */
function missed(now: Shelf): void {
  const { records, foreign } = shelf.peek();
  const there = new Set(now.records.map(({ id }) => id));
  const before = lost.peek();
  const known = new Set([...there, ...before.records.map(({ id }) => id)]);
  lost.value = {
    records: [...before.records, ...records.filter(({ id }) => !known.has(id))],
    foreign: before.foreign.length > 0 || now.foreign.length > 0 ? before.foreign : foreign,
    shop: hasShop(),
  };
}

async function take(next?: Change): Promise<boolean> {
  const asked = look(next);
  try {
    shelf.value = await within(PATIENCE, () => asked);
    refusal.value = "";
    return true;
  } catch (fault) {
    refusal.value = fault instanceof Silent ? words.kept.silent : words.kept.refused;
    // An answer that comes after all is taken all the same.
    if (fault instanceof Silent) asked.then((late) => ((shelf.value = late), (refusal.value = "")), () => undefined);
    return false;
  }
}

/** Read what is kept, and whether it is still there. */
export async function openShelf(): Promise<void> {
  await take();
}

/** From now on it is looked at again whenever the person comes back to the page. */
export function followShelf(): void {
  void openShelf();
  document.addEventListener("visibilitychange", () => document.hidden || void openShelf());
}

export async function keep(name: string, hash: string): Promise<boolean> {
  const made = makeKept(name, hash, new Date());
  // The very same as the newest: a second tap, not a second set-up.
  const kept = await take(
    ofRecords((records) => (records[0]?.name === name && records[0].hash === hash ? records : [made, ...records])),
  );
  // Asks the browser not to clear us away. Some ask the person, so only once something is worth keeping, and not awaited.
  if (kept) void navigator.storage?.persist?.().catch(() => false);
  return kept;
}

export function rename(id: string, name: string): Promise<boolean> {
  return take(ofRecords((records) => records.map((one) => (one.id === id ? { ...one, name } : one))));
}

export async function remove(id: string): Promise<void> {
  const at = shelf.value.records.findIndex((one) => one.id === id);
  const gone = shelf.value.records[at];
  if (!gone || !(await take(ofRecords((records) => records.filter((one) => one.id !== id))))) return;
  offerUndo(words.kept.deleted(gone.name), () =>
    take(ofRecords((records) => [...records.slice(0, at), gone, ...records.slice(at)])),
  );
}

/** Put back what was cleared from the store. */
export async function putBack(): Promise<boolean> {
  const gone = lost.peek();
  const back = await take(({ records, foreign }) => {
    const there = new Set(records.map(({ id }) => id));
    return { records: [...records, ...gone.records.filter(({ id }) => !there.has(id))], foreign: [...foreign, ...gone.foreign] };
  });
  if (!back || (gone.shop && !(await saveAgain()))) return false;
  lost.value = NOTHING;
  return true;
}

/** The set-up holds this job from now on, under the name it has. */
export async function replace(id: string, hash: string): Promise<void> {
  const before = shelf.value.records.find((one) => one.id === id);
  if (!before || before.hash === hash) return;
  const put = (one: Kept) => take(ofRecords((records) => records.map((each) => (each.id === id ? one : each))));
  const now: Kept = { ...before, hash, kept_at: new Date().toISOString() };
  if (await put(now)) offerUndo(words.kept.replaced(before.name), () => put(before));
}

export function duplicate(id: string): Promise<boolean> {
  return take(
    ofRecords((records) =>
      records.flatMap((one) => (one.id === id ? [one, makeKept(words.kept.copyOf(one.name), one.hash, new Date())] : [one])),
    ),
  );
}

/** One place up in the list. */
export function moveUp(id: string): Promise<boolean> {
  return take(
    ofRecords((records) => {
      const at = records.findIndex((one) => one.id === id);
      const [above, one] = [records[at - 1], records[at]];
      return above && one ? [...records.slice(0, at - 1), one, above, ...records.slice(at + 1)] : records;
    }),
  );
}

/** Set-ups of a file beside those that are here; returns how many came, or null where nothing can be kept. */
export async function mergeIn(records: readonly Kept[]): Promise<number | null> {
  let came = 0;
  const done = await take(
    ofRecords((now) => {
      const ids = new Set(now.map(({ id }) => id));
      const same = new Set(now.map(({ name, hash }) => `${name}\n${hash}`));
      const others = records.filter(({ id, name, hash }) => !ids.has(id) && !same.has(`${name}\n${hash}`));
      came = others.length;
      return [...now, ...others];
    }),
  );
  return done ? came : null;
}
