/**
 * The union of many swept shapes, exactly: every edge is split where other edges cross it, the stretches that other
 * shapes cover are left out, and what remains is drawn with a pen (for the area, Green's theorem).
 *
 * Method: pairs of shapes whose boxes meet come from a grid. Each crossing is found once per pair and noted on both
 * edges, so that both are cut at the same point. A stretch between two cuts is covered or free throughout, so its middle
 * decides. Where its middle lies on another shape's edge (within `tolerance`), the edges run together: with the solids on the same
 * side the shape that comes first keeps the stretch, with solids on opposite sides it lies inside the union.
 *
 * Units:  one length unit throughout; area in its square.
 * Exact:  arcs and segments stay such; relative error about 1e-14 for kits, below 1e-12 in the tests' worst cases.
 * Inputs: shapes from shapes.ts, in any order; shapes without area are ignored.
 */
import { wrapAngle } from './frame.ts';
import { drawRaw, hasArea, Integral, overlapsItself, type Pen, SHORTEST } from './outline.ts';
import type { Swept } from './shapes.ts';
import { meetingBoxes } from './unionBoxes.ts';
import { clearlyOutside, edgeBend, signedDistance, slopeX, slopeY } from './unionInside.ts';

// Edges: one row each. A segment is x0, y0, dx, dy, length; an arc is cx, cy, r, start, sweep (|sweep| in `span`).
let edgeCount = 0;
let round = new Uint8Array(0);
let owner = new Int32Array(0);
let edge = new Float64Array(0);
/** Parameter range of an edge: [0, 1] along a segment, [0, |sweep|] along an arc. */
let span = new Float64Array(0);
/** Box of each edge: minX, minY, maxX, maxY. */
let edgeBox = new Float64Array(0);
// Cuts: a linked list for each edge.
let firstCut = new Int32Array(0);
let cutCount = 0;
let cutAt = new Float64Array(256);
let nextCut = new Int32Array(256);
/** First edge of each shape, and one past the last. */
let shapeEdges = new Int32Array(0);
let boxes = new Float64Array(0);
/** 1 for a shape that lies wholly inside another. */
let covered = new Uint8Array(0);
const sorted: number[] = [];

function growEdges(): void {
  const size = Math.max(256, edgeCount * 2);
  const copy = <T extends Uint8Array | Int32Array | Float64Array>(from: T, to: T): T => {
    to.set(from);
    return to;
  };
  round = copy(round, new Uint8Array(size));
  owner = copy(owner, new Int32Array(size));
  edge = copy(edge, new Float64Array(size * 5));
  span = copy(span, new Float64Array(size));
  edgeBox = copy(edgeBox, new Float64Array(size * 4));
  firstCut = copy(firstCut, new Int32Array(size));
}

let drawing = 0;
const recorder: Pen = {
  segment(x0, y0, x1, y1) {
    if ((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0) < SHORTEST * SHORTEST) return;
    if (edgeCount === owner.length) growEdges();
    const e = edgeCount++;
    round[e] = 0;
    owner[e] = drawing;
    edge[e * 5] = x0;
    edge[e * 5 + 1] = y0;
    edge[e * 5 + 2] = x1 - x0;
    edge[e * 5 + 3] = y1 - y0;
    edge[e * 5 + 4] = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    span[e] = 1;
    edgeBox[e * 4] = Math.min(x0, x1);
    edgeBox[e * 4 + 1] = Math.min(y0, y1);
    edgeBox[e * 4 + 2] = Math.max(x0, x1);
    edgeBox[e * 4 + 3] = Math.max(y0, y1);
    firstCut[e] = -1;
  },
  arc(cx, cy, r, start, sweep) {
    if (edgeCount === owner.length) growEdges();
    const e = edgeCount++;
    round[e] = 1;
    owner[e] = drawing;
    edge[e * 5] = cx;
    edge[e * 5 + 1] = cy;
    edge[e * 5 + 2] = r;
    edge[e * 5 + 3] = start;
    edge[e * 5 + 4] = sweep;
    span[e] = Math.abs(sweep);
    edgeBox[e * 4] = cx - r;
    edgeBox[e * 4 + 1] = cy - r;
    edgeBox[e * 4 + 2] = cx + r;
    edgeBox[e * 4 + 3] = cy + r;
    firstCut[e] = -1;
  },
};

