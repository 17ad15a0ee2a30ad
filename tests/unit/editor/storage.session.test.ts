/** Tabs, files and what the browser keeps, seen from one document's life. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { BEGINNING } from '../../../src/editor/storage/journal.ts';
import { openingMarks } from '../../../src/editor/storage/openingMarks.ts';
import { unpack } from '../../../src/editor/storage/packed.ts';
import { createSession, type Question, type SessionParts } from '../../../src/editor/storage/session.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { numbersFrom } from '../../fixtures/anyCommand.ts';
import { seeds } from '../../fixtures/seeds.ts';
import { channels, type FakeStore, lockManager, memoryMarks, memoryPlanStore } from './storage.fakes.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A browser with several tabs: they share storage, locks and channels. */
function browser(store: FakeStore = memoryPlanStore(), written: string[] = [], parts: Partial<SessionParts> = {}) {
  const locks = lockManager();
  const connections = new Map<string, ReturnType<typeof channels>>();
  const marks = memoryMarks();
  let clock = 0;
  let ids = 0;
  /** A tab; `memory`: what it remembers of before it was reloaded. */
  return (memory = memoryMarks()) => {
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
          queueMicrotask(() => session.drawn());
        },
        bringBack(earlier) {
          plan = earlier;
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
        tab: { read: () => memory.getItem('tab'), write: (id) => memory.setItem('tab', id) },
        // Real compression takes a time that no stepped clock knows.
        pack: async (text) => text,
        now: () => ++clock,
        newId: () => `document-${++ids}`,
        ...parts,
      },
    );
    return {
      session,
      memory,
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
  const earlier = (await tab.session.store.all()).filter(({ name }) => name === 'Club kit, louder');

  expect(await tab.session.reopen(earlier[0].id)).toBeNull();
  expect(tab.plan().name).toBe('Club kit, louder');
  await pause();
  expect((await tab.session.store.all()).map(({ name }) => name)).toEqual(['Club kit, louder', 'Barn kit, softer']);
  expect(await tab.session.reopen('never there')).toMatch(/no longer keeps/);
  expect(tab.plan().name).toBe('Club kit, louder');
});

test('a plan out of a link is kept beside the others though nobody changed it', async () => {
  const tab = browser()();
  await tab.session.begin(newPlan('My own'));
  tab.rename('My own kit');
  await tab.session.begin(newPlan('From a link'), undefined, true);
  expect(tab.session.state.getState()).toMatchObject({ file: 'none', fileName: null });
  await pause();
  await tab.session.begin(newPlan('A sample'));
  await pause();
  const { id } = tab.session.state.getState();
  const others = (await tab.session.store.all()).filter((kept) => kept.id !== id);
  expect(others.map(({ name }) => name)).toEqual(['From a link', 'My own kit']);
});

test('samples that were only looked at do not count among the kept plans; a changed one does', async () => {
  const store = memoryPlanStore();
  const open = browser(store);
  const tab = open();
  await tab.session.begin(newPlan('My own'));
  tab.rename('My own kit');
  for (let i = 0; i < 15; i++) {
    await tab.session.begin(newPlan(`Sample ${i}`));
    await pause();
  }
  const names = async () => (await store.all()).map(({ name }) => name);
  // The one that is open is there at the next visit, looked at or not.
  expect(await names()).toEqual(['Sample 14', 'My own kit']);
  await tab.session.close();

  const next = open();
  await next.session.restore();
  expect(next.plan().name).toBe('Sample 14');
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
  expect((await tab.session.store.all()).map(({ name }) => name)).toContain('From a file');
});

test('a first visit has nothing to restore', async () => {
  const tab = browser()();
  expect(await tab.session.restore()).toBe(false);
  expect(tab.plan().name).toBe('nothing yet');
});

test('a kept text that cannot be read opens nothing', async () => {
  const kept = {
    id: 'a',
    name: 'a',
    text: '{"format":"legroom"',
    at: BEGINNING,
    keptAt: 1,
    fileName: null,
    fileText: null,
  };
  const tab = browser(memoryPlanStore([kept]))();
  expect(await tab.session.restore()).toBe(false);
});

