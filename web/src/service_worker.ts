/**
 * Keeps every file of the build on the device and serves the page from there, network or none. The list of files with
 * their hashes is filled in by the site build. A new version is stored beside the old one and waits until the page asks.
 */
import { clientsClaim } from "workbox-core";
import { PrecacheController, PrecacheRoute, cleanupOutdatedCaches } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import type { Stored, ToServiceWorker } from "./worker/offline_messages";

declare const self: ServiceWorkerGlobalScope;
declare const FILES: { url: string; revision: string }[];

const store = new PrecacheController({
  plugins: [
    {
      // The page has just fetched these files: ask the server whether they changed rather than fetch them again.
      requestWillFetch: async ({ request }) => new Request(request, { cache: "no-cache" }),
    },
  ],
});
store.addToCacheList(FILES);

self.addEventListener("install", (event) => {
  event.waitUntil(store.install(event));
});
self.addEventListener("activate", (event) => {
  event.waitUntil(store.activate(event));
});

registerRoute(new PrecacheRoute(store));
registerRoute(new NavigationRoute(store.createHandlerBoundToURL("index.html")));
cleanupOutdatedCaches();
clientsClaim();

async function howStored(): Promise<Stored> {
  const found = await Promise.all(FILES.map(({ url }) => store.matchPrecache(new URL(url, self.location.href).href)));
  const missing = found.filter((response) => response === undefined).length;
  return { type: "STORED", stored: missing === 0, files: FILES.length, missing };
}

self.addEventListener("message", (event) => {
  const message = event.data as ToServiceWorker;
  if (message.type === "SKIP_WAITING") void self.skipWaiting();
  if (message.type === "HOW_STORED") event.waitUntil(howStored().then((stored) => event.ports[0]?.postMessage(stored)));
});
