/**
 * The measure report read back as anyone else would: bodies as rings of corners, from the JSON alone, and questions put to
 * GEOS (geos-wasm 3.1.1). Nothing here uses our geometry.
 */
import initGeosJs from 'geos-wasm';
import type { ArcCore, Core } from '../../src/geometry/shapes.ts';
import type { Solid } from '../../src/geometry/solids.ts';
import { flattened, type Ring } from './gapFlatten.ts';

type Xy = [number, number];

export type JsonCore =
  | { type: 'point'; at: Xy }
  | { type: 'segment'; from: Xy; to: Xy }
  | { type: 'arc'; centre: Xy; radius: number; start: number; sweep: number }
  | { type: 'polygon'; points: Xy[] };

type Xyz = [number, number, number];

export type JsonSolid =
  | { type: 'discs'; normal: Xyz; from: Xyz; fromRadius: number; to: Xyz; toRadius: number }
  | { type: 'rod'; from: Xyz; to: Xyz; radius: number }
  | { type: 'taper'; from: Xyz; fromRadius: number; to: Xyz; toRadius: number }
  | { type: 'bend'; core: Extract<JsonCore, { type: 'arc' }>; height: number; radius: number }
  | { type: 'lying'; middle: Xyz; axis: number; length: number; radius: number; z: Xy };

export interface JsonBody {
  id: string;
  piece: string;
  kind: string;
  assembly: string;
  touchesFloor: boolean;
  z: Xy;
  core: JsonCore;
  radius: number;
  solid?: JsonSolid;
  mass: number | null;
  massCentre: [number, number, number] | null;
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;

function coreOf(core: JsonCore): Core {
  switch (core.type) {
    case 'point':
      return { kind: 'point', x: core.at[0], y: core.at[1] };
    case 'segment': {
      const [[x0, y0], [x1, y1]] = [core.from, core.to];
      return { kind: 'segment', x0, y0, x1, y1 };
    }
    case 'arc':
      return arcOf(core);
    case 'polygon':
      return { kind: 'polygon', points: core.points.flat() };
  }
}

function arcOf({ centre: [cx, cy], radius, start, sweep }: Extract<JsonCore, { type: 'arc' }>): ArcCore {
  return { kind: 'arc', cx, cy, r: radius, start: radians(start), sweep: radians(sweep) };
}

/** What the report says of a body in space, for sampling (fixtures/solidSamples.ts). */
export function solidOfJson({ solid, core, radius, z: [z0, z1] }: JsonBody): Solid {
  switch (solid?.type) {
    case 'discs': {
      const { normal, from, fromRadius, to, toRadius } = solid;
      return { kind: 'discs', normal, a: from, radiusA: fromRadius, b: to, radiusB: toRadius };
    }
    case 'rod':
      return { kind: 'rod', a: solid.from, b: solid.to, radius: solid.radius };
    case 'taper':
      return { kind: 'taper', a: solid.from, radiusA: solid.fromRadius, b: solid.to, radiusB: solid.toRadius };
    case 'bend':
      return { kind: 'bend', core: arcOf(solid.core), z: solid.height, radius: solid.radius };
    case 'lying': {
      const { middle, axis, length, radius, z } = solid;
      const [low, high] = z;
      return { kind: 'lying', middle, angle: radians(axis), halfLength: length / 2, radius, z0: low, z1: high };
    }
    case undefined:
      return { kind: 'upright', shape: { core: coreOf(core), radius }, z0, z1 };
  }
}

/** Corners on the true outline, chords within `error` mm of it. */
export const ringOf = ({ core, radius }: Pick<JsonBody, 'core' | 'radius'>, error: number): Ring =>
  flattened({ core: coreOf(core), radius }, error);

/** A point after a turn about the origin and a shift. */
export function posed([x, y]: Xy, angleDeg: number, move: Xy): Xy {
  const c = Math.cos(radians(angleDeg));
  const s = Math.sin(radians(angleDeg));
  return [c * x - s * y + move[0], s * x + c * y + move[1]];
}

/** The least and largest x and y of points after a turn about the origin. */
export function reach(some: Readonly<Ring>, angleDeg: number): [number, number, number, number] {
  const [c, s] = posed([1, 0], angleDeg, [0, 0]);
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const at of some) {
    const x = c * at[0] - s * at[1];
    const y = s * at[0] + c * at[1];
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return [x0, x1, y0, y1];
}

/** How far apart two such boxes are, mm; what they hold is no nearer. */
export const boxesApart = ([a0, a1, b0, b1]: readonly number[], [c0, c1, d0, d1]: readonly number[]): number =>
  Math.max(a0 - c1, c0 - a1, b0 - d1, d0 - b1);

/** Questions to GEOS about rings; a geometry is a handle. */
export async function program() {
  const g = await initGeosJs();
  const out = g.Module._malloc(8);
  const asked = (): number => g.Module.getValue(out, 'double');
  const read = (wkt: string): number => {
    const at = g.Module._malloc(wkt.length + 1);
    g.Module.stringToUTF8(wkt, at, wkt.length + 1);
    const reader = g.GEOSWKTReader_create();
    const made = g.GEOSWKTReader_read(reader, at);
    g.GEOSWKTReader_destroy(reader);
    g.Module._free(at);
    return made;
  };
  const inner = (ring: Ring) => `((${[...ring, ring[0]].map(([x, y]) => `${x} ${y}`).join(',')}))`;
  /** The same as its text read, a tenth of the time. */
  const made = (ring: Ring): number => {
    const buffer = g.Module._malloc((ring.length + 1) * 16);
    g.Module.HEAPF64.set([...ring, ring[0]].flat(), buffer / 8);
    const shell = g.GEOSGeom_createLinearRing(g.GEOSCoordSeq_copyFromBuffer(buffer, ring.length + 1, 0, 0));
    g.Module._free(buffer);
    return g.GEOSGeom_createPolygon(shell, 0, 0);
  };
  return {
    polygon(ring: Ring): number {
      const polygon = made(ring);
      // A ring that crosses itself would make the program's answers meaningless.
      if (g.GEOSisValid(polygon) !== 1) throw new Error('An outline is not a simple ring.');
      return polygon;
    },
    forget(geometry: number): void {
      g.GEOSGeom_destroy(geometry);
    },
    point: ([x, y]: Xy): number => read(`POINT(${x} ${y})`),
    union: (rings: readonly Ring[]): number => g.GEOSUnaryUnion(read(`MULTIPOLYGON(${rings.map(inner).join(',')})`)),
    hull: (rings: readonly Ring[]): number =>
      g.GEOSConvexHull(
        read(
          `MULTIPOINT(${rings
            .flat()
            .map(([x, y]) => `${x} ${y}`)
            .join(',')})`,
        ),
      ),
    boundary: (geometry: number): number => g.GEOSBoundary(geometry),
    /** 400 chords a quarter turn: 2e-6 of the distance. */
    buffer: (geometry: number, distance: number): number => g.GEOSBuffer(geometry, distance, 400),
    covers: (a: number, b: number): boolean => g.GEOSCovers(a, b) === 1,
    area(geometry: number): number {
      g.GEOSArea(geometry, out);
      return asked();
    },
    /** Plain distance: 0 where they overlap or one holds the other. */
    distance(a: number, b: number): number {
      g.GEOSDistance(a, b, out);
      return asked();
    },
  };
}
