/**
 * The nearest points of two cores, one function per pair of kinds and one table that picks it: the only place where distances
 * between cores are measured. gap.ts asks it for two shapes, pairs.ts for all pairs of a table, deck.ts for a body and
 * the sides of a deck.
 *
 * The nearest pair of points is either at an end or corner of one core, or where both cores are at right angles to the line
 * between the points. Such pairs are offered, and the nearest offer stays; one too many costs time, never correctness.
 * Signs on the way are rounded: where one is wrong, the cores are within that rounding of each other, and so is the answer.
 * Where straight cores come that near, meeting.ts decides exactly whether they meet.
 *
 * Exact:  whether points, segments and polygons meet. For pairs with an arc, meeting is a
 *         distance of at most ARC_MEETS_MM. Distances and points are within 1e-9 mm for coordinates within 100 m.
 * Inputs: cores made by shapes.ts, trusted.
 *
 * A point is (array, place of its x) and a segment (array, place of its first x, its four numbers in a row): a place is a small
 * integer, where four loose numbers would each be put on the heap for a call that is not inlined. What was found so far
 * is `n`, the numbers of a Nearest. `side` says where in it the point of the first core named goes: 0 for core a, 2 for core b.
 */
import { ARC, BEND, CENTRE, type Cores, POINT, POLYGON, SEGMENT, SPAN_AT, STRIDE } from './coreTable.ts';
import { spanHas } from './gapSpan.ts';
import {
  DISTANCE_SQ,
  MEETS,
  meet,
  meetPolygons,
  meetSegmentPolygon,
  meetSegments,
  onSegment,
  withinPolygon,
} from './meeting.ts';

/**
 * Below this distance the line between two points of arcs is rounding, not direction: half an ulp of the end angle,
 * times a bend radius of 100 m, is 9e-11 for each of the two. A fifth of the error this module promises.
 */
const ARC_MEETS_MM = 2e-10;
const ARC_MEETS_SQ = ARC_MEETS_MM * ARC_MEETS_MM;

/** Straight cores farther apart than this, mm, do not meet, however their distance was rounded within 100 m. */
const DOUBT_MM = 1e-6;
const DOUBT_SQ = DOUBT_MM * DOUBT_MM;

/** The nearest points of the two cores last asked about: (ax, ay) on the first, (bx, by) on the second. */
export class Nearest {
  /** ax, ay, bx, by, squared distance, 1 where the cores meet. */
  readonly numbers = new Float64Array(6);

  get ax(): number {
    return this.numbers[0];
  }
  get ay(): number {
    return this.numbers[1];
  }
  get bx(): number {
    return this.numbers[2];
  }
  get by(): number {
    return this.numbers[3];
  }
  get distance(): number {
    return Math.sqrt(this.numbers[DISTANCE_SQ]);
  }
  /** The cores cross, touch, or one holds a point of the other; then both points are one shared point. */
  get meeting(): boolean {
    return this.numbers[MEETS] === 1;
  }
}

function pointPoint(n: Float64Array, p: Float64Array, at: number, q: Float64Array, to: number): void {
  const dx = q[to] - p[at];
  const dy = q[to + 1] - p[at + 1];
  n[0] = p[at];
  n[1] = p[at + 1];
  n[2] = q[to];
  n[3] = q[to + 1];
  n[DISTANCE_SQ] = dx * dx + dy * dy;
}

/** Offers a point with its nearest point on a segment. */
function pointSegment(n: Float64Array, side: number, p: Float64Array, at: number, s: Float64Array, seg: number): void {
  const dx = s[seg + 2] - s[seg];
  const dy = s[seg + 3] - s[seg + 1];
  const px = p[at] - s[seg];
  const py = p[at + 1] - s[seg + 1];
  const along = px * dx + py * dy;
  const lengthSq = dx * dx + dy * dy;
  let sq: number;
  if (along > 0 && along < lengthSq) {
    const across = px * dy - py * dx;
    sq = (across * across) / lengthSq;
    if (sq >= n[DISTANCE_SQ]) return;
    n[2 - side] = s[seg] + (along / lengthSq) * dx;
    n[3 - side] = s[seg + 1] + (along / lengthSq) * dy;
  } else {
    const end = along <= 0 ? seg : seg + 2;
    const ex = p[at] - s[end];
    const ey = p[at + 1] - s[end + 1];
    sq = ex * ex + ey * ey;
    if (sq >= n[DISTANCE_SQ]) return;
    n[2 - side] = s[end];
    n[3 - side] = s[end + 1];
  }
  n[DISTANCE_SQ] = sq;
  n[side] = p[at];
  n[side + 1] = p[at + 1];
}

