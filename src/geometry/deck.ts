/**
 * Decks: a union of convex modules of any arrangement (L, T, U, with holes, touching or overlapping), and the margin
 * between a body and the deck's edge.
 *
 * A module is a convex polygon's corners x0, y0, x1, y1 ... in either order. prepareDeck() takes the seams away once;
 * ask the result as often as needed.
 *
 * Units:  one length unit (mm) throughout.
 * Sign:   margin >= 0: the body lies on the deck and its nearest point is that far from the edge. Below 0: some point of the
 *         body lies that far from the nearest point of the deck, and none lies farther (directed Hausdorff distance).
 * Exact:  margins >= 0 in closed form; margins < 0 in closed form on a convex deck, else within 1e-9 mm (overhang.ts).
 * Seams:  module edges within FLUSH_MM of each other run together; a wider slit is an edge of the deck. What is clamped together though
 *         it was typed with cracks goes through closeSeams() first.
 * Inputs: modules are checked here. Throws: RangeError where a module is not convex, or for a deck without modules.
 */

import { type Features, featuresOf } from './amid.ts';
import { Cores } from './coreTable.ts';
import { TAU, turn, wrapAngle } from './frame.ts';
import { leastDistance } from './gap.ts';
import { ModuleCircles, type Work } from './moduleCircles.ts';
import { overhang } from './overhang.ts';
import { FLUSH_MM } from './seams.ts';
import { type Core, firstPoint, type PolygonCore, roundedPolygon, type Swept } from './shapes.ts';
import { drawUnion } from './union.ts';
import { signedDistance } from './unionInside.ts';

export interface PreparedDeck {
  /** The modules as shapes of radius 0. */
  readonly modules: readonly Swept[];
  /** Closed loops of corners x0, y0, x1, y1 ...: outer ones counter-clockwise, holes clockwise. */
  readonly outline: readonly (readonly number[])[];
  /** The outline's sides, four numbers each: from, to; the deck is on the left. */
  readonly sides: Float64Array;
  /** The same sides as cores to measure to. */
  readonly sideCores: Cores;
  /** One loop that turns left only. */
  readonly convex: boolean;
  readonly circles: ModuleCircles;
  readonly features: Features;
}

type Modules = readonly (readonly number[])[];

/** Finds the stretches that may begin within 4 FLUSH_MM of a point, in their order. */
function placesOf(stretches: readonly number[][]): (x: number, y: number) => readonly number[] {
  const cell = 16 * FLUSH_MM;
  const at = (v: number) => Math.round(v / cell);
  const cells = new Map<string, number[]>();
  stretches.forEach(([x, y], k) => {
    const key = `${at(x)} ${at(y)}`;
    const before = cells.get(key);
    if (before) before.push(k);
    else cells.set(key, [k]);
  });
  const off = 4 * FLUSH_MM;
  return (x, y) => {
    const found: number[] = [];
    for (const column of new Set([at(x - off), at(x + off)]))
      for (const row of new Set([at(y - off), at(y + off)])) found.push(...(cells.get(`${column} ${row}`) ?? []));
    return found.sort((a, b) => a - b);
  };
}

/** Joins stretches end to start into loops, and drops corners where the outline runs straight on. */
function joinLoops(stretches: readonly number[][]): number[][] {
  const loops: number[][] = [];
  const used = new Array<boolean>(stretches.length).fill(false);
  const startsNear = placesOf(stretches);
  const meets = (ax: number, ay: number, bx: number, by: number) => Math.hypot(ax - bx, ay - by) <= 4 * FLUSH_MM;
  for (let first = 0; first < stretches.length; first++) {
    if (used[first]) continue;
    const loop: number[] = [];
    let at = first;
    for (;;) {
      used[at] = true;
      const [x0, y0, x1, y1] = stretches[at];
      loop.push(x0, y0);
      if (meets(x1, y1, loop[0], loop[1])) break;
      // Where loops touch at a corner, the leftmost way on keeps each loop to its own side.
      let next = -1;
      let leftmost = Number.NEGATIVE_INFINITY;
      for (const k of startsNear(x1, y1)) {
        if (used[k] || !meets(stretches[k][0], stretches[k][1], x1, y1)) continue;
        const ex = stretches[k][2] - stretches[k][0];
        const ey = stretches[k][3] - stretches[k][1];
        const turned = Math.atan2((x1 - x0) * ey - (y1 - y0) * ex, (x1 - x0) * ex + (y1 - y0) * ey);
        if (turned > leftmost) {
          leftmost = turned;
          next = k;
        }
      }
      if (next < 0) break;
      at = next;
    }
    const corners = withoutStraights(loop);
    if (corners.length >= 6) loops.push(corners);
  }
  return loops;
}

