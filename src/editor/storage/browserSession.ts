/** A session on the real browser: IndexedDB, Web Locks, channels, the clock. */
import { flushOnLeaving } from './autosave.ts';
import { openingMarks } from './openingMarks.ts';
import { savePlanFile } from './planFile.ts';
import { browserPlanStore, memoryPlanStore } from './planStore.ts';
import { createSession, type Session, type SessionHost } from './session.ts';
import type { Channel, Locks } from './tabLock.ts';

/** Private windows and old browsers may lack any of these; the page works without, and says so where it matters. */
export function browserSession(host: SessionHost): Session {
  const store = typeof indexedDB === 'undefined' ? memoryPlanStore() : browserPlanStore();
  const locks = typeof navigator.locks === 'undefined' ? null : (navigator.locks as unknown as Locks);
  const session = createSession(host, {
    store,
    locks,
    channel: (name) => new BroadcastChannel(name) as Channel,
    saveFile: savePlanFile,
    marks: openingMarks(() => localStorage),
    now: () => Date.now(),
    newId: () => crypto.randomUUID(),
  });
  flushOnLeaving(() => void session.flush());
  // The user's storage is asked to stay; a browser that says no keeps it as long as it likes.
  void navigator.storage?.persist?.().catch(() => false);
  return session;
}
