/** A session on the real browser: IndexedDB, Web Locks, channels, the clock. */
import { onComingAndGoing } from './autosave.ts';
import { newId } from './newId.ts';
import { openingMarks } from './openingMarks.ts';
import { pack } from './packed.ts';
import { savePlanFile } from './planFile.ts';
import { browserPlanStore } from './planStore.ts';
import { createSession, type Session, type SessionHost, type TabMemory } from './session.ts';
import type { Channel, Locks } from './tabLock.ts';

/** Private windows and old browsers may lack any of these; the page works without, and says so where it matters. */
export function browserSession(host: SessionHost): Session {
  const locks = typeof navigator.locks === 'undefined' ? null : (navigator.locks as unknown as Locks);
  const session = createSession(host, {
    store: browserPlanStore(),
    locks,
    channel: (name) => new BroadcastChannel(name) as Channel,
    saveFile: savePlanFile,
    pack,
    marks: openingMarks(() => localStorage),
    tab: browserTab,
    now: () => Date.now(),
    newId,
  });
  onComingAndGoing(() => void session.flush(), session.retry);
  guardUnkept(session);
  // The user's storage is asked to stay; a browser that says no keeps it as long as it likes.
  void navigator.storage?.persist?.().catch(() => false);
  return session;
}

const TAB = 'legroom-document';

/** A browser that keeps nothing (a private window) has nothing for the tab to remember. */
const browserTab: TabMemory = {
  read() {
    try {
      return sessionStorage.getItem(TAB);
    } catch {
      return null;
    }
  },
  write(id) {
    try {
      sessionStorage.setItem(TAB, id);
    } catch {
      // As above.
    }
  },
};

/** The browser asks before the page is left, for as long as something would be lost with it and no longer. */
function guardUnkept(session: Session): void {
  let guard: AbortController | null = null;
  session.state.subscribe(({ kept }) => {
    if (kept !== 'failed') {
      guard?.abort();
      guard = null;
    } else if (guard === null) {
      guard = new AbortController();
      const ask = (event: BeforeUnloadEvent) => {
        if (session.isUnkept()) event.preventDefault();
      };
      window.addEventListener('beforeunload', ask, { signal: guard.signal });
    }
  });
}
