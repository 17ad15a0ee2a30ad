/**
 * The stock list that this browser keeps between visits, as a file's text: one list, whatever plan is open. It has a database
 * of its own beside the plans', so that plans need no new version of theirs.
 */
import { type DBSchema, openDB } from 'idb';
import type { StockStore } from '../state/files.ts';

interface Schema extends DBSchema {
  stock: { key: string; value: string };
}

const ONE = 'mine';

/** Throws (rejects): what the browser says when there is no room, or no storage at all (some private windows). */
export function browserStockStore(): StockStore {
  const withStock = async <T>(work: (db: Awaited<ReturnType<typeof open>>) => Promise<T>): Promise<T> => {
    const db = await open();
    try {
      return await work(db);
    } finally {
      db.close();
    }
  };
  return {
    read: () => withStock(async (db) => (await db.get('stock', ONE)) ?? null),
    keep: (text) => withStock(async (db) => void (await db.put('stock', text, ONE))),
  };
}

const open = () =>
  openDB<Schema>('legroom-stock', 1, {
    upgrade(db) {
      db.createObjectStore('stock');
    },
  });
