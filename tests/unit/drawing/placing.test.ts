/** The placer of labels against its promises, on random boxes. */
import { describe, expect, test } from 'vitest';
import {
  besideBox,
  boxAt,
  firstFree,
  type Leader,
  meets,
  type Spot,
  segmentMeetsBox,
} from '../../../src/drawing/placing.ts';
import { seeded } from '../../fixtures/kits.ts';

const AIR = 1.5;

describe.each([1, 2, 3, 4, 5])('seed %i', (seed) => {
  const random = seeded(seed);
  const at = () => random() * 100;
  const spot = (): Spot & { readonly leader: Leader } => {
    const [x, y] = [at(), at()];
    return { box: boxAt(x, y, 4 + random() * 8, 3), leader: [x, y, at(), at()] };
  };

  test('a label touches no other, no leader runs through a label, and what it must never be over it is not over', () => {
    const taken = Array.from({ length: 6 }, () => boxAt(at(), at(), 6, 6));
    const placed: Spot[] = [];
    let left = 0;
    for (let k = 0; k < 60; k++) {
      const isOver = ({ box }: Spot) => box.minX < 50 && box.maxX > 50;
      const spots = Array.from({ length: 12 }, spot);
      const obstacles = { others: placed, taken, air: AIR };
      const chosen = firstFree({ spots, isOver, over: 'never' }, obstacles);
      if (!chosen) {
        left++;
        continue;
      }
      expect(isOver(chosen)).toBe(false);
      for (const box of [...taken, ...placed.map((one) => one.box)]) {
        expect(meets(chosen.box, box, AIR)).toBe(false);
        expect(segmentMeetsBox(...chosen.leader, box)).toBe(false);
      }
      for (const { leader } of placed) expect(segmentMeetsBox(...leader!, chosen.box)).toBe(false);
      // None of the spots before it would have done.
      for (const one of spots.slice(0, spots.indexOf(chosen)))
        expect(firstFree({ spots: [one], isOver, over: 'never' }, obstacles)).toBeUndefined();
      placed.push(chosen);
    }
    expect(placed.length).toBeGreaterThan(3);
    expect(left).toBeGreaterThan(0);
  });

  test('boxes beside another have the gap between them on one axis, and lie within it on the other', () => {
    const box = boxAt(at(), at(), 10 + at(), 10 + at());
    const sides = besideBox(box, 8, 4, 3, 2).map(([x, y]) => boxAt(x, y, 8, 4));
    expect(sides[0].minY - box.maxY).toBeCloseTo(2, 9);
    expect(box.minY - sides[1].maxY).toBeCloseTo(2, 9);
    expect(sides[2].minX - box.maxX).toBeCloseTo(3, 9);
    expect(box.minX - sides[3].maxX).toBeCloseTo(3, 9);
  });
});

describe('where nothing is as it should be', () => {
  const spots = [boxAt(0, 0, 4, 4), boxAt(10, 0, 4, 4), boxAt(20, 0, 4, 4)].map((box) => ({ box }));
  test('the first free spot is taken over what the label should keep off', () =>
    expect(firstFree({ spots, isOver: () => true }, { others: [spots[0]] })).toBe(spots[1]));
  test('a later spot that is over nothing is better than an earlier one that is', () =>
    expect(firstFree({ spots, isOver: (one) => one !== spots[2] }, { others: [] })).toBe(spots[2]));
  test('a leader across another is worse than a later spot without, and better than none', () => {
    const others = [{ box: boxAt(50, 50, 2, 2), leader: [-5, 5, 5, -5] as const }];
    const across = { box: boxAt(-20, -20, 2, 2), leader: [-20, -20, 20, 20] as const };
    const plain = { box: boxAt(-20, -20, 2, 2), leader: [-20, -20, -20, -40] as const };
    expect(firstFree({ spots: [across, plain] }, { others })).toBe(plain);
    expect(firstFree({ spots: [across] }, { others })).toBe(across);
  });
  test('where every spot is taken there is none', () =>
    expect(firstFree({ spots }, { others: spots })).toBeUndefined());
});
