/**
 * Solids in space: what a body truly is where that is more than an outline over its heights. z runs up, mm.
 *
 * All but a bend are convex, and each has its support function in closed form: the farthest point along any direction
 * (solidSupport.ts), which is all that space.ts needs to measure between them.
 */
import { type Motion, movePoint } from './frame.ts';
import type { ArcCore, Swept } from './shapes.ts';

export type Point3 = readonly [number, number, number];

/** The place at a share of the straight way from a to b. */
export const between = (a: Point3, b: Point3, share: number): Point3 => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
  a[2] + (b[2] - a[2]) * share,
];

/** A swept outline from one height to another: whatever stands upright. Its core may be an arc, which is not convex. */
export interface Upright {
  readonly kind: 'upright';
  readonly shape: Swept;
  readonly z0: number;
  readonly z1: number;
}

/**
 * All that lies between two discs at right angles to one axis: a tilted disc, a drum, a cone. `normal` has length 1; the centres
 * lie on one line along it, or are one.
 */
export interface Discs {
  readonly kind: 'discs';
  readonly normal: Point3;
  readonly a: Point3;
  readonly radiusA: number;
  readonly b: Point3;
  readonly radiusB: number;
}

/** A straight tube: all points within `radius` of the line from a to b. */
export interface Rod {
  readonly kind: 'rod';
  readonly a: Point3;
  readonly b: Point3;
  readonly radius: number;
}

/** A tapering limb: all that lies between two balls, and in them. */
export interface Taper {
  readonly kind: 'taper';
  readonly a: Point3;
  readonly radiusA: number;
  readonly b: Point3;
  readonly radiusB: number;
}

/** A level curved tube: all points within `radius` of an arc at height z. */
export interface Bend {
  readonly kind: 'bend';
  readonly core: ArcCore;
  readonly z: number;
  readonly radius: number;
}

/**
 * A slice of a lying cylinder: its axis is level, `halfLength` to either side of the middle along `angle` in plan; only what lies
 * from height z0 to z1 counts.
 */
export interface Lying {
  readonly kind: 'lying';
  readonly middle: Point3;
  readonly angle: number;
  readonly halfLength: number;
  readonly radius: number;
  readonly z0: number;
  readonly z1: number;
}

export type Solid = Upright | Discs | Rod | Taper | Bend | Lying;

/** A disc, or a cylinder that reaches `depth` against the normal from it. Inputs: a normal of length 1. */
export function drumSolid(top: Point3, normal: Point3, radius: number, depth: number): Discs {
  const [x, y, z] = top;
  const b: Point3 = [x - depth * normal[0], y - depth * normal[1], z - depth * normal[2]];
  return { kind: 'discs', normal, a: top, radiusA: radius, b, radiusB: radius };
}

/** A level tube along a core; null for a polygon, which is none. */
export function levelTube({ core, radius }: Swept, z: number): Rod | Bend | null {
  switch (core.kind) {
    case 'point':
      return { kind: 'rod', a: [core.x, core.y, z], b: [core.x, core.y, z], radius };
    case 'segment':
      return { kind: 'rod', a: [core.x0, core.y0, z], b: [core.x1, core.y1, z], radius };
    case 'arc':
      return { kind: 'bend', core, z, radius };
    case 'polygon':
      return null;
  }
}

const movedPoint = (m: Motion, [x, y, z]: Point3): Point3 => {
  const [mx, my] = movePoint(m, x, y);
  return [mx, my, z];
};

/** What a piece's own frame holds, after a motion of the plan. Bends are made in the plan and never moved. */
export function movedSolid<S extends Discs | Rod | Taper | Lying>(solid: S, m: Motion): S {
  const turned = { ...m, dx: 0, dy: 0 };
  switch (solid.kind) {
    case 'discs':
      return {
        ...solid,
        normal: movedPoint(turned, solid.normal),
        a: movedPoint(m, solid.a),
        b: movedPoint(m, solid.b),
      };
    case 'rod':
    case 'taper':
      return { ...solid, a: movedPoint(m, solid.a), b: movedPoint(m, solid.b) };
    case 'lying':
      return { ...solid, middle: movedPoint(m, solid.middle), angle: solid.angle + m.angle };
  }
}
