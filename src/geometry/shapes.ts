/**
 * A swept shape: a core (point, segment, circular arc or convex polygon) swept by a disc of `radius`.
 *
 * Every outline in the program is one of these, so that every distance, area and margin has a closed form.
 * Constructors check their input once; everything else in this module trusts what they made.
 */
import { type Motion, movePoint, TAU, turn, wrapAngle } from './frame.ts';

export interface PointCore {
  readonly kind: 'point';
  readonly x: number;
  readonly y: number;
}

export interface SegmentCore {
  readonly kind: 'segment';
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Counter-clockwise from `start` through `sweep`; start in [0, 2 pi), sweep in (0, 2 pi]. */
export interface ArcCore {
  readonly kind: 'arc';
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly start: number;
  readonly sweep: number;
}

/** Strictly convex, counter-clockwise corners as x0, y0, x1, y1 ...; at least three. */
export interface PolygonCore {
  readonly kind: 'polygon';
  readonly points: readonly number[];
}

export type Core = PointCore | SegmentCore | ArcCore | PolygonCore;

export interface Swept {
  readonly core: Core;
  readonly radius: number;
}

/** Coordinates and sizes beyond this are refused: 200 m. A plan's pieces stand within 50 m, and the longest rack has eleven tubes of 6.5 m. */
const MAX_COORDINATE = 2e5;

function checkPlace(value: number): void {
  if (!(Math.abs(value) <= MAX_COORDINATE))
    throw new RangeError(`A shape's coordinate must be a number within 200 m, not ${value}.`);
}

function checkRadius(radius: number): void {
  if (!(radius >= 0 && radius <= MAX_COORDINATE))
    throw new RangeError(`A shape's radius must be 0 or more and at most 200 m, not ${radius}.`);
}

function check(points: readonly number[], radius: number): void {
  for (let k = 0; k < points.length; k++) checkPlace(points[k]);
  checkRadius(radius);
}

/** Throws: RangeError on a non-finite or absurd number, or a negative radius. */
export function disc(x: number, y: number, radius: number): Swept {
  checkPlace(x);
  checkPlace(y);
  checkRadius(radius);
  return { core: { kind: 'point', x, y }, radius };
}

/** A straight tube. Equal ends make a disc. Throws: as disc(). */
export function capsule(x0: number, y0: number, x1: number, y1: number, radius: number): Swept {
  if (x0 === x1 && y0 === y1) return disc(x0, y0, radius);
  checkPlace(x0);
  checkPlace(y0);
  checkPlace(x1);
  checkPlace(y1);
  checkRadius(radius);
  return { core: { kind: 'segment', x0, y0, x1, y1 }, radius };
}

/**
 * A curved tube: centre line of radius r about (cx, cy) from angle `start` through `sweep` (either sign; stored
 * counter-clockwise). A sweep or r of 0 makes a disc; more than a turn is held to one turn. Throws: as disc().
 */
export function bentCapsule(cx: number, cy: number, r: number, start: number, sweep: number, radius: number): Swept {
  check([cx, cy, start, sweep], radius);
  if (!(r >= 0)) throw new RangeError(`A bend's radius must be 0 or more, not ${r}.`);
  if (r === 0 || sweep === 0) return disc(cx + r * Math.cos(start), cy + r * Math.sin(start), radius);
  const first = sweep > 0 ? start : start + sweep;
  return {
    core: { kind: 'arc', cx, cy, r, start: wrapAngle(first), sweep: Math.min(Math.abs(sweep), TAU) },
    radius,
  };
}

/**
 * A convex polygon with rounded edges. Corners in either order; doubled and collinear corners are dropped.
 * Throws: RangeError as disc(), or when the corners are not convex or enclose nothing.
 */
export function roundedPolygon(points: readonly number[], radius: number): Swept {
  check(points, radius);
  let area = 0;
  for (let i = 0, n = points.length; i < n; i += 2) {
    const j = (i + 2) % n;
    area += points[i] * points[j + 1] - points[j] * points[i + 1];
  }
  const corners: [number, number][] = [];
  for (let i = 0; i < points.length; i += 2) corners.push([points[i], points[i + 1]]);
  if (area < 0) corners.reverse();
  let kept = corners.filter(([x, y], i) => {
    const [px, py] = corners[(i + corners.length - 1) % corners.length];
    return px !== x || py !== y;
  });
  kept = kept.filter(([x, y], i) => {
    const [px, py] = kept[(i + kept.length - 1) % kept.length];
    const [nx, ny] = kept[(i + 1) % kept.length];
    return turn(px, py, x, y, nx, ny) !== 0;
  });
  if (kept.length < 3) throw new RangeError('A polygon needs at least three corners that are not in one line.');
  let turned = 0;
  for (let i = 0; i < kept.length; i++) {
    const [ax, ay] = kept[i];
    const [bx, by] = kept[(i + 1) % kept.length];
    const [cx, cy] = kept[(i + 2) % kept.length];
    if (turn(ax, ay, bx, by, cx, cy) < 0) throw new RangeError('A polygon must be convex.');
    turned += Math.atan2((bx - ax) * (cy - by) - (by - ay) * (cx - bx), (bx - ax) * (cx - bx) + (by - ay) * (cy - by));
  }
  if (turned > TAU * 1.5) throw new RangeError('A polygon must not wind round twice.');
  return { core: { kind: 'polygon', points: kept.flat() }, radius };
}

/** Sides shorter than this, mm, may be lost in the rounding of their corners' places. */
const LEAST_SIDE = 1e-3;

/** A rectangle of the given width (along its own x) and depth (along its own y), centred, turned, rounded by radius. */
export function rectangle(x: number, y: number, width: number, depth: number, angle: number, radius = 0): Swept {
  const w = width / 2;
  const d = depth / 2;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const points = [-w, -d, w, -d, w, d, -w, d];
  for (let i = 0; i < points.length; i += 2) {
    const px = points[i];
    const py = points[i + 1];
    points[i] = x + c * px - s * py;
    points[i + 1] = y + s * px + c * py;
  }
  // Larger than rounding, it is what roundedPolygon() would make of it.
  if (!(w > LEAST_SIDE && d > LEAST_SIDE)) return roundedPolygon(points, radius);
  check(points, radius);
  return { core: { kind: 'polygon', points }, radius };
}

/** A point of a core: its first end or corner. */
export function firstPoint(core: Core): [number, number] {
  switch (core.kind) {
    case 'point':
      return [core.x, core.y];
    case 'segment':
      return [core.x0, core.y0];
    case 'arc':
      return [core.cx + core.r * Math.cos(core.start), core.cy + core.r * Math.sin(core.start)];
    case 'polygon':
      return [core.points[0], core.points[1]];
  }
}

/** The same shape after a rigid motion. */
export function moved({ core, radius }: Swept, m: Motion): Swept {
  switch (core.kind) {
    case 'point': {
      const [x, y] = movePoint(m, core.x, core.y);
      return { core: { kind: 'point', x, y }, radius };
    }
    case 'segment': {
      const [x0, y0] = movePoint(m, core.x0, core.y0);
      const [x1, y1] = movePoint(m, core.x1, core.y1);
      return { core: { kind: 'segment', x0, y0, x1, y1 }, radius };
    }
    case 'arc': {
      const [cx, cy] = movePoint(m, core.cx, core.cy);
      return { core: { ...core, cx, cy, start: wrapAngle(core.start + m.angle) }, radius };
    }
    case 'polygon': {
      const c = Math.cos(m.angle);
      const s = Math.sin(m.angle);
      const points: number[] = [];
      for (let i = 0; i < core.points.length; i += 2) {
        const px = core.points[i];
        const py = core.points[i + 1];
        points.push(m.dx + c * px - s * py, m.dy + s * px + c * py);
      }
      return { core: { kind: 'polygon', points }, radius };
    }
  }
}
