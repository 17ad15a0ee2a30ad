/**
 * The plans that this browser keeps between visits, in IndexedDB: each as it was last written down, the journal of its changes
 * since, and its earlier states. A convenience: the user's own file is the truth.
 *
 * Plans stand in the order in which they were last written, which the store counts itself: a clock that is put back changes
 * nothing. No plan is ever removed here but by `remove`.
 *
 * Some browsers drop the connection while the page sleeps in the background, so every request that fails for that
 * reason opens the database again and is tried once more.
 */
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from 'idb';
import { BEGINNING, isSamePoint, type JournalEntry, type JournalPoint } from './journal.ts';
import { type KeptVersion, versionsToThin } from './versions.ts';

/** One document as it was last written. `text` is the file's own text, so that a restored plan is read like any file. */
export interface KeptPlan {
  readonly id: string;
  readonly name: string;
  readonly text: string;
  /** The changes that are in the text; the journal goes on from there. */
  readonly at: JournalPoint;
  /** Milliseconds since 1970 by the clock of then: to be shown, never to order by. */
  readonly keptAt: number;
  /** The file it was opened from or saved to, and the text that file had. */
  readonly fileName: string | null;
  readonly fileText: string | null;
  readonly handle?: FileSystemFileHandle;
  /** As the program gave it, a sample or an empty plan: nothing in it is the user's. */
  readonly untouched?: boolean;
  /** Its place in the order of writing, which the store gives. */
  readonly sequence?: number;
}

export interface StoredPlan {
  readonly plan: KeptPlan;
  readonly journal: readonly JournalEntry[];
}

/** A plan with all that is kept of it. */
export interface WholePlan extends StoredPlan {
  readonly versions: readonly KeptVersion[];
}

export interface PlanStore {
  read(id: string): Promise<StoredPlan | null>;
  /** What is kept, the last written first. */
  ids(): Promise<string[]>;
  /** Every plan that is kept, the last written first, without its journal. */
  all(): Promise<KeptPlan[]>;
  /**
   * Writes a plan's text in place of its journal, and states to be kept; too many of those are thinned out. `known`: how far it
   * has come in the store; null: however far.
   * Throws (rejects): CONFLICT where another page has written it since.
   */
  keep(plan: KeptPlan, known: JournalPoint | null, versions: readonly KeptVersion[]): Promise<void>;
  /** Throws (rejects): CONFLICT where another page wrote such a line; GONE where the plan is no longer there. */
  append(entries: readonly JournalEntry[]): Promise<void>;
  /** The states kept of a plan, the newest first. */
  versions(id: string): Promise<KeptVersion[]>;
  whole(id: string): Promise<WholePlan | null>;
  /** Puts a plan in with all that was kept of it: where it stood in the order, else before all others. */
  putWhole(whole: WholePlan): Promise<void>;
  remove(id: string): Promise<void>;
}

/** Names of the errors that a store rejects with, beside the browser's own. */
export const CONFLICT = 'ConstraintError';
export const GONE = 'NotFoundError';

interface Schema extends DBSchema {
  plans: { key: string; value: KeptPlan; indexes: { sequence: number } };
  journal: { key: [plan: string, n: number]; value: JournalEntry };
  versions: { key: [plan: string, n: number]; value: KeptVersion };
}
export type Database = IDBPDatabase<Schema>;

/** Opens the database. `lost` is called when the browser closes the connection by itself. */
export type OpenDatabase = (lost: () => void) => Promise<Database>;