function cut(e: number, at: number): void {
  if (cutCount === cutAt.length) {
    const oldAt = cutAt;
    const oldNext = nextCut;
    cutAt = new Float64Array(cutCount * 2);
    nextCut = new Int32Array(cutCount * 2);
    cutAt.set(oldAt);
    nextCut.set(oldNext);
  }
  cutAt[cutCount] = at;
  nextCut[cutCount] = firstCut[e];
  firstCut[e] = cutCount++;
}

/** Where a point on an edge's carrier lies along the edge; -1 where it lies off it by more than the tolerance. */
function along(e: number, x: number, y: number, tolerance: number): number {
  const k = e * 5;
  if (round[e] === 0) {
    const dx = edge[k + 2];
    const dy = edge[k + 3];
    const lengthSq = edge[k + 4] * edge[k + 4];
    const t = ((x - edge[k]) * dx + (y - edge[k + 1]) * dy) / lengthSq;
    const slack = tolerance / edge[k + 4];
    if (t < -slack || t > 1 + slack) return -1;
    return t < 0 ? 0 : Math.min(t, 1);
  }
  const angle = Math.atan2(y - edge[k + 1], x - edge[k]);
  const turned = edge[k + 4] > 0 ? wrapAngle(angle - edge[k + 3]) : wrapAngle(edge[k + 3] - angle);
  if (turned <= span[e]) return turned;
  const slack = tolerance / edge[k + 2];
  if (turned <= span[e] + slack) return span[e];
  if (turned >= 2 * Math.PI - slack) return 0;
  return -1;
}

function cutBoth(a: number, b: number, x: number, y: number, tolerance: number): void {
  const onA = along(a, x, y, tolerance);
  if (onA < 0) return;
  const onB = along(b, x, y, tolerance);
  if (onB < 0) return;
  cut(a, onA);
  cut(b, onB);
}

/** Cuts edge a at the ends of edge b that lie on it: for edges that run together. */
function cutAtEndsOf(b: number, a: number, tolerance: number): void {
  const k = b * 5;
  let x0 = edge[k];
  let y0 = edge[k + 1];
  let x1 = x0 + edge[k + 2];
  let y1 = y0 + edge[k + 3];
  if (round[b] === 1) {
    const end = edge[k + 3] + edge[k + 4];
    x1 = x0 + edge[k + 2] * Math.cos(end);
    y1 = y0 + edge[k + 2] * Math.sin(end);
    x0 += edge[k + 2] * Math.cos(edge[k + 3]);
    y0 += edge[k + 2] * Math.sin(edge[k + 3]);
  }
  const first = along(a, x0, y0, tolerance);
  if (first >= 0) cut(a, first);
  const last = along(a, x1, y1, tolerance);
  if (last >= 0) cut(a, last);
}

function crossSegments(a: number, b: number, tolerance: number): void {
  const i = a * 5;
  const j = b * 5;
  const ax = edge[i + 2];
  const ay = edge[i + 3];
  const bx = edge[j + 2];
  const by = edge[j + 3];
  const wx = edge[j] - edge[i];
  const wy = edge[j + 1] - edge[i + 1];
  const sine = ax * by - ay * bx;
  const reach = edge[i + 4] * edge[j + 4];
  // Nearly parallel: within the tolerance along the shorter edge they may run together.
  if (Math.abs(sine) * Math.min(edge[i + 4], edge[j + 4]) <= 2 * tolerance * reach) {
    const offStart = Math.abs(wx * ay - wy * ax) / edge[i + 4];
    if (offStart > 4 * tolerance + (Math.abs(sine) / reach) * (edge[i + 4] + edge[j + 4])) return;
    cutAtEndsOf(b, a, tolerance);
    cutAtEndsOf(a, b, tolerance);
    return;
  }
  const t = (wx * by - wy * bx) / sine;
  const slack = tolerance / edge[i + 4];
  if (t < -slack || t > 1 + slack) return;
  cutBoth(a, b, edge[i] + t * ax, edge[i + 1] + t * ay, tolerance);
}

