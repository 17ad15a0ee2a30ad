import { describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/run.ts';
import { wayInReading } from '../../src/checks/wayIn.ts';
import { drawPiece } from '../../src/drawing/pieces.ts';
import { summaryOf } from '../../src/editor/panels/setups/summary.ts';
import { keeper, kept, sameItems } from '../../src/keep.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import type { Command } from '../../src/plan/commands/index.ts';
import { runCommand } from '../../src/plan/run.ts';
import type { Plan } from '../../src/plan/schema.ts';
import { anyCommand, numbersFrom } from '../fixtures/anyCommand.ts';
import { sampleSetups } from '../fixtures/samplePlans.ts';
import { few, seeds } from '../fixtures/seeds.ts';

describe('keeper()', () => {
  const counted = () => {
    let made = 0;
    return { make: () => ++made, made: () => made };
  };

  test('asked again with the same objects it answers without making anything', () => {
    const keep = keeper<number>();
    const { make, made } = counted();
    const [key, other] = [{}, {}];
    expect([keep(key, [other, 1, 'a'], make), keep(key, [other, 1, 'a'], make), made()]).toEqual([1, 1, 1]);
  });

  test.each([
    ['another key', {}, [1]],
    ['another number', null, [2]],
    ['one thing more', null, [1, undefined]],
    ['nothing', null, []],
    ['a list for a number', null, [[1]]],
  ] as const)('%s is a new question', (_, key, from) => {
    const keep = keeper<number>();
    const first = {};
    const { make, made } = counted();
    keep(first, [1], make);
    keep(key ?? first, from, make);
    expect(made()).toBe(2);
  });

  test('a list is the same when its items are, in their order', () => {
    const keep = keeper<number>();
    const key = {};
    const [a, b] = [{}, {}];
    const { make } = counted();
    expect([[a, b], [a, b], [b, a], [b], [{ ...a }]].map((list) => keep(key, [list], make))).toEqual([1, 1, 2, 3, 4]);
  });

  test('undefined and null are answers like any other', () => {
    const keep = keeper<null | undefined>();
    const key = {};
    let made = 0;
    for (const value of [undefined, null]) {
      for (let k = 0; k < 2; k++)
        expect(
          keep(key, [String(value)], () => {
            made++;
            return value;
          }),
        ).toBe(value);
    }
    expect(made).toBe(2);
  });

  test('only the last question of a key is remembered', () => {
    const keep = keeper<number>();
    const key = {};
    const { make } = counted();
    expect([1, 2, 1].map((from) => keep(key, [from], make))).toEqual([1, 2, 3]);
  });

  test('a copy of a key keeps nothing of its, and a frozen key keeps answers like any other', () => {
    const answer = kept((key: { readonly n: number }) => [key.n]);
    const other = kept((key: { readonly n: number }) => [-key.n]);
    for (const key of [{ n: 1 }, Object.freeze({ n: 2 })]) {
      const [first, second] = [answer(key), other(key)];
      expect([answer(key) === first, other(key) === second, first, second]).toEqual([true, true, [key.n], [-key.n]]);
      expect(answer({ ...key, n: 3 })).toEqual([3]);
      expect([Reflect.ownKeys(key), structuredClone(key)]).toEqual([['n'], { n: key.n }]);
      expect(answer(structuredClone(key))).not.toBe(first);
    }
  });

  test('sameItems() tells lists apart by length, order and identity', () => {
    const a = {};
    expect([
      sameItems([a, 1], [a, 1]),
      sameItems([a], [a, 1]),
      sameItems([a, 1], [1, a]),
      sameItems([{}], [{}]),
    ]).toEqual([true, false, false, false]);
  });
});

test('kept() answers once for each key, undefined too', () => {
  let made = 0;
  const answer = kept((key: { readonly says?: string }) => {
    made++;
    return key.says;
  });
  const [one, other, none] = [{ says: 'a' }, { says: 'b' }, {}];
  expect([answer(one), answer(other), answer(none), answer(one), answer(none), made]).toEqual([
    'a',
    'b',
    undefined,
    'a',
    undefined,
    3,
  ]);
});

/** Everything that is kept somewhere on its way, for one setup. */
function answers(plan: Plan, id: string) {
  const layout = layoutSetup(plan, id);
  const { findings, pairs, rig, readings, legs, spots } = runChecks(plan, id, layout);
  const marks = plan.setups[id].order.map((piece) => drawPiece(plan, plan.setups[id], piece, layout));
  // Functions and getters are left out: what they would say follows from the rest.
  return JSON.stringify({ layout, findings, pairs, rig, readings, legs, spots, wayIn: wayInReading(layout), marks });
}

/** What the strip of setups shows: it is kept longest, by setup. */
function summary(plan: Plan, id: string) {
  const { readings, findings, picture, note, name } = summaryOf(plan, id);
  return JSON.stringify({ readings, findings, picture, note, name });
}

/** Told field by field only where they differ: texts are held against each other much faster. */
function expectSame(kept: string, fresh: string, after?: string): void {
  if (kept !== fresh) expect(JSON.parse(kept), after).toEqual(JSON.parse(fresh));
}

describe('what is kept equals what is made anew, after every command', () => {
  const steps = few(6, 3);
  const firsts = new Map(sampleSetups().map(({ name, plan }) => [name.split(',')[0], plan]));
  const cases = [...firsts].flatMap(([name, plan]) => seeds(20).map((seed) => [name, seed, plan] as const));

  test.each(cases)('%s, %i', (_, seed, start) => {
    const random = numbersFrom(seed);
    let plan = start;
    let done = 0;
    for (let step = 0; step < 40 && done < steps; step++) {
      const command = anyCommand(plan, random);
      const ran = runCommand(plan, command);
      if (!ran.ok) continue;
      done++;
      plan = ran.plan;
      // Nothing of a clone was ever seen before, so nothing of it is kept.
      const fresh = structuredClone(plan);
      const after = `step ${step}: ${JSON.stringify(command)}`;
      // The setup that the command speaks of, and one that it does not.
      const own = 'setup' in command && typeof command.setup === 'string' ? command.setup : plan.order[0];
      const other = plan.order.find((id) => id !== own);
      for (const id of [own, other]) {
        if (id === undefined || !Object.hasOwn(plan.setups, id)) continue;
        expectSame(answers(plan, id), answers(fresh, id), after);
        expectSame(summary(plan, id), summary(fresh, id), after);
      }
    }
    expect(done).toBe(steps);
  });
});

test('a setup with a legless stand is summed up anew when the stand on legs changes in the setup it is held against', () => {
  const { plan } = sampleSetups().find(({ name }) => name === 'four-bases, legless') ?? { plan: null };
  if (plan === null) throw new Error('The sample "four-bases" has a setup "legless".');
  summaryOf(plan, 'legless');
  const [first] = plan.order;
  const changes = Object.values(plan.setups[first].pieces).map((piece) => {
    if (piece.kind !== 'item' || !piece.gear.includes('stand')) return 0;
    const ran = runCommand(plan, { type: 'setPiece', setup: first, piece: piece.id, set: { legsTurnDeg: 33 } });
    if (!ran.ok) return 0;
    expectSame(summary(ran.plan, 'legless'), summary(structuredClone(ran.plan), 'legless'));
    return summary(ran.plan, 'legless') === summary(plan, 'legless') ? 0 : 1;
  });
  expect(changes).toContain(1);
});

test('a setup is summed up anew when its drummer becomes another size', () => {
  const [{ plan: start }] = sampleSetups();
  const [setup] = start.order;
  const steps: Command[] = [
    { type: 'addDrummer', drummer: { id: 'd', name: 'D', sex: 'man', percentile: 50, handed: 'right' } },
    { type: 'setDrummer', setup, drummer: 'd' },
    { type: 'editDrummer', drummer: 'd', set: { sex: 'woman', percentile: 5 } },
  ];
  const told = new Set<string>();
  let plan = start;
  for (const command of steps) {
    const ran = runCommand(plan, command);
    if (!ran.ok) throw new Error(`${command.type} was refused.`);
    plan = ran.plan;
    expectSame(summary(plan, setup), summary(structuredClone(plan), setup), command.type);
    told.add(summary(plan, setup));
  }
  expect(told.size).toBeGreaterThan(1);
});
