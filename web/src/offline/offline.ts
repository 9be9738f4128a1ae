import { signal } from "@preact/signals";
import { words } from "../words";
import { type Offline, startOffline as start, type OfflineState } from "../worker/offline";

/** How the page stands without a network; null until first looked at. */
export const offline = signal<OfflineState | null>(null);

let hand: Offline | null = null;

export function startOffline(): void {
  hand = start((state) => {
    offline.value = state;
  });
}

/** The person agreed to the newer version: the page reloads with it, and the address holds the job meanwhile. */
export function changeOver(): void {
  hand?.takeUpdate();
}

/** The state in words; says "stored" only when every file is. */
export function offlineWords(): string {
  const state = offline.value;
  if (!state) return words.offline.checking;
  if (!state.possible) return isSecureContext ? words.offline.unsupported : words.offline.impossible;
  return state.stored ? words.offline.stored : words.offline.notStored;
}
