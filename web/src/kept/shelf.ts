import { signal } from "@preact/signals";
import { get, update } from "idb-keyval";
import { offerUndo } from "../undo/undo";
import { words } from "../words";
import { type Kept, makeKept, readShelf, type Shelf } from "./records";

const KEY = "kept";

export const shelf = signal<Shelf>({ records: [], foreign: [] });

/** Why nothing can be kept here; empty while keeping works. */
export const refusal = signal("");

async function change(next: (records: readonly Kept[]) => readonly Kept[]): Promise<boolean> {
  try {
    // Read and write in one transaction: another tab may have kept something meanwhile.
    await update<unknown>(KEY, (raw) => {
      const now = readShelf(raw);
      return [...next(now.records), ...now.foreign];
    });
    await openShelf();
    return true;
  } catch {
    refusal.value = words.kept.refused;
    return false;
  }
}

export async function openShelf(): Promise<void> {
  try {
    shelf.value = readShelf(await get(KEY));
    refusal.value = "";
  } catch {
    refusal.value = words.kept.refused;
  }
}

export async function keep(name: string, hash: string): Promise<boolean> {
  const kept = await change((records) => [makeKept(name, hash, new Date()), ...records]);
  // Asks the browser not to clear us away; some ask the person, so only once something is worth keeping.
  if (kept) await navigator.storage?.persist?.().catch(() => false);
  return kept;
}

export function rename(id: string, name: string): Promise<boolean> {
  return change((records) => records.map((one) => (one.id === id ? { ...one, name } : one)));
}

export async function remove(id: string): Promise<void> {
  const at = shelf.value.records.findIndex((one) => one.id === id);
  const gone = shelf.value.records[at];
  if (!gone || !(await change((records) => records.filter((one) => one.id !== id)))) return;
  offerUndo(words.kept.deleted(gone.name), () =>
    change((records) => [...records.slice(0, at), gone, ...records.slice(at)]),
  );
}
