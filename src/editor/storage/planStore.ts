/**
 * The plans that this browser keeps between visits, in IndexedDB. A convenience: the user's own file is the truth.
 *
 * Some browsers drop the connection while the page sleeps in the background, so every request that fails for that
 * reason opens the database again and is tried once more.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

/** One document as it was last kept. `text` is the file's own text, so that a restored plan is read like any file. */
export interface KeptPlan {
  readonly id: string;
  readonly name: string;
  readonly text: string;
  /** Milliseconds since 1970, from the caller's clock: the newest is restored at the next visit. */
  readonly keptAt: number;
  /** The file it was opened from or saved to, and the text that file had. */
  readonly fileName: string | null;
  readonly fileText: string | null;
  readonly handle?: FileSystemFileHandle;
  /** As the program gave it, a sample or an empty plan: nothing in it is the user's. */
  readonly untouched?: boolean;
}

export interface PlanStore {
  read(id: string): Promise<KeptPlan | null>;
  /** The plan that was kept last, or null in a browser that has kept none. */
  latest(): Promise<KeptPlan | null>;
  /** Every plan that is kept, the newest first. */
  all(): Promise<KeptPlan[]>;
  keep(plan: KeptPlan): Promise<void>;
  remove(id: string): Promise<void>;
}

/** As many earlier documents are kept; the oldest go first. */
export const KEPT_PLANS = 12;

interface Schema extends DBSchema {
  plans: { key: string; value: KeptPlan; indexes: { keptAt: number } };
}
export type Database = IDBPDatabase<Schema>;

/** Opens the database. `lost` is called when the browser closes the connection by itself. */
export type OpenDatabase = (lost: () => void) => Promise<Database>;

const openLegroomDatabase: OpenDatabase = (lost) =>
  openDB<Schema>('legroom', 1, {
    upgrade(db) {
      db.createObjectStore('plans', { keyPath: 'id' }).createIndex('keptAt', 'keptAt');
    },
    terminated: lost,
    // A newer version of the page wants to change the database: let it.
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase).close();
      lost();
    },
  });

/** What browsers report when a connection is gone, rather than the request wrong or the disk full. */
const LOST = new Set(['InvalidStateError', 'AbortError', 'UnknownError']);

/** Throws (rejects): what the browser says when there is no room, or no storage at all (some private windows). */
export function browserPlanStore(open: OpenDatabase = openLegroomDatabase): PlanStore {
  let connection: Promise<Database> | null = null;
  const forget = () => {
    connection = null;
  };
  const connected = () => {
    connection ??= open(forget).catch((problem) => {
      forget();
      throw problem;
    });
    return connection;
  };
  async function withDatabase<T>(work: (db: Database) => Promise<T>): Promise<T> {
    try {
      return await work(await connected());
    } catch (problem) {
      if (!LOST.has((problem as Error)?.name)) throw problem;
      forget();
      return work(await connected());
    }
  }
  return {
    read: (id) => withDatabase(async (db) => (await db.get('plans', id)) ?? null),
    latest: () =>
      withDatabase(async (db) => {
        const cursor = await db.transaction('plans').store.index('keptAt').openCursor(null, 'prev');
        return cursor?.value ?? null;
      }),
    all: () => withDatabase(async (db) => (await db.getAllFromIndex('plans', 'keptAt')).reverse()),
    keep: (plan) =>
      withDatabase(async (db) => {
        // Committed at once: a page that is being left must not wait for an answer before its last change is on its way.
        const change = db.transaction('plans', 'readwrite');
        const put = change.store.put(plan);
        change.commit();
        await Promise.all([put, change.done]);
        const prune = db.transaction('plans', 'readwrite');
        const byAge = await prune.store.index('keptAt').getAllKeys();
        for (const old of byAge.slice(0, Math.max(0, byAge.length - KEPT_PLANS))) await prune.store.delete(old);
        await prune.done;
      }),
    remove: (id) => withDatabase((db) => db.delete('plans', id)),
  };
}

/** For a browser without storage: keeps nothing beyond this page. */
export function memoryPlanStore(kept: Iterable<KeptPlan> = []): PlanStore {
  const plans = new Map<string, KeptPlan>();
  for (const plan of kept) plans.set(plan.id, plan);
  const newestFirst = () => [...plans.values()].sort((a, b) => b.keptAt - a.keptAt);
  return {
    read: async (id) => plans.get(id) ?? null,
    latest: async () => newestFirst()[0] ?? null,
    all: async () => newestFirst(),
    keep: async (plan) => void plans.set(plan.id, plan),
    remove: async (id) => void plans.delete(id),
  };
}
