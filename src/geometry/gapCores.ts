/**
 * The nearest points of two cores, one function per pair of kinds and one table that picks it.
 *
 * Every function offers candidates: pairs of points that lie on the two cores. The nearest pair is either at an
 * end or corner of one core, or where both cores are at right angles to the line between the points; all such pairs are
 * offered, so the least is the distance. A candidate too many costs time, never correctness.
 *
 * Exact:  whether points, segments and polygons meet (signs of turns). For pairs with an arc, meeting is a
 *         distance of at most ARC_MEETS_MM. Distances and points are within 1e-9 mm for coordinates within 100 m.
 * Inputs: cores made by shapes.ts, trusted.
 */
import { turn } from './frame.ts';
import { spanHas, spanOf } from './gapSpan.ts';
import type { ArcCore, Core, PointCore, PolygonCore, SegmentCore } from './shapes.ts';

/**
 * Below this distance the line between two points of arcs is rounding, not direction: half an ulp of the end angle,
 * times a bend radius of 100 m, is 9e-11 for each of the two. A fifth of the error this room promises.
 */
const ARC_MEETS_MM = 2e-10;

/** The nearest points so far: (ax, ay) on the first core, (bx, by) on the second. */
export class Nearest {
  ax = 0;
  ay = 0;
  bx = 0;
  by = 0;
  distance = Number.POSITIVE_INFINITY;
  /** The cores cross, touch, or one holds a point of the other; then both points are one shared point. */
  meeting = false;

  reset(): void {
    this.distance = Number.POSITIVE_INFINITY;
    this.meeting = false;
  }

  offer(ax: number, ay: number, bx: number, by: number): void {
    const dx = bx - ax;
    const dy = by - ay;
    const distance = Math.sqrt(dx * dx + dy * dy);
    if (distance >= this.distance) return;
    this.distance = distance;
    this.ax = ax;
    this.ay = ay;
    this.bx = bx;
    this.by = by;
  }

  meet(x: number, y: number): void {
    this.ax = this.bx = x;
    this.ay = this.by = y;
    this.distance = 0;
    this.meeting = true;
  }

  swap(): void {
    const { ax, ay } = this;
    this.ax = this.bx;
    this.ay = this.by;
    this.bx = ax;
    this.by = ay;
  }
}

/** The corner after `i` in a flat list of corners. */
const next = (points: readonly number[], i: number): number => (i + 2 === points.length ? 0 : i + 2);

/** Edge i of a polygon as a segment. */
function edge(points: readonly number[], i: number): SegmentCore {
  const j = next(points, i);
  return { kind: 'segment', x0: points[i], y0: points[i + 1], x1: points[j], y1: points[j + 1] };
}

function pointPoint(a: PointCore, b: PointCore, best: Nearest): void {
  if (a.x === b.x && a.y === b.y) best.meet(a.x, a.y);
  else best.offer(a.x, a.y, b.x, b.y);
}

/** Offers a point of core a with its nearest point on segment b. */
function offerPointSegment(x: number, y: number, b: SegmentCore, best: Nearest): void {
  const dx = b.x1 - b.x0;
  const dy = b.y1 - b.y0;
  const along = (x - b.x0) * dx + (y - b.y0) * dy;
  const lengthSq = dx * dx + dy * dy;
  if (along <= 0) best.offer(x, y, b.x0, b.y0);
  else if (along >= lengthSq) best.offer(x, y, b.x1, b.y1);
  else best.offer(x, y, b.x0 + (along / lengthSq) * dx, b.y0 + (along / lengthSq) * dy);
}

/** The same with the point on core b and the segment as core a. */
function offerSegmentPoint(a: SegmentCore, x: number, y: number, best: Nearest): void {
  best.swap();
  offerPointSegment(x, y, a, best);
  best.swap();
}

/** Whether a point known to be in line with a segment lies within it. */
function withinBox(x: number, y: number, { x0, y0, x1, y1 }: SegmentCore): boolean {
  return x >= Math.min(x0, x1) && x <= Math.max(x0, x1) && y >= Math.min(y0, y1) && y <= Math.max(y0, y1);
}

function pointSegment(a: PointCore, b: SegmentCore, best: Nearest): void {
  if (turn(b.x0, b.y0, b.x1, b.y1, a.x, a.y) === 0 && withinBox(a.x, a.y, b)) best.meet(a.x, a.y);
  else offerPointSegment(a.x, a.y, b, best);
}

