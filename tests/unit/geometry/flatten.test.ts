import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { area, perimeter } from '../../../src/geometry/area.ts';
import { TAU } from '../../../src/geometry/frame.ts';
import { outline } from '../../../src/geometry/loops.ts';
import { bentCapsule, capsule, disc, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { signedDistance } from '../../../src/geometry/unionInside.ts';
import { anyShape } from '../../fixtures/arbitraryShapes.ts';
import { flatten } from '../../fixtures/flatten.ts';
import { runs } from '../../fixtures/seeds.ts';

function enclosed(points: readonly number[]): number {
  let twice = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    twice +=
      (points[i] - points[0]) * (points[j + 1] - points[1]) - (points[j] - points[0]) * (points[i + 1] - points[1]);
  }
  return twice / 2;
}

const flatArea = (s: Swept, error: number, side: 'inside' | 'outside') => {
  const { outer, holes } = flatten(s, error, side);
  return enclosed(outer) + holes.reduce((sum, hole) => sum + enclosed(hole), 0);
};

describe('named cases', () => {
  test('a sharp rectangle keeps its four corners', () => {
    expect(flatten(rectangle(0, 0, 20, 10, 0), 0.05)).toEqual({ outer: [-10, -5, 10, -5, 10, 5, -10, 5], holes: [] });
  });

  test('a disc: as many chords as the error asks for, no more', () => {
    // Sagitta of n chords: r (1 - cos(pi / n)); 0.05 mm on 100 mm takes 100 of them (0.0493), not 99 (0.0503).
    expect(flatten(disc(0, 0, 100), 0.05).outer.length / 2).toBe(100);
  });

  test('a closed ring has a hole, clockwise', () => {
    const { outer, holes } = flatten(bentCapsule(0, 0, 100, 0, TAU, 10), 0.01);
    expect(enclosed(outer)).toBeCloseTo(Math.PI * 110 ** 2, -1);
    expect(holes.length).toBe(1);
    expect(enclosed(holes[0])).toBeLessThan(0);
    expect(enclosed(holes[0])).toBeCloseTo(-Math.PI * 90 ** 2, -1);
  });

  test('a ring whose ends overlap: one outer loop and a hole; a tight half turn: one loop', () => {
    expect(outline(bentCapsule(0, 0, 100, 0.1, TAU - 0.1, 10)).length).toBe(2);
    expect(outline(bentCapsule(0, 0, 6, 0, Math.PI, 10)).length).toBe(1);
  });

  test('no area, no outline; an error of 0 is refused', () => {
    expect(flatten(capsule(0, 0, 9, 9, 0), 0.05)).toEqual({ outer: [], holes: [] });
    expect(() => flatten(disc(0, 0, 1), 0)).toThrow('chord error');
  });
});

describe('laws', () => {
  test('inside <= true area <= outside, within the chord error times the edge', () => {
    fc.assert(
      fc.property(anyShape, fc.constantFrom(2, 0.05, 0.001), (shape, error) => {
        const inside = flatArea(shape, error, 'inside');
        const outside = flatArea(shape, error, 'outside');
        const slack = 1e-9 * Math.max(1, area(shape));
        expect(inside).toBeLessThanOrEqual(area(shape) + slack);
        expect(outside).toBeGreaterThanOrEqual(area(shape) - slack);
        expect(outside - inside).toBeLessThanOrEqual(2 * error * perimeter(shape) * 1.2 + slack);
      }),
      runs(300),
    );
  });

  test('corners and middles of sides lie within the chord error of the edge, on the promised side', () => {
    fc.assert(
      fc.property(anyShape, fc.constantFrom(2, 0.05), (shape, error) => {
        for (const side of ['inside', 'outside'] as const) {
          const { outer } = flatten(shape, error, side);
          for (let i = 0; i < outer.length; i += 2) {
            const j = (i + 2) % outer.length;
            const at = [
              signedDistance(shape, outer[i], outer[i + 1]),
              signedDistance(shape, (outer[i] + outer[j]) / 2, (outer[i + 1] + outer[j + 1]) / 2),
            ];
            for (const d of at) {
              expect(Math.abs(d)).toBeLessThanOrEqual(error * (1 + 1e-9) + 1e-6);
              if (side === 'inside') expect(d).toBeLessThanOrEqual(1e-6);
              else expect(d).toBeGreaterThanOrEqual(-1e-6);
            }
          }
        }
      }),
      runs(200),
    );
  });
});
