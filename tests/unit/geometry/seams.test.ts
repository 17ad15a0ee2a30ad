/** Decks laid with rounded numbers are the decks that were meant: no crack, no step, the same best pose within the cracks. */
import { describe, expect, test } from 'vitest';
import { deckOutline, prepareDeck } from '../../../src/geometry/deck.ts';
import { bestPoseConvex, bestShiftConvex } from '../../../src/geometry/pose.ts';
import { bestPosesUnion } from '../../../src/geometry/poseUnion.ts';
import { closeSeams, SEAM_MM } from '../../../src/geometry/seams.ts';
import { capsule, disc, type PolygonCore, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { seeded } from '../../fixtures/kits.ts';
import { seeds } from '../../fixtures/seeds.ts';

const module = (x: number, y: number, w: number, d: number, turn = 0): readonly number[] =>
  (rectangle(x, y, w, d, turn).core as PolygonCore).points;

/** 2 to 8 modules of one size, each beside an earlier one, turned together; and the same with their middles rounded as they are typed. */
function laid(seed: number) {
  const random = seeded(seed * 31);
  const [w, d] = [
    [914.4, 2438.4],
    [2000, 1000],
    [1219.2, 1219.2],
  ][seed % 3];
  const turn = seed % 2 ? 0 : (random() - 0.5) * 0.6;
  const cells: [number, number][] = [[0, 0]];
  const count = 2 + Math.floor(random() * 7);
  while (cells.length < count) {
    const [x, y] = cells[Math.floor(random() * cells.length)];
    const way = [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ][Math.floor(random() * 4)];
    const next: [number, number] = [x + way[0], y + way[1]];
    if (!cells.some(([cx, cy]) => cx === next[0] && cy === next[1])) cells.push(next);
  }
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const step = seed % 5 === 0 ? 25.4 / 16 : 1;
  const [ox, oy] = [random() * 100, random() * 100];
  const middles = cells.map(([x, y]) => [ox + c * x * w - s * y * d, oy + s * x * w + c * y * d]);
  const round = (v: number) => Math.round(v / step) * step;
  return {
    random,
    exact: middles.map(([x, y]) => module(x, y, w, d, turn)),
    typed: middles.map(([x, y]) => module(round(x), round(y), w, d, turn)),
  };
}

const sizes = (modules: readonly (readonly number[])[]) =>
  deckOutline(modules)
    .map((loop) => loop.length)
    .sort();

describe('named cases', () => {
  test('flush modules are left as they are', () => {
    const flush = [module(0, 0, 914.4, 2438.4), module(914.4, 0, 914.4, 2438.4)];
    expect(closeSeams(flush)).toBe(flush);
  });

  test('two modules typed as they were shown are one rectangle', () => {
    // -223 and what 8 3/4 in shows of it; the other rounded to the millimetre.
    const deck = closeSeams([module(-222.25, 0, 914.4, 2438.4), module(691, 1, 914.4, 2438.4)]);
    expect(sizes(deck)).toEqual([8]);
    expect(prepareDeck(deck).convex).toBe(true);
  });

  test('a crack, an overlap and a step of 3 mm go; 3.2 mm stay', () => {
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
    ]) {
      const two = (by: number) => closeSeams([module(0, 0, 1000, 2000), module(1000 + dx * by, dy * by, 1000, 2000)]);
      expect(sizes(two(SEAM_MM - 0.01)), `${dx} ${dy}`).toEqual([8]);
      const wide = [module(0, 0, 1000, 2000), module(1000 + dx * (SEAM_MM + 0.2), dy * (SEAM_MM + 0.2), 1000, 2000)];
      expect(closeSeams(wide), `${dx} ${dy}`).toBe(wide);
    }
  });

  test('a flight of small steps is no straight side', () => {
    const steps = [0, 1, 2, 3, 4, 5].map((k) => module(1000 * k, 2.5 * k, 1000, 2000));
    const loop = deckOutline(closeSeams(steps))[0];
    const ys = loop.filter((_, i) => i % 2 === 1);
    expect(Math.max(...ys) - Math.min(...ys)).toBeGreaterThan(2000 + 2.5 * 5 - 2 * SEAM_MM);
  });
});

describe('law: decks of 2 to 8 modules laid with typed numbers', () => {
  test.each(seeds(200, 40))('deck %i: the outline that was meant', (seed) => {
    const { exact, typed } = laid(seed);
    const closed = closeSeams(typed);
    expect(sizes(closed)).toEqual(sizes(exact));
    closed.forEach((points, m) => {
      points.forEach((v, i) => {
        expect(Math.abs(v - typed[m][i])).toBeLessThanOrEqual(SEAM_MM * Math.SQRT2);
      });
    });
    // Once closed, they stay as they are.
    expect(closeSeams(closed)).toBe(closed);
  });

  test.each(seeds(40, 4))('deck %i: the same best pose within the cracks', (seed) => {
    const { exact, typed, random } = laid(seed);
    const spot = () => [(random() - 0.5) * 1000, (random() - 0.5) * 700] as const;
    const kit: Swept[] = [0, 1, 2, 3].flatMap(() => {
      const [[x, y], [u, v]] = [spot(), spot()];
      return [disc(x, y, 20), capsule(u, v, u + 200, v + 60, 15)];
    });
    const turns = { least: -0.26, most: 0.26 };
    const best = (modules: readonly (readonly number[])[]) => {
      const deck = prepareDeck(modules);
      const [loop] = deck.outline;
      if (deck.convex) return [bestPoseConvex(loop, kit, turns).margin, bestShiftConvex(loop, kit).margin];
      const { pose, shift } = bestPosesUnion(deck, kit, turns);
      return [pose?.margin ?? 0, shift?.margin ?? 0];
    };
    const [meant, got] = [best(exact), best(closeSeams(typed))];
    for (const k of [0, 1]) expect(Math.abs(got[k] - meant[k])).toBeLessThanOrEqual(SEAM_MM);
  });
});
