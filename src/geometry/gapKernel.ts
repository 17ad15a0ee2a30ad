/**
 * Distances between cores as plain arithmetic on one flat table: the path for many pairs at once. gap.ts is the
 * plain path, with points and exact signs; both give the same numbers.
 *
 * Exact: within 1e-9 mm of gap.ts for coordinates within 100 m. Signs are rounded here, not exact: where one is wrong,
 *        the cores are within rounding of touching, and the distance then found is within the same rounding of 0.
 */
import { spanOf } from './gapSpan.ts';
import type { Swept } from './shapes.ts';
import { boxOf } from './support.ts';

/** A shape with the heights between which it stands, mm above the deck. */
export interface Standing {
  readonly shape: Swept;
  readonly z0: number;
  readonly z1: number;
}

const POINT = 0;
const SEGMENT = 1;
const ARC = 2;
const POLYGON = 3;

/** Numbers of one core in `data`: see pack() for what each is. */
const STRIDE = 14;

const MINOR = 0;
const MAJOR = 1;
const FULL = 2;

/** Many bodies in flat arrays, ready for closePairs(). Build it once, or fill it again for each frame of a drag. */
export class CoreTable {
  count = 0;
  kind: Uint8Array;
  radius: Float64Array;
  /** Boxes with the radius, and heights. */
  minX: Float64Array;
  minY: Float64Array;
  maxX: Float64Array;
  maxY: Float64Array;
  z0: Float64Array;
  z1: Float64Array;
  data: Float64Array;
  /** Corners of all polygons, each polygon's first corner repeated at its end. */
  corners: Float64Array;
  private cornersUsed = 0;

  constructor(capacity = 64) {
    this.kind = new Uint8Array(capacity);
    this.radius = new Float64Array(capacity);
    this.minX = new Float64Array(capacity);
    this.minY = new Float64Array(capacity);
    this.maxX = new Float64Array(capacity);
    this.maxY = new Float64Array(capacity);
    this.z0 = new Float64Array(capacity);
    this.z1 = new Float64Array(capacity);
    this.data = new Float64Array(capacity * STRIDE);
    this.corners = new Float64Array(capacity * 4);
  }

  static of(bodies: readonly Standing[]): CoreTable {
    const table = new CoreTable(bodies.length);
    for (const { shape, z0, z1 } of bodies) table.add(shape, z0, z1);
    return table;
  }

  /** Forgets all bodies and keeps the memory. */
  clear(): void {
    this.count = 0;
    this.cornersUsed = 0;
  }

  /** Adds a body and returns its index. */
  add(shape: Swept, z0: number, z1: number): number {
    if (this.count === this.kind.length) this.grow();
    const i = this.count++;
    const box = boxOf(shape);
    this.minX[i] = box.minX;
    this.minY[i] = box.minY;
    this.maxX[i] = box.maxX;
    this.maxY[i] = box.maxY;
    this.z0[i] = z0;
    this.z1[i] = z1;
    this.radius[i] = shape.radius;
    this.pack(i, shape);
    return i;
  }

  private pack(i: number, { core }: Swept): void {
    const d = this.data;
    const at = i * STRIDE;
    switch (core.kind) {
      case 'point':
        this.kind[i] = POINT;
        d[at] = core.x;
        d[at + 1] = core.y;
        return;
      case 'segment': // both ends
        this.kind[i] = SEGMENT;
        d[at] = core.x0;
        d[at + 1] = core.y0;
        d[at + 2] = core.x1;
        d[at + 3] = core.y1;
        return;
      case 'arc': {
        // Both ends as a segment has them, then centre, radius, directions to the ends and the middle, and the span's kind.
        this.kind[i] = ARC;
        const span = spanOf(core);
        d[at] = core.cx + core.r * span.startX;
        d[at + 1] = core.cy + core.r * span.startY;
        d[at + 2] = core.cx + core.r * span.endX;
        d[at + 3] = core.cy + core.r * span.endY;
        d[at + 4] = core.cx;
        d[at + 5] = core.cy;
        d[at + 6] = core.r;
        d[at + 7] = span.startX;
        d[at + 8] = span.startY;
        d[at + 9] = span.endX;
        d[at + 10] = span.endY;
        d[at + 11] = span.midX;
        d[at + 12] = span.midY;
        d[at + 13] = span.full ? FULL : span.major ? MAJOR : MINOR;
        return;
      }
      case 'polygon': {
        // Where its corners begin and end in `corners`, the repeated first one not counted.
        this.kind[i] = POLYGON;
        const size = core.points.length;
        while (this.cornersUsed + size + 2 > this.corners.length) this.corners = grown(this.corners);
        this.corners.set(core.points, this.cornersUsed);
        this.corners[this.cornersUsed + size] = core.points[0];
        this.corners[this.cornersUsed + size + 1] = core.points[1];
        d[at] = this.cornersUsed;
        d[at + 1] = this.cornersUsed + size;
        this.cornersUsed += size + 2;
      }
    }
  }