function crossSegmentArc(a: number, b: number, tolerance: number): void {
  const i = a * 5;
  const j = b * 5;
  const ux = edge[i + 2] / edge[i + 4];
  const uy = edge[i + 3] / edge[i + 4];
  const wx = edge[j] - edge[i];
  const wy = edge[j + 1] - edge[i + 1];
  const r = edge[j + 2];
  const off = Math.abs(wx * uy - wy * ux);
  if (off > r + tolerance) return;
  const foot = wx * ux + wy * uy;
  if (off >= r - tolerance) {
    cutBoth(a, b, edge[i] + foot * ux, edge[i + 1] + foot * uy, tolerance);
    return;
  }
  const half = Math.sqrt((r - off) * (r + off));
  for (let side = -1; side <= 1; side += 2) {
    const s = foot + side * half;
    if (s < -tolerance || s > edge[i + 4] + tolerance) continue;
    cutBoth(a, b, edge[i] + s * ux, edge[i + 1] + s * uy, tolerance);
  }
}

function crossArcs(a: number, b: number, tolerance: number): void {
  const i = a * 5;
  const j = b * 5;
  const dx = edge[j] - edge[i];
  const dy = edge[j + 1] - edge[i + 1];
  const r1 = edge[i + 2];
  const r2 = edge[j + 2];
  const dSq = dx * dx + dy * dy;
  if (dSq > (r1 + r2 + tolerance) * (r1 + r2 + tolerance)) return;
  const d = Math.sqrt(dSq);
  const inner = Math.abs(r1 - r2);
  if (d < inner - tolerance) return;
  if (d <= tolerance) {
    cutAtEndsOf(b, a, tolerance);
    cutAtEndsOf(a, b, tolerance);
    return;
  }
  const ux = dx / d;
  const uy = dy / d;
  const reach = (d + ((r1 - r2) * (r1 + r2)) / d) / 2;
  if (d >= r1 + r2 - tolerance || d <= inner + tolerance) {
    const side = reach < 0 ? -r1 : r1;
    cutBoth(a, b, edge[i] + side * ux, edge[i + 1] + side * uy, tolerance);
    return;
  }
  const half = Math.sqrt(Math.max(0, (r1 - reach) * (r1 + reach)));
  const fx = edge[i] + reach * ux;
  const fy = edge[i + 1] + reach * uy;
  cutBoth(a, b, fx - half * uy, fy + half * ux, tolerance);
  cutBoth(a, b, fx + half * uy, fy - half * ux, tolerance);
}

function cross(a: number, b: number, tolerance: number): void {
  if (round[a] === 0) {
    if (round[b] === 0) crossSegments(a, b, tolerance);
    else crossSegmentArc(a, b, tolerance);
  } else if (round[b] === 0) crossSegmentArc(b, a, tolerance);
  else crossArcs(a, b, tolerance);
}

/** Whether edge e's box meets shape i's box within the tolerance. */
function near(e: number, i: number, tolerance: number): boolean {
  return (
    edgeBox[e * 4] <= boxes[i * 4 + 2] + tolerance &&
    edgeBox[e * 4 + 2] >= boxes[i * 4] - tolerance &&
    edgeBox[e * 4 + 1] <= boxes[i * 4 + 3] + tolerance &&
    edgeBox[e * 4 + 3] >= boxes[i * 4 + 1] - tolerance
  );
}

