/**
 * One tab writes a plan; any other tab that has it open only reads, and can take over.
 *
 * The Web Lock of the plan's id says who writes. The holder lets go when asked over a channel, after it has kept its
 * last change; a holder that does not answer (asleep, crashed) loses the lock after `patienceMs`.
 */

export type Access = 'asking' | 'mine' | 'theirs';

/** The part of LockManager that is used, so that tests can bring their own. */
export interface Locks {
  request(name: string, options: LockOptions, callback: (lock: unknown) => Promise<void> | void): Promise<unknown>;
}
/** The part of BroadcastChannel that is used. */
export interface Channel {
  postMessage(message: unknown): void;
  onmessage: ((event: MessageEvent) => void) | null;
  close(): void;
}

export interface TabLockOptions {
  readonly locks: Locks;
  readonly channel: Channel;
  readonly onAccess: (access: Access) => void;
  /** Called before this tab lets go: keep the last change here. */
  readonly beforeYield: () => Promise<void>;
  /** How long a holder may take to answer before the lock is taken from it, ms. */
  readonly patienceMs?: number;
}

export interface TabLock {
  readonly access: Access;
  /** Ask the other tab to let go, and take the lock. */
  takeOver(): void;
  release(): void;
}

export const lockName = (documentId: string): string => `legroom-plan-${documentId}`;

export function holdPlan(documentId: string, options: TabLockOptions): TabLock {
  const { locks, channel, onAccess, beforeYield, patienceMs = 1500 } = options;
  const name = lockName(documentId);
  let access: Access = 'asking';
  let released = false;
  let letGo: (() => void) | null = null;
  let queue: AbortController | null = null;
  let patience: ReturnType<typeof setTimeout> | undefined;

  const become = (next: Access) => {
    if (released || next === access) return;
    access = next;
    onAccess(next);
  };

  /**
   * Asks for the lock, and holds it until `letGo`. Each request knows whether it was ever granted: a request that left
   * the line is no loss, one whose lock was taken away is.
   */
  function request(how: LockOptions, denied?: () => void): void {
    let granted = false;
    locks
      .request(name, how, (lock) => {
        if (lock === null) return denied?.();
        if (released) return;
        granted = true;
        clearTimeout(patience);
        become('mine');
        return new Promise<void>((resolve) => {
          letGo = resolve;
        });
      })
      .catch((problem: unknown) => {
        if (released) return;
        if (granted) {
          letGo = null;
          waitInLine();
        } else if ((problem as Error)?.name !== 'AbortError') become('theirs');
      });
  }

  /** The tab in front closes, and this one writes. */
  function waitInLine(): void {
    become('theirs');
    queue = new AbortController();
    request({ signal: queue.signal });
  }

  function steal(): void {
    queue?.abort();
    queue = null;
    request({ steal: true });
  }

  channel.onmessage = async ({ data }) => {
    if (data !== 'let-go' || access !== 'mine') return;
    // No change may be made from here on: what is kept now is what the other tab reads.
    become('theirs');
    await beforeYield();
    const free = letGo;
    letGo = null;
    free?.();
    if (!released) waitInLine();
  };

  request({ ifAvailable: true }, waitInLine);
  return {
    get access() {
      return access;
    },
    takeOver() {
      if (access === 'mine' || released) return;
      channel.postMessage('let-go');
      clearTimeout(patience);
      patience = setTimeout(() => {
        if (access !== 'mine' && !released) steal();
      }, patienceMs);
    },
    release() {
      released = true;
      clearTimeout(patience);
      queue?.abort();
      letGo?.();
      channel.close();
    },
  };
}

/** For a browser without locks: this tab writes, and nothing guards it. */
export const UNGUARDED: TabLock = { access: 'mine', takeOver() {}, release() {} };
