/** Two tabs and one plan, on a lock manager that follows the Web Locks specification as far as it is used here. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Access, holdPlan, lockName } from '../../../src/editor/storage/tabLock.ts';
import { channels, lockManager } from './storage.fakes.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

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
