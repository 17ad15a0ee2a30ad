/**
 * The farthest point of a solid along a direction: its support function, in closed form for every convex kind.
 *
 * Round tubes are answered for their centre line, a tapering limb for what is left of it without its smaller ball; `ballOf()` is what
 * these are swept by.
 * Source: Gilbert, Johnson, Keerthi, A fast procedure for computing the distance between complex objects in three-dimensional
 * space (1988), for what it is used for; the formulas follow from each solid's definition.
 */
import type { Core } from './shapes.ts';
import type { Discs, Lying, Rod, Taper, Upright } from './solids.ts';

/** A solid that is convex: no bend, and no arc as core. */
export type Convex = Upright | Discs | Rod | Taper | Lying;

export const ballOf = (solid: Convex): number =>
  solid.kind === 'rod' ? solid.radius : solid.kind === 'taper' ? Math.min(solid.radiusA, solid.radiusB) : 0;

/** Writes the farthest point along (dx, dy, dz) into out[at ..]. Inputs: any direction; for none, any point of the solid. */
export function supportInto(solid: Convex, dx: number, dy: number, dz: number, out: Float64Array, at: number): void {
  switch (solid.kind) {
    case 'upright':
      uprightInto(solid, dx, dy, dz, out, at);
      return;
    case 'discs':
      discsInto(solid, dx, dy, dz, out, at);
      return;
    case 'rod':
      rodInto(solid, dx, dy, dz, out, at);
      return;
    case 'taper':
      taperInto(solid, dx, dy, dz, out, at);
      return;
    case 'lying':
      lyingInto(solid, dx, dy, dz, out, at);
      return;
  }
}

/** The corner of a core that lies farthest along a direction in plan. */
function cornerInto(core: Core, dx: number, dy: number, out: Float64Array, at: number): void {
  switch (core.kind) {
    case 'point':
      out[at] = core.x;
      out[at + 1] = core.y;
      return;
    case 'segment': {
      const first = core.x0 * dx + core.y0 * dy >= core.x1 * dx + core.y1 * dy;
      out[at] = first ? core.x0 : core.x1;
      out[at + 1] = first ? core.y0 : core.y1;
      return;
    }
    case 'polygon': {
      const { points } = core;
      let best = 0;
      let most = Number.NEGATIVE_INFINITY;
      for (let i = 0; i < points.length; i += 2) {
        const far = points[i] * dx + points[i + 1] * dy;
        if (far > most) {
          most = far;
          best = i;
        }
      }
      out[at] = points[best];
      out[at + 1] = points[best + 1];
      return;
    }
    case 'arc':
      throw new Error('An arc is not convex.');
  }
}

function uprightInto(
  { shape, z0, z1 }: Upright,
  dx: number,
  dy: number,
  dz: number,
  out: Float64Array,
  at: number,
): void {
  cornerInto(shape.core, dx, dy, out, at);
  const flat = Math.sqrt(dx * dx + dy * dy);
  if (flat > 0) {
    const share = shape.radius / flat;
    out[at] += share * dx;
    out[at + 1] += share * dy;
  }
  out[at + 2] = dz > 0 ? z1 : z0;
}

function discsInto(solid: Discs, dx: number, dy: number, dz: number, out: Float64Array, at: number): void {
  const { normal: n, a, b, radiusA, radiusB } = solid;
  // The direction laid into the discs' plane; twice, for one that is nearly the normal is all rounding after the first time.
  let px = dx;
  let py = dy;
  let pz = dz;
  for (let k = 0; k < 2; k++) {
    const along = px * n[0] + py * n[1] + pz * n[2];
    px -= along * n[0];
    py -= along * n[1];
    pz -= along * n[2];
  }
  const size = Math.sqrt(px * px + py * py + pz * pz);
  const farA = a[0] * dx + a[1] * dy + a[2] * dz + radiusA * size;
  const farB = b[0] * dx + b[1] * dy + b[2] * dz + radiusB * size;
  const centre = farA >= farB ? a : b;
  const share = size > 0 ? (farA >= farB ? radiusA : radiusB) / size : 0;
  out[at] = centre[0] + share * px;
  out[at + 1] = centre[1] + share * py;
  out[at + 2] = centre[2] + share * pz;
}

function rodInto({ a, b }: Rod, dx: number, dy: number, dz: number, out: Float64Array, at: number): void {
  const end = (a[0] - b[0]) * dx + (a[1] - b[1]) * dy + (a[2] - b[2]) * dz >= 0 ? a : b;
  out[at] = end[0];
  out[at + 1] = end[1];
  out[at + 2] = end[2];
}

function taperInto(
  { a, b, radiusA, radiusB }: Taper,
  dx: number,
  dy: number,
  dz: number,
  out: Float64Array,
  at: number,
): void {
  const size = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const more = radiusA - radiusB;
  const isA = (a[0] - b[0]) * dx + (a[1] - b[1]) * dy + (a[2] - b[2]) * dz + more * size >= 0;
  const end = isA ? a : b;
  const share = size > 0 ? Math.max(0, isA ? more : -more) / size : 0;
  out[at] = end[0] + share * dx;
  out[at + 1] = end[1] + share * dy;
  out[at + 2] = end[2] + share * dz;
}

function lyingInto(solid: Lying, dx: number, dy: number, dz: number, out: Float64Array, at: number): void {
  const { middle, angle, halfLength, radius, z0, z1 } = solid;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const along = dx * c + dy * s >= 0 ? halfLength : -halfLength;
  const across = dy * c - dx * s;
  const size = Math.sqrt(across * across + dz * dz);
  // On the circle where that is within the slice, else at the corner nearest to it: along an arc the support falls off to both sides.
  const rise = size > 0 ? (radius * dz) / size : 0;
  const z = Math.min(z1 - middle[2], Math.max(z0 - middle[2], rise));
  const half = Math.sqrt(Math.max(0, radius * radius - z * z));
  const side = across >= 0 ? half : -half;
  out[at] = middle[0] + along * c - side * s;
  out[at + 1] = middle[1] + along * s + side * c;
  out[at + 2] = middle[2] + z;
}
