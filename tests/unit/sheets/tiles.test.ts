import { describe, expect, test } from 'vitest';
import { pieceEnd, pieceStart } from '../../../src/geometry/loops.ts';
import type { ArcPiece, Piece } from '../../../src/geometry/outline.ts';
import { clipArc, clipPieces, clipSegment, columnName, tilesFor } from '../../../src/sheets/tiles.ts';
import { seeds } from '../../fixtures/seeds.ts';

const box = { minX: 0, minY: 0, maxX: 100, maxY: 50 };

/** Numbers from 0 to 1, the same every time. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const lengthOf = (p: Piece) => (p.kind === 'segment' ? Math.hypot(p.x1 - p.x0, p.y1 - p.y0) : p.r * Math.abs(p.sweep));

test.each([
  ['through', { x0: -50, y0: 25, x1: 150, y1: 25 }, [0, 25, 100, 25]],
  ['within', { x0: 10, y0: 10, x1: 20, y1: 40 }, [10, 10, 20, 40]],
  ['in from a corner', { x0: -50, y0: -50, x1: 50, y1: 50 }, [0, 0, 50, 50]],
])('a straight stretch %s', (_, s, [x0, y0, x1, y1]) =>
  expect(clipSegment({ kind: 'segment', ...s }, box)).toEqual({ kind: 'segment', x0, y0, x1, y1 }),
);

test.each([
  ['beside', { x0: -10, y0: 0, x1: -10, y1: 50 }],
  ['past a corner', { x0: -30, y0: 20, x1: 20, y1: -30 }],
  ['touching a corner alone', { x0: -30, y0: 30, x1: 30, y1: -30 }],
])('a straight stretch %s has no part in it', (_, s) => expect(clipSegment({ kind: 'segment', ...s }, box)).toBeNull());

test('a circle about a corner leaves its quarter, as an arc of the same circle', () => {
  const [part, ...others] = clipArc({ kind: 'arc', cx: 0, cy: 0, r: 20, start: 0, sweep: 2 * Math.PI }, box);
  expect(others).toEqual([]);
  expect(part).toMatchObject({ kind: 'arc', cx: 0, cy: 0, r: 20 });
  expect(part.start).toBeCloseTo(0, 12);
  expect(part.sweep).toBeCloseTo(Math.PI / 2, 12);
});

test('a circle that bulges out over two edges leaves two arcs', () => {
  const parts = clipArc({ kind: 'arc', cx: 50, cy: 25, r: 30, start: 1, sweep: 2 * Math.PI }, box);
  expect(parts).toHaveLength(2);
  // Out above and below where sin > 25/30: what is left is twice the arc between.
  const left = parts.reduce((sum, { sweep }) => sum + sweep, 0);
  expect(left).toBeCloseTo(4 * Math.asin(25 / 30), 9);
});

test('law: parts of an arc in the tiles of a plane add up to the arc, keep its direction, and lie in their tile', () => {
  for (const n of seeds(500, 50)) {
    const random = seeded(n);
    const arc: ArcPiece = {
      kind: 'arc',
      cx: 400 * (random() - 0.5),
      cy: 400 * (random() - 0.5),
      r: 5 + 150 * random(),
      start: 12 * (random() - 0.5),
      sweep: (random() < 0.5 ? -1 : 1) * (0.1 + random() * (2 * Math.PI - 0.1)),
    };
    const line: Piece = {
      kind: 'segment',
      x0: 600 * (random() - 0.5),
      y0: 600 * (random() - 0.5),
      x1: 600 * (random() - 0.5),
      y1: 600 * (random() - 0.5),
    };
    for (const piece of [arc, line]) {
      let sum = 0;
      for (let i = -8; i < 8; i++)
        for (let j = -8; j < 8; j++) {
          const tile = { minX: i * 60, minY: j * 60, maxX: i * 60 + 60, maxY: j * 60 + 60 };
          for (const part of clipPieces([piece], tile)) {
            sum += lengthOf(part);
            for (const [x, y] of [pieceStart(part), pieceEnd(part)]) {
              expect(x).toBeGreaterThan(tile.minX - 1e-9);
              expect(x).toBeLessThan(tile.maxX + 1e-9);
              expect(y).toBeGreaterThan(tile.minY - 1e-9);
              expect(y).toBeLessThan(tile.maxY + 1e-9);
            }
            if (part.kind === 'arc') expect(Math.sign(part.sweep)).toBe(Math.sign(arc.sweep));
          }
        }
      // Stretches shorter than 0.002 mm are dropped at some edges.
      expect(Math.abs(sum - lengthOf(piece)), JSON.stringify(piece)).toBeLessThan(0.1);
    }
  }
});

describe('the grid', () => {
  const square = (x: number, y: number, w: number): Piece[] =>
    [
      [x, y, x + w, y],
      [x + w, y, x + w, y + w],
      [x + w, y + w, x, y + w],
      [x, y + w, x, y],
    ].map(([x0, y0, x1, y1]) => ({ kind: 'segment', x0, y0, x1, y1 }));

  test('covers the drawing, each tile lying over the one before by the overlap', () => {
    const shapes = [square(0, 0, 50), square(900, 700, 50)];
    const within = { minX: -10, minY: -10, maxX: 960, maxY: 760 };
    const { tiles, columns, rows, box: all } = tilesFor(shapes, within, 190, 277, 10);
    expect(columns * 180 + 10).toBeGreaterThanOrEqual(970);
    expect((columns - 1) * 180 + 10).toBeLessThan(970);
    expect(rows).toBe(3);
    expect(all.minX).toBeLessThanOrEqual(within.minX);
    expect(all.maxY).toBeGreaterThanOrEqual(within.maxY);
    for (const { column, row, box: own } of tiles) {
      expect(own.minX).toBeCloseTo(all.minX + column * 180, 9);
      expect(own.maxY).toBeCloseTo(all.minY + row * 267 + 277, 9);
    }
  });

  test('leaves out what shows nothing, and shifts so that fewer pages are needed', () => {
    const within = { minX: -10, minY: -10, maxX: 960, maxY: 760 };
    const { tiles } = tilesFor([square(0, 0, 50), square(900, 700, 50)], within, 190, 277, 10);
    expect(tiles).toHaveLength(2);
    expect(new Set(tiles.map(({ name }) => name)).size).toBe(2);
  });
});

test.each([
  [0, 'A'],
  [25, 'Z'],
  [26, 'AA'],
  [52, 'BA'],
])('column %i is %s', (column, name) => expect(columnName(column)).toBe(name));