  private grow(): void {
    const kind = new Uint8Array(2 * this.kind.length + 8);
    kind.set(this.kind);
    this.kind = kind;
    for (const name of ['radius', 'minX', 'minY', 'maxX', 'maxY', 'z0', 'z1'] as const) {
      const wider = new Float64Array(kind.length);
      wider.set(this[name]);
      this[name] = wider;
    }
    const data = new Float64Array(kind.length * STRIDE);
    data.set(this.data);
    this.data = data;
  }
}

function grown(array: Float64Array): Float64Array<ArrayBuffer> {
  const wider = new Float64Array(2 * array.length + 16);
  wider.set(array);
  return wider;
}

// Below, a point is (array, place of its x) and a segment (array, place of its first x, its four numbers in a row): a
// place is a small integer, where four loose numbers would each be put on the heap for a call that is not inlined.

function pointSegmentSq(p: Float64Array, at: number, s: Float64Array, seg: number): number {
  const x0 = s[seg];
  const y0 = s[seg + 1];
  const dx = s[seg + 2] - x0;
  const dy = s[seg + 3] - y0;
  const px = p[at] - x0;
  const py = p[at + 1] - y0;
  const along = px * dx + py * dy;
  if (along <= 0) return px * px + py * py;
  const lengthSq = dx * dx + dy * dy;
  if (along < lengthSq) {
    const across = px * dy - py * dx;
    return (across * across) / lengthSq;
  }
  const qx = p[at] - s[seg + 2];
  const qy = p[at + 1] - s[seg + 3];
  return qx * qx + qy * qy;
}

/** Whether each line passes between the other segment's ends. */
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

function segmentSegmentSq(s: Float64Array, a: number, t: Float64Array, b: number): number {
  if (segmentsCross(s, a, t, b)) return 0;
  return Math.min(
    pointSegmentSq(s, a, t, b),
    pointSegmentSq(s, a + 2, t, b),
    pointSegmentSq(t, b, s, a),
    pointSegmentSq(t, b + 2, s, a),
  );
}

/** spanHas() of gapSpan.ts on the table's numbers. */
function has(d: Float64Array, arc: number, x: number, y: number): boolean {
  const pastStart = d[arc + 7] * y - d[arc + 8] * x >= 0;
  const beforeEnd = x * d[arc + 10] - y * d[arc + 9] >= 0;
  const nearMiddle = d[arc + 11] * x + d[arc + 12] * y >= 0;
  const span = d[arc + 13];
  if (span === MINOR) return pastStart && beforeEnd && nearMiddle;
  return span === FULL || pastStart || beforeEnd || nearMiddle;
}

function pointArc(p: Float64Array, at: number, d: Float64Array, arc: number): number {
  const x = p[at];
  const y = p[at + 1];
  const dx = x - d[arc + 4];
  const dy = y - d[arc + 5];
  if (has(d, arc, dx, dy)) return Math.abs(Math.sqrt(dx * dx + dy * dy) - d[arc + 6]);
  const sx = x - d[arc];
  const sy = y - d[arc + 1];
  const ex = x - d[arc + 2];
  const ey = y - d[arc + 3];
  return Math.sqrt(Math.min(sx * sx + sy * sy, ex * ex + ey * ey));
}

