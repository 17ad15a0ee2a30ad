/** The service worker from the page's side: registered in the built page only, and asked before it replaces anything. */

let waiting: ServiceWorker | null = null;
let taken = false;
const listeners = new Set<() => void>();

export const updateWaits = (): boolean => waiting !== null;

export function watchUpdates(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function found(worker: ServiceWorker | null): void {
  waiting = worker;
  for (const listener of listeners) listener();
}

/** Lets the waiting version take over; the page reloads when it has. */
export function takeUpdate(): void {
  taken = true;
  waiting?.postMessage('take over');
}

/** Offline is a comfort: a browser that refuses (a private window, plain http) runs the page all the same. */
export async function registerWorker(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const { serviceWorker } = navigator;
  serviceWorker.addEventListener('controllerchange', () => {
    // Another tab's choice does not reload this one.
    if (taken) location.reload();
  });
  const registration = await serviceWorker.register('./sw.js').catch(() => null);
  // Some automated browsers answer with nothing at all.
  if (!registration) return;
  const settle = (worker: ServiceWorker | null) => {
    worker?.addEventListener('statechange', () => {
      // Without a controller it is the first visit: there is nothing to replace.
      if (worker.state === 'installed' && serviceWorker.controller) found(worker);
    });
  };
  if (registration.waiting && serviceWorker.controller) found(registration.waiting);
  settle(registration.installing);
  registration.addEventListener('updatefound', () => settle(registration.installing));
}
