/** The plan store against a database whose connection drops. The real IndexedDB is tested in tests/browser/files. */
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import {
  browserPlanStore,
  type Database,
  type KeptPlan,
  type OpenDatabase,
} from '../../../src/editor/storage/planStore.ts';

// Node has no ranges of keys, and nothing here looks at them.
beforeAll(() => void vi.stubGlobal('IDBKeyRange', { bound: () => null }));
afterAll(() => void vi.unstubAllGlobals());

const plan = (id: string): KeptPlan => ({
  id,
  name: id,
  text: `text of ${id}`,
  at: { n: 0, sum: 0 },
  keptAt: 1,
  fileName: null,
  fileText: null,
});

/** A database that answers reads from a map, and fails as a browser does for as many requests as it is told. */
function database(failures: string[]) {
  const opened: string[] = [];
  const open: OpenDatabase = async () => {
    opened.push('open');
    return {
      get: async (_: string, id: string) => {
        const name = failures.shift();
        if (name !== undefined) throw new DOMException('failed', name);
        return plan(id);
      },
      getAll: async () => [],
    } as unknown as Database;
  };
  return { store: browserPlanStore(open), opened };
}

describe('a dropped connection', () => {
  test.each(['InvalidStateError', 'AbortError', 'UnknownError'])('%s: reopened and tried once more', async (name) => {
    const { store, opened } = database([name]);
    expect(await store.read('kit')).toMatchObject({ plan: plan('kit') });
    expect(opened).toHaveLength(2);
  });

  test('that drops again is reported, not tried for ever', async () => {
    const { store, opened } = database(['UnknownError', 'UnknownError', 'UnknownError']);
    await expect(store.read('kit')).rejects.toMatchObject({ name: 'UnknownError' });
    expect(opened).toHaveLength(2);
  });

  test('a full disk is not a dropped connection', async () => {
    const { store, opened } = database(['QuotaExceededError']);
    await expect(store.read('kit')).rejects.toMatchObject({ name: 'QuotaExceededError' });
    expect(opened).toHaveLength(1);
  });

  test('one connection serves many requests', async () => {
    const { store, opened } = database([]);
    await Promise.all([store.read('a'), store.read('b')]);
    expect(opened).toHaveLength(1);
  });

  test('the browser closing the connection makes the next request open a new one', async () => {
    const opened: (() => void)[] = [];
    const store = browserPlanStore(async (lost) => {
      opened.push(lost);
      return { get: async (_: string, id: string) => plan(id), getAll: async () => [] } as unknown as Database;
    });
    await store.read('a');
    opened[0]();
    await store.read('a');
    expect(opened).toHaveLength(2);
  });

  test('a database that cannot be opened is asked for again next time', async () => {
    let tries = 0;
    const store = browserPlanStore(async () => {
      tries++;
      if (tries === 1) throw new DOMException('no storage here', 'SecurityError');
      return { get: async () => undefined, getAll: async () => [] } as unknown as Database;
    });
    await expect(store.read('a')).rejects.toMatchObject({ name: 'SecurityError' });
    expect(await store.read('a')).toBeNull();
  });
});
