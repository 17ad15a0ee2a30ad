/**
 * The distance in space between two solids, with the nearest point of each: a tilted cymbal over a tom, an arm that rises past a drum.
 *
 * Units:  mm.
 * Sign:   > 0 apart, 0 touching. Below 0 only where round tubes are pressed into something by less than their radii; where
 *         solids run into each other farther than that it is -(their radii), `meeting` is set, and there are no nearest points.
 * Exact:  `error` is proven for each answer: the distance lies from gap - error to gap. It ends below 1e-5 mm, nearly always below
 *         1e-6; with a bend or an arc, below 0.02 mm where solids are apart.
 * Inputs: solids made by solids.ts.
 * Source: Gilbert, Johnson, Keerthi, IEEE Journal of Robotics and Automation 4 (1988), 193-203: walk to the point of the
 *         difference of both solids that is nearest to the origin. Along any direction what lies beyond the farthest point (the
 *         support) is empty, which bounds the distance from below, as the point walked to does from above.
 */
import { TAU } from './frame.ts';
import type { ArcCore } from './shapes.ts';
import { ON_ORIGIN_MM, Simplex } from './simplex.ts';
import { ballOf, type Convex, supportInto } from './solidSupport.ts';
import type { Bend, Rod, Solid, Upright } from './solids.ts';

/** Bounds closer together than this are one answer, mm. */
const TOLERANCE_MM = 1e-6;
/** Steps of the walk; a dozen is usual, and what is left open at the end is told as the error. */
const MOST_STEPS = 200;
/** An arc is cut in halves until its stretches bow out of their chords by no more than this. */
const BEND_MM = 0.01;
/** And then a few points of such a stretch are tried, each nearer than the one before. */
const MOST_POINTS = 6;

/** What was found; to be asked again and again. */
export class SpaceGap {
  gap = 0;
  /** How far below `gap` the true distance may lie at most. */
  error = 0;
  meeting = false;
  /** No nearer than the reach that was asked for: `gap` is a bound from below, and there are no nearest points. */
  beyond = false;
  /** The nearest point of a and of b. */
  ax = 0;
  ay = 0;
  az = 0;
  bx = 0;
  by = 0;
  bz = 0;
}

const simplex = new Simplex();

/** Writes both solids' farthest points against each other along the direction, and their difference, into the simplex's next place. */
function nextCorner(a: Convex, b: Convex, dx: number, dy: number, dz: number): void {
  const { corners, ofA, ofB, count } = simplex;
  const at = 3 * count;
  supportInto(a, dx, dy, dz, ofA, at);
  supportInto(b, -dx, -dy, -dz, ofB, at);
  for (let axis = at; axis < at + 3; axis++) corners[axis] = ofA[axis] - ofB[axis];
}

/** Between two convex solids; no need to look on where they are found to be `reach` apart. */
function convexInto(out: SpaceGap, a: Convex, b: Convex, reach: number): void {
  const radii = ballOf(a) + ballOf(b);
  const enough = reach + radii;
  simplex.count = 0;
  nextCorner(a, b, 1, 0, 0);
  simplex.begin();
  let least = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const size = Math.sqrt(simplex.distanceSq);
    if (size <= ON_ORIGIN_MM) {
      out.gap = -radii;
      out.error = 0;
      out.meeting = true;
      out.beyond = false;
      return;
    }
    const { x, y, z } = simplex;
    nextCorner(a, b, -x, -y, -z);
    const at = 3 * simplex.count;
    const { corners: c } = simplex;
    const bound = (c[at] * x + c[at + 1] * y + c[at + 2] * z) / size;
    if (bound > least) least = bound;
    if (least >= enough) {
      out.gap = least - radii;
      out.error = 0;
      out.meeting = false;
      out.beyond = true;
      return;
    }
    if (size - least <= TOLERANCE_MM || !simplex.advance()) break;
  }
  const size = Math.sqrt(simplex.distanceSq);
  out.gap = size - radii;
  out.error = Math.max(0, size - least);
  out.meeting = size <= ON_ORIGIN_MM;
  out.beyond = false;
  pointsInto(out, ballOf(a), ballOf(b), size);
}

/** The two nearest points, moved from the tubes' centre lines to their sides. */
function pointsInto(out: SpaceGap, ballA: number, ballB: number, size: number): void {
  const toA = size > 0 ? ballA / size : 0;
  const toB = size > 0 ? ballB / size : 0;
  const { x, y, z, ofA, ofB } = simplex;
  out.ax = simplex.weighted(ofA, 0) - toA * x;
  out.ay = simplex.weighted(ofA, 1) - toA * y;
  out.az = simplex.weighted(ofA, 2) - toA * z;
  out.bx = simplex.weighted(ofB, 0) + toB * x;
  out.by = simplex.weighted(ofB, 1) + toB * y;
  out.bz = simplex.weighted(ofB, 2) + toB * z;
}

