import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { deckMargin } from '../../../src/geometry/deck.ts';
import { bestPoseConvex, bestShiftConvex } from '../../../src/geometry/pose.ts';
import {
  bentCapsule,
  capsule,
  disc,
  moved,
  rectangle,
  roundedPolygon,
  type Swept,
} from '../../../src/geometry/shapes.ts';
import { anyMotion, anyShapes } from '../../fixtures/arbitraryShapes.ts';
import { kitBodies } from '../../fixtures/kits.ts';
import { width } from '../../fixtures/measures.ts';
import { runs, seeds } from '../../fixtures/seeds.ts';

const { PI } = Math;
const box = (x0: number, y0: number, x1: number, y1: number) => [x0, y0, x1, y0, x1, y1, x0, y1];
const hexagon = [1000, 0, 2000, 0, 2600, 1000, 2000, 2100, 1000, 2000, 500, 1000];
const trapezium = [0, 0, 3000, 0, 2500, 2000, 0, 2000];
const triangle = [0, 0, 4000, 0, 1000, 3500];

/** The least margin to the deck's edges that a pose leaves, from the deck's own margin. */
const marginOf = (deck: readonly number[], shapes: readonly Swept[], pose: { angle: number; dx: number; dy: number }) =>
  Math.min(...shapes.map((s) => deckMargin([deck], moved(s, pose))));

describe('exact cases', () => {
  test.each<[string, number[], Swept[], { angle: number; dx: number; dy: number; margin: number }]>([
    [
      'a disc stays unturned and goes to the middle',
      box(0, 0, 200, 100),
      [disc(7, 8, 20)],
      { angle: 0, dx: 93, dy: 42, margin: 30 },
    ],
    [
      'a box already square stays unturned',
      box(0, 0, 200, 100),
      [rectangle(5, 5, 80, 40, 0)],
      { angle: 0, dx: 95, dy: 45, margin: 30 },
    ],
    [
      'a box across turns a quarter, counter-clockwise',
      box(0, 0, 200, 100),
      [rectangle(0, 0, 40, 80, 0)],
      { angle: PI / 2, dx: 100, dy: 50, margin: 30 },
    ],
    [
      'a box aslant turns back',
      box(0, 0, 200, 100),
      [rectangle(0, 0, 80, 40, 0.3)],
      { angle: -0.3, dx: 100, dy: 50, margin: 30 },
    ],
    [
      'too large: the margin is below zero',
      box(0, 0, 200, 100),
      [disc(0, 0, 60)],
      { angle: 0, dx: 100, dy: 50, margin: -10 },
    ],
    // A long tube on a square: least margin along the diagonal, (200 - 2 r - l cos 45) / 2.
    [
      'a long tube lies on the diagonal',
      box(0, 0, 200, 200),
      [capsule(-90, 0, 90, 0, 5)],
      { angle: PI / 4, dx: 100, dy: 100, margin: (200 - 10 - 180 * Math.SQRT1_2) / 2 },
    ],
    // The incircle of a 3-4-5 triangle has radius 1.
    [
      'a disc in a triangle sits in its incircle',
      [0, 0, 400, 0, 0, 300],
      [disc(0, 0, 30)],
      { angle: 0, dx: 100, dy: 100, margin: 70 },
    ],
  ])('%s', (_, deck, shapes, expected) => {
    const pose = bestPoseConvex(deck, shapes);
    expect(pose.margin).toBeCloseTo(expected.margin, 9);
    expect(pose.angle).toBeCloseTo(expected.angle, 9);
    expect(pose.dx).toBeCloseTo(expected.dx, 8);
    expect(pose.dy).toBeCloseTo(expected.dy, 8);
  });

  test('a crest between stops: a bend over a disc in a shallow deck', () => {
    // Depth 1110 - 900 cos t is least at t = 0, where no side is flush (see the rectangle's trap).
    const upright = [bentCapsule(0, -1000, 1000, PI / 2 - 0.3, 0.6, 10), disc(0, -100, 100)];
    const pose = bestPoseConvex(
      box(0, 0, 2000, 300),
      upright.map((s) => moved(s, { angle: 0.2, dx: 30, dy: 40 })),
    );
    expect(pose.margin).toBeCloseTo((300 - 210) / 2, 9);
    expect(pose.angle).toBeCloseTo(-0.2, 6);
  });

  test('nothing to place, and a dented deck, are refused', () => {
    expect(() => bestPoseConvex(box(0, 0, 1, 1), [])).toThrow('at least one shape');
    expect(() => bestPoseConvex([0, 0, 10, 0, 5, 2, 10, 10], [disc(0, 0, 1)])).toThrow('convex');
  });
});

