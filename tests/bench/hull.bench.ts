/**
 * Hull area of kits: envelope of support functions against geos-wasm's convex hull of outlines flattened at 0.05 mm, one run,
 * one process; the program's input is made beforehand. Also the smallest rectangle, which no program has with arcs.
 *
 *   npx tsx tests/bench/hull.bench.ts
 */

import { hullArea } from '../../src/geometry/hull.ts';
import { smallestRectangle } from '../../src/geometry/rectangle.ts';
import { flatten } from '../fixtures/flatten.ts';
import { kitBodies } from '../fixtures/kits.ts';
import { geos } from '../fixtures/polygonPrograms.ts';
import { checksum, growth, row, type Timing, time } from './timing.ts';

async function main(): Promise<void> {
  const g = await geos();
  const ours = new Map<number, Timing>();
  for (const n of [30, 100, 1000, 5000]) {
    const shapes = kitBodies(n, 7).map((body) => body.shape);
    const own = time(() => hullArea(shapes));
    ours.set(n, own);
    console.log(row('exact hull (ours)', n, own));
    const collection = g.collection(shapes.map((s) => flatten(s, 0.05)));
    console.log(
      row(
        'geos-wasm hull, 0.05 mm',
        n,
        time(() => g.hullArea(collection)),
        own,
      ),
    );
    const exact = hullArea(shapes);
    console.log(`  geos-wasm is off by ${((g.hullArea(collection) - exact) / exact).toExponential(1)} relative`);
    console.log(
      row(
        'smallest rectangle (ours)',
        n,
        time(() => smallestRectangle(shapes).width),
      ),
    );
  }
  console.log(`growth: N^${growth(ours.get(100)!, 100, ours.get(5000)!, 5000).toFixed(2)} from 100 to 5000 bodies`);
  console.log(`checksum ${checksum().toExponential(6)}`);
}

main();
