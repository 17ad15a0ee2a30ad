/**
 * The lifting equation against the manual's rows and worked examples (SOURCES.md). Manual: NIOSH 94-110, revised
 * 9/2021. Tolerances: examples round multipliers to two places and results to one (p. 29), so a printed
 * RWL may differ by what that rounding of six factors does; each row names its own.
 *
 * Examples in inches and pounds are worked with the manual's own pairs of constants, 10 in beside 25 cm, 30 beside 75, 1.8
 * beside 4.5, 51 lb beside 23 kg. Taken as 2.5 cm and as 23/51 kg, they give its multipliers exactly, so the printed answers
 * and their tolerances hold as they are; only its cut-off of H, 25 in beside 63 cm, is no such pair.
 */
import { describe, expect, test } from 'vitest';
import {
  frequencyMultiplier,
  horizontalEstimate,
  type LiftTask,
  liftingIndex,
  liftLimit,
} from '../../src/checks/liftingEquation.ts';

const cm = (task: Partial<LiftTask>): LiftTask => ({
  horizontal: 25,
  vertical: 75,
  travel: 25,
  asymmetryDeg: 0,
  liftsPerMinute: 0.2,
  duration: 'short',
  grip: 'good',
  ...task,
});
const CM_PER_IN = 2.5;
const inches = ({ horizontal = 10, vertical = 30, travel = 10, ...task }: Partial<LiftTask>): LiftTask =>
  cm({ ...task, horizontal: horizontal * CM_PER_IN, vertical: vertical * CM_PER_IN, travel: travel * CM_PER_IN });
const pounds = (lb: number) => (lb * 23) / 51;

describe('single rows', () => {
  test('the ideal lift, p. 7: 23 kg, 51 lb', () => {
    expect(liftLimit(cm({})).limit).toBeCloseTo(23, 12);
    expect(liftLimit(inches({})).limit).toBeCloseTo(pounds(51), 12);
  });

  test.each([
    // Multipliers, p. 8 to 12
    ['H under 25 cm counts as 25', cm({ horizontal: 10 }), 'horizontal', 1],
    ['H 50 cm', cm({ horizontal: 50 }), 'horizontal', 0.5],
    ['H 63 cm', cm({ horizontal: 63 }), 'horizontal', 25 / 63],
    ['H past 63 cm', cm({ horizontal: 63.01 }), 'horizontal', 0],
    ['H 25 in', inches({ horizontal: 25 }), 'horizontal', 0.4],
    ['V on the floor', cm({ vertical: 0 }), 'vertical', 0.775],
    ['V 175 cm', cm({ vertical: 175 }), 'vertical', 0.7],
    ['V past 175 cm', cm({ vertical: 176 }), 'vertical', 0],
    ['V on the floor, in', inches({ vertical: 0 }), 'vertical', 0.775],
    ['V past 70 in', inches({ vertical: 70.5 }), 'vertical', 0],
    ['D under 25 cm counts as 25', cm({ travel: 3 }), 'distance', 1],
    ['D 100 cm', cm({ travel: 100 }), 'distance', 0.865],
    ['D past 175 cm', cm({ travel: 176 }), 'distance', 0],
    ['D 10 in', inches({ travel: 10 }), 'distance', 1],
    ['D past 70 in', inches({ travel: 71 }), 'distance', 0],
    ['A 90', cm({ asymmetryDeg: 90 }), 'asymmetry', 0.712],
    ['A 135, the other way', cm({ asymmetryDeg: -135 }), 'asymmetry', 0.568],
    ['A past 135', cm({ asymmetryDeg: 136 }), 'asymmetry', 0],
    ['fair, low', cm({ grip: 'fair', vertical: 74 }), 'coupling', 0.95],
    ['fair, from 75 cm', cm({ grip: 'fair', vertical: 75 }), 'coupling', 1],
    ['poor', cm({ grip: 'poor' }), 'coupling', 0.9],
  ] as const)('%s', (_, task, name, value) => {
    expect(liftLimit(task).multipliers[name]).toBeCloseTo(value, 12);
  });

  test('H as estimated on p. 8', () => {
    expect(horizontalEstimate(40, 25)).toBe(40);
    expect(horizontalEstimate(40, 24)).toBe(45);
    expect(horizontalEstimate(16 * CM_PER_IN, 10 * CM_PER_IN)).toBe(16 * CM_PER_IN);
    expect(horizontalEstimate(16 * CM_PER_IN, 9 * CM_PER_IN)).toBe(18 * CM_PER_IN);
  });
});

