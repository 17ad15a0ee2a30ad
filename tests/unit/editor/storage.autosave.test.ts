/** Autosave with a stepped clock: what is kept, when, and what happens when it cannot be. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type AutosaveState, createAutosave, flushOnLeaving } from '../../../src/editor/storage/autosave.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function autosave(keep?: (plan: number) => Promise<void>) {
  const kept: number[] = [];
  const states: AutosaveState[] = [];
  const saver = createAutosave<number>({
    keep: keep ?? (async (plan) => void kept.push(plan)),
    onState: (state) => states.push(state),
    quietMs: 600,
    atMostMs: 4000,
  });
  return { saver, kept, states };
}

test('a burst of changes is kept once, the last of them', async () => {
  const { saver, kept, states } = autosave();
  for (const plan of [1, 2, 3]) {
    saver.changed(plan);
    await vi.advanceTimersByTimeAsync(500);
  }
  expect(kept).toEqual([]);
  await vi.advanceTimersByTimeAsync(100);
  expect(kept).toEqual([3]);
  expect(states).toEqual(['waiting', 'keeping', 'kept']);
});

test('changes that never pause are kept every four seconds all the same', async () => {
  const { saver, kept } = autosave();
  for (let plan = 1; plan <= 20; plan++) {
    saver.changed(plan);
    await vi.advanceTimersByTimeAsync(500);
  }
  expect(kept).toEqual([8, 16]);
});

test('flush keeps at once, and resolves when it is kept', async () => {
  const { saver, kept } = autosave();
  saver.changed(7);
  await saver.flush();
  expect(kept).toEqual([7]);
  await vi.advanceTimersByTimeAsync(10_000);
  expect(kept).toEqual([7]);
});

test('a change during a write is written after it, never before', async () => {
  const kept: number[] = [];
  const { saver } = autosave(async (plan) => {
    await new Promise((resolve) => setTimeout(resolve, plan === 1 ? 1000 : 10));
    kept.push(plan);
  });
  saver.changed(1);
  const first = saver.flush();
  saver.changed(2);
  await vi.advanceTimersByTimeAsync(2000);
  await first;
  expect(kept).toEqual([1, 2]);
  expect(saver.state).toBe('kept');
});

test('a write that fails says so, and the same plan is tried again', async () => {
  let room = false;
  const kept: number[] = [];
  const { saver, states } = autosave(async (plan) => {
    if (!room) throw new DOMException('no room', 'QuotaExceededError');
    kept.push(plan);
  });
  saver.changed(5);
  await saver.flush();
  expect(states).toEqual(['waiting', 'keeping', 'failed']);
  room = true;
  await saver.flush();
  expect(kept).toEqual([5]);
  expect(saver.state).toBe('kept');
});

test('a stopped autosave writes nothing more', async () => {
  const { saver, kept } = autosave();
  saver.changed(1);
  saver.stop();
  await vi.advanceTimersByTimeAsync(10_000);
  expect(kept).toEqual([]);
});

test('leaving or hiding the page flushes; coming back does not', () => {
  const flush = vi.fn();
  const document = Object.assign(new EventTarget(), { visibilityState: 'hidden' });
  const page = Object.assign(new EventTarget(), { document }) as unknown as Window;
  const undo = flushOnLeaving(flush, page);
  document.dispatchEvent(new Event('visibilitychange'));
  page.dispatchEvent(new Event('pagehide'));
  expect(flush).toHaveBeenCalledTimes(2);
  document.visibilityState = 'visible';
  document.dispatchEvent(new Event('visibilitychange'));
  expect(flush).toHaveBeenCalledTimes(2);
  undo();
  page.dispatchEvent(new Event('pagehide'));
  expect(flush).toHaveBeenCalledTimes(2);
});
