/** Tabs, files and what the browser keeps, seen from one document's life. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { openingMarks } from '../../../src/editor/storage/openingMarks.ts';
import { KEPT_PLANS, memoryPlanStore, type PlanStore } from '../../../src/editor/storage/planStore.ts';
import { createSession } from '../../../src/editor/storage/session.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { channels, lockManager, memoryMarks } from './storage.fakes.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A browser with several tabs: they share storage, locks and channels. */
function browser(store: PlanStore = memoryPlanStore(), written: string[] = []) {
  const locks = lockManager();
  const connections = new Map<string, ReturnType<typeof channels>>();
  const marks = memoryMarks();
  let clock = 0;
  let ids = 0;
  return () => {
    let plan = newPlan('nothing yet');
    const listeners = new Set<() => void>();
    const say = () => {
      for (const listener of listeners) listener();
    };
    const session = createSession(
      {
        plan: () => plan,
        subscribe: (listener) => {
          listeners.add(listener);
          return () => listeners.delete(listener);
        },
        replacePlan(next) {
          plan = next;
          say();
        },
      },
      {
        store,
        locks,
        channel(name) {
          if (!connections.has(name)) connections.set(name, channels());
          return connections.get(name)!();
        },
        // Every file is saved as the same one.
        async saveFile(text) {
          written.push(text);
          return { ok: true, name: 'club.legroom.json', handle: null };
        },
        marks: openingMarks(() => marks),
        now: () => ++clock,
        newId: () => `document-${++ids}`,
      },
    );
    return {
      session,
      plan: () => plan,
      state: () => session.state.getState(),
      rename(name: string) {
        plan = { ...plan, name };
        say();
      },
    };
  };
}
const settle = () => vi.advanceTimersByTimeAsync(0);
const pause = () => vi.advanceTimersByTimeAsync(5000);

test('what was worked on is there again at the next visit', async () => {
  const open = browser();
  const first = open();
  await first.session.begin(newPlan('Club kit'));
  first.rename('Club kit, louder');
  await pause();
  await first.session.close();

  const next = open();
  expect(await next.session.restore()).toBe(true);
  expect(next.plan().name).toBe('Club kit, louder');
});

test('a plan that another took the place of can be opened again, with its last change', async () => {
  const tab = browser()();
  await tab.session.begin(newPlan('Club kit'));
  tab.rename('Club kit, louder');
  await tab.session.begin(newPlan('Barn kit'));
  tab.rename('Barn kit, softer');
  const earlier = await tab.session.earlier();
  expect(earlier.map(({ name }) => name)).toEqual(['Club kit, louder']);

  expect(await tab.session.reopen(earlier[0].id)).toBeNull();
  expect(tab.plan().name).toBe('Club kit, louder');
  await pause();
  expect((await tab.session.earlier()).map(({ name }) => name)).toEqual(['Barn kit, softer']);
  expect(await tab.session.reopen('never there')).toMatch(/no longer keeps/);
  expect(tab.plan().name).toBe('Club kit, louder');
});

test('samples that were only looked at do not count among the kept plans; a changed one does', async () => {
  const store = memoryPlanStore();
  const open = browser(store);
  const tab = open();
  await tab.session.begin(newPlan('My own'));
  tab.rename('My own kit');
  for (let i = 0; i < KEPT_PLANS + 3; i++) {
    await tab.session.begin(newPlan(`Sample ${i}`));
    await pause();
  }
  const names = async () => (await store.all()).map(({ name }) => name);
  // The one that is open is there at the next visit, looked at or not.
  expect(await names()).toEqual([`Sample ${KEPT_PLANS + 2}`, 'My own kit']);
  await tab.session.close();

  const next = open();
  await next.session.restore();
  expect(next.plan().name).toBe(`Sample ${KEPT_PLANS + 2}`);
  await next.session.begin(newPlan('Another sample'));
  next.rename('Another sample, now mine');
  await next.session.begin(newPlan('The last'));
  await pause();
  expect(await names()).toEqual(['The last', 'Another sample, now mine', 'My own kit']);
});

test('a plan out of the user’s own file is kept, changed or not', async () => {
  const tab = browser()();
  const plan = newPlan('From a file');
  await tab.session.begin(plan, { name: 'kit.legroom.json', text: writePlan(plan), handle: null });
  await tab.session.begin(newPlan('Sample'));
  expect((await tab.session.earlier()).map(({ name }) => name)).toEqual(['From a file']);
});

test('a first visit has nothing to restore', async () => {
  const tab = browser()();
  expect(await tab.session.restore()).toBe(false);
  expect(tab.plan().name).toBe('nothing yet');
});

