/** What margins cost on decks of many modules, counted: the work for one body must not grow with a deck's size, and little for a body amid a ring. */
import { expect, test } from 'vitest';
import { deckMargin, prepareDeck } from '../../../src/geometry/deck.ts';
import { bentCapsule, capsule, disc, type PolygonCore, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { signedDistance } from '../../../src/geometry/unionInside.ts';
import { seeded } from '../../fixtures/kits.ts';

const module = (x: number, y: number, w: number, d: number, turn: number): readonly number[] =>
  (rectangle(x, y, w, d, turn).core as PolygonCore).points;

/** Modules side by side round a ring, their inner sides about `radius` from its middle. */
function ring(n: number, radius = n * 260) {
  return Array.from({ length: n }, (_, k) => {
    const a = (2 * Math.PI * k) / n;
    return module(radius * Math.cos(a), radius * Math.sin(a), 1200, 2400, a);
  });
}

/** What stands about the middle of a ring, or on its modules. */
function bodies(seed: number, n: number): Swept[] {
  const random = seeded(seed);
  return Array.from({ length: 24 }, (_, k) => {
    const [a, far] = [random() * 2 * Math.PI, (k % 2) * n * 260 + (random() - 0.5) * 1500];
    const [x, y, t] = [far * Math.cos(a), far * Math.sin(a), random() * 6];
    if (k % 4 === 0) return disc(x, y, 20 + 300 * random());
    if (k % 4 === 1) return capsule(x, y, x + 700 * Math.cos(t), y + 700 * Math.sin(t), 19);
    return k % 4 === 2 ? rectangle(x, y, 500, 400, t) : bentCapsule(x, y, 600, t, 2, 19);
  });
}

test('margins of a kit on a ring of modules look at about as much whether it has 24 of them or 96', () => {
  const looks = [24, 48, 96].map((n) => {
    const deck = prepareDeck(ring(n));
    const work = { looks: 0 };
    for (const body of bodies(7, n)) deckMargin(deck, body, work);
    return work.looks;
  });
  // Each body looks once at every side; all else is near it.
  expect(looks[1]).toBeLessThan(2.5 * looks[0]);
  expect(looks[2]).toBeLessThan(2.5 * looks[1]);
  expect(looks[2]).toBeLessThan(150_000);
});

test('a body over the middle of a ring hangs out as far as the middle is from every module', () => {
  for (const n of [5, 24, 60]) {
    const deck = prepareDeck(ring(n, 6000));
    for (const body of [disc(3, 4, 50), rectangle(10, -20, 300, 200, 0.3), disc(0, 0, 5000)])
      expect(deckMargin(deck, body)).toBeCloseTo(-5400, 7);
  }
});

test('bodies on random decks: no point of a dense strew lies farther off the deck, and one comes near the margin', () => {
  for (let seed = 1; seed <= 6; seed++) {
    const random = seeded(seed * 91);
    const turn = seed % 2 ? 0 : 1;
    const modules = Array.from({ length: 4 + seed }, () =>
      module(4000 * random(), 4000 * random(), 500 + 1000 * random(), 500 + 500 * random(), turn * 6 * random()),
    );
    const deck = prepareDeck(modules);
    for (let k = 0; k < 6; k++) {
      const [x, y, r] = [4000 * random(), 4000 * random(), 100 + 800 * random()];
      const margin = deckMargin(deck, disc(x, y, r));
      let far = 0;
      for (let i = 0; i <= 200; i++)
        for (let j = 0; j <= 200; j++) {
          const [px, py] = [x - r + (i * r) / 100, y - r + (j * r) / 100];
          if (Math.hypot(px - x, py - y) > r) continue;
          far = Math.max(far, Math.min(...deck.modules.map((one) => Math.max(0, signedDistance(one, px, py)))));
        }
      expect(Math.max(0, -margin)).toBeGreaterThanOrEqual(far - 1e-9);
      // Steps of a hundredth of the radius.
      expect(Math.max(0, -margin)).toBeLessThanOrEqual(far + 0.015 * r);
    }
  }
});
