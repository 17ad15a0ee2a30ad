/** Heaps: what is looked at grows in step with the pieces, what stands apart from the heap is checked whole, and the rest is told. */
import { describe, expect, test } from 'vitest';
import { pairings } from '../../../src/checks/clearance.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { CoreTable, closePairs } from '../../../src/geometry/pairs.ts';
import { disc } from '../../../src/geometry/shapes.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { planOf } from '../../fixtures/plans.ts';

const tom = (id: string, xMm: number, yMm = 0): Item => ({
  kind: 'item',
  id,
  name: id,
  gear: 'floor-tom-14x14',
  mount: null,
  place: { xMm, yMm, headingDeg: 0 },
});

/** So many floor toms within a few mm, and two a hand apart far from them. */
function heap(count: number) {
  const items = Array.from({ length: count }, (_, k) => tom(`t${k}`, k % 7, k % 5));
  const plan = planOf(...items, tom('left', 9000), tom('right', 9000 + 355.6 + 8));
  const layout = layoutSetup(plan, 's');
  return { plan, layout, bodies: layout.bodies.length };
}

describe('CL-11 heaps', () => {
  test.each([40, 120, 400])(
    '%i pieces in one place: pairs in step with the bodies, and what stands apart is whole',
    (count) => {
      const { plan, layout, bodies } = heap(count);
      const { pairs, unlooked } = pairings(plan, plan.setups.s, layout.bodies);
      expect(pairs.length).toBeLessThanOrEqual(6000 + 3 * bodies);
      const apart = pairs.filter(({ a, b }) => a.piece === 'left' && b.piece === 'right');
      const alone = planOf(tom('left', 9000), tom('right', 9000 + 355.6 + 8));
      const whole = pairings(alone, alone.setups.s, layoutSetup(alone, 's').bodies);
      expect(apart.map(({ gap }) => gap)).toEqual(whole.pairs.map(({ gap }) => gap));
      expect(whole.pairs.length).toBeGreaterThan(0);
      if (count > 100) expect(unlooked).toBeGreaterThan(1000);
    },
  );

  test('the worst 200 have a finding each, and one says how many more there are', () => {
    const { plan, layout } = heap(24);
    const { findings } = runChecks(plan, 's', layout);
    expect(findings.filter(({ check }) => check === 'clearance')).toHaveLength(200);
    const [more, ...others] = findings.filter(({ code }) => code === 'more_pairs');
    expect(others).toEqual([]);
    // Each tom of the heap with each other, and the two that stand apart: 24 * 23 / 2 + 1.
    expect(more).toMatchObject({ code: 'more_pairs', untold: 77, unlooked: 0, state: 'tight' });
    expect(findingSentence(more, plan, 's')).toContain('77 more pairs of pieces are too close.');
  });

  test('what a heap leaves unlooked at is said', () => {
    const { plan, layout } = heap(400);
    const { findings } = runChecks(plan, 's', layout);
    const more = findings.find(({ code }) => code === 'more_pairs');
    expect(more?.state).toBe('unmeasured');
    expect(more && findingSentence(more, plan, 's')).toMatch(
      /Too much stands in one place: \d+ pairs of parts or more/,
    );
  });
});

test('of pairs without end each body is measured against its share, and the rest is counted', () => {
  const table = new CoreTable();
  for (let k = 0; k < 300; k++) table.add(disc(k / 100, 0, 50), 0, 100);
  for (let k = 0; k < 4; k++) table.add(disc(5000 + 60 * k, 0, 40), 0, 100);
  const all = closePairs(table, 30, { heightSlackMm: 10 });
  expect([all.count, all.left]).toEqual([(300 * 299) / 2 + 3, 0]);
  const some = closePairs(table, 30, { heightSlackMm: 10, most: 1500 });
  expect(some.count).toBeLessThanOrEqual(1500);
  expect(some.count).toBeGreaterThan(1000);
  // The row that stands apart is whole.
  const apart = Array.from({ length: some.count }, (_, k) => [some.ia[k], some.ib[k]]).filter(([a]) => a >= 300);
  expect(apart.sort()).toEqual([
    [300, 301],
    [301, 302],
    [302, 303],
  ]);
  expect(some.left).toBeGreaterThan(30000);
  expect(some.count + some.left).toBeLessThanOrEqual(all.count);
});