describe('the frequency table, Table 5, p. 15', () => {
  const RATES = [0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15];
  test.each([
    ['short', '1.00 .97 .94 .91 .88 .84 .80 .75 .70 .60 .52 .45 .41 .37 .34 .31 .28', 14],
    ['moderate', '.95 .92 .88 .84 .79 .72 .60 .50 .42 .35 .30 .26 .23 .21', 12],
    ['long', '.85 .81 .75 .65 .55 .45 .35 .27 .22 .18', 10],
  ] as const)('work of %s duration', (duration, row, low) => {
    const printed = row.split(' ').map(Number);
    printed.forEach((value, k) => {
      expect(frequencyMultiplier(RATES[k], duration, false), `${RATES[k]}/min, high`).toBeCloseTo(value, 12);
      expect(frequencyMultiplier(RATES[k], duration, true), `${RATES[k]}/min, low`).toBeCloseTo(
        k < low ? value : 0,
        12,
      );
    });
  });

  test('the ends of each column of Table 5: nothing is allowed past them (one public copy goes on)', () => {
    expect(frequencyMultiplier(15.1, 'short', false)).toBe(0);
    expect(frequencyMultiplier(12.1, 'short', true)).toBe(0);
    expect(frequencyMultiplier(12.1, 'moderate', false)).toBe(0);
    expect(frequencyMultiplier(11, 'long', false)).toBe(0);
    expect(frequencyMultiplier(9, 'long', true)).toBe(0);
  });

  test('pp. 7, 14: below 0.2 as 0.2; between rows linear', () => {
    expect(frequencyMultiplier(0, 'long', true)).toBe(0.85);
    // P. 16: 10 a minute for 8 of 15 minutes is 5.33, a third of the way from .80 to .75
    const rate = (10 * 8) / 15;
    expect(frequencyMultiplier(rate, 'short', true)).toBeCloseTo(0.8 - 0.05 / 3, 12);
  });
});

describe('worked examples', () => {
  test.each([
    // key                       task                                                                                              printed, tolerance
    [
      'Example 4, origin, p. 46',
      inches({ vertical: 22, travel: 37, liftsPerMinute: 3, grip: 'fair' }),
      pounds(34.9),
      pounds(0.15), // printed from two-place multipliers; 34.8 at full precision
    ],
    [
      'Example 4, destination, p. 46',
      inches({ horizontal: 20, vertical: 59, travel: 37, liftsPerMinute: 3, grip: 'fair' }),
      pounds(15.2),
      pounds(0.1), // 15.25 at full precision
    ],
    [
      'textbook exercise: 12 kg on a shelf',
      cm({ vertical: 55, travel: 95, liftsPerMinute: 3, grip: 'fair' }),
      15.68,
      0.05, // multipliers of two places
    ],
    [
      'safety notes: 18 kg with a twist',
      cm({ horizontal: 40, vertical: 25, travel: 75, asymmetryDeg: 45, liftsPerMinute: 4, grip: 'fair' }),
      7.345,
      0.005,
    ],
    [
      'solved question: low and far',
      inches({ horizontal: 20, vertical: 6, travel: 16, grip: 'fair' }),
      pounds(18.5),
      pounds(0.05),
    ],
    ['ergonomics test file: eight hours', cm({ horizontal: 30, liftsPerMinute: 1, duration: 'long' }), 14.375, 1e-9],
    [
      'Example 1, origin (p. 35; numbers from memory, full precision)',
      inches({ horizontal: 23, vertical: 15, travel: 49, grip: 'fair' }),
      pounds(16.0),
      pounds(0.05),
    ],
    [
      'Example 1, destination',
      inches({ horizontal: 23, vertical: 64, travel: 49, grip: 'fair' }),
      pounds(14.2),
      pounds(0.06), // 14.15 unrounded
    ],
  ])('%s', (_, task, limit, tolerance) => {
    expect(Math.abs(liftLimit(task).limit - limit)).toBeLessThan(tolerance);
  });

  test('printed multipliers of Example 4 and of the twist, to two places', () => {
    const origin = liftLimit(inches({ vertical: 22, travel: 37, liftsPerMinute: 3, grip: 'fair' })).multipliers;
    expect(Object.values(origin).map((m) => m.toFixed(2))).toEqual(['1.00', '0.94', '0.87', '1.00', '0.88', '0.95']);
    const twist = liftLimit(
      cm({ horizontal: 40, vertical: 25, travel: 75, asymmetryDeg: 45, liftsPerMinute: 4, grip: 'fair' }),
    ).multipliers;
    expect(Object.values(twist).map((m) => m.toFixed(3))).toEqual([
      '0.625',
      '0.850',
      '0.880',
      '0.856',
      '0.840',
      '0.950',
    ]);
  });

  test('lifting indices: 12 kg 0.76, 18 kg 2.45, 10 kg 0.70', () => {
    const index = (load: number, task: LiftTask) => liftingIndex(load, liftLimit(task).limit);
    expect(Math.abs(index(12, cm({ vertical: 55, travel: 95, liftsPerMinute: 3, grip: 'fair' })) - 0.76)).toBeLessThan(
      0.006,
    );
    expect(
      Math.abs(
        index(18, cm({ horizontal: 40, vertical: 25, travel: 75, asymmetryDeg: 45, liftsPerMinute: 4, grip: 'fair' })) -
          2.45,
      ),
    ).toBeLessThan(0.005);
    expect(Math.abs(index(10, cm({ horizontal: 30, liftsPerMinute: 1, duration: 'long' })) - 0.7)).toBeLessThan(0.005);
    expect(liftingIndex(1, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});
