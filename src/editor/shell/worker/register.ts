/** The service worker from the page's side: registered in the built page only, and asked before it replaces anything. */
import type { Workbox } from 'workbox-window';

let worker: Workbox | null = null;
let waits = false;
let isWanted = false;
/** Another tab let the new version take over: this one shows the old page until it is reloaded. */
let hasTakenOver = false;
const listeners = new Set<() => void>();

export const updateWaits = (): boolean => waits;

export function watchUpdates(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Lets the waiting version take over; the page reloads when it has. Another tab's choice does not reload this one. */
export function takeUpdate(): void {
  isWanted = true;
  if (hasTakenOver) location.reload();
  else worker?.messageSkipWaiting();
}

/** Offline is a comfort: a browser that refuses (a private window, plain http) runs the page all the same. */
export async function registerWorker(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const { Workbox } = await import('workbox-window');
  worker = new Workbox('./sw.js');
  worker.addEventListener('waiting', () => {
    waits = true;
    for (const listener of listeners) listener();
  });
  worker.addEventListener('controlling', () => {
    hasTakenOver = true;
    if (isWanted) location.reload();
  });
  await worker.register({ immediate: true }).catch(() => undefined);
  navigator.serviceWorker.controller?.postMessage({ type: 'OPENED' });
}