describe('against a dense search', () => {
  test('rectangle: no turn of 20000 does better', () => {
    for (const seed of seeds(8)) {
      const shapes = kitBodies(26, seed).map((body) => body.shape);
      const pose = bestPoseConvex(box(100, 200, 3100, 2200), shapes);
      let best = Number.NEGATIVE_INFINITY;
      for (let k = 0; k < 20000; k++) {
        const t = (k * PI) / 20000;
        best = Math.max(best, Math.min(3000 - width(shapes, t), 2000 - width(shapes, t + PI / 2)) / 2);
      }
      expect(pose.margin).toBeGreaterThanOrEqual(best - 1e-9);
      expect(pose.margin).toBeLessThan(best + 0.5);
      expect(marginOf(box(100, 200, 3100, 2200), shapes, pose)).toBeCloseTo(pose.margin, 8);
    }
  });

  test.each([
    ['trapezium', trapezium],
    ['hexagon', hexagon],
    ['triangle', triangle],
    ['rectangle cut at a corner', [0, 0, 3000, 0, 3000, 1500, 2500, 2000, 0, 2000]],
  ])('%s: no pose near a grid of poses does better, and the deck agrees with the margin', (_, deck) => {
    for (const seed of seeds(3)) {
      const shapes = kitBodies(10, seed).map(({ shape }) => moved(shape, { angle: 0, dx: 300, dy: 200 }));
      const pose = bestPoseConvex(deck, shapes);
      expect(Math.abs(marginOf(deck, shapes, pose) - pose.margin)).toBeLessThanOrEqual(pose.margin < 0 ? 1e-6 : 1e-8);
      // Pattern search over shift and margin at many turns, scored by the deck's own margin.
      for (const k of seeds(120, 24)) {
        const angle = k <= 60 ? -PI + (k * PI) / 30 : pose.angle + (k - 91) * 1e-3;
        let at = { angle, dx: pose.dx, dy: pose.dy };
        let score = marginOf(deck, shapes, at);
        for (let step = 400; step > 2; ) {
          let better = false;
          for (const [sx, sy] of [
            [1, 0],
            [-1, 0],
            [0, 1],
            [0, -1],
            [1, 1],
            [-1, -1],
            [1, -1],
            [-1, 1],
          ]) {
            const next = { angle, dx: at.dx + sx * step, dy: at.dy + sy * step };
            const value = marginOf(deck, shapes, next);
            if (value > score) {
              [at, score, better] = [next, value, true];
              break;
            }
          }
          if (!better) step /= 2;
        }
        expect(score).toBeLessThanOrEqual(pose.margin + (pose.margin < 0 ? 1e-6 : 1e-8));
      }
    }
  });
});

describe('laws', () => {
  const decks = [box(0, 0, 900, 700), hexagon, trapezium, triangle];

  test('the pose leaves the margin it claims, and no pose at random does better', () => {
    fc.assert(
      fc.property(anyShapes, anyMotion, fc.constantFrom(...decks), (shapes, motion, deck) => {
        const pose = bestPoseConvex(deck, shapes);
        expect(Math.abs(marginOf(deck, shapes, pose) - pose.margin)).toBeLessThanOrEqual(1e-6);
        expect(marginOf(deck, shapes, motion)).toBeLessThanOrEqual(pose.margin + 1e-6);
      }),
      runs(300),
    );
  });

  test('shapes turned and shifted beforehand reach the same margin', () => {
    fc.assert(
      fc.property(anyShapes, anyMotion, fc.constantFrom(...decks), (shapes, motion, deck) => {
        const before = bestPoseConvex(deck, shapes).margin;
        const after = bestPoseConvex(
          deck,
          shapes.map((s) => moved(s, motion)),
        ).margin;
        expect(Math.abs(after - before)).toBeLessThanOrEqual(before < 0 ? 3e-6 : 1e-7);
      }),
      runs(200),
    );
  });

  test('a rectangle answers the same by the general way: one corner cut off by next to nothing', () => {
    for (const seed of seeds(5)) {
      const shapes = kitBodies(26, seed).map((body) => body.shape);
      const square = bestPoseConvex(box(0, 0, 3000, 2000), shapes);
      const cut = bestPoseConvex([0, 0, 3000, 0, 3000, 1999.999, 2999.999, 2000, 0, 2000], shapes);
      expect(cut.margin).toBeCloseTo(square.margin, 7);
      expect(cut.angle).toBeCloseTo(square.angle, 7);
    }
  });

  test('a deck turned about the origin: the same margin, the pose turned with it', () => {
    const shapes = kitBodies(26, 3).map((body) => body.shape);
    const plain = bestPoseConvex(box(0, 0, 3000, 2000), shapes);
    const core = moved(roundedPolygon(box(0, 0, 3000, 2000), 0), { angle: 0.05, dx: 0, dy: 0 }).core;
    const turned = bestPoseConvex(core.kind === 'polygon' ? core.points : [], shapes);
    expect(turned.margin).toBeCloseTo(plain.margin, 8);
    expect(turned.angle).toBeCloseTo(plain.angle + 0.05, 8);
  });
});

