import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gapValue } from '../../../src/geometry/gap.ts';
import { Nearest } from '../../../src/geometry/nearest.ts';
import { CoreTable, closePairs, gapInTable, Pairs } from '../../../src/geometry/pairs.ts';
import { disc, type Swept } from '../../../src/geometry/shapes.ts';
import { kitBodies } from '../../fixtures/kits.ts';
import { runs } from '../../fixtures/seeds.ts';
import { descent, KINDS, shapes } from './gapShapes.ts';

const standing = (shape: Swept, z0 = 0, z1 = 100) => ({ shape, z0, z1 });

/** Pairs as sorted lines of text, so that order does not matter. */
const lines = (pairs: Pairs) => Array.from({ length: pairs.count }, (_, k) => `${pairs.ia[k]}-${pairs.ib[k]}`).sort();

describe('a table gives the gaps of gapValue(), from either side', () => {
  const names = Object.keys(KINDS) as (keyof typeof KINDS)[];
  const pairs = names.flatMap((a, i) => names.slice(i).map((b) => [a, b] as const));
  test.each(pairs)('%s and %s', (a, b) => {
    fc.assert(
      fc.property(KINDS[a](), KINDS[b](), (p, q) => {
        const table = CoreTable.of([standing(p), standing(q)]);
        const near = new Nearest();
        const alone = gapValue(p, q);
        expect(Math.abs(gapInTable(table, 0, 1, near) - alone)).toBeLessThan(1e-9);
        expect(Math.abs(gapInTable(table, 1, 0, near) - alone)).toBeLessThan(1e-9);
        // And no place of either core is nearer to the other than the table says.
        expect(descent(p, q) - (p.radius + q.radius)).toBeGreaterThan(alone - 1e-9);
      }),
      runs(1000),
    );
  });
});

describe('every way finds the same pairs as asking each pair alone', () => {
  test.each([
    [1, 1],
    [2, 1],
    [40, 2],
    [100, 3],
    [600, 4],
  ])('%i bodies, seed %i', (n, seed) => {
    const bodies = kitBodies(n, seed);
    const table = CoreTable.of(bodies);
    const expected: string[] = [];
    const gaps = new Map<string, number>();
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++) {
        const gap = gapValue(bodies[i].shape, bodies[j].shape);
        const between = Math.max(bodies[i].z0 - bodies[j].z1, bodies[j].z0 - bodies[i].z1);
        if (gap < 60 && between < 20) {
          expected.push(`${i}-${j}`);
          gaps.set(`${i}-${j}`, gap);
        }
      }
    for (const way of ['every', 'strips'] as const) {
      const found = closePairs(table, 60, { heightSlackMm: 20, way });
      expect(lines(found), way).toEqual([...expected].sort());
      for (let k = 0; k < found.count; k++)
        expect(Math.abs(found.gap[k] - gaps.get(`${found.ia[k]}-${found.ib[k]}`)!)).toBeLessThan(1e-9);
    }
    if (n >= 40) expect(expected.length).toBeGreaterThan(n / 2);
  });

  test('random bodies, reaches and slacks, negative ones too', () => {
    const bodies = fc.array(
      fc.tuple(shapes(), fc.double({ min: 0, max: 900, noNaN: true }), fc.double({ min: 0, max: 500, noNaN: true })),
      { maxLength: 30 },
    );
    const reach = fc.double({ min: -50, max: 400, noNaN: true });
    const slack = fc.oneof(fc.constant(Number.POSITIVE_INFINITY), fc.double({ min: -20, max: 100, noNaN: true }));
    fc.assert(
      fc.property(bodies, reach, slack, (list, reachMm, heightSlackMm) => {
        const table = CoreTable.of(list.map(([shape, z0, tall]) => standing(shape, z0, z0 + tall)));
        const every = lines(closePairs(table, reachMm, { heightSlackMm, way: 'every' }));
        expect(lines(closePairs(table, reachMm, { heightSlackMm, way: 'strips' }))).toEqual(every);
      }),
      runs(300),
    );
  });
});

