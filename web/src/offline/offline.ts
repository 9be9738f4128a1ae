import { effect, signal } from "@preact/signals";
import { inOneFile } from "../bridge/open_worker";
import { writeAddress } from "../link/address";
import { words } from "../words";
import { place } from "../view/place";
import { keeperOf, type Offline, startOffline as start, type OfflineState } from "../worker/offline";

/** How the page stands without a network; null until first looked at. */
export const offline = signal<OfflineState | null>(null);

let hand: Offline | null = null;

/** Stands while a change of version is under way, over a reload too; gone with the tab. */
const CHANGING = "conewright.changing";

/** A browser lets the newer version in once the older one is idle; some wait for that until the page goes [ms]. */
const PATIENCE = 4000;

function remember(changing: boolean): boolean {
  try {
    const was = sessionStorage.getItem(CHANGING) !== null;
    if (changing) sessionStorage.setItem(CHANGING, "yes");
    else sessionStorage.removeItem(CHANGING);
    return was;
  } catch {
    return false;
  }
}

function reload(): void {
  // What was typed this very moment stands in the address first.
  writeAddress();
  location.reload();
}

export function startOffline(): void {
  if (inOneFile) return;
  const keeper = keeperOf();
  keeper?.addEventListener("controllerchange", () => writeAddress());
  // The newer version may come in only now: the page then follows it, once.
  if (remember(false)) keeper?.addEventListener("controllerchange", reload, { once: true });
  hand = start((state) => {
    offline.value = state;
  });
  // Who opens the menu reads there whether the page is stored: it is asked, not remembered.
  effect(() => {
    if (place.value === "more") hand?.look();
  });
}

/** The person agreed to the newer version: the page reloads with it, and the address holds the job meanwhile. */
export function changeOver(): void {
  remember(true);
  hand?.takeUpdate();
  setTimeout(reload, PATIENCE);
}

/** The state in words; says "stored" only when every file is. */
export function offlineWords(): string {
  if (inOneFile) return words.oneFile.offline;
  const state = offline.value;
  if (!state) return words.offline.checking;
  if (!state.possible) return isSecureContext ? words.offline.unsupported : words.offline.impossible;
  return state.stored ? words.offline.stored : words.offline.notStored;
}