function edgesNear(a: number, b: number, tolerance: number): boolean {
  return (
    edgeBox[a * 4] <= edgeBox[b * 4 + 2] + tolerance &&
    edgeBox[a * 4 + 2] >= edgeBox[b * 4] - tolerance &&
    edgeBox[a * 4 + 1] <= edgeBox[b * 4 + 3] + tolerance &&
    edgeBox[a * 4 + 3] >= edgeBox[b * 4 + 1] - tolerance
  );
}

/**
 * Rounding of coordinates of this size, with room for a few operations: edges closer than this run together.
 * Two shapes built differently round the same joint (a bent tube and its straight end) differ by less.
 */
function roundingTolerance(extent: number): number {
  return 1e-13 * Math.max(1, extent);
}

/**
 * Notes which shapes lie wholly inside another that has no hollow, by more than the tolerance: a post under its cymbal. Such a
 * shape has no edge of the union and covers nothing that the other does not. Being strictly inside goes round in no circle, so
 * the outermost of a nest stays.
 */
function markCovered(solids: readonly Swept[], starts: Int32Array, others: Int32Array, tolerance: number): void {
  const n = solids.length;
  if (covered.length < n) covered = new Uint8Array(2 * n);
  for (let i = 0; i < n; i++) {
    covered[i] = 0;
    if (solids[i].core.kind === 'arc') continue;
    for (let k = starts[i]; k < starts[i + 1]; k++) {
      const j = others[k];
      if (
        boxes[i * 4] > boxes[j * 4] &&
        boxes[i * 4 + 1] > boxes[j * 4 + 1] &&
        boxes[i * 4 + 2] < boxes[j * 4 + 2] &&
        boxes[i * 4 + 3] < boxes[j * 4 + 3] &&
        isWithin(solids[i], solids[j], tolerance)
      ) {
        covered[i] = 1;
        break;
      }
    }
  }
}

/** Whether a shape lies inside a convex one by more than the tolerance: its core's corners do, deeper than its radius. */
function isWithin({ core, radius }: Swept, outer: Swept, tolerance: number): boolean {
  if (outer.core.kind === 'arc') return false;
  const deep = -radius - tolerance;
  switch (core.kind) {
    case 'point':
      return signedDistance(outer, core.x, core.y) < deep;
    case 'segment':
      return signedDistance(outer, core.x0, core.y0) < deep && signedDistance(outer, core.x1, core.y1) < deep;
    case 'polygon':
      for (let k = 0; k < core.points.length; k += 2)
        if (signedDistance(outer, core.points[k], core.points[k + 1]) >= deep) return false;
      return true;
    default:
      return false;
  }
}

