/** Two tabs and one plan, on a lock manager that follows the Web Locks specification as far as it is used here. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Access, type Channel, holdPlan, type Locks, lockName } from '../../../src/editor/storage/tabLock.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** W3C Web Locks API, 3.4 to 4: a queue a name; ifAvailable, steal and signal. */
function lockManager(): Locks {
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
function channels(): () => Channel {
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

function tabs() {
  const locks = lockManager();
  const connect = channels();
  return (beforeYield: () => Promise<void> = async () => {}) => {
    const seen: Access[] = [];
    const lock = holdPlan('kit', {
      locks,
      channel: connect(),
      onAccess: (access) => seen.push(access),
      beforeYield,
      patienceMs: 1500,
    });
    return { lock, seen };
  };
}
const settle = () => vi.advanceTimersByTimeAsync(0);

test('a plan has a lock of its own', () => expect(lockName('a')).not.toBe(lockName('b')));

test('the first tab writes, the second reads', async () => {
  const open = tabs();
  const first = open();
  const second = open();
  await settle();
  expect([first.lock.access, second.lock.access]).toEqual(['mine', 'theirs']);
});

test('the second tab writes when the first closes', async () => {
  const open = tabs();
  const first = open();
  const second = open();
  await settle();
  first.lock.release();
  await settle();
  expect(second.seen).toEqual(['theirs', 'mine']);
  expect(first.seen).toEqual(['mine']);
});

test('taking over waits until the first tab has kept its last change', async () => {
  const open = tabs();
  const order: string[] = [];
  const first = open(async () => {
    await new Promise((resolve) => setTimeout(resolve, 300));
    order.push('kept');
  });
  const second = open();
  await settle();
  second.lock.takeOver();
  await vi.advanceTimersByTimeAsync(100);
  expect([first.lock.access, second.lock.access]).toEqual(['theirs', 'theirs']);
  await vi.advanceTimersByTimeAsync(200);
  order.push(second.lock.access);
  expect(order).toEqual(['kept', 'mine']);
  expect(first.lock.access).toBe('theirs');
});

test('a first tab that does not answer loses the lock after the patience', async () => {
  const open = tabs();
  const first = open(() => new Promise(() => {}));
  const second = open();
  await settle();
  second.lock.takeOver();
  await vi.advanceTimersByTimeAsync(1499);
  expect(second.lock.access).toBe('theirs');
  await vi.advanceTimersByTimeAsync(1);
  expect([first.lock.access, second.lock.access]).toEqual(['theirs', 'mine']);
});

test('the lock goes back and forth', async () => {
  const open = tabs();
  const first = open();
  const second = open();
  await settle();
  for (const [taker, other] of [
    [second, first],
    [first, second],
    [second, first],
  ]) {
    taker.lock.takeOver();
    await settle();
    expect([taker.lock.access, other.lock.access]).toEqual(['mine', 'theirs']);
  }
  await vi.advanceTimersByTimeAsync(5000);
  expect([first.lock.access, second.lock.access]).toEqual(['theirs', 'mine']);
});

test('a closed tab hears and says nothing more', async () => {
  const open = tabs();
  const first = open();
  await settle();
  first.lock.release();
  const second = open();
  await settle();
  first.lock.takeOver();
  await vi.advanceTimersByTimeAsync(5000);
  expect(second.lock.access).toBe('mine');
  expect(first.seen).toEqual(['mine']);
});
