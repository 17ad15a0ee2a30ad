/** Building the test plan's setup from stock lists: what serves what, what is missing, what would have to move. */
import { describe, expect, test } from 'vitest';
import { type PartRow, partsOf } from '../../../src/checks/parts.ts';
import type { Gear } from '../../../src/gear/schema.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Inventory, OwnedPart } from '../../../src/plan/inventory.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { buildFrom } from '../../../src/solve/buildFrom.ts';
import { samplePlan } from '../../fixtures/plans.ts';

/** Exactly what the setup needs. */
function exactStock(plan: Plan): Inventory {
  const parts = partsOf(plan, 'straight').all.map(
    ({ gear, count, cutLength, kind }: PartRow): OwnedPart =>
      kind === 'bar' || kind === 'upright' ? { gear, count, cutLengthMm: cutLength! } : { gear, count },
  );
  return { format: 'legroom-stock', version: 1, name: 'Stock', parts };
}

/** The exact stock, changed. */
function answer(edit: (stock: Inventory) => void, plan = samplePlan()) {
  const stock = exactStock(plan);
  edit(stock);
  return buildFrom(plan, 'straight', layoutSetup(plan, 'straight'), stock);
}

const entry = (stock: Inventory, gear: string) => stock.parts.find((part) => part.gear === gear)!;
const without = (gear: string) => (stock: Inventory) => {
  stock.parts = stock.parts.filter((part) => part.gear !== gear);
};
/** The same boom with other ranges, under another id. */
const boom = (id: string, change: object): Gear =>
  ({ ...structuredClone(samplePlan().gear['boom-1']), id, name: id, sockets: 0, ...change }) as Gear;
function owning(gear: Gear, count: number, edit: (stock: Inventory) => void = () => {}) {
  return answer((stock) => {
    edit(stock);
    stock.gear = { ...stock.gear, [gear.id]: gear };
    stock.parts.push({ gear: gear.id, count });
  });
}

test('from exactly its own parts, and nothing is cut', () => {
  const found = answer(() => {});
  expect(found).toMatchObject({ buildable: true, missing: [], toBuy: [], cost: 0 });
  expect(found.served.every(({ cutToMm, other }) => cutToMm === null && !other)).toBe(true);
  const counted = partsOf(samplePlan(), 'straight').all.reduce((sum, { count }) => sum + count, 0);
  expect(found.served).toHaveLength(counted);
});

test('from nothing: everything is to be bought', () => {
  const plan = samplePlan();
  const found = answer((stock) => {
    stock.parts = [];
  });
  expect(found.buildable).toBe(false);
  expect(found.toBuy.map(({ part }) => part)).toEqual(partsOf(plan, 'straight').all);
});

test('one crash too few: which, and what it costs', () => {
  const found = answer((stock) => {
    Object.assign(entry(stock, 'crash'), { count: 1, price: 120 });
  });
  expect(found.missing.map(({ need }) => need.gear)).toEqual(['crash', 'crash']);
  expect(found.toBuy).toMatchObject([{ part: { gear: 'crash', count: 2 }, price: 120 }]);
  expect(found.cost).toBe(240);
});

test('an entry of count 0 gives a price and no part', () => {
  const found = answer((stock) => {
    Object.assign(entry(stock, 'double-pedal'), { count: 0, price: 300 });
  });
  expect(found.toBuy).toMatchObject([{ part: { gear: 'double-pedal' }, price: 300 }]);
});