/** Draws the boundary of the union of `solids` (shapes with area), stretch by stretch, in no promised order. */
export function drawUnion(solids: readonly Swept[], pen: Pen, atLeast = 0): void {
  const n = solids.length;
  if (shapeEdges.length < n + 1) {
    shapeEdges = new Int32Array(n * 2 + 1);
    boxes = new Float64Array(n * 8);
  }
  edgeCount = 0;
  cutCount = 0;
  let extent = 0;
  for (let i = 0; i < n; i++) {
    drawing = i;
    shapeEdges[i] = edgeCount;
    drawRaw(solids[i], recorder);
    let x0 = Infinity;
    let y0 = Infinity;
    let x1 = -Infinity;
    let y1 = -Infinity;
    for (let e = shapeEdges[i]; e < edgeCount; e++) {
      if (edgeBox[e * 4] < x0) x0 = edgeBox[e * 4];
      if (edgeBox[e * 4 + 1] < y0) y0 = edgeBox[e * 4 + 1];
      if (edgeBox[e * 4 + 2] > x1) x1 = edgeBox[e * 4 + 2];
      if (edgeBox[e * 4 + 3] > y1) y1 = edgeBox[e * 4 + 3];
    }
    boxes[i * 4] = x0;
    boxes[i * 4 + 1] = y0;
    boxes[i * 4 + 2] = x1;
    boxes[i * 4 + 3] = y1;
    extent = Math.max(extent, Math.abs(x0), Math.abs(y0), Math.abs(x1), Math.abs(y1));
  }
  shapeEdges[n] = edgeCount;
  const tolerance = Math.max(atLeast, roundingTolerance(extent));

  const { starts, others } = meetingBoxes(boxes, n, tolerance);
  markCovered(solids, starts, others, tolerance);
  for (let i = 0; i < n; i++) {
    if (covered[i] === 1) continue;
    for (let k = starts[i]; k < starts[i + 1]; k++) {
      const j = others[k];
      if (j < i || covered[j] === 1) continue;
      for (let a = shapeEdges[i]; a < shapeEdges[i + 1]; a++) {
        if (!near(a, j, tolerance)) continue;
        for (let b = shapeEdges[j]; b < shapeEdges[j + 1]; b++) if (edgesNear(a, b, tolerance)) cross(a, b, tolerance);
      }
    }
  }

  const free: number[] = [];
  for (let i = 0; i < n; i++) {
    if (covered[i] === 1) continue;
    const tangled = overlapsItself(solids[i]);
    if (tangled) {
      // The half circles at a curved tube's two ends are its only edges that can cross each other.
      const ends: number[] = [];
      for (let e = shapeEdges[i]; e < shapeEdges[i + 1]; e++) if (isEnd(e, solids[i])) ends.push(e);
      cross(ends[0], ends[1], tolerance);
    }
    for (let e = shapeEdges[i]; e < shapeEdges[i + 1]; e++) {
      sorted.length = 0;
      for (let c = firstCut[e]; c >= 0; c = nextCut[c]) {
        const at = cutAt[c];
        let k = sorted.length;
        sorted.push(at);
        while (k > 0 && sorted[k - 1] > at) {
          sorted[k] = sorted[k - 1];
          k--;
        }
        sorted[k] = at;
      }
      sorted.push(span[e]);
      const self = tangled && isEnd(e, solids[i]);
      const size = round[e] === 1 ? edge[e * 5 + 2] : edge[e * 5 + 4];
      let from = 0;
      for (let k = 0; k < sorted.length; k++) {
        const to = sorted[k];
        // A stretch well below the tolerance carries nothing, and its middle could decide nothing.
        if ((to - from) * size > tolerance / 10) {
          if (isFree(e, i, (from + to) / 2, self, solids, starts, others, tolerance)) note(free, e, from, to);
        }
        from = to;
      }
    }
  }
  // Drawn last, when the buffers are free again: a pen may ask for a union itself.
  for (let k = 0; k < free.length; k += 5)
    if (free[k] === 0) pen.segment(free[k + 1], free[k + 2], free[k + 3], free[k + 4]);
    else pen.arc(free[k + 1], free[k + 2], free[k], free[k + 3], free[k + 4]);
}

/** Whether an edge is the half circle at an end of a curved tube. */
function isEnd(e: number, { core }: Swept): boolean {
  return core.kind === 'arc' && !(edge[e * 5] === core.cx && edge[e * 5 + 1] === core.cy);
}