test('a kept text that cannot be read opens nothing', async () => {
  const kept = { id: 'a', name: 'a', text: '{"format":"legroom"', keptAt: 1, fileName: null, fileText: null };
  const tab = browser(memoryPlanStore([kept]))();
  expect(await tab.session.restore()).toBe(false);
});

test('a browser without storage works, and restores nothing', async () => {
  const refuse = () => Promise.reject(new DOMException('no', 'SecurityError'));
  const tab = browser({ read: refuse, latest: refuse, all: refuse, keep: refuse, remove: refuse })();
  expect(await tab.session.restore()).toBe(false);
  await tab.session.begin(newPlan('Kit'));
  await pause();
  expect(tab.state().kept).toBe('failed');
  expect(tab.plan().name).toBe('Kit');
});

test('the second tab on a document reads only, and what it would write is not kept', async () => {
  const store = memoryPlanStore();
  const open = browser(store);
  const first = open();
  await first.session.begin(newPlan('Kit'));
  await pause();
  const second = open();
  await second.session.restore();
  await settle();
  expect([first.state().access, second.state().access]).toEqual(['mine', 'theirs']);
  second.rename('overwritten');
  await pause();
  expect((await store.latest())?.name).toBe('Kit');
});

test('taking over brings the first tab’s last change along, unwritten as it was', async () => {
  const open = browser();
  const first = open();
  await first.session.begin(newPlan('Kit'));
  await pause();
  const second = open();
  await second.session.restore();
  await settle();
  first.rename('Kit, last change');
  second.session.takeOver();
  await settle();
  expect([first.state().access, second.state().access]).toEqual(['theirs', 'mine']);
  expect(second.plan().name).toBe('Kit, last change');
});

test('a tab that closes hands the document to the one that waits', async () => {
  const open = browser();
  const first = open();
  await first.session.begin(newPlan('Kit'));
  await pause();
  const second = open();
  await second.session.restore();
  first.rename('Kit, finished');
  await first.session.close();
  await settle();
  expect(second.state().access).toBe('mine');
  expect(second.plan().name).toBe('Kit, finished');
});

test('two documents in two tabs do not get in each other’s way', async () => {
  const open = browser();
  const first = open();
  const second = open();
  await first.session.begin(newPlan('One'));
  await second.session.begin(newPlan('Two'));
  await settle();
  expect([first.state().access, second.state().access]).toEqual(['mine', 'mine']);
});

test('opening another document keeps the one before', async () => {
  const store = memoryPlanStore();
  const tab = browser(store)();
  await tab.session.begin(newPlan('One'));
  tab.rename('One, changed');
  await tab.session.begin(newPlan('Two'));
  expect((await store.read('document-1'))?.name).toBe('One, changed');
  await pause();
  expect((await store.read('document-2'))?.name).toBe('Two');
});

test('the file is none, then current, then behind, and current again when the change is taken back', async () => {
  const written: string[] = [];
  const tab = browser(memoryPlanStore(), written)();
  await tab.session.begin(newPlan('Kit'));
  expect(tab.state().file).toBe('none');
  expect(await tab.session.save()).toBeNull();
  expect(tab.state()).toMatchObject({ file: 'current', fileName: 'club.legroom.json' });
  expect(written).toEqual([writePlan(newPlan('Kit'))]);
  tab.rename('Kit 2');
  expect(tab.state().file).toBe('behind');
  tab.rename('Kit');
  await pause();
  expect(tab.state().file).toBe('current');
});

test('the file is known again at the next visit, with what it lacks', async () => {
  const open = browser();
  const first = open();
  await first.session.begin(newPlan('Kit'));
  await first.session.save();
  first.rename('Kit, not saved');
  await first.session.close();
  const next = open();
  await next.session.restore();
  expect(next.state()).toMatchObject({ file: 'behind', fileName: 'club.legroom.json' });
});

test('an opened file is current, however it was indented', async () => {
  const plan: Plan = newPlan('Kit');
  const tab = browser()();
  await tab.session.begin(plan, { name: 'kit.json', text: JSON.stringify(plan), handle: null });
  expect(tab.state()).toMatchObject({ file: 'current', fileName: 'kit.json' });
});

test('a plan that broke the page is not brought back by itself, and opens when asked for', async () => {
  const open = browser();
  const first = open();
  await first.session.begin(newPlan('Bad kit'));
  await pause();
  first.session.broke();
  const next = open();
  expect(await next.session.restore()).toBe(false);
  expect(next.state().heldBack?.name).toBe('Bad kit');
  expect(await next.session.reopen(next.state().heldBack!.id)).toBeNull();
  next.session.drawn();
  await pause();
  expect(await open().session.restore()).toBe(true);
});
