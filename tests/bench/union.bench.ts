/**
 * Union area of kits: arcs and segments with Green's theorem against clipper2-ts, clipper2-wasm and geos-wasm on outlines
 * flattened at 0.05 mm, one run, one process. The programs' inputs are made beforehand and not timed.
 *
 *   npx tsx tests/bench/union.bench.ts
 */

import { unionArea } from '../../src/geometry/union.ts';
import { flatten } from '../fixtures/flatten.ts';
import { kitBodies } from '../fixtures/kits.ts';
import { clipperPaths, clipperUnionArea, clipperWasm, geos } from '../fixtures/polygonPrograms.ts';
import { checksum, growth, row, type Timing, time } from './timing.ts';

async function main(): Promise<void> {
  const wasm = await clipperWasm();
  const g = await geos();
  const ours = new Map<number, Timing>();
  for (const n of [30, 100, 1000, 5000]) {
    const shapes = kitBodies(n, 7).map((body) => body.shape);
    const outlines = shapes.map((s) => flatten(s, 0.05));
    const own = time(() => unionArea(shapes).area);
    ours.set(n, own);
    console.log(row('exact (ours)', n, own));
    const wasmPaths = wasm.paths(outlines);
    console.log(
      row(
        'clipper2-wasm, 0.05 mm',
        n,
        time(() => wasm.unionArea(wasmPaths)),
        own,
      ),
    );
    if (n > 1000) continue;
    const paths = clipperPaths(outlines);
    console.log(
      row(
        'clipper2-ts, 0.05 mm',
        n,
        time(() => clipperUnionArea(paths)),
        own,
      ),
    );
    const collection = g.collection(outlines);
    const geosTime = time(() => {
      const union = g.union(collection);
      const area = g.area(union);
      g.destroy(union);
      return area;
    });
    console.log(row('geos-wasm, 0.05 mm', n, geosTime, own));
    const exact = unionArea(shapes).area;
    console.log(`  clipper2-ts is off by ${((clipperUnionArea(paths) - exact) / exact).toExponential(1)} relative`);
  }
  console.log(`growth: N^${growth(ours.get(100)!, 100, ours.get(5000)!, 5000).toFixed(2)} from 100 to 5000 bodies`);
  console.log(`checksum ${checksum().toExponential(6)}`);
}

main();
