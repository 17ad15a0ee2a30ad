import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gap } from '../../../src/geometry/gap.ts';
import { bentCapsule, capsule, disc, moved, rectangle, roundedPolygon } from '../../../src/geometry/shapes.ts';
import { boxOf, extent, support } from '../../../src/geometry/support.ts';
import { shapes } from './gapShapes.ts';

const quarter = Math.PI / 2;

describe('boxes', () => {
  test.each([
    ['a disc', disc(3, 4, 5), -2, -1, 8, 9],
    ['a tube', capsule(0, 10, 30, -10, 2), -2, -12, 32, 12],
    ['a rectangle, rounded', rectangle(0, 0, 30, 20, 0, 1), -16, -11, 16, 11],
    ['a triangle', roundedPolygon([0, 0, 10, 0, 0, 10], 0), 0, 0, 10, 10],
    [
      'a bend over the top',
      bentCapsule(0, 0, 10, quarter / 2, quarter, 1),
      -Math.SQRT1_2 * 10 - 1,
      Math.SQRT1_2 * 10 - 1,
      Math.SQRT1_2 * 10 + 1,
      11,
    ],
    ['three quarters of a ring', bentCapsule(0, 0, 10, 0, 3 * quarter, 1), -11, -11, 11, 11],
    ['a bend smaller than its tube', bentCapsule(0, 0, 2, 0, 2 * quarter, 5), -7, -5, 7, 7],
    ['a ring', bentCapsule(5, 5, 10, 1, 4 * quarter, 1), -6, -6, 16, 16],
  ])('%s', (_, shape, minX, minY, maxX, maxY) => {
    const box = boxOf(shape);
    expect(box.minX).toBeCloseTo(minX, 12);
    expect(box.minY).toBeCloseTo(minY, 12);
    expect(box.maxX).toBeCloseTo(maxX, 12);
    expect(box.maxY).toBeCloseTo(maxY, 12);
  });

  test('many shapes together; none have no box', () => {
    expect(extent([disc(0, 0, 1), capsule(5, 5, 9, 5, 2)])).toEqual({ minX: -1, minY: -1, maxX: 11, maxY: 7 });
    expect(extent([])).toBeNull();
  });
});

test('a wall beyond the support is clear of the shape by just that much', () => {
  fc.assert(
    fc.property(
      shapes(),
      fc.double({ min: 0, max: 6.28, noNaN: true }),
      fc.double({ min: 1, max: 90, noNaN: true }),
      (shape, angle, room) => {
        const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
        const at = support(shape, ux, uy) + room;
        const wall = capsule(at * ux - 5e4 * uy, at * uy + 5e4 * ux, at * ux + 5e4 * uy, at * uy - 5e4 * ux, 0);
        expect(Math.abs(gap(shape, wall).gap - room)).toBeLessThan(1e-9);
      },
    ),
    { seed: 4301, numRuns: 500 },
  );
});

test('the support turns with the shape', () => {
  fc.assert(
    fc.property(
      shapes(),
      fc.double({ min: -7, max: 7, noNaN: true }),
      fc.double({ min: -7, max: 7, noNaN: true }),
      (shape, direction, angle) => {
        const turned = moved(shape, { angle, dx: 0, dy: 0 });
        const after = support(turned, Math.cos(direction + angle), Math.sin(direction + angle));
        expect(Math.abs(after - support(shape, Math.cos(direction), Math.sin(direction)))).toBeLessThan(1e-9);
      },
    ),
    { seed: 4302, numRuns: 500 },
  );
});
