/** Autosave with a stepped clock: what is kept, when, and what happens when it cannot be. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type AutosaveState, createAutosave, onComingAndGoing } from '../../../src/editor/storage/autosave.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

interface Room {
  /** Whether there is room for a plan whole, and for a line. */
  whole: boolean;
  line: boolean;
}

/** Plans are numbers, and the line that leads to one is its number too. */
function autosave({ isBased = true, ms = 0 }: { isBased?: boolean; ms?: number } = {}) {
  const whole: number[] = [];
  const lines: number[] = [];
  const states: AutosaveState[] = [];
  const room: Room = { whole: true, line: true };
  const written = async (there: keyof Room, work: () => void) => {
    await new Promise((resolve) => setTimeout(resolve, ms));
    if (!room[there]) throw new DOMException('no room', 'QuotaExceededError');
    work();
  };
  const saver = createAutosave<number, number>({
    keep: (plan) => written('whole', () => whole.push(plan)),
    append: (entries) => written('line', () => lines.push(...entries)),
    isBased,
    onState: (state) => states.push(state),
    quietMs: 600,
    atMostMs: 4000,
  });
  const change = (plan: number) => saver.changed(plan, plan);
  return { saver, whole, lines, states, room, change };
}
const pass = (ms: number) => vi.advanceTimersByTimeAsync(ms);

test('each change is in the journal within 50 ms, and the plan is written whole once it is quiet', async () => {
  const { whole, lines, states, change } = autosave({ ms: 10 });
  for (const plan of [1, 2, 3]) {
    change(plan);
    await pass(50);
    expect(lines.at(-1)).toBe(plan);
  }
  await pass(500);
  expect(whole).toEqual([]);
  await pass(150);
  expect(whole).toEqual([3]);
  expect(lines).toEqual([1, 2, 3]);
  expect(new Set(states)).toEqual(new Set(['keeping', 'kept']));
});

test('changes that never pause are written whole every four seconds all the same', async () => {
  const { whole, lines, change } = autosave();
  for (let plan = 1; plan <= 20; plan++) {
    change(plan);
    await pass(500);
  }
  expect(whole).toEqual([8, 16]);
  expect(lines).toHaveLength(20);
});

test('a plan that the browser does not have yet is written whole before any line', async () => {
  const { saver, whole, lines, change } = autosave({ isBased: false });
  saver.changed(1, null);
  await pass(5);
  expect([whole, lines]).toEqual([[1], []]);
  change(2);
  await pass(5);
  expect([whole, lines]).toEqual([[1], [2]]);
});

test('flush writes the plan whole at once, and resolves when it is kept', async () => {
  const { saver, whole, change } = autosave();
  change(7);
  const done = saver.flush();
  await pass(5);
  await done;
  expect(whole).toEqual([7]);
  await pass(10_000);
  expect(whole).toEqual([7]);
});

test('a change during a write is written after it, never before', async () => {
  const { saver, whole, lines, change } = autosave({ ms: 1000 });
  change(1);
  const first = saver.flush();
  await pass(500);
  change(2);
  await pass(1200);
  change(3);
  await pass(5000);
  await first;
  expect(lines).toEqual([1, 2, 3]);
  expect(whole.at(-1)).toBe(3);
  expect(whole).toEqual([...whole].sort());
  expect(saver.state).toBe('kept');
});

test('a line that has no room: the plan is tried whole, then again after 2, 4, 8 ... seconds, at most 60', async () => {
  const { saver, whole, room, states, change } = autosave();
  room.whole = false;
  room.line = false;
  change(5);
  await pass(5);
  expect(states).toEqual(['keeping', 'failed']);
  await pass(200_000);
  expect(saver.state).toBe('failed');
  room.whole = true;
  await pass(60_000);
  expect(whole).toEqual([5]);
  expect(saver.state).toBe('kept');
});

test('what failed is tried again with the next change, and when the page is looked at again', async () => {
  const { saver, whole, room, change } = autosave({ isBased: false });
  room.whole = false;
  change(1);
  await pass(5);
  expect(saver.state).toBe('failed');
  room.whole = true;
  change(2);
  await pass(5);
  expect([whole, saver.state]).toEqual([[2], 'kept']);
  room.whole = false;
  room.line = false;
  change(3);
  await pass(5);
  expect(saver.state).toBe('failed');
  room.whole = true;
  saver.retry();
  await pass(5);
  expect([whole, saver.state]).toEqual([[2, 3], 'kept']);
});

test('a plan that has no room whole is kept all the same while its journal has it all', async () => {
  const { saver, whole, lines, room, change } = autosave();
  room.whole = false;
  change(1);
  await pass(700);
  change(2);
  await pass(700);
  expect(saver.state).toBe('kept');
  expect([whole, lines]).toEqual([[], [1, 2]]);
  room.whole = true;
  await pass(5000);
  expect(whole).toEqual([2]);
});

test('a stopped autosave writes nothing more', async () => {
  const { saver, whole, change } = autosave();
  change(1);
  await pass(5);
  saver.stop();
  await pass(10_000);
  expect(whole).toEqual([]);
});

test('leaving or hiding the page flushes; coming back tries again', () => {
  const flush = vi.fn();
  const back = vi.fn();
  const document = Object.assign(new EventTarget(), { visibilityState: 'hidden' });
  const page = Object.assign(new EventTarget(), { document }) as unknown as Window;
  const undo = onComingAndGoing(flush, back, page);
  document.dispatchEvent(new Event('visibilitychange'));
  page.dispatchEvent(new Event('pagehide'));
  expect([flush, back].map(({ mock }) => mock.calls.length)).toEqual([2, 0]);
  document.visibilityState = 'visible';
  document.dispatchEvent(new Event('visibilitychange'));
  page.dispatchEvent(new Event('focus'));
  page.dispatchEvent(new Event('online'));
  expect([flush, back].map(({ mock }) => mock.calls.length)).toEqual([2, 3]);
  undo();
  page.dispatchEvent(new Event('pagehide'));
  page.dispatchEvent(new Event('focus'));
  expect([flush, back].map(({ mock }) => mock.calls.length)).toEqual([2, 3]);
});