/** Whether each line passes between the other segment's ends, but for rounding. */
function segmentsCross(s: Float64Array, a: number, t: Float64Array, b: number): boolean {
  const ax = s[a + 2] - s[a];
  const ay = s[a + 3] - s[a + 1];
  const bx = t[b + 2] - t[b];
  const by = t[b + 3] - t[b + 1];
  const wx = t[b] - s[a];
  const wy = t[b + 1] - s[a + 1];
  const both = ax * by - ay * bx;
  // The sides of b's ends are b0 and b0 + both; those of a's ends are a0 and a0 + both.
  const b0 = ax * wy - ay * wx;
  const a0 = bx * wy - by * wx;
  return b0 > 0 !== b0 + both > 0 && a0 > 0 !== a0 + both > 0;
}

/** Offers the ends of two segments that do not cross. */
function offerEnds(n: Float64Array, s: Float64Array, a: number, t: Float64Array, b: number): void {
  pointSegment(n, 0, s, a, t, b);
  pointSegment(n, 0, s, a + 2, t, b);
  pointSegment(n, 2, t, b, s, a);
  pointSegment(n, 2, t, b + 2, s, a);
}

/** Offers a point with its nearest point on an arc; at the centre every point of the arc is nearest, and an end is taken. */
function pointArc(n: Float64Array, side: number, p: Float64Array, at: number, d: Float64Array, arc: number): void {
  const r = d[arc + BEND];
  const dx = p[at] - d[arc + CENTRE];
  const dy = p[at + 1] - d[arc + CENTRE + 1];
  const away = Math.sqrt(dx * dx + dy * dy);
  let x = d[arc + CENTRE] + (dx / away) * r;
  let y = d[arc + CENTRE + 1] + (dy / away) * r;
  let sq = (away - r) * (away - r);
  if (away === 0 || !spanHas(d, arc + SPAN_AT, dx, dy)) {
    const sx = p[at] - d[arc];
    const sy = p[at + 1] - d[arc + 1];
    const ex = p[at] - d[arc + 2];
    const ey = p[at + 1] - d[arc + 3];
    const fromStart = sx * sx + sy * sy;
    const fromEnd = ex * ex + ey * ey;
    const end = fromEnd < fromStart ? arc + 2 : arc;
    sq = Math.min(fromStart, fromEnd);
    x = d[end];
    y = d[end + 1];
  }
  if (sq >= n[DISTANCE_SQ]) return;
  n[DISTANCE_SQ] = sq;
  n[side] = p[at];
  n[side + 1] = p[at + 1];
  n[2 - side] = x;
  n[3 - side] = y;
}

function segmentArc(n: Float64Array, side: number, s: Float64Array, seg: number, d: Float64Array, arc: number): void {
  const x0 = s[seg];
  const y0 = s[seg + 1];
  const dx = s[seg + 2] - x0;
  const dy = s[seg + 3] - y0;
  const cx = d[arc + CENTRE];
  const cy = d[arc + CENTRE + 1];
  const r = d[arc + BEND];
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length > 0) {
    const ux = dx / length;
    const uy = dy / length;
    const wx = cx - x0;
    const wy = cy - y0;
    // The foot of the centre on the line: `along` from the first end, `off` from the centre along the normal (uy, -ux).
    const along = wx * ux + wy * uy;
    const off = wy * ux - wx * uy;
    const past = Math.abs(off) - r;
    if (past >= 0) {
      // The line misses the circle: is the pair at the foot of the centre on both cores? Then nothing is nearer.
      const nx = off >= 0 ? uy : -uy;
      const ny = off >= 0 ? -ux : ux;
      if (along >= 0 && along <= length && spanHas(d, arc + SPAN_AT, nx, ny)) {
        if (past * past >= n[DISTANCE_SQ]) return;
        n[DISTANCE_SQ] = past * past;
        n[side] = x0 + along * ux;
        n[side + 1] = y0 + along * uy;
        n[2 - side] = cx + r * nx;
        n[3 - side] = cy + r * ny;
        return;
      }
    } else {
      // Where line and circle cross, half a chord to either side of the foot.
      const half = Math.sqrt((r - off) * (r + off));
      for (let step = -half, tries = 0; tries < 2; tries++, step = half) {
        const vx = off * uy + step * ux;
        const vy = step * uy - off * ux;
        if (along + step < 0 || along + step > length || !spanHas(d, arc + SPAN_AT, vx, vy)) continue;
        meet(n, cx + vx, cy + vy);
        return;
      }
    }
  }
  pointArc(n, side, s, seg, d, arc);
  pointArc(n, side, s, seg + 2, d, arc);
  pointSegment(n, 2 - side, d, arc, s, seg);
  pointSegment(n, 2 - side, d, arc + 2, s, seg);
}

