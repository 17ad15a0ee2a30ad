/** Stand-ins for what several tabs share in a browser: locks, channels, and what is kept. */
import { isSamePoint } from '../../../src/editor/storage/journal.ts';
import type { MarkStorage } from '../../../src/editor/storage/openingMarks.ts';
import {
  CONFLICT,
  GONE,
  type KeptPlan,
  type PlanStore,
  type WholePlan,
} from '../../../src/editor/storage/planStore.ts';
import type { Channel, Locks } from '../../../src/editor/storage/tabLock.ts';
import { versionsToThin } from '../../../src/editor/storage/versions.ts';

/** W3C Web Locks API, 3.4 to 4: a queue a name; ifAvailable, steal and signal. */
export function lockManager(): Locks {
  interface Waiting {
    readonly run: () => void;
  }
  const held = new Map<string, { reject(problem: unknown): void }>();
  const queues = new Map<string, Waiting[]>();
  const abort = () => new DOMException('The lock request was aborted.', 'AbortError');
  const next = (name: string) => {
    held.delete(name);
    queues.get(name)?.shift()?.run();
  };
  return {
    request(name, { ifAvailable, steal, signal }, callback) {
      return new Promise((resolve, reject) => {
        const grant = () => {
          const entry = { reject };
          held.set(name, entry);
          Promise.resolve(callback({ name }))
            .then(resolve, reject)
            .finally(() => {
              if (held.get(name) === entry) next(name);
            });
        };
        if (steal) {
          held.get(name)?.reject(abort());
          grant();
        } else if (!held.has(name)) grant();
        else if (ifAvailable) Promise.resolve(callback(null)).then(resolve, reject);
        else {
          const queue = queues.get(name) ?? [];
          queues.set(name, queue);
          const waiting = { run: grant };
          queue.push(waiting);
          signal?.addEventListener('abort', () => {
            queue.splice(queue.indexOf(waiting), 1);
            reject(abort());
          });
        }
      });
    },
  };
}

/** Channels of one name: what one posts, all others hear. */
export function channels(): () => Channel {
  const open: Channel[] = [];
  return () => {
    const channel: Channel = {
      onmessage: null,
      postMessage(data) {
        for (const other of open) if (other !== channel) other.onmessage?.({ data } as MessageEvent);
      },
      close: () => void open.splice(open.indexOf(channel), 1),
    };
    open.push(channel);
    return channel;
  };
}

/** localStorage or sessionStorage: names and texts. */
export function memoryMarks(): MarkStorage {
  const texts = new Map<string, string>();
  return {
    getItem: (name) => texts.get(name) ?? null,
    setItem: (name, text) => void texts.set(name, text),
    removeItem: (name) => void texts.delete(name),
  };
}

export interface FakeStore extends PlanStore {
  /** The name of the error that every writing ends with; null: there is room. */
  refuses: string | null;
  /** Everything that was ever put in whole, in order: `id text`. */
  readonly written: string[];
  /** What is there at this very moment. */
  now(id: string): WholePlan;
}

/** The plan store in memory: each request is answered `delayMs` later, all of a writing is done or none. */
export function memoryPlanStore(kept: Iterable<KeptPlan> = [], delayMs = 0): FakeStore {
  /** The last written stands last. */
  const plans = new Map<string, WholePlan>();
  for (const plan of kept) plans.set(plan.id, { plan, journal: [], versions: [] });
  const later = async <T>(answer: () => T): Promise<T> => {
    if (delayMs > 0) await new Promise((resolve) => setTimeout(resolve, delayMs));
    return structuredClone(answer());
  };
  const writing = (work: () => void) =>
    later(() => {
      if (store.refuses !== null) throw new DOMException('no room', store.refuses);
      work();
    });
  const put = (whole: WholePlan) => {
    plans.delete(whole.plan.id);
    plans.set(whole.plan.id, structuredClone(whole));
  };
  const newestFirst = () => [...plans.values()].reverse();
  const store: FakeStore = {
    refuses: null,
    written: [],
    now: (id) => structuredClone(plans.get(id)!),
    read: (id) => later(() => plans.get(id) ?? null),
    ids: () => later(() => newestFirst().map(({ plan }) => plan.id)),
    all: () => later(() => newestFirst().map(({ plan }) => plan)),
    keep: (plan, known, versions) =>
      writing(() => {
        const was = plans.get(plan.id);
        if (was && known && !isSamePoint(was.journal.at(-1) ?? was.plan.at, known))
          throw new DOMException('Another page has written this plan.', CONFLICT);
        const all = new Map([...(was?.versions ?? []), ...versions].map((version) => [version.n, version]));
        for (const n of versionsToThin([...all.keys()])) all.delete(n);
        put({ plan, journal: [], versions: [...all.values()].sort((a, b) => a.n - b.n) });
        store.written.push(`${plan.id} ${plan.name}`);
      }),
    append: (entries) =>
      writing(() => {
        const was = plans.get(entries[0].plan);
        if (!was) throw new DOMException('The plan is no longer there.', GONE);
        if (was.journal.some(({ n }) => entries.some((entry) => entry.n === n)))
          throw new DOMException('It is there.', CONFLICT);
        plans.set(was.plan.id, { ...was, journal: [...was.journal, ...structuredClone(entries)] });
      }),
    versions: (id) => later(() => [...(plans.get(id)?.versions ?? [])].reverse()),
    whole: (id) => later(() => plans.get(id) ?? null),
    putWhole: (whole) =>
      writing(() => {
        const others = [...plans];
        plans.clear();
        for (const [id, each] of [[whole.plan.id, structuredClone(whole)] as const, ...others]) plans.set(id, each);
      }),
    remove: (id) => writing(() => void plans.delete(id)),
  };
  return store;
}