/** Marks crossing, touching and overlapping segments as meeting. */
function meetSegments(a: SegmentCore, b: SegmentCore, best: Nearest): void {
  const a0 = turn(b.x0, b.y0, b.x1, b.y1, a.x0, a.y0);
  const a1 = turn(b.x0, b.y0, b.x1, b.y1, a.x1, a.y1);
  const b0 = turn(a.x0, a.y0, a.x1, a.y1, b.x0, b.y0);
  const b1 = turn(a.x0, a.y0, a.x1, a.y1, b.x1, b.y1);
  // Does an end of one lie on the other? Collinear segments that share a point always answer here.
  if (a0 === 0 && withinBox(a.x0, a.y0, b)) best.meet(a.x0, a.y0);
  else if (a1 === 0 && withinBox(a.x1, a.y1, b)) best.meet(a.x1, a.y1);
  else if (b0 === 0 && withinBox(b.x0, b.y0, a)) best.meet(b.x0, b.y0);
  else if (b1 === 0 && withinBox(b.x1, b.y1, a)) best.meet(b.x1, b.y1);
  // Does each have its ends on both sides of the other?
  else if (a0 > 0 !== a1 > 0 && b0 > 0 !== b1 > 0 && a0 !== 0 && a1 !== 0 && b0 !== 0 && b1 !== 0) {
    const t = a0 / (a0 - a1);
    best.meet(a.x0 + t * (a.x1 - a.x0), a.y0 + t * (a.y1 - a.y0));
  }
}

function segmentSegment(a: SegmentCore, b: SegmentCore, best: Nearest): void {
  meetSegments(a, b, best);
  if (best.meeting) return;
  offerPointSegment(a.x0, a.y0, b, best);
  offerPointSegment(a.x1, a.y1, b, best);
  offerSegmentPoint(a, b.x0, b.y0, best);
  offerSegmentPoint(a, b.x1, b.y1, best);
}

/** Offers a point of core a with its nearest point on arc b; at the centre every point of the arc is nearest. */
function offerPointArc(x: number, y: number, b: ArcCore, best: Nearest): void {
  const span = spanOf(b);
  const dx = x - b.cx;
  const dy = y - b.cy;
  const d = Math.sqrt(dx * dx + dy * dy);
  if (d > 0 && spanHas(span, dx, dy)) best.offer(x, y, b.cx + (dx / d) * b.r, b.cy + (dy / d) * b.r);
  best.offer(x, y, b.cx + b.r * span.startX, b.cy + b.r * span.startY);
  best.offer(x, y, b.cx + b.r * span.endX, b.cy + b.r * span.endY);
}

function offerArcPoint(a: ArcCore, x: number, y: number, best: Nearest): void {
  best.swap();
  offerPointArc(x, y, a, best);
  best.swap();
}

/** Offers both ends of an arc to another core. */
function offerArcEnds(arc: ArcCore, offer: (x: number, y: number) => void): void {
  const span = spanOf(arc);
  offer(arc.cx + arc.r * span.startX, arc.cy + arc.r * span.startY);
  offer(arc.cx + arc.r * span.endX, arc.cy + arc.r * span.endY);
}

function pointArc(a: PointCore, b: ArcCore, best: Nearest): void {
  offerPointArc(a.x, a.y, b, best);
}

function segmentArc(a: SegmentCore, b: ArcCore, best: Nearest): void {
  offerPointArc(a.x0, a.y0, b, best);
  offerPointArc(a.x1, a.y1, b, best);
  offerArcEnds(b, (x, y) => offerSegmentPoint(a, x, y, best));
  const dx = a.x1 - a.x0;
  const dy = a.y1 - a.y0;
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return;
  const ux = dx / length;
  const uy = dy / length;
  // The foot of the centre on the line: `along` from the first end, `off` from the centre along the normal (uy, -ux).
  const along = (b.cx - a.x0) * ux + (b.cy - a.y0) * uy;
  const off = (b.cy - a.y0) * ux - (b.cx - a.x0) * uy;
  const span = spanOf(b);
  if (along >= 0 && along <= length) {
    const side = off >= 0 ? 1 : -1;
    const nx = side * uy;
    const ny = -side * ux;
    if (spanHas(span, nx, ny)) best.offer(a.x0 + along * ux, a.y0 + along * uy, b.cx + b.r * nx, b.cy + b.r * ny);
  }
  // Where line and circle cross, half a chord to either side of the foot.
  if (Math.abs(off) <= b.r) {
    const half = Math.sqrt((b.r - off) * (b.r + off));
    for (const step of [-half, half]) {
      const at = along + step;
      const vx = off * uy + step * ux;
      const vy = -off * ux + step * uy;
      if (at >= 0 && at <= length && spanHas(span, vx, vy)) best.meet(b.cx + vx, b.cy + vy);
    }
  }
}

