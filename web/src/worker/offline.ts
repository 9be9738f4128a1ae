/** The page's side of offline use: registers the service worker and tells how things stand. */
import type { SkipWaiting, Stored, ToServiceWorker } from "./offline_messages";

export interface OfflineState {
  /** Whether this browser, at this address, can keep the page at all: it needs https or localhost. */
  possible: boolean;
  /** Every file is on the device; the page works with the network gone. */
  stored: boolean;
  /** A newer version is stored and waits to be let in. */
  waiting: boolean;
}

export interface Offline {
  /** Let the waiting version in; the page reloads by itself once it has taken over. */
  takeUpdate(): void;
}

function ask(worker: ServiceWorker): Promise<Stored> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event: MessageEvent<Stored>) => resolve(event.data);
    worker.postMessage({ type: "HOW_STORED" } satisfies ToServiceWorker, [port2]);
  });
}

/** Starts offline use; `report` is called at once and whenever something changed. */
export function startOffline(report: (state: OfflineState) => void): Offline {
  let state: OfflineState = { possible: "serviceWorker" in navigator, stored: false, waiting: false };
  let registration: ServiceWorkerRegistration | undefined;
  let taking = false;

  const change = (changes: Partial<OfflineState>): void => {
    state = { ...state, ...changes };
    report(state);
  };
  const look = async (): Promise<void> => {
    const active = registration?.active;
    if (!active) return;
    change({ stored: (await ask(active)).stored, waiting: Boolean(registration?.waiting) });
  };
  const follow = (worker: ServiceWorker | null): void => worker?.addEventListener("statechange", () => void look());

  const register = async (): Promise<void> => {
    registration = await navigator.serviceWorker.register("./service_worker.js");
    registration.addEventListener("updatefound", () => follow(registration?.installing ?? null));
    follow(registration.installing);
    await navigator.serviceWorker.ready;
    await look();
  };

  report(state);
  if (state.possible) {
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (taking) location.reload();
    });
    // What could not be stored now is tried again at the next visit; the page itself works without.
    register().catch(() => change({ stored: false }));
  }
  return {
    takeUpdate(): void {
      taking = true;
      registration?.waiting?.postMessage({ type: "SKIP_WAITING" } satisfies SkipWaiting);
    },
  };
}
