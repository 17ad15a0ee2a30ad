import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { deckArea, deckMargin, deckOutline, pointInDeck, prepareDeck } from '../../../src/geometry/deck.ts';
import { type Motion, movePoint, TAU } from '../../../src/geometry/frame.ts';
import { bentCapsule, capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { anyMotion, anyShape } from '../../fixtures/arbitraryShapes.ts';
import { seeded } from '../../fixtures/kits.ts';
import { runs } from '../../fixtures/seeds.ts';

const { PI } = Math;
const box = (x0: number, y0: number, x1: number, y1: number) => [x0, y0, x1, y0, x1, y1, x0, y1];
const turnedModules = (modules: number[][], m: Motion) =>
  modules.map((points) => {
    const out: number[] = [];
    for (let i = 0; i < points.length; i += 2) out.push(...movePoint(m, points[i], points[i + 1]));
    return out;
  });

const ell = [box(0, 0, 10, 10), box(10, 0, 20, 10), box(0, 10, 10, 20)];
const ring = [box(0, 0, 30, 10), box(0, 20, 30, 30), box(0, 10, 10, 20), box(20, 10, 30, 20)];
const you = [box(0, 0, 30, 10), box(0, 10, 10, 30), box(20, 10, 30, 30)];
const slit = [box(0, 0, 10, 10), box(12, 0, 22, 10), box(0, -10, 22, 0)];
const overlapping = [box(0, 0, 12, 10), box(8, 0, 20, 10), box(5, 5, 15, 20)];

describe('outline and area', () => {
  test.each<[string, number[][], number, number[]]>([
    // name, modules, area, corners of each loop
    ['one module', [box(0, 0, 20, 10)], 200, [4]],
    ['clockwise corners and a doubled, a collinear one', [[0, 0, 0, 10, 20, 10, 20, 10, 20, 0, 10, 0]], 200, [4]],
    ['two modules with a whole edge in common', [box(0, 0, 10, 10), box(10, 0, 20, 10)], 200, [4]],
    ['two modules with part of an edge in common', [box(0, 0, 10, 10), box(10, 5, 20, 15)], 200, [8]],
    ['the same module twice', [box(0, 0, 10, 10), box(0, 0, 10, 10)], 100, [4]],
    ['a module within another', [box(0, 0, 10, 10), box(2, 2, 5, 10)], 100, [4]],
    ['L', ell, 300, [6]],
    ['U', you, 700, [8]],
    ['ring of four: outer loop and hole', ring, 800, [4, 4]],
    ['overlapping modules', overlapping, 300, [8]],
    ['touching at a corner: two loops', [box(0, 0, 10, 10), box(10, 10, 20, 20)], 200, [4, 4]],
    ['apart: two loops', [box(0, 0, 10, 10), box(15, 0, 20, 10)], 150, [4, 4]],
    [
      'three wide on two narrow: seams that do not line up',
      [box(0, 0, 10, 5), box(10, 0, 20, 5), box(20, 0, 30, 5), box(0, 5, 15, 10), box(15, 5, 30, 10)],
      300,
      [4],
    ],
    ['a triangle on a box', [box(0, 0, 10, 10), [0, 10, 10, 10, 5, 15]], 125, [5]],
  ])('%s', (_, modules, area, corners) => {
    for (const motion of [
      { angle: 0, dx: 0, dy: 0 },
      { angle: 0.7, dx: 3000, dy: -2000 },
    ]) {
      const there = turnedModules(modules, motion);
      expect(Math.abs(deckArea(there) - area)).toBeLessThan(1e-8);
      expect(deckOutline(there).map((loop) => loop.length / 2)).toEqual(corners);
    }
  });

  test('outer loops run counter-clockwise, holes clockwise', () => {
    const loops = deckOutline(ring);
    const twice = loops.map((p) => {
      let sum = 0;
      for (let i = 0; i < p.length; i += 2) {
        const j = (i + 2) % p.length;
        sum += p[i] * p[j + 1] - p[j] * p[i + 1];
      }
      return sum / 2;
    });
    expect(twice).toEqual([900, -100]);
  });

  test('seams as rough as 1e-7 mm vanish, a slit of a hundredth stays', () => {
    expect(deckOutline([box(0, 0, 10, 10), box(10 + 1e-7, 0, 20, 10)]).length).toBe(1);
    expect(deckOutline([box(0, 0, 10, 10), box(10.01, 0, 20, 10)]).length).toBe(2);
  });

  test('points: on seams, edges, in holes', () => {
    const deck = prepareDeck(ring);
    expect(
      [
        [10, 5],
        [5, 10],
        [0, 0],
        [30, 15],
        [15, 10],
        [10, 20],
      ].map(([x, y]) => pointInDeck(deck, x, y)),
    ).toEqual([true, true, true, true, true, true]);
    expect(
      [
        [15, 15],
        [10.001, 15],
        [30.001, 5],
        [-0.001, 0],
      ].map(([x, y]) => pointInDeck(deck, x, y)),
    ).toEqual([false, false, false, false]);
  });

  test('a dented module and an empty deck are refused', () => {
    expect(() => prepareDeck([[0, 0, 10, 0, 5, 2, 10, 10]])).toThrow('convex');
    expect(() => prepareDeck([])).toThrow('at least one module');
  });
});

describe('margin, exact cases', () => {
  test.each<[string, number[][], Swept, number]>([
    // On a convex deck.
    ['disc in the middle', [box(0, 0, 20, 10)], disc(10, 5, 2), 3],
    ['disc over a seam', [box(0, 0, 10, 10), box(10, 0, 20, 10)], disc(10, 5, 2), 3],
    ['disc touching the edge', [box(0, 0, 20, 10)], disc(10, 8, 2), 0],
    ['disc half over the edge', [box(0, 0, 20, 10)], disc(10, 10, 2), -2],
    ['disc off the edge', [box(0, 0, 20, 10)], disc(10, 13, 2), -5],
    ['disc off a corner: measured from the corner', [box(0, 0, 20, 10)], disc(23, 14, 2), -7],
    ['tube aslant', [box(0, 0, 20, 10)], capsule(3, 3, 17, 6, 1), 2],
    [
      'bend that bulges over the edge between its ends',
      [box(0, 0, 20, 10)],
      bentCapsule(10, 5, 6, PI / 4, PI / 2, 0.5),
      -1.5,
    ],
    ['bend that bulges on the deck', [box(0, 0, 20, 12)], bentCapsule(10, 3, 5, 0, PI, 0.5), 2.5],
    ['full ring', [box(0, 0, 20, 20)], bentCapsule(10, 10, 6, 0, TAU, 1), 3],
    ['box turned', [box(0, 0, 20, 20)], rectangle(10, 10, 6, 8, PI / 4, 1), 9 - 7 * Math.SQRT1_2],
    ['point on the edge', [box(0, 0, 20, 10)], disc(20, 5, 0), 0],
    // On an L (corner of the notch at 10, 10).
    ['L: near the notch its corner is nearest', ell, disc(7, 6, 2), 3],
    ['L: disc over the notch corner', ell, disc(9, 9, 2), 1 - Math.SQRT2],
    ['L: disc in the notch', ell, disc(12, 13, 1), -3],
    ['L: tube across the notch, from arm to arm', ell, capsule(8, 18, 18, 8, 0), -3],
    ['L: tube along an arm', ell, capsule(3, 3, 17, 3, 1), 2],
    ['L: beyond the outer corner', ell, disc(-3, -4, 1), -6],
    // On a ring (hole 10 to 20 square).
    ['ring: disc in the hole, the middle is farthest', ring, disc(15, 15, 8), -5],
    ['ring: small disc in the hole, off the middle', ring, disc(12, 15, 1), -3],
    ['ring: disc that covers the hole and overhangs nothing else', ring, disc(15, 15, 15), -5],
    ['ring: tube straight across the hole', ring, capsule(5, 15, 25, 15, 1), -5],
    ['ring: box covering the whole hole', ring, rectangle(15, 15, 14, 14, 0), -5],
    ['ring: tube beside the hole', ring, capsule(5, 5, 25, 5, 1), 4],
    ['ring: curved tube round the hole', ring, bentCapsule(15, 15, 10, 0, TAU, 1), 10 - 5 * Math.SQRT2 - 1],
    // A slit 2 wide: nothing in it is farther than 1 from the deck.
    ['slit: large disc over it', slit, disc(11, 5, 3), -1],
    ['slit: tube across it', slit, capsule(5, 5, 17, 5, 2), -1],
    ['slit: thin bare tube across it', slit, capsule(5, 5, 17, 5, 0), -1],
    ['slit: narrow disc in it', slit, disc(11, 5, 0.25), -1],
    ['slit: disc beside it', slit, disc(5, 5, 2), 3],
    ['U: disc in the mouth, out in front', you, disc(15, 35, 2), -Math.hypot(5, 7)],
  ])('%s', (_, modules, shape, margin) => {
    expect(Math.abs(deckMargin(modules, shape) - margin)).toBeLessThan(1e-9);
    const motion = { angle: -1.1, dx: 700, dy: 300 };
    expect(Math.abs(deckMargin(turnedModules(modules, motion), moved(shape, motion)) - margin)).toBeLessThan(2e-9);
  });
});

/** Greatest distance from the modules over many points of the body, by brute force with nothing of deck.ts. */
function sampledOverhang(modules: number[][], shape: Swept, random: () => number): number {
  const away = (p: number[], x: number, y: number) => {
    let inside = true;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < p.length; i += 2) {
      const j = (i + 2) % p.length;
      const ex = p[j] - p[i];
      const ey = p[j + 1] - p[i + 1];
      if (ex * (y - p[i + 1]) - ey * (x - p[i]) < 0) inside = false;
      const t = Math.max(0, Math.min(1, ((x - p[i]) * ex + (y - p[i + 1]) * ey) / (ex * ex + ey * ey)));
      least = Math.min(least, Math.hypot(x - p[i] - t * ex, y - p[i + 1] - t * ey));
    }
    return inside ? 0 : least;
  };
  let most = 0;
  const { core, radius } = shape;
  for (let k = 0; k < 6000; k++) {
    let x: number;
    let y: number;
    if (core.kind === 'point') [x, y] = [core.x, core.y];
    else if (core.kind === 'segment') {
      const t = random();
      [x, y] = [core.x0 + t * (core.x1 - core.x0), core.y0 + t * (core.y1 - core.y0)];
    } else if (core.kind === 'arc') {
      const t = core.start + random() * core.sweep;
      [x, y] = [core.cx + core.r * Math.cos(t), core.cy + core.r * Math.sin(t)];
    } else {
      let sum = 0;
      x = 0;
      y = 0;
      for (let i = 0; i < core.points.length; i += 2) {
        const weight = -Math.log(random());
        sum += weight;
        x += weight * core.points[i];
        y += weight * core.points[i + 1];
      }
      [x, y] = [x / sum, y / sum];
    }
    const a = random() * TAU;
    // Half of the points on the rim, where bodies hang out farthest.
    const r = random() < 0.5 ? radius : radius * Math.sqrt(random());
    most = Math.max(most, Math.min(...modules.map((m) => away(m, x + r * Math.cos(a), y + r * Math.sin(a)))));
  }
  return most;
}

