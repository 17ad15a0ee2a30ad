/** The assignment against every possible way (brute force), its laws, and cases by hand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assign } from '../../../src/solve/assignment.ts';
import { runs } from '../../fixtures/seeds.ts';

const NO = Number.POSITIVE_INFINITY;

/** Tries every way to serve the needs: [fewest missing, least waste in thousandths]. */
function bruteForce(waste: readonly (readonly number[])[]): [number, number] {
  let best: [number, number] = [NO, NO];
  const used = new Set<number>();
  const go = (i: number, missing: number, sum: number) => {
    if (i === waste.length) {
      if (missing < best[0] || (missing === best[0] && sum < best[1])) best = [missing, sum];
      return;
    }
    go(i + 1, missing + 1, sum);
    waste[i].forEach((each, j) => {
      if (used.has(j) || each === NO) return;
      used.add(j);
      go(i + 1, missing, sum + Math.round(each * 1000));
      used.delete(j);
    });
  };
  go(0, 0, 0);
  return best;
}

/** Every served need has a part of its own that can serve it, and the sums are those of the list. */
function expectSound(waste: readonly (readonly number[])[]) {
  const found = assign(waste);
  const served = found.part.flatMap((j, i) => (j === null ? [] : [[i, j] as const]));
  expect(new Set(served.map(([, j]) => j)).size).toBe(served.length);
  for (const [i, j] of served) expect(waste[i][j]).toBeLessThan(NO);
  expect(found.missing).toBe(waste.length - served.length);
  expect(found.waste * 1000).toBeCloseTo(
    served.reduce((sum, [i, j]) => sum + Math.round(waste[i][j] * 1000), 0),
    3,
  );
  return found;
}

const tables = (needs: number, parts: number) =>
  fc
    .record({
      needs: fc.integer({ min: 1, max: needs }),
      parts: fc.integer({ min: 0, max: parts }),
    })
    .chain((size) => {
      const waste = fc.oneof(fc.constant(NO), fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 900_000 }));
      const row = fc.array(waste, { minLength: size.parts, maxLength: size.parts });
      return fc.array(row, { minLength: size.needs, maxLength: size.needs });
    });

describe('by hand', () => {
  test.each([
    ['nothing needed', [], [], 0],
    ['nothing owned', [[], []], [null, null], 0],
    ['one of two does with less waste', [[30, 10]], [1], 10],
    [
      'the near one is left to who has no other',
      [
        [10, 500],
        [20, NO],
      ],
      [1, 0],
      520,
    ],
    [
      'fewest missing goes before least waste',
      [
        [0, NO],
        [0, 1e6],
      ],
      [0, 1],
      1e6,
    ],
    ['two needs, one part: the one with less waste gets it', [[40], [7]], [null, 0], 7],
    ['nothing serves', [[NO, NO]], [null], 0],
    [
      'a chain of three moves up',
      [
        [1, NO, NO],
        [1, 2, NO],
        [NO, 2, 3],
      ],
      [0, 1, 2],
      6,
    ],
  ])('%s', (_, waste, part, total) => {
    const found = expectSound(waste);
    expect([found.part, found.waste]).toEqual([part, total]);
  });
});

test('as good as the best of all ways, tables of up to 6 needs and 6 parts', () => {
  fc.assert(
    fc.property(tables(6, 6), (waste) => {
      const found = expectSound(waste);
      expect([found.missing, Math.round(found.waste * 1000)]).toEqual(bruteForce(waste));
    }),
    runs(400),
  );
});

describe('laws, up to 15 needs and 20 parts', () => {
  const check = (law: (waste: number[][]) => void) => fc.assert(fc.property(tables(15, 20), law), runs(150));

  test('the order of needs and parts changes neither count nor waste', () =>
    check((waste) => {
      const turned = waste.map((row) => [...row].reverse()).reverse();
      const [a, b] = [expectSound(waste), expectSound(turned)];
      expect([b.missing, b.waste]).toEqual([a.missing, a.waste]);
    }));

  test('one more part never leaves more missing', () =>
    check((waste) => {
      const more = expectSound(waste.map((row, i) => [...row, i % 3 === 0 ? 5 : NO]));
      const before = expectSound(waste);
      expect(more.missing).toBeLessThanOrEqual(before.missing);
      if (more.missing === before.missing) expect(more.waste).toBeLessThanOrEqual(before.waste);
    }));

  test('the same table gives the same answer', () =>
    check((waste) => {
      expect(assign(structuredClone(waste))).toEqual(assign(waste));
    }));
});

test('a waste below a thousandth counts as its rounding', () => expect(assign([[0.0004, 0.0011]]).waste).toBe(0));

test.each([
  ['a negative waste', [[-1]], 'A waste cannot be negative, and one is -1.'],
  ['rows of different lengths', [[1], [1, 2]], 'Every need must say its waste with every part.'],
  ['wastes beyond exact numbers', [[1e15]], 'These wastes are too large to add up exactly.'],
])('%s is refused', (_, waste, sentence) => expect(() => assign(waste)).toThrow(sentence));
