import { computed, signal } from "@preact/signals";
import { shop } from "../job/shop";
import { shelf } from "../kept/shelf";
import { everything } from "./everything";

/** How much was kept here when the file was saved last, or when the person put the reminder off. */
interface Then {
  readonly day: string;
  readonly kept: number;
  readonly pieces: number;
  readonly cuts: number;
}

const SAVED = "conewright-saved";
const PUT_OFF = "conewright-saved-put-off";
/** So much more than in the last file, and it is worth a word: set-ups, pieces of the drawer, proved cuts. */
const WORTH = { kept: 3, pieces: 12, cuts: 3 };
const NONE: Then = { day: "", kept: 0, pieces: 0, cuts: 0 };

function read(key: string): Then {
  try {
    const text = localStorage.getItem(key) ?? "";
    // Earlier only the day was noted.
    return text.startsWith("{") ? { ...NONE, ...(JSON.parse(text) as Partial<Then>) } : { ...NONE, day: text };
  } catch {
    return NONE;
  }
}

function write(key: string, then: Then): void {
  try {
    localStorage.setItem(key, JSON.stringify(then));
  } catch {
    // Nothing is kept here at all: the file is then all there is.
  }
}

const saved = signal(read(SAVED));
const putOff = signal(read(PUT_OFF));
/** Whether the browser has promised not to clear what is kept here. */
const promised = signal(true);

/** The day the file was last saved; empty where it never was. */
export const savedOn = computed(() => saved.value.day);

const now = (): Then => ({
  day: new Date().toISOString().slice(0, 10),
  kept: shelf.value.records.length,
  pieces: shop.value.drawer.length,
  cuts: shop.value.history.length,
});

/** How much was kept since, where that is worth a word and the browser may clear it; null otherwise. */
export const unsaved = computed<Then | null>(() => {
  if (promised.value) return null;
  const here = now();
  const more = (than: Then) => ({ ...here, kept: here.kept - than.kept, pieces: here.pieces - than.pieces, cuts: here.cuts - than.cuts });
  const worth = ({ kept, pieces, cuts }: Then) => kept >= WORTH.kept || pieces >= WORTH.pieces || cuts >= WORTH.cuts;
  return worth(more(saved.value)) && worth(more(putOff.value)) ? more(saved.value) : null;
});

/** Ask whether the browser may clear this page's storage; where it does not say, it may. */
export async function askWhetherKept(): Promise<void> {
  try {
    promised.value = (await navigator.storage?.persisted?.()) ?? false;
  } catch {
    promised.value = false;
  }
}

/** Not now: a word again once as much more is kept. */
export function later(): void {
  putOff.value = now();
  write(PUT_OFF, putOff.value);
}

/** Everything kept here, into a file among the downloads. */
export function saveFile(): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([everything()], { type: "application/json" }));
  link.download = `conewright-${now().day}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  saved.value = now();
  write(SAVED, saved.value);
}
