import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hull, hullArea } from '../../../src/geometry/hull.ts';
import { smallestRectangle } from '../../../src/geometry/rectangle.ts';
import { bentCapsule, capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { anyMotion, anyShapes, relative } from '../../fixtures/arbitraryShapes.ts';
import { kitBodies } from '../../fixtures/kits.ts';
import { mirrored, width } from '../../fixtures/measures.ts';
import { runs, seeds } from '../../fixtures/seeds.ts';

const { PI } = Math;

describe('exact cases', () => {
  test.each<[string, Swept[], [number, number, number, number, number]]>([
    // name, shapes, [x, y, width, depth, angle]
    ['a disc stands upright', [disc(3, 4, 5)], [3, 4, 10, 10, 0]],
    ['an upright box', [rectangle(3, 4, 30, 20, 0)], [3, 4, 30, 20, 0]],
    ['a turned rounded box', [rectangle(3, 4, 30, 20, 0.3, 2)], [3, 4, 34, 24, 0.3]],
    ['turned the other way', [rectangle(3, 4, 30, 20, -0.5, 2)], [3, 4, 34, 24, -0.5]],
    ['past half a right angle the sides change places', [rectangle(3, 4, 30, 20, 1, 0)], [3, 4, 20, 30, 1 - PI / 2]],
    ['a tube lies along its rectangle', [capsule(0, 0, 30, 40, 5)], [15, 20, 10, 60, Math.atan2(4, 3) - PI / 2]],
    ['a half bend', [bentCapsule(0, 0, 100, 0, PI, 10)], [0, 50, 220, 120, 0]],
  ])('%s', (_, shapes, [x, y, w, d, angle]) => {
    const found = smallestRectangle(shapes);
    expect(found.x).toBeCloseTo(x, 9);
    expect(found.y).toBeCloseTo(y, 9);
    expect(found.width).toBeCloseTo(w, 9);
    expect(found.depth).toBeCloseTo(d, 9);
    expect(found.angle).toBeCloseTo(angle, 9);
  });

  test('nothing to hold is refused', () => {
    expect(() => smallestRectangle([])).toThrow('at least one shape');
  });

  test('the trap: a bend over a disc, where no side of the least rectangle lies flush with the hull', () => {
    // Depth 1010 + 100 - 900 cos t grows both ways from t = 0, faster than width 2000 sin(0.3) cos t + 20 shrinks.
    const turn = 0.2;
    const upright = [bentCapsule(0, -1000, 1000, PI / 2 - 0.3, 0.6, 10), disc(0, -100, 100)];
    const shapes = upright.map((s) => moved(s, { angle: turn, dx: 300, dy: -70 }));
    const found = smallestRectangle(shapes);
    expect(found.width).toBeCloseTo(2000 * Math.sin(0.3) + 20, 9);
    expect(found.depth).toBeCloseTo(210, 9);
    expect(found.angle).toBeCloseTo(turn, 7);
    let flush = Number.POSITIVE_INFINITY;
    for (const piece of hull(shapes)) {
      if (piece.kind !== 'segment') continue;
      const along = Math.atan2(piece.y1 - piece.y0, piece.x1 - piece.x0);
      flush = Math.min(flush, width(shapes, along) * width(shapes, along + PI / 2));
    }
    // Turning the calipers from side to side would have answered with this.
    expect(flush).toBeGreaterThan(1.01 * found.width * found.depth);
  });

  test('the trap, lopsided: the least lies at no stop and at no symmetric turn', () => {
    const shapes = [bentCapsule(0, -1000, 1000, PI / 2 - 0.3, 0.6, 10), disc(40, -100, 100), disc(-280, -60, 15)];
    const found = smallestRectangle(shapes);
    const sizeAt = (k: number) => {
      const t = (k * PI) / 1600000;
      return width(shapes, t) * width(shapes, t + PI / 2);
    };
    // A side is at most 2.2 m and changes by at most as much in a radian: within half a coarse step the size by less than 2 %.
    const COARSE = 200;
    const coarse = Array.from({ length: 4000 }, (_, i) => -400000 + i * COARSE).map((k) => ({ k, size: sizeAt(k) }));
    const near = Math.min(...coarse.map(({ size }) => size)) * 1.02;
    let least = Number.POSITIVE_INFINITY;
    let at = 0;
    for (const { k, size } of coarse) {
      if (size > near) continue;
      for (let fine = k - COARSE / 2; fine <= k + COARSE / 2; fine++) {
        const exact = sizeAt(fine);
        if (exact >= least) continue;
        least = exact;
        at = (fine * PI) / 1600000;
      }
    }
    expect(relative(found.width * found.depth, least)).toBeLessThan(1e-10);
    expect(found.angle).toBeCloseTo(at, 5);
    expect(Math.abs(found.angle)).toBeGreaterThan(0.01);
  });
});

describe('laws', () => {
  test('never larger than at any of many turns, and reached at its own turn', () => {
    fc.assert(
      fc.property(anyShapes, (shapes) => {
        const { width: w, depth: d, angle } = smallestRectangle(shapes);
        expect(relative(width(shapes, angle), w)).toBeLessThan(1e-11);
        expect(relative(width(shapes, angle + PI / 2), d)).toBeLessThan(1e-11);
        for (let k = 0; k < 500; k++) {
          const turn = (k * PI) / 1000;
          expect(w * d).toBeLessThanOrEqual(width(shapes, turn) * width(shapes, turn + PI / 2) * (1 + 1e-12));
        }
        expect(w * d).toBeGreaterThanOrEqual(hullArea(shapes) * (1 - 1e-12));
        expect(w * d).toBeLessThanOrEqual(2 * hullArea(shapes) * (1 + 1e-9));
        expect(Math.abs(angle)).toBeLessThanOrEqual(PI / 4 + 1e-12);
      }),
      runs(200),
    );
  });

  test('a kit, by a fine search round the answer', () => {
    for (const seed of seeds(10)) {
      const shapes = kitBodies(26, seed).map((body) => body.shape);
      const { width: w, depth: d, angle } = smallestRectangle(shapes);
      let least = Number.POSITIVE_INFINITY;
      for (let k = -2000; k <= 2000; k++) {
        const turn = angle + k * 1e-6;
        least = Math.min(least, width(shapes, turn) * width(shapes, turn + PI / 2));
      }
      expect(relative(w * d, least)).toBeLessThan(1e-11);
    }
  });

  test('turning, shifting and mirroring keep its size', () => {
    fc.assert(
      fc.property(anyShapes, anyMotion, (shapes, motion) => {
        const size = (list: Swept[]) => {
          const { width: w, depth: d } = smallestRectangle(list);
          return w * d;
        };
        expect(relative(size(shapes.map((s) => moved(s, motion))), size(shapes))).toBeLessThan(1e-11);
        expect(relative(size(shapes.map(mirrored)), size(shapes))).toBeLessThan(1e-11);
      }),
      runs(200),
    );
  });
});