function segmentArc(s: Float64Array, seg: number, d: Float64Array, arc: number): number {
  const x0 = s[seg];
  const y0 = s[seg + 1];
  const dx = s[seg + 2] - x0;
  const dy = s[seg + 3] - y0;
  const r = d[arc + 6];
  const length = Math.sqrt(dx * dx + dy * dy);
  const ux = dx / length;
  const uy = dy / length;
  const wx = d[arc + 4] - x0;
  const wy = d[arc + 5] - y0;
  const along = wx * ux + wy * uy;
  const off = wy * ux - wx * uy;
  const past = Math.abs(off) - r;
  if (past >= 0) {
    // The line misses the circle: is the pair at the foot of the centre on both cores? Then nothing is nearer.
    const side = off >= 0 ? 1 : -1;
    if (along >= 0 && along <= length && has(d, arc, side * uy, -side * ux)) return past;
  } else {
    const half = Math.sqrt((r - off) * (r + off));
    const px = off * uy;
    const py = -off * ux;
    const before = along - half;
    const after = along + half;
    if (before >= 0 && before <= length && has(d, arc, px - half * ux, py - half * uy)) return 0;
    if (after >= 0 && after <= length && has(d, arc, px + half * ux, py + half * uy)) return 0;
  }
  return Math.min(
    pointArc(s, seg, d, arc),
    pointArc(s, seg + 2, d, arc),
    Math.sqrt(Math.min(pointSegmentSq(d, arc, s, seg), pointSegmentSq(d, arc + 2, s, seg))),
  );
}

function arcArc(d: Float64Array, first: number, second: number): number {
  // From the smaller circle, as in gapCores.ts.
  const a = d[first + 6] > d[second + 6] ? second : first;
  const b = a === first ? second : first;
  const ra = d[a + 6];
  const rb = d[b + 6];
  const dx = d[b + 4] - d[a + 4];
  const dy = d[b + 5] - d[a + 5];
  const apart = Math.sqrt(dx * dx + dy * dy);
  if (apart >= ra + rb) {
    if (has(d, a, dx, dy) && has(d, b, -dx, -dy)) return apart - ra - rb;
  } else if (apart <= rb - ra) {
    // The smaller circle lies within the larger: nearest on the side away from the larger's centre.
    if (apart > 0 && has(d, a, -dx, -dy) && has(d, b, -dx, -dy)) return rb - ra - apart;
  } else {
    const ux = dx / apart;
    const uy = dy / apart;
    const foot = (apart + ((ra - rb) * (ra + rb)) / apart) / 2;
    const half = Math.sqrt(Math.max(0, (ra - foot) * (ra + foot)));
    for (let step = -half, tries = 0; tries < 2; tries++, step = half) {
      const vx = foot * ux - step * uy;
      const vy = foot * uy + step * ux;
      if (has(d, a, vx, vy) && has(d, b, vx - dx, vy - dy)) return 0;
    }
  }
  return Math.min(pointArc(d, a, d, b), pointArc(d, a + 2, d, b), pointArc(d, b, d, a), pointArc(d, b + 2, d, a));
}

/** Squared distance of a point to a polygon's edges, or 0 within it; corners from `from` to `to`, then the first again. */
function pointPolygonSq(p: Float64Array, at: number, c: Float64Array, from: number, to: number): number {
  const x = p[at];
  const y = p[at + 1];
  let least = Number.POSITIVE_INFINITY;
  for (let k = from; k < to; k += 2) {
    const dx = c[k + 2] - c[k];
    const dy = c[k + 3] - c[k + 1];
    const px = x - c[k];
    const py = y - c[k + 1];
    const across = dx * py - dy * px;
    // Only an edge with the point on its outer side can hold the nearest point.
    if (across >= 0) continue;
    const along = px * dx + py * dy;
    if (along <= 0) {
      least = Math.min(least, px * px + py * py);
      continue;
    }
    const lengthSq = dx * dx + dy * dy;
    // Straight out from an edge of a convex polygon nothing else is nearer.
    if (along < lengthSq) return (across * across) / lengthSq;
    const qx = x - c[k + 2];
    const qy = y - c[k + 3];
    least = Math.min(least, qx * qx + qy * qy);
  }
  // On the outer side of no edge is inside.
  return least === Number.POSITIVE_INFINITY ? 0 : least;
}