function arcArc(a: ArcCore, b: ArcCore, best: Nearest): void {
  offerArcEnds(a, (x, y) => offerPointArc(x, y, b, best));
  offerArcEnds(b, (x, y) => offerArcPoint(a, x, y, best));
  const dx = b.cx - a.cx;
  const dy = b.cy - a.cy;
  const d = Math.sqrt(dx * dx + dy * dy);
  // One centre: where both arcs cover a direction, an end of one does too, and the ends have been offered.
  if (d === 0) return;
  const ux = dx / d;
  const uy = dy / d;
  const spanA = spanOf(a);
  const spanB = spanOf(b);
  for (const sideA of [1, -1]) {
    if (!spanHas(spanA, sideA * ux, sideA * uy)) continue;
    for (const sideB of [1, -1]) {
      if (!spanHas(spanB, sideB * ux, sideB * uy)) continue;
      const fromA = sideA * a.r;
      const fromB = sideB * b.r;
      best.offer(a.cx + fromA * ux, a.cy + fromA * uy, b.cx + fromB * ux, b.cy + fromB * uy);
    }
  }
  // Where the circles cross, seen from the smaller one's centre: from the larger's, half a chord would lose as many
  // digits as the larger's radius has more. `foot` lies along the line of centres, `half` a chord to either side. The
  // factored form keeps its digits when the circles are nearly one and the same.
  const fromA = a.r <= b.r;
  const [small, large] = fromA ? [a, b] : [b, a];
  const [spanSmall, spanLarge] = fromA ? [spanA, spanB] : [spanB, spanA];
  const toLarge = fromA ? 1 : -1;
  const foot = (d + ((small.r - large.r) * (small.r + large.r)) / d) / 2;
  const halfSq = (small.r - foot) * (small.r + foot);
  if (halfSq < 0) return;
  const half = Math.sqrt(halfSq);
  for (const step of [-half, half]) {
    const vx = toLarge * (foot * ux - step * uy);
    const vy = toLarge * (foot * uy + step * ux);
    if (spanHas(spanSmall, vx, vy) && spanHas(spanLarge, vx - toLarge * dx, vy - toLarge * dy))
      best.meet(small.cx + vx, small.cy + vy);
  }
}

/** Whether a point lies in a polygon or on its edge. */
function inPolygon(x: number, y: number, { points }: PolygonCore): boolean {
  for (let i = 0; i < points.length; i += 2) {
    const j = next(points, i);
    if (turn(points[i], points[i + 1], points[j], points[j + 1], x, y) < 0) return false;
  }
  return true;
}

function pointPolygon(a: PointCore, b: PolygonCore, best: Nearest): void {
  if (inPolygon(a.x, a.y, b)) {
    best.meet(a.x, a.y);
    return;
  }
  for (let i = 0; i < b.points.length; i += 2) offerPointSegment(a.x, a.y, edge(b.points, i), best);
}

/** A core that is a curve meets a polygon if it starts in it or crosses an edge. */
function segmentPolygon(a: SegmentCore, b: PolygonCore, best: Nearest): void {
  if (inPolygon(a.x0, a.y0, b)) best.meet(a.x0, a.y0);
  for (let i = 0; i < b.points.length && !best.meeting; i += 2) segmentSegment(a, edge(b.points, i), best);
}

function arcPolygon(a: ArcCore, b: PolygonCore, best: Nearest): void {
  offerArcEnds(a, (x, y) => {
    if (inPolygon(x, y, b)) best.meet(x, y);
  });
  for (let i = 0; i < b.points.length && !best.meeting; i += 2) {
    best.swap();
    segmentArc(edge(b.points, i), a, best);
    best.swap();
  }
}

function polygonPolygon(a: PolygonCore, b: PolygonCore, best: Nearest): void {
  if (inPolygon(a.points[0], a.points[1], b)) best.meet(a.points[0], a.points[1]);
  else if (inPolygon(b.points[0], b.points[1], a)) best.meet(b.points[0], b.points[1]);
  for (let i = 0; i < a.points.length && !best.meeting; i += 2) {
    const side = edge(a.points, i);
    for (let j = 0; j < b.points.length && !best.meeting; j += 2) segmentSegment(side, edge(b.points, j), best);
  }
}

const ORDER = { point: 0, segment: 1, arc: 2, polygon: 3 } as const;

type Pairing = (a: never, b: never, best: Nearest) => void;

/** By the kinds' order; only a first kind that does not come after the second. */
const PAIRINGS: readonly (readonly Pairing[])[] = [
  [pointPoint, pointSegment, pointArc, pointPolygon],
  [pointPoint, segmentSegment, segmentArc, segmentPolygon],
  [pointPoint, pointPoint, arcArc, arcPolygon],
  [pointPoint, pointPoint, pointPoint, polygonPolygon],
];

/** Finds the nearest points of two cores, into `best`. */
export function nearestInto(best: Nearest, a: Core, b: Core): void {
  best.reset();
  const swapped = ORDER[a.kind] > ORDER[b.kind];
  const [first, second] = swapped ? [b, a] : [a, b];
  PAIRINGS[ORDER[first.kind]][ORDER[second.kind]](first as never, second as never, best);
  if (swapped) best.swap();
  const curved = a.kind === 'arc' || b.kind === 'arc';
  if (curved && best.distance <= ARC_MEETS_MM) best.meet(best.ax, best.ay);
}
