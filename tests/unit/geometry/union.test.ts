import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { area, perimeter } from '../../../src/geometry/area.ts';
import { TAU } from '../../../src/geometry/frame.ts';
import { hullArea } from '../../../src/geometry/hull.ts';
import { unionOutline } from '../../../src/geometry/loops.ts';
import { Integral } from '../../../src/geometry/outline.ts';
import {
  bentCapsule,
  capsule,
  disc,
  mirrored,
  moved,
  rectangle,
  roundedPolygon,
  type Swept,
} from '../../../src/geometry/shapes.ts';
import { unionArea } from '../../../src/geometry/union.ts';
import { anyMotion, anyShape, anyShapes, relative, scaled } from '../../fixtures/arbitraryShapes.ts';
import { kitBodies } from '../../fixtures/kits.ts';
import { runs } from '../../fixtures/seeds.ts';

const { PI } = Math;
const box = (x0: number, y0: number, x1: number, y1: number) => roundedPolygon([x0, y0, x1, y0, x1, y1, x0, y1], 0);
const twice = (s: Swept) => [s, s];

describe('exact cases', () => {
  const lensArea = 2 * PI - (2 * PI) / 3 + Math.sqrt(3) / 2;
  test.each<[string, Swept[], number, number]>([
    // name, shapes, area, perimeter
    ['nothing', [], 0, 0],
    ['bare lines and points have no area', [capsule(0, 0, 9, 9, 0), disc(1, 1, 0)], 0, 0],
    ['one disc', [disc(3, 4, 5)], 25 * PI, 10 * PI],
    ['two discs far apart', [disc(0, 0, 1), disc(9, 0, 2)], 5 * PI, 6 * PI],
    ['two unit discs 1 apart', [disc(0, 0, 1), disc(1, 0, 1)], lensArea, (8 * PI) / 3],
    ['disc in a disc', [disc(0, 0, 5), disc(1, 1, 2)], 25 * PI, 10 * PI],
    ['discs touching from outside', [disc(0, 0, 1), disc(2, 0, 1)], 2 * PI, 4 * PI],
    ['discs touching from outside, aslant', [disc(0, 0, 5), disc(6, 8, 5)], 50 * PI, 20 * PI],
    ['disc touching from inside', [disc(0, 0, 5), disc(3, 0, 2)], 25 * PI, 10 * PI],
    ['duplicate disc', twice(disc(3, 4, 5)), 25 * PI, 10 * PI],
    ['duplicate tube', twice(capsule(0, 0, 30, 40, 5)), 500 + 25 * PI, 100 + 10 * PI],
    [
      'duplicate tube, ends exchanged',
      [capsule(0, 0, 30, 40, 5), capsule(30, 40, 0, 0, 5)],
      500 + 25 * PI,
      100 + 10 * PI,
    ],
    ['duplicate bend', twice(bentCapsule(0, 0, 100, 1, PI / 2, 10)), 1100 * PI, 120 * PI],
    [
      'duplicate bend, swept the other way',
      [bentCapsule(0, 0, 100, 1, 2, 10), bentCapsule(0, 0, 100, 3, -2, 10)],
      4000 + 100 * PI,
      400 + 20 * PI,
    ],
    ['duplicate rectangle', twice(rectangle(7, 8, 30, 40, 0.3)), 1200, 140],
    ['five of the same', Array.from({ length: 5 }, () => disc(1, 2, 3)), 9 * PI, 6 * PI],
    ['boxes sharing a whole edge', [box(0, 0, 2, 2), box(2, 0, 4, 2)], 8, 12],
    ['boxes sharing part of an edge', [box(0, 0, 2, 2), box(2, 1, 4, 3)], 8, 14],
    ['boxes touching at a corner', [box(0, 0, 2, 2), box(2, 2, 4, 4)], 8, 16],
    ['boxes overlapping with collinear edges', [box(0, 0, 3, 2), box(1, 0, 4, 2)], 8, 12],
    ['box within a box, sharing an edge', [box(0, 0, 4, 4), box(1, 0, 3, 2)], 16, 16],
    ['four boxes round a hole', [box(0, 0, 3, 1), box(0, 2, 3, 3), box(0, 1, 1, 2), box(2, 1, 3, 2)], 8, 16],
    ['cross of two tubes', [capsule(-5, 0, 5, 0, 1), capsule(0, -5, 0, 5, 1)], 36 + 2 * PI, 32 + 4 * PI],
    ['tubes end to end', [capsule(0, 0, 10, 0, 1), capsule(10, 0, 30, 0, 1)], 60 + PI, 60 + TAU],
    ['tubes overlapping in one line', [capsule(0, 0, 20, 0, 1), capsule(10, 0, 30, 0, 1)], 60 + PI, 60 + TAU],
    ['tubes side by side, touching', [capsule(0, 0, 10, 0, 1), capsule(0, 2, 10, 2, 1)], 40 + 2 * PI, 20 + 4 * PI],
    [
      'tube with discs on its own ends',
      [capsule(0, 0, 30, 40, 5), disc(0, 0, 5), disc(30, 40, 5)],
      500 + 25 * PI,
      100 + 10 * PI,
    ],
    [
      'disc whose edge touches a tube side from inside',
      [capsule(0, 0, 30, 0, 5), disc(15, 2, 3)],
      300 + 25 * PI,
      60 + 10 * PI,
    ],
    ['disc standing on a box', [box(-5, -5, 5, 0), disc(0, 2, 2)], 50 + 4 * PI, 30 + 4 * PI],
    [
      'two half rings make a ring with a hole',
      [bentCapsule(0, 0, 100, 0, PI, 10), bentCapsule(0, 0, 100, PI, PI, 10)],
      4000 * PI,
      400 * PI,
    ],
    [
      'bend continued along its own circle',
      [bentCapsule(0, 0, 100, 0, 1, 10), bentCapsule(0, 0, 100, 0.5, 1, 10)],
      3000 + 100 * PI,
      300 + 20 * PI,
    ],
    [
      'bend with straight ends',
      [bentCapsule(0, 0, 100, 0, PI, 10), capsule(100, 0, 100, -50, 10), capsule(-100, 0, -100, -50, 10)],
      2000 * PI + 2000 + 100 * PI,
      200 * PI + 200 + 20 * PI,
    ],
    ['ring filled by a disc', [bentCapsule(0, 0, 100, 0, TAU, 10), disc(0, 0, 90)], PI * 110 ** 2, TAU * 110],
    [
      'disc in a ring, apart',
      [bentCapsule(0, 0, 100, 0, TAU, 10), disc(0, 0, 50)],
      PI * (110 ** 2 - 90 ** 2 + 50 ** 2),
      TAU * 250,
    ],
    [
      'ring without a hole through its own centre',
      [bentCapsule(0, 1, 1, 0, TAU, 1), box(-2, 1, 2, 5)],
      16 + 2 * PI,
      12 + TAU,
    ],
    [
      'concentric bends touching',
      [bentCapsule(0, 0, 100, 0, PI, 10), bentCapsule(0, 0, 120, 0, PI, 10)],
      2000 * PI + 2400 * PI + 200 * PI,
      90 * PI + 130 * PI + 40 * PI,
    ],
  ])('%s', (_, shapes, expectedArea, expectedPerimeter) => {
    for (const list of [shapes, [...shapes].reverse()]) {
      const result = unionArea(list);
      expect(relative(result.area, expectedArea)).toBeLessThan(1e-12);
      expect(relative(result.perimeter, expectedPerimeter)).toBeLessThan(1e-12);
      // The same far from the origin and turned, where coordinates round.
      const far = unionArea(list.map((s) => moved(s, { angle: 0.7, dx: 4000, dy: -3000 })));
      expect(relative(far.area, expectedArea)).toBeLessThan(1e-10);
      expect(relative(far.perimeter, expectedPerimeter)).toBeLessThan(1e-7);
    }
  });
});

