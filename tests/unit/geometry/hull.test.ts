import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { area } from '../../../src/geometry/area.ts';
import { TAU } from '../../../src/geometry/frame.ts';
import { hull, hullArea, width } from '../../../src/geometry/hull.ts';
import { pieceEnd, pieceStart } from '../../../src/geometry/loops.ts';
import { Integral } from '../../../src/geometry/outline.ts';
import { bentCapsule, capsule, disc, mirrored, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { anyMotion, anyShapes, relative, scaled } from '../../fixtures/arbitraryShapes.ts';
import { kitBodies } from '../../fixtures/kits.ts';
import { runs } from '../../fixtures/seeds.ts';

const { PI } = Math;

describe('exact cases', () => {
  test.each<[string, Swept[], number]>([
    ['nothing', [], 0],
    ['a point', [disc(3, 4, 0)], 0],
    ['a bare line', [capsule(0, 0, 3, 4, 0)], 0],
    ['one disc', [disc(3, 4, 5)], 25 * PI],
    ['two equal discs: a tube', [disc(0, 0, 5), disc(30, 40, 5)], 500 + 25 * PI],
    ['the same disc thrice', [disc(0, 0, 5), disc(0, 0, 5), disc(0, 0, 5)], 25 * PI],
    ['disc within a disc', [disc(0, 0, 5), disc(1, 1, 2)], 25 * PI],
    ['disc touching a larger one from inside', [disc(0, 0, 5), disc(3, 0, 2)], 25 * PI],
    // Tangents from a disc of 10 to one of 6, centres 8 apart: sides 8 cos(30), sectors 240 and 120 degrees.
    [
      'unequal discs',
      [disc(0, 0, 10), disc(8, 0, 6)],
      8 * Math.cos(PI / 6) * 16 + (100 * (TAU / 3) * 2) / 2 + (36 * (TAU / 3)) / 2,
    ],
    ['four points of a square', [disc(0, 0, 0), disc(9, 0, 0), disc(9, 9, 0), disc(0, 9, 0)], 81],
    ['points in one line', [disc(0, 0, 0), disc(1, 1, 0), disc(5, 5, 0)], 0],
    [
      'half bend: half a disc of 110 and a strip of 10 below',
      [bentCapsule(0, 0, 100, 0, PI, 10)],
      (PI * 110 ** 2) / 2 + 2000 + 50 * PI,
    ],
    ['closed ring', [bentCapsule(0, 0, 100, 2, TAU, 10)], PI * 110 ** 2],
    // A bend across direction 0: sector of 110, two end caps' quarter turns, two triangles and the chord's strip.
    [
      'quarter bend across direction 0',
      [bentCapsule(0, 0, 100, -PI / 4, PI / 2, 0)],
      (PI * 100 ** 2) / 4 - 100 ** 2 / 2,
    ],
  ])('%s', (_, shapes, expected) => {
    expect(relative(hullArea(shapes), expected)).toBeLessThan(1e-14);
    expect(relative(hullArea([...shapes].reverse()), expected)).toBeLessThan(1e-14);
  });

  test('round things stay round: the hull of a bend is three arcs and two straight pieces', () => {
    const kinds = hull([bentCapsule(0, 0, 100, 5, 2, 10)]).map((piece) => piece.kind);
    expect(kinds.filter((kind) => kind === 'arc').length).toBe(3);
    expect(kinds.filter((kind) => kind === 'segment').length).toBe(2);
  });

  test('width: a turned rectangle along and across, a tube aslant', () => {
    const shape = rectangle(70, -20, 300, 200, 0.4, 10);
    expect(width([shape], 0.4)).toBeCloseTo(320, 10);
    expect(width([shape], 0.4 + PI / 2)).toBeCloseTo(220, 10);
    expect(width([shape], 0.4 + PI)).toBeCloseTo(320, 10);
    expect(width([capsule(0, 0, 30, 40, 5)], 0)).toBeCloseTo(40, 12);
    expect(width([bentCapsule(0, 0, 100, PI / 4, PI / 2, 10)], PI / 2)).toBeCloseTo(100 - 100 * Math.SQRT1_2 + 20, 11);
  });
});

describe('laws', () => {
  test('the loop is closed, turns left only, runs round once and encloses the area', () => {
    fc.assert(
      fc.property(anyShapes, (shapes) => {
        const loop = hull(shapes);
        let turned = 0;
        loop.forEach((piece, k) => {
          const next = loop[(k + 1) % loop.length];
          const [x, y] = pieceEnd(piece);
          const [nx, ny] = pieceStart(next);
          expect(Math.hypot(x - nx, y - ny)).toBeLessThan(1e-9);
          if (piece.kind === 'arc') {
            expect(piece.sweep).toBeGreaterThan(0);
            turned += piece.sweep;
          }
        });
        // Sharp corners turn too: only a hull without corners turns wholly along its arcs.
        expect(turned).toBeLessThanOrEqual(TAU + 1e-12);
        expect(relative(new Integral(0, 0).draw(loop).area, hullArea(shapes))).toBeLessThan(1e-11);
      }),
      runs(300),
    );
  });

  test('one more shape never makes the hull smaller, and it holds each', () => {
    fc.assert(
      fc.property(anyShapes, (shapes) => {
        const whole = hullArea(shapes) * (1 + 1e-12);
        expect(hullArea(shapes.slice(1))).toBeLessThanOrEqual(whole);
        for (const s of shapes) expect(area(s)).toBeLessThanOrEqual(whole);
      }),
    );
  });

  test('turning, shifting, mirroring, scaling', () => {
    fc.assert(
      fc.property(anyShapes, anyMotion, (shapes, motion) => {
        const plain = hullArea(shapes);
        const there = shapes.map((s) => moved(s, motion));
        expect(relative(hullArea(there), plain)).toBeLessThan(1e-11);
        expect(relative(hullArea(shapes.map(mirrored)), plain)).toBeLessThan(1e-12);
        expect(relative(hullArea(shapes.map((s) => scaled(s, 3))), 9 * plain)).toBeLessThan(1e-12);
        expect(width(there, 1 + motion.angle)).toBeCloseTo(width(shapes, 1), 8);
      }),
    );
  });

  test('leaving out inner rounds first changes nothing: kits against the hull of their hulls', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const shapes = kitBodies(78, seed).map((body) => body.shape);
      // Fifteen at a time no round is left out beforehand unless there are more than sixteen.
      let merged = new Set<Swept>();
      for (let k = 0; k < shapes.length; k += 4) {
        const part = shapes.slice(k, k + 4);
        for (const piece of hull(part))
          if (piece.kind === 'arc') merged.add(bentCapsule(piece.cx, piece.cy, piece.r, piece.start, piece.sweep, 0));
          else merged.add(capsule(piece.x0, piece.y0, piece.x1, piece.y1, 0));
      }
      expect(relative(hullArea([...merged]), hullArea(shapes))).toBeLessThan(1e-12);
      merged = new Set();
    }
  });

  test('perimeter of a convex hull is the mean width times pi (Cauchy)', () => {
    const shapes = kitBodies(26, 5).map((body) => body.shape);
    const edge = new Integral(0, 0).draw(hull(shapes)).length;
    let sum = 0;
    const n = 20000;
    for (let k = 0; k < n; k++) sum += width(shapes, ((k + 0.5) * PI) / n);
    expect(relative((sum / n) * PI, edge)).toBeLessThan(1e-7);
  });
});