type Bent = Bend | (Upright & { readonly shape: { readonly core: ArcCore } });

const isBent = (solid: Solid): solid is Bent =>
  solid.kind === 'bend' || (solid.kind === 'upright' && solid.shape.core.kind === 'arc');

const coreOf = (bent: Bent): ArcCore => (bent.kind === 'bend' ? bent.core : bent.shape.core);

/** The straight stretch of a bent solid between two angles. */
function chordOf(bent: Bent, from: number, to: number): Rod | Upright {
  const { cx, cy, r } = coreOf(bent);
  const x0 = cx + r * Math.cos(from);
  const y0 = cy + r * Math.sin(from);
  const x1 = cx + r * Math.cos(to);
  const y1 = cy + r * Math.sin(to);
  if (bent.kind === 'bend') return { kind: 'rod', a: [x0, y0, bent.z], b: [x1, y1, bent.z], radius: bent.radius };
  const { shape, z0, z1 } = bent;
  return { kind: 'upright', shape: { core: { kind: 'segment', x0, y0, x1, y1 }, radius: shape.radius }, z0, z1 };
}

/**
 * A bent solid against any other: stretch by stretch. A stretch and its chord are no farther from one another than it bows out of it, so
 * a stretch whose chord is far enough is done with, and any other is cut in halves, the nearer half first. What is answered is the
 * distance from one point of the arc.
 */
function bentInto(out: SpaceGap, a: Bent, b: Solid, reach: number): void {
  const { start, sweep, r } = coreOf(a);
  const found = new SpaceGap();
  let floor = Number.POSITIVE_INFINITY;
  out.gap = Number.POSITIVE_INFINITY;
  out.meeting = false;
  out.beyond = true;
  const visit = (from: number, to: number): void => {
    const bow = r * (1 - Math.cos((to - from) / 2));
    const wanted = Math.min(out.gap, reach);
    solidsInto(found, chordOf(a, from, to), b, wanted + bow);
    const least = found.gap - found.error - bow;
    if (found.beyond || least >= wanted) {
      floor = Math.min(floor, least);
      return;
    }
    const middle = (from + to) / 2;
    // Which half the nearest point of the chord belongs to, and where on it.
    const x = found.ax - coreOf(a).cx;
    const y = found.ay - coreOf(a).cy;
    const along = y * Math.cos(middle) - x * Math.sin(middle);
    if (bow > BEND_MM) {
      const halves = [() => visit(from, middle), () => visit(middle, to)];
      if (along > 0) halves.reverse();
      for (const half of halves) if (!out.meeting) half();
      return;
    }
    floor = Math.min(floor, least);
    // To a point of the arc, from there to the other solid, from there to the arc's nearest point, as long as that comes nearer.
    let angle = middle + Math.min((to - from) / 2, Math.max((from - to) / 2, along / r));
    for (let step = 0; step < MOST_POINTS; step++) {
      solidsInto(found, chordOf(a, angle, angle), b, Number.POSITIVE_INFINITY);
      if (found.gap >= out.gap) return;
      const nearer = out.gap - found.gap;
      Object.assign(out, found);
      if (found.meeting || nearer < TOLERANCE_MM) return;
      const towards = Math.atan2(found.by - coreOf(a).cy, found.bx - coreOf(a).cx) - middle;
      const turned = towards - TAU * Math.round(towards / TAU);
      angle = middle + Math.min((to - from) / 2, Math.max((from - to) / 2, turned));
    }
  };
  const parts = Math.ceil(sweep / (Math.PI / 2));
  for (let k = 0; k < parts && !out.meeting; k++) visit(start + (sweep * k) / parts, start + (sweep * (k + 1)) / parts);
  if (out.beyond) out.gap = floor;
  out.error = Math.max(0, out.gap - floor);
}

/** Between any two solids; `reach`: distances from here on need not be known. */
function solidsInto(out: SpaceGap, a: Solid, b: Solid, reach: number): void {
  if (isBent(a)) bentInto(out, a, b, reach);
  else if (isBent(b)) {
    bentInto(out, b, a, reach);
    const { ax, ay, az, bx, by, bz } = out;
    Object.assign(out, { ax: bx, ay: by, az: bz, bx: ax, by: ay, bz: az });
  } else convexInto(out, a as Convex, b as Convex, reach);
}

/** The distance of two solids; with a reach, only whether they are nearer than that, and then how near. */
export function spaceGap(a: Solid, b: Solid, reach = Number.POSITIVE_INFINITY): SpaceGap {
  const out = new SpaceGap();
  solidsInto(out, a, b, reach);
  return out;
}
