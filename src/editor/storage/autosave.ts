/**
 * Keeps a plan in this browser while it is worked on. Each change goes into a journal at once; when it is quiet, and at the
 * latest some seconds after the first change, the plan is written whole in the journal's place.
 *
 * What cannot be written stays in memory and is tried again: with the next change, when the page is looked at anew, and by
 * itself after two seconds, four, eight, up to a minute. After a failure the plan goes in whole: nobody knows what the journal has.
 */

export type AutosaveState = 'kept' | 'keeping' | 'failed';

export interface AutosaveOptions<P, E> {
  /** Writes the plan whole. Rejects when there is no room or no storage. */
  readonly keep: (plan: P) => Promise<void>;
  /** Writes lines of the journal; never before the plan was kept once. */
  readonly append: (entries: readonly E[]) => Promise<void>;
  /** Whether the browser has the plan as it is now, so that a journal can follow. */
  readonly isBased: boolean;
  readonly onState?: (state: AutosaveState) => void;
  /** Quiet time after a change before the plan is written whole, ms. */
  readonly quietMs?: number;
  /** The longest a change may stay in the journal while others follow it, ms. */
  readonly atMostMs?: number;
}

export interface Autosave<P, E> {
  /** Says that this is the plan now, and which line leads to it. Its writing begins at once. */
  changed(plan: P, entry: E | null): void;
  /** Write the plan whole, now. Resolves when everything up to here is kept or has failed. */
  flush(): Promise<void>;
  /** Try again what failed. */
  retry(): void;
  /** What is kept is known again: another page wrote it. */
  based(): void;
  /** Forget what waits and stop. Flush first to lose nothing. */
  stop(): void;
  readonly state: AutosaveState;
}

const FIRST_RETRY_MS = 2000;
const LAST_RETRY_MS = 60_000;

export function createAutosave<P, E>(options: AutosaveOptions<P, E>): Autosave<P, E> {
  const { keep, append, onState, quietMs = 1500, atMostMs = 10_000 } = options;
  let { isBased } = options;
  let state: AutosaveState = 'kept';
  /** The plan, unless it is written whole. */
  let latest: { plan: P } | null = null;
  let lines: E[] = [];
  let wantsWhole = false;
  let running: Promise<void> | null = null;
  let quiet: ReturnType<typeof setTimeout> | undefined;
  let deadline: ReturnType<typeof setTimeout> | undefined;
  let again: ReturnType<typeof setTimeout> | undefined;
  let pauseMs = FIRST_RETRY_MS;

  const become = (next: AutosaveState) => {
    if (next === state) return;
    state = next;
    onState?.(next);
  };
  const disarm = () => {
    for (const timer of [quiet, deadline, again]) clearTimeout(timer);
    deadline = undefined;
  };

  const isWanted = () => latest !== null && (!isBased || lines.length > 0 || wantsWhole);

  /** One thing after the other, so that an older plan can never land on a newer one. */
  async function drain(): Promise<void> {
    while (isWanted()) {
      if (isBased && lines.length > 0) {
        const batch = lines;
        lines = [];
        await append(batch).catch(() => {
          isBased = false;
        });
        continue;
      }
      const { plan } = latest!;
      latest = null;
      lines = [];
      wantsWhole = false;
      disarm();
      try {
        await keep(plan);
        isBased = true;
        pauseMs = FIRST_RETRY_MS;
      } catch {
        latest ??= { plan };
        again = setTimeout(flush, pauseMs);
        pauseMs = Math.min(2 * pauseMs, LAST_RETRY_MS);
        // With a journal that has it all, only its folding in has to wait.
        if (isBased) continue;
        running = null;
        become('failed');
        return;
      }
    }
    running = null;
    become('kept');
  }
  function run(): Promise<void> {
    if (running === null && isWanted()) running = drain();
    return running ?? Promise.resolve();
  }
  function flush(): Promise<void> {
    wantsWhole = latest !== null;
    return run();
  }

  return {
    changed(plan, entry) {
      latest = { plan };
      if (entry !== null) lines.push(entry);
      if (state === 'kept' && (entry !== null || !isBased)) become('keeping');
      clearTimeout(quiet);
      quiet = setTimeout(flush, quietMs);
      deadline ??= setTimeout(flush, atMostMs);
      void run();
    },
    flush,
    retry() {
      if (state === 'failed') void flush();
    },
    based() {
      isBased = true;
    },
    stop() {
      disarm();
      latest = null;
      lines = [];
    },
    get state() {
      return state;
    },
  };
}

/** Calls `flush` when the page is hidden or left, and `back` when it is looked at again. Returns what undoes it. */
export function onComingAndGoing(flush: () => void, back: () => void, page: Window = window): () => void {
  const events = new AbortController();
  const on = (target: EventTarget, type: string, listener: () => void) =>
    target.addEventListener(type, listener, { signal: events.signal });
  on(page, 'pagehide', flush);
  on(page.document, 'visibilitychange', () => (page.document.visibilityState === 'hidden' ? flush() : back()));
  for (const type of ['focus', 'online']) on(page, type, back);
  return () => events.abort();
}