const shapesOf = [ell, ring, you, slit, overlapping].map((modules) => modules.map((p) => p.map((v) => v * 20 - 200)));

describe('margin, laws', () => {
  test('no point of the body is farther out than the margin says, and some point comes near it', () => {
    const random = seeded(17);
    fc.assert(
      fc.property(anyShape, fc.constantFrom(...shapesOf), (shape, modules) => {
        const margin = deckMargin(modules, shape);
        const sampled = sampledOverhang(modules, shape, random);
        if (margin >= 0) expect(sampled).toBe(0);
        else {
          expect(sampled).toBeLessThanOrEqual(-margin + 1e-9);
          expect(sampled).toBeGreaterThan(-margin - 60);
        }
      }),
      runs(150),
    );
  });

  test('a body swollen by less than its margin stays on, by more goes over', () => {
    fc.assert(
      fc.property(anyShape, fc.constantFrom(...shapesOf), (shape, modules) => {
        const small = { core: shape.core, radius: shape.radius / 20 };
        const margin = deckMargin(modules, small);
        if (margin <= 1e-6) return;
        const swollen = (by: number) => deckMargin(modules, { core: small.core, radius: small.radius + by });
        expect(swollen(margin * 0.999)).toBeCloseTo(margin * 0.001, 9);
        expect(swollen(margin * 1.001)).toBeLessThan(0);
        expect(swollen(margin * 1.001)).toBeGreaterThanOrEqual(-margin * 0.001 - 1e-9);
      }),
      runs(300),
    );
  });

  test('growing a deck by a module never lowers a margin', () => {
    fc.assert(
      fc.property(
        anyShape,
        fc.constantFrom(...shapesOf),
        fc.tuple(
          fc.integer({ min: -300, max: 300 }),
          fc.integer({ min: -300, max: 300 }),
          fc.integer({ min: 10, max: 300 }),
        ),
        (shape, modules, [x, y, size]) => {
          const before = deckMargin(modules, shape);
          const after = deckMargin([...modules, box(x, y, x + size, y + size)], shape);
          expect(after).toBeGreaterThanOrEqual(before - 2e-9);
        },
      ),
      runs(500),
    );
  });

  test('turning deck and body together keeps the margin', () => {
    fc.assert(
      fc.property(anyShape, anyMotion, fc.constantFrom(...shapesOf), (shape, motion, modules) => {
        const there = deckMargin(turnedModules(modules, motion), moved(shape, motion));
        expect(Math.abs(there - deckMargin(modules, shape))).toBeLessThan(3e-9);
      }),
      runs(200),
    );
  });

  test('a convex deck cut into strips answers as the whole does', () => {
    const strips = [0, 1, 2, 3, 4].map((k) => box(k * 80 - 200, -150, k * 80 - 120, 150));
    fc.assert(
      fc.property(anyShape, (shape) => {
        expect(deckMargin(strips, shape)).toBeCloseTo(deckMargin([box(-200, -150, 200, 150)], shape), 9);
      }),
    );
  });
});
