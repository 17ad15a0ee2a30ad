/** Everything in one file, out of one browser and into another. */
import { expect, test } from 'vitest';
import { archiveOf, archiveText, readArchive, takeIn, takenWords } from '../../../src/editor/storage/archive.ts';
import { BEGINNING, nextEntry } from '../../../src/editor/storage/journal.ts';
import { pack, unpack } from '../../../src/editor/storage/packed.ts';
import type { WholePlan } from '../../../src/editor/storage/planStore.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { memoryPlanStore } from './storage.fakes.ts';

const whole = (id: string, plan: Plan, rest: Partial<WholePlan> = {}): WholePlan => ({
  plan: { id, name: plan.name, text: writePlan(plan), at: BEGINNING, keptAt: 1, fileName: null, fileText: null },
  journal: [],
  versions: [],
  ...rest,
});

/** Two plans, one with a version and a change that is still in its journal; and a sample that nobody changed. */
async function browser() {
  const store = memoryPlanStore();
  const club = newPlan('Club');
  const line = nextEntry('club', BEGINNING, club, { ...club, name: 'Club, louder' })!;
  const versions = [{ plan: 'club', n: 0, keptAt: 1, text: await pack(writePlan(club)) }];
  await store.putWhole(whole('club', club, { journal: [line], versions }));
  await store.putWhole(whole('barn', newPlan('Barn')));
  const sample = whole('sample', newPlan('Sample'));
  await store.putWhole({ ...sample, plan: { ...sample.plan, untouched: true } });
  return store;
}
const names = async (store: ReturnType<typeof memoryPlanStore>) =>
  (await store.all()).map(({ id, name }) => `${id} ${name}`);
let ids = 0;
const newId = () => `beside-${++ids}`;

async function throughAFile(store: ReturnType<typeof memoryPlanStore>, stock: string | null = null) {
  const packed = await pack(JSON.stringify(await archiveOf(store, stock, 'dark')));
  const read = readArchive(await archiveText(new Blob([packed])));
  if (!read.ok) throw new Error(read.sentence);
  return read.archive;
}

test('everything goes into a browser that has nothing: plans, changes in the journal, versions, stock, look', async () => {
  const archive = await throughAFile(await browser(), 'a stock list');
  expect([archive.stock, archive.look]).toEqual(['a stock list', 'dark']);
  const other = memoryPlanStore();
  const taken = await takeIn(archive, other, newId);
  expect(taken).toMatchObject({ same: [], beside: [] });
  expect((await names(other)).sort()).toEqual(['barn Barn', 'club Club, louder']);
  const club = (await other.whole('club'))!;
  expect(JSON.parse(club.plan.text).name).toBe('Club, louder');
  expect(JSON.parse(await unpack(club.versions[0].text)).name).toBe('Club');
  expect(takenWords(taken)).toBe('2 plans taken in.');
});

test('what is here stays: the same is passed over, another state of a plan is kept beside it', async () => {
  const archive = await throughAFile(await browser());
  const here = memoryPlanStore();
  await here.putWhole(whole('barn', newPlan('Barn')));
  await here.putWhole(whole('club', newPlan('Club, softer')));
  const taken = await takeIn(archive, here, newId);
  expect(taken).toMatchObject({ added: [], same: ['Barn'], beside: ['Club, louder'] });
  expect(JSON.parse((await here.whole('club'))!.plan.text).name).toBe('Club, softer');
  expect((await here.all()).map(({ text }) => JSON.parse(text).name).sort()).toEqual([
    'Barn',
    'Club, louder',
    'Club, softer',
  ]);
  expect(takenWords(taken)).toMatch(/1 plan here already, just so\. 1 plan here in another state: .*“Club, louder”/);
});

test.each([
  ['{', /broken/],
  ['{"format":"legroom"}', /single plan/],
  ['{"format":"other"}', /none of those/],
  ['null', /none of those/],
  ['{"format":"legroom-everything","version":2}', /newer program/],
  ['{"format":"legroom-everything","version":1,"plans":[{"id":7}],"stock":null,"look":""}', /broken at plans\.0\.id/],
])('%s is refused in words, and nothing is taken from it', (text, words) => {
  const read = readArchive(text);
  expect(read).toMatchObject({ ok: false, sentence: expect.stringMatching(words) });
});