/** Drops corners within FLUSH_MM of the line between their neighbours, where the loop runs on rather than back. */
function withoutStraights(loop: readonly number[]): number[] {
  let points = [...loop];
  for (let dropped = true; dropped && points.length >= 6; ) {
    dropped = false;
    const kept: number[] = [];
    const n = points.length;
    for (let i = 0; i < n; i += 2) {
      const x = points[i];
      const y = points[i + 1];
      const px = kept.length > 0 ? kept[kept.length - 2] : points[n - 2];
      const py = kept.length > 0 ? kept[kept.length - 1] : points[n - 1];
      const nx = points[(i + 2) % n];
      const ny = points[(i + 3) % n];
      const ux = nx - px;
      const uy = ny - py;
      const length = Math.hypot(ux, uy);
      const off = Math.abs((x - px) * uy - (y - py) * ux);
      const onward = (x - px) * (nx - x) + (y - py) * (ny - y) >= 0;
      if (!dropped && off <= FLUSH_MM * length && onward) dropped = true;
      else kept.push(x, y);
    }
    points = kept;
  }
  return points;
}

/** Makes a deck ready for many questions. */
export function prepareDeck(modules: Modules): PreparedDeck {
  if (modules.length === 0) throw new RangeError('A deck needs at least one module.');
  const shapes = modules.map((points) => roundedPolygon(withoutStraights(points), 0));
  const stretches: number[][] = [];
  drawUnion(
    shapes,
    {
      segment(x0, y0, x1, y1) {
        if (Math.hypot(x1 - x0, y1 - y0) > FLUSH_MM) stretches.push([x0, y0, x1, y1]);
      },
      arc() {},
    },
    FLUSH_MM,
  );
  const outline = joinLoops(stretches);
  const sides: number[] = [];
  const sideCores = new Cores();
  for (const loop of outline) {
    for (let i = 0; i < loop.length; i += 2) {
      const [x0, y0, x1, y1] = [loop[i], loop[i + 1], loop[(i + 2) % loop.length], loop[(i + 3) % loop.length]];
      sides.push(x0, y0, x1, y1);
      sideCores.add({ kind: 'segment', x0, y0, x1, y1 });
    }
  }
  const flat = new Float64Array(sides);
  return {
    modules: shapes,
    outline,
    sides: flat,
    features: featuresOf(flat),
    sideCores,
    convex: isConvex(outline),
    circles: new ModuleCircles(shapes),
  };
}

function isConvex(outline: readonly (readonly number[])[]): boolean {
  if (outline.length !== 1) return false;
  const p = outline[0];
  for (let i = 0; i < p.length; i += 2) {
    const j = (i + 2) % p.length;
    const k = (i + 4) % p.length;
    if (turn(p[i], p[i + 1], p[j], p[j + 1], p[k], p[k + 1]) <= 0) return false;
  }
  return true;
}

function prepared(deck: PreparedDeck | Modules): PreparedDeck {
  return 'modules' in deck ? deck : prepareDeck(deck);
}

/** The deck's edge as closed loops, seams gone: outer loops counter-clockwise, holes clockwise. */
export function deckOutline(deck: PreparedDeck | Modules): number[][] {
  return prepared(deck).outline.map((loop) => [...loop]);
}

/** Whether a point lies on the deck; its edge and anything within FLUSH_MM of it count as on. */
export function pointInDeck(deck: PreparedDeck | Modules, x: number, y: number): boolean {
  return prepared(deck).modules.some((module) => signedDistance(module, x, y) <= FLUSH_MM);
}

/** The farthest that a core reaches out of a convex polygon; below 0 the least depth inside it. */
function coreOut(core: Core, module: Swept): number {
  const out = (x: number, y: number) => signedDistance(module, x, y);
  switch (core.kind) {
    case 'point':
      return out(core.x, core.y);
    case 'segment':
      return Math.max(out(core.x0, core.y0), out(core.x1, core.y1));
    case 'polygon': {
      let most = Number.NEGATIVE_INFINITY;
      for (let i = 0; i < core.points.length; i += 2) most = Math.max(most, out(core.points[i], core.points[i + 1]));
      return most;
    }
    case 'arc': {
      // Farthest out along the bend: at an end, straight out from a side, or straight away from a corner.
      const { cx, cy, r, start, sweep } = core;
      const at = (angle: number) => out(cx + r * Math.cos(angle), cy + r * Math.sin(angle));
      let most = Math.max(at(start), at(start + sweep));
      const p = (module.core as PolygonCore).points;
      for (let i = 0; i < p.length; i += 2) {
        const j = (i + 2) % p.length;
        for (const angle of [Math.atan2(p[i] - p[j], p[j + 1] - p[i + 1]), Math.atan2(cy - p[i + 1], cx - p[i])])
          if (sweep >= TAU || wrapAngle(angle - start) <= sweep) most = Math.max(most, at(angle));
      }
      return most;
    }
  }
}

/** The margin between a body and the deck's edge; below 0, how far the body sticks out. */
export function deckMargin(deck: PreparedDeck | Modules, shape: Swept, work?: Work): number {
  const ready = prepared(deck);
  const { core, radius } = shape;
  if (ready.convex) {
    const points = ready.outline[0];
    return -coreOut(core, { core: { kind: 'polygon', points }, radius: 0 }) - radius;
  }
  const nearest = leastDistance(core, ready.sideCores);
  // Clear of every side, the core is wholly on the deck or wholly off it, and any of its points tells which.
  if (nearest >= radius && nearest > FLUSH_MM && pointInDeck(ready, ...firstPoint(core))) return nearest - radius;
  const out = overhang(shape, ready.circles, ready.features, work);
  return out > 0 ? -out : Math.max(0, nearest - radius);
}
