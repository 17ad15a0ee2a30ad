/**
 * All pairs of a kit closer than 60 mm: our kernel against the fastest general library that gets them right,
 * geos-wasm with prepared geometries on outlines flattened at 0.05 mm, in one run and one process.
 *
 *   npx tsx tests/bench/gap.bench.ts
 *
 * Ours is bundled first, by the bundler that makes the page, because that is the code people run. Both get their
 * bodies ready made (table filled, geometries prepared); filling our table is a column of its own. The library has no
 * heights: for the rows with heights its caller leaves out pairs that are apart in height before asking. Times are the
 * least and the median of rounds, each of many runs. Prints ratios of the least times, which other programs disturb least, growth from 100 to 5000, and the largest
 * difference of gaps.
 */
import { readFileSync } from 'node:fs';
import initGeosJs from 'geos-wasm';
import { build } from 'vite';
import type * as PairsModule from '../../src/geometry/pairs.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { readPlan } from '../../src/plan/read.ts';
import { kitBodies } from '../fixtures/kits.ts';
import { flattened } from '../outside/gapFlatten.ts';

const REACH_MM = 60;
const HEIGHT_SLACK_MM = 20;
const SEED = 7;
const FLAT_MM = 0.05;

async function bundled(): Promise<typeof PairsModule> {
  const result = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      target: 'es2022',
      lib: {
        entry: new URL('../../src/geometry/pairs.ts', import.meta.url).pathname,
        formats: ['es'],
        fileName: 'pairs',
      },
    },
  });
  const [first] = Array.isArray(result) ? result : [result];
  if (!('output' in first)) throw new Error('The bundler watched instead of building.');
  return import(`data:text/javascript;base64,${Buffer.from(first.output[0].code).toString('base64')}`);
}

/** Least and median milliseconds of one run, over rounds that each last about 20 ms. */
function time(run: () => void): { least: number; median: number } {
  const once = performance.now();
  run();
  const runs = Math.max(1, Math.min(5000, Math.round(20 / (performance.now() - once))));
  const rounds: number[] = [];
  for (let round = 0; round < 25; round++) {
    const from = performance.now();
    for (let k = 0; k < runs; k++) run();
    rounds.push((performance.now() - from) / runs);
  }
  rounds.sort((a, b) => a - b);
  return { least: rounds[0], median: rounds[12] };
}

const text = ({ least, median }: { least: number; median: number }) =>
  `${least.toFixed(4).padStart(10)} ${median.toFixed(4).padStart(10)}`;

const { closePairs, CoreTable, Pairs } = await bundled();
const geos = await initGeosJs();
const out = new Pairs();
let sink = 0;

/** Prepared outlines and an index of their boxes is what the library offers for this; the caller bounds by boxes. */
function library(n: number, heightSlackMm: number) {
  const bodies = kitBodies(n, SEED);
  const table = CoreTable.of(bodies);
  const reader = geos.GEOSWKTReader_create();
  const geometries = bodies.map(({ shape }) => {
    const ring = flattened(shape, FLAT_MM);
    const wkt = `POLYGON((${ring.map(([x, y]) => `${x} ${y}`).join(',')},${ring[0][0]} ${ring[0][1]}))`;
    const size = wkt.length + 1;
    const at = geos.Module._malloc(size);
    geos.Module.stringToUTF8(wkt, at, size);
    const geometry = geos.GEOSWKTReader_read(reader, at);
    geos.Module._free(at);
    return geometry;
  });
  const prepared = geometries.map((geometry) => geos.GEOSPrepare(geometry));
  const result = geos.Module._malloc(8);
  const { minX, minY, maxX, maxY, z0, z1 } = table;
  return (found: (i: number, j: number, gap: number) => void) => {
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++) {
        if (minX[j] - maxX[i] >= REACH_MM || minX[i] - maxX[j] >= REACH_MM) continue;
        if (minY[j] - maxY[i] >= REACH_MM || minY[i] - maxY[j] >= REACH_MM) continue;
        if (z0[j] - z1[i] >= heightSlackMm || z0[i] - z1[j] >= heightSlackMm) continue;
        geos.GEOSPreparedDistance(prepared[i], geometries[j], result);
        const gap = geos.Module.getValue(result, 'double');
        if (gap < REACH_MM) found(i, j, gap);
      }
  };
}

console.log(`All pairs closer than ${REACH_MM} mm, seed ${SEED}, node ${process.version}; ms least and median`);
console.log('bodies  pairs       ours: every height     with heights      filling the table');
const least = new Map<number, number>();
for (const n of [30, 100, 500, 1000, 5000]) {
  const bodies = kitBodies(n, SEED);
  const table = CoreTable.of(bodies);
  const all = time(() => {
    sink += closePairs(table, REACH_MM, { heightSlackMm: Number.POSITIVE_INFINITY, out }).count;
  });
  const pairs = out.count;
  const high = time(() => {
    sink += closePairs(table, REACH_MM, { heightSlackMm: HEIGHT_SLACK_MM, out }).count;
  });
  const filled = time(() => {
    table.clear();
    for (const { shape, z0, z1 } of bodies) table.add(shape, z0, z1);
  });
  least.set(n, high.least);
  console.log(`${String(n).padStart(6)} ${String(pairs).padStart(6)} ${text(all)} ${text(high)} ${text(filled)}`);
}
{
  const read = readPlan(readFileSync(new URL('../../samples/sixty-pieces.legroom.json', import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  const { bodies } = layoutSetup(read.plan, read.plan.order[0]);
  const table = CoreTable.of(bodies);
  const high = time(() => {
    sink += closePairs(table, REACH_MM, { heightSlackMm: HEIGHT_SLACK_MM, out }).count;
  });
  console.log(`sample of sixty pieces, ${bodies.length} bodies, ${out.count} pairs with heights: ${text(high)}`);
}
const growth = Math.log(least.get(5000)! / least.get(100)!) / Math.log(50);
console.log(`growth from 100 to 5000 with heights: N^${growth.toFixed(2)}`);

for (const [n, heightSlackMm] of [
  [100, HEIGHT_SLACK_MM],
  [1000, HEIGHT_SLACK_MM],
  [30, Number.POSITIVE_INFINITY],
  [100, Number.POSITIVE_INFINITY],
  [1000, Number.POSITIVE_INFINITY],
]) {
  const table = CoreTable.of(kitBodies(n, SEED));
  const ours = time(() => {
    sink += closePairs(table, REACH_MM, { heightSlackMm, out }).count;
  });
  const run = library(n, heightSlackMm);
  const theirs = time(() => run((_i, _j, gap) => (sink += gap)));
  let worst = 0;
  let found = 0;
  const gaps = new Map<number, number>();
  for (let k = 0; k < out.count; k++) gaps.set(out.ia[k] * n + out.ib[k], out.gap[k]);
  run((i, j, gap) => {
    found++;
    // The library gives 0 where outlines overlap, we the overlap.
    const own = Math.max(0, gaps.get(i * n + j) ?? Number.NaN);
    if (!(Math.abs(own - gap) <= worst)) worst = Math.abs(own - gap);
  });
  const ratio = (theirs.least / ours.least).toFixed(0);
  console.log(
    `${n} bodies${Number.isFinite(heightSlackMm) ? ' with heights' : ''}: geos-wasm prepared ${text(theirs)}, ours ${text(ours)}: ${ratio} times; ` +
      `pairs ${found} and ${out.count}, gaps differ by at most ${worst.toFixed(3)} mm (flattened at ${FLAT_MM})`,
  );
}
if (!Number.isFinite(sink)) throw new Error('A gap was not a number.');