describe('tubes', () => {
  /** Bars of 1000, 1000, 1100 and 800 mm, uprights of 5 x 900 mm. */
  const tubes = (lengths: Record<string, number>) => (stock: Inventory) => {
    stock.parts = stock.parts.filter(({ gear }) => !gear.startsWith('tube-'));
    for (const [length, count] of Object.entries(lengths))
      stock.parts.push({ gear: 'tube-bar', count, cutLengthMm: Number(length) });
  };

  test('cut with the least left over: 1150 becomes 1100, not 1000', () => {
    const found = answer(tubes({ 800: 1, 900: 5, 1000: 1, 1150: 2 }));
    expect(found.buildable).toBe(true);
    const cuts = found.served.flatMap(({ need, cutToMm }) => (cutToMm === null ? [] : [[need.cutLength, cutToMm]]));
    expect(cuts.sort()).toEqual([
      [1000, 1000],
      [1100, 1100],
    ]);
    expect(
      found.served.filter(({ need }) => need.kind === 'bar').reduce((sum, each) => sum + each.wasteMm, 0),
    ).toBeCloseTo(200, 6);
  });

  test('too short: how much is lacking', () => {
    const found = answer(tubes({ 800: 1, 900: 5, 1000: 2, 1060: 1 }));
    expect(found.missing).toHaveLength(1);
    expect(found.missing[0]).toMatchObject({
      need: { cutLength: 1100 },
      nearest: { gear: 'tube-bar', shortfall: { mm: 40 } },
    });
  });

  test.each<[string, Partial<Extract<Gear, { kind: 'tube' }>>, boolean]>([
    ['38 mm for 38.1', { outsideMm: 38 }, true],
    ['a thicker wall', { wallMm: 2.5 }, true],
    ['a thinner wall', { wallMm: 1.5 }, false],
    ['another diameter', { outsideMm: 50.8 }, false],
    ['another material', { material: 'aluminium' }, false],
    ['a bent one', { bendRadiusMm: 750, straightEndsMm: 75 }, false],
  ])('%s', (_, change, serves) => {
    const tube = { ...samplePlan().gear['tube-bar'], id: 'mine', cutLengthMm: 1100, ...change } as Gear;
    const found = answer((stock) => {
      tubes({ 800: 1, 900: 5, 1000: 2 })(stock);
      stock.gear = { mine: tube };
      stock.parts.push({ gear: 'mine', count: 1 });
    });
    expect(found.buildable).toBe(serves);
  });
});

