import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { area } from '../../../src/geometry/area.ts';
import { TAU } from '../../../src/geometry/frame.ts';
import { bentCapsule, capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { unionArea } from '../../../src/geometry/union.ts';
import { anyMotion, anyShape, relative, scaled } from '../../fixtures/arbitraryShapes.ts';
import { mirrored } from '../../fixtures/measures.ts';

const { PI } = Math;
const edge = (shape: Swept): number => unionArea([shape]).perimeter;
/** Two discs of radius r with centres d apart: the area they share. */
const lens = (r: number, d: number) => 2 * r * r * Math.acos(d / (2 * r)) - (d / 2) * Math.sqrt(4 * r * r - d * d);

describe('area and perimeter', () => {
  test.each([
    // name                                shape                                            area                     perimeter
    ['disc', disc(3, 4, 5), 25 * PI, 10 * PI],
    ['straight tube', capsule(0, 0, 30, 40, 5), 500 + 25 * PI, 100 + 10 * PI],
    ['sharp rectangle', rectangle(7, 8, 30, 40, 0.3), 1200, 140],
    ['rounded rectangle', rectangle(7, 8, 30, 40, 0.3, 5), 1200 + 140 * 5 + 25 * PI, 140 + 10 * PI],
    ['quarter bend', bentCapsule(0, 0, 100, 1, PI / 2, 10), 1000 * PI + 100 * PI, 100 * PI + 20 * PI],
    ['closed ring', bentCapsule(1, 2, 100, 1, TAU, 10), PI * (110 ** 2 - 90 ** 2), TAU * 200],
    ['closed ring, no hole left', bentCapsule(1, 2, 10, 1, TAU, 25), PI * 35 ** 2, TAU * 35],
    ['closed ring as thick as its bend', bentCapsule(1, 2, 10, 1, TAU, 10), PI * 20 ** 2, TAU * 20],
    ['bend as tight as the tube', bentCapsule(0, 0, 10, 0, PI, 10), 200 * PI + 100 * PI, 20 * PI + 20 * PI],
    ['three quarters, ends apart', bentCapsule(0, 0, 100, 0, 1.5 * PI, 10), 3000 * PI + 100 * PI, 300 * PI + 20 * PI],
    ['bare line', capsule(0, 0, 30, 40, 0), 0, 0],
  ])('%s', (_, shape, expectedArea, expectedPerimeter) => {
    expect(relative(area(shape), expectedArea)).toBeLessThan(1e-14);
    expect(relative(edge(shape), expectedPerimeter)).toBeLessThan(1e-14);
  });

  test('half turn tighter than the tube: outer half disc, and two discs that overlap below it', () => {
    // Bend 6, tube 10, upper half: half a disc of radius 16, and below it the lower halves of two discs 12 apart.
    const shape = bentCapsule(0, 0, 6, 0, PI, 10);
    const lower = (2 * PI * 100 - lens(10, 12)) / 2;
    expect(relative(area(shape), (PI * 16 ** 2) / 2 + lower)).toBeLessThan(1e-14);
    const hidden = Math.acos(6 / 10);
    expect(relative(edge(shape), 16 * PI + 2 * 10 * (PI - hidden))).toBeLessThan(1e-14);
  });

  test('nearly closed ring: the overlap of its two ends counts once', () => {
    // The gap of 2 g leaves end discs 2 R sin(g) apart; beyond each end's ray lies half a disc.
    const [R, r, g] = [100, 10, 0.05];
    const shape = bentCapsule(0, 0, R, g, TAU - 2 * g, r);
    // By cutting the gap in two along its middle ray: each end's half disc, cut off at that ray.
    const share = (height: number) => {
      // Half disc centred at distance R on the ray -g, cut by the middle ray: integrate across the tube.
      let sum = 0;
      const n = 200000;
      for (let k = 0; k < n; k++) {
        const along = -r + ((k + 0.5) * 2 * r) / n;
        const far = Math.sqrt(r * r - along * along);
        sum += Math.min(far, Math.tan(height) * (R + along)) * ((2 * r) / n);
      }
      return sum;
    };
    expect(relative(area(shape), 2 * R * (TAU - 2 * g) * r + 2 * share(g))).toBeLessThan(1e-9);
  });

  test('a ring closing: area grows to that of the closed ring without a jump', () => {
    const closed = area(bentCapsule(0, 0, 100, 0, TAU, 10));
    for (const gap of [1e-3, 1e-6, 1e-9, 1e-12, 1e-15]) {
      const open = area(bentCapsule(0, 0, 100, 0.3, TAU - gap, 10));
      expect(open).toBeLessThanOrEqual(closed * (1 + 1e-13));
      expect(relative(open, closed)).toBeLessThan(gap + 1e-13);
    }
  });
});

test('turned, shifted, mirrored: the same area and perimeter', () => {
  fc.assert(
    fc.property(anyShape, anyMotion, (shape, motion) => {
      const there = moved(shape, motion);
      expect(relative(area(there), area(shape))).toBeLessThan(1e-11);
      expect(relative(edge(there), edge(shape))).toBeLessThan(1e-11);
      expect(relative(area(mirrored(shape)), area(shape))).toBeLessThan(1e-11);
    }),
  );
});

test('three times as large: nine times the area, three times the edge', () => {
  fc.assert(
    fc.property(anyShape, (shape) => {
      expect(relative(area(scaled(shape, 3)), 9 * area(shape))).toBeLessThan(1e-11);
      expect(relative(edge(scaled(shape, 3)), 3 * edge(shape))).toBeLessThan(1e-11);
    }),
  );
});
