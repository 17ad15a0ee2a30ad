/** Hull areas against geos-wasm 3.1.1 (GEOSConvexHull) on outlines flattened from within and from without at 0.0005 mm. */
import { expect, test } from 'vitest';
import { hullArea } from '../../src/geometry/hull.ts';
import { flatten } from '../fixtures/flatten.ts';
import { kitBodies } from '../fixtures/kits.ts';
import { geos } from '../fixtures/polygonPrograms.ts';

test.each([
  [1, 2],
  [5, 3],
  [26, 4],
  [100, 5],
  [300, 6],
])('%d bodies, seed %d', async (n, seed) => {
  const g = await geos();
  const shapes = kitBodies(n, seed).map((body) => body.shape);
  const low = g.hullArea(g.collection(shapes.map((s) => flatten(s, 0.0005, 'inside'))));
  const high = g.hullArea(g.collection(shapes.map((s) => flatten(s, 0.0005, 'outside'))));
  const ours = hullArea(shapes);
  expect(ours).toBeGreaterThanOrEqual(low * (1 - 1e-12));
  expect(ours).toBeLessThanOrEqual(high * (1 + 1e-12));
  // The two differ by at most the flattening along the hull's edge.
  expect(high - low).toBeLessThan(0.001 * 4 * Math.sqrt(Math.PI * ours));
});