describe('arms', () => {
  /** The crash: clamp on the left rack's bar at 400 mm, its own height 1050 over a bar at 700. */
  test('a longer boom serves where its range covers it; the shorter one that does wastes less', () => {
    const longer = owning(boom('longer', { postMm: [50, 500], armMm: [100, 900] }), 1);
    const pose = layoutSetup(samplePlan(), 'straight').mounts.find(({ piece }) => piece === 'crash')!;
    const straight = Math.hypot(pose.horizontalMm, pose.riseMm);
    const arms = longer.served.filter(({ need }) => need.kind === 'arm' && need.piece === 'crash');
    expect(pose.reach.reached).toBe(true);
    // boom-1: 300 + 400 mm at most.
    expect(arms).toMatchObject([{ gear: 'boom-1', other: false }]);
    expect(arms[0].wasteMm).toBeCloseTo(700 - straight, 6);
  });

  test('without the planned boom for it, another that reaches stands in; and its own waste is told', () => {
    const found = owning(boom('longer', { postMm: [50, 500], armMm: [100, 900] }), 3, without('boom-1'));
    const crash = found.served.find(({ need }) => need.id === 'crash/arm')!;
    const pose = layoutSetup(samplePlan(), 'straight').mounts.find(({ piece }) => piece === 'crash')!;
    expect(crash).toMatchObject({ gear: 'longer', other: true });
    expect(crash.wasteMm).toBeCloseTo(1400 - Math.hypot(pose.horizontalMm, pose.riseMm), 6);
  });

  test('one that is too short does not, and the answer says how far the piece would have to move', () => {
    const short = boom('short', { postMm: [50, 60], armMm: [100, 120] });
    const found = owning(short, 3, without('boom-1'));
    const crash = found.missing.find(({ need }) => need.id === 'crash/arm')!;
    expect(crash.nearest?.gear).toBe('short');
    const { mm, out, up } = crash.nearest!.shortfall;
    expect(Math.hypot(out, up)).toBeCloseTo(mm, 6);
    // Moved by that much, it is within reach: the crash goes up or down and towards or away from its post.
    const plan = structuredClone(samplePlan());
    plan.gear.short = short;
    const item = plan.setups.straight.pieces.crash as Item;
    item.mount!.arm = 'short';
    const pose = layoutSetup(plan, 'straight').mounts.find(({ piece }) => piece === 'crash')!;
    const away = [
      (pose.target[0] - pose.post[0]) / pose.horizontalMm,
      (pose.target[1] - pose.post[1]) / pose.horizontalMm,
    ];
    item.place = {
      ...item.place,
      xMm: item.place.xMm + away[0] * out,
      yMm: item.place.yMm + away[1] * out,
      heightMm: item.place.heightMm! + up,
    };
    const after = layoutSetup(structuredClone(plan), 'straight').mounts.find(({ piece }) => piece === 'crash')!;
    expect(after.reach.shortMm).toBeLessThan(1e-6);
  });

  test('too thick for the clamp that holds it', () => {
    const plan = samplePlan();
    const clamp = { ...plan.gear['clamp-own'], socketMm: [19, 25] } as Gear;
    const thick = boom('thick', { tubeMm: 26, postMm: [50, 500], armMm: [100, 900] });
    const found = answer(
      (stock) => {
        without('boom-1')(stock);
        stock.gear = { thick };
        stock.parts.push({ gear: 'thick', count: 3 });
      },
      { ...plan, gear: { ...plan.gear, 'clamp-own': clamp } },
    );
    expect(found.missing.map(({ need }) => need.id)).toContain('crash/arm');
  });

  test('a platform whose sockets carry another tom is served by the same platform only', () => {
    const other = { ...samplePlan().gear['platform-2'], id: 'other', postMm: [0, 900] } as Gear;
    const found = owning(other, 1, without('platform-2'));
    expect(found.missing.map(({ need }) => need.id)).toEqual(['tom1/arm']);
  });

  test('the arm in a platform’s own socket is a need of its own: another that reaches from there serves, one too short does not', () => {
    const plan = samplePlan();
    const tom = plan.setups.straight.pieces.tom1 as Item;
    if (!tom.mount) throw new Error('Tom 1 hangs on a platform.');
    tom.mount.platformArm = 'l-arm';
    tom.place = { ...tom.place, heightMm: 950 };
    const { head, horizontalMm } = layoutSetup(plan, 'straight').mounts.find(({ piece }) => piece === 'tom1')!;
    const armOf = (id: string, reach: [number, number]): Gear => ({
      kind: 'lArm',
      id,
      name: id,
      massKg: 1,
      tubeMm: 19,
      postMm: [0, 800],
      armMm: reach,
      ballTiltDeg: [0, 90],
    });
    const stocked = (gear: Gear) =>
      answer((stock) => {
        without('l-arm')(stock);
        stock.gear = { [gear.id]: gear };
        stock.parts.push({ gear: gear.id, count: 1 });
      }, plan);
    const good = armOf('good', [horizontalMm - 10, horizontalMm + 10]);
    const served = stocked(good).served.find(({ need }) => need.onPlatform);
    expect(head).not.toBeNull();
    expect(served).toMatchObject({ gear: 'good', other: true, need: { id: 'tom1/platform-arm', use: 'arm' } });
    const short = stocked(armOf('short', [0, horizontalMm / 2]));
    const missing = short.missing.find(({ need }) => need.onPlatform);
    expect(missing?.nearest?.gear).toBe('short');
    expect(missing?.nearest?.shortfall.mm).toBeGreaterThan(0);
    // The platform itself is served as before.
    expect(short.served.some(({ gear, need }) => need.piece === 'tom1' && gear === tom.mount?.arm)).toBe(true);
  });

  test('an L-arm is no boom', () => {
    const lArm: Gear = {
      kind: 'lArm',
      id: 'l',
      name: 'L',
      massKg: 1,
      tubeMm: 22,
      postMm: [0, 900],
      armMm: [0, 900],
      ballTiltDeg: [0, 90],
    };
    const found = owning(lArm, 3, without('boom-1'));
    expect(found.missing.filter(({ need }) => need.gear === 'boom-1')).toHaveLength(3);
  });
});

describe('clamps', () => {
  const clamp = (change: object) =>
    ({ ...samplePlan().gear['clamp-own'], id: 'mine', name: 'Mine', ...change }) as Gear;
  test.each<[string, object, boolean]>([
    ['narrower', { widthMm: 50 }, true],
    ['wider', { widthMm: 65 }, false],
    ['another reach', { reachMm: 60 }, false],
    ['another tube', { tubeMm: [48, 51] }, false],
    ['another use', { use: 'swivel' }, false],
  ])('%s', (_, change, serves) => {
    const found = owning(clamp(change), 4, without('clamp-own'));
    expect(found.buildable).toBe(serves);
    expect(found.missing).toHaveLength(serves ? 0 : 4);
  });
});

test('a T-foot of another length does not serve', () => {
  const foot = { ...samplePlan().gear['foot-t'], id: 'long', lengthMm: 600 } as Gear;
  expect(owning(foot, 5, without('foot-t')).missing).toHaveLength(5);
  expect(owning({ ...foot, lengthMm: 500.5 } as Gear, 5, without('foot-t')).buildable).toBe(true);
});

test('the same stock and plan give the same answer', () => {
  const change = (stock: Inventory) => {
    entry(stock, 'boom-1').count = 1;
  };
  expect(answer(change)).toEqual(answer(change));
});
