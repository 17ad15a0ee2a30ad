/** The plan store against a database whose connection drops. The real IndexedDB is tested in tests/browser/panels. */
import { describe, expect, test } from 'vitest';
import {
  browserPlanStore,
  type Database,
  type KeptPlan,
  memoryPlanStore,
  type OpenDatabase,
} from '../../../src/editor/storage/planStore.ts';

const plan = (id: string, keptAt: number): KeptPlan => ({
  id,
  name: id,
  text: `text of ${id}`,
  keptAt,
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
        return plan(id, 1);
      },
    } as unknown as Database;
  };
  return { store: browserPlanStore(open), opened };
}

describe('a dropped connection', () => {
  test.each(['InvalidStateError', 'AbortError', 'UnknownError'])('%s: reopened and tried once more', async (name) => {
    const { store, opened } = database([name]);
    expect(await store.read('kit')).toEqual(plan('kit', 1));
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
      return { get: async (_: string, id: string) => plan(id, 1) } as unknown as Database;
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
      return { get: async () => undefined } as unknown as Database;
    });
    await expect(store.read('a')).rejects.toMatchObject({ name: 'SecurityError' });
    expect(await store.read('a')).toBeNull();
  });
});

test('the memory store restores the newest', async () => {
  const store = memoryPlanStore([plan('old', 1), plan('new', 3)]);
  await store.keep(plan('middle', 2));
  expect((await store.latest())?.id).toBe('new');
  await store.remove('new');
  expect((await store.latest())?.id).toBe('middle');
  expect(await store.read('new')).toBeNull();
});