const openLegroomDatabase: OpenDatabase = (lost) =>
  openDB<Schema>('legroom', 2, {
    async upgrade(db, from, _to, change) {
      db.createObjectStore('journal', { keyPath: ['plan', 'n'] });
      db.createObjectStore('versions', { keyPath: ['plan', 'n'] });
      const plans = from === 0 ? db.createObjectStore('plans', { keyPath: 'id' }) : change.objectStore('plans');
      plans.createIndex('sequence', 'sequence');
      if (from === 0) return;
      // Version 1 went by the clock, for want of better; what it says now is the order once and for all.
      const byAge = (await plans.getAll()).sort((a, b) => a.keptAt - b.keptAt);
      (plans as unknown as IDBObjectStore).deleteIndex('keptAt');
      for (const [k, plan] of byAge.entries()) await plans.put({ ...plan, at: BEGINNING, sequence: k + 1 });
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

const PARTS = ['plans', 'journal', 'versions'] as const;

const linesOf = (id: string) => IDBKeyRange.bound([id], [id, []]);

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
  /** One change of the whole store: all of it is done, or none. */
  const inOne = (work: (change: Change) => Promise<void>) =>
    withDatabase(async (db) => {
      const change = db.transaction(PARTS, 'readwrite');
      try {
        await work(change);
        await change.done;
      } catch (problem) {
        // What failed is told, not that it was all taken back because of it.
        change.done.catch(() => undefined);
        try {
          change.abort();
        } catch {
          // The browser has done so.
        }
        throw problem;
      }
    });

  return {
    read: (id) =>
      withDatabase(async (db) => {
        const [row, journal] = await Promise.all([db.get('plans', id), db.getAll('journal', linesOf(id))]);
        return row === undefined ? null : { plan: row, journal };
      }),
    ids: () => withDatabase(async (db) => (await db.getAllKeysFromIndex('plans', 'sequence')).reverse()),
    all: () => withDatabase(async (db) => (await db.getAllFromIndex('plans', 'sequence')).reverse()),
    keep: (plan, known, versions) =>
      inOne(async (change) => {
        const journal = change.objectStore('journal');
        const [was, line] = await Promise.all([
          change.objectStore('plans').get(plan.id),
          journal.openCursor(linesOf(plan.id), 'prev'),
        ]);
        if (known !== null && was !== undefined && !isSamePoint(line?.value ?? was.at, known))
          throw new DOMException('Another page has written this plan.', CONFLICT);
        await putLast(change, plan);
        await journal.delete(linesOf(plan.id));
        const kept = change.objectStore('versions');
        for (const version of versions) await kept.put(version);
        if (versions.length === 0) return;
        const counts = (await kept.getAllKeys(linesOf(plan.id))).map(([, n]) => n);
        for (const n of versionsToThin(counts)) await kept.delete([plan.id, n]);
      }),
    append: (entries) =>
      inOne(async (change) => {
        // Asked for in one go, so that they are on their way before the page can be left.
        const [key] = await Promise.all([
          change.objectStore('plans').getKey(entries[0].plan),
          ...entries.map(async (entry) => change.objectStore('journal').add(entry)),
        ]);
        if (key === undefined) throw new DOMException('The plan is no longer there.', GONE);
      }),
    versions: (id) => withDatabase(async (db) => (await db.getAll('versions', linesOf(id))).reverse()),
    whole: (id) =>
      withDatabase(async (db) => {
        const [plan, journal, versions] = await Promise.all([
          db.get('plans', id),
          db.getAll('journal', linesOf(id)),
          db.getAll('versions', linesOf(id)),
        ]);
        return plan === undefined ? null : { plan, journal, versions };
      }),
    putWhole: ({ plan, journal, versions }) =>
      inOne(async (change) => {
        const plans = change.objectStore('plans');
        const first = await plans.index('sequence').openKeyCursor();
        await plans.put({ ...plan, sequence: plan.sequence ?? (first?.key ?? 0) - 1 });
        for (const entry of journal) await change.objectStore('journal').put(entry);
        for (const version of versions) await change.objectStore('versions').put(version);
      }),
    remove: (id) =>
      inOne(async (change) => {
        await change.objectStore('plans').delete(id);
        await change.objectStore('journal').delete(linesOf(id));
        await change.objectStore('versions').delete(linesOf(id));
      }),
  };
}

type Change = IDBPTransaction<Schema, typeof PARTS, 'readwrite'>;

/** Writes a plan as the last of all. */
async function putLast(change: Change, plan: KeptPlan): Promise<void> {
  const plans = change.objectStore('plans');
  const last = await plans.index('sequence').openKeyCursor(null, 'prev');
  await plans.put({ ...plan, sequence: (last?.key ?? 0) + 1 });
}
