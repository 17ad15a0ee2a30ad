/** Sizes of the body against the published tables, percentile by percentile, and against others that they were not made from. */
import { describe, expect, test } from 'vitest';
import { figureOf, THIGH_OF_BUTTOCK_KNEE } from '../../src/drummer/figure.ts';
import { deviationsAt, sitterOf, sizeAt } from '../../src/drummer/sizes.ts';
import { MEASURES, type Measure } from '../../src/drummer/tables.ts';
import { newPlan } from '../../src/plan/newPlan.ts';
import type { Drummer, Plan } from '../../src/plan/schema.ts';

/** ANSUR II: 5th, 50th and 95th percentile of men, then of women, mm, typed once more from the list of published values. */
const ANSUR: Readonly<Record<Measure, readonly number[]>> = {
  sittingMm: [860, 918, 977, 803, 857, 912],
  shoulderMm: [552, 603, 653, 515, 564, 609],
  shouldersMm: [384, 415, 447, 335, 365, 396],
  armMm: [631, 684, 740, 577, 627, 684],
  forearmMm: [320, 349, 379, 290, 316, 350],
  hipMm: [333, 378, 431, 348, 397, 456],
  thighMm: [157, 180, 207, 145, 167, 191],
  buttockKneeMm: [569, 617, 669, 541, 589, 646],
  kneeMm: [509, 553, 602, 469, 510, 557],
  poplitealMm: [390, 430, 471, 350, 387, 428],
  footMm: [250, 271, 293, 226, 246, 268],
  footBreadthMm: [94, 102, 111, 85, 93, 101],
};
/** ANSUR II: stature. */
const STATURE = [1648, 1755, 1870, 1525, 1626, 1740];
const SIX = (['man', 'woman'] as const).flatMap((sex) => [5, 50, 95].map((percentile) => ({ sex, percentile })));

const withDrummer = (drummer: Drummer): Plan => {
  const plan = newPlan('body');
  return {
    ...plan,
    drummers: { [drummer.id]: drummer },
    setups: { 'setup-1': { ...plan.setups['setup-1'], drummer: drummer.id } },
  };
};
const sizesFor = (drummer: Pick<Drummer, 'sex' | 'percentile' | 'measuredMm'>) => {
  const plan = withDrummer({ id: 'd', name: 'D', handed: 'right', ...drummer });
  return sitterOf(plan, plan.setups['setup-1']).sizes;
};

describe('ANSUR II', () => {
  test.each(MEASURES)('%s', (measure) => {
    expect(SIX.map(({ sex, percentile }) => sizeAt(measure, sex, percentile))).toEqual(ANSUR[measure]);
    expect(SIX.map((of) => sizesFor(of)[measure])).toEqual(ANSUR[measure]);
  });
  test('what a tape measured counts instead, size by size', () => {
    const { kneeMm, poplitealMm } = sizesFor({ sex: 'woman', percentile: 5, measuredMm: { kneeMm: 498 } });
    expect([kneeMm, poplitealMm]).toEqual([498, 350]);
  });
  test('sizes grow with the percentile', () => {
    for (const measure of MEASURES)
      for (const sex of ['man', 'woman'] as const)
        for (let p = 2; p <= 99; p++) expect(sizeAt(measure, sex, p)).toBeGreaterThan(sizeAt(measure, sex, p - 1));
  });
});

/** Standard normal deviates as any table prints them. */
test.each([
  [0.01, -2.32635],
  [0.05, -1.6449],
  [0.1, -1.2816],
  [0.25, -0.6745],
  [0.75, 0.6745],
  [0.9, 1.2816],
  [0.975, 1.96],
])('the normal deviate of %f', (share, expected) => {
  expect(Math.abs(deviationsAt(share) - expected)).toBeLessThan(4.6e-4);
});

// British men 19 to 65: popliteal height 395 / 440 / 490 in shoes or not is not said, so soldiers come within 20 mm of them.
test('another people’s tables are near: British adults, City University of Hong Kong', () => {
  const near = (measure: Measure, sex: Drummer['sex'], published: readonly number[]) =>
    [5, 50, 95].forEach((p, k) => {
      if (published[k] !== undefined) expect(Math.abs(sizeAt(measure, sex, p) - published[k])).toBeLessThanOrEqual(30);
    });
  near('poplitealMm', 'man', [395, 440, 490]);
  near('poplitealMm', 'woman', [355, 400, 445]);
  near('armMm', 'man', [610, 665, 715]);
  near('armMm', 'woman', [555, 600]);
  near('hipMm', 'man', [310, 360, 405]);
});

test('the thigh’s link is Drillis and Contini’s 0.245 of the stature, within 17 mm', () => {
  SIX.forEach((of, k) => {
    const link = sizesFor(of).buttockKneeMm * THIGH_OF_BUTTOCK_KNEE;
    expect(Math.abs(link - 0.245 * STATURE[k])).toBeLessThan(17);
  });
});

test('nobody sits without a throne', () => {
  const plan = newPlan('empty');
  expect(figureOf(plan, plan.setups['setup-1'])).toBeNull();
});
