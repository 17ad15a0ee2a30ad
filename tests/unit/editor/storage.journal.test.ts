/** The journal: what turns one plan into another, and a journal carried out on its base and on no other. */
import { describe, expect, test } from 'vitest';
import {
  BEGINNING,
  changesBetween,
  type JournalEntry,
  type JournalPoint,
  nextEntry,
} from '../../../src/editor/storage/journal.ts';
import { replay, withChanges } from '../../../src/editor/storage/replay.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { anyCommand, numbersFrom } from '../../fixtures/anyCommand.ts';
import { SAMPLE_PLANS } from '../../fixtures/samplePlans.ts';
import { seeds, some } from '../../fixtures/seeds.ts';

/** Plans one after the other, each a random command further. */
function walk(first: Plan, seed: number, steps: number): Plan[] {
  const random = numbersFrom(seed);
  const plans = [first];
  while (plans.length < steps) {
    const plan = plans[plans.length - 1];
    const ran = runCommand(plan, anyCommand(plan, random));
    if (ran.ok && ran.plan !== plan) plans.push(ran.plan);
    else plans.push(plan);
  }
  return plans;
}

function journalOf(plans: readonly Plan[], from: JournalPoint = BEGINNING): JournalEntry[] {
  const journal: JournalEntry[] = [];
  let at = from;
  plans.slice(1).forEach((plan, k) => {
    const entry = nextEntry('kit', at, plans[k], plan);
    if (entry === null) return;
    journal.push(entry);
    at = entry;
  });
  return journal;
}

describe.each(some(SAMPLE_PLANS, 3))('$name', ({ plan }) => {
  test('changes turn each plan of a random walk into the next, there and back', () => {
    for (const seed of seeds(20, 2)) {
      const plans = walk(plan, seed, 30);
      plans.slice(1).forEach((after, k) => {
        const before = plans[k];
        expect(writePlan(withChanges(before, changesBetween(before, after)))).toBe(writePlan(after));
        expect(writePlan(withChanges(after, changesBetween(after, before)))).toBe(writePlan(before));
      });
    }
  });

  test('a page that ends after any line loses none of the lines before', () => {
    for (const seed of seeds(300, 6)) {
      const plans = walk(plan, seed, 12);
      const journal = journalOf(plans);
      const end = seed % (journal.length + 1);
      const replayed = replay(writePlan(plan), BEGINNING, journal.slice(0, end));
      expect(replayed).toMatchObject({ ok: true, count: end, unfit: 0 });
      const reached = journal.slice(0, end).reduce((one, { changes }) => withChanges(one, JSON.parse(changes)), plan);
      expect(replayed.ok && writePlan(replayed.plan)).toBe(writePlan(reached));
    }
  });
});

const plan = newPlan('Kit');
const named = (...names: string[]) => names.map((name) => ({ ...plan, name }));

test('a change is a few bytes', () => {
  const [{ changes }] = journalOf([plan, ...named('Kit 2')]);
  expect(changes).toBe('[[["name"],"Kit 2"]]');
});

test('what is the same as another object is no change', () => {
  const read = readPlan(writePlan(plan));
  expect(read.ok && changesBetween(plan, read.plan)).toEqual([]);
});

describe('a line on another base is not carried out, nor any after it', () => {
  const journal = journalOf([plan, ...named('A', 'B', 'C')]);
  const text = writePlan(plan);
  const nameAfter = (lines: readonly JournalEntry[], from = BEGINNING) => {
    const replayed = replay(text, from, lines);
    return replayed.ok ? [replayed.plan.name, replayed.count, replayed.unfit] : replayed.sentence;
  };
  test.each<[string, readonly JournalEntry[], unknown[]]>([
    ['all in order', journal, ['C', 3, 0]],
    ['in any order', journal.toReversed(), ['C', 3, 0]],
    ['one is missing', [journal[0], journal[2]], ['A', 1, 1]],
    ['the first is missing', journal.slice(1), ['Kit', 0, 2]],
    ['one was altered', [journal[0], { ...journal[1], changes: '[[["name"],"X"]]' }, journal[2]], ['A', 1, 2]],
    ['one is no JSON', [{ ...journal[0], changes: '{' }], ['Kit', 0, 1]],
  ])('%s', (_, lines, wanted) => expect(nameAfter(lines)).toEqual(wanted));

  test('a base of another sum', () => expect(nameAfter(journal, { n: 0, sum: 7 })).toEqual(['Kit', 0, 3]));
  test('a base that has the first lines already', () => {
    const { n, sum } = journal[1];
    expect(nameAfter(journal, { n, sum })).toEqual(['C', 1, 0]);
  });
  test('lines that lead to no plan are left out from there on', () => {
    const bad = [plan, ...named('A'), { ...plan, name: 'B', units: 'cubits' } as unknown as Plan, ...named('C')];
    expect(nameAfter(journalOf(bad).slice(0, 2))).toEqual(['A', 1, 1]);
  });
  test('a place that is not there', () => {
    expect(() => withChanges(plan, [[['setups', 'none', 'name'], 'X']])).toThrow(RangeError);
  });
});

test('a name that every object has is a name like any other', () => {
  for (const name of ['constructor', '__proto__', 'toString']) {
    const gear = Object.fromEntries([[name, { id: name }]]);
    const after = { ...plan, gear } as unknown as Plan;
    const made = withChanges(plan, changesBetween(plan, after));
    expect(Object.keys(made.gear)).toEqual([name]);
    expect(Object.keys(withChanges(made, changesBetween(made, plan)).gear)).toEqual([]);
  }
});

test('a plan that cannot be read says why', () => {
  expect(replay('{', BEGINNING, [])).toMatchObject({ ok: false, sentence: expect.stringMatching(/Line 1/) });
});
