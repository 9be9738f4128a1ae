import { computed, effect, signal } from "@preact/signals";
import { type Piece, PIECE_KEYS, readPiece } from "../contract";
import { later, passed } from "../store/later";
import { loadShop, saveShop, saveShopNow, type ShopRecord } from "../store/shop";
import { answer } from "./answer";
import { isOfShop } from "./belongs";
import { type Job, job } from "./job";
import { inUnits } from "./units";

/** What stays from job to job: bars, lathe, drawer, and what proving taught. */
export interface Shop {
  readonly entries: Readonly<Record<string, string>>;
  readonly drawer: readonly Piece[];
  readonly history: readonly unknown[];
}

export const shop = signal<Shop>({ entries: {}, drawer: [], history: [] });

/** Whether the browser keeps it; where it does not, the address has to hold the drawer too. */
export const shopKept = signal(false);

/** False where nothing was ever kept of a shop: the jobs kept then hold its pieces. */
let found = false;

/** The pieces of the last job of a time when each job had its own drawer: the shop begins with them. */
export function beginShop(last: Job): void {
  if (found || last.invented || last.drawer.length === 0) return;
  found = true;
  shop.value = { ...shop.value, drawer: last.drawer };
  if (!job.value.invented) job.value = withShop({ ...job.value, own: [] });
}

/** The name under which the drawer stands among what a job keeps for itself. */
export const DRAWER = "drawer";

export function isOwn(of: Job, id: string): boolean {
  return of.invented || (of.own ?? []).includes(id);
}

const plain = (text: string) => text.replace(/\s/g, "").toLowerCase();
const markOf = (piece: Piece) => PIECE_KEYS.filter((key) => key !== "count").map((key) => plain(piece[key])).join("|");

/** Pieces of one drawer that another one lacks. */
export function missing(from: readonly Piece[], there: readonly Piece[]): readonly Piece[] {
  const known = new Set(there.map(markOf));
  return from.filter((piece) => !known.has(markOf(piece)));
}

/** A job with the shop's parts filled in; where it brings others of its own, those stay in force for it alone. */
export function withShop(next: Job): Job {
  if (next.invented) return next;
  const { entries, drawer, history } = shop.value;
  const own = Object.keys(entries).filter((id) => next.entries[id] !== undefined && plain(next.entries[id]) !== plain(entries[id] ?? ""));
  const others = missing(next.drawer, drawer);
  if (others.length > 0) own.push(DRAWER);
  return { ...next, entries: { ...entries, ...next.entries }, drawer: others.length > 0 ? next.drawer : drawer, history, own };
}

/** What the address and a kept set-up hold of a job: not the drawer where that is the shop's. */
export function withoutShop(of: Job): Job {
  return shopKept.value && !isOwn(of, DRAWER) ? { ...of, drawer: [] } : of;
}

/** The pieces this job brings that the shop's drawer lacks; none where it uses the shop's. */
export const brought = computed<readonly Piece[]>(() =>
  !job.value.invented && isOwn(job.value, DRAWER) ? missing(job.value.drawer, shop.value.drawer) : [],
);

/** Use the shop's drawer, with or without the pieces that this job brought. */
export function settleDrawer(add: boolean): void {
  const drawer = add ? [...shop.value.drawer, ...brought.value] : shop.value.drawer;
  job.value = { ...job.value, drawer, own: (job.value.own ?? []).filter((id) => id !== DRAWER) };
}

/** Take the shop's answer for this entry, or make the job's own the shop's. */
export function settleEntry(id: string, mine: boolean): void {
  const text = mine ? (shop.value.entries[id] ?? "") : (job.value.entries[id] ?? "");
  const { [id]: _before, ...others } = job.value.entries;
  const entries = text ? { ...others, [id]: text } : others;
  job.value = { ...job.value, entries, own: (job.value.own ?? []).filter((one) => one !== id) };
}

/** Put the shop of a file beside this one: what is here stays, what is missing comes. Counts of both. */
export function mergeShop(other: Shop): { readonly pieces: number; readonly piecesHere: number; readonly entries: number; readonly cuts: number } {
  const now = shop.value;
  const pieces = missing(other.drawer, now.drawer);
  const entries = Object.entries(other.entries).filter(([id]) => now.entries[id] === undefined);
  const known = new Set(now.history.map((one) => JSON.stringify(one)));
  const cuts = other.history.filter((one) => !known.has(JSON.stringify(one)));
  const next = {
    entries: { ...now.entries, ...Object.fromEntries(entries) },
    drawer: [...now.drawer, ...pieces],
    history: [...now.history, ...cuts],
  };
  shop.value = next;
  takeUp(now, next);
  return { pieces: pieces.length, piecesHere: other.drawer.length - pieces.length, entries: entries.length, cuts: cuts.length };
}

export function changeHistory(history: readonly unknown[]): void {
  shop.value = { ...shop.value, history };
  if (!job.value.invented) job.value = { ...job.value, history };
}

function recordOf({ entries, drawer, history }: Shop): ShopRecord {
  return { format: 1, at: later(), entries, drawer: drawer.map((piece) => ({ ...piece })), history };
}

