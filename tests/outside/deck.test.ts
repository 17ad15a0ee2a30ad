/**
 * Decks against geos-wasm 3.1.1. Union and area of the modules: GEOSUnaryUnion. Margin of a body on the deck: GEOSDistance from
 * the union's boundary. Overhang: the body lies within GEOSBuffer(deck, overhang + t) and not within GEOSBuffer(deck,
 * overhang - t), where t covers the flattening: 0.001 mm on bodies, 400 chords a quarter turn on buffers (2e-6 of the overhang).
 */
import { describe, expect, test } from 'vitest';
import { deckArea, deckMargin, prepareDeck } from '../../src/geometry/deck.ts';
import { moved } from '../../src/geometry/shapes.ts';
import { flatten } from '../fixtures/flatten.ts';
import { kitBodies, seeded } from '../fixtures/kits.ts';
import { geos } from '../fixtures/polygonPrograms.ts';

const box = (x0: number, y0: number, x1: number, y1: number) => [x0, y0, x1, y0, x1, y1, x0, y1];
const decks: [string, number[][]][] = [
  ['rectangle of modules', [box(-1000, -1000, 0, 1000), box(0, -1000, 1000, 1000)]],
  ['L', [box(-1000, -1000, 0, 1000), box(0, -1000, 1000, 0)]],
  ['T', [box(-1500, 0, 1500, 1000), box(-500, -1000, 500, 0)]],
  ['U with a narrow throat', [box(-1000, -1000, 1000, -400), box(-1000, -400, -100, 1000), box(150, -400, 1000, 1000)]],
  [
    'ring',
    [
      box(-1000, -1000, 1000, -300),
      box(-1000, 400, 1000, 1000),
      box(-1000, -300, -300, 400),
      box(500, -300, 1000, 400),
    ],
  ],
  ['slits', [box(-1000, -1000, -5, 1000), box(5, -1000, 1000, 1000), box(-1000, -1200, 1000, -990)]],
  [
    'overlapping and aslant',
    [
      [-900, -800, 700, -1000, 900, 300, -700, 500],
      [-300, 100, 800, 200, 600, 1100, -500, 900],
    ],
  ],
];
const TOLERANCE_MM = 0.004;

describe.each(decks)('%s', (_, modules) => {
  const deck = prepareDeck(modules);

  test('area', async () => {
    const g = await geos();
    const union = g.union(g.collection(modules.map((outer) => ({ outer, holes: [] }))));
    expect(Math.abs(deckArea(deck) - g.area(union))).toBeLessThan(1e-6);
  });

  test('margins of the bodies of three kits', async () => {
    const g = await geos();
    const union = g.union(g.collection(modules.map((outer) => ({ outer, holes: [] }))));
    const random = seeded(9);
    let on = 0;
    let over = 0;
    for (let seed = 1; seed <= 3; seed++) {
      for (const { shape } of kitBodies(26, seed)) {
        const body = moved(shape, { angle: random() * 6, dx: random() * 400 - 200, dy: random() * 400 - 200 });
        const polygon = g.polygon(flatten(body, 0.001, 'inside'));
        const margin = deckMargin(deck, body);
        if (g.covers(union, polygon) && margin > -TOLERANCE_MM) {
          on++;
          expect(Math.abs(margin - g.boundaryDistance(union, polygon))).toBeLessThan(TOLERANCE_MM);
          continue;
        }
        over++;
        expect(margin).toBeLessThan(TOLERANCE_MM);
        const wide = g.buffer(union, -margin + TOLERANCE_MM, 400);
        expect(g.covers(wide, polygon)).toBe(true);
        g.destroy(wide);
        if (-margin <= 2 * TOLERANCE_MM) continue;
        const narrow = g.buffer(union, -margin - TOLERANCE_MM, 400);
        expect(g.covers(narrow, polygon)).toBe(false);
        g.destroy(narrow);
      }
    }
    expect(on).toBeGreaterThan(0);
    expect(over).toBeGreaterThan(3);
  }, 60000);
});
