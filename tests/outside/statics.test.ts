/**
 * Tipping, sliding and loads on feet against published examples (SOURCES.md). Tolerances: half of the last printed
 * place unless a row says otherwise.
 */
import { describe, expect, test } from 'vitest';
import { GRAVITY, massCentre, pushed, supportLoads, tipMargin } from '../../src/checks/statics.ts';
import { rectangle } from '../../src/geometry/shapes.ts';

const IN = 25.4;
const LB = 0.45359237;
const lbf = (newtons: number) => newtons / (LB * GRAVITY);

describe('slipping against tipping: block of 250 lb on a base of 32 in, 72 in high (Mississippi State University)', () => {
  const base = [rectangle(0, 0, 32 * IN, 32 * IN, 0)];
  const margin = tipMargin(base, 0, 0)?.marginMm ?? 0;

  test('friction examples, 1: 60 lb at 60 in, friction 0.3: limit 75 lb, tips only above 66.7 in', () => {
    const answer = pushed(250 * LB, margin, 60 * IN, 0.3);
    expect(lbf(answer.slideN)).toBeCloseTo(75, 9);
    expect(lbf(answer.tipN)).toBeGreaterThan(60);
    expect(lbf(answer.slideN)).toBeGreaterThan(60);
    // h_max for a push of 60 lb
    expect(Math.abs((250 * 16) / 60 - (lbf(answer.tipN) * 60) / 60)).toBeLessThan(0.05);
  });

  test('friction examples, 3: at 66 in, friction 0.4: tips at 60.6 lb, before the 100 lb friction limit', () => {
    const answer = pushed(250 * LB, margin, 66 * IN, 0.4);
    expect(Math.abs(lbf(answer.tipN) - 60.6)).toBeLessThan(0.05);
    expect(lbf(answer.slideN)).toBeCloseTo(100, 9);
    expect(answer.first).toBe('tips');
  });
});

test('University Physics 12.1: 2.5 m between axles, 52 % in front: centre 1.3 m in front of the rear axle', () => {
  const [rear, front] =
    supportLoads(
      [
        [0, 0],
        [2.5, 0],
      ],
      1,
      1.3,
      0,
    ) ?? [];
  expect(front).toBeCloseTo(0.52, 9);
  expect(rear).toBeCloseTo(0.48, 9);
});

test('College Physics 9.2: 26.0 kg at 1.60 m balances 32.0 kg at 1.30 m; the pivot carries 568 N at 9.8 m/s2', () => {
  const both = massCentre([
    { massKg: 26, at: [-1.6, 0, 0] },
    { massKg: 32, at: [1.3, 0, 0] },
  ]);
  expect(both?.at[0]).toBeCloseTo(0, 12);
  expect(Math.abs((both?.massKg ?? 0) * 9.8 - 568)).toBeLessThan(0.5);
});

test('University Physics 12.2: 316.7 g at 30 cm balances the rest; the support carries 5.8 N', () => {
  const all = massCentre([
    { massKg: 0.05, at: [-70, 0, 0] },
    { massKg: 0.075, at: [-40, 0, 0] },
    { massKg: 0.15, at: [-20, 0, 0] },
    { massKg: 0.3167, at: [30, 0, 0] },
  ]);
  expect(Math.abs(all?.at[0] ?? 1)).toBeLessThan(0.003); // 0.05 g of rounding at 30 cm, over 0.59 kg
  expect(Math.abs((all?.massKg ?? 0) * 9.8 - 5.8)).toBeLessThan(0.05);
});