/** Whether there is anything of the shop's to lose. */
export function hasShop(): boolean {
  const { entries, drawer, history } = shop.peek();
  return drawer.length > 0 || history.length > 0 || Object.keys(entries).length > 0;
}

/** Write the shop as this page holds it, after the store was cleared under it; false where the browser refuses. */
export async function saveAgain(): Promise<boolean> {
  shopKept.value = await saveShop(recordOf(shop.peek()));
  return shopKept.value;
}

/** Read what is kept; to be done before the first job is opened. */
export async function openShop(): Promise<void> {
  const kept = await loadShop();
  if (!kept) return;
  found = true;
  shopKept.value = true;
  shop.value = { entries: kept.entries, drawer: kept.drawer.map(readPiece), history: kept.history };
}

/** What the shop is after an answer: units spelled out, so that a bare number means the same in every job. */
function learned(): Shop {
  const latest = answer.value;
  const now = shop.peek();
  if (!latest?.whole || latest.of !== job.value || latest.of.invented) return now;
  const { of, sheet } = latest;
  const fields = sheet.stages.flatMap(({ fields = [] }) => fields.filter((field) => isOfShop(field) && !isOwn(of, field.id)));
  const spelled = inUnits(of, sheet, of.units);
  const entries: Record<string, string> = { ...now.entries };
  for (const { id, kind, wrong } of fields) {
    // What cannot be read is the job's to mend; the shop keeps what it had.
    if (kind === "pieces" || wrong) continue;
    const text = spelled.entries[id] ?? "";
    if (text) entries[id] = text;
    else delete entries[id];
  }
  const same = JSON.stringify(entries) === JSON.stringify(now.entries);
  const drawer = isOwn(of, DRAWER) || of.drawer === drawerSeen ? now.drawer : spelled.drawer;
  if (!isOwn(of, DRAWER)) drawerSeen = of.drawer;
  return same && drawer === now.drawer ? now : { ...now, entries, drawer };
}

let drawerSeen: readonly Piece[] | null = null;

/** The line to other tabs; null where there is none: Firefox throws at the asking while site data is blocked. */
function lineToOthers(): BroadcastChannel | null {
  try {
    return new BroadcastChannel("conewright-shop");
  } catch {
    return null;
  }
}

/** So soon what is typed of the shop is safe from a browser that is ended by force [ms]. */
const JOTTED = 40;

/** From now on what is typed of the shop stays in it, and other tabs hear of it. */
export function followShop(): void {
  const others = lineToOthers();
  let due: ReturnType<typeof setTimeout> | undefined;
  let saved = shop.peek();
  const save = async () => {
    due = undefined;
    const now = shop.peek();
    if (now === saved) return;
    saved = now;
    const record = recordOf(now);
    shopKept.value = await saveShop(record);
    // A page that the store told nothing would have the others forget what they know.
    if (shopKept.value) others?.postMessage(record);
  };
  effect(() => {
    shop.value = learned();
  });
  effect(() => {
    if (shop.value === saved) return;
    clearTimeout(due);
    due = setTimeout(() => void save(), 250);
  });
  // From the first start on there is a shop, if an empty one.
  if (!found) {
    void saveShop(recordOf(saved)).then((works) => (shopKept.value = works));
  }
  const jot = () => {
    const of = job.peek();
    // Pieces typed in the last moment have not been answered yet.
    const late = !of.invented && !isOwn(of, DRAWER) && of.drawer !== drawerSeen && answered();
    const now = late ? { ...shop.peek(), drawer: of.drawer } : shop.peek();
    if (now !== saved) saveShopNow(recordOf(now));
  };
  // A browser that is ended by force says no farewell, and until the whole answer is there the store has nothing of it.
  let jotting: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    if (job.value.drawer === drawerSeen && shop.value === saved) return;
    clearTimeout(jotting);
    jotting = setTimeout(jot, JOTTED);
  });
  const hurry = () => {
    jot();
    if (due) void save();
  };
  addEventListener("pagehide", hurry);
  document.addEventListener("visibilitychange", () => document.hidden && hurry());
  others?.addEventListener("message", ({ data }: MessageEvent<ShopRecord>) => {
    const before = shop.peek();
    passed(data.at);
    saved = { entries: data.entries, drawer: data.drawer.map(readPiece), history: data.history };
    shop.value = saved;
    takeUp(before, saved);
  });
}

/** The core has answered: until then what is typed of the shop is the address's to keep. */
function answered(): boolean {
  const latest = answer.peek();
  return latest !== null && !latest.unchecked;
}

/** Another tab changed the shop: what this job takes from it follows. */
function takeUp(before: Shop, now: Shop): void {
  const of = job.peek();
  if (of.invented) return;
  const entries = { ...of.entries };
  for (const id of new Set([...Object.keys(before.entries), ...Object.keys(now.entries)])) {
    if (isOwn(of, id) || before.entries[id] === now.entries[id]) continue;
    if (now.entries[id] === undefined) delete entries[id];
    else entries[id] = now.entries[id];
  }
  job.value = { ...of, entries, history: now.history, drawer: isOwn(of, DRAWER) ? of.drawer : now.drawer };
  if (!isOwn(of, DRAWER)) drawerSeen = job.peek().drawer;
}
