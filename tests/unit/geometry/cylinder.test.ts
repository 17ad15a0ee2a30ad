/** A straight line and a solid cylinder in space: named cases, and a dense search. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Cylinder, lineToCylinder } from '../../../src/geometry/cylinder.ts';
import { runs } from '../../fixtures/seeds.ts';

/** Radius 10, from z = -5 to z = 5. */
const flat: Cylinder = { middle: [0, 0, 0], axis: [0, 0, 1], radius: 10, half: 5 };

describe('a line and a cylinder', () => {
  test.each([
    ['beside it, upright', [13, 0, -50], [13, 0, 50], 3],
    ['over it, level', [-50, 0, 9], [50, 0, 9], 4],
    ['through it', [0, 0, -50], [0, 0, 50], 0],
    ['an end outside, over the edge: 3-4-5', [13, 0, 9], [13, 0, 50], 5],
    ['an end pointing at its side', [30, 0, 0], [17, 0, 0], 7],
    ['touching its side', [10, -20, 0], [10, 20, 0], 0],
    ['a point', [0, 0, 11], [0, 0, 11], 6],
  ] as const)('%s', (_, a, b, distance) => {
    expect(lineToCylinder(a, b, flat)).toBeCloseTo(distance, 9);
    expect(lineToCylinder(b, a, flat)).toBeCloseTo(distance, 9);
  });
});

test('law: no place on the line is nearer, and some place is as near', () => {
  const far = fc.integer({ min: -6000, max: 6000 }).map((n) => n / 10);
  const place = fc.tuple(far, far, far);
  fc.assert(
    fc.property(place, place, place, place, fc.nat(3000), fc.nat(3000), (a, b, middle, out, r, h) => {
      const size = Math.hypot(...out);
      if (size < 1) return;
      const axis = [out[0] / size, out[1] / size, out[2] / size] as const;
      const cylinder: Cylinder = { middle, axis, radius: r / 10, half: h / 10 };
      const from = (s: number): number => {
        const p = [0, 1, 2].map((k) => a[k] + (b[k] - a[k]) * s - middle[k]);
        const u = p[0] * axis[0] + p[1] * axis[1] + p[2] * axis[2];
        const across = Math.hypot(p[0] - u * axis[0], p[1] - u * axis[1], p[2] - u * axis[2]);
        return Math.hypot(Math.max(0, Math.abs(u) - cylinder.half), Math.max(0, across - cylinder.radius));
      };
      const found = lineToCylinder(a, b, cylinder);
      let least = Number.POSITIVE_INFINITY;
      const STEPS = 2000;
      for (let k = 0; k <= STEPS; k++) least = Math.min(least, from(k / STEPS));
      expect(found).toBeLessThanOrEqual(least + 1e-9);
      // Between two places looked at, the distance changes by no more than half a step.
      const step = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) / STEPS;
      expect(found).toBeGreaterThanOrEqual(least - step / 2 - 1e-9);
    }),
    runs(1000),
  );
});
