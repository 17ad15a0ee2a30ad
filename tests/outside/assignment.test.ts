/**
 * The assignment against a general solver: HiGHS (npm highs, MIT; Huangfu and Hall, Mathematical Programming Computation 10, 2018), which knows
 * nothing of assignments. It is asked twice: for the most needs that can be served, then for the least waste among such ways. Wastes are
 * whole mm, so its answers round to whole numbers; its own tolerance is 1e-7.
 */
import loadHighs from 'highs';
import { beforeAll, expect, test } from 'vitest';
import { assign } from '../../src/solve/assignment.ts';

const NO = Number.POSITIVE_INFINITY;

/** Park and Miller's generator (Communications of the ACM 31, 1988): the same tables on every machine. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

/** `open`: the share of pairs that serve; `most`: wastes run from 0 to this many mm. */
function table(needs: number, parts: number, open: number, most: number, seed: number): number[][] {
  const next = random(seed);
  return Array.from({ length: needs }, () =>
    Array.from({ length: parts }, () => (next() < open ? Math.floor(next() * (most + 1)) : NO)),
  );
}

/** As a linear program in CPLEX LP text: x_i_j is 1 where need i is served by part j. */
function program(waste: readonly (readonly number[])[], served: number | null): string {
  const pairs = waste.flatMap((row, i) => row.flatMap((each, j) => (each === NO ? [] : [{ i, j, each }])));
  const sum = (of: typeof pairs, factor: (pair: (typeof pairs)[number]) => number) =>
    of.map((pair) => `${factor(pair)} x_${pair.i}_${pair.j}`).join('\n + ');
  const one = () => 1;
  const rows = [...new Set(pairs.map(({ i }) => i))].map(
    (i) =>
      ` need${i}: ${sum(
        pairs.filter((pair) => pair.i === i),
        one,
      )} <= 1`,
  );
  const columns = [...new Set(pairs.map(({ j }) => j))].map(
    (j) =>
      ` part${j}: ${sum(
        pairs.filter((pair) => pair.j === j),
        one,
      )} <= 1`,
  );
  const all = served === null ? [] : [` all: ${sum(pairs, one)} = ${served}`];
  const goal =
    served === null ? `Maximize\n obj: ${sum(pairs, one)}` : `Minimize\n obj: ${sum(pairs, ({ each }) => each)}`;
  const names = pairs.map(({ i, j }) => ` x_${i}_${j}`).join('\n');
  return `${goal}\nSubject To\n${[...rows, ...columns, ...all].join('\n')}\nBinary\n${names}\nEnd\n`;
}

let highs: Awaited<ReturnType<typeof loadHighs>>;
beforeAll(async () => {
  highs = await loadHighs();
});

function optimum(text: string): number {
  const solved = highs.solve(text, { output_flag: false });
  expect(solved.Status).toBe('Optimal');
  return Math.round(solved.ObjectiveValue);
}

test.each([
  // needs, parts, share open, largest waste, seed
  [12, 15, 0.5, 300, 1],
  [20, 20, 0.3, 900, 2],
  [20, 12, 0.4, 900, 3],
  [40, 80, 0.2, 900, 4],
  [40, 80, 0.03, 900, 5],
  [40, 80, 0.5, 5, 6],
  [60, 60, 0.08, 900, 7],
])('%i needs, %i parts, %f of pairs serve, waste up to %i mm, seed %i', (needs, parts, open, most, seed) => {
  const waste = table(needs, parts, open, most, seed);
  const found = assign(waste);
  const served = optimum(program(waste, null));
  expect(needs - found.missing).toBe(served);
  expect(found.waste).toBe(optimum(program(waste, served)));
});

test('these tables try both: some leave needs without a part, some do not', () => {
  expect(assign(table(20, 12, 0.4, 900, 3)).missing).toBeGreaterThanOrEqual(8);
  expect(assign(table(40, 80, 0.03, 900, 5)).missing).toBeGreaterThan(0);
  expect(assign(table(40, 80, 0.2, 900, 4)).missing).toBe(0);
});