function arcArc(n: Float64Array, s: Float64Array, first: number, t: Float64Array, second: number): void {
  // From the smaller circle: seen from the larger, half a chord would lose as many digits as its radius has more.
  const inOrder = s[first + BEND] <= t[second + BEND];
  const d = inOrder ? s : t;
  const e = inOrder ? t : s;
  const a = inOrder ? first : second;
  const b = inOrder ? second : first;
  const side = inOrder ? 0 : 2;
  const ra = d[a + BEND];
  const rb = e[b + BEND];
  const dx = e[b + CENTRE] - d[a + CENTRE];
  const dy = e[b + CENTRE + 1] - d[a + CENTRE + 1];
  const apart = Math.sqrt(dx * dx + dy * dy);
  const outside = apart >= ra + rb;
  if (outside || apart <= rb - ra) {
    // Outside each other: nearest between the centres. One within the other: on the side away from the larger's centre.
    // On one centre: where both cover a direction, an end of one does too.
    const way = outside ? 1 : -1;
    if (apart > 0 && spanHas(d, a + SPAN_AT, way * dx, way * dy) && spanHas(e, b + SPAN_AT, -dx, -dy)) {
      const between = outside ? apart - ra - rb : rb - ra - apart;
      n[DISTANCE_SQ] = between * between;
      n[side] = d[a + CENTRE] + ((way * ra) / apart) * dx;
      n[side + 1] = d[a + CENTRE + 1] + ((way * ra) / apart) * dy;
      n[2 - side] = e[b + CENTRE] - (rb / apart) * dx;
      n[3 - side] = e[b + CENTRE + 1] - (rb / apart) * dy;
      return;
    }
  } else {
    // Where the circles cross: `foot` lies along the line of centres, `half` a chord to either side. The factored form keeps
    // its digits when the circles are nearly one and the same.
    const ux = dx / apart;
    const uy = dy / apart;
    const foot = (apart + ((ra - rb) * (ra + rb)) / apart) / 2;
    const half = Math.sqrt(Math.max(0, (ra - foot) * (ra + foot)));
    for (let step = -half, tries = 0; tries < 2; tries++, step = half) {
      const vx = foot * ux - step * uy;
      const vy = foot * uy + step * ux;
      if (!spanHas(d, a + SPAN_AT, vx, vy) || !spanHas(e, b + SPAN_AT, vx - dx, vy - dy)) continue;
      meet(n, d[a + CENTRE] + vx, d[a + CENTRE + 1] + vy);
      return;
    }
  }
  pointArc(n, side, d, a, e, b);
  pointArc(n, side, d, a + 2, e, b);
  pointArc(n, 2 - side, e, b, d, a);
  pointArc(n, 2 - side, e, b + 2, d, a);
}

// A polygon is (corners, place of the first, one past the last), with the first corner again after the last.

/** Offers a point with its nearest point on a polygon's edge, or with itself where it lies within. */
function pointPolygon(
  n: Float64Array,
  side: number,
  p: Float64Array,
  at: number,
  c: Float64Array,
  from: number,
  to: number,
): void {
  let x = p[at];
  let y = p[at + 1];
  let sq = Number.POSITIVE_INFINITY;
  let corner = -1;
  for (let k = from; k < to; k += 2) {
    const dx = c[k + 2] - c[k];
    const dy = c[k + 3] - c[k + 1];
    const px = x - c[k];
    const py = y - c[k + 1];
    const across = dx * py - dy * px;
    // Only an edge with the point on its outer side can hold the nearest point.
    if (across >= 0) continue;
    const along = px * dx + py * dy;
    const lengthSq = dx * dx + dy * dy;
    if (along > 0 && along < lengthSq) {
      // Straight out from an edge of a convex polygon nothing else is nearer.
      sq = (across * across) / lengthSq;
      x = c[k] + (along / lengthSq) * dx;
      y = c[k + 1] + (along / lengthSq) * dy;
      corner = -1;
      break;
    }
    const end = along <= 0 ? k : k + 2;
    const endSq = (x - c[end]) * (x - c[end]) + (y - c[end + 1]) * (y - c[end + 1]);
    if (endSq >= sq) continue;
    sq = endSq;
    corner = end;
  }
  // On the outer side of no edge is inside.
  if (sq === Number.POSITIVE_INFINITY) sq = 0;
  if (sq >= n[DISTANCE_SQ]) return;
  n[DISTANCE_SQ] = sq;
  n[side] = p[at];
  n[side + 1] = p[at + 1];
  n[2 - side] = corner < 0 ? x : c[corner];
  n[3 - side] = corner < 0 ? y : c[corner + 1];
}

