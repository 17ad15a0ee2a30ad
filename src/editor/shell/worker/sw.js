/*
 * The page without a network: every file of one build, kept under that build's name.
 *
 * The build puts FILES and BUILD before this text (vite.config.ts). A new build waits until the user lets it take over,
 * and caches of older builds go only then, so that a tab in use still finds its own parts.
 */
const CACHE = `legroom-${BUILD}`;

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES)));
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names.filter((name) => name.startsWith('legroom-') && name !== CACHE).map((name) => caches.delete(name)),
        ),
      ),
  );
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  // Any address of the page is the page.
  const wanted = request.mode === 'navigate' ? './' : request;
  event.respondWith(
    // Servers that answer scripts with `Vary: Origin` would otherwise hide from the page what was kept for it.
    caches
      .open(CACHE)
      .then((cache) => cache.match(wanted, { ignoreSearch: true, ignoreVary: true }))
      .then((kept) => kept ?? fetch(request)),
  );
});
