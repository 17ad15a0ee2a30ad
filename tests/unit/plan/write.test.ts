import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { samplePlan } from '../../fixtures/plans.ts';

function read(text: string): Plan {
  const result = readPlan(text);
  if (!result.ok) throw new Error(result.problem.sentence);
  return result.plan;
}

/** The same values with every object's keys in another order, chosen by a number. */
function shuffled<T>(value: T, seed: number): T {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((each, i) => shuffled(each, seed + i)) as T;
  const keys = Object.keys(value);
  const rotated = keys.map((_, i) => keys[(i * 7 + seed) % keys.length]);
  const order = [...new Set([...rotated, ...keys])];
  return Object.fromEntries(
    order.map((key) => [key, shuffled((value as Record<string, unknown>)[key], seed + 1)]),
  ) as T;
}

describe('WR-1 the same plan, the same bytes', () => {
  test('a new plan, whole', () => {
    expect(
      writePlan({
        ...newPlan('Eve "1"'),
        risers: {},
        setups: { 'setup-1': { id: 'setup-1', name: 'A', riser: null, pieces: {}, order: [] } },
      }),
    ).toBe(`{
  "format": "legroom",
  "version": 1,
  "name": "Eve \\"1\\"",
  "units": "mm",
  "setups": {
    "setup-1": {
      "id": "setup-1",
      "name": "A",
      "riser": null,
      "pieces": {},
      "order": []
    }
  },
  "order": [
    "setup-1"
  ],
  "risers": {},
  "gear": {}
}
`);
  });

  test('in whatever order the keys came', () => {
    const text = writePlan(samplePlan());
    fc.assert(
      fc.property(fc.nat(1000), (seed) => writePlan(shuffled(samplePlan(), seed)) === text),
      { seed: 5, numRuns: 50 },
    );
  });

  test('what was written is read and written the same', () => {
    const text = writePlan(samplePlan());
    expect(writePlan(read(text))).toBe(text);
    expect(read(text)).toEqual(samplePlan());
  });

  test('JSON.stringify would write it so too, but for the order', () => {
    const text = writePlan(samplePlan());
    expect(text).toBe(`${JSON.stringify(JSON.parse(text), null, 2)}\n`);
  });

  test('pieces stand in their order, gear by id, even where ids are numbers', () => {
    const plan = samplePlan();
    const { crash, hat } = plan.setups.straight.pieces;
    const numbered = (id: string) => [id, { ...(id === '30' ? crash : hat), id, mount: null }];
    plan.setups.empty.pieces = Object.fromEntries(['7', '30', '12'].map(numbered));
    // Neither JavaScript's order of such keys (7, 12, 30) nor that of their names (12, 30, 7).
    plan.setups.empty.order = ['30', '7', '12'];
    plan.gear[7] = { ...plan.gear.crash, id: '7' };
    plan.gear[30] = { ...plan.gear.crash, id: '30' };
    const text = writePlan(plan);
    expect(text.match(/^ {8}"\d+": \{$/gm)?.map((line) => line.trim())).toEqual(['"30": {', '"7": {', '"12": {']);
    const gear = text.slice(text.lastIndexOf('"gear": {'));
    expect(gear.indexOf('"30": {')).toBeLessThan(gear.indexOf('"7": {'));
    expect(gear.indexOf('"7": {')).toBeLessThan(gear.indexOf('"boom-1": {'));
    expect(writePlan(read(text))).toBe(text);
  });
});

describe('WR-2 fields that this version does not know', () => {
  test('are kept at every level, after the known ones', () => {
    const plan = samplePlan() as Plan & Record<string, unknown>;
    const setup = plan.setups.straight;
    Object.assign(plan, { zebra: [{ deep: [1, { order: ['x'], b: 1, a: 2 }] }], apple: null });
    for (const target of [
      setup,
      setup.pieces.left,
      setup.pieces.left.place,
      setup.pieces.crash,
      plan.risers.riser,
      plan.risers.riser.modules[0],
      plan.gear.crash,
    ])
      Object.assign(target, { later: { b: true, a: 'x' } });
    const { left, crash } = setup.pieces;
    if (left.kind === 'rack')
      for (const part of [left.legs[0], left.legs[0].foot!, left.spans[0], left.spans[0].bars[0]])
        Object.assign(part, { later: 1.5 });
    if (crash.kind === 'item')
      for (const part of [crash.mount!, crash.mount!.carrier]) Object.assign(part, { later: [] });
    const text = writePlan(plan);
    expect(read(text)).toEqual(plan);
    expect(writePlan(read(text))).toBe(text);
    expect(text.match(/"later"/g)).toHaveLength(13);
    expect(text.indexOf('"apple"')).toBeLessThan(text.indexOf('"zebra"'));
    expect(text.indexOf('"gear": {')).toBeLessThan(text.indexOf('"apple"'));
  });
});

test('WR-3 fields that are undefined are left out; numbers that are none are refused', () => {
  const plan = { ...samplePlan(), note: undefined };
  expect(writePlan(plan)).toBe(writePlan(samplePlan()));
  plan.setups.straight.pieces.left.place.xMm = Number.NaN;
  expect(() => writePlan(plan)).toThrow('A plan cannot hold the number NaN.');
});