/** Whether a segment with both ends outside a polygon enters it, but for rounding. */
function segmentEnters(s: Float64Array, seg: number, c: Float64Array, from: number, to: number): boolean {
  // It crosses an edge; one edge that has it outside rules that out.
  for (let k = from; k < to; k += 2) {
    const dx = c[k + 2] - c[k];
    const dy = c[k + 3] - c[k + 1];
    if (dx * (s[seg + 1] - c[k + 1]) < dy * (s[seg] - c[k]) && dx * (s[seg + 3] - c[k + 1]) < dy * (s[seg + 2] - c[k]))
      return false;
  }
  for (let k = from; k < to; k += 2) if (segmentsCross(s, seg, c, k)) return true;
  return false;
}

/** Whether an edge of the first polygon has all of the second on its outer side. */
function partedByEdge(
  c: Float64Array,
  from: number,
  to: number,
  e: Float64Array,
  otherFrom: number,
  otherTo: number,
): boolean {
  for (let k = from; k < to; k += 2) {
    const x0 = c[k];
    const y0 = c[k + 1];
    const dx = c[k + 2] - x0;
    const dy = c[k + 3] - y0;
    let outside = true;
    for (let m = otherFrom; m < otherTo && outside; m += 2) outside = dx * (e[m + 1] - y0) - dy * (e[m] - x0) < 0;
    if (outside) return true;
  }
  return false;
}

/** Offers the corners of two polygons that are apart. */
function offerCorners(
  n: Float64Array,
  c: Float64Array,
  a0: number,
  a1: number,
  e: Float64Array,
  b0: number,
  b1: number,
): void {
  for (let k = a0; k < a1; k += 2) pointPolygon(n, 0, c, k, e, b0, b1);
  for (let k = b0; k < b1; k += 2) pointPolygon(n, 2, e, k, c, a0, a1);
}

/**
 * Measures core i of one table and core j of another or the same, into `near`: the distance, and the nearest points if the cores
 * are farther apart than DOUBT_MM. Whether cores nearer than that meet, and where, is left to settleInto().
 */
export function measureInto({ numbers: n }: Nearest, first: Cores, i: number, second: Cores, j: number): void {
  n[DISTANCE_SQ] = Number.POSITIVE_INFINITY;
  n[MEETS] = 0;
  // The lesser kind stands first, which halves the table of pairs.
  if (first.kind[i] <= second.kind[j])
    measure(n, 0, first, i * STRIDE, second, j * STRIDE, 4 * first.kind[i] + second.kind[j]);
  else measure(n, 2, second, j * STRIDE, first, i * STRIDE, 4 * second.kind[j] + first.kind[i]);
}

