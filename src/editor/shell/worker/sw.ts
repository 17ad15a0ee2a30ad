/**
 * The page without a network: the service worker, by workbox. The build (tools/build) names every file it wrote, with a
 * revision and a hash, in PRECACHE. All are fetched past the browser's own cache; one that is missing, cut short or another than
 * the build wrote leaves the worker uninstalled, and the one before it goes on.
 *
 * Nothing happens by itself: a new build waits until a page says that the user wants it. Parts of older builds stay until a
 * page says that it is opened while no other is, so that a tab in use still finds its own.
 */
import { PrecacheController, type PrecacheEntry, PrecacheRoute } from 'workbox-precaching';
import { registerRoute } from 'workbox-routing';

declare const PRECACHE: PrecacheEntry[];
declare const self: ServiceWorkerGlobalScope;

const precache = new PrecacheController();
precache.addToCacheList(PRECACHE);
self.addEventListener('install', (event) => void precache.install(event));
// The page of the first visit has its later parts from here too: the server may have newer ones by then.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

// The folder's own address is its index.html.
registerRoute(new PrecacheRoute(precache, { ignoreURLParametersMatching: [/./] }));
// What this build does not name may be a part of an older one, which another tab still shows.
registerRoute(
  ({ sameOrigin }) => sameOrigin,
  async ({ request }) => (await self.caches.match(request, { ignoreSearch: true, ignoreVary: true })) ?? fetch(request),
);

self.addEventListener('message', (event) => {
  if (event.data?.type === 'SKIP_WAITING') void self.skipWaiting();
  else if (event.data?.type === 'OPENED') event.waitUntil(tidy(event));
});

/** Forgets what this build does not name, unless another tab, or a build that waits, may need it. */
async function tidy(event: ExtendableMessageEvent): Promise<void> {
  const { installing, waiting } = self.registration;
  const tabs = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (tabs.length === 1 && !installing && !waiting) await precache.activate(event);
}
