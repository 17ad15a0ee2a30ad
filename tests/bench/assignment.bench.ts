/**
 * Assignment of 40 mounts to 80 owned parts (budget: 10 ms), and larger; wastes as arms have them: 0 to 900 mm, a third of the
 * pairs serve. The worst case for the method is that nearly all needs want the same few parts.
 *
 *   npx tsx tests/bench/assignment.bench.ts
 */
import { assign } from '../../src/solve/assignment.ts';
import { checksum, growth, row, type Timing, time } from './timing.ts';

/** Park and Miller's generator, seeded. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

function table(needs: number, parts: number, waste: (i: number, j: number, next: () => number) => number): number[][] {
  const next = random(9);
  return Array.from({ length: needs }, (_, i) => Array.from({ length: parts }, (_, j) => waste(i, j, next)));
}

const sparse = (_i: number, _j: number, next: () => number) =>
  next() < 1 / 3 ? Math.floor(next() * 900_000) / 1000 : Number.POSITIVE_INFINITY;
/** Everyone wants the first parts: long augmenting ways. */
const contested = (i: number, j: number) => (i + 1) * (j + 1);

const times = new Map<number, Timing>();
for (const [needs, parts] of [
  [40, 80],
  [100, 200],
  [400, 800],
]) {
  const own = table(needs, parts, sparse);
  const timing = time(() => assign(own).waste);
  times.set(needs, timing);
  console.log(row(`a third serve, ${parts} parts`, needs, timing));
  const hard = table(needs, parts, contested);
  console.log(
    row(
      `all want the same, ${parts} parts`,
      needs,
      time(() => assign(hard).waste),
    ),
  );
}
console.log(`growth: N^${growth(times.get(40)!, 40, times.get(400)!, 400).toFixed(2)} from 40 to 400 needs`);
console.log(`checksum ${checksum().toExponential(6)}`);
