/**
 * Areas against published values. Machinery's Handbook, 31st ed. (2020), pp. 50, 79, 83; matheass.eu Circular Sections
 * (SOURCES.md). A bare bend's convex hull is the handbook's circular segment, and with its
 * centre (below half a turn) its sector.
 */
import { describe, expect, test } from 'vitest';
import { area } from '../../src/geometry/area.ts';
import { hullArea } from '../../src/geometry/hull.ts';
import { bentCapsule, disc } from '../../src/geometry/shapes.ts';
import { unionArea } from '../../src/geometry/union.ts';
import { flatten } from '../fixtures/flatten.ts';
import { kitBodies } from '../fixtures/kits.ts';
import { clipperPaths, clipperUnionArea, clipperWasm, geos } from '../fixtures/polygonPrograms.ts';

const rad = (degrees: number) => (degrees * Math.PI) / 180;
const bareBend = (r: number, degrees: number) => bentCapsule(0, 0, r, 0.2, rad(degrees), 0);
const segment = (r: number, degrees: number) => hullArea([bareBend(r, degrees)]);
const sector = (r: number, degrees: number) => hullArea([bareBend(r, degrees), disc(0, 0, 0)]);

describe('handbook examples', () => {
  test('handbook p. 79, annulus: D 12, d 8 cm encloses 62.83 cm2', () => {
    // The annulus is a closed ring: bend 5, tube 1.
    expect(Math.abs(area(bentCapsule(0, 0, 5, 0, 2 * Math.PI, 1)) - 62.83)).toBeLessThan(0.005);
    expect(Math.abs(unionArea([bentCapsule(0, 0, 5, 0, 2 * Math.PI, 1)]).area - 62.83)).toBeLessThan(0.005);
  });

  test('handbook p. 50, sector: 30 degrees of r 7 cm, 12.83 cm2', () => {
    expect(Math.abs(sector(7, 30) - 12.83)).toBeLessThan(0.005);
    // A bend as tight as its tube sweeps that sector, with half a disc beyond either end.
    const swept = area(bentCapsule(0, 0, 3.5, 1, rad(30), 3.5)) - area(disc(0, 0, 3.5));
    expect(Math.abs(swept - 12.83)).toBeLessThan(0.005);
  });

  test('handbook p. 50, segment: R 12, depth 2 cm, segment of 18.01 cm2 (exact 18.006)', () => {
    expect(Math.abs(segment(12, 67.115) - 18.01)).toBeLessThan(0.01);
  });

  test('Circular Sections: r 12.1875, 118.97953 degrees: segment 89.254148, sector 154.2229', () => {
    expect(Math.abs(segment(12.1875, 118.97953) - 89.254148)).toBeLessThan(1e-5);
    expect(Math.abs(sector(12.1875, 118.97953) - 154.2229)).toBeLessThan(1e-4);
  });

  test('Circular Sections: r 1.2732395: sector 0.63661977, segment 0.063460604', () => {
    expect(Math.abs(sector(1.2732395, 45) - 0.63661977)).toBeLessThan(1e-7);
    expect(Math.abs(segment(1.2732395, 45) - 0.063460604)).toBeLessThan(1e-8);
  });

  test.each([
    ['handbook formulas, 10 degrees', 10, 0.00044],
    ['handbook formulas, 20 degrees', 20, 0.00352],
    ['handbook formulas, 30 degrees', 30, 0.0118],
    ['handbook formulas, 45 degrees', 45, 0.03915],
    ['handbook formulas, 60 degrees', 60, 0.09059],
    ['handbook formulas, 90 degrees', 90, 0.2854],
    ['handbook formulas, 120 degrees', 120, 0.61418],
    ['handbook formulas, 150 degrees', 150, 1.059],
    ['handbook formulas, 180 degrees', 180, 1.5708],
  ])('%s: a segment of %d degrees, and two unit discs that share two of them', (_, degrees, printed) => {
    expect(Math.abs(segment(1, degrees) - printed)).toBeLessThan(6e-6);
    const apart = 2 * Math.cos(rad(degrees / 2));
    const shared = 2 * Math.PI - unionArea([disc(0, 0, 1), disc(apart, 0, 1)]).area;
    expect(Math.abs(shared - 2 * printed)).toBeLessThan(1.2e-5);
  });
});

// Outlines flattened from within and from without at 0.001 mm enclose the true shape between them, so the programs' areas
// must lie on either side of ours; the margin allowed is their coordinates' rounding (1e-6 mm along some 100 m of edge).
const ROUNDING_MM2 = 0.5;

describe('union of kits between polygons inside and outside', () => {
  test.each([
    [30, 3],
    [100, 4],
  ])(
    '%d bodies, seed %d: clipper2-ts, clipper2-wasm, geos-wasm',
    async (n, seed) => {
      const shapes = kitBodies(n, seed).map((body) => body.shape);
      const ours = unionArea(shapes).area;
      const wasm = await clipperWasm();
      const g = await geos();
      const [inside, outside] = (['inside', 'outside'] as const).map((side) =>
        shapes.map((s) => flatten(s, 0.001, side)),
      );
      for (const [low, high] of [
        [clipperUnionArea(clipperPaths(inside)), clipperUnionArea(clipperPaths(outside))],
        [wasm.unionArea(wasm.paths(inside)), wasm.unionArea(wasm.paths(outside))],
        [g.area(g.union(g.collection(inside))), g.area(g.union(g.collection(outside)))],
      ]) {
        expect(high - low).toBeLessThan(2e-5 * ours);
        expect(ours).toBeGreaterThan(low - ROUNDING_MM2);
        expect(ours).toBeLessThan(high + ROUNDING_MM2);
      }
    },
    60000,
  );
});
