/** Shares of limits: one order for mm, degrees and kg, whichever way a limit holds. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Sense, Unit } from '../../../src/checks/codes.ts';
import { byTrouble, countByState, type Finding, share } from '../../../src/checks/finding.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

const finding = (unit: Unit, sense: Sense, value: number | null, limit: number | null) =>
  ({ unit, sense, value, limit }) as Finding;
const shown = ({ unit, value, limit }: Finding) => `${value} of ${limit} ${unit}`;

test.each([
  ['a gap at its limit', 'mm', 'atLeast', 25, 25, 0],
  ['a fifth of the gap short', 'mm', 'atLeast', 20, 25, -0.2],
  ['twice the gap', 'mm', 'atLeast', 50, 25, 1],
  ['run into each other', 'mm', 'atLeast', -25, 25, -2],
  ['a quarter more than two may lift', 'kg', 'atMost', 50, 40, -0.25],
  ['half of what two may lift', 'kg', 'atMost', 20, 40, 0.5],
  ['tips at half the lean', 'deg', 'atLeast', 4, 8, -0.5],
  ['tips at no lean', 'deg', 'atLeast', -4, 8, -1.5],
  ['reaches, none left', 'mm', 'atLeast', 0, 0, 0],
  ['reaches', 'mm', 'atLeast', 3, 0, Number.POSITIVE_INFINITY],
  ['misses', 'mm', 'atLeast', -3, 0, Number.NEGATIVE_INFINITY],
  ['too flat', 'deg', 'atMost', 10, 0, Number.NEGATIVE_INFINITY],
  ['nothing measured', 'mm', 'atLeast', null, 25, Number.POSITIVE_INFINITY],
  ['no limit known', 'kPa', 'atMost', 3, null, Number.POSITIVE_INFINITY],
  ['never a limit', 'm2', null, 0.2, null, Number.POSITIVE_INFINITY],
] as const)('%s', (_, unit, sense, value, limit, part) => {
  expect(share(finding(unit, sense, value, limit))).toBe(part);
});

test('nearest to trouble first, over units and senses', () => {
  const ordered = [
    finding('deg', 'atMost', 12, 0),
    finding('deg', 'atMost', 10, 0),
    finding('mm', 'atLeast', -30, 0),
    finding('mm', 'atLeast', -2, 0),
    finding('deg', 'atLeast', 2, 8),
    finding('kg', 'atMost', 60, 40),
    finding('mm', 'atLeast', 20, 25),
    finding('MPa', 'atMost', 157, 156),
    finding('mm', 'atLeast', 26, 25),
    finding('mm', 'atLeast', 2, 0),
    finding('mm', 'atLeast', 90, 0),
  ];
  expect([...ordered].reverse().sort(byTrouble).map(shown)).toEqual(ordered.map(shown));
});

const numbers = fc.integer({ min: -3, max: 3 });
const anyFinding = fc
  .tuple(
    fc.constantFrom<Unit>('mm', 'deg', 'kg'),
    fc.constantFrom<Sense>('atLeast', 'atMost', null),
    fc.option(numbers),
    fc.option(numbers),
  )
  .map((fields) => finding(...fields));

test('it is an order: one way round, and the same through a third', () => {
  fc.assert(
    fc.property(anyFinding, anyFinding, anyFinding, (a, b, c) => {
      expect(byTrouble(a, b) + byTrouble(b, a)).toBe(0);
      if (byTrouble(a, b) <= 0 && byTrouble(b, c) <= 0) expect(byTrouble(a, c)).toBeLessThanOrEqual(0);
    }),
  );
});

describe.each(sampleSetups())('$name', ({ plan, id }) => {
  test('where there is a limit, the share says which side of it the state is on', () => {
    const { findings } = runChecks(plan, id, layoutSetup(plan, id));
    const held = findings.filter(({ value, limit }) => value !== null && limit !== null);
    expect(held.length).toBeGreaterThan(0);
    for (const each of held) {
      expect(each.sense, each.code).not.toBeNull();
      if (each.state === 'blocked') expect(share(each), each.code).toBeLessThanOrEqual(0);
      if (each.state === 'clear') expect(share(each), each.code).toBeGreaterThanOrEqual(0);
    }
    const counts = countByState(findings);
    expect(Object.values(counts).reduce((sum, each) => sum + each, 0)).toBe(findings.length);
  });
});
