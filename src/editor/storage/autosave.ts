/**
 * Keeps the plan in this browser while it is worked on: a short while after the last change, at the latest some
 * seconds after the first, and at once when the page is left.
 */

export type AutosaveState = 'kept' | 'waiting' | 'keeping' | 'failed';

export interface AutosaveOptions<P> {
  /** Writes one version of the plan. Rejects when there is no room or no storage. */
  readonly keep: (plan: P) => Promise<void>;
  readonly onState?: (state: AutosaveState) => void;
  /** Quiet time after a change before it is kept, ms: a burst of nudges is written once. */
  readonly quietMs?: number;
  /** The longest a change may wait while others follow it, ms. */
  readonly atMostMs?: number;
}

export interface Autosave<P> {
  /** Say that this is the plan now. Cheap: nothing is written yet. */
  changed(plan: P): void;
  /** Keep what waits, now. Resolves when everything up to here is kept or has failed. */
  flush(): Promise<void>;
  /** Forget what waits and stop. Flush first to lose nothing. */
  stop(): void;
  readonly state: AutosaveState;
}

export function createAutosave<P>(options: AutosaveOptions<P>): Autosave<P> {
  const { keep, onState, quietMs = 600, atMostMs = 4000 } = options;
  let state: AutosaveState = 'kept';
  let pending: { plan: P } | null = null;
  let running: Promise<void> | null = null;
  let quiet: ReturnType<typeof setTimeout> | undefined;
  let deadline: ReturnType<typeof setTimeout> | undefined;

  const become = (next: AutosaveState) => {
    if (next === state) return;
    state = next;
    onState?.(next);
  };
  const disarm = () => {
    clearTimeout(quiet);
    clearTimeout(deadline);
    deadline = undefined;
  };

  /** Writes one after the other, so that an older plan can never land on a newer one. */
  async function drain(): Promise<void> {
    while (pending !== null) {
      const { plan } = pending;
      pending = null;
      disarm();
      become('keeping');
      try {
        await keep(plan);
      } catch {
        // The plan stays in memory; the next change, or leaving the page, tries again.
        pending ??= { plan };
        become('failed');
        return;
      }
    }
    become('kept');
  }
  function flush(): Promise<void> {
    if (running !== null) return running;
    if (pending === null) return Promise.resolve();
    running = drain().finally(() => {
      running = null;
    });
    return running;
  }

  return {
    changed(plan) {
      pending = { plan };
      become('waiting');
      clearTimeout(quiet);
      quiet = setTimeout(flush, quietMs);
      deadline ??= setTimeout(flush, atMostMs);
    },
    flush,
    stop() {
      disarm();
      pending = null;
    },
    get state() {
      return state;
    },
  };
}

/** Calls `flush` when the page is hidden or left. Returns what undoes it. */
export function flushOnLeaving(flush: () => void, page: Window = window): () => void {
  const hidden = () => {
    if (page.document.visibilityState === 'hidden') flush();
  };
  page.addEventListener('pagehide', flush);
  page.document.addEventListener('visibilitychange', hidden);
  return () => {
    page.removeEventListener('pagehide', flush);
    page.document.removeEventListener('visibilitychange', hidden);
  };
}
