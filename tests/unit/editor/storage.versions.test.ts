/** Which states of a plan stay. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NEWEST_VERSIONS, VERSIONS, versionsToThin } from '../../../src/editor/storage/versions.ts';
import { runs } from '../../fixtures/seeds.ts';

const counts = fc.uniqueArray(fc.integer({ min: 0, max: 10_000 }), { maxLength: 150 });

test('fifty stay at the most: the first, the newest twenty, and nothing goes that need not', () => {
  fc.assert(
    fc.property(counts, (all) => {
      const gone = new Set(versionsToThin(all));
      const sorted = [...all].sort((a, b) => a - b);
      const stay = sorted.filter((n) => !gone.has(n));
      expect(stay).toHaveLength(Math.min(all.length, VERSIONS));
      expect(stay.slice(-NEWEST_VERSIONS)).toEqual(sorted.slice(-NEWEST_VERSIONS));
      expect(stay[0]).toBe(sorted[0]);
    }),
    runs(200),
  );
});

test('a year of work, a state at a time: what stays is spread over all of it', () => {
  let stay: number[] = [];
  for (let n = 0; n < 20_000; n += 5) {
    stay.push(n);
    const gone = new Set(versionsToThin(stay));
    stay = stay.filter((each) => !gone.has(each));
  }
  const old = stay.slice(0, VERSIONS - NEWEST_VERSIONS);
  const gaps = old.slice(1).map((n, k) => n - old[k]);
  expect(stay).toHaveLength(VERSIONS);
  expect(stay[0]).toBe(0);
  // Never more than four times as far apart as they would be if the space were shared out evenly.
  expect(Math.max(...gaps)).toBeLessThan((4 * 20_000) / old.length);
});
