/** What labels cost, counted: the work for a label must not grow with how many there are. */
import { expect, test } from 'vitest';
import { BoxGrid } from '../../../src/drawing/boxGrid.ts';
import type { DrawnBox } from '../../../src/drawing/displayList.ts';
import { bareField, numberRequest, placeLabels } from '../../../src/drawing/labels.ts';
import { boxAt, firstFree, type Leader, meets, Placed, type Spot } from '../../../src/drawing/placing.ts';
import { seeded } from '../../fixtures/kits.ts';

/** Numbers for marks as thick on the page whatever their count. */
function looksOf(count: number): number {
  const random = seeded(count);
  const side = 12 * Math.sqrt(count);
  const bounds = { minX: 0, minY: 0, maxX: side, maxY: side };
  const requests = Array.from({ length: count }, (_, k) =>
    numberRequest({
      ...{ id: `${k}`, text: `${k}`, form: 'flag', pieceId: null },
      ...{ x: side * random(), y: side * random() },
    }),
  );
  const work = { looks: 0 };
  placeLabels(requests, bareField([], { bounds, scale: 1, measure: (text, size) => text.length * size * 0.5 }), work);
  return work.looks;
}

test('a label looks at its neighbours, however many others there are', () => {
  // Among all of them it would be hundreds of them for each, and more the more there are.
  for (const count of [100, 400, 1600]) expect(looksOf(count) / count, `${count} labels`).toBeLessThan(150);
});

test('a spot is free among labels in a grid where it is free among the same in a list', () => {
  for (let seed = 1; seed <= 20; seed++) {
    const random = seeded(seed);
    const at = () => random() * 100 - 30;
    const spot = (): Spot => {
      const leader: Leader | null = random() < 0.5 ? null : [at(), at(), at(), at()];
      return { box: boxAt(at(), at(), 2 + random() * 9, 3), leader };
    };
    const list = Array.from({ length: 25 }, spot);
    const air = seed % 3;
    const grid = new Placed(1 + random() * 12, air, list);
    for (let k = 0; k < 5; k++) {
      const out = spot();
      grid.add(out);
      grid.remove(out);
    }
    for (let k = 0; k < 60; k++) {
      const spots = [spot(), spot(), spot()];
      expect(firstFree({ spots }, { others: grid, air })).toBe(firstFree({ spots }, { others: list, air }));
    }
  }
});

test('a grid finds what a look at everything finds, also far out and as wide as everything', () => {
  const random = seeded(5);
  const grid = new BoxGrid<number>(3);
  const boxes: DrawnBox[] = Array.from({ length: 60 }, (_, k) =>
    boxAt((random() - 0.5) * 1e6 * (k % 3), (random() - 0.5) * 200, random() * (k % 7 ? 20 : 1e5), random() * 20),
  );
  boxes.forEach((box, k) => {
    grid.add(k, box);
  });
  for (let k = 0; k < 200; k++) {
    const box = boxAt((random() - 0.5) * 100 * (k % 40), (random() - 0.5) * 200, k % 5 ? 10 : 1e5, 10);
    const found: number[] = [];
    grid.some(box, (item) => {
      found.push(item);
      return false;
    });
    const plain = boxes.flatMap((other, at) => (meets(box, other) ? [at] : []));
    expect(found.sort((a, b) => a - b)).toEqual(plain);
  }
});