function isFree(
  e: number,
  i: number,
  at: number,
  self: boolean,
  solids: readonly Swept[],
  starts: Int32Array,
  others: Int32Array,
  tolerance: number,
): boolean {
  const k = e * 5;
  let x: number;
  let y: number;
  let nx: number;
  let ny: number;
  let bend = 0;
  if (round[e] === 0) {
    x = edge[k] + at * edge[k + 2];
    y = edge[k + 1] + at * edge[k + 3];
    nx = edge[k + 3] / edge[k + 4];
    ny = -edge[k + 2] / edge[k + 4];
  } else {
    const angle = edge[k + 4] > 0 ? edge[k + 3] + at : edge[k + 3] - at;
    nx = Math.cos(angle);
    ny = Math.sin(angle);
    x = edge[k] + edge[k + 2] * nx;
    y = edge[k + 1] + edge[k + 2] * ny;
    bend = 1 / edge[k + 2];
    if (edge[k + 4] < 0) {
      nx = -nx;
      ny = -ny;
      bend = -bend;
    }
  }
  if (self && signedDistance(solids[i], x, y) < -tolerance) return false;
  for (let m = starts[i]; m < starts[i + 1]; m++) {
    const j = others[m];
    if (covered[j] === 1) continue;
    if (
      x < boxes[j * 4] - tolerance ||
      x > boxes[j * 4 + 2] + tolerance ||
      y < boxes[j * 4 + 1] - tolerance ||
      y > boxes[j * 4 + 3] + tolerance
    )
      continue;
    // Twice the tolerance, so that rounding of the squares cannot hide an edge that runs along.
    if (clearlyOutside(solids[j], x, y, 2 * tolerance)) continue;
    const distance = signedDistance(solids[j], x, y);
    if (distance > tolerance) continue;
    if (distance < -tolerance) return false;
    if (coversEdge(nx, ny, bend, distance, j < i, tolerance)) return false;
  }
  return true;
}

/**
 * Whether the shape last asked about covers a stretch of edge whose middle lies on its own edge within the tolerance.
 * Three things can bring two edges so close: they run together, they touch, or they cross nearby at some angle.
 * Near a touch the bends decide, not the distance: its sign is lost in rounding long before the edges part.
 */
function coversEdge(
  nx: number,
  ny: number,
  bend: number,
  distance: number,
  later: boolean,
  tolerance: number,
): boolean {
  const sine = Math.abs(nx * slopeY() - ny * slopeX());
  const same = nx * slopeX() + ny * slopeY() > 0;
  const other = same ? edgeBend() : -edgeBend();
  const together = Math.abs(bend - other) <= 4 * tolerance * Math.abs(bend * other);
  if (sine > (together ? TOGETHER_SINE : TOUCH_SINE)) return distance < 0;
  if (together) return !same || later;
  return same ? bend > other : bend < other;
}

/** Straight edges, or arcs of one radius, at more than this angle cross rather than run together. */
const TOGETHER_SINE = 1e-8;
/** Edges of unlike bend at more than this angle cross rather than touch. */
const TOUCH_SINE = 1e-5;

/** Notes a stretch of an edge: a segment as 0 and its ends, an arc as its radius, centre, start and sweep. */
function note(stretches: number[], e: number, from: number, to: number): void {
  const k = e * 5;
  const x = edge[k];
  const y = edge[k + 1];
  if (round[e] === 0)
    stretches.push(0, x + from * edge[k + 2], y + from * edge[k + 3], x + to * edge[k + 2], y + to * edge[k + 3]);
  else {
    const turn = edge[k + 4] > 0 ? 1 : -1;
    stretches.push(edge[k + 2], x, y, edge[k + 3] + turn * from, turn * (to - from));
  }
}

/** The area that many shapes cover together, and the length of the edge around it (holes included). */
export function unionArea(shapes: readonly Swept[]): { area: number; perimeter: number } {
  const solids = shapes.every(hasArea) ? shapes : shapes.filter(hasArea);
  if (solids.length === 0) return { area: 0, perimeter: 0 };
  const sum = new Integral(...centreOf(solids));
  drawUnion(solids, sum);
  return { area: sum.area, perimeter: sum.length };
}

/** A point amid the shapes: integrals about it lose no figures to a far origin. */
function centreOf(solids: readonly Swept[]): [number, number] {
  let x = 0;
  let y = 0;
  for (const { core } of solids) {
    if (core.kind === 'point') {
      x += core.x;
      y += core.y;
    } else if (core.kind === 'segment') {
      x += core.x0;
      y += core.y0;
    } else if (core.kind === 'arc') {
      x += core.cx;
      y += core.cy;
    } else {
      x += core.points[0];
      y += core.points[1];
    }
  }
  return [x / solids.length, y / solids.length];
}
