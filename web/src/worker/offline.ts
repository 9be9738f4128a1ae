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
  /** Look again how things stand: a browser may have cleared its storage meanwhile. */
  look(): void;
}

/** A service worker that says nothing in this time says nothing at all [ms]. */
const PATIENCE = 5000;

const UNKNOWN: Stored = { type: "STORED", stored: false, files: 0, missing: 0 };

function ask(worker: ServiceWorker): Promise<Stored> {
  return new Promise((resolve) => {
    setTimeout(() => resolve(UNKNOWN), PATIENCE);
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event: MessageEvent<Stored>) => resolve(event.data);
    worker.postMessage({ type: "HOW_STORED" } satisfies ToServiceWorker, [port2]);
  });
}

/** The browser's keeper of service workers, where there is one: some throw when asked while storage is blocked. */
export function keeperOf(): ServiceWorkerContainer | undefined {
  try {
    return "serviceWorker" in navigator ? navigator.serviceWorker : undefined;
  } catch {
    return undefined;
  }
}

/** Starts offline use; `report` is called at once and whenever something changed. */
export function startOffline(report: (state: OfflineState) => void): Offline {
  const keeper = keeperOf();
  let state: OfflineState = { possible: keeper !== undefined, stored: false, waiting: false };
  let registration: ServiceWorkerRegistration | undefined;
  let taking = false;
  let asked = 0;

  const change = (changes: Partial<OfflineState>): void => {
    state = { ...state, ...changes };
    report(state);
  };
  const follow = (worker: ServiceWorker | null): void => worker?.addEventListener("statechange", () => lookSafely());

  const register = async (keeper: ServiceWorkerContainer): Promise<ServiceWorkerRegistration> => {
    const made = await keeper.register("./service_worker.js");
    if (made !== registration) {
      made.addEventListener("updatefound", () => follow(made.installing));
      follow(made.installing);
    }
    return made;
  };

  const look = async (): Promise<void> => {
    if (!keeper) return;
    const turn = ++asked;
    // Registered anew where it is no more: cleared by the browser, or because a file could not be had the last time.
    if (!(await keeper.getRegistration()) || !registration) registration = await register(keeper);
    const { active } = registration;
    const told = active ? await ask(active) : UNKNOWN;
    if (turn === asked) change({ stored: told.stored, waiting: Boolean(registration.waiting) });
  };
  // What could not be stored now is tried again at the next look; the page itself works without.
  const lookSafely = (): void => void look().catch(() => change({ stored: false }));

  report(state);
  if (keeper) {
    keeper.addEventListener("controllerchange", () => {
      if (taking) location.reload();
    });
    keeper.addEventListener("message", ({ data }: MessageEvent<Partial<Stored> | null>) => {
      if (data?.type === "STORED") lookSafely();
    });
    keeper.ready.then(lookSafely, () => undefined);
    addEventListener("online", lookSafely);
    document.addEventListener("visibilitychange", () => document.hidden || lookSafely());
    lookSafely();
  }
  return {
    takeUpdate(): void {
      taking = true;
      registration?.waiting?.postMessage({ type: "SKIP_WAITING" } satisfies SkipWaiting);
    },
    look: lookSafely,
  };
}