// Cores shorter than 1e-10 mm count as discs: on the smallest shapes here (5 mm) a share of 1.3e-11 of the area.
const SHORT_CORES = 2e-11;

describe('laws on random shapes', () => {
  test('one shape alone: its own area and perimeter', () => {
    fc.assert(
      fc.property(anyShape, (shape) => {
        const result = unionArea([shape]);
        expect(relative(result.area, area(shape))).toBeLessThan(SHORT_CORES);
        expect(relative(result.perimeter, perimeter(shape))).toBeLessThan(SHORT_CORES);
      }),
      runs(300),
    );
  });

  test('hull >= union >= each, union <= sum', () => {
    fc.assert(
      fc.property(anyShapes, (shapes) => {
        const union = unionArea(shapes).area;
        expect(union).toBeLessThanOrEqual(hullArea(shapes) * (1 + SHORT_CORES));
        expect(union).toBeLessThanOrEqual(shapes.reduce((sum, s) => sum + area(s), 0) * (1 + SHORT_CORES));
        for (const s of shapes) expect(union).toBeGreaterThanOrEqual(area(s) * (1 - SHORT_CORES));
      }),
      runs(300),
    );
  });

  test('order, duplicates, turning, shifting, mirroring and scaling change nothing', () => {
    fc.assert(
      fc.property(anyShapes, anyMotion, (shapes, motion) => {
        const { area: plain } = unionArea(shapes);
        expect(relative(unionArea([...shapes].reverse()).area, plain)).toBeLessThan(SHORT_CORES);
        expect(relative(unionArea([...shapes, ...shapes]).area, plain)).toBeLessThan(1e-11);
        expect(relative(unionArea(shapes.map((s) => moved(s, motion))).area, plain)).toBeLessThan(1e-9);
        expect(relative(unionArea(shapes.map(mirrored)).area, plain)).toBeLessThan(1e-11);
        expect(relative(unionArea(shapes.map((s) => scaled(s, 3))).area, 9 * plain)).toBeLessThan(SHORT_CORES);
      }),
      runs(300),
    );
  });

  test('the grid for many shapes finds what the sweep finds: kits one by one and together', () => {
    const shapes = kitBodies(1040, 11).map((body) => body.shape);
    const together = unionArea(shapes).area;
    let apart = 0;
    // Kits stand on cells of 2.6 m and their bars may reach into the next: so unite in rows of kits, by halves.
    const half = shapes.length / 2;
    const first = unionArea(shapes.slice(0, half)).area;
    const second = unionArea(shapes.slice(half)).area;
    for (let k = 0; k < shapes.length; k += 260) apart += unionArea(shapes.slice(k, k + 260)).area;
    expect(together).toBeLessThanOrEqual((first + second) * (1 + 1e-12));
    expect(first + second).toBeLessThanOrEqual(apart * (1 + 1e-12));
    const shuffled = shapes
      .map((shape, k) => ({ shape, key: (k * 7919) % shapes.length }))
      .sort((a, b) => a.key - b.key);
    expect(relative(unionArea(shuffled.map(({ shape }) => shape)).area, together)).toBeLessThan(1e-12);
  });
});

describe('the merged outline', () => {
  test('its loops enclose the union area', () => {
    fc.assert(
      fc.property(anyShapes, (shapes) => {
        const sum = new Integral(0, 0);
        for (const loop of unionOutline(shapes)) sum.draw(loop);
        expect(relative(sum.area, unionArea(shapes).area)).toBeLessThan(1e-9);
      }),
    );
  });

  test('two half rings: one outer loop and one hole, each a single arc', () => {
    const loops = unionOutline([bentCapsule(0, 0, 100, 0, PI, 10), bentCapsule(0, 0, 100, PI, PI, 10)]);
    expect(loops.map((loop) => loop.length)).toEqual([1, 1]);
    expect(loops.map(([piece]) => piece.kind === 'arc' && [piece.r, Math.sign(piece.sweep)])).toEqual([
      [110, 1],
      [90, -1],
    ]);
  });
});