function measure(
  n: Float64Array,
  side: number,
  first: Cores,
  a: number,
  second: Cores,
  b: number,
  kinds: number,
): void {
  const p = first.data;
  const q = second.data;
  const c = second.corners;
  switch (kinds) {
    case 4 * POINT + POINT:
      pointPoint(n, p, a, q, b);
      return;
    case 4 * POINT + SEGMENT:
      pointSegment(n, side, p, a, q, b);
      return;
    case 4 * POINT + POLYGON:
      pointPolygon(n, side, p, a, c, q[b], q[b + 1]);
      return;
    case 4 * SEGMENT + SEGMENT:
      if (segmentsCross(p, a, q, b)) n[DISTANCE_SQ] = 0;
      else offerEnds(n, p, a, q, b);
      return;
    case 4 * SEGMENT + POLYGON:
      pointPolygon(n, side, p, a, c, q[b], q[b + 1]);
      pointPolygon(n, side, p, a + 2, c, q[b], q[b + 1]);
      if (n[DISTANCE_SQ] === 0) return;
      if (segmentEnters(p, a, c, q[b], q[b + 1])) n[DISTANCE_SQ] = 0;
      else for (let k = q[b]; k < q[b + 1]; k += 2) pointSegment(n, 2 - side, c, k, p, a);
      return;
    case 4 * POLYGON + POLYGON: {
      // Two convex polygons are apart just when an edge of one parts them; then a corner of one is nearest.
      const d = first.corners;
      if (partedByEdge(d, p[a], p[a + 1], c, q[b], q[b + 1]) || partedByEdge(c, q[b], q[b + 1], d, p[a], p[a + 1]))
        offerCorners(n, d, p[a], p[a + 1], c, q[b], q[b + 1]);
      else n[DISTANCE_SQ] = 0;
      return;
    }
    case 4 * POINT + ARC:
      pointArc(n, side, p, a, q, b);
      break;
    case 4 * SEGMENT + ARC:
      segmentArc(n, side, p, a, q, b);
      break;
    case 4 * ARC + ARC:
      arcArc(n, p, a, q, b);
      break;
    default: // arc and polygon: they meet if the bend starts in the polygon or comes to an edge
      pointPolygon(n, side, p, a, c, q[b], q[b + 1]);
      for (let k = q[b]; k < q[b + 1] && n[DISTANCE_SQ] > 0; k += 2) segmentArc(n, 2 - side, c, k, p, a);
  }
  if (n[DISTANCE_SQ] <= ARC_MEETS_SQ && n[MEETS] === 0) meet(n, n[0], n[1]);
}

/** After measureInto() of the same cores: decides whether they meet, and finds the points of those that all but meet. */
export function settleInto({ numbers: n }: Nearest, first: Cores, i: number, second: Cores, j: number): void {
  if (n[DISTANCE_SQ] > DOUBT_SQ || n[MEETS] === 1) return;
  const a = i * STRIDE;
  const b = j * STRIDE;
  if (first.kind[i] <= second.kind[j]) settle(n, 0, first, a, second, b, 4 * first.kind[i] + second.kind[j]);
  else settle(n, 2, second, b, first, a, 4 * second.kind[j] + first.kind[i]);
}

/** Finds the nearest points of core i of one table and core j of another or the same, and whether they meet, into `near`. */
export function nearestInto(near: Nearest, first: Cores, i: number, second: Cores, j: number): void {
  measureInto(near, first, i, second, j);
  settleInto(near, first, i, second, j);
}

/** Decides exactly whether straight cores meet; if they only seemed to, offers their ends and corners. */
function settle(n: Float64Array, side: number, first: Cores, a: number, second: Cores, b: number, kinds: number): void {
  const p = first.data;
  const q = second.data;
  const c = second.corners;
  const d = first.corners;
  switch (kinds) {
    case 4 * POINT + POINT:
      if (p[a] === q[b] && p[a + 1] === q[b + 1]) meet(n, p[a], p[a + 1]);
      return;
    case 4 * POINT + SEGMENT:
      if (onSegment(p, a, q, b)) meet(n, p[a], p[a + 1]);
      return;
    case 4 * POINT + POLYGON:
      if (withinPolygon(p, a, c, q[b], q[b + 1])) meet(n, p[a], p[a + 1]);
      return;
    case 4 * SEGMENT + SEGMENT:
      if (meetSegments(n, p, a, q, b)) return;
      n[DISTANCE_SQ] = Number.POSITIVE_INFINITY;
      offerEnds(n, p, a, q, b);
      return;
    case 4 * SEGMENT + POLYGON:
      if (meetSegmentPolygon(n, p, a, c, q[b], q[b + 1])) return;
      n[DISTANCE_SQ] = Number.POSITIVE_INFINITY;
      pointPolygon(n, side, p, a, c, q[b], q[b + 1]);
      pointPolygon(n, side, p, a + 2, c, q[b], q[b + 1]);
      for (let k = q[b]; k < q[b + 1]; k += 2) pointSegment(n, 2 - side, c, k, p, a);
      return;
    case 4 * POLYGON + POLYGON:
      if (meetPolygons(n, d, p[a], p[a + 1], c, q[b], q[b + 1])) return;
      n[DISTANCE_SQ] = Number.POSITIVE_INFINITY;
      offerCorners(n, d, p[a], p[a + 1], c, q[b], q[b + 1]);
  }
}
