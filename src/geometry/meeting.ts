/**
 * Whether straight cores meet, exactly, and where: for nearest.ts, which asks only where cores come so near that rounding could
 * decide. The cheap sign first, the exact one only in doubt.
 *
 * Each meet...() marks the numbers of a Nearest as meeting in one shared point and says so, or leaves them alone.
 * Source: Shewchuk, Adaptive Precision Floating-Point Arithmetic (1997), for the bound up to which a sign is in doubt.
 */
import { turn } from './frame.ts';

/** Where squared distance and meeting stand in the numbers of a Nearest. */
export const DISTANCE_SQ = 4;
export const MEETS = 5;

/** A turn whose products differ by more than this share of their sizes has the sign that it shows. */
const SURE = 3.3306690738754716e-16;

export function meet(n: Float64Array, x: number, y: number): boolean {
  n[0] = n[2] = x;
  n[1] = n[3] = y;
  n[DISTANCE_SQ] = 0;
  n[MEETS] = 1;
  return true;
}

const exactTurn = (s: Float64Array, seg: number, p: Float64Array, at: number): number =>
  turn(s[seg], s[seg + 1], s[seg + 2], s[seg + 3], p[at], p[at + 1]);

/** Which side of the line along a segment a point is on: 1 left of it, -1 right of it, 0 on the line. */
function sideOf(s: Float64Array, seg: number, p: Float64Array, at: number): number {
  const left = (s[seg + 2] - s[seg]) * (p[at + 1] - s[seg + 1]);
  const right = (s[seg + 3] - s[seg + 1]) * (p[at] - s[seg]);
  const doubt = SURE * (Math.abs(left) + Math.abs(right));
  if (Math.abs(left - right) > doubt) return left > right ? 1 : -1;
  return Math.sign(exactTurn(s, seg, p, at));
}

/** Whether a point known to be in line with a segment lies within it. */
function withinBox(p: Float64Array, at: number, s: Float64Array, seg: number): boolean {
  const x = p[at];
  const y = p[at + 1];
  return (
    x >= Math.min(s[seg], s[seg + 2]) &&
    x <= Math.max(s[seg], s[seg + 2]) &&
    y >= Math.min(s[seg + 1], s[seg + 3]) &&
    y <= Math.max(s[seg + 1], s[seg + 3])
  );
}

export function onSegment(p: Float64Array, at: number, s: Float64Array, seg: number): boolean {
  return sideOf(s, seg, p, at) === 0 && withinBox(p, at, s, seg);
}

/** Segments that cross, touch or overlap. */
export function meetSegments(n: Float64Array, s: Float64Array, a: number, t: Float64Array, b: number): boolean {
  const a0 = sideOf(t, b, s, a);
  const a1 = sideOf(t, b, s, a + 2);
  const b0 = sideOf(s, a, t, b);
  const b1 = sideOf(s, a, t, b + 2);
  // Does an end of one lie on the other? Collinear segments that share a point always answer here.
  if (a0 === 0 && withinBox(s, a, t, b)) return meet(n, s[a], s[a + 1]);
  if (a1 === 0 && withinBox(s, a + 2, t, b)) return meet(n, s[a + 2], s[a + 3]);
  if (b0 === 0 && withinBox(t, b, s, a)) return meet(n, t[b], t[b + 1]);
  if (b1 === 0 && withinBox(t, b + 2, s, a)) return meet(n, t[b + 2], t[b + 3]);
  // Does each have its ends on both sides of the other?
  if (a0 * a1 >= 0 || b0 * b1 >= 0) return false;
  const off = exactTurn(t, b, s, a);
  const part = off / (off - exactTurn(t, b, s, a + 2));
  return meet(n, s[a] + part * (s[a + 2] - s[a]), s[a + 1] + part * (s[a + 3] - s[a + 1]));
}

/** Whether a point lies in a polygon or on its edge; polygons are places of corners as in nearest.ts. */
export function withinPolygon(p: Float64Array, at: number, c: Float64Array, from: number, to: number): boolean {
  for (let k = from; k < to; k += 2) if (sideOf(c, k, p, at) < 0) return false;
  return true;
}

/** A segment meets a polygon if it starts in it or crosses an edge. */
export function meetSegmentPolygon(
  n: Float64Array,
  s: Float64Array,
  seg: number,
  c: Float64Array,
  from: number,
  to: number,
): boolean {
  if (withinPolygon(s, seg, c, from, to)) return meet(n, s[seg], s[seg + 1]);
  for (let k = from; k < to; k += 2) if (meetSegments(n, s, seg, c, k)) return true;
  return false;
}

/** Polygons meet if one holds the other's first corner, or their edges cross. */
export function meetPolygons(
  n: Float64Array,
  c: Float64Array,
  a0: number,
  a1: number,
  e: Float64Array,
  b0: number,
  b1: number,
): boolean {
  if (withinPolygon(c, a0, e, b0, b1)) return meet(n, c[a0], c[a0 + 1]);
  if (withinPolygon(e, b0, c, a0, a1)) return meet(n, e[b0], e[b0 + 1]);
  for (let k = a0; k < a1; k += 2) for (let m = b0; m < b1; m += 2) if (meetSegments(n, c, k, e, m)) return true;
  return false;
}
