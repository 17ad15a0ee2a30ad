/** The service worker from the page's side: registered in the built page only, and asked before it replaces anything. */

let registration: ServiceWorkerRegistration | null = null;
/** Another tab let the new version take over: this one shows the old page until it is reloaded. */
let hasTakenOver = false;
let isWanted = false;
const listeners = new Set<() => void>();

const tell = () => {
  for (const listener of listeners) listener();
};

/** Whether a newer version than the page's own is there to be loaded. One that did not install whole never is. */
export const updateWaits = (): boolean => hasTakenOver || (registration?.waiting ?? null) !== null;

export function watchUpdates(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Lets the waiting version take over; the page reloads when it has. Another tab's choice does not reload this one. */
export function takeUpdate(): void {
  isWanted = true;
  if (registration?.waiting) registration.waiting.postMessage({ type: 'SKIP_WAITING' });
  else location.reload();
}

/** Offline is a comfort: a browser that refuses (a private window, plain http) runs the page all the same. */
export async function registerWorker(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const workers = navigator.serviceWorker;
  let controller = workers.controller;
  workers.addEventListener('controllerchange', () => {
    // The first worker of all begins to answer for the page that brought it: no other version.
    hasTakenOver ||= controller !== null;
    controller = workers.controller;
    if (isWanted) location.reload();
    tell();
  });
  registration = await workers.register('./sw.js').catch(() => null);
  // A broken version comes and goes without a word; the next good one is heard all the same.
  registration?.addEventListener('updatefound', () => registration?.installing?.addEventListener('statechange', tell));
  tell();
  controller?.postMessage({ type: 'OPENED' });
}