test('a browser without storage works, says that it keeps nothing, and restores nothing', async () => {
  const refuse = () => Promise.reject(new DOMException('no', 'SecurityError'));
  const store = new Proxy(memoryPlanStore(), { get: () => refuse });
  const tab = browser(store)();
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
  expect((await store.all())[0].name).toBe('Kit');
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
  expect((await store.read('document-1'))?.plan.name).toBe('One, changed');
  await pause();
  expect((await store.read('document-2'))?.plan.name).toBe('Two');
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

const asked = <K extends Question['kind']>(tab: { state(): { question: Question | null } }, kind: K) => {
  const { question } = tab.state();
  expect(question?.kind).toBe(kind);
  return question as Extract<Question, { kind: K }>;
};

test('a plan that broke the page is not brought back by itself, and opens when asked for', async () => {
  const open = browser();
  const first = open();
  await first.session.begin(newPlan('Bad kit'));
  await pause();
  first.session.broke();
  const next = open();
  expect(await next.session.restore()).toBe(false);
  const [{ id, name, canOpen }] = asked(next, 'passedOver').plans;
  expect([name, canOpen]).toEqual(['Bad kit', true]);
  expect(await next.session.reopen(id)).toBeNull();
  next.session.drawn();
  await pause();
  expect(await open().session.restore()).toBe(true);
});

test('a page that is ended in the middle of the work has lost nothing that was finished', async () => {
  const store = memoryPlanStore([], 5);
  const open = browser(store);
  const first = open();
  const begun = first.session.begin(newPlan('Kit'));
  await vi.advanceTimersByTimeAsync(50);
  await begun;
  first.rename('Kit 1');
  first.rename('Kit 2');
  await vi.advanceTimersByTimeAsync(50);
  // No flush, no closing: the page is gone.
  expect(store.written).toEqual(['document-1 Kit']);
  const next = open();
  const restored = next.session.restore();
  await vi.advanceTimersByTimeAsync(100);
  expect(await restored).toBe(true);
  expect(next.plan().name).toBe('Kit 2');
});

test.each(seeds(300, 5))(
  'killed at any moment of steady editing: every change older than 50 ms is there (%i)',
  async (seed) => {
    const random = numbersFrom(seed);
    const store = memoryPlanStore([], 8);
    const open = browser(store);
    const first = open();
    void first.session.begin(newPlan('Kit 0'));
    await vi.advanceTimersByTimeAsync(50);
    const end = random() * 12_000;
    let passed = 0;
    let changes = 0;
    let safe = 0;
    while (passed < end) {
      const wait = random() * 400;
      first.rename(`Kit ${++changes}`);
      await vi.advanceTimersByTimeAsync(wait);
      passed += wait;
      if (wait >= 50) safe = changes;
    }
    // What was on its way into the store is lost or not; the page that sent it is no more.
    const left = memoryPlanStore();
    await left.putWhole(store.now('document-1'));
    const next = browser(left)();
    const restored = next.session.restore();
    await vi.advanceTimersByTimeAsync(100);
    expect(await restored).toBe(true);
    const found = Number(next.plan().name.slice('Kit '.length));
    expect(found).toBeGreaterThanOrEqual(safe);
    expect(found).toBeLessThanOrEqual(changes);
    expect(next.state().question).toBeNull();
  },
);

test('a plan whose journal does not fit is opened as it was last written, and said', async () => {
  const store = memoryPlanStore();
  const open = browser(store);
  const first = open();
  await first.session.begin(newPlan('Kit'));
  await first.session.close();
  await store.append([{ plan: 'document-1', n: 1, sum: 12345, changes: '[[["name"],"Somebody else’s"]]' }]);
  const next = open();
  await next.session.restore();
  expect(next.plan().name).toBe('Kit');
  expect(asked(next, 'said').sentence).toMatch(/last change did not fit/);
  next.rename('Kit, going on');
  await settle();
  const third = open();
  await third.session.restore();
  expect(third.plan().name).toBe('Kit, going on');
});

test('work that is kept nowhere is not left without the word', async () => {
  const store = memoryPlanStore();
  const tab = browser(store)();
  await tab.session.begin(newPlan('Kit'));
  await pause();
  store.refuses = 'QuotaExceededError';
  tab.rename('Kit, a year’s work');
  await settle();
  expect(tab.state().kept).toBe('failed');
  expect(tab.session.isUnkept()).toBe(true);

  let begun = tab.session.begin(newPlan('Sample'));
  await settle();
  asked(tab, 'unkept').answer(false);
  expect(await begun).toBe(false);
  expect([tab.plan().name, tab.state().question]).toEqual(['Kit, a year’s work', null]);

  const reopened = tab.session.reopen('document-1');
  await settle();
  asked(tab, 'unkept').answer(false);
  expect(await reopened).toBeNull();
  expect(tab.plan().name).toBe('Kit, a year’s work');

  begun = tab.session.begin(newPlan('Sample'));
  await settle();
  const first = asked(tab, 'unkept');
  // Asked a second time, the first asking is answered: stay.
  const second = tab.session.begin(newPlan('Another sample'));
  await settle();
  expect(await begun).toBe(false);
  expect(asked(tab, 'unkept')).not.toBe(first);
  asked(tab, 'unkept').answer(true);
  expect(await second).toBe(true);
  expect(tab.plan().name).toBe('Another sample');
});

test('what is in the user’s file, or was only looked at, may be left without a question', async () => {
  const store = memoryPlanStore();
  store.refuses = 'QuotaExceededError';
  const tab = browser(store)();
  await tab.session.begin(newPlan('Sample'));
  expect(await tab.session.begin(newPlan('Kit'))).toBe(true);
  tab.rename('Kit, mine');
  expect(tab.session.isUnkept()).toBe(true);
  await tab.session.save();
  await settle();
  expect(tab.session.isUnkept()).toBe(false);
  expect(await tab.session.begin(newPlan('Next'))).toBe(true);
});

test('when room returns, what was unkept is kept: by itself, and when the page is looked at', async () => {
  const store = memoryPlanStore();
  const tab = browser(store)();
  await tab.session.begin(newPlan('Kit'));
  await settle();
  for (const [name, wake] of [
    ['by itself', () => vi.advanceTimersByTimeAsync(60_000)],
    ['looked at', () => Promise.resolve(tab.session.retry())],
  ] as const) {
    store.refuses = 'QuotaExceededError';
    tab.rename(`Kit ${name}`);
    await settle();
    expect(tab.state().kept).toBe('failed');
    store.refuses = null;
    await wake();
    await settle();
    expect([tab.state().kept, (await store.all())[0].name]).toEqual(['kept', `Kit ${name}`]);
  }
});

test('storage that was emptied meanwhile gets the plan anew, whole', async () => {
  const store = memoryPlanStore();
  const tab = browser(store)();
  await tab.session.begin(newPlan('Kit'));
  await settle();
  await store.remove('document-1');
  tab.rename('Kit, still here');
  await settle();
  expect(tab.state().kept).toBe('kept');
  expect((await store.all()).map(({ name }) => name)).toEqual(['Kit, still here']);
});

test('a store that never answers does not hold the user for ever', async () => {
  const store = memoryPlanStore();
  const tab = browser(store)();
  await tab.session.begin(newPlan('Kit'));
  await settle();
  store.keep = store.append = () => new Promise(() => undefined);
  tab.rename('Kit, mine');
  const begun = tab.session.begin(newPlan('Next'));
  await pause();
  asked(tab, 'unkept').answer(true);
  expect(await begun).toBe(true);
});

test('a clock that is put back removes nothing, and changes neither the order nor what is restored', async () => {
  let clock = 1e12;
  const store = memoryPlanStore();
  const open = browser(store, [], { now: () => clock });
  const tab = open();
  for (let k = 1; k <= 15; k++) {
    await tab.session.begin(newPlan(`Kit ${k}`));
    tab.rename(`Kit ${k}, mine`);
    await pause();
    clock -= 3.6e6;
  }
  await tab.session.close();
  expect((await store.all()).map(({ name }) => name)).toEqual(
    Array.from({ length: 15 }, (_, k) => `Kit ${15 - k}, mine`),
  );
  const next = open();
  await next.session.restore();
  expect(next.plan().name).toBe('Kit 15, mine');
});

test('each tab keeps to its own plan when it is loaded anew', async () => {
  const open = browser();
  const first = open();
  await first.session.begin(newPlan('One'));
  first.rename('One, mine');
  const second = open();
  await second.session.begin(newPlan('Two'));
  second.rename('Two, mine');
  await pause();
  await first.session.close();
  const again = open(first.memory);
  await again.session.restore();
  await settle();
  expect([again.plan().name, again.state().access]).toEqual(['One, mine', 'mine']);
});

test('a plan of a newer version is passed over, said, and stays as it was', async () => {
  const text = writePlan(newPlan('From next year')).replace('"version": 1', '"version": 9');
  const store = memoryPlanStore([
    {
      id: 'old',
      name: 'Old',
      text: writePlan(newPlan('Old')),
      at: BEGINNING,
      keptAt: 1,
      fileName: null,
      fileText: null,
    },
    { id: 'new', name: 'From next year', text, at: BEGINNING, keptAt: 2, fileName: null, fileText: null },
  ]);
  const tab = browser(store)();
  expect(await tab.session.restore()).toBe(true);
  expect(tab.plan().name).toBe('Old');
  const { plans } = asked(tab, 'passedOver');
  expect(plans).toMatchObject([{ id: 'new', name: 'From next year', text, canOpen: false }]);
  expect(plans[0].sentence).toMatch(/newer program/);
  tab.rename('Old, changed');
  await pause();
  expect((await store.read('new'))?.plan.text).toBe(text);
});

test('without locks, two tabs on one plan part: neither writes over the other', async () => {
  const store = memoryPlanStore();
  const open = browser(store, [], { locks: null });
  const first = open();
  await first.session.begin(newPlan('Kit'));
  await pause();
  const second = open();
  await second.session.restore();
  first.rename('Kit of the first');
  await settle();
  second.rename('Kit of the second');
  await settle();
  expect(asked(second, 'said').sentence).toMatch(/another tab/);
  first.rename('Kit of the first, on');
  second.rename('Kit of the second, on');
  await pause();
  expect((await store.all()).map(({ name }) => name).sort()).toEqual(['Kit of the first, on', 'Kit of the second, on']);
});

test('states of a plan are kept, and one that is brought back loses nothing', async () => {
  const store = memoryPlanStore();
  const tab = browser(store)();
  await tab.session.begin(newPlan('Kit'));
  await pause();
  for (let k = 1; k <= 12; k++) {
    tab.rename(`Kit ${k}`);
    await pause();
  }
  const names = async () => {
    const { versions } = await tab.session.versions();
    return Promise.all(versions.map(async ({ text }) => JSON.parse(await unpack(text)).name));
  };
  expect(await names()).toEqual(['Kit 10', 'Kit 5', 'Kit']);
  const { versions } = await tab.session.versions();
  expect(await tab.session.bringBack(versions[1])).toBeNull();
  expect(tab.plan().name).toBe('Kit 5');
  await pause();
  expect(await names()).toEqual(['Kit 12', 'Kit 10', 'Kit 5', 'Kit']);
  const next = browser(store)();
  await next.session.restore();
  expect(next.plan().name).toBe('Kit 5');
});

test('without room for the present state nothing is brought back', async () => {
  const store = memoryPlanStore();
  const tab = browser(store)();
  await tab.session.begin(newPlan('Kit'));
  for (let k = 1; k <= 6; k++) tab.rename(`Kit ${k}`);
  await pause();
  const { versions } = await tab.session.versions();
  tab.rename('Kit, now');
  store.refuses = 'QuotaExceededError';
  expect(await tab.session.bringBack(versions[0])).toMatch(/no room/);
  expect(tab.plan().name).toBe('Kit, now');
});

test('a file that another program changed is not written over without the word', async () => {
  const plan = newPlan('Kit');
  let onDisk = JSON.stringify(plan);
  const saveFile: SessionParts['saveFile'] = async (text, { isExpected }) => {
    if (isExpected && !isExpected(onDisk))
      return { ok: false, sentence: null, changed: { name: 'kit.json', text: onDisk, handle: null } };
    onDisk = text;
    return { ok: true, name: 'kit.json', handle: null };
  };
  const tab = browser(memoryPlanStore(), [], { saveFile })();
  await tab.session.begin(plan, { name: 'kit.json', text: onDisk, handle: null });
  tab.rename('Kit 2');
  // The same plan in another writing is no change.
  expect(await tab.session.save()).toBeNull();
  expect(onDisk).toBe(writePlan({ ...plan, name: 'Kit 2' }));
  const theirs = writePlan(newPlan('Theirs'));
  onDisk = theirs;
  tab.rename('Kit 3');
  expect(await tab.session.save()).toBeNull();
  expect([onDisk, tab.state().file]).toEqual([theirs, 'behind']);
  expect(asked(tab, 'fileChanged').theirs.text).toBe(theirs);
  await tab.session.save(false, true);
  expect([onDisk, tab.state().file]).toEqual([writePlan({ ...plan, name: 'Kit 3' }), 'current']);
});
