/**
 * Keeps every file of the build on the device and serves the page from there, network or none. The list of files with
 * their hashes is filled in by the site build, and no file is kept that has not the hash. A new version is stored beside
 * the old one, waits until it is whole and the page asks; until then the old one goes on.
 */
import { clientsClaim } from "workbox-core";
import { PrecacheController, PrecacheRoute, cleanupOutdatedCaches } from "workbox-precaching";
import { NavigationRoute, registerRoute, setCatchHandler } from "workbox-routing";
import { refusedPage } from "./offline_store/refused";
import { createShelves } from "./offline_store/shelves";
import type { BuildFile } from "./offline_store/whole";
import type { Stored, ToServiceWorker } from "./worker/offline_messages";

declare const self: ServiceWorkerGlobalScope;
declare const FILES: BuildFile[];

const PAGE = "index.html";

// What is missing is fetched by our own hand, so that its hash is looked at whatever asked for it.
const store = new PrecacheController({ fallbackToNetwork: false });
store.addToCacheList(FILES.map(({ url, revision }) => ({ url, revision })));
const addressOf = (url: string): string => new URL(url, self.location.href).href;
const keyOf = (url: string): string => store.getCacheKeyForURL(addressOf(url)) ?? addressOf(url);
const shelves = createShelves(FILES, store.strategy.cacheName, keyOf);

self.addEventListener("install", (event) => {
  event.waitUntil(
    shelves.fill().then((missing) => {
      if (missing > 0) throw new Error(`${missing} of ${FILES.length} files could not be stored`);
    }),
  );
});
self.addEventListener("activate", (event) => {
  event.waitUntil(store.activate(event));
});

registerRoute(new PrecacheRoute(store));
registerRoute(new NavigationRoute(store.createHandlerBoundToURL(PAGE)));
cleanupOutdatedCaches();
clientsClaim();

/** A file that should be here is not, and cannot be had any more: the newer version, if it is whole, comes in unasked. */
async function letTheNextIn(): Promise<void> {
  const { registration } = self;
  await registration.update().catch(() => undefined);
  const next = registration.installing ?? registration.waiting;
  const goOn = (): void => {
    if (next?.state === "installed") next.postMessage({ type: "SKIP_WAITING" } satisfies ToServiceWorker);
  };
  next?.addEventListener("statechange", goOn);
  goOn();
}

setCatchHandler(async ({ request, event }) => {
  const navigates = request.mode === "navigate";
  const file = FILES.find(({ url }) => (navigates ? url === PAGE : addressOf(url) === request.url.replace(/[?#].*$/, "")));
  if (!file) return Response.error();
  try {
    return await shelves.mend(file);
  } catch {
    (event as ExtendableEvent).waitUntil(letTheNextIn());
    return navigates ? refusedPage() : Response.error();
  }
});

async function howStored(): Promise<Stored> {
  const missing = await shelves.missing();
  return { type: "STORED", stored: missing === 0, files: FILES.length, missing };
}

/** Tell how it stands at once; where something is missing fetch it, and tell everyone once it is here. */
async function tell(port: MessagePort | undefined): Promise<void> {
  const now = await howStored();
  port?.postMessage(now);
  if (now.stored || (await shelves.fill()) > 0) return;
  const healed = await howStored();
  for (const client of await self.clients.matchAll()) client.postMessage(healed);
}

self.addEventListener("message", (event) => {
  const message = event.data as ToServiceWorker;
  if (message.type === "SKIP_WAITING") void self.skipWaiting();
  if (message.type === "HOW_STORED") event.waitUntil(tell(event.ports[0]));
});