function segmentPolygonSq(s: Float64Array, seg: number, c: Float64Array, from: number, to: number): number {
  let least = Math.min(pointPolygonSq(s, seg, c, from, to), pointPolygonSq(s, seg + 2, c, from, to));
  if (least === 0) return 0;
  // With both ends outside, a segment that enters the polygon crosses an edge; one edge that has it outside rules that out.
  let parted = false;
  for (let k = from; k < to && !parted; k += 2) {
    const dx = c[k + 2] - c[k];
    const dy = c[k + 3] - c[k + 1];
    parted =
      dx * (s[seg + 1] - c[k + 1]) < dy * (s[seg] - c[k]) && dx * (s[seg + 3] - c[k + 1]) < dy * (s[seg + 2] - c[k]);
  }
  if (!parted) for (let k = from; k < to; k += 2) if (segmentsCross(s, seg, c, k)) return 0;
  for (let k = from; k < to; k += 2) least = Math.min(least, pointSegmentSq(c, k, s, seg));
  return least;
}

function arcPolygon(d: Float64Array, arc: number, c: Float64Array, from: number, to: number): number {
  if (pointPolygonSq(d, arc, c, from, to) === 0) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (let k = from; k < to && least > 0; k += 2) least = Math.min(least, segmentArc(c, k, d, arc));
  return least;
}

/** Whether an edge of the first polygon has all of the second on its outer side. */
function partedByEdge(c: Float64Array, from: number, to: number, otherFrom: number, otherTo: number): boolean {
  for (let k = from; k < to; k += 2) {
    const x0 = c[k];
    const y0 = c[k + 1];
    const dx = c[k + 2] - x0;
    const dy = c[k + 3] - y0;
    let outside = true;
    for (let m = otherFrom; m < otherTo && outside; m += 2) outside = dx * (c[m + 1] - y0) - dy * (c[m] - x0) < 0;
    if (outside) return true;
  }
  return false;
}

function polygonPolygonSq(c: Float64Array, a0: number, a1: number, b0: number, b1: number): number {
  // Two convex polygons are apart just when an edge of one parts them; then a corner of one is nearest.
  if (!partedByEdge(c, a0, a1, b0, b1) && !partedByEdge(c, b0, b1, a0, a1)) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (let k = a0; k < a1; k += 2) least = Math.min(least, pointPolygonSq(c, k, c, b0, b1));
  for (let k = b0; k < b1; k += 2) least = Math.min(least, pointPolygonSq(c, k, c, a0, a1));
  return least;
}

const one = new Float64Array(1);

/** The gap of bodies i and j of a table, as gapValue() in gap.ts gives it. */
export function gapInTable(table: CoreTable, i: number, j: number): number {
  gapInto(one, 0, table, i, j);
  return one[0];
}

/** Writes the gap into out[slot]: a number returned from a call this long would be put on the heap first. */
export function gapInto(out: Float64Array, slot: number, table: CoreTable, i: number, j: number): void {
  const { kind, data: d, corners: c } = table;
  // The kind that comes first in the list stands first, which halves the table of pairs.
  let first = i;
  let second = j;
  if (kind[i] > kind[j]) {
    first = j;
    second = i;
  }
  const a = first * STRIDE;
  const b = second * STRIDE;
  let distance: number;
  switch (kind[first] * 4 + kind[second]) {
    case POINT * 4 + POINT: {
      const dx = d[b] - d[a];
      const dy = d[b + 1] - d[a + 1];
      distance = Math.sqrt(dx * dx + dy * dy);
      break;
    }
    case POINT * 4 + SEGMENT:
      distance = Math.sqrt(pointSegmentSq(d, a, d, b));
      break;
    case POINT * 4 + ARC:
      distance = pointArc(d, a, d, b);
      break;
    case POINT * 4 + POLYGON:
      distance = Math.sqrt(pointPolygonSq(d, a, c, d[b], d[b + 1]));
      break;
    case SEGMENT * 4 + SEGMENT:
      distance = Math.sqrt(segmentSegmentSq(d, a, d, b));
      break;
    case SEGMENT * 4 + ARC:
      distance = segmentArc(d, a, d, b);
      break;
    case SEGMENT * 4 + POLYGON:
      distance = Math.sqrt(segmentPolygonSq(d, a, c, d[b], d[b + 1]));
      break;
    case ARC * 4 + ARC:
      distance = arcArc(d, a, b);
      break;
    case ARC * 4 + POLYGON:
      distance = arcPolygon(d, a, c, d[b], d[b + 1]);
      break;
    default:
      distance = Math.sqrt(polygonPolygonSq(c, d[a], d[a + 1], d[b], d[b + 1]));
  }
  out[slot] = distance - (table.radius[i] + table.radius[j]);
}