describe('what closer means', () => {
  const two = (z0: number, z1: number) =>
    CoreTable.of([standing(disc(0, 0, 10), 0, 100), standing(disc(30, 0, 10), z0, z1)]);
  test.each([
    ['a gap of just the reach is not closer', 10, 0, 0, 100, 0],
    ['a gap below the reach is', 10.001, 0, 0, 100, 1],
    ['heights that touch are 0 apart, not closer than 0', 20, 0, 100, 200, 0],
    ['but closer than a slack', 20, 5, 100, 200, 1],
    ['heights apart by the slack are not', 20, 5, 105, 200, 0],
    ['heights left out', 20, Number.POSITIVE_INFINITY, 5000, 6000, 1],
  ])('%s', (_, reach, heightSlackMm, z0, z1, count) => {
    for (const way of ['every', 'strips'] as const)
      expect(closePairs(two(z0, z1), reach, { heightSlackMm, way }).count).toBe(count);
  });

  test('no bodies, no pairs', () => {
    for (const way of ['every', 'strips'] as const)
      expect(closePairs(new CoreTable(), 60, { heightSlackMm: 0, way }).count).toBe(0);
  });
});

test('a table filled again forgets the bodies before, and lists grow as needed', () => {
  const table = new CoreTable(1);
  const out = new Pairs(1);
  const stack = (n: number) => {
    table.clear();
    for (let i = 0; i < n; i++) table.add(disc(0, i, 10), 0, 1);
    return closePairs(table, 1, { heightSlackMm: 0, out }).count;
  };
  // Discs of radius 10, 1 mm apart: all closer than 1 mm up to 20 places away.
  expect(stack(10)).toBe(45);
  expect(stack(100)).toBe(Array.from({ length: 100 }, (_, i) => Math.min(i, 20)).reduce((a, b) => a + b));
  expect(stack(3)).toBe(3);
});

test('bodies 190 m apart do not need that many strips', () => {
  const table = CoreTable.of([
    standing(disc(-95000, -95000, 10)),
    standing(disc(95000, 95000, 10)),
    standing(disc(95000, 95025, 10)),
  ]);
  const found = closePairs(table, 60, { heightSlackMm: 0, way: 'strips' });
  expect(lines(found)).toEqual(['1-2']);
  expect(found.gap[0]).toBeCloseTo(5, 9);
});

test('two lists of pairs filled in turn keep their own, and so do two askers of one table', () => {
  const first = CoreTable.of(kitBodies(100, 5));
  const second = CoreTable.of(kitBodies(100, 6));
  const options = { heightSlackMm: 20, way: 'strips' } as const;
  const [alone, other] = [closePairs(first, 60, options), closePairs(second, 60, options)];
  const [a, b] = [lines(alone), lines(other)];
  expect(a).not.toEqual(b);
  for (let turn = 0; turn < 3; turn++) {
    closePairs(first, 60, { ...options, out: alone });
    closePairs(second, 60, { ...options, out: other });
    expect([lines(alone), lines(other)]).toEqual([a, b]);
  }
  const [near, far] = [new Nearest(), new Nearest()];
  const gap = gapInTable(first, 0, 1, near);
  const { ax, ay, bx, by } = near;
  gapInTable(first, 2, 3, far);
  expect([near.ax, near.ay, near.bx, near.by]).toEqual([ax, ay, bx, by]);
  expect(near.distance - first.radius[0] - first.radius[1]).toBe(gap);
});

test('bodies of one group are no pair, either way; those of none are', () => {
  const bodies = kitBodies(80, 12);
  const table = new CoreTable();
  const whole = CoreTable.of(bodies);
  // Every third body alone, the others in groups of ten.
  const groupOf = (i: number) => (i % 3 === 0 ? undefined : Math.floor(i / 10));
  bodies.forEach(({ shape, z0, z1 }, i) => void table.add(shape, z0, z1, groupOf(i)));
  const options = { heightSlackMm: 20 };
  const isPair = (line: string) => {
    const [p, q] = line.split('-').map((i) => groupOf(Number(i)));
    return p === undefined || p !== q;
  };
  const expected = lines(closePairs(whole, 60, options)).filter(isPair);
  expect(expected.length).toBeGreaterThan(20);
  for (const way of ['every', 'strips'] as const)
    expect(lines(closePairs(table, 60, { ...options, way }))).toEqual(expected);
});