describe('too large for the deck', () => {
  test('past a corner the margin is the distance to the corner, not to an edge run on', () => {
    // Four feet at the corners of a square of 300 on a square deck of 200: 50 beyond both edges of each corner.
    const feet = [-150, 150].flatMap((x) => [-150, 150].map((y) => disc(x + 40, y - 30, 0)));
    const shift = bestShiftConvex(box(0, 0, 200, 200), feet);
    expect(shift.margin).toBeCloseTo(-50 * Math.SQRT2, 6);
    expect([shift.dx, shift.dy].map((v) => Math.round(v * 1e3))).toEqual([60_000, 130_000]);
    // Turned by an eighth each foot is 112 straight out from the middle of a side: no better.
    const pose = bestPoseConvex(box(0, 0, 200, 200), feet);
    expect([pose.margin, pose.angle]).toEqual([shift.margin, 0]);
  });

  test('a kit that stands best already is not sent to a place where it hangs out farther', () => {
    for (const seed of seeds(20)) {
      const deck = box(0, 0, 1400, 1100);
      const shapes = kitBodies(26, seed).map(({ shape }) => shape);
      const pose = bestPoseConvex(deck, shapes);
      expect(pose.margin).toBeLessThan(0);
      const there = shapes.map((shape) => moved(shape, pose));
      const again = bestPoseConvex(deck, there);
      expect(Math.abs(again.margin - pose.margin)).toBeLessThanOrEqual(2e-6);
      expect(marginOf(deck, there, again)).toBeGreaterThanOrEqual(
        marginOf(deck, there, { angle: 0, dx: 0, dy: 0 }) - 2e-6,
      );
    }
  });
});

describe('turns allowed', () => {
  test('no pose at random within them does better, and the pose is within them', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...seeds(30, 30)),
        fc.double({ min: -1, max: 0, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom(box(0, 0, 3000, 2400), box(0, 0, 1800, 1500), hexagon, trapezium),
        (seed, least, most, deck) => {
          const shapes = kitBodies(12, seed).map(({ shape }) => shape);
          const pose = bestPoseConvex(deck, shapes, { least, most });
          expect(pose.angle).toBeGreaterThanOrEqual(least);
          expect(pose.angle).toBeLessThanOrEqual(most);
          expect(Math.abs(marginOf(deck, shapes, pose) - pose.margin)).toBeLessThanOrEqual(1e-6);
          expect(pose.margin).toBeLessThanOrEqual(bestPoseConvex(deck, shapes).margin + 1e-6);
          for (let k = 0; k <= 40; k++) {
            const angle = least + ((most - least) * k) / 40;
            const one = bestPoseConvex(deck, shapes, { least: angle, most: angle });
            expect(one.margin).toBeLessThanOrEqual(pose.margin + 1e-6);
          }
        },
      ),
      runs(30),
    );
  });
});

describe('without turning', () => {
  test.each<[string, number[], Swept[], { dx: number; dy: number; margin: number }]>([
    ['a disc goes to the middle', box(0, 0, 200, 100), [disc(7, 8, 20)], { dx: 93, dy: 42, margin: 30 }],
    [
      'a slanting tube stays slanting: 100 + 2 x 10 wide and high',
      box(0, 0, 300, 300),
      [capsule(0, 0, 100, 100, 10)],
      { dx: 100, dy: 100, margin: 90 },
    ],
    // The incircle of a right triangle with legs 300 and 400 has radius (300 + 400 - 500) / 2.
    ['a point goes to the incircle', [0, 0, 400, 0, 0, 300], [disc(5, 5, 0)], { dx: 95, dy: 95, margin: 100 }],
    ['too large: below 0', box(0, 0, 100, 300), [disc(50, 50, 60)], { dx: 0, dy: 100, margin: -10 }],
  ])('%s', (_, deck, shapes, expected) => {
    const pose = bestShiftConvex(deck, shapes);
    expect(pose.angle).toBe(0);
    for (const key of ['dx', 'dy', 'margin'] as const) expect(pose[key]).toBeCloseTo(expected[key], 9);
  });

  test.each([
    ['box', box(0, 0, 3000, 2000)],
    ['hexagon', hexagon],
    ['trapezium', trapezium],
    ['triangle', triangle],
  ])('on a %s: the margin it says, no less than any shift on a grid, no more than with a turn', (_, deck) => {
    fc.assert(
      fc.property(anyShapes, (shapes) => {
        const pose = bestShiftConvex(deck, shapes);
        expect(Math.abs(marginOf(deck, shapes, pose) - pose.margin)).toBeLessThanOrEqual(1e-6);
        expect(pose.margin).toBeLessThanOrEqual(bestPoseConvex(deck, shapes).margin + 1e-6);
        for (let x = -200; x <= 200; x += 50)
          for (let y = -200; y <= 200; y += 50) {
            const other = { angle: 0, dx: pose.dx + x, dy: pose.dy + y };
            expect(marginOf(deck, shapes, other)).toBeLessThanOrEqual(pose.margin + 1e-6);
          }
      }),
      runs(30),
    );
  });

  test('nothing to place', () => expect(() => bestShiftConvex(box(0, 0, 1, 1), [])).toThrow(RangeError));
});
